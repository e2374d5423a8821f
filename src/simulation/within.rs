//! What several machines may not go beyond in one hour: what of a stored fuel may burn (the household
//! draws on it too), what a stove was given for the day, what heat or cooling an outdoor unit can give to
//! its heads.
//!
//! Wishes first; whatever is short shrinks all its heaters by one share, and the zones run again so
//! that whoever comes next takes over. Start at [`within`].

use super::bound::{Bound, BoundBy};
use super::kernel::{Heater, MOST_HEATERS, ZoneOutcome};
use super::plan::{OptionPlan, PlannedHeater};
use super::state::{FuelLimits, OptionState};
use crate::equipment::output::{MachineHour, Output};
use crate::fuel::FuelId;

/// What one machine may do in an hour.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Most {
    /// The most of its own fuel that it may burn, kWh; nothing where that has no limit.
    pub(super) draw: Option<f64>,
    /// The most heat or cooling that it may give, kW; nothing where only its own map bounds it.
    pub(super) heat: Option<f64>,
}

/// The place of a zone's cooler, behind those of its heaters.
pub(super) const COOLER: usize = MOST_HEATERS;

/// What each heater of one zone may do, and its cooler.
pub(super) type ZoneMost = [Most; MOST_HEATERS + 1];

/// What everything may draw in an hour.
pub(super) struct Allowed {
    /// The heaters, by zone.
    pub(super) zones: Vec<ZoneMost>,
    /// The household's draws, kWh.
    pub(super) household: Vec<f64>,
    /// What was asked beyond what an outdoor unit can give.
    pub(super) short_units: Vec<ShortUnit>,
}

/// An outdoor unit whose heads asked for more than it can give.
pub(super) struct ShortUnit {
    /// What it can give, kW.
    pub(super) allowed: f64,
    /// What they asked for together, kW.
    pub(super) wanted: f64,
    /// Each head's zone and place, and what it asked for, kW.
    pub(super) asked: Vec<((usize, usize), f64)>,
}

impl Most {
    /// Whatever the machine can.
    pub(super) const NONE: Self = Self { draw: None, heat: None };

    /// The heater so bound in hour `i`; `strips_kw` of its output are strips', which the bound is not about.
    #[inline(always)]
    pub(super) fn heater(self, planned: &PlannedHeater, i: usize, strips_kw: f64) -> Heater<f64> {
        let most = Self { heat: self.heat.map(|kw| if kw > 0.0 { kw + strips_kw } else { 0.0 }), ..self };
        Heater {
            machine: most.of(*planned.hours.at(i)),
            cycling_loss: planned.cycling_loss,
            ducts: planned.ducts,
            before_ducts: planned.before_ducts,
            fuel_most: self.draw,
        }
    }

    /// The hour of a machine that may give no more heat or cooling than that.
    #[inline(always)]
    pub(super) fn of(self, machine: MachineHour<f64>) -> MachineHour<f64> {
        let greatest = self.heat.map_or(machine.greatest, |most| machine.greatest.min(most));
        MachineHour { greatest, ..machine }
    }

    /// The share of an output that is left of it, 0 to 1.
    fn share_of(&self, output: &Output<f64>) -> f64 {
        let share = |most: Option<f64>, is: f64| match most {
            Some(most) if is > most => most / is,
            _ => 1.0,
        };
        share(self.draw, output.draw).min(share(self.heat, output.heat))
    }
}

/// One thing that bounds some machines in one hour.
pub(super) struct Cap<'a> {
    of: CapOf<'a>,
    /// What they may take together, kWh.
    allowed: f64,
    /// Whether they were shrunk for it already.
    done: bool,
}

enum CapOf<'a> {
    Fuel(FuelId),
    Bound(&'a Bound),
}

impl Cap<'_> {
    /// Whether it bounds the machine of that zone and place, and of that fuel if it burns one.
    fn holds(&self, at: (usize, usize), fuel: Option<FuelId>) -> bool {
        match self.of {
            CapOf::Fuel(_) => fuel.is_some_and(|fuel| self.is_of(fuel)),
            CapOf::Bound(bound) => bound.machines.contains(&at),
        }
    }

    /// Whether it bounds whatever draws that fuel.
    fn is_of(&self, fuel: FuelId) -> bool {
        matches!(self.of, CapOf::Fuel(own) if own == fuel)
    }

    /// Whether it bounds what is given, rather than what is burned.
    fn is_of_output(&self) -> bool {
        matches!(self.of, CapOf::Bound(Bound { by: BoundBy::OutdoorUnit(_), .. }))
    }

    /// What a machine takes of it, kWh, where `strips_kwh` of its output are strips'.
    fn taken(&self, output: &Output<f64>, strips_kwh: f64) -> f64 {
        if self.is_of_output() { output.heat - strips_kwh } else { output.draw }
    }

    /// The slot of a machine's bounds that this one fills.
    fn slot<'m>(&self, most: &'m mut Most) -> &'m mut Option<f64> {
        if self.is_of_output() { &mut most.heat } else { &mut most.draw }
    }
}

/// Everything that bounds machines of `plan` in hour `i`.
pub(super) fn caps<'a>(
    plan: &'a OptionPlan,
    i: usize,
    left_kwh: &[f64],
    limits: &FuelLimits,
) -> Vec<Cap<'a>> {
    let fuels = limits.iter().map(|limit| {
        let allowed = limit.left_kwh.min(limit.greatest_kw).max(0.0);
        Cap { of: CapOf::Fuel(limit.fuel), allowed, done: false }
    });
    let bounds = plan.bounds.iter().zip(left_kwh).map(|(bound, left)| {
        let allowed = match &bound.by {
            BoundBy::DailyFuelling(_) => *left,
            BoundBy::OutdoorUnit(hours) => hours.at(i).greatest,
        };
        Cap { of: CapOf::Bound(bound), allowed, done: false }
    });
    fuels.chain(bounds).collect()
}

/// Runs every zone of an hour by `run` until nothing is beyond its cap; gives what each machine was
/// allowed and what came of it.
pub(super) fn within(
    plan: &OptionPlan,
    i: usize,
    mut caps: Vec<Cap<'_>>,
    run: impl Fn(usize, &ZoneMost) -> Option<ZoneOutcome<f64>>,
) -> (Allowed, Vec<ZoneOutcome<f64>>) {
    let mut allowed = Allowed {
        zones: vec![[Most::NONE; COOLER + 1]; plan.zones.len()],
        household: plan.household.draws.iter().map(|draw| draw.at(i)).collect(),
        short_units: Vec::new(),
    };
    loop {
        let outcomes: Vec<_> = allowed.zones.iter().enumerate().filter_map(|(z, m)| run(z, m)).collect();
        // Who takes over from a short one can go beyond its own cap, so once more for each.
        if !shrink(plan, i, &outcomes, &mut caps, &mut allowed) {
            return (allowed, outcomes);
        }
    }
}

/// Shrinks the machines, and household draws, of every cap that they go beyond for the first time; tells
/// whether there was one. A machine that wanted nothing then gets nothing.
fn shrink(
    plan: &OptionPlan,
    i: usize,
    outcomes: &[ZoneOutcome<f64>],
    caps: &mut [Cap<'_>],
    allowed: &mut Allowed,
) -> bool {
    let mut any = false;
    for cap in caps.iter_mut().filter(|cap| !cap.done) {
        let mut held = Vec::new();
        for (z, ((zone, outcome), most)) in
            plan.zones.iter().zip(outcomes).zip(&mut allowed.zones).enumerate()
        {
            let fuels =
                std::array::from_fn::<_, { COOLER + 1 }, _>(|place| Some(zone.heaters.get(place)?.fuel));
            let outputs = outcome.heaters.iter().chain([&outcome.cooler]);
            let machines = fuels.into_iter().zip(outputs).zip(most).enumerate();
            let machines = machines.filter(|(place, ((fuel, _), _))| cap.holds((z, *place), *fuel));
            let strips_kw = zone.defrost_kw.get(i).copied().unwrap_or_default();
            held.extend(machines.map(|(place, ((_, output), most))| {
                let strips_kwh = if place == 0 { strips_kw * output.running } else { 0.0 };
                ((z, place), cap.taken(output, strips_kwh) * most.share_of(output), most)
            }));
        }
        let household = plan.household.draws.iter().zip(&mut allowed.household);
        let household: Vec<_> =
            household.filter(|(draw, _)| cap.is_of(draw.fuel)).map(|(_, kwh)| kwh).collect();
        let machines = held.iter().map(|(_, taken, _)| taken);
        let wanted = household.iter().map(|kwh| **kwh).sum::<f64>() + machines.sum::<f64>();
        if wanted <= cap.allowed {
            continue;
        }
        (cap.done, any) = (true, true);
        if cap.is_of_output() {
            let asked = held.iter().map(|(at, taken, _)| (*at, *taken)).collect();
            allowed.short_units.push(ShortUnit { allowed: cap.allowed, wanted, asked });
        }
        for (_, taken, most) in held {
            *cap.slot(most) = Some(taken * (cap.allowed / wanted));
        }
        for kwh in household {
            *kwh *= cap.allowed / wanted;
        }
    }
    any
}

/// What heaters and household drew of a fuel, kWh.
pub(super) fn drawn(
    plan: &OptionPlan,
    outcomes: &[ZoneOutcome<f64>],
    allowed: &Allowed,
    fuel: FuelId,
) -> f64 {
    let household = plan.household.draws.iter().zip(&allowed.household);
    let household: f64 = household.filter(|(draw, _)| draw.fuel == fuel).map(|(_, kwh)| kwh).sum();
    let zones = plan.zones.iter().zip(outcomes);
    let heaters = zones.flat_map(|(zone, outcome)| zone.heaters.iter().zip(&outcome.heaters));
    household + heaters.filter(|(h, _)| h.fuel == fuel).map(|(_, output)| output.draw).sum::<f64>()
}

impl OptionState {
    /// Takes what an hour used off what is left until midnight.
    pub(super) fn take(&mut self, plan: &OptionPlan, outcomes: &[ZoneOutcome<f64>]) {
        for (left, bound) in self.left_kwh.iter_mut().zip(&plan.bounds) {
            let used = |at: &(usize, usize)| Some(outcomes.get(at.0)?.heaters.get(at.1)?.draw);
            *left = (*left - bound.machines.iter().filter_map(used).sum::<f64>()).max(0.0);
        }
    }
}
