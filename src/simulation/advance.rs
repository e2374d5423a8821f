//! Advances one option through a span of hours: hours outside, zones inside.
//!
//! Never knows a tank; whoever drives it hands in [`FuelLimits`]. Start at [`advance`].

use std::ops::Range;

use super::end_use::EndUse;
use super::kernel::{Cooler, Handover, Heater, MOST_HEATERS, ZoneHour, ZoneOutcome, ample_hour, hour};
use super::plan::{OptionPlan, ZonePlan};
use super::record::{Nothing, Sink, ZoneRecord};
use super::state::{
    FuelLimits, LONGEST_RECOVERY_H, OptionState, RECOVERED_WITHIN_K, REJOINED_WITHIN_K, ZoneState,
};
use super::working::{Step, tell_defrosting, work};
use crate::equipment::output::MachineHour;
use crate::fuel::FuelId;

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
        if limits.is_empty() {
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
            limited_hour(plan, i, state, limits, sink);
        }
    }
}

/// One zone's hour in which no fuel is limited.
#[inline(always)]
fn free_hour<const N: usize, const PLAIN: bool, S: Sink>(
    plan: &OptionPlan,
    (z, zone): (usize, &ZonePlan),
    i: usize,
    at: &mut ZoneState,
    sink: &mut S,
) {
    let recovering = recovers(zone, value(&zone.set_points_c, i), at);
    let outcome = zone_hour::<N, PLAIN>(plan, zone, i, (at, recovering), |_| None);
    settle(plan, (z, zone), i, (at, recovering), &outcome, sink);
}

/// What each heater of one zone may burn in an hour, kWh; nothing where that has no limit.
type Most = [Option<f64>; MOST_HEATERS];

/// What everything may burn in an hour: the heaters by zone; the household's draws, kWh, and
/// whether each is shrunk already.
struct Bound {
    zones: Vec<Most>,
    household: Vec<(f64, bool)>,
}

/// One hour in which some fuel is limited: wanted draws first, then all of a short fuel's draws
/// shrunk by one share and whoever comes next taking over.
fn limited_hour<S: Sink>(
    plan: &OptionPlan,
    i: usize,
    state: &mut OptionState,
    limits: &mut FuelLimits,
    sink: &mut S,
) {
    let mut most = Bound {
        zones: vec![[None; MOST_HEATERS]; plan.zones.len()],
        household: plan.household.draws.iter().map(|draw| (draw.at(i), false)).collect(),
    };
    let zones = plan.zones.iter().zip(&mut state.zones);
    let recovering: Vec<bool> =
        zones.map(|(zone, at)| recovers(zone, value(&zone.set_points_c, i), at)).collect();
    let run = |most: &Bound| -> Vec<ZoneOutcome<f64>> {
        let zones = plan.zones.iter().zip(state.zones.iter().zip(&recovering)).zip(&most.zones);
        zones
            .map(|((zone, (at, recovering)), most)| {
                let most = |place: usize| most.get(place).copied().flatten();
                zone_hour::<MOST_HEATERS, false>(plan, zone, i, (at, *recovering), most)
            })
            .collect()
    };
    let mut outcomes = run(&most);
    // Who takes over from a short fuel can send its own to its limit, so once more for each.
    while shrink(plan, &outcomes, limits, &mut most) {
        outcomes = run(&most);
    }
    limits.take(|fuel| drawn(plan, &outcomes, &most, fuel));
    for (draw, (kwh, _)) in plan.household.draws.iter().zip(&most.household) {
        sink.take_household(i, draw, *kwh);
    }
    let zones = plan.zones.iter().zip(state.zones.iter_mut().zip(&recovering)).zip(&outcomes);
    for (z, ((zone, (at, recovering)), outcome)) in zones.enumerate() {
        settle(plan, (z, zone), i, (at, *recovering), outcome, sink);
    }
}

/// Binds every heater and household draw of each fuel that is drawn beyond its limit and not bound
/// yet; tells whether there was one. A heater that wanted nothing then gets nothing.
fn shrink(plan: &OptionPlan, outcomes: &[ZoneOutcome<f64>], limits: &FuelLimits, most: &mut Bound) -> bool {
    let mut any = false;
    for limit in limits.iter() {
        let allowed = limit.left_kwh.min(limit.greatest_kw).max(0.0);
        let wanted = drawn(plan, outcomes, most, limit.fuel);
        let zones = plan.zones.iter().zip(outcomes).zip(&mut most.zones);
        let heaters =
            zones.flat_map(|((zone, outcome), most)| zone.heaters.iter().zip(&outcome.heaters).zip(most));
        let bind = heaters.filter(|((heater, _), most)| heater.fuel == limit.fuel && most.is_none());
        if wanted <= allowed {
            continue;
        }
        for ((_, output), most) in bind {
            *most = Some(output.draw * (allowed / wanted));
            any = true;
        }
        let household = plan.household.draws.iter().zip(&mut most.household);
        for (_, (kwh, bound)) in household.filter(|(draw, (_, bound))| draw.fuel == limit.fuel && !bound) {
            (*kwh, *bound) = (*kwh * (allowed / wanted), true);
            any = true;
        }
    }
    any
}

fn drawn(plan: &OptionPlan, outcomes: &[ZoneOutcome<f64>], most: &Bound, fuel: FuelId) -> f64 {
    let household = plan.household.draws.iter().zip(&most.household);
    let household: f64 = household.filter(|(d, _)| d.fuel == fuel).map(|(_, (kwh, _))| kwh).sum();
    let zones = plan.zones.iter().zip(outcomes);
    let heaters = zones.flat_map(|(zone, outcome)| zone.heaters.iter().zip(&outcome.heaters));
    household + heaters.filter(|(h, _)| h.fuel == fuel).map(|(_, output)| output.draw).sum::<f64>()
}

/// One zone's hour with `N` heaters, or up to the most there may be; a `PLAIN` one is spared what
/// only other zones have.
#[inline(always)]
fn zone_hour<const N: usize, const PLAIN: bool>(
    plan: &OptionPlan,
    zone: &ZonePlan,
    i: usize,
    (at, recovering): (&ZoneState, bool),
    most: impl Fn(usize) -> Option<f64>,
) -> ZoneOutcome<f64> {
    // Through a closure the kernel is laid in here; a bare name would be called, at three times the cost.
    #[allow(clippy::redundant_closure)]
    with_zone_hour::<N, PLAIN, _>(plan, zone, i, (at.room_c, recovering), most, |zone_hour| hour(zone_hour))
}

/// The arithmetic of hour `i` of the zone of that place, from the beginning of the run with ample
/// fuel; nothing if there is no such zone or hour.
pub fn work_hour(plan: &OptionPlan, zone: usize, i: usize) -> Option<(Vec<Step>, ZoneOutcome<f64>)> {
    let planned = plan.zones.get(zone).filter(|_| i < plan.outdoor_c.len())?;
    let mut state = OptionState::at_set_point(plan);
    advance(plan, 0..i, &mut state, &mut FuelLimits::none(), &mut Nothing);
    let at = state.zones.get_mut(zone)?;
    let recovering = recovers(planned, value(&planned.set_points_c, i), at);
    let start = (at.room_c, recovering);
    let (mut steps, outcome) =
        with_zone_hour::<MOST_HEATERS, false, _>(plan, planned, i, start, |_| None, work);
    tell_defrosting(&mut steps, planned.defrost_kw.get(i).copied());
    Some((steps, outcome))
}

/// Hands the zone's hour `i`, its heaters (`N` of them, or up to the most there may be) bound by
/// `most`, to `run`.
#[inline(always)]
fn with_zone_hour<const N: usize, const PLAIN: bool, R>(
    plan: &OptionPlan,
    zone: &ZonePlan,
    i: usize,
    (start_c, recovering): (f64, bool),
    most: impl Fn(usize) -> Option<f64>,
    run: impl FnOnce(&ZoneHour<'_, f64>) -> R,
) -> R {
    let held = !PLAIN && recovering && zone.staged_recovery;
    let heaters: [Heater<f64>; N] = std::array::from_fn(|place| match zone.heaters.get(place) {
        Some(planned) => Heater {
            machine: if held && planned.end_use == EndUse::BackupHeat {
                MachineHour::OFF
            } else {
                *planned.hours.at(i)
            },
            cycling_loss: planned.cycling_loss,
            ducts: planned.ducts,
            before_ducts: planned.before_ducts,
            fuel_most: most(place),
        },
        None => Heater::OFF,
    });
    let used = if N == MOST_HEATERS { zone.heaters.len() } else { N };
    let mut zone_hour = without_heaters::<PLAIN>(plan, zone, i, start_c);
    zone_hour.heaters = heaters.get(..used).unwrap_or(&heaters);
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

/// Takes the zone to the hour's end: twin, standby, room; hands the record on.
#[inline(always)]
fn settle<S: Sink>(
    plan: &OptionPlan,
    (z, zone): (usize, &ZonePlan),
    i: usize,
    (at, recovering): (&mut ZoneState, bool),
    outcome: &ZoneOutcome<f64>,
    sink: &mut S,
) {
    let outdoor_c = value(&plan.outdoor_c, i);
    let set_point_c = value(&zone.set_points_c, i);
    let start_c = at.room_c;
    let not_delivered_kwh = twin(plan, zone, i, at, outcome);
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
fn twin(plan: &OptionPlan, zone: &ZonePlan, i: usize, at: &mut ZoneState, outcome: &ZoneOutcome<f64>) -> f64 {
    let short = outcome.heat < outcome.need * (1.0 - 1e-9);
    if at.twin_c.is_none() && !short {
        return 0.0;
    }
    twin_hour(plan, zone, i, at, outcome)
}

#[cold]
fn twin_hour(
    plan: &OptionPlan,
    zone: &ZonePlan,
    i: usize,
    at: &mut ZoneState,
    outcome: &ZoneOutcome<f64>,
) -> f64 {
    let start_c = at.twin_c.unwrap_or(at.room_c);
    let (heat, end_c) = ample_hour(&without_heaters::<false>(plan, zone, i, start_c));
    let apart = end_c - outcome.end_c > REJOINED_WITHIN_K;
    at.twin_c = apart.then_some(end_c);
    heat - outcome.heat
}

#[inline(always)]
fn standby_kwh(zone: &ZonePlan, outcome: &ZoneOutcome<f64>) -> f64 {
    let mut sum = 0.0;
    for standby in &zone.standby {
        let heated = standby.heater.and_then(|i| outcome.heaters.get(i)).is_some_and(|o| o.heat > 0.0);
        let cooled = standby.is_cooler && outcome.cooler.heat > 0.0;
        if !heated && !cooled {
            sum += standby.kw;
        }
    }
    sum
}
