//! Months of one year that are the copy of another year's.
//!
//! Must never know files: a copy is told by its hours. Start at [`months`].

use super::Flag;
use super::sensor::order;
use crate::weather::record::WeatherRecord;
use chrono::{Datelike, NaiveDate};

/// Days of each month that are compared: as many as the shortest has.
const DAYS: usize = 28;

/// The first month that comes again in another year, and how many do.
///
/// Four weeks of hours are never alike by chance; months with filled hours are left out, since two years may
/// lack the same hours.
pub(super) fn months(record: &WeatherRecord) -> Option<Flag> {
    let varied = |hours: &[f64]| hours.windows(2).any(|pair| pair[0] != pair[1]);
    let measured = record.months(DAYS).into_iter().filter(|(_, hours, filled)| !filled && varied(hours));
    let mut months: Vec<(NaiveDate, &[f64])> = measured.map(|(first, hours, _)| (first, hours)).collect();
    months.sort_by(|a, b| a.0.month().cmp(&b.0.month()).then_with(|| order(a.1, b.1)).then(a.0.cmp(&b.0)));
    let repeats = months.windows(2).filter_map(|pair| match pair {
        [(first, a), (again, b)] if first.month() == again.month() && order(a, b).is_eq() => {
            Some((*first, *again))
        }
        _ => None,
    });
    let repeats: Vec<(NaiveDate, NaiveDate)> = repeats.collect();
    let (first, again) = repeats.iter().copied().min()?;
    Some(Flag::RepeatedMonths { first, again, months: repeats.len() })
}
