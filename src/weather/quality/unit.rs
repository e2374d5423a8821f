//! Numbers in one unit under the name of another: a year that no place has.
//!
//! Must never know what a file says of its unit. Start at [`other_unit`].

use super::place::nth;
use super::{Degree, Flag};
use crate::units::celsius_to_fahrenheit;
use crate::weather::year::{OutdoorYear, YearKind};

/// The warm end of a year: the share of hours above it.
const WARM_SHARE: f64 = 0.01;
/// Nobody heats a house where 99 % of the hours stay below this, °C (50 °F): ice caps and high summits; at
/// Northway, Alaska, the warm end is 24. Numbers in °C read as °F end between 25 and 50 °F everywhere.
const WARMEST_OF_CELSIUS: f64 = 10.0;
/// Warm ends that years have, °C, ice caps left out: for the same numbers read as °C.
const ORDINARY: std::ops::RangeInclusive<f64> = 15.0..=50.0;
/// No place has a mean of the year above this, °C; Dallol had 34.6 (from memory).
const HOTTEST_MEAN: f64 = 36.0;

/// Whether the hours as read are of no place, while the same numbers in the other unit would be ordinary.
pub(super) fn other_unit(year: &OutdoorYear) -> Option<Flag> {
    let hours = &year.columns.dry_bulb_c;
    let warm_end_c = nth(hours, 1.0 - WARM_SHARE);
    let mean = hours.iter().sum::<f64>() / hours.len() as f64;
    let as_celsius = celsius_to_fahrenheit(warm_end_c);
    let looks_like = if warm_end_c < WARMEST_OF_CELSIUS && ORDINARY.contains(&as_celsius) {
        Degree::Celsius
    } else if mean > HOTTEST_MEAN {
        Degree::Fahrenheit
    } else {
        return None;
    };
    let year = match year.kind {
        YearKind::Actual(year) => Some(year),
        YearKind::Typical | YearKind::Synthetic { .. } | YearKind::FromJuly(_) => None,
    };
    Some(Flag::OtherUnit { year, looks_like, warm_end_c })
}
