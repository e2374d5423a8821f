//! The hours of a run: local standard time into clock month, day, hour and weekday.
//!
//! Days of the simulation and the 1 July start are standard time; months, schedules and prices
//! follow the clock on the wall, daylight saving included. This module must never know weather or
//! prices. Start at [`Calendar`].

use chrono::{Datelike, Duration, NaiveDate, NaiveDateTime, NaiveTime, Timelike};
use chrono_tz::Tz;
use std::fmt;

/// The year on whose calendar a typical year is laid.
pub const TYPICAL_YEAR: i32 = 2023;

/// What the clock on the wall shows when an hour begins.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stamp {
    /// Month, 1 to 12.
    pub month: u8,
    /// Day of the month, 1 to 31.
    pub day: u8,
    /// Clock hour, 0 to 23.
    pub hour: u8,
    /// Day of the week, 0 Monday to 6 Sunday.
    pub weekday: u8,
}

impl Stamp {
    fn of(clock: NaiveDateTime) -> Self {
        Self {
            month: clock.month() as u8,
            day: clock.day() as u8,
            hour: clock.hour() as u8,
            weekday: clock.weekday().num_days_from_monday() as u8,
        }
    }

    /// The day of the year, 1 to 365, counted as in a year without a 29 February.
    ///
    /// ```
    /// use winterledger::calendar::Stamp;
    /// assert_eq!(Stamp { month: 7, day: 19, hour: 0, weekday: 0 }.day_of_year(), 200);
    /// ```
    pub fn day_of_year(&self) -> u16 {
        const BEFORE: [u16; 12] = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334];
        let before = BEFORE.get(usize::from(self.month).saturating_sub(1)).copied().unwrap_or_default();
        before + u16::from(self.day)
    }
}

/// The clock stamps of a run, one an hour, beginning on a 1 July at 00:00 standard time.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Calendar {
    stamps: Vec<Stamp>,
    start_in_year: usize,
}

impl Calendar {
    /// The calendar of one year of `hours` hours from 1 January `year`, turned so that it begins
    /// on 1 July and wraps at the new year.
    ///
    /// `utc_offset_h` is that of standard time; without a `zone` the clock stays on standard time.
    pub fn of_one_year(year: i32, hours: usize, utc_offset_h: f64, zone: Option<Tz>) -> Self {
        let first = NaiveDate::from_ymd_opt(year, 1, 1).unwrap_or_default();
        let july = NaiveDate::from_ymd_opt(year, 7, 1).unwrap_or_default();
        let start_in_year = usize::try_from((july - first).num_hours()).unwrap_or_default() % hours.max(1);
        let mut stamps = stamps(first, hours, utc_offset_h, zone);
        stamps.rotate_left(start_in_year);
        Self { stamps, start_in_year }
    }

    /// The calendar of `hours` hours that follow each other from 1 July `year`.
    ///
    /// The last two arguments are as in [`Self::of_one_year`].
    pub fn from_july(year: i32, hours: usize, utc_offset_h: f64, zone: Option<Tz>) -> Self {
        let july = NaiveDate::from_ymd_opt(year, 7, 1).unwrap_or_default();
        Self { stamps: stamps(july, hours, utc_offset_h, zone), start_in_year: 0 }
    }

    /// The hour of the hours given at which the run begins: 4344, or 4368 in a leap year; 0 where
    /// they begin in July themselves.
    pub fn start_in_year(&self) -> usize {
        self.start_in_year
    }

    /// The stamps, one an hour.
    pub fn stamps(&self) -> &[Stamp] {
        &self.stamps
    }

    /// Days in the run.
    pub fn days(&self) -> usize {
        self.stamps.len() / 24
    }
}

/// The stamps of `hours` hours from the beginning of a day.
fn stamps(first: NaiveDate, hours: usize, utc_offset_h: f64, zone: Option<Tz>) -> Vec<Stamp> {
    let days = first.iter_days().take(hours.div_ceil(24));
    let mut stamps: Vec<Stamp> = days.flat_map(|day| stamps_of_day(day, utc_offset_h, zone)).collect();
    stamps.truncate(hours);
    stamps
}

/// The stamps of a day of standard time. The clock is asked for each hour only where it is changed that day.
fn stamps_of_day(day: NaiveDate, utc_offset_h: f64, zone: Option<Tz>) -> [Stamp; 24] {
    let hour = |h: usize| clock(day.and_time(NaiveTime::MIN) + Duration::hours(h as i64), utc_offset_h, zone);
    let (first, last) = (hour(0), hour(23));
    if last - first != Duration::hours(23) {
        return std::array::from_fn(|h| Stamp::of(hour(h)));
    }
    let (today, tomorrow) = (Stamp::of(first), Stamp::of(last));
    std::array::from_fn(|h| {
        let hour = today.hour + h as u8;
        if hour < 24 { Stamp { hour, ..today } } else { Stamp { hour: hour - 24, ..tomorrow } }
    })
}

/// What the clock on the wall shows at a moment of standard time.
fn clock(standard: NaiveDateTime, utc_offset_h: f64, zone: Option<Tz>) -> NaiveDateTime {
    let Some(zone) = zone else { return standard };
    let utc = standard - Duration::seconds((utc_offset_h * 3600.0).round() as i64);
    utc.and_utc().with_timezone(&zone).naive_local()
}

/// A day of the year without its year, for example the first day of a price spike.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct MonthDay {
    /// Month, 1 to 12.
    pub month: u8,
    /// Day of the month, 1 to 31.
    pub day: u8,
}

impl MonthDay {
    /// 1 January.
    pub const FIRST: Self = Self { month: 1, day: 1 };
    /// 31 December.
    pub const LAST: Self = Self { month: 12, day: 31 };

    /// Reads `"01-10"` (month-day). 29 February is allowed.
    pub fn parse(text: &str) -> Option<Self> {
        let (month, day) = text.trim().split_once('-')?;
        Self::of(month.parse().ok()?, day.parse().ok()?)
    }

    /// The day of that month, if there is one; 29 February is allowed.
    pub fn of(month: u8, day: u8) -> Option<Self> {
        NaiveDate::from_ymd_opt(2024, u32::from(month), u32::from(day)).map(|_| Self { month, day })
    }

    /// Whether `stamp` lies between `self` and `last`, both included; a span may cross the new year.
    pub fn through(self, last: Self, stamp: Stamp) -> bool {
        self.spans(last, Self { month: stamp.month, day: stamp.day })
    }

    /// Whether `day` lies between `self` and `last`, both included; a span may cross the new year.
    pub fn spans(self, last: Self, day: Self) -> bool {
        if self <= last { self <= day && day <= last } else { self <= day || day <= last }
    }
}

impl fmt::Display for MonthDay {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:02}-{:02}", self.month, self.day)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_typical_year_begins_on_the_first_of_july_and_keeps_daylight_saving() {
        let calendar = Calendar::of_one_year(TYPICAL_YEAR, 8760, -6.0, Some(chrono_tz::America::Chicago));
        let stamps = calendar.stamps();
        // Hand-worked: 00:00 standard is 01:00 on the wall in July; 1 July 2023 was a Saturday.
        assert_eq!(stamps[0], Stamp { month: 7, day: 1, hour: 1, weekday: 5 });
        // 1 January 2023, a Sunday, comes after the 184 days of July to December.
        assert_eq!(stamps[184 * 24], Stamp { month: 1, day: 1, hour: 0, weekday: 6 });
        // 02:00 is skipped on 12 March 2023, 01:00 comes twice on 5 November 2023.
        let clock = |m, d| {
            let day = stamps.iter().filter(move |s| s.month == m && s.day == d);
            day.map(|s| s.hour).collect::<Vec<_>>()
        };
        assert!(!clock(3, 12).contains(&2));
        assert_eq!(clock(11, 5).iter().filter(|h| **h == 1).count(), 2);
    }

    /// Property: a day told from its ends is that of the clock asked each hour, where clocks are changed by
    /// half an hour (Lord Howe), stand between hours (Adelaide) or never change.
    #[test]
    fn a_day_told_from_its_ends_is_the_clocks_hour_by_hour() {
        let lord_howe = (10.5, Some(chrono_tz::Australia::Lord_Howe));
        let adelaide = (9.5, Some(chrono_tz::Australia::Adelaide));
        let askew = (-6.0, Some(chrono_tz::America::New_York));
        for (offset, zone) in [lord_howe, adelaide, askew, (-5.0, None)] {
            let first = NaiveDate::from_ymd_opt(2023, 7, 1).unwrap_or_default();
            for day in first.iter_days().take(366) {
                let hour = |h| day.and_time(NaiveTime::MIN) + Duration::hours(h);
                let asked: Vec<Stamp> = (0..24).map(|h| Stamp::of(clock(hour(h), offset, zone))).collect();
                assert_eq!(stamps_of_day(day, offset, zone).to_vec(), asked, "{day}");
            }
        }
    }

    #[test]
    fn a_span_of_days_may_cross_the_new_year() {
        let (from, to) = (MonthDay { month: 12, day: 20 }, MonthDay { month: 1, day: 5 });
        let at = |month, day| Stamp { month, day, hour: 0, weekday: 0 };
        assert!(from.through(to, at(12, 20)) && from.through(to, at(1, 5)));
        assert!(!from.through(to, at(1, 6)) && !from.through(to, at(12, 19)));
        assert_eq!(MonthDay::parse("02-30"), None);
    }
}
