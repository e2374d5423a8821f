//! Hours against what the place can have: impossible temperatures, and days that hardly differ.
//!
//! Must never know sensors. Start at [`impossible`].

use super::clock::{HIGHEST_LATITUDE, first_wave};
use super::{Bound, Flag, Times};
use crate::series::Hourly;
use crate::weather::year::OutdoorYear;

/// Days of the running mean that stands for the season.
const SEASON_DAYS: usize = 31;
/// The cold and warm end: the shares of hours beyond them.
const END_SHARE: f64 = 0.01;
/// An hour may lie so many standard deviations of the days' own departures beyond the end of its
/// year. In the real years tried the coldest hour lies at most 3.7 beyond (Miami), the warmest 2.1.
const DEVIATIONS: f64 = 6.0;
/// And at least so far, K, so that an even climate may have one harsh night; 12.0 was the farthest
/// real one (Golden), whose own deviations allow 27.
const LEAST_ROOM: f64 = 12.0;
/// Latitude, degrees either side of the equator, and a temperature, °C, below the coldest ever at
/// stations near sea level there: frost reaches the tropics' edge at a few degrees below 0, Tallahassee
/// (30°) had −19, Nebraska (41°) −44, Yakutia (63°) −68, Antarctica −89. From memory, with room.
const COLDEST: [(f64, f64); 6] =
    [(0.0, -5.0), (20.0, -5.0), (30.0, -22.0), (40.0, -47.0), (60.0, -72.0), (90.0, -92.0)];
/// Colder with height, K for each metre: more than the standard atmosphere's 0.0065, for hollows.
const COLDER_WITH_HEIGHT: f64 = 0.01;
/// Steps between the means of neighbouring days, K, that no station stays under; the least in the
/// real years tried is 1.6, tropical islands have about 0.7 (from memory).
const LEAST_STEP: f64 = 0.5;
/// The same where the year has real seasons; thirty years averaged at Chicago would have 0.7.
const LEAST_STEP_SEASONS: f64 = 1.0;
/// Seasons are real where the running mean moves by this, K.
const SEASONS: f64 = 10.0;
/// Mean daily spread, K, that no station on land stays under; the least tried is 6.7 (Miami), small
/// islands have about 3 (from memory).
const LEAST_SPREAD: f64 = 2.0;
/// Half of the mean day's first wave from least to greatest over the deviation of the steps from day to day, and over
/// the mean daily spread, under which together the days have no cycle. In the 34 real years tried the least are 0.82
/// and 0.33 (Chicago 2015); of all of them as running means over 22 to 26 hours the greatest 0.27 and 0.20, and over 24
/// or 48 hours 0.00. Sea and ice have small cycles, but then small spreads too.
const LEAST_CYCLE: (f64, f64) = (0.3, 0.22);

/// A year's own figures.
#[derive(Debug)]
pub(super) struct Shape {
    /// The 1st and 99th percentile of the hours, °C, to the nearest hour.
    ends: (f64, f64),
    /// Standard deviation of the days' medians about their running mean, K; a few wrong hours do not
    /// move a median.
    deviation_k: f64,
    /// Range of the running mean, K.
    seasons_k: f64,
    day_to_day_k: f64,
    daily_spread_k: f64,
    /// Half of the mean day's first wave from least to greatest, K.
    cycle_k: f64,
}

impl Shape {
    pub(super) fn of(hours: &Hourly<f64>) -> Self {
        let medians: Vec<f64> = hours.days().map(|day| nth(day, 0.5)).collect();
        let seasons = running_means(&medians);
        let departures: Vec<f64> = medians.iter().zip(&seasons).map(|(day, season)| day - season).collect();
        let means: Vec<f64> = hours.daily_sums().iter().map(|sum| sum / 24.0).collect();
        let steps: Vec<f64> = means.windows(2).map(|pair| pair[1] - pair[0]).collect();
        let spreads: Vec<f64> = hours.days().map(|day| greatest(day) - least(day)).collect();
        let mut mean_day = [0.0; 24];
        hours.days().for_each(|day| mean_day.iter_mut().zip(day).for_each(|(sum, c)| *sum += c));
        Self {
            ends: (nth(hours, END_SHARE), nth(hours, 1.0 - END_SHARE)),
            deviation_k: deviation(&departures),
            seasons_k: greatest(&seasons) - least(&seasons),
            day_to_day_k: deviation(&steps),
            daily_spread_k: spreads.iter().sum::<f64>() / spreads.len() as f64,
            cycle_k: first_wave(&mean_day).1 / spreads.len().max(1) as f64,
        }
    }
}

/// Which end of a year.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum End {
    /// The cold one, which has a bound by latitude too.
    Cold,
    /// The warm one.
    Warm,
}

/// The worst hour beyond the bound of that end, and how many are beyond.
pub(super) fn impossible(year: &OutdoorYear, shape: &Shape, times: Times, end: End) -> Option<Flag> {
    let room = LEAST_ROOM.max(DEVIATIONS * shape.deviation_k);
    let (sign, own) = match end {
        End::Cold => (-1.0, shape.ends.0 - room),
        End::Warm => (1.0, shape.ends.1 + room),
    };
    let by_latitude = year.latitude.filter(|_| end == End::Cold).map(|l| coldest(l, year.elevation_m));
    let (limit_c, by) = match by_latitude {
        Some(limit) if limit > own => (limit, Bound::Latitude),
        _ => (own, Bound::OwnYear),
    };
    let hours = year.columns.dry_bulb_c.iter().copied().enumerate();
    let beyond: Vec<(usize, f64)> = hours.filter(|(_, t)| sign * (t - limit_c) > 0.0).collect();
    let (hour, temperature_c) =
        beyond.iter().copied().max_by(|a, b| (sign * a.1).total_cmp(&(sign * b.1)))?;
    Some(Flag::Impossible { at: times.hour(hour), temperature_c, limit_c, by, hours: beyond.len() })
}

/// Whether the coldest hour lies beyond what any year's own bound or the latitude's leaves; quicker to see
/// than the bound itself, and records have many winters.
pub(super) fn may_be_too_cold(year: &OutdoorYear) -> bool {
    let hours = &year.columns.dry_bulb_c;
    let coldest_hour = least(hours);
    let by_latitude = year.latitude.map(|l| coldest(l, year.elevation_m));
    let near = hours.iter().filter(|c| **c <= coldest_hour + LEAST_ROOM).count();
    by_latitude.is_some_and(|limit| coldest_hour < limit) || near <= rank(hours.len(), END_SHARE)
}

/// The bound of latitude and height, °C; sea level where no height is known.
fn coldest(latitude: f64, elevation_m: Option<f64>) -> f64 {
    let latitude = latitude.abs();
    let pairs = COLDEST.iter().zip(COLDEST.iter().skip(1));
    let mut pairs = pairs.filter(|(_, upper)| latitude <= upper.0);
    let at_sea = pairs
        .next()
        .map_or(f64::NEG_INFINITY, |((x0, y0), (x1, y1))| y0 + (y1 - y0) * (latitude - x0) / (x1 - x0));
    at_sea - COLDER_WITH_HEIGHT * elevation_m.unwrap_or_default().max(0.0)
}

/// Whether the days differ too little for weather.
pub(super) fn smoothed(shape: &Shape) -> Option<Flag> {
    let least_step = if shape.seasons_k >= SEASONS { LEAST_STEP_SEASONS } else { LEAST_STEP };
    let (day_to_day_k, daily_spread_k) = (shape.day_to_day_k, shape.daily_spread_k);
    let flat = day_to_day_k < least_step || daily_spread_k < LEAST_SPREAD;
    flat.then_some(Flag::Smoothed { day_to_day_k, daily_spread_k })
}

/// Whether day and night are alike while the days differ, as running means over a day make them; where the sun neither
/// rises nor sets for months that may be so.
pub(super) fn without_cycle(shape: &Shape, latitude: Option<f64>) -> Option<Flag> {
    let polar = latitude.is_some_and(|latitude| latitude.abs() > HIGHEST_LATITUDE);
    let (day_to_day_k, daily_spread_k) = (shape.day_to_day_k, shape.daily_spread_k);
    let small = |over: f64, least: f64| shape.cycle_k < least * over;
    let none = !polar && small(day_to_day_k, LEAST_CYCLE.0) && small(daily_spread_k, LEAST_CYCLE.1);
    none.then_some(Flag::NoCycle { cycle_k: 2.0 * shape.cycle_k, day_to_day_k })
}

/// The value with that share of the others below it, to the nearest one.
pub(super) fn nth(values: &[f64], share: f64) -> f64 {
    let mut values = values.to_vec();
    let place = rank(values.len(), share);
    match values.is_empty() {
        true => f64::NAN,
        false => *values.select_nth_unstable_by(place, f64::total_cmp).1,
    }
}

fn rank(count: usize, share: f64) -> usize {
    (share * count.saturating_sub(1) as f64).round() as usize
}

/// Means over [`SEASON_DAYS`] days round the year.
fn running_means(days: &[f64]) -> Vec<f64> {
    let n = days.len();
    let around = |day: usize| (0..SEASON_DAYS).map(move |i| (day + n + i - SEASON_DAYS / 2) % n);
    let mean = |day: usize| around(day).filter_map(|i| days.get(i)).sum::<f64>() / SEASON_DAYS as f64;
    // A run shorter than half the window has no season to speak of.
    if n < SEASON_DAYS { days.to_vec() } else { (0..n).map(mean).collect() }
}

fn deviation(values: &[f64]) -> f64 {
    let n = values.len().max(1) as f64;
    let mean = values.iter().sum::<f64>() / n;
    (values.iter().map(|v| (v - mean) * (v - mean)).sum::<f64>() / n).sqrt()
}

pub(super) fn least(values: &[f64]) -> f64 {
    end(values, f64::INFINITY, f64::min)
}

pub(super) fn greatest(values: &[f64]) -> f64 {
    end(values, f64::NEG_INFINITY, f64::max)
}

/// In eight lanes, as each step of one chain would wait for the one before: records have many winters.
fn end(values: &[f64], first: f64, pick: fn(f64, f64) -> f64) -> f64 {
    let mut lanes = [first; 8];
    let (eights, rest) = values.as_chunks::<8>();
    for eight in eights {
        lanes.iter_mut().zip(eight).for_each(|(lane, value)| *lane = pick(*lane, *value));
    }
    lanes.iter().chain(rest).copied().fold(first, pick)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_coldest_by_latitude_lies_between_its_neighbours_and_falls_with_height() {
        // Hand-worked: halfway from 20° to 30°, and 1,000 m up.
        assert_eq!(coldest(25.0, None), -13.5);
        assert_eq!(coldest(-25.0, Some(1000.0)), -23.5);
        assert_eq!(coldest(25.0, Some(-50.0)), -13.5);
        assert_eq!((coldest(0.0, None), coldest(90.0, None)), (-5.0, -92.0));
    }

    #[test]
    fn a_running_mean_goes_round_the_year() {
        let mut days = vec![0.0; 365];
        days[0] = 31.0;
        let means = running_means(&days);
        assert_eq!((means[0], means[15], means[16], means[350], means[349]), (1.0, 1.0, 0.0, 1.0, 0.0));
    }
}
