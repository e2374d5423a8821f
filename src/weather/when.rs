//! The date and time of a row, in the ways that files write them, into minutes.
//!
//! Must never know where in a row they stand. Start at [`moment`].

use super::named_dates::{named, without_weekday};
use chrono::{Datelike, Duration, NaiveDate, NaiveDateTime, NaiveTime};

/// Two digits from here on are a year of the 1900s. Published: POSIX.1, `strptime`, `%y`.
const SHORT_YEARS_FROM: i32 = 69;

/// A year with a 29 February, for dates that name none.
pub(super) const ANY_LEAP_YEAR: i32 = 2024;

/// Minutes of a day.
const DAY: i64 = 24 * 60;

/// A date and time, in minutes since the calendar's first day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Moment {
    /// Minutes; in UTC where the text says its offset, else by the file's own clock.
    pub(super) minutes: i64,
    /// The offset from UTC, minutes, where the text itself says it.
    pub(super) offset: Option<i64>,
    /// Whether it was written 24:00.
    pub(super) at_24: bool,
    /// Whether it was written with the hour 0.
    pub(super) at_0: bool,
}

/// Which number comes first in a date such as 03/04/2015.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum DayOrder {
    /// The month.
    MonthFirst,
    /// The day.
    DayFirst,
}

/// Reads a date with a time: `2015-01-31 23:00`, `2015-01-31T23:00:00Z`, `01/31/2015 11:00 PM`,
/// `31.01.2015 23:00`, `31-Jan-2015 23:00`, `Jan 31, 2015 11 PM`, `1/31/15 23:00`, `20150131:2300`, `2015013123`.
/// Years 1850 to 2200.
pub(super) fn moment(text: &str, order: DayOrder) -> Option<Moment> {
    let text = text.trim();
    let in_digits = |text| {
        let (date, time) = parted(text)?;
        at(day(date, order)?, time)
    };
    in_digits(text).or_else(|| match named(text) {
        Some(((year, month, day), time)) => at(number_of(year, month, day)?, time),
        None => in_digits(Some(without_weekday(text)).filter(|rest| rest.len() < text.len())?),
    })
}

/// Reads a month and a day with a time, `01/31 23:00`, as of [`ANY_LEAP_YEAR`].
pub(super) fn moment_of_no_year(text: &str, order: DayOrder) -> Option<Moment> {
    let (date, time) = parted(text.trim())?;
    let (first, second) = month_and_day(date)?;
    let (month, day) = match order {
        DayOrder::MonthFirst => (first, second),
        DayOrder::DayFirst => (second, first),
    };
    at(number_of(ANY_LEAP_YEAR, month, day)?, time)
}

/// The two numbers of a date without a year.
fn month_and_day(date: &str) -> Option<(u32, u32)> {
    let (first, second) = date.trim_end_matches('.').split_once(['/', '-', '.'])?;
    let number = |text: &str| text.parse().ok().filter(|_| (1..=2).contains(&text.len()));
    Some((number(first)?, number(second)?))
}

/// Whether a date with a time has a day and a month and no year.
pub(super) fn has_no_year(text: &str) -> bool {
    parted(text.trim()).is_some_and(|(date, _)| month_and_day(date).is_some())
}

/// The order that a date shows by a number above 12; `None` where it shows none.
pub(super) fn shown_order(text: &str) -> Option<DayOrder> {
    let (date, _) = parted(text.trim())?;
    let mut parts = date.split(['/', '-', '.']);
    let (first, second): (u32, u32) = (parts.next()?.parse().ok()?, parts.next()?.parse().ok()?);
    match (first, second) {
        (13..=31, 1..=12) => Some(DayOrder::DayFirst),
        (1..=12, 13..=31) => Some(DayOrder::MonthFirst),
        _ => None,
    }
}

/// The moment of numbers that stand in columns of their own; `hour` is 0 to 24, or 100 to 2400.
pub(super) fn of_numbers(date: (i64, i64, i64), hour: i64, minute: i64) -> Option<Moment> {
    let (hour, minute) = if hour >= 100 && minute == 0 { (hour / 100, hour % 100) } else { (hour, minute) };
    let part = |n: i64| u32::try_from(n).ok();
    let day = number_of(i32::try_from(date.0).ok()?, part(date.1)?, part(date.2)?)?;
    of_parts(day, hour, minute)
}

/// The date that holds the minute, and the minute in it.
pub(super) fn date_of(minutes: i64) -> Option<(NaiveDate, i64)> {
    let day = i32::try_from(minutes.div_euclid(DAY)).ok()?;
    Some((NaiveDate::from_num_days_from_ce_opt(day)?, minutes.rem_euclid(DAY)))
}

/// The time of a minute.
pub(super) fn time_of(minutes: i64) -> Option<NaiveDateTime> {
    let (date, minute) = date_of(minutes)?;
    Some(date.and_time(NaiveTime::MIN) + Duration::minutes(minute))
}

/// The minute at which a date begins.
pub(super) fn minute_of(date: NaiveDate) -> i64 {
    i64::from(date.num_days_from_ce()) * DAY
}

pub(super) fn of_parts(day: i64, hour: i64, minute: i64) -> Option<Moment> {
    let whole = (0..=23).contains(&hour) && (0..60).contains(&minute) || (hour, minute) == (24, 0);
    whole.then_some(Moment {
        minutes: day * DAY + hour * 60 + minute,
        offset: None,
        at_24: hour == 24,
        at_0: hour == 0,
    })
}

/// Date and time apart: at `T`, at a blank, at the colon after eight digits, or within ten or twelve.
fn parted(text: &str) -> Option<(&str, &str)> {
    let digits = text.bytes().take_while(u8::is_ascii_digit).count();
    match (digits, text.len()) {
        (10 | 12, length) if length == digits => Some((text.get(..8)?, text.get(8..)?)),
        (8, _) => Some((text.get(..8)?, text.get(8..)?.trim_start_matches([':', 'T', ' ', '_']))),
        _ => match end_of_date(text) {
            Some(end) => Some((text.get(..end)?, text.get(end + 1..)?.trim())),
            None => Some((text, "")),
        },
    }
}

/// The first blank, or `T` behind a digit: there is one in OCT too.
fn end_of_date(text: &str) -> Option<usize> {
    let behind_digit = |at: usize| at > 0 && text.as_bytes().get(at - 1).is_some_and(u8::is_ascii_digit);
    let mut places = text.bytes().enumerate();
    places.find(|(at, byte)| *byte == b' ' || (*byte == b'T' && behind_digit(*at))).map(|(at, _)| at)
}

fn day(date: &str, order: DayOrder) -> Option<i64> {
    if date.len() == 8 && date.bytes().all(|b| b.is_ascii_digit()) {
        let part = |from: usize, to: usize| date.get(from..to)?.parse::<u32>().ok();
        return number_of(i32::try_from(part(0, 4)?).ok()?, part(4, 6)?, part(6, 8)?);
    }
    let sign = date.chars().find(|c| matches!(c, '-' | '/' | '.'))?;
    let mut parts = date.split(sign);
    let (first, second, third) = (parts.next()?, parts.next()?, parts.next()?);
    let number = |text: &str| text.parse::<u32>().ok();
    if parts.next().is_some() {
        return None;
    }
    if first.len() == 4 {
        return number_of(i32::try_from(number(first)?).ok()?, number(second)?, number(third)?);
    }
    let year = i32::try_from(number(third)?).ok()?;
    let year = match third.len() {
        4 => year,
        // With hyphens the first two digits may as well be the year.
        2 if sign != '-' => year + if year < SHORT_YEARS_FROM { 2000 } else { 1900 },
        _ => return None,
    };
    // Dates with points are written day first wherever they are written.
    match if sign == '.' { DayOrder::DayFirst } else { order } {
        DayOrder::MonthFirst => number_of(year, number(first)?, number(second)?),
        DayOrder::DayFirst => number_of(year, number(second)?, number(first)?),
    }
}

pub(super) fn number_of(year: i32, month: u32, day: u32) -> Option<i64> {
    let known = (1850..=2200).contains(&year);
    let date = NaiveDate::from_ymd_opt(year, month, day).filter(|_| known)?;
    Some(i64::from(date.num_days_from_ce()))
}

fn at(day: i64, time: &str) -> Option<Moment> {
    let (time, offset) = without_offset(time)?;
    let (time, twelve) = without_half_day(time);
    let (hour, minute) = clock(time)?;
    let hour = match (twelve, hour) {
        (None, hour) => hour,
        (Some(afternoon), 1..=12) => hour % 12 + if afternoon { 12 } else { 0 },
        _ => return None,
    };
    let own = of_parts(day, hour, minute)?;
    Some(match offset {
        Some(offset) => Moment { minutes: own.minutes - offset, offset: Some(offset), ..own },
        None => own,
    })
}

/// `23`, `2300`, `100`, `23:00`, `23h00`, `23.00`, `23:00:00`, `23:00:00.000`; seconds do not matter.
fn clock(time: &str) -> Option<(i64, i64)> {
    let number = |text: &str| text.parse::<i64>().ok().filter(|_| text.bytes().all(|b| b.is_ascii_digit()));
    // With a point there must be two digits before it: 0.50 is a spreadsheet's noon.
    let pointed = || time.split_once('.').filter(|(hour, _)| hour.len() == 2);
    match time.split_once([':', 'h']).or_else(pointed) {
        Some((hour, rest)) => {
            let (minute, seconds) = rest.split_once(':').unwrap_or((rest, "0"));
            let whole = seconds.parse::<f64>().is_ok_and(|s| (0.0..60.0).contains(&s));
            Some((number(hour)?, number(minute).filter(|_| whole && minute.len() == 2)?))
        }
        None if matches!(time.len(), 3 | 4) => {
            let (hour, minute) = time.split_at_checked(time.len() - 2)?;
            Some((number(hour)?, number(minute)?))
        }
        None if time.len() <= 2 => Some((number(time)?, 0)),
        None => None,
    }
}

/// Letters behind a time and the hours from UTC that they say. Published: RFC 5322, 4.3, Obsolete Date and Time, for all
/// but UTC and the small z.
const ZONES: [(&str, i64); 12] = [
    ("Z", 0),
    ("z", 0),
    ("UTC", 0),
    ("GMT", 0),
    ("EST", -5),
    ("EDT", -4),
    ("CST", -6),
    ("CDT", -5),
    ("MST", -7),
    ("MDT", -6),
    ("PST", -8),
    ("PDT", -7),
];

/// The time without `Z`, `UTC`, `CST`, `+01:00` or `-0600`, and the offset in minutes.
fn without_offset(time: &str) -> Option<(&str, Option<i64>)> {
    if time.ends_with(|c: char| c.is_ascii_alphabetic()) {
        let zone = ZONES
            .iter()
            .find_map(|(mark, hours)| Some((time.strip_suffix(mark)?.trim_end(), Some(hours * 60))));
        return Some(zone.unwrap_or((time, None)));
    }
    let Some(sign) = time.rfind(['+', '-']) else { return Some((time, None)) };
    let (rest, offset) = (time.get(..sign)?, time.get(sign + 1..)?);
    let (hours, minutes) = clock(offset)?;
    let minutes = (hours <= 14).then_some(hours * 60 + minutes)?;
    Some((rest.trim_end(), Some(if time.get(sign..=sign) == Some("-") { -minutes } else { minutes })))
}

/// The time without `AM` or `PM`, and whether it is the afternoon.
fn without_half_day(time: &str) -> (&str, Option<bool>) {
    let marks = [("AM", false), ("am", false), ("PM", true), ("pm", true)];
    let found = marks.iter().find_map(|(mark, afternoon)| Some((time.strip_suffix(mark)?, *afternoon)));
    found.map_or((time, None), |(rest, afternoon)| (rest.trim_end(), Some(afternoon)))
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    fn words(text: &str, order: DayOrder) -> String {
        let moment = moment(text, order).unwrap_or_else(|| panic!("{text}"));
        let (date, minute) = date_of(moment.minutes).unwrap();
        format!(
            "{date} {:02}:{:02}{}",
            minute / 60,
            minute % 60,
            if moment.offset.is_some() { " UTC" } else { "" }
        )
    }

    #[test]
    fn every_way_of_writing_an_hour_means_the_same_hour() {
        for text in [
            "2015-01-31 23:00",
            "2015-01-31T23:00",
            "2015-01-31 23:00:00.000",
            "2015/1/31 23",
            "20150131:2300",
            "2015013123",
            "201501312300",
            "20150131 23:00",
            "01/31/2015 11:00 PM",
            "1/31/2015 23:00",
            "31.01.2015 23:00",
            "31.01.15 23:00",
            "1/31/15 23:00",
            "31-Jan-2015 23:00",
            "31-JAN-2015 11:00 PM",
            "31.01.15 23.00",
            "2015/1/31 23h00",
        ] {
            assert_eq!(words(text, DayOrder::MonthFirst), "2015-01-31 23:00", "{text}");
        }
        assert_eq!(words("31/01/2015 23:00", DayOrder::DayFirst), "2015-01-31 23:00");
        assert_eq!(words("12/31/2015 24:00", DayOrder::MonthFirst), "2016-01-01 00:00");
        assert_eq!(words("2015-01-31 12:30 AM", DayOrder::DayFirst), "2015-01-31 00:30");
        assert_eq!(words("01/31/2015 100", DayOrder::MonthFirst), "2015-01-31 01:00");
    }

    #[test]
    fn a_month_by_its_name_is_no_time() {
        assert_eq!(words("01-OCT-2015 05:00", DayOrder::MonthFirst), "2015-10-01 05:00");
        assert_eq!(words("1-August-2015T05:00", DayOrder::MonthFirst), "2015-08-01 05:00");
        for text in
            ["Jan 31, 2015 11:00 PM", "31 January 2015 23:00", "Sat, 31 Jan 2015 23:00:00", "2015-Jan-31 23"]
        {
            assert_eq!(words(text, DayOrder::MonthFirst), "2015-01-31 23:00", "{text}");
        }
        assert_eq!(words("Sat 1/31/2015 23:00", DayOrder::MonthFirst), "2015-01-31 23:00");
        for text in
            ["01-Octo-2015 05:00", "01-Oct-15 05:00", "Oct Oct 2015 05:00", "1 2 2015 05:00", "Sat 05:00"]
        {
            assert_eq!(moment(text, DayOrder::DayFirst), None, "{text}");
        }
    }

    #[test]
    fn an_offset_from_utc_is_taken_off() {
        // RFC 5322: CST is −6 h, EDT −4 h.
        for text in [
            "2015-02-01T05:00Z",
            "2015-01-31T23:00-06:00",
            "2015-02-01 10:30:00+0530",
            "2015-01-31 23:00 CST",
            "2/1/2015 1:00 AM EDT",
        ] {
            assert_eq!(words(text, DayOrder::MonthFirst), "2015-02-01 05:00 UTC", "{text}");
        }
    }

    #[test]
    fn what_is_no_hour_is_none() {
        for text in [
            "",
            "2015-02-29 00:00",
            "2015-01-31",
            "2015-01-31 25:00",
            "2015-01-31 24:30",
            "2015-01-31 23:60",
            "2015-01-31 0.50",
            "2015-01-31 175",
            "2015-01-31 x",
            "1-2-3 4",
            "15-01-31 23:00",
            "1/31/015 23:00",
            "2015-01-31 13:00 PM",
            "9999999999",
            "0001-01-01 00:00",
            "2015-01-31 -1:00",
            "2015-01-31T23:00+99:00",
            "2015013é:2300",
        ] {
            assert_eq!(moment(text, DayOrder::MonthFirst), None, "{text}");
        }
    }

    #[test]
    fn a_date_without_a_year_is_of_a_leap_year() {
        let minutes = |text: &str, order| moment_of_no_year(text, order).map(|moment| moment.minutes);
        let wanted = moment("2024-02-29 23:00", DayOrder::MonthFirst).map(|moment| moment.minutes);
        assert_eq!(minutes(" 02/29  23:00:00", DayOrder::MonthFirst), wanted);
        assert_eq!(minutes("29.02. 23:00", DayOrder::DayFirst), wanted);
        assert!(has_no_year("2/29 1 AM") && !has_no_year("2/29/2015 1 AM") && !has_no_year("2015-02 1 AM"));
        assert_eq!(minutes("13/01 23:00", DayOrder::MonthFirst), None);
    }

    #[test]
    fn hours_in_a_column_may_have_minutes_behind_them() {
        let date = (2015, 1, 31);
        assert_eq!(of_numbers(date, 100, 0), of_numbers(date, 1, 0));
        assert_eq!(of_numbers(date, 2330, 0), of_numbers(date, 23, 30));
        assert_eq!(
            (of_numbers(date, 25, 0), of_numbers(date, 2500, 0), of_numbers(date, 100, 30)),
            (None, None, None)
        );
    }

    #[test]
    fn a_number_above_twelve_shows_the_order() {
        assert_eq!(shown_order("13/01/2015 00:00"), Some(DayOrder::DayFirst));
        assert_eq!(shown_order("01/13/2015 00:00"), Some(DayOrder::MonthFirst));
        assert_eq!((shown_order("01/02/2015 00:00"), shown_order("2015-01-13 00:00")), (None, None));
    }
}
