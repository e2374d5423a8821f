//! Signs that were lost, or values cut off at zero: the temperature turns at 0 again and again and never
//! passes it, or days are upside down.
//!
//! Must never know what a file says of its unit: the zero of both is tried. Start at [`lost`].

use super::place::least;
use super::{Degree, Flag, Times, folded};
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

/// Days on end whose mean day is looked at.
const DAYS: usize = 4;
/// Their mean day along the year's own, K: below 0 where they are warmest when the year's days are coldest. In the
/// years above, two more of Illinois, and all of them in whole °C the least of four days without an hour below 0 °C
/// is −0.13 (France 2007), with a floor at any other whole degree from −24 °C up −0.37 (Northway 2019). Of 957 stretches
/// of 4 to 31 days with a day of frost or more 56 % are found by this; those that are not have frost by night alone.
const AGAINST: f64 = -0.5;

/// The year, else the first month, that has a floor at zero; else days that are upside down or thrown back.
pub(super) fn lost(hours: &[f64], times: Times) -> Option<Flag> {
    let zeros = [(Degree::Celsius, 0.0), (Degree::Fahrenheit, fahrenheit_to_celsius(0.0))];
    let whole = |(degree, zero_c): (Degree, f64)| {
        let (first, visits) = floor_at(hours, zero_c, YEAR_VISITS)?;
        Some(Flag::FloorAtZero { degree, at: times.hour(first), visits, months: None })
    };
    let months = months(hours, times);
    let some_months = |(degree, zero_c): (Degree, f64)| {
        let floors = months.iter().filter_map(|month| {
            let (first, visits) = floor_at(hours.get(month.clone())?, zero_c, MONTH_VISITS)?;
            Some((month.start + first, visits))
        });
        let floors: Vec<(usize, usize)> = floors.collect();
        let (first, visits) = *floors.first()?;
        Some(Flag::FloorAtZero { degree, at: times.hour(first), visits, months: Some(floors.len()) })
    };
    let floor = zeros.into_iter().find_map(whole).or_else(|| zeros.into_iter().find_map(some_months));
    floor.or_else(|| upside_down(hours, times, zeros)).or_else(|| folded::thrown_back(hours, times, zeros))
}

/// Days without an hour below a zero that are warmest when the days of the year are coldest.
fn upside_down(hours: &[f64], times: Times, zeros: [(Degree, f64); 2]) -> Option<Flag> {
    let year = mean_day(hours);
    let against = against(hours, &year);
    zeros.into_iter().find_map(|(degree, zero_c)| {
        let mut days = vec![false; hours.len() / 24];
        for (start, _) in against.iter().filter(|(_, least)| *least >= zero_c - 1e-6) {
            days.iter_mut().skip(*start).take(DAYS).for_each(|day| *day = true);
        }
        let first = days.iter().position(|day| *day)?;
        let days = days.iter().filter(|day| **day).count();
        Some(Flag::UpsideDown { degree, at: times.hour(first * 24), days })
    })
}

/// The first of each few days that go against the mean day, and the least of their hours. What rises or falls along a
/// straight line from the first day to the last is taken off.
fn against(hours: &[f64], year: &[f64; 24]) -> Vec<(usize, f64)> {
    let size = (year.iter().map(|c| c * c).sum::<f64>() / 24.0).sqrt();
    // The mean day's hours add up to nothing, so that a line's own days differ by nothing.
    let line: f64 = (0..).zip(year).map(|(hour, c)| f64::from(hour) * c).sum::<f64>() * DAYS as f64;
    // Of each day its hours times those of the mean day, and its mean.
    let day_of = |day: &[f64]| {
        let add = |(along, sum), (c, mean): (&f64, &f64)| (along + c * mean, sum + c);
        let (along, sum) = day.iter().zip(year).fold((0.0, 0.0), add);
        (along, sum / 24.0)
    };
    let days: Vec<(f64, f64)> = hours.chunks_exact(24).map(day_of).collect();
    let runs = days.windows(DAYS).enumerate().filter_map(|(start, run)| {
        let rise = run.last()?.1 - run.first()?.1;
        let slope = rise / (24.0 * (DAYS - 1) as f64);
        let along = run.iter().map(|day| day.0).sum::<f64>() - slope * line;
        let against = along / (24.0 * DAYS as f64) / size <= AGAINST;
        against.then(|| hours.get(start * 24..(start + DAYS) * 24)).flatten().map(|days| (start, least(days)))
    });
    runs.collect()
}

/// The mean of each hour of the day less that of all, K.
fn mean_day(hours: &[f64]) -> [f64; 24] {
    let mut day = [0.0; 24];
    let days = hours.chunks_exact(24);
    let count = days.len().max(1) as f64;
    days.for_each(|hours| day.iter_mut().zip(hours).for_each(|(sum, c)| *sum += c));
    let mean = day.iter().sum::<f64>() / 24.0;
    day.map(|sum| (sum - mean) / count)
}

/// The first hour at the floor and how often it is come down to, if none lies below it and that is often.
fn floor_at(hours: &[f64], zero_c: f64, most: usize) -> Option<(usize, usize)> {
    // Rounding of °F to °C and back is no sign. Most years and months end at their first hour below.
    let below = |room: f64| hours.iter().any(|c| c - zero_c < room);
    if below(-1e-6) || !below(NEAR) {
        return None;
    }
    let low = |c: &f64| c - zero_c < VISIT;
    let visits = hours.chunk_by(|a, b| low(a) == low(b)).filter(|run| run.first().is_some_and(low)).count();
    let first = hours.iter().position(low)?;
    (visits >= most).then_some((first, visits))
}

/// The hours of each month.
fn months(hours: &[f64], times: Times) -> Vec<Range<usize>> {
    let months: Vec<u32> = times.first.iter_days().take(hours.len() / 24).map(|day| day.month()).collect();
    let mut start = 0;
    let month = |run: &[u32]| {
        let month = start..start + 24 * run.len();
        start = month.end;
        month
    };
    months.chunk_by(|a, b| a == b).map(month).collect()
}
