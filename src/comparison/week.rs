//! The coldest days of the weather, hour by hour, for one option and zone: outdoors, room, heat.
//!
//! Start at [`coldest_days_of`].

use super::laid::laid;
use super::{Comparison, RunWeather};
use crate::calendar::Stamp;
use crate::coldnight::failure::coldest_days;
use crate::simulation::record::{Sink, ZoneRecord};
use crate::simulation::{FuelLimits, OptionState, advance};

/// One zone through some days.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ColdDays {
    /// The clock at the beginning of each day.
    pub days: Vec<Stamp>,
    /// Outdoors in each hour, °C.
    pub outdoor_c: Vec<f64>,
    /// The room at the end of each hour, °C.
    pub room_c: Vec<f64>,
    /// Heat that the first machine brings into the rooms, kW.
    pub first_kw: Vec<f64>,
    /// Heat of all others, kW.
    pub others_kw: Vec<f64>,
}

/// The `days` days of lowest mean temperature; fuel is taken to be there. Nothing where the weather has no
/// hours, or there is no such option or zone.
pub fn coldest_days_of(c: &Comparison, option: usize, zone: usize, days: usize) -> Option<ColdDays> {
    let RunWeather::Year(year) = &c.weather else { return None };
    let run = year.run(c.site.zone);
    let design = &c.options.get(option)?.design;
    design.zones.get(zone)?;
    let plan = laid(&c.setting(), design, &run);
    let (first, days) = coldest_days(&plan.outdoor_c, days)?;
    let span = first..first + 24 * days;
    let mut kept = Kept { zone, first, days: ColdDays::default() };
    advance(&plan, 0..span.end, &mut OptionState::at_set_point(&plan), &mut FuelLimits::none(), &mut kept);
    let stamps = run.calendar.stamps().get(span)?.iter().step_by(24).copied();
    Some(ColdDays { days: stamps.collect(), ..kept.days })
}

/// Keeps one zone's hours from the first that is asked for.
struct Kept {
    zone: usize,
    first: usize,
    days: ColdDays,
}

impl Sink for Kept {
    fn take(&mut self, record: &ZoneRecord<'_>) {
        if record.zone != self.zone || record.hour < self.first {
            return;
        }
        let heaters = record.plan.heaters.iter().zip(&record.outcome.heaters);
        let mut heats = heaters.map(|(heater, output)| output.heat * heater.ducts);
        let days = &mut self.days;
        days.outdoor_c.push(record.outdoor_c);
        days.room_c.push(record.outcome.end_c);
        days.first_kw.push(heats.next().unwrap_or_default());
        days.others_kw.push(heats.sum());
    }
}
