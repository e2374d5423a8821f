//! A stretch of days in another unit than the rest: the temperature jumps at both of its ends, and joins
//! smoothly once the stretch is read in the other unit.
//!
//! Must never know what a file says of its unit: both are tried. Start at [`other_unit`].

use super::{Degree, Flag, Times};
use crate::units::{celsius_to_fahrenheit, fahrenheit_to_celsius};

/// The jump at either end, K in one hour. Between the units lie 8.9 K at −20 °C and more where it is warmer.
const JUMP: f64 = 8.0;
/// What is left of it in the other unit, K. Of all such stretches in the six built-in years, Miami's, seven
/// actual ones of Illinois and Northway and 22 in France the least leaves 8.2 (Northway 2019). Of 2,800 weeks put into
/// the other unit there 98.7 % are found; those that are not lie near −25 °C.
const LEFT: f64 = 5.0;
/// The longest, hours: 21 days; a month stands apart from its neighbours. At Northway in 2018 a stretch of
/// 575 hours leaves 3.8.
const LONGEST: usize = 21 * 24;
/// The shortest: less is a sensor that drops out.
const SHORTEST: usize = 6;
/// After a jump so many later ones are tried as its end: in the other unit the weather's own may be jumps too.
const ENDS: usize = 60;

/// The stretch whose ends join best in the other unit.
pub(super) fn other_unit(hours: &[f64], times: Times) -> Option<Flag> {
    let step = |pair: &[f64]| pair.last().zip(pair.first()).map_or(0.0, |(b, a)| b - a);
    let steps = hours.windows(2).map(step).enumerate();
    let jumps: Vec<(usize, f64)> = steps.filter(|(_, step)| step.abs() >= JUMP).collect();
    let pairs = jumps.iter().enumerate().flat_map(|(n, out)| {
        let back = jumps.iter().skip(n + 1).take(ENDS).filter(|back| out.1 * back.1 < 0.0);
        back.map(|back| (out.0 + 1, back.0 + 1))
    });
    let stretches = pairs.filter(|(from, to)| (SHORTEST..=LONGEST).contains(&(to - from)));
    let joined = stretches.flat_map(|(from, to)| {
        let units = [Degree::Fahrenheit, Degree::Celsius];
        units.into_iter().filter_map(move |unit| Some((left(hours, from, to, unit)?, from, to, unit)))
    });
    let (_, from, to, looks_like) =
        joined.filter(|(left, ..)| *left <= LEFT).min_by(|a, b| a.0.total_cmp(&b.0))?;
    let (before, first) = (*hours.get(from.checked_sub(1)?)?, *hours.get(from)?);
    let jump_k = first - before;
    Some(Flag::StretchOfOtherUnit { at: times.hour(from), hours: to - from, looks_like, jump_k })
}

/// The greater of the jumps that are left at the ends, K, if what was read as one unit is the other.
fn left(hours: &[f64], from: usize, to: usize, is: Degree) -> Option<f64> {
    let read = |c: f64| match is {
        Degree::Fahrenheit => fahrenheit_to_celsius(c),
        Degree::Celsius => celsius_to_fahrenheit(c),
    };
    let (first, last) = (read(*hours.get(from)?), read(*hours.get(to - 1)?));
    let (before, after) = (hours.get(from.checked_sub(1)?)?, hours.get(to)?);
    Some((first - before).abs().max((last - after).abs()))
}
