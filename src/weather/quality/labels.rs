//! The labels of rows, in the order of the file: repeated, going back, missing, stopping early.
//!
//! Must never know temperatures. Start at [`stamp_flags`].

use super::{Flag, Labels};
use chrono::{Datelike, Duration, NaiveDate, NaiveDateTime};
use std::collections::BTreeMap;

/// A file that ends up to a day early has lost its last hours to a shift of zone, no more.
const EARLY: Duration = Duration::hours(24);

/// What is wrong with the labels of hourly rows; empty where each hour follows the one before up to
/// the end of the last year.
///
/// `stamps` are the rows' hours as the file has them. A clock with daylight saving skips one hour and
/// doubles another half a year later: that is told as one finding.
///
/// ```
/// use chrono::{Duration, NaiveDate};
/// use winterledger::weather::quality::{Flag, Labels, stamp_flags};
/// let first = NaiveDate::from_ymd_opt(2023, 1, 1).unwrap().and_hms_opt(0, 0, 0).unwrap();
/// let mut rows: Vec<_> = (0..8760).map(|hour| first + Duration::hours(hour)).collect();
/// assert_eq!(stamp_flags(&rows), []);
/// rows.truncate(4000);
/// assert_eq!(stamp_flags(&rows), [Flag::Labels(Labels::StopsEarly { last: rows[3999] })]);
/// ```
pub fn stamp_flags(stamps: &[NaiveDateTime]) -> Vec<Flag> {
    let mut rows: BTreeMap<NaiveDateTime, usize> = BTreeMap::new();
    for stamp in stamps {
        *rows.entry(*stamp).or_default() += 1;
    }
    let doubled: Vec<(NaiveDateTime, usize)> =
        rows.iter().filter(|(_, count)| **count > 1).map(|(stamp, count)| (*stamp, count - 1)).collect();
    let gaps = gaps(&rows);
    let mut found = Vec::new();
    match (gaps.as_slice(), doubled.as_slice()) {
        ([(skipped, 1)], [(doubled, 1)]) if is_half_a_year(*skipped, *doubled) => {
            found.push(Labels::DaylightSaving { skipped: *skipped, doubled: *doubled });
        }
        _ => {
            if let Some((at, _)) = gaps.first() {
                found.push(Labels::Missing { at: *at, hours: gaps.iter().map(|gap| gap.1).sum() });
            }
            if let Some((at, _)) = doubled.first() {
                found.push(Labels::Duplicated { at: *at, times: doubled.iter().map(|row| row.1).sum() });
            }
        }
    }
    found.extend(unsorted(stamps));
    found.extend(rows.keys().next_back().and_then(|last| stops_early(*last)));
    found.into_iter().map(Flag::Labels).collect()
}

/// The hours between labels that are not there: the first of each gap and how many.
fn gaps(rows: &BTreeMap<NaiveDateTime, usize>) -> Vec<(NaiveDateTime, usize)> {
    let hour = Duration::hours(1);
    let pairs = rows.keys().zip(rows.keys().skip(1));
    let between = pairs.filter(|(a, b)| **b - **a > hour);
    between
        .map(|(a, b)| (*a + hour, usize::try_from((*b - *a).num_hours() - 1).unwrap_or_default()))
        .collect()
}

/// Clocks stand on summer time for 4 to 8 months.
fn is_half_a_year(a: NaiveDateTime, b: NaiveDateTime) -> bool {
    (120..250).contains(&(a - b).num_days().abs())
}

fn unsorted(stamps: &[NaiveDateTime]) -> Option<Labels> {
    let mut back = stamps.iter().zip(stamps.iter().skip(1)).filter(|(a, b)| b < a).map(|(_, b)| *b);
    let at = back.next()?;
    Some(Labels::Unsorted { at, times: 1 + back.count() })
}

fn stops_early(last: NaiveDateTime) -> Option<Labels> {
    let end = NaiveDate::from_ymd_opt(last.year().checked_add(1)?, 1, 1)?.and_time(chrono::NaiveTime::MIN);
    (end - last > EARLY).then_some(Labels::StopsEarly { last })
}
