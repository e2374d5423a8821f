//! The hour at which the day is warmest, or the sun stands about its middle: is it that of the place?
//!
//! Tells hours in UTC that were taken as local time, hours of another zone, and hours that were shifted though
//! they were local. Must never know a file's clock. Start at [`odd`].

use super::clock::{HIGHEST_LATITUDE, after, change, first_wave, sun_middle, sun_of, sunrise};
use super::{Cycle, Flag};
use crate::weather::year::OutdoorYear;
use std::ops::{Range, RangeInclusive};

/// The sun's middle may lie so far from noon, hours; 0.17 at most at the six built-in places (Golden).
const FROM_NOON: f64 = 0.6;
/// Solar hours about which the mean day is warmest: from 13.8 (Golden) to 15.4 (Chicago 2017) in the six built-in
/// years, Miami's, seven actual ones of Illinois and Northway and 22 in France. Shores with a sea breeze come
/// earlier (from memory); an hour's error therefore passes where the file has no sun.
const SOLAR: RangeInclusive<f64> = 12.5..=16.6;
/// Standard time runs from 0.5 h behind the sun to 2.0 ahead (western Alaska), hours: where no longitude is known.
const AHEAD: (f64, f64) = (-0.5, 2.0);
/// Where no latitude is known. In all those years it puts the morning's warming from −0.28 (Northway) to 1.11 hours
/// (Chicago 2017) after sunrise. Where no longitude is known either, all 33 of them lie outside once they are moved by
/// three hours towards early, 26 towards late; by two hours 6 and none.
const MIDDLE_LATITUDE: f64 = 40.0;
/// The mean day's cosine, K either way, under which no hour is warmest; the least of those years is 2.5 (Miami).
const LEAST_CYCLE: f64 = 1.0;

/// Quarter hours about sunrise over which the warming is looked at.
const ABOUT_SUNRISE: Range<i32> = -16..29;
/// So long after sunrise the mean warming of the year's days has reached half of its greatest, hours: −0.07 (McGuire)
/// to 1.24 (Northway 2019) in all those years and two more of Illinois, in tenths or whole degrees of either unit alike.
/// In all of them the hours lie outside once they are moved by two, either way.
const AFTER_SUNRISE: RangeInclusive<f64> = -0.7..=1.9;
/// Solar time of sunrise at the equinox, hours.
const EQUINOX: f64 = 6.0;

/// An hour that no place has: of the sun where the file has it, else of the temperature, which may have been shifted alone.
pub(super) fn odd(year: &OutdoorYear) -> Option<Flag> {
    odd_sun(year).or_else(|| odd_temperature(year))
}

/// How far standard time is ahead of the sun, hours.
fn ahead(year: &OutdoorYear) -> Option<f64> {
    year.longitude.zip(year.utc_offset_h).map(|(longitude, offset)| offset - longitude / 15.0)
}

/// A sun that stands in its middle at such an hour.
pub(super) fn odd_sun(year: &OutdoorYear) -> Option<Flag> {
    let (ahead, global) = (ahead(year)?, sun_of(year)?);
    let hour = sun_middle(global, std::slice::from_ref(&(0..global.len() / 24)))?;
    let noon = 12.0 + ahead;
    let usual = (noon - FROM_NOON, noon + FROM_NOON);
    (after(hour, noon).abs() > FROM_NOON).then_some(Flag::HourOfDay { hour, usual, by: Cycle::Sun })
}

fn odd_temperature(year: &OutdoorYear) -> Option<Flag> {
    let hours = &year.columns.dry_bulb_c;
    let hour = warmest(hours)?;
    let ahead = ahead(year).map_or(AHEAD, |ahead| (ahead, ahead));
    let within = |range: RangeInclusive<f64>| (range.start() + ahead.0, range.end() + ahead.1);
    let usual = within(SOLAR);
    if !(usual.0..=usual.1).contains(&hour) {
        return Some(Flag::HourOfDay { hour, usual, by: Cycle::Temperature });
    }
    let latitude = year.latitude.unwrap_or_else(|| MIDDLE_LATITUDE.copysign(summer_of_the_north(hours)));
    let middle = EQUINOX + (ahead.0 + ahead.1) / 2.0;
    let hour = middle + warming(hours, latitude, middle - EQUINOX)?;
    let (from, to) = within(AFTER_SUNRISE);
    let usual = (EQUINOX + from, EQUINOX + to);
    let odd = !(usual.0..=usual.1).contains(&hour);
    odd.then_some(Flag::HourOfDay { hour, usual, by: Cycle::Morning })
}

/// How much warmer April to September is than the whole year, K.
fn summer_of_the_north(hours: &[f64]) -> f64 {
    let mean = |hours: &[f64]| hours.iter().sum::<f64>() / hours.len().max(1) as f64;
    hours.get(90 * 24..273 * 24).map_or(0.0, mean) - mean(hours)
}

/// How long after sunrise the mean warming reaches half of its greatest, hours, if standard time is so much ahead of the
/// sun.
fn warming(hours: &[f64], latitude: f64, ahead: f64) -> Option<f64> {
    if latitude.abs() > HIGHEST_LATITUDE {
        return None;
    }
    let sunrise = |day: usize| (day * 24) as f64 + sunrise(day, latitude) + ahead;
    let sunrises: Vec<f64> = (0..hours.len() / 24).map(sunrise).collect();
    let at = |quarter: i32| -> f64 {
        sunrises.iter().filter_map(|time| change(hours, time + f64::from(quarter) / 4.0)).sum()
    };
    let course: Vec<(i32, f64)> = ABOUT_SUNRISE.map(|quarter| (quarter, at(quarter))).collect();
    let greatest = course.iter().map(|(_, sum)| *sum).fold(f64::MIN, f64::max);
    let rising = course.iter().take_while(|(_, sum)| *sum < greatest);
    let below = rising.zip(course.iter().skip(1)).filter(|(one, _)| one.1 <= greatest / 2.0).last();
    let ((quarter, a), (_, b)) = below?;
    Some((f64::from(*quarter) + (greatest / 2.0 - a) / (b - a)) / 4.0)
}

/// The hour about which the mean day is warmest, by its first wave.
fn warmest(hours: &[f64]) -> Option<f64> {
    let mut day = [0.0; 24];
    for hours in hours.chunks_exact(24) {
        day.iter_mut().zip(hours).for_each(|(sum, c)| *sum += c);
    }
    let (hour, sum_k) = first_wave(&day);
    (sum_k / (hours.len() / 24).max(1) as f64 >= LEAST_CYCLE).then_some(hour)
}
