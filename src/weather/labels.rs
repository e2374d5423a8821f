//! The labels of dated rows, in the order of the file: repeated, going back, following a clock that is
//! put forward and back.
//!
//! Hours that are not there and files that stop early are told where gaps are filled and years taken.
//! Must never know temperatures. Start at [`Labels`].

use super::when::time_of;
use chrono::NaiveDateTime;

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
    /// An hour missing in one season and one doubled in the other: a clock with daylight saving.
    DaylightSaving {
        /// The first hour that is missing.
        skipped: NaiveDateTime,
        /// The first that is there twice.
        doubled: NaiveDateTime,
        /// How many hours are there twice.
        times: usize,
    },
}

/// Clocks stand on summer time for so many days.
const SUMMER: std::ops::Range<i64> = 120..250;

/// What is wrong with the labels, minutes each, of rows of these temperatures, °C; nothing where each label
/// follows the one before.
pub(super) fn labels(minutes: &[i64], dry_bulb_c: &[Option<f64>]) -> Vec<Labels> {
    if minutes.is_sorted_by(|a, b| a < b) {
        return Vec::new();
    }
    let back = steps(minutes).filter(|(a, b)| b < a).map(|(_, b)| b);
    let back: Vec<i64> = back.collect();
    let mut sorted = minutes.to_vec();
    sorted.sort_unstable();
    let doubled: Vec<i64> = steps(&sorted).filter(|(a, b)| a == b).map(|(_, b)| b).collect();
    let mut hours: Vec<i64> = doubled.iter().map(|minute| minute.div_euclid(60)).collect();
    hours.dedup();
    let by_hour = |(a, b): (i64, i64)| (a.div_euclid(60), b.div_euclid(60));
    let skipped: Vec<i64> =
        steps(&sorted).map(by_hour).filter(|(a, b)| b - a == 2).map(|(a, _)| a + 1).collect();
    let of_a_clock = |hour: &i64| skipped.iter().any(|other| SUMMER.contains(&((hour - other).abs() / 24)));
    let time = |minute: Option<&i64>| minute.and_then(|minute| time_of(*minute));
    let clock = !hours.is_empty() && hours.iter().all(of_a_clock);
    let first_skipped =
        skipped.iter().find(|hour| hours.iter().any(|other| SUMMER.contains(&((*hour - other).abs() / 24))));
    let pair = time(first_skipped.map(|h| h * 60).as_ref()).zip(time(hours.first().map(|h| h * 60).as_ref()));
    if let (true, Some((skipped, doubled))) = (clock && back.len() <= hours.len(), pair) {
        return vec![Labels::DaylightSaving { skipped, doubled, times: hours.len() }];
    }
    let apart = || largest_difference(minutes, dry_bulb_c);
    let repeated =
        time(doubled.first()).map(|at| Labels::Duplicated { at, times: doubled.len(), apart: apart() });
    let unsorted = time(back.first()).map(|at| Labels::Unsorted { at, times: back.len() });
    repeated.into_iter().chain(unsorted).collect()
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
