//! Advances one option through a span of hours: hours outside, zones inside.
//!
//! Never knows a tank; whoever drives it hands in [`FuelLimits`]. Start at [`advance`].

use std::ops::Range;

use super::kernel::{Cooler, Handover, Heater, MOST_HEATERS, ZoneHour, ZoneOutcome, hour};
use super::plan::{OptionPlan, ZonePlan};
use super::record::{Sink, ZoneRecord};
use super::state::{FuelLimits, LONGEST_RECOVERY_H, OptionState, RECOVERED_WITHIN_K, ZoneState};
use crate::fuel::FuelId;
use crate::load::RoomHour;

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
            for (z, (zone, at)) in plan.zones.iter().zip(&mut state.zones).enumerate() {
                let outcome = zone_hour(plan, zone, i, at, |_| 1.0);
                settle(plan, (z, zone), i, at, &outcome, sink);
            }
        } else {
            limited_hour(plan, i, state, limits, sink);
        }
    }
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
    let mut shares: Vec<(FuelId, f64)> = limits.iter().map(|l| (l.fuel, 1.0)).collect();
    let mut outcomes = Vec::new();
    // A fuel that runs short can send another's successor to its own limit, so once more for each.
    for _ in 0..=shares.len() {
        let share = |fuel| shares.iter().find(|(f, _)| *f == fuel).map_or(1.0, |(_, s)| *s);
        outcomes = plan
            .zones
            .iter()
            .zip(&state.zones)
            .map(|(zone, at)| zone_hour(plan, zone, i, at, share))
            .collect::<Vec<_>>();
        if !shrink(&mut shares, limits, |fuel| drawn(plan, &outcomes, fuel)) {
            break;
        }
    }
    limits.take(|fuel| drawn(plan, &outcomes, fuel));
    for (z, ((zone, at), outcome)) in plan.zones.iter().zip(&mut state.zones).zip(&outcomes).enumerate() {
        settle(plan, (z, zone), i, at, outcome, sink);
    }
}

/// Lowers the share of every fuel that is drawn beyond its limit; tells whether there was one.
fn shrink(shares: &mut [(FuelId, f64)], limits: &FuelLimits, drawn: impl Fn(FuelId) -> f64) -> bool {
    let mut any = false;
    for ((fuel, share), limit) in shares.iter_mut().zip(limits.iter()) {
        let allowed = limit.left_kwh.min(limit.greatest_kw).max(0.0);
        let wanted = drawn(*fuel);
        if wanted > allowed * (1.0 + 1e-12) {
            *share *= allowed / wanted;
            any = true;
        }
    }
    any
}

fn drawn(plan: &OptionPlan, outcomes: &[ZoneOutcome<f64>], fuel: FuelId) -> f64 {
    let zones = plan.zones.iter().zip(outcomes);
    let heaters = zones.flat_map(|(zone, outcome)| zone.heaters.iter().zip(&outcome.heaters));
    heaters.filter(|(h, _)| h.fuel == fuel).map(|(_, output)| output.draw).sum()
}

#[inline(always)]
fn zone_hour(
    plan: &OptionPlan,
    zone: &ZonePlan,
    i: usize,
    at: &ZoneState,
    share: impl Fn(FuelId) -> f64,
) -> ZoneOutcome<f64> {
    let outdoor_c = value(&plan.outdoor_c, i);
    let figures = zone.figures(outdoor_c);
    let mut heaters = [Heater::OFF; MOST_HEATERS];
    for (slot, planned) in heaters.iter_mut().zip(&zone.heaters) {
        *slot = Heater {
            machine: *planned.hours.at(i),
            cycling_loss: planned.cycling_loss,
            ducts: planned.ducts,
            fuel_share: share(planned.fuel),
        };
    }
    hour(&ZoneHour {
        room: RoomHour {
            loss_kw_k: figures.loss_kw_k,
            gains_kw: figures.gains_kw,
            decay: figures.decay,
            outdoor_c,
        },
        start_c: at.room_c,
        set_point_c: value(&zone.set_points_c, i),
        vent_c: zone.vent_c,
        heaters: heaters.get(..zone.heaters.len()).unwrap_or(&heaters),
        handover: zone.handover.map(|(lockout_c, whole_hour)| Handover {
            locked_out: if outdoor_c < lockout_c { 1.0 } else { 0.0 },
            whole_hour,
        }),
        cooler: zone.cooler.as_ref().map(|c| Cooler {
            machine: *c.hours.at(i),
            cycling_loss: c.cycling_loss,
            sensible: c.sensible,
            set_point_c: c.set_point_c,
        }),
    })
}

#[inline(always)]
fn value(values: &[f64], i: usize) -> f64 {
    values.get(i).copied().unwrap_or(f64::NAN)
}

/// Takes the zone to the hour's end: recovery, twin, standby; hands the record on.
#[inline(always)]
fn settle<S: Sink>(
    plan: &OptionPlan,
    (z, zone): (usize, &ZonePlan),
    i: usize,
    at: &mut ZoneState,
    outcome: &ZoneOutcome<f64>,
    sink: &mut S,
) {
    let outdoor_c = value(&plan.outdoor_c, i);
    let set_point_c = value(&zone.set_points_c, i);
    let start_c = at.room_c;
    if set_point_c > at.last_set_point_c {
        at.recovery_left = LONGEST_RECOVERY_H;
    }
    let recovering = at.recovery_left > 0;
    let recovered = outcome.end_c >= set_point_c - RECOVERED_WITHIN_K;
    at.recovery_left = if recovered { 0 } else { at.recovery_left.saturating_sub(1) };
    at.last_set_point_c = set_point_c;
    let not_delivered_kwh = twin(zone, outdoor_c, set_point_c, at, outcome);
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

/// Advances the twin room, which begins at the first short hour and ends when the two agree again.
#[inline(always)]
fn twin(
    zone: &ZonePlan,
    outdoor_c: f64,
    set_point_c: f64,
    at: &mut ZoneState,
    outcome: &ZoneOutcome<f64>,
) -> f64 {
    let short = outcome.heat < outcome.need * (1.0 - 1e-9);
    if at.twin_c.is_none() && !short {
        return 0.0;
    }
    let start_c = at.twin_c.unwrap_or(at.room_c);
    let figures = zone.figures(outdoor_c);
    let room = RoomHour {
        loss_kw_k: figures.loss_kw_k,
        gains_kw: figures.gains_kw,
        decay: figures.decay,
        outdoor_c,
    };
    let heat = room.heat_to_end_at(start_c, set_point_c).max(0.0);
    let end_c = room.end(start_c, heat).min(zone.vent_c.max(outdoor_c));
    let apart = end_c - outcome.end_c > 1e-9;
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
