//! Steps that the kernel knows nothing of, put in where a reader looks for them: strips while defrosting,
//! the share of an outdoor unit, recovery.
//!
//! Start at [`tell_shared`].

use super::step::Step;
use crate::simulation::kernel::MOST_HEATERS;

/// Puts in, after the first heater's output, what strips gave of it: `running_kw` while it runs all
/// through the hour, perhaps `of_bank` that serves the room beside.
pub(crate) fn tell_defrosting(steps: &mut Vec<Step>, running_kw: Option<f64>, of_bank: bool) {
    let Some(running_kw) = running_kw.filter(|kw| *kw > 0.0) else { return };
    let first = steps.iter().position(|s| matches!(s, Step::Output { heater: 0, .. }));
    let Some(Step::Output { how, .. }) = first.and_then(|at| steps.get(at)) else { return };
    let share = how.share();
    if share <= 0.0 {
        return;
    }
    let step = Step::Defrosting { running_kw, heat_kw: running_kw * share, of_bank };
    steps.insert(first.map_or(0, |at| at + 1), step);
}

/// Puts in, where a head of this zone is asked for something, its share of an outdoor unit that can give
/// `unit_kw` of `asked_kw`; `heads` are zone, place among its heaters, place in the list of machines, and
/// what each asks for, kW.
pub(crate) fn tell_shared(
    steps: &mut Vec<Step>,
    zone: usize,
    heads: &[(usize, usize, usize, f64)],
    (unit_kw, asked_kw): (f64, f64),
) {
    let asked: Vec<_> = heads.iter().map(|(_, _, machine, kw)| (*machine, *kw)).collect();
    for (_, place, _, own_kw) in heads.iter().filter(|(z, ..)| *z == zone) {
        let heater = (*place < MOST_HEATERS).then_some(*place);
        let shared = Step::Shared {
            heater,
            unit_kw,
            asked: asked.clone(),
            asked_kw,
            own_kw: *own_kw,
            left_kw: own_kw * (unit_kw / asked_kw),
            of_greatest: false,
        };
        put_shared(steps, heater, shared);
    }
}

/// The same before the step that tells what the head gives.
pub(crate) fn put_shared(steps: &mut Vec<Step>, head: Option<usize>, shared: Step) {
    let gives = |s: &Step| match s {
        Step::Output { heater, .. } => Some(*heater) == head,
        Step::Cooled { .. } => head.is_none(),
        _ => false,
    };
    if let Some(at) = steps.iter().position(gives) {
        steps.insert(at, shared);
    }
}

/// Puts in, behind the need, which hour of a recovery it is and who is held back in it.
pub(crate) fn tell_recovering(steps: &mut Vec<Step>, hour: u8, held: Vec<usize>) {
    let behind = steps.iter().position(|s| matches!(s, Step::Need { .. })).map_or(0, |at| at + 1);
    steps.insert(behind, Step::Recovering { hour, held });
}
