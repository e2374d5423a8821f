//! A stretch of days in another unit than the rest: the temperature jumps at both of its ends, and joins
//! smoothly once the stretch is read in the other unit.
//!
//! Must never know what a file says of its unit: both are tried. Start at [`other_unit`].

use super::{Degree, Edge, Flag, Times};
use crate::units::{celsius_to_fahrenheit, fahrenheit_to_celsius};
use std::ops::Range;

/// The jump at either end, K in one hour. Between the units lie 8.9 K at −20 °C and more where it is warmer.
const JUMP: f64 = 8.0;
/// What is left of it in the other unit, K. Of all such stretches in the six built-in years, Miami's, seven
/// actual ones of Illinois and Northway and 22 in France the least leaves 8.2 (Northway 2019). Of 2,800 weeks put into
/// the other unit there 98.7 % are found; those that are not lie near −25 °C.
const LEFT: f64 = 5.0;
/// The same where the stretch begins or ends with the year, so that one end tells; in the other unit its mean then lies
/// nearer that of the days beside it, too. In those years no jump of 8 K is such; of 2, 3, 7, 10, 14 and 20 days put
/// into the other unit 94 % are found, in Northway half.
const LEFT_AT_EDGE: f64 = 4.0;
/// The days beside it, hours.
const BESIDE: usize = 14 * 24;
/// The longest, hours: 21 days; a month stands apart from its neighbours. At Northway in 2018 a stretch of
/// 575 hours leaves 3.8.
const LONGEST: usize = 21 * 24;
/// The shortest: less is a sensor that drops out.
const SHORTEST: usize = 6;
/// After a jump so many later ones are tried as its end: in the other unit the weather's own may be jumps too.
const ENDS: usize = 60;

/// The stretch whose ends join best in the other unit; else one with which the year begins or ends.
pub(super) fn other_unit(hours: &[f64], times: Times, written: Degree) -> Option<Flag> {
    let step = |pair: &[f64]| pair.last().zip(pair.first()).map_or(0.0, |(b, a)| b - a);
    let steps = hours.windows(2).map(step).enumerate();
    let jumps: Vec<(usize, f64)> = steps.filter(|(_, step)| step.abs() >= JUMP).collect();
    let pairs = jumps.iter().enumerate().flat_map(|(n, out)| {
        let back = jumps.iter().skip(n + 1).take(ENDS).filter(|back| out.1 * back.1 < 0.0);
        back.map(|back| out.0 + 1..back.0 + 1)
    });
    let edges = jumps.iter().flat_map(|(hour, _)| [0..hour + 1, hour + 1..hours.len()]);
    best(hours, pairs, LEFT).or_else(|| best(hours, edges, LEFT_AT_EDGE)).and_then(|(range, looks_like)| {
        let at_edge = match (range.start, range.end) {
            (0, _) => Some(Edge::Beginning),
            (_, end) if end == hours.len() => Some(Edge::End),
            _ => None,
        };
        let jump = if at_edge == Some(Edge::Beginning) { range.end } else { range.start };
        let jump_k = hours.get(jump)? - hours.get(jump.checked_sub(1)?)?;
        Some(Flag::StretchOfOtherUnit {
            at: times.hour(range.start),
            hours: range.len(),
            looks_like,
            written,
            jump_k,
            at_edge,
        })
    })
}

/// The stretch of which least is left, and its unit, if that is no more than so much, K.
fn best(
    hours: &[f64],
    ranges: impl Iterator<Item = Range<usize>>,
    most: f64,
) -> Option<(Range<usize>, Degree)> {
    let joined = ranges.filter(|range| (SHORTEST..=LONGEST).contains(&range.len())).flat_map(|range| {
        let units = [Degree::Fahrenheit, Degree::Celsius];
        units.map(|unit| Some((left(hours, &range, unit)?, range.clone(), unit))).into_iter().flatten()
    });
    let small = joined.filter(|(left, ..)| *left <= most);
    small.min_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, range, unit)| (range, unit))
}

fn read(c: f64, is: Degree) -> f64 {
    match is {
        Degree::Fahrenheit => fahrenheit_to_celsius(c),
        Degree::Celsius => celsius_to_fahrenheit(c),
    }
}

/// The greater of the jumps that are left at the ends, K, if what was read as one unit is the other; nothing where one
/// end alone tells and the mean of the days beside does not agree.
fn left(hours: &[f64], range: &Range<usize>, is: Degree) -> Option<f64> {
    // One value on end is no other unit's weather.
    let stretch = hours.get(range.clone()).filter(|hours| hours.windows(2).any(|pair| pair[0] != pair[1]))?;
    let before = range.start.checked_sub(1).and_then(|before| hours.get(before));
    let jump = |beside: Option<&f64>, own: Option<&f64>| Some((beside? - read(*own?, is)).abs());
    let ends = (jump(before, stretch.first()), jump(hours.get(range.end), stretch.last()));
    match ends {
        (Some(begin), Some(end)) => Some(begin.max(end)),
        (one, other) => one.or(other).filter(|_| nearer(hours, range, is)),
    }
}

/// Whether the mean of a stretch at the year's beginning or end lies nearer that of the days beside it in a unit.
fn nearer(hours: &[f64], range: &Range<usize>, is: Degree) -> bool {
    let beside = match range.start {
        0 => range.end..(range.end + BESIDE).min(hours.len()),
        start => start.saturating_sub(BESIDE)..start,
    };
    let mean = |range: Range<usize>| {
        let hours = hours.get(range).unwrap_or_default();
        hours.iter().sum::<f64>() / hours.len() as f64
    };
    let (own, beside) = (mean(range.clone()), mean(beside));
    (read(own, is) - beside).abs() < (own - beside).abs()
}
