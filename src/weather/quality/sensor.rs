//! Hours that no thermometer in the open air gives: jumps and back, the same value for days, days
//! that are copies. Hours that this program filled are no sensor's.
//!
//! Must never know the place. Start at [`drop_outs`].

use super::{Flag, Measured, Times};
use crate::series::Hourly;
use std::cmp::Ordering;

/// A jump of a drop-out, K in one hour, both ways; the greatest such pair in the real years tried is
/// 8.3 K. One jump alone is weather: a front or a thunderstorm brings 16 K.
const JUMP: f64 = 12.0;
/// The jump back comes within so many hours.
const LONGEST: usize = 24;
/// Hours of the same value; the longest run in the real years tried is 32, under polar cloud.
const STUCK: usize = 48;

/// The largest drop-out and how many there are.
pub(super) fn drop_outs(hours: &[f64], measured: Measured<'_>, times: Times) -> Option<Flag> {
    let step = |(hour, pair): (usize, &[f64])| match measured.all(hour..hour + 2) {
        true => pair[1] - pair[0],
        false => 0.0,
    };
    let steps: Vec<f64> = hours.windows(2).enumerate().map(step).collect();
    let mut largest: Option<(usize, usize, f64)> = None;
    let (mut count, mut from) = (0, 0);
    while let Some(out) = steps.iter().skip(from).position(|step| step.abs() >= JUMP).map(|i| i + from) {
        let jump = steps.get(out).copied().unwrap_or_default();
        let after = steps.iter().skip(out + 1).take(LONGEST);
        let back = after.enumerate().find(|(_, step)| step.abs() >= JUMP && **step * jump < 0.0);
        let Some((later, back)) = back else {
            from = out + 1;
            continue;
        };
        let lesser = jump.signum() * jump.abs().min(back.abs());
        if largest.is_none_or(|(_, _, before)| lesser.abs() > before.abs()) {
            largest = Some((out + 1, later + 1, lesser));
        }
        count += 1;
        from = out + later + 2;
    }
    largest.map(|(hour, hours, jump_k)| Flag::DropOut { at: times.hour(hour), hours, jump_k, times: count })
}

/// The longest run of one value and how many there are.
pub(super) fn stuck(hours: &[f64], measured: Measured<'_>, times: Times) -> Option<Flag> {
    let mut longest: Option<(usize, usize, f64)> = None;
    let (mut count, mut start) = (0, 0);
    for run in hours.chunk_by(|a, b| a == b) {
        if run.len() >= STUCK && measured.count(start..start + run.len()) >= STUCK {
            count += 1;
            if longest.is_none_or(|(_, length, _)| run.len() > length) {
                longest = run.first().map(|value| (start, run.len(), *value));
            }
        }
        start += run.len();
    }
    longest.map(|(hour, hours, temperature_c)| Flag::Stuck {
        at: times.hour(hour),
        hours,
        temperature_c,
        times: count,
    })
}

/// An order of runs of hours in which equal ones stand side by side.
pub(super) fn order(a: &[f64], b: &[f64]) -> Ordering {
    let mut each = a.iter().zip(b).map(|(x, y)| x.total_cmp(y));
    each.find(|order| order.is_ne()).unwrap_or(Ordering::Equal)
}

/// Days that are the copy of another; flat ones are left to [`stuck`].
pub(super) fn repeated_days(hours: &Hourly<f64>, measured: Measured<'_>, times: Times) -> Option<Flag> {
    let varied = |day: &[f64]| day.windows(2).any(|pair| pair[0] != pair[1]);
    let own = |(day, hours): &(usize, &[f64])| varied(hours) && measured.all(day * 24..day * 24 + 24);
    let mut days: Vec<(usize, &[f64])> = hours.days().enumerate().filter(own).collect();
    days.sort_by(|a, b| order(a.1, b.1).then(a.0.cmp(&b.0)));
    let repeats = days.windows(2).filter_map(|pair| match pair {
        [(first, a), (again, b)] if order(a, b).is_eq() => Some((*first, *again)),
        _ => None,
    });
    let repeats: Vec<(usize, usize)> = repeats.collect();
    let (first, again) = repeats.iter().copied().min_by_key(|(first, _)| *first)?;
    Some(Flag::RepeatedDays { first: times.day(first), again: times.day(again), days: repeats.len() })
}
