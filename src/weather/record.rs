//! Several actual years of outdoor hours as one record, and each winter's year out of it.
//!
//! Built by the readers, never changed afterwards. Start at [`WeatherRecord`].

use super::columns::OutdoorColumns;
use super::reading::Reading;
use super::year::{OutdoorYear, YearKind};
use chrono::{Datelike, Days, NaiveDate};
use chrono_tz::Tz;
use std::ops::Range;

/// Days from 1 July to 1 November.
const NOVEMBER_DAY: usize = 123;
/// Days from 1 July to 1 April of a year that is no leap year.
const APRIL_DAY: usize = 274;

/// Outdoor hours of more than one actual year, without a break, in local standard time.
///
/// Begins at 00:00 of `first_day` and holds whole days.
#[derive(Debug, Clone, PartialEq)]
pub struct WeatherRecord {
    /// The place's name as the file gives it.
    pub place: String,
    /// Degrees north.
    pub latitude: Option<f64>,
    /// Degrees east.
    pub longitude: Option<f64>,
    /// Height above sea level, m.
    pub elevation_m: Option<f64>,
    /// Standard time less UTC, hours.
    pub utc_offset_h: Option<f64>,
    /// The time zone whose clock the place lives by, where it is known.
    pub zone: Option<Tz>,
    /// The first day.
    pub first_day: NaiveDate,
    /// The hours.
    pub columns: OutdoorColumns,
    /// Hours of the whole record whose dry-bulb was filled.
    pub filled_hours: usize,
    /// SHA-256 of the file's bytes; of several files, that of their hashes in the order of their dates.
    pub sha256: String,
    /// What came of reading.
    pub reading: Reading,
    /// Which hours' dry-bulb was filled.
    pub(super) filled: Vec<bool>,
}

impl WeatherRecord {
    /// The day after the last.
    pub fn end_day(&self) -> NaiveDate {
        let days = self.columns.dry_bulb_c.len() / 24;
        self.first_day.checked_add_days(Days::new(days as u64)).unwrap_or(self.first_day)
    }

    /// The years in which a complete run from 1 July to 30 June begins, in order.
    pub fn winters(&self) -> Vec<i32> {
        self.years_from(7)
    }

    /// The complete calendar years, in order.
    pub fn calendar_years(&self) -> Vec<i32> {
        self.years_from(1)
    }

    /// The twelve months from 1 July `year`; `None` if the record does not hold them all.
    pub fn from_july(&self, year: i32) -> Option<OutdoorYear> {
        self.twelve_months(year, 7, YearKind::FromJuly(year))
    }

    /// The calendar year of that number; `None` if the record does not hold it all.
    pub fn calendar_year(&self, year: i32) -> Option<OutdoorYear> {
        self.twelve_months(year, 1, YearKind::Actual(year))
    }

    /// How many hours of the twelve months from 1 July `year` were filled, and how many they are.
    pub fn filled_from_july(&self, year: i32) -> Option<(usize, usize)> {
        let filled = self.filled.get(self.hours_from(year, 7)?)?;
        Some((filled.iter().filter(|filled| **filled).count(), filled.len()))
    }

    /// The longest run of filled hours from November to March of the winter that begins in July `year`.
    ///
    /// Six hours are filled on a line between their neighbours; longer ones by other days, which says
    /// nothing of how cold they were.
    pub fn longest_winter_gap(&self, year: i32) -> Option<usize> {
        let july = self.hours_from(year, 7)?.start;
        let months = july + NOVEMBER_DAY * 24..july + APRIL_DAY * 24;
        let runs = self.filled.get(months)?.split(|filled| !filled).map(<[bool]>::len);
        runs.max()
    }

    /// The first hours of each whole month from its first day on, so many days each, and whether any of them
    /// was filled.
    pub(super) fn months(&self, days: usize) -> Vec<(NaiveDate, &[f64], bool)> {
        let month = |(year, month): (i32, u32)| {
            let first = NaiveDate::from_ymd_opt(year, month, 1)?;
            let start = usize::try_from((first - self.first_day).num_hours()).ok()?;
            let hours = start..start + days * 24;
            let filled = self.filled.get(hours.clone())?.contains(&true);
            Some((first, self.columns.dry_bulb_c.get(hours)?, filled))
        };
        let years = self.first_day.year()..=self.end_day().year();
        years.flat_map(|year| (1..=12).map(move |m| (year, m))).filter_map(month).collect()
    }

    fn years_from(&self, month: u32) -> Vec<i32> {
        let years = self.first_day.year()..=self.end_day().year();
        years.filter(|year| self.hours_from(*year, month).is_some()).collect()
    }

    /// The places of twelve months' hours in the record.
    fn hours_from(&self, year: i32, month: u32) -> Option<Range<usize>> {
        let first = NaiveDate::from_ymd_opt(year, month, 1)?;
        let end = NaiveDate::from_ymd_opt(year.checked_add(1)?, month, 1)?;
        if first < self.first_day || end > self.end_day() {
            return None;
        }
        let hour = |day: NaiveDate| usize::try_from((day - self.first_day).num_hours()).ok();
        Some(hour(first)?..hour(end)?)
    }

    fn twelve_months(&self, year: i32, month: u32, kind: YearKind) -> Option<OutdoorYear> {
        let range = self.hours_from(year, month)?;
        let columns = self.columns.part(&range)?;
        let filled = self.filled.get(range)?;
        Some(OutdoorYear {
            place: self.place.clone(),
            kind,
            latitude: self.latitude,
            longitude: self.longitude,
            elevation_m: self.elevation_m,
            utc_offset_h: self.utc_offset_h,
            zone: self.zone,
            columns,
            filled_hours: filled.iter().filter(|filled| **filled).count(),
            filled: filled.to_vec(),
            sha256: self.sha256.clone(),
            reading: Some(self.reading.clone()),
        })
    }
}
