//! Dated rows onto the hours of a span; several in one hour become their mean.
//!
//! Must never choose a span. Start at [`onto`].

use super::dated::Dated;
use super::hours::{Hours, Within};
use super::reading::Remark;
use super::when::{date_of, minute_of};
use chrono::{Datelike, NaiveDate};

/// The hours to take: from `first` (hours since the calendar's first day), so many.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Span {
    pub(super) first: i64,
    pub(super) hours: usize,
    /// Whole years, whose end is followed by their beginning.
    pub(super) ring: bool,
    /// Hours just before or after it are those that the other end lacks.
    pub(super) wraps: bool,
}

/// The rows by hour of the span; several in one hour become their mean.
pub(super) fn onto(dated: &mut Dated, shift: i64, span: Span) -> Hours {
    let n = span.hours as i64;
    let place = |minutes: &i64| {
        let hour = (minutes + shift).div_euclid(60) - span.first;
        let hour = if span.wraps { hour.rem_euclid(n.max(1)) } else { hour };
        usize::try_from(hour).ok().filter(|hour| *hour < span.hours)
    };
    let mut lines = vec![0; span.hours];
    let mut rows = vec![0_u32; span.hours];
    let mut outside = 0;
    for (minutes, line) in dated.minutes.iter().zip(&dated.hours.lines) {
        match place(minutes).and_then(|hour| Some((lines.get_mut(hour)?, rows.get_mut(hour)?))) {
            Some((of_hour, rows)) => {
                *of_hour = *line;
                *rows += 1;
            }
            None => outside += 1,
        }
    }
    let fullest = rows.into_iter().max().unwrap_or_default().max(1) as usize;
    let mut columns = std::mem::take(&mut dated.hours.columns);
    for (_, values) in &mut columns {
        let places = dated.minutes.iter().map(place);
        *values = means(places.zip(values.iter().copied()), span.hours, fullest > 1);
    }
    if fullest > 1 {
        dated.reading.remarks.push(Remark::Averaged { rows_an_hour: fullest });
    }
    if outside > 0 {
        dated.reading.rows_skipped += outside;
        dated.reading.remarks.push(Remark::LeftOut { hours: outside.div_ceil(fullest) });
    }
    let leap_days = leap_days(&lines, shift, span);
    Hours { columns, lines, files: files(dated, shift, span), leap_days }
}

/// The first hour of each 29 February that has no row at all, though the days beside it have: years of 365 days are
/// made by leaving it out.
fn leap_days(lines: &[u32], shift: i64, span: Span) -> Vec<usize> {
    let year = |hour: i64| date_of(hour * 60).map(|(date, _)| date.year());
    let last = span.first + span.hours as i64 - 1;
    let (Some(from), Some(to)) = (year(span.first), year(last)) else { return Vec::new() };
    let first_hour = |year: i32| {
        let day = NaiveDate::from_ymd_opt(year, 2, 29)?;
        usize::try_from((minute_of(day) + shift).div_euclid(60) - span.first).ok()
    };
    let row = |hour: Option<usize>| hour.and_then(|hour| lines.get(hour)).is_some_and(|line| *line > 0);
    let lacks = |hour: &usize| {
        let day = lines.get(*hour..*hour + 24);
        let none = day.is_some_and(|lines| lines.iter().all(|line| *line == 0));
        none && row(hour.checked_sub(1)) && row(Some(*hour + 24))
    };
    (from..=to).filter_map(first_hour).filter(lacks).collect()
}

/// Which file gives which hours of the span; nothing to tell where there is but one.
fn files(dated: &Dated, shift: i64, span: Span) -> Vec<Within> {
    let hour = |minutes: i64| (minutes + shift).div_euclid(60) - span.first;
    let several = dated.files.iter().filter(|_| dated.files.len() > 1);
    let within = |(file, first, last): &(String, i64, i64)| Within {
        file: file.clone(),
        first: hour(*first),
        last: hour(*last),
    };
    several.map(within).collect()
}

/// The mean of each hour's values.
fn means(
    values: impl Iterator<Item = (Option<usize>, Option<f64>)>,
    hours: usize,
    several: bool,
) -> Vec<Option<f64>> {
    let mut sums: Vec<Option<f64>> = vec![None; hours];
    let mut counts = vec![0_u32; if several { hours } else { 0 }];
    for (hour, value) in values.filter_map(|(hour, value)| Some((hour?, value?))) {
        if let Some(sum) = sums.get_mut(hour) {
            *sum = Some(sum.unwrap_or_default() + value);
        }
        if let Some(count) = counts.get_mut(hour) {
            *count += 1;
        }
    }
    for (sum, count) in sums.iter_mut().zip(counts) {
        *sum = sum.map(|sum| sum / f64::from(count));
    }
    sums
}
