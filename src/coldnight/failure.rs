//! Something fails in the coldest days and takes time to mend; the rest does what it can.
//!
//! The hours are the simulation's own, with the failed machines off. Start at [`Failures`].

use crate::equipment::{Machine, MachineKind};
use crate::simulation::comfort::Comfort;
use crate::simulation::design::{OptionDesign, ZoneDesign};
use crate::simulation::plan::OptionPlan;
use crate::simulation::record::{Sink, ZoneRecord};
use crate::simulation::{FuelLimits, OptionState, advance};

/// Every failure of an option in the coldest days of the weather.
#[derive(Debug, Clone, PartialEq)]
pub struct Failures {
    /// The hour of the run, a midnight in standard time, at which the days begin.
    pub first_hour: usize,
    /// Days that the repair takes.
    pub days: usize,
    /// Mean outdoor temperature of those days, °C.
    pub mean_outdoor_c: f64,
    /// One run a group, in the order of zones; empty if nothing can fail.
    pub runs: Vec<FailureRun>,
}

/// Machines that stop together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FailureGroup {
    /// What fails.
    pub part: FailedPart,
    /// The zone they serve; of an outdoor unit, the first of them.
    pub zone: usize,
    /// The machines, as places in the list of machines.
    pub machines: Vec<usize>,
}

/// What fails.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FailedPart {
    /// A heat pump's outdoor unit; all heads of it stop.
    OutdoorUnit,
    /// One head of an outdoor unit that others share.
    Head,
    /// A burner.
    Burner,
    /// Strips or baseboards.
    ResistanceHeater,
    /// The blower that all ducted machines of a zone share.
    Blower,
}

/// What came of one failure.
#[derive(Debug, Clone, PartialEq)]
pub struct FailureRun {
    /// What failed.
    pub group: FailureGroup,
    /// How warm each zone was through those days.
    pub zones: Vec<Comfort>,
}

impl FailureRun {
    /// The lowest room temperature of any zone, °C, where rooms have one.
    pub fn lowest_room_c(&self) -> Option<f64> {
        let rooms = self.zones.iter().filter_map(|z| z.room.as_ref());
        rooms.map(|r| r.lowest_c).min_by(f64::total_cmp)
    }

    /// Hours that some room ended below 45 °F, the most of any zone.
    pub fn hours_below_45f(&self) -> Option<usize> {
        self.zones.iter().filter_map(|z| z.room.as_ref()).map(|r| r.hours_below_45f).max()
    }

    /// Worse runs come first: the lower room, then the more heat lacking.
    fn rank(&self) -> (f64, f64) {
        let lacking: f64 = self.zones.iter().map(|z| z.heat_not_delivered_kwh).sum();
        (self.lowest_room_c().unwrap_or(f64::INFINITY), -lacking)
    }
}

impl Failures {
    /// Runs every failure of `design`; nothing where the plan has no whole day.
    pub fn new(
        design: &OptionDesign,
        machines: &[Machine],
        plan: &OptionPlan,
        repair_days: usize,
    ) -> Option<Self> {
        let (first_hour, days) = coldest_days(&plan.outdoor_c, repair_days)?;
        let plan = plan.part(&(first_hour..first_hour + 24 * days));
        let run = |group: FailureGroup| {
            let zones = run_without(&plan, &group.machines);
            FailureRun { group, zones }
        };
        Some(Self {
            first_hour,
            days,
            mean_outdoor_c: plan.outdoor_c.iter().sum::<f64>() / (24 * days) as f64,
            runs: groups(design, machines).into_iter().map(run).collect(),
        })
    }

    /// The failure that leaves a room the coldest; the first of equals.
    pub fn worst(&self) -> Option<&FailureRun> {
        self.worst_of(|_| true)
    }

    /// The worst failure of one machine: the blower, which takes all ducted machines with it, left out.
    pub fn worst_machine(&self) -> Option<&FailureRun> {
        self.worst_of(|part| part != FailedPart::Blower)
    }

    /// The worst failure of a blower, where there are ducts.
    pub fn worst_blower(&self) -> Option<&FailureRun> {
        self.worst_of(|part| part == FailedPart::Blower)
    }

    fn worst_of(&self, counts: impl Fn(FailedPart) -> bool) -> Option<&FailureRun> {
        let runs = self.runs.iter().filter(|run| counts(run.group.part));
        runs.min_by(|a, b| {
            let (a, b) = (a.rank(), b.rank());
            a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1))
        })
    }
}

/// First hour and number of the days of lowest mean temperature: `days` of them, fewer if there are
/// not so many.
///
/// ```
/// use winterledger::coldnight::failure::coldest_days;
/// let mut outdoor_c = vec![0.0; 24 * 6];
/// outdoor_c[24 * 2..24 * 4].fill(-10.0);
/// assert_eq!(coldest_days(&outdoor_c, 2), Some((48, 2)));
/// ```
pub fn coldest_days(outdoor_c: &[f64], days: usize) -> Option<(usize, usize)> {
    let sums: Vec<f64> = outdoor_c.chunks_exact(24).map(|day| day.iter().sum()).collect();
    let days = days.clamp(1, sums.len().max(1));
    let spans = sums.windows(days).map(|span| span.iter().sum::<f64>()).enumerate();
    let (first, _) = spans.min_by(|a, b| a.1.total_cmp(&b.1))?;
    Some((24 * first, days))
}

/// What can fail in an option: each heater by itself, and the blower of each zone with ducts.
pub fn groups(design: &OptionDesign, machines: &[Machine]) -> Vec<FailureGroup> {
    let mut groups = Vec::new();
    for (z, zone) in design.zones.iter().enumerate() {
        let heaters = || zone.heaters.iter().filter_map(|i| Some((*i, machines.get(*i)?)));
        for (i, machine) in heaters() {
            let Some(part) = own_part(machine) else { continue };
            groups.push(FailureGroup { part, zone: z, machines: vec![i] });
        }
        let ducted: Vec<usize> = heaters().filter(|(_, m)| m.ducted).map(|(i, _)| i).collect();
        if !ducted.is_empty() {
            groups.push(FailureGroup { part: FailedPart::Blower, zone: z, machines: ducted });
        }
    }
    groups.extend(shared_units(design, machines));
    groups
}

/// Every outdoor unit that heads of the option share, with all of them.
fn shared_units(design: &OptionDesign, machines: &[Machine]) -> Vec<FailureGroup> {
    let groups = (0..machines.len()).filter_map(|unit| {
        let on_it = |i: &usize| machines.get(*i).is_some_and(|m| m.outdoor_unit == Some(unit));
        let heads = |zone: &ZoneDesign| zone.heaters.iter().copied().filter(on_it).collect::<Vec<_>>();
        let zone = design.zones.iter().position(|z| !heads(z).is_empty())?;
        let machines = design.zones.iter().flat_map(heads).collect();
        Some(FailureGroup { part: FailedPart::OutdoorUnit, zone, machines })
    });
    groups.collect()
}

/// The part of a heater whose failure stops it alone.
fn own_part(machine: &Machine) -> Option<FailedPart> {
    match machine.kind {
        MachineKind::HeatPump if machine.outdoor_unit.is_some() => Some(FailedPart::Head),
        MachineKind::HeatPump => Some(FailedPart::OutdoorUnit),
        MachineKind::Furnace | MachineKind::Boiler | MachineKind::WallHeater | MachineKind::PelletStove => {
            Some(FailedPart::Burner)
        }
        MachineKind::Resistance => Some(FailedPart::ResistanceHeater),
        // A stove filled by hand has nothing in it that fails.
        MachineKind::WoodStove | MachineKind::AirConditioner | MachineKind::OutdoorUnit => None,
    }
}

/// The zones' comfort through all hours of `plan` with `machines` off, every room at its set point as
/// they begin.
pub fn run_without(plan: &OptionPlan, machines: &[usize]) -> Vec<Comfort> {
    let broken = plan.without(machines);
    let mut state = OptionState::at_set_point(&broken);
    let mut rooms = Rooms(vec![Comfort::default(); broken.zones.len()]);
    advance(&broken, 0..broken.outdoor_c.len(), &mut state, &mut FuelLimits::none(), &mut rooms);
    rooms.0
}

/// Keeps how warm each zone was.
struct Rooms(Vec<Comfort>);

impl Sink for Rooms {
    fn take(&mut self, record: &ZoneRecord<'_>) {
        if let Some(zone) = self.0.get_mut(record.zone) {
            zone.count(record);
        }
    }
}
