//! Signs that were lost, or values cut off at zero: the temperature turns at 0 again and again and never
//! passes it.
//!
//! Must never know what a file says of its unit: the zero of both is tried. Start at [`lost`].

use super::{Degree, Flag, Times};
use crate::units::fahrenheit_to_celsius;
use chrono::Datelike;
use std::ops::Range;

/// The least hour lies so near above the zero, K; whole degrees then show the zero itself.
const NEAR: f64 = 0.6;
/// An hour within this of the floor, K, has come down to it.
const VISIT: f64 = 1.0;
/// A year comes down to its floor so often. In the six built-in years, Miami's, seven actual ones of
/// Illinois and Northway and 22 in France the year's own least temperature is visited 6 times at most
/// (France 2011); with the signs lost at 0 °C 24 times (Tucson, 30 hours of frost) to 131 (Northway), at 0 °F
/// 17 in Chicago's typical year. Fewer than about 40 lost signs are not seen.
const YEAR_VISITS: usize = 10;
/// A month does so; 11 times at most in the 432 months of those years, whatever their least temperature
/// (Miami's September). Of 163 of those months with 50 hours of frost or more, 90 % reach this with their signs
/// lost; the others lie below zero nearly throughout, so that they stand apart from their neighbours instead.
const MONTH_VISITS: usize = 12;

/// The year, else the first month, that has a floor at zero.
pub(super) fn lost(hours: &[f64], times: Times) -> Option<Flag> {
    let zeros = [(Degree::Celsius, 0.0), (Degree::Fahrenheit, fahrenheit_to_celsius(0.0))];
    let whole = |(degree, zero_c): (Degree, f64)| {
        let (first, visits) = floor_at(hours, zero_c, YEAR_VISITS)?;
        Some(Flag::FloorAtZero { degree, at: times.hour(first), visits, months: None })
    };
    let some_months = |(degree, zero_c): (Degree, f64)| {
        let floors = months(hours, times).filter_map(|month| {
            let (first, visits) = floor_at(hours.get(month.clone())?, zero_c, MONTH_VISITS)?;
            Some((month.start + first, visits))
        });
        let floors: Vec<(usize, usize)> = floors.collect();
        let (first, visits) = *floors.first()?;
        Some(Flag::FloorAtZero { degree, at: times.hour(first), visits, months: Some(floors.len()) })
    };
    zeros.into_iter().find_map(whole).or_else(|| zeros.into_iter().find_map(some_months))
}

/// The first hour at the floor and how often it is come down to, if none lies below it and that is often.
fn floor_at(hours: &[f64], zero_c: f64, most: usize) -> Option<(usize, usize)> {
    let least = hours.iter().copied().fold(f64::INFINITY, f64::min);
    // Rounding of °F to °C and back is no sign.
    if !(-1e-6..NEAR).contains(&(least - zero_c)) {
        return None;
    }
    let low = |c: &f64| c - zero_c < VISIT;
    let visits = hours.chunk_by(|a, b| low(a) == low(b)).filter(|run| run.first().is_some_and(low)).count();
    let first = hours.iter().position(low)?;
    (visits >= most).then_some((first, visits))
}

/// The hours of each month.
fn months(hours: &[f64], times: Times) -> impl Iterator<Item = Range<usize>> {
    let month = move |day: usize| times.day(day).month();
    let days = hours.len() / 24;
    let starts = (0..days).filter(move |day| *day == 0 || month(*day) != month(day - 1));
    let starts: Vec<usize> = starts.chain([days]).collect();
    (1..starts.len()).filter_map(move |n| Some(starts.get(n - 1)? * 24..starts.get(n)? * 24))
}
