//! Numbers that many files write where nothing was measured, and that could be a temperature all the same.
//!
//! Must never know what a file says of its unit: both are tried. Start at [`missing`].

use super::place::{greatest, least};
use super::{Degree, Flag, Times};
use crate::units::fahrenheit_to_celsius;

/// What is written for missing and no reader takes for it, since a sensor could have sent it. From memory.
const CODES: [f64; 2] = [-99.0, -99.9];
/// Files round to this, K, at the finest that matters.
const ALIKE: f64 = 0.005;
/// No air warms or cools between here and a code within an hour, °C (equally °F).
const FAR_WARMER: f64 = -40.0;
/// Standing alone it is a drop-out like any other.
const REPEATEDLY: usize = 2;

/// The code that stands most often among hours warmer than −40 degrees.
pub(super) fn missing(hours: &[f64], times: Times) -> Option<Flag> {
    let codes = CODES.iter().flat_map(|code| [(*code, Degree::Celsius), (*code, Degree::Fahrenheit)]);
    let (low, high) = (least(hours), greatest(hours));
    let found = codes.filter_map(|(code, degree)| {
        let code_c = match degree {
            Degree::Celsius => code,
            Degree::Fahrenheit => fahrenheit_to_celsius(code),
        };
        // Nothing is looked for beyond the year's own ends.
        if code_c < low - ALIKE || code_c > high + ALIKE {
            return None;
        }
        let is_code = |c: &f64| (c - code_c).abs() < ALIKE;
        let first = hours.iter().position(is_code)?;
        let jumps = hours.windows(2).any(|pair| match pair {
            [a, b] => (is_code(a) && *b > FAR_WARMER) || (is_code(b) && *a > FAR_WARMER),
            _ => false,
        });
        let count = hours.iter().filter(|c| is_code(c)).count();
        (jumps && count >= REPEATEDLY).then_some((code, degree, first, count))
    });
    let (code, degree, first, hours) = found.max_by_key(|found| found.3)?;
    Some(Flag::MissingCode { code, degree, at: times.hour(first), hours })
}
