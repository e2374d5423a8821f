//! One year of outdoor hours as the rest of the program sees it, and the same from 1 July.
//!
//! Built by the readers, never changed afterwards. Start at [`OutdoorYear`].

use super::columns::OutdoorColumns;
use super::reading::{Reading, Remark};
use super::zones::standard_offset_h;
use crate::calendar::{Calendar, TYPICAL_YEAR};
use crate::series::Hourly;
use chrono::{Datelike, Days, NaiveDate, NaiveDateTime, NaiveTime, TimeDelta};
use chrono_tz::Tz;
use std::borrow::Cow;

/// Hours from 1 July to 31 December.
const JULY_TO_DECEMBER: usize = 184 * 24;

/// Whether the hours are those of one actual year, a composite, or made up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum YearKind {
    /// Typical months put together; laid on the calendar of 2023.
    Typical,
    /// The actual year of that number; 8,784 hours if it is a leap year.
    Actual(i32),
    /// Made from monthly means, no hour of it measured; laid on the calendar of 2023.
    Synthetic {
        /// The seed of its day-to-day weather.
        seed: u64,
    },
    /// The actual twelve months that begin on 1 July of that year.
    FromJuly(i32),
}

/// One value an hour in local standard time, from 1 January 00:00; of the kind
/// [`YearKind::FromJuly`] from 1 July 00:00.
///
/// Value `i` stands for the hour from `i` to `i + 1`. What the file does not have is `None`.
#[derive(Debug, Clone, PartialEq)]
pub struct OutdoorYear {
    /// The place's name as the file or the catalogue gives it.
    pub place: String,
    /// Composite, actual or synthetic.
    pub kind: YearKind,
    /// Degrees north.
    pub latitude: Option<f64>,
    /// Degrees east.
    pub longitude: Option<f64>,
    /// Height above sea level, m.
    pub elevation_m: Option<f64>,
    /// Standard time less UTC, hours; −6 in Chicago.
    pub utc_offset_h: Option<f64>,
    /// The time zone whose clock the place lives by, where it is known.
    pub zone: Option<Tz>,
    /// The hours.
    pub columns: OutdoorColumns,
    /// Hours whose dry-bulb was filled because the file had none.
    pub filled_hours: usize,
    /// Which hours those are; empty where none was filled.
    pub filled: Vec<bool>,
    /// SHA-256 of the file's bytes as given (of a synthetic year, of what it was made from), in
    /// hexadecimal.
    pub sha256: String,
    /// What came of reading the file; nothing where the hours come from no file.
    pub reading: Option<Reading>,
}

/// The same year from 1 July to 30 June, so that a winter is never cut in two.
#[derive(Debug, Clone, PartialEq)]
pub struct OutdoorRun {
    /// The clock at each hour.
    pub calendar: Calendar,
    /// Dry-bulb temperature, °C.
    pub dry_bulb_c: Hourly<f64>,
    /// Dew point, °C, where the year has it.
    pub dew_point_c: Option<Hourly<f64>>,
}

/// Where a year's hours were filled; each stretch with the beginning of its first hour and its hours.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FilledAt {
    /// The first stretch.
    pub first: (NaiveDateTime, usize),
    /// The longest, the first of equals.
    pub longest: (NaiveDateTime, usize),
    /// How many there are.
    pub stretches: usize,
}

impl OutdoorYear {
    /// What to tell of the reading beside the hours that were filled: of a single year its long gaps are among
    /// those, of a record they are those of all its years.
    pub fn remarks_to_tell(&self) -> impl Iterator<Item = &Remark> {
        let of_record = matches!(self.kind, YearKind::FromJuly(_));
        let told = move |remark: &&Remark| of_record || !matches!(remark, Remark::FilledByDays { .. });
        self.reading.iter().flat_map(|reading| &reading.remarks).filter(told)
    }

    /// Where hours were filled; nothing where none was.
    pub fn filled_at(&self) -> Option<FilledAt> {
        let month = if matches!(self.kind, YearKind::FromJuly(_)) { 7 } else { 1 };
        let midnight = NaiveDate::from_ymd_opt(self.calendar_year(), month, 1)?.and_time(NaiveTime::MIN);
        let turned = self.turned_at();
        let mut hour = 0;
        let runs = self.filled.chunk_by(|a, b| a == b).map(|run| {
            hour += run.len();
            (hour - run.len(), run.len(), run.first() == Some(&true))
        });
        let time = |hour: usize| {
            let time = midnight + TimeDelta::hours(i64::try_from(hour).unwrap_or_default());
            // Of twelve months that were turned the later part is of the year before.
            let before = time
                .with_year(time.year() - 1)
                .filter(|_| turned.is_some_and(|first| first <= (time.month(), time.day())));
            before.unwrap_or(time)
        };
        let stretches = runs.filter(|run| run.2).map(|(start, hours, _)| (time(start), hours));
        let stretches: Vec<(NaiveDateTime, usize)> = stretches.collect();
        let first = *stretches.first()?;
        let longest = stretches.iter().fold(first, |best, next| if next.1 > best.1 { *next } else { best });
        Some(FilledAt { first, longest, stretches: stretches.len() })
    }

    /// The month and day from which on the hours are of the year before, where twelve months were turned to begin on
    /// 1 January.
    pub fn turned_at(&self) -> Option<(u32, u32)> {
        let remarks = self.reading.iter().flat_map(|reading| &reading.remarks);
        let mut first = remarks.filter_map(|remark| match remark {
            Remark::Turned { first } => Some((first.month(), first.day())),
            _ => None,
        });
        first.next()
    }

    /// The number of the calendar year on which the hours are laid, or begin.
    pub fn calendar_year(&self) -> i32 {
        match self.kind {
            YearKind::Typical | YearKind::Synthetic { .. } => TYPICAL_YEAR,
            YearKind::Actual(year) | YearKind::FromJuly(year) => year,
        }
    }

    /// The same hours from January on where they begin in July: the later half then comes first.
    pub fn january_first(&self) -> Cow<'_, Self> {
        let YearKind::FromJuly(year) = self.kind else { return Cow::Borrowed(self) };
        let mut turned = self.clone();
        turned.kind = YearKind::Actual(year.saturating_add(1));
        turned.columns = turned.columns.rotated(JULY_TO_DECEMBER);
        let turn = JULY_TO_DECEMBER.min(turned.filled.len());
        turned.filled.rotate_left(turn);
        Cow::Owned(turned)
    }

    /// The same place a little warmer or colder: `kelvin` is added to every hour.
    ///
    /// The dew point stays, but is never above the dry-bulb.
    #[must_use]
    pub fn warmer_by(mut self, kelvin: f64) -> Self {
        self.columns.dry_bulb_c = self.columns.dry_bulb_c.map(|t| t + kelvin);
        let dry_bulb = &self.columns.dry_bulb_c;
        self.columns.dew_point_c = self.columns.dew_point_c.map(|dew| dew.zip_map(dry_bulb, f64::min));
        self
    }

    /// The same place with a milder or colder winter: `kelvin` is added to every hour from November to
    /// March, standard time.
    #[must_use]
    pub fn winter_warmer_by(&self, kelvin: f64) -> Self {
        let first_month = if matches!(self.kind, YearKind::FromJuly(_)) { 7 } else { 1 };
        let first = NaiveDate::from_ymd_opt(self.calendar_year(), first_month, 1).unwrap_or_default();
        let is_winter = |hour: usize| {
            let day = first.checked_add_days(Days::new((hour / 24) as u64));
            day.is_some_and(|day| day.month() >= 11 || day.month() <= 3)
        };
        let warmer = self.clone().warmer_by(kelvin).columns;
        let mut year = self.clone();
        let joined = |own: Hourly<f64>, warmer: &Hourly<f64>| {
            let mut hour = 0;
            own.zip_map(warmer, |own, warmer| {
                hour += 1;
                if is_winter(hour - 1) { warmer } else { own }
            })
        };
        year.columns.dry_bulb_c = joined(year.columns.dry_bulb_c, &warmer.dry_bulb_c);
        let dew_points = year.columns.dew_point_c.zip(warmer.dew_point_c.as_ref());
        year.columns.dew_point_c = dew_points.map(|(own, warmer)| joined(own, warmer));
        year
    }

    /// Hours of its standard time from UTC: the file's own, else that of `zone`; nothing where neither is known.
    pub fn offset_in(&self, zone: Option<Tz>) -> Option<f64> {
        let of_zone = || standard_offset_h(zone.or(self.zone)?, self.calendar_year());
        self.utc_offset_h.or_else(of_zone)
    }

    /// The year turned to begin on 1 July, with the clock of `zone` (else the file's own, else
    /// standard time all year).
    pub fn run(&self, zone: Option<Tz>) -> OutdoorRun {
        let offset = self.offset_in(zone);
        let zone = offset.and(zone.or(self.zone));
        let offset = offset.unwrap_or_default();
        if let YearKind::FromJuly(year) = self.kind {
            let calendar = Calendar::from_july(year, self.columns.dry_bulb_c.len(), offset, zone);
            let (dry_bulb_c, dew_point_c) =
                (self.columns.dry_bulb_c.clone(), self.columns.dew_point_c.clone());
            return OutdoorRun { calendar, dry_bulb_c, dew_point_c };
        }
        let calendar =
            Calendar::of_one_year(self.calendar_year(), self.columns.dry_bulb_c.len(), offset, zone);
        let turned = |hours: &Hourly<f64>| hours.clone().rotated(calendar.start_in_year());
        let dry_bulb_c = turned(&self.columns.dry_bulb_c);
        let dew_point_c = self.columns.dew_point_c.as_ref().map(turned);
        OutdoorRun { calendar, dry_bulb_c, dew_point_c }
    }

    /// Mean outdoor temperature of the year, °C, and the mean of its warmest month less that of its
    /// coldest, K.
    pub fn mean_and_monthly_range(&self) -> (f64, f64) {
        let means = self.monthly_means();
        let (low, high) = means
            .iter()
            .flatten()
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), m| (low.min(*m), high.max(*m)));
        (self.columns.dry_bulb_c.mean(), (high - low).max(0.0))
    }

    /// The mean of each month, January first, °C; nothing for a month without a day.
    pub fn monthly_means(&self) -> [Option<f64>; 12] {
        if let YearKind::FromJuly(_) = self.kind {
            return self.january_first().monthly_means();
        }
        let year = self.calendar_year();
        let mut months = [(0.0, 0.0); 12];
        for (day, mean) in (1..).zip(self.columns.dry_bulb_c.daily_sums().iter().map(|sum| sum / 24.0)) {
            let date = chrono::NaiveDate::from_yo_opt(year, day);
            if let Some((sum, days)) = date.and_then(|d| months.get_mut(d.month0() as usize)) {
                *sum += mean;
                *days += 1.0;
            }
        }
        months.map(|(sum, days)| (days > 0.0).then(|| sum / days))
    }
}

/// So many hours at about one outdoor temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bin {
    /// The bin's middle, °C.
    pub temperature_c: f64,
    /// Hours in the bin.
    pub hours: f64,
}

/// Outdoor hours sorted by temperature, without their order in time.
#[derive(Debug, Clone, PartialEq)]
pub struct BinTable {
    /// The place's or the file's name.
    pub place: String,
    /// The bins, warm to cold.
    pub bins: Vec<Bin>,
    /// SHA-256 of the file's bytes, in hexadecimal; empty where the bins were made from hours.
    pub sha256: String,
}

impl BinTable {
    /// The same place a little warmer or colder: `kelvin` is added to every bin.
    #[must_use]
    pub fn warmer_by(mut self, kelvin: f64) -> Self {
        self.bins.iter_mut().for_each(|bin| bin.temperature_c += kelvin);
        self
    }

    /// The mean outdoor temperature, °C.
    pub fn mean_c(&self) -> f64 {
        let hours: f64 = self.bins.iter().map(|b| b.hours).sum();
        self.bins.iter().map(|b| b.hours * b.temperature_c).sum::<f64>() / hours
    }
}
