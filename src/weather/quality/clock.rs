//! The daily cycle before and after the clock changes: does the file follow the clock?
//!
//! Hours are in standard time all year. A file whose summer hours carry clock time has its sun, and its
//! morning's warming, an hour late all summer. Must never know time zones: files lie about them. Start
//! at [`by_sun`].

use super::{Cycle, Flag};
use crate::weather::year::OutdoorYear;
use std::f64::consts::PI;
use std::ops::Range;

/// A shift of the sun's middle between winter and summer, hours; clouds of summer afternoons and the
/// equation of time come to 0.3 at the built-in places.
const SUN_SHIFT: f64 = 0.6;
/// The same of the morning's warming, mean of spring and autumn; the real years tried come to 0.63 at
/// most, and with an hour's shift 32 of 34 of them reach this.
const WARMING_SHIFT: f64 = 0.75;
/// Spring and autumn must each show this, hours, in opposite directions.
const EACH_SHIFT: f64 = 0.5;
/// Beyond this latitude, degrees, sunrise means little for the temperature.
pub(super) const HIGHEST_LATITUDE: f64 = 65.0;
/// Quarter hours from sunrise over which the warming is looked at: 3 before to 6 after.
const AROUND: Range<i32> = -12..25;
/// Quarter hours by which two mornings are shifted against each other.
const LAGS: Range<i32> = -10..11;

/// Days of the year, outside the weeks in which clocks change in North America or Europe.
const NORTH: Windows = Windows { spring: (17..66, 90..139), autumn: (247..296, 312..361) };
/// The same for the clocks of Australia, New Zealand, Chile and Paraguay, where the year begins in
/// summer: `spring` is when the clock goes back.
const SOUTH: Windows = Windows { spring: (32..81, 101..150), autumn: (197..246, 289..338) };

struct Windows {
    spring: (Range<usize>, Range<usize>),
    autumn: (Range<usize>, Range<usize>),
}

/// A year's irradiance, if it has a sun.
pub(super) fn sun_of(year: &OutdoorYear) -> Option<&[f64]> {
    year.columns.global_w_m2.as_deref().filter(|sun| sun.iter().any(|w| *w > 0.0))
}

/// How far one hour of the day lies after another, hours, the shorter way round.
pub(super) fn after(hour: f64, other: f64) -> f64 {
    (hour - other + 12.0).rem_euclid(24.0) - 12.0
}

/// A shift of the sun.
pub(super) fn by_sun(year: &OutdoorYear) -> Option<Flag> {
    let (windows, summer) = windows(year.latitude?);
    let global = sun_of(year)?;
    let middle_days = windows.spring.1.start..windows.autumn.0.end;
    let middle = sun_middle(global, std::slice::from_ref(&middle_days))?;
    let ends = [0..windows.spring.0.end, windows.autumn.1.start..global.len() / 24];
    let hours = summer * after(middle, sun_middle(global, &ends)?);
    (hours.abs() >= SUN_SHIFT).then_some(Flag::ClockShift { hours, by: Cycle::Sun })
}

/// Days before and after the clock changes, and the sign of summer in them: in the south the middle of the calendar
/// year is winter.
fn windows(latitude: f64) -> (Windows, f64) {
    if latitude < 0.0 { (SOUTH, -1.0) } else { (NORTH, 1.0) }
}

/// A shift of the mornings' warming, which may be of another source than the sun.
pub(super) fn by_mornings(year: &OutdoorYear) -> Option<Flag> {
    let latitude = year.latitude?;
    let (windows, summer) = windows(latitude);
    if latitude.abs() > HIGHEST_LATITUDE {
        return None;
    }
    let lag = |(before, after): (Range<usize>, Range<usize>)| {
        let morning = |days| morning(&year.columns.dry_bulb_c, latitude, days);
        best_lag(&morning(before), &morning(after)).map(|hours| summer * hours)
    };
    let (spring, autumn) = (lag(windows.spring)?, lag(windows.autumn)?);
    let hours = (spring - autumn) / 2.0;
    let shifted = hours >= WARMING_SHIFT && spring >= EACH_SHIFT && autumn <= -EACH_SHIFT;
    shifted.then_some(Flag::ClockShift { hours, by: Cycle::Morning })
}

/// The hour of the day about which the irradiance of those days balances, midnight as well as noon.
pub(super) fn sun_middle(global: &[f64], days: &[Range<usize>]) -> Option<f64> {
    let mut day = [0.0; 24];
    for hours in days.iter().filter_map(|days| global.get(days.start * 24..days.end * 24)) {
        hours.chunks_exact(24).for_each(|hours| day.iter_mut().zip(hours).for_each(|(sum, w)| *sum += w));
    }
    (day.iter().sum::<f64>() > 0.0).then(|| first_wave(&day).0)
}

/// The hour about which the first wave of a day is highest, and half of its height from least to greatest.
pub(super) fn first_wave(day: &[f64; 24]) -> (f64, f64) {
    let turn = |hour: usize| 2.0 * PI * (hour as f64 + 0.5) / 24.0;
    let wave = |of: fn(f64) -> f64| day.iter().enumerate().map(|(h, c)| c * of(turn(h))).sum::<f64>();
    let (cosine, sine) = (wave(f64::cos), wave(f64::sin));
    ((sine.atan2(cosine) * 12.0 / PI).rem_euclid(24.0), cosine.hypot(sine) / 12.0)
}

/// The median change in an hour at each quarter hour around sunrise over those days.
fn morning(dry_bulb_c: &[f64], latitude: f64, days: Range<usize>) -> Vec<f64> {
    let sunrises: Vec<f64> = days.map(|day| (day * 24) as f64 + sunrise(day, latitude)).collect();
    let at = |quarter: i32| {
        let changes = sunrises.iter().filter_map(|time| change(dry_bulb_c, time + f64::from(quarter) / 4.0));
        let mut changes: Vec<f64> = changes.collect();
        let middle = changes.len() / 2;
        if changes.is_empty() { 0.0 } else { *changes.select_nth_unstable_by(middle, f64::total_cmp).1 }
    };
    AROUND.map(at).collect()
}

/// The change from one hour to the next at a time in hours of the year, by straight lines between hours.
pub(super) fn change(dry_bulb_c: &[f64], place: f64) -> Option<f64> {
    let hour = place.floor() as usize;
    let at = |hour: usize| Some(dry_bulb_c.get(hour)? - dry_bulb_c.get(hour.checked_sub(1)?)?);
    let (before, after) = (at(hour)?, at(hour + 1)?);
    Some(before + (after - before) * place.fract())
}

/// Solar time of sunrise, hours (Cooper 1969 for the declination); only its course matters here.
pub(super) fn sunrise(day: usize, latitude: f64) -> f64 {
    let declination = 23.45_f64.to_radians() * (2.0 * PI * (285.0 + day as f64) / 365.0).sin();
    let cosine = -latitude.to_radians().tan() * declination.tan();
    12.0 - cosine.clamp(-1.0, 1.0).acos() * 12.0 / PI
}

/// By how many hours `later` must be moved forward to resemble `earlier` best (greatest correlation
/// of what overlaps).
fn best_lag(earlier: &[f64], later: &[f64]) -> Option<f64> {
    let likeness = |lag: i32| {
        let pairs = earlier.iter().enumerate().filter_map(|(i, value)| {
            let place = i32::try_from(i).ok()?.checked_add(lag)?;
            Some((*value, *later.get(usize::try_from(place).ok()?)?))
        });
        correlation(&pairs.collect::<Vec<_>>())
    };
    let best = LAGS.map(|lag| (lag, likeness(lag))).max_by(|a, b| a.1.total_cmp(&b.1))?;
    best.1.is_finite().then_some(f64::from(best.0) / 4.0)
}

fn correlation(pairs: &[(f64, f64)]) -> f64 {
    let n = pairs.len() as f64;
    let (a, b) = pairs.iter().fold((0.0, 0.0), |(a, b), (x, y)| (a + x / n, b + y / n));
    let sums = pairs.iter().fold((0.0, 0.0, 0.0), |(ab, aa, bb), (x, y)| {
        (ab + (x - a) * (y - b), aa + (x - a) * (x - a), bb + (y - b) * (y - b))
    });
    sums.0 / (sums.1 * sums.2).sqrt()
}
