//! The temperature that a machine's map goes by: the outdoors', or what a ground loop brings back.
//!
//! Start at [`heating_source_c`].

use crate::calendar::Stamp;
use crate::equipment::Machine;
use crate::load::Zone;
use crate::weather::OutdoorRun;

/// For heating, °C, when it is `outdoor_c` outside on a day of the year; without a day, in the ground's
/// coldest.
///
/// The loop's drawdown goes with the zone's steady need at its ordinary set point, not with what a
/// set-back asks for in one hour: a loop answers in days.
pub fn heating_source_c(machine: &Machine, zone: &Zone, outdoor_c: f64, day: Option<f64>) -> f64 {
    let entering = |l: &crate::equipment::ground::GroundLoop| l.entering_c(day, zone.design_share(outdoor_c));
    machine.ground.as_ref().map_or(outdoor_c, entering)
}

/// For cooling, °C; without a day, in the ground's warmest.
pub fn cooling_source_c(machine: &Machine, zone: &Zone, outdoor_c: f64, day: Option<f64>) -> f64 {
    let share = zone.cooling_design_share(outdoor_c);
    machine.ground.as_ref().map_or(outdoor_c, |l| l.cooling_entering_c(day, share))
}

/// Every hour of a run by `source`; the outdoors' own where the machine has no loop.
pub(super) fn hours(
    machine: &Machine,
    zone: &Zone,
    run: &OutdoorRun,
    source: impl Fn(&Machine, &Zone, f64, Option<f64>) -> f64,
) -> Option<Vec<f64>> {
    machine.ground?;
    let hours = run.dry_bulb_c.iter().zip(run.calendar.stamps());
    Some(hours.map(|(t, stamp)| source(machine, zone, *t, Some(day_of_year(*stamp)))).collect())
}

/// The middle of the stamp's day, counted from the year's beginning.
pub fn day_of_year(stamp: Stamp) -> f64 {
    const BEFORE: [u16; 12] = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334];
    let before = BEFORE.get(usize::from(stamp.month).saturating_sub(1)).copied().unwrap_or_default();
    f64::from(before) + f64::from(stamp.day) - 0.5
}
