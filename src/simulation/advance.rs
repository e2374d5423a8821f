//! Advances one option through a span of hours: hours outside, zones inside.
//!
//! Never knows a tank; whoever drives it hands in [`FuelLimits`]. Start at [`advance`].

use std::ops::Range;

use super::end_use::EndUse;
use super::folds::Folds;
use super::kernel::{Cooler, Handover, Heater, MOST_HEATERS, ZoneHour, ZoneOutcome, ample_hour, hour};
use super::plan::{OptionPlan, PlannedHeater, ZonePlan};
use super::record::{Nothing, Sink, ZoneRecord};
use super::state::{
    FuelLimits, LONGEST_RECOVERY_H, OptionState, RECOVERED_WITHIN_K, REJOINED_WITHIN_K, ZoneState,
};
use super::within::{Allowed, COOLER, Most, ShortUnit, caps, drawn, within};
use super::working::{Step, tell_defrosting, tell_recovering, tell_shared};

/// Runs the hours `span` of `plan` from `state`, within `limits`, handing every zone's hour to `sink`.
///
/// `state` and `limits` are left as they stand at the end of the span. Hours beyond the plan's are
/// left out.
pub fn advance<S: Sink>(
    plan: &OptionPlan,
    span: Range<usize>,
    state: &mut OptionState,
    limits: &mut FuelLimits,
    sink: &mut S,
) {
    let end = span.end.min(plan.outdoor_c.len());
    for i in span.start.min(end)..end {
        if limits.is_empty() && plan.bounds.is_empty() {
            for draw in &plan.household.draws {
                sink.take_household(i, draw, draw.at(i));
            }
            for (z, (zone, at)) in plan.zones.iter().zip(&mut state.zones).enumerate() {
                // How many heaters there are, and whether the zone has controls beyond the ordinary, is
                // settled first, so that the kernel's loops over them are of known length.
                match zone.heaters.len() {
                    1 if zone.is_plain => free_hour::<1, true, S>(plan, (z, zone), i, at, sink),
                    2 if zone.is_plain => free_hour::<2, true, S>(plan, (z, zone), i, at, sink),
                    _ => free_hour::<MOST_HEATERS, false, S>(plan, (z, zone), i, at, sink),
                }
            }
        } else {
            if i.is_multiple_of(24) {
                state.refill(plan);
            }
            bound_hour(plan, i, state, limits, sink);
        }
    }
}

/// One zone's hour in which nothing bounds a heater.
#[inline(always)]
fn free_hour<const N: usize, const PLAIN: bool, S: Sink>(
    plan: &OptionPlan,
    (z, zone): (usize, &ZonePlan),
    i: usize,
    at: &mut ZoneState,
    sink: &mut S,
) {
    let recovering = recovers(zone, value(&zone.set_points_c, i), at);
    let outcome = zone_hour::<N, PLAIN>(plan, zone, i, (at, recovering), |_| Most::NONE);
    settle(plan, (z, zone), i, (at, recovering), (&outcome, Most::NONE), sink);
}

/// One hour in which something bounds what is drawn: whatever is short is shared by one share, and
/// whoever comes next takes over.
fn bound_hour<S: Sink>(
    plan: &OptionPlan,
    i: usize,
    state: &mut OptionState,
    limits: &mut FuelLimits,
    sink: &mut S,
) {
    let recovering = all_recover(plan, i, state);
    let (allowed, outcomes) = bound_outcomes(plan, i, (state, &recovering), limits);
    limits.take(|fuel| drawn(plan, &outcomes, &allowed, fuel));
    state.take(plan, &outcomes);
    for (draw, kwh) in plan.household.draws.iter().zip(&allowed.household) {
        sink.take_household(i, draw, *kwh);
    }
    let outcomes = outcomes.iter().zip(&allowed.zones);
    let zones = plan.zones.iter().zip(state.zones.iter_mut().zip(&recovering)).zip(outcomes);
    for (z, ((zone, (at, recovering)), (outcome, most))) in zones.enumerate() {
        let cooler = most.get(COOLER).copied().unwrap_or(Most::NONE);
        settle(plan, (z, zone), i, (at, *recovering), (outcome, cooler), sink);
    }
}

/// Whether the hour that begins belongs to a recovery, zone by zone.
fn all_recover(plan: &OptionPlan, i: usize, state: &mut OptionState) -> Vec<bool> {
    let zones = plan.zones.iter().zip(&mut state.zones);
    zones.map(|(zone, at)| recovers(zone, value(&zone.set_points_c, i), at)).collect()
}

fn bound_outcomes(
    plan: &OptionPlan,
    i: usize,
    (state, recovering): (&OptionState, &[bool]),
    limits: &FuelLimits,
) -> (Allowed, Vec<ZoneOutcome<f64>>) {
    within(plan, i, caps(plan, i, &state.left_kwh, limits), |z, most| {
        let (zone, at) = (plan.zones.get(z)?, state.zones.get(z)?);
        let recovering = recovering.get(z).copied().unwrap_or_default();
        let bound = |place| most.get(place).copied().unwrap_or(Most::NONE);
        Some(zone_hour::<MOST_HEATERS, false>(plan, zone, i, (at, recovering), bound))
    })
}

/// One zone's hour with `N` heaters, or up to the most there may be; a `PLAIN` one is spared what
/// only other zones have.
#[inline(always)]
fn zone_hour<const N: usize, const PLAIN: bool>(
    plan: &OptionPlan,
    zone: &ZonePlan,
    i: usize,
    (at, recovering): (&ZoneState, bool),
    most: impl Fn(usize) -> Most,
) -> ZoneOutcome<f64> {
    // Through a closure the kernel is laid in here; a bare name would be called, at three times the cost.
    let start = (at.room_c, recovering);
    let run = |zone_hour: &ZoneHour<'_, f64>| hour(zone_hour);
    if PLAIN {
        return with_zone_hour::<N, PLAIN, _>(plan, zone, i, start, most, (|_| (), run));
    }
    let mut folds = None;
    let lay = |heaters: &mut [Heater<f64>]| folds = lay(plan, zone, i, heaters);
    let mut outcome = with_zone_hour::<N, PLAIN, _>(plan, zone, i, start, most, (lay, run));
    if let Some(folds) = folds {
        folds.unfold(&mut outcome);
    }
    outcome
}

/// Lays on the zone's heaters of hour `i` what few zones have: a furnace that tempers, ducts by output.
#[inline(never)]
fn lay(plan: &OptionPlan, zone: &ZonePlan, i: usize, heaters: &mut [Heater<f64>]) -> Option<Folds> {
    let tempering = zone.tempering.as_ref().filter(|(_, hours)| hours.get(i).is_some_and(|on| *on));
    let tempering = tempering.map(|(tempering, _)| {
        let worth = zone.handover.as_ref().and_then(|h| h.worth(i));
        let kept = zone.heaters.first().map_or(1.0, |first| first.ducts);
        let outdoor_c = value(&plan.outdoor_c, i);
        let locked_out = zone.handover.as_ref().is_some_and(|h| outdoor_c < h.lockout_c);
        (*tempering, (worth.map_or(0.0, |worth| worth.alternate_in_electricity()), kept), locked_out)
    });
    let ducts = zone.duct_line.as_ref().map(|line| (line, value(&plan.outdoor_c, i)));
    if tempering.is_none() && ducts.is_none() {
        return None;
    }
    let ducted = |place: usize| zone.heaters.get(place).is_some_and(|h| h.ducted);
    Some(Folds::lay(heaters, tempering, ducts, ducted, zone.handover.is_some()))
}

/// The arithmetic of hour `i` of the zone of that place, from the beginning of the run with ample
/// fuel; nothing if there is no such zone or hour.
pub fn work_hour(plan: &OptionPlan, zone: usize, i: usize) -> Option<(Vec<Step>, ZoneOutcome<f64>)> {
    let planned = plan.zones.get(zone).filter(|_| i < plan.outdoor_c.len())?;
    let mut state = OptionState::at_set_point(plan);
    advance(plan, 0..i, &mut state, &mut FuelLimits::none(), &mut Nothing);
    if i.is_multiple_of(24) {
        state.refill(plan);
    }
    let recovering = all_recover(plan, i, &mut state);
    let (allowed, _) = bound_outcomes(plan, i, (&state, &recovering), &FuelLimits::none());
    let most = allowed.zones.get(zone)?;
    let bound = |place| most.get(place).copied().unwrap_or(Most::NONE);
    let start = (state.zones.get(zone)?.room_c, recovering.get(zone).copied().unwrap_or_default());
    let folds = std::cell::Cell::new(None);
    let lay = |heaters: &mut [Heater<f64>]| folds.set(lay(plan, planned, i, heaters));
    let run = |zone_hour: &ZoneHour<'_, f64>| folds.get().unwrap_or_default().work(zone_hour);
    let (mut steps, outcome) =
        with_zone_hour::<MOST_HEATERS, false, _>(plan, planned, i, start, bound, (lay, run));
    tell_defrosting(&mut steps, planned.defrost_kw.get(i).copied(), planned.bank.is_some());
    for unit in &allowed.short_units {
        tell_shared(&mut steps, zone, &asked_of(plan, unit), (unit.allowed, unit.wanted));
    }
    if start.1 {
        let left = state.zones.get(zone)?.recovery_left;
        tell_recovering(&mut steps, LONGEST_RECOVERY_H - left, held_back(planned));
    }
    let kw = standby_kwh(planned, &outcome);
    if kw > 0.0 {
        steps.push(Step::Standby { kw });
    }
    Some((steps, outcome))
}

/// What each head asked of its outdoor unit: zone, place, place in the list of machines, kW.
fn asked_of(plan: &OptionPlan, unit: &ShortUnit) -> Vec<(usize, usize, usize, f64)> {
    let machine = |(z, place): (usize, usize)| {
        let zone = plan.zones.get(z)?;
        let cooler = || zone.cooler.as_ref().filter(|_| place == COOLER).map(|c| c.machine);
        zone.heaters.get(place).map(|h| h.machine).or_else(cooler)
    };
    unit.asked.iter().filter_map(|(at, kw)| Some((at.0, at.1, machine(*at)?, *kw))).collect()
}

/// Places of the heaters that a staged recovery holds back.
fn held_back(zone: &ZonePlan) -> Vec<usize> {
    let backup = |(place, h): (usize, &PlannedHeater)| (h.end_use == EndUse::BackupHeat).then_some(place);
    if zone.staged_recovery {
        zone.heaters.iter().enumerate().filter_map(backup).collect()
    } else {
        Vec::new()
    }
}

/// Hands the zone's hour `i`, its heaters (`N` of them, or up to the most there may be) bound by
/// `most`, to `change` and then to `run`.
#[inline(always)]
fn with_zone_hour<const N: usize, const PLAIN: bool, R>(
    plan: &OptionPlan,
    zone: &ZonePlan,
    i: usize,
    (start_c, recovering): (f64, bool),
    most: impl Fn(usize) -> Most,
    (change, run): (impl FnOnce(&mut [Heater<f64>]), impl FnOnce(&ZoneHour<'_, f64>) -> R),
) -> R {
    let held = !PLAIN && recovering && zone.staged_recovery;
    // A loop over what is there: the closure of an array made by function is called, not laid in.
    let mut heaters = [Heater::OFF; N];
    for (place, (heater, planned)) in heaters.iter_mut().zip(&zone.heaters).enumerate() {
        if held && planned.end_use == EndUse::BackupHeat {
            continue;
        }
        let strips = if PLAIN || place > 0 { None } else { zone.defrost_kw.get(i) };
        *heater = most(place).heater(planned, i, strips.copied().unwrap_or_default());
    }
    change(&mut heaters);
    let used = if N == MOST_HEATERS { zone.heaters.len() } else { N };
    let mut zone_hour = without_heaters::<PLAIN>(plan, zone, i, start_c);
    zone_hour.heaters = heaters.get(..used).unwrap_or(&heaters);
    if let (false, Some(cooler)) = (PLAIN, &mut zone_hour.cooler) {
        cooler.machine = most(COOLER).of(cooler.machine);
    }
    zone_hour.handover = zone.handover.as_ref().map(|h| {
        let ordinary = h.by_temperature(zone_hour.room.outdoor_c);
        if PLAIN { ordinary } else { Handover { worth: h.worth(i), ..ordinary } }
    });
    run(&zone_hour)
}

/// The zone's hour `i` from a room at `start_c`, nothing heating it yet. The cooler is asked only
/// when it is warmer outdoors than the cooling balance temperature.
#[inline(always)]
fn without_heaters<'a, const PLAIN: bool>(
    plan: &OptionPlan,
    zone: &ZonePlan,
    i: usize,
    start_c: f64,
) -> ZoneHour<'a, f64> {
    let outdoor_c = value(&plan.outdoor_c, i);
    ZoneHour {
        room: if PLAIN { zone.room_at(outdoor_c) } else { zone.room_in(i, outdoor_c) },
        start_c,
        set_point_c: value(&zone.set_points_c, i),
        vent_c: zone.vent_c,
        heaters: &[],
        handover: None,
        cooler: zone.cooler.as_ref().filter(|_| outdoor_c > zone.cooling_above_c).map(|c| Cooler {
            machine: *c.hours.at(i),
            cycling_loss: c.cycling_loss,
            sensible: c.sensible,
            set_point_c: c.set_point_c,
        }),
    }
}

#[inline(always)]
fn value(values: &[f64], i: usize) -> f64 {
    values.get(i).copied().unwrap_or(f64::NAN)
}

/// Takes the zone, whose cooler may give the most that stands beside its outcome, to the hour's end:
/// twin, standby, room; hands the record on.
#[inline(always)]
fn settle<S: Sink>(
    plan: &OptionPlan,
    (z, zone): (usize, &ZonePlan),
    i: usize,
    (at, recovering): (&mut ZoneState, bool),
    (outcome, cooler): (&ZoneOutcome<f64>, Most),
    sink: &mut S,
) {
    let outdoor_c = value(&plan.outdoor_c, i);
    let set_point_c = value(&zone.set_points_c, i);
    let start_c = at.room_c;
    let not_delivered_kwh = twin(plan, zone, i, at, (outcome, cooler));
    at.room_c = outcome.end_c;
    sink.take(&ZoneRecord {
        hour: i,
        zone: z,
        plan: zone,
        outdoor_c,
        set_point_c,
        start_c,
        outcome,
        standby_kwh: standby_kwh(zone, outcome),
        recovering,
        not_delivered_kwh,
    });
}

/// Whether the hour that begins belongs to a recovery. A zone without heat capacity has none.
#[inline(always)]
fn recovers(zone: &ZonePlan, set_point_c: f64, at: &mut ZoneState) -> bool {
    if set_point_c > at.last_set_point_c && zone.heat_capacity_kwh_k > 0.0 {
        at.recovery_left = LONGEST_RECOVERY_H;
    }
    at.last_set_point_c = set_point_c;
    if at.recovery_left == 0 {
        return false;
    }
    if at.room_c >= set_point_c - RECOVERED_WITHIN_K {
        at.recovery_left = 0;
        return false;
    }
    at.recovery_left -= 1;
    true
}

/// Advances the twin room, which begins at the first short hour and ends when the two agree again;
/// gives what it took more, kWh.
#[inline(always)]
fn twin(
    plan: &OptionPlan,
    zone: &ZonePlan,
    i: usize,
    at: &mut ZoneState,
    (outcome, cooler): (&ZoneOutcome<f64>, Most),
) -> f64 {
    let short = outcome.heat < outcome.need * (1.0 - 1e-9);
    if at.twin_c.is_none() && !short {
        return 0.0;
    }
    // By value: an outcome that is only looked at here would have to be laid out in memory every hour.
    twin_hour(plan, zone, i, at, (outcome.heat, outcome.end_c, cooler))
}

/// The twin's hour beside one that took `own_heat` kWh and ended at `own_end_c` °C. Its cooler may give what
/// the room's may: with more, the twin could end colder than the room for which it stands.
#[cold]
fn twin_hour(
    plan: &OptionPlan,
    zone: &ZonePlan,
    i: usize,
    at: &mut ZoneState,
    (own_heat, own_end_c, cooler): (f64, f64, Most),
) -> f64 {
    let start_c = at.twin_c.unwrap_or(at.room_c);
    let mut zone_hour = without_heaters::<false>(plan, zone, i, start_c);
    if let Some(own) = &mut zone_hour.cooler {
        own.machine = cooler.of(own.machine);
    }
    let (heat, end_c) = ample_hour(&zone_hour);
    let apart = end_c - own_end_c > REJOINED_WITHIN_K;
    at.twin_c = apart.then_some(end_c);
    heat - own_heat
}

#[inline(always)]
fn standby_kwh(zone: &ZonePlan, outcome: &ZoneOutcome<f64>) -> f64 {
    let mut sum = 0.0;
    for standby in &zone.standby {
        // Every place is looked at, so that none has to be found in memory.
        let mut places = outcome.heaters.iter().enumerate();
        let heated = places.any(|(place, output)| standby.heater == Some(place) && output.heat > 0.0);
        let cooled = standby.is_cooler && outcome.cooler.heat > 0.0;
        if !heated && !cooled {
            sum += standby.kw;
        }
    }
    sum
}
