//! A zone's hour as steps: need, heaters in order, cooling, where the room ends.
//!
//! Knows no hours of a year. Start at [`work`].

use super::heater::{Asked, at_machine, candidate, running_how};
use super::running::Weighed;
use super::step::Step;
use crate::equipment::output::LEAST_WISH_KW;
use crate::simulation::kernel::{Heater, ZoneHour, ZoneOutcome, hour};
use crate::simulation::through::{Through, unfold};

/// Works one zone-hour out, with the kernel's own outcome.
pub fn work(zone: &ZoneHour<'_, f64>) -> (Vec<Step>, ZoneOutcome<f64>) {
    let outcome = hour(zone);
    let mut steps = vec![need(zone, outcome.need)];
    steps.extend(weighed(zone, outcome.need));
    let split = zone.handover.map(|_| outcome.turn).filter(|turn| *turn > 0.0 && *turn < 1.0);
    let mut heat = 0.0;
    for (place, (heater, output)) in zone.heaters.iter().zip(&outcome.heaters).enumerate() {
        let turn = match (zone.handover, place) {
            (Some(_), 0) => Some(1.0 - outcome.turn),
            (Some(_), 1) => Some(outcome.turn),
            _ => None,
        };
        // Each of two that take turns runs in its own as for the whole need.
        let before_kw = if turn.is_some() { 0.0 } else { heat };
        let (need_kw, lacking_kw) = (outcome.need, (outcome.need - before_kw).max(0.0));
        let is_asked = lacking_kw * heater.before_ducts >= LEAST_WISH_KW;
        // A heater of which nothing is wanted has a line only where its pilot burns on.
        if is_asked || output.draw > 0.0 {
            let in_room_kw = outcome.in_room.get(place).copied().unwrap_or_default();
            let at_greatest = split.is_some() && place < 2;
            let asked = Asked {
                need_kw,
                before_kw,
                lacking_kw,
                turn,
                at_greatest,
                in_room_kw,
                place,
                heater,
                output,
            };
            let own = asked.steps(place == 0 && zone.handover.is_some_and(|how| how.locked_out > 0.0));
            steps.extend(own);
        }
        heat += output.heat * heater.ducts;
    }
    tell_split(&mut steps, zone, (outcome.need, split));
    let parts = outcome.in_room.iter().copied().filter(|kw| *kw > 0.0).collect();
    steps.push(Step::Delivered { parts, heat_kw: outcome.heat, need_kw: outcome.need });
    steps.extend(cooling_steps(zone, &outcome));
    if zone.room.decay > 0.0 {
        steps.push(Step::Ends { end_c: outcome.end_c, vented_k: outcome.vented_k });
    }
    (steps, outcome)
}

/// Which of two heaters heats for less, where that decides.
fn weighed(zone: &ZoneHour<'_, f64>, need_kw: f64) -> Option<Step> {
    let handover = zone.handover.filter(|how| how.locked_out <= 0.0)?;
    let worth = handover.worth.filter(|_| need_kw > 0.0)?;
    let (first, second) = (zone.heaters.first()?, zone.heaters.get(1)?);
    Some(Step::Weighed(Box::new(Weighed {
        first: candidate(first, need_kw, worth.lead, worth.side),
        second: candidate(second, need_kw, worth.alternate, worth.side),
        second_wins: worth.second_is_cheaper(need_kw, first, second) > 0.0,
    })))
}

/// Puts in, behind the outputs of two that share the hour, how they do.
fn tell_split(steps: &mut Vec<Step>, zone: &ZoneHour<'_, f64>, (need_kw, split): (f64, Option<f64>)) {
    let [first, second, ..] = zone.heaters else { return };
    let Some(share) = split else { return };
    let in_room = |heater: &Heater<f64>| heater.machine.greatest * heater.ducts;
    let (first_kw, second_kw) = (in_room(first), in_room(second));
    // What each does with its share comes after the share.
    let of_turn = |s: &Step| matches!(s, Step::Turn { .. } | Step::InRoom { heater: 0 | 1, .. });
    let turns: Vec<Step> = steps.extract_if(.., |s| of_turn(s)).collect();
    let behind = steps.iter().rposition(|s| matches!(s, Step::Output { heater: 0 | 1, .. }));
    let at = behind.map_or(steps.len(), |at| at + 1);
    let split = Step::Split { first_kw, second_kw, need_kw, share };
    steps.splice(at..at, std::iter::once(split).chain(turns));
}

/// The same with ducts folded into the heaters, told and given at the machines.
pub(crate) fn work_through(zone: &ZoneHour<'_, f64>, through: &[Through]) -> (Vec<Step>, ZoneOutcome<f64>) {
    let (mut steps, mut outcome) = work(zone);
    for step in &mut steps {
        *step = at_machine(step, through, zone.heaters);
    }
    unfold(&mut outcome, through);
    (steps, outcome)
}

fn cooling_steps(zone: &ZoneHour<'_, f64>, outcome: &ZoneOutcome<f64>) -> Vec<Step> {
    let (Some(cooler), room) = (&zone.cooler, &zone.room) else { return Vec::new() };
    let need = Step::CoolingNeed {
        uncooled_c: room.end(zone.start_c, outcome.heat),
        set_point_c: cooler.set_point_c,
        loss_kw_k: room.loss_kw_k,
        gains_kw: room.gains_kw,
        steady_c: (cooler.set_point_c - room.decay * zone.start_c) / (1.0 - room.decay),
        outdoor_c: room.outdoor_c,
        need_kw: outcome.cooling_need,
    };
    let cooled = (outcome.cooling_need > 0.0).then(|| Step::Cooled {
        sensible: cooler.sensible,
        wanted_kw: outcome.cooling_need / cooler.sensible,
        how: running_how(&cooler.machine, cooler.cycling_loss, outcome.cooler.heat),
        cooling_kw: outcome.cooler.heat,
        draw_kw: outcome.cooler.draw,
        side_kw: outcome.cooler.side,
        side_running_kw: cooler.machine.side,
    });
    std::iter::once(need).chain(cooled).collect()
}

fn need(zone: &ZoneHour<'_, f64>, need_kw: f64) -> Step {
    let room = &zone.room;
    Step::Need {
        loss_kw_k: room.loss_kw_k,
        gains_kw: room.gains_kw,
        decay: room.decay,
        start_c: zone.start_c,
        set_point_c: zone.set_point_c,
        outdoor_c: room.outdoor_c,
        steady_c: (zone.set_point_c - room.decay * zone.start_c) / (1.0 - room.decay),
        need_kw,
    }
}
