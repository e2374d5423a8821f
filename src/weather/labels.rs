//! The labels of dated rows, in the order of the file: repeated, going back, following a clock that is
//! put forward and back.
//!
//! Hours that are not there and files that stop early are told where gaps are filled and years taken.
//! Must never know temperatures. Start at [`Labels`].

use super::when::time_of;
use chrono::{Datelike, NaiveDateTime, Timelike, Weekday};

/// What is wrong with the labels of rows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Labels {
    /// Rows with a label that is there before.
    Duplicated {
        /// The first of them.
        at: NaiveDateTime,
        /// How many.
        times: usize,
        /// How far apart the temperatures of one label are at most, K, and at which; nothing where no two
        /// are given.
        apart: Option<(NaiveDateTime, f64)>,
    },
    /// Rows that go back in time.
    Unsorted {
        /// The first that lies before the one above it.
        at: NaiveDateTime,
        /// How often that is so.
        times: usize,
    },
    /// An hour missing where clocks are put forward, and one doubled in the other season or none: a clock with
    /// daylight saving.
    DaylightSaving {
        /// The first hour that is missing.
        skipped: NaiveDateTime,
        /// The first that is there twice; nothing where such hours were taken out.
        doubled: Option<NaiveDateTime>,
        /// How many hours are there twice, or are skipped where none is.
        times: usize,
    },
}

/// One in so many of the hours that alone are missing must be one of a clock.
const SHARE: usize = 4;
/// Clocks stand on summer time for so many days.
const SUMMER: std::ops::Range<i64> = 120..250;

/// What is wrong with the labels, minutes each, of rows of these temperatures, °C; nothing where each label
/// follows the one before.
pub(super) fn labels(minutes: &[i64], dry_bulb_c: &[Option<f64>]) -> Vec<Labels> {
    if minutes.is_sorted_by(|a, b| a < b) {
        return put_forward(minutes).into_iter().collect();
    }
    let back = steps(minutes).filter(|(a, b)| b < a).map(|(_, b)| b);
    let back: Vec<i64> = back.collect();
    let mut sorted = minutes.to_vec();
    sorted.sort_unstable();
    let doubled: Vec<i64> = steps(&sorted).filter(|(a, b)| a == b).map(|(_, b)| b).collect();
    let mut hours: Vec<i64> = doubled.iter().map(|minute| minute.div_euclid(60)).collect();
    hours.dedup();
    let skipped = single_hours(&sorted);
    let of_a_clock = |hour: &i64| skipped.iter().any(|other| SUMMER.contains(&((hour - other).abs() / 24)));
    let time = |minute: Option<&i64>| minute.and_then(|minute| time_of(*minute));
    let clock = !hours.is_empty() && hours.iter().all(of_a_clock);
    let first_skipped =
        skipped.iter().find(|hour| hours.iter().any(|other| SUMMER.contains(&((*hour - other).abs() / 24))));
    let pair = time(first_skipped.map(|h| h * 60).as_ref()).zip(time(hours.first().map(|h| h * 60).as_ref()));
    if let (true, Some((skipped, doubled))) = (clock && back.len() <= hours.len(), pair) {
        return vec![Labels::DaylightSaving { skipped, doubled: Some(doubled), times: hours.len() }];
    }
    let apart = || largest_difference(minutes, dry_bulb_c);
    let repeated =
        time(doubled.first()).map(|at| Labels::Duplicated { at, times: doubled.len(), apart: apart() });
    let unsorted = time(back.first()).map(|at| Labels::Unsorted { at, times: back.len() });
    repeated.into_iter().chain(unsorted).collect()
}

/// The hours that alone are missing between two others, of labels in order.
fn single_hours(sorted: &[i64]) -> Vec<i64> {
    let by_hour = |(a, b): (i64, i64)| (a.div_euclid(60), b.div_euclid(60));
    steps(sorted).map(by_hour).filter(|(a, b)| b - a == 2).map(|(a, _)| a + 1).collect()
}

/// A clock with daylight saving whose doubled hours were taken out: of the hours that alone are missing, a good
/// share are just those at which clocks are put forward. By chance one is in a thousand, and the files at hand have up to
/// 40 such hours a year.
fn put_forward(minutes: &[i64]) -> Option<Labels> {
    let alone = single_hours(minutes);
    let skipped = alone.iter().filter_map(|hour| time_of(hour * 60)).filter(|time| is_put_forward(*time));
    let skipped: Vec<NaiveDateTime> = skipped.collect();
    let enough = skipped.len() * SHARE >= alone.len();
    let first = skipped.first().copied().filter(|_| enough)?;
    Some(Labels::DaylightSaving { skipped: first, doubled: None, times: skipped.len() })
}

/// Whether clocks somewhere skip that hour: in the United States, Europe, Australia or New Zealand.
///
/// Source: the laws in force, from memory: 2 o'clock of the second Sunday in March (from 1987 to 2006 the first in
/// April); 1 to 3 o'clock of the last in March; 2 o'clock of the first in October; of the last in September.
fn is_put_forward(time: NaiveDateTime) -> bool {
    let (month, day, hour) = (time.month(), time.day(), time.hour());
    let at = match (month, day) {
        (3, 25..=31) => (1..=3).contains(&hour),
        (3, 8..=14) | (4 | 10, 1..=7) | (9, 24..=30) => hour == 2,
        _ => false,
    };
    at && time.weekday() == Weekday::Sun
}

/// How far the temperatures of rows with one label lie apart at most, and the label.
fn largest_difference(minutes: &[i64], dry_bulb_c: &[Option<f64>]) -> Option<(NaiveDateTime, f64)> {
    let rows = minutes.iter().zip(dry_bulb_c).filter_map(|(minute, value)| Some((*minute, (*value)?)));
    let mut rows: Vec<(i64, f64)> = rows.collect();
    rows.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
    let of_one_label = rows.chunk_by(|a, b| a.0 == b.0).filter(|rows| rows.len() > 1);
    let apart = of_one_label.filter_map(|rows| Some((rows.first()?.0, rows.last()?.1 - rows.first()?.1)));
    let (minute, kelvin) = apart.max_by(|a, b| a.1.total_cmp(&b.1).then(b.0.cmp(&a.0)))?;
    Some((time_of(minute)?, kelvin))
}

fn steps(minutes: &[i64]) -> impl Iterator<Item = (i64, i64)> {
    minutes.iter().copied().zip(minutes.iter().skip(1).copied())
}
