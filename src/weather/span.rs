//! Dated rows into hours of local standard time: a year where they are one, else a record.
//!
//! Averages what falls into one hour, shifts the clock, and wraps whole years at their ends. Must
//! never know a layout. Start at [`into_weather`].

use super::by_hour::{Span, onto};
use super::cells::Field;
use super::dated::{Clock, Dated, words};
use super::findings::Findings;
use super::gaps::LONGEST_FILLED;
use super::held::Weather;
use super::misdated::{cut_times, far_rows};
use super::options::ReadOptions;
use super::reading::Remark;
use super::stamps::{LEAP_HOURS, YEAR_HOURS, is_leap};
use super::when::{date_of, minute_of};
use super::year::YearKind;
use super::zones::standard_offset_h;
use crate::calendar::TYPICAL_YEAR;
use crate::problem::{Problem, Problems};
use chrono::{Datelike, Days, NaiveDate};

const DAY: i64 = 24 * 60;

/// Puts the rows into local standard time and takes their years.
///
/// # Errors
/// The offset from UTC is not known; no whole year; gaps that are too long.
pub(super) fn into_weather(mut dated: Dated, options: &ReadOptions) -> Result<Weather, Problems> {
    let findings = Findings::new(&dated.source());
    let shift = match shift_minutes(&mut dated, options) {
        Ok(shift) => shift,
        Err(problem) => return Err(findings.end(problem)),
    };
    let Some((span, kind)) = span(&mut dated, shift) else {
        let far = far_rows(&dated.minutes, &dated.hours.lines);
        return Err(findings.end(far.unwrap_or_else(|| no_whole_year(&dated, shift))));
    };
    let Some(first_day) = date_of(span.first * 60).map(|(date, _)| date) else {
        return Err(findings.end(Problem::new("the dates are out of range")));
    };
    let hours = onto(&mut dated, shift, span);
    // Times that carry their offset are in UTC within the program alone.
    let moved = shift - dated.offsets.map_or(0, |(standard, _)| standard);
    if moved != 0 {
        let wrapped = if span.wraps { wrapped(&dated, shift, span) } else { 0 };
        dated.reading.remarks.push(Remark::Shifted { hours: moved as f64 / 60.0, wrapped });
    }
    if dated.reading.remarks.iter().any(|remark| matches!(remark, Remark::Averaged { .. })) {
        match cut_times(&dated.minutes, span.hours) {
            Ok(remark) => dated.reading.remarks.extend(remark),
            Err(problem) => return Err(findings.end(problem)),
        }
    }
    let end = (options.gaps, findings);
    let Dated { site, sha256, reading, minutes, file, hours: rows, .. } = dated;
    let weather = match kind {
        Some(kind) => {
            hours.into_year(site, kind, sha256, reading, end).map(|year| Weather::Year(Box::new(year)))
        }
        None => hours
            .into_record(site, (first_day, span.ring), sha256, reading, end)
            .map(|record| Weather::Record(Box::new(record))),
    };
    weather.map_err(|problems| match far_rows(&minutes, &rows.lines) {
        Some(far) => Findings::new(&file).end(far),
        None => problems,
    })
}

/// Minutes from the file's clock to local standard time; completes the site's offset.
fn shift_minutes(dated: &mut Dated, options: &ReadOptions) -> Result<i64, Problem> {
    let year = dated.minutes.first().and_then(|m| date_of(*m)).map_or(TYPICAL_YEAR, |(date, _)| date.year());
    let site = &mut dated.site;
    let of_zone = || options.zone.and_then(|zone| standard_offset_h(zone, year));
    site.utc_offset_h = site.utc_offset_h.or_else(of_zone);
    let Clock::Offset(own) = dated.clock else {
        if dated.clock == Clock::Unsaid {
            dated.reading.remarks.push(Remark::ClockUnsaid);
        }
        return Ok(0);
    };
    let local = match (site.utc_offset_h, dated.offsets.and_then(standard_of), site.longitude) {
        (Some(local), Some(times), _) if times != local => {
            dated.reading.remarks.push(Remark::OffsetsDiffer { times, place: local });
            local
        }
        (Some(local), ..) => local,
        (None, Some(hours), _) => {
            dated.reading.remarks.push(Remark::OffsetFromTimes { hours });
            hours
        }
        (None, None, Some(longitude)) => {
            let hours = (longitude / 15.0).round();
            dated.reading.remarks.push(Remark::OffsetFromLongitude { hours });
            hours
        }
        (None, None, None) => {
            let what = "the hours are in UTC, and the standard time of the place is not known";
            let help = "Write time_zone = \"America/Chicago\" (or the place's own) into [site] of the job; \
                        `weather` takes --time-zone America/Chicago";
            return Err(Problem::new(what).help(help));
        }
    };
    site.utc_offset_h = Some(local);
    Ok(((local - own) * 60.0).round() as i64)
}

/// Hours of standard time from UTC, where times carry one offset or those of a clock that is put forward
/// by an hour at most; times all in UTC say nothing of the place.
fn standard_of((least, most): (i64, i64)) -> Option<f64> {
    ((least, most) != (0, 0) && most - least <= 60).then_some(least as f64 / 60.0)
}

/// The span to take and the kind of year; no kind is a record.
fn span(dated: &mut Dated, shift: i64) -> Option<(Span, Option<YearKind>)> {
    let (first, last) = (*dated.minutes.first()?, *dated.minutes.last()?);
    let days = (first.div_euclid(DAY) * DAY, (last.div_euclid(DAY) + 1) * DAY);
    let hours = (first.div_euclid(60) * 60, (last.div_euclid(60) + 1) * 60);
    if let Some((start, end, years)) =
        [days, hours].into_iter().find_map(|(start, end)| Some((start, end, whole_years(start, end)?)))
    {
        let hours = usize::try_from((end - start) / 60).ok()?;
        return whole(
            dated,
            Span { first: (start + shift).div_euclid(60), hours, ring: true, wraps: true },
            years,
        );
    }
    part(dated, shift)
}

/// How many whole years lie from one minute to another, if they are just that.
fn whole_years(start: i64, end: i64) -> Option<i32> {
    let ((from, at), (to, until)) = (date_of(start)?, date_of(end)?);
    let years = to.year() - from.year();
    (years > 0 && at == until && from.with_year(to.year()) == Some(to)).then_some(years)
}

/// Whole years: begun at the midnight that is meant, a single one at 1 January or 1 July.
fn whole(dated: &mut Dated, span: Span, years: i32) -> Option<(Span, Option<YearKind>)> {
    let first = midnight(span.first)?;
    let begin = |first: i64| Span { first, ..span };
    let (date, _) = date_of(first * 60)?;
    if dated.typical {
        return Some((begin(first), Some(YearKind::Typical)));
    }
    if years > 1 || (date.month(), date.day()) == (7, 1) {
        return Some((begin(first), None));
    }
    if date.ordinal() == 1 {
        return Some((begin(first), Some(YearKind::Actual(date.year()))));
    }
    let year = date.year() + 1;
    let january = NaiveDate::from_ymd_opt(year, 1, 1)?;
    dated.reading.remarks.push(Remark::Turned { first: date });
    let fits = span.hours == if is_leap(year) { LEAP_HOURS } else { YEAR_HOURS };
    fits.then(|| (begin(minute_of(january) / 60), Some(YearKind::Actual(year))))
}

/// The midnight near an hour at which whole years begin: a new year, else a 1 July, else the nearest.
fn midnight(hour: i64) -> Option<i64> {
    let floor = hour.div_euclid(24) * 24;
    let near = [floor, floor + 24];
    let day = |midnight: &i64| date_of(midnight * 60).map(|(date, _)| (date.month(), date.day()));
    let meant = |wanted| near.iter().find(|m| day(m) == Some(wanted)).copied();
    let nearest = near.iter().min_by_key(|m| (*m - hour).abs()).copied();
    meant((1, 1)).or(meant((7, 1))).or(nearest)
}

/// No whole years: the whole days, if they hold twelve months from July, else a calendar year of them.
fn part(dated: &mut Dated, shift: i64) -> Option<(Span, Option<YearKind>)> {
    let (_, values) = dated.hours.columns.iter().find(|(column, _)| column.field == Field::DryBulb)?;
    let mut known = dated.minutes.iter().zip(values).filter(|(_, value)| value.is_some()).map(|(m, _)| *m);
    let first = known.next()?;
    let last = known.next_back()?;
    // A day at either end may lack as much as a gap that is filled; one that lacks more is left out.
    let short = LONGEST_FILLED as i64 * 60;
    let (end, until) = date_of(((last + shift).div_euclid(60) + 1) * 60)?;
    let end = if DAY - until <= short { end.checked_add_days(Days::new(1))? } else { end };
    let (start, from) = date_of((first + shift).div_euclid(60) * 60)?;
    let start = if from <= short { start } else { start.checked_add_days(Days::new(1))? };
    let twelve = |month: u32| {
        let from = |year| NaiveDate::from_ymd_opt(year, month, 1);
        let mut years = (start.year()..=end.year()).rev();
        years.find(|y| from(*y).is_some_and(|f| f >= start) && from(*y + 1).is_some_and(|e| e <= end))
    };
    let of = |from: NaiveDate, to: NaiveDate, ring| {
        let hours = usize::try_from((to - from).num_hours()).ok()?;
        Some(Span { first: minute_of(from) / 60, hours, ring, wraps: false })
    };
    let (span, kind) = match (twelve(7), twelve(1)) {
        (Some(_), _) => (of(start, end, false)?, None),
        (None, Some(year)) => {
            let january = |year| NaiveDate::from_ymd_opt(year, 1, 1);
            (of(january(year)?, january(year + 1)?, true)?, Some(YearKind::Actual(year)))
        }
        (None, None) => return None,
    };
    Some((span, kind))
}

fn no_whole_year(dated: &Dated, shift: i64) -> Problem {
    let at = |minutes: Option<&i64>| match minutes {
        // The year of such days is none of the file's.
        Some(m) if dated.typical => {
            date_of(m + shift).map_or_else(String::new, |(day, _)| day.format("%-d %B").to_string())
        }
        minutes => minutes.map_or_else(String::new, |m| words(m + shift)),
    };
    let what = format!(
        "the hours run from {} to {}, which is no whole year",
        at(dated.minutes.first()),
        at(dated.minutes.last())
    );
    Problem::new(what)
        .allowed("a calendar year, twelve months from 1 July, or more")
        .help("Give the missing months too, in the same file or in further files of the list")
}

/// How many hours of whole years were taken from one end to the other by the shift.
fn wrapped(dated: &Dated, shift: i64, span: Span) -> usize {
    let hour = |minutes: &i64| (minutes + shift).div_euclid(60);
    let first = dated.minutes.first().map_or(span.first, hour);
    let last = dated.minutes.last().map_or(span.first, hour);
    let end = span.first + span.hours as i64;
    // Where a single year was turned, all of the part before its January moved: that is told apart.
    let moved = (span.first - first).max(last + 1 - end).max(0);
    if moved < 24 { usize::try_from(moved).unwrap_or_default() } else { 0 }
}
