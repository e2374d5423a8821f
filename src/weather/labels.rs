//! The labels of dated rows, in the order of the file: repeated, going back, following a clock that is
//! put forward and back.
//!
//! Hours that are not there and files that stop early are told where gaps are filled and years taken.
//! Must never know temperatures. Start at [`Labels`].

use super::when::time_of;
use chrono::NaiveDateTime;

/// What is wrong with the labels of rows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Labels {
    /// Rows with a label that is there before.
    Duplicated {
        /// The first of them.
        at: NaiveDateTime,
        /// How many.
        times: usize,
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

/// What is wrong with the labels, minutes each; nothing where each follows the one before.
pub(super) fn labels(minutes: &[i64]) -> Vec<Labels> {
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
    let repeated = time(doubled.first()).map(|at| Labels::Duplicated { at, times: doubled.len() });
    let unsorted = time(back.first()).map(|at| Labels::Unsorted { at, times: back.len() });
    repeated.into_iter().chain(unsorted).collect()
}

fn steps(minutes: &[i64]) -> impl Iterator<Item = (i64, i64)> {
    minutes.iter().copied().zip(minutes.iter().skip(1).copied())
}
