//! Signs that were lost, or values cut off at zero: the temperature turns at 0 again and again and never
//! passes it, or days are upside down.
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

/// Days on end whose mean day is looked at.
const DAYS: usize = 4;
/// Their mean day along the year's own, K: below 0 where they are warmest when the year's days are coldest. In the
/// years above, two more of Illinois, and all of them in whole °C the least of four days without an hour below 0 °C
/// is −0.13 (France 2007), with a floor at any other whole degree from −24 °C up −0.37 (Northway 2019). Of 957 stretches
/// of 4 to 31 days with a day of frost or more 56 % are found by this; those that are not have frost by night alone.
const AGAINST: f64 = -0.5;

/// The year, else the first month, that has a floor at zero; else days that are upside down.
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
    let floor = zeros.into_iter().find_map(whole).or_else(|| zeros.into_iter().find_map(some_months));
    floor.or_else(|| zeros.into_iter().find_map(|(degree, zero_c)| upside_down(hours, times, degree, zero_c)))
}

/// Days without an hour below zero that are warmest when the days of the year are coldest.
fn upside_down(hours: &[f64], times: Times, degree: Degree, zero_c: f64) -> Option<Flag> {
    let year = mean_day(hours);
    let size = (year.iter().map(|c| c * c).sum::<f64>() / 24.0).sqrt();
    let mut days = vec![false; hours.len() / 24];
    for (start, hours) in hours.windows(DAYS * 24).step_by(24).enumerate() {
        let above = hours.iter().all(|c| *c >= zero_c - 1e-6);
        if above && along(hours, &year) / size <= AGAINST {
            days.iter_mut().skip(start).take(DAYS).for_each(|day| *day = true);
        }
    }
    let first = days.iter().position(|day| *day)?;
    let days = days.iter().filter(|day| **day).count();
    Some(Flag::UpsideDown { degree, at: times.hour(first * 24), days })
}

/// The mean of each hour of the day less that of all, K.
fn mean_day(hours: &[f64]) -> [f64; 24] {
    let mut day = [0.0; 24];
    let days = hours.chunks_exact(24);
    let count = days.len().max(1) as f64;
    days.for_each(|hours| day.iter_mut().zip(hours).for_each(|(sum, c)| *sum += c / count));
    let mean = day.iter().sum::<f64>() / 24.0;
    day.map(|c| c - mean)
}

/// The mean of hours times a mean day, less a straight line from the first day to the last.
fn along(hours: &[f64], day: &[f64; 24]) -> f64 {
    let mean = |hours: Option<&[f64]>| hours.unwrap_or_default().iter().sum::<f64>() / 24.0;
    let rise = mean(hours.last_chunk::<24>().map(<[f64; 24]>::as_slice));
    let rise = rise - mean(hours.first_chunk::<24>().map(<[f64; 24]>::as_slice));
    let slope = rise / (hours.len().saturating_sub(24)).max(1) as f64;
    let sum = hours.iter().enumerate().zip(day.iter().cycle());
    sum.map(|((hour, c), day)| (c - slope * hour as f64) * day).sum::<f64>() / hours.len() as f64
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
