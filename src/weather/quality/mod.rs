//! What looks wrong with a year of hours, told and never repaired.
//!
//! A finding is a suspicion with its figures: whoever reads decides. Each rule's bounds stand beside it,
//! with what real years come to. Must never change an hour. Start at [`flags`].

mod sensor;
mod place;
mod clock;
mod repeats;
mod unit;
mod months;
mod codes;

use super::record::WeatherRecord;
use super::year::{OutdoorYear, YearKind};
use crate::problem::Problem;
use chrono::{Datelike, Duration, NaiveDate, NaiveDateTime};
use chrono_tz::Tz;

/// The share of hours that may be missing.
const MOST_MISSING: f64 = 0.05;

/// One suspicion; times are the beginnings of hours in local standard time.
#[derive(Debug, Clone, PartialEq)]
pub enum Flag {
    /// The temperature jumps and jumps back, as when a sensor drops out.
    DropOut {
        /// The first hour of the largest one.
        at: NaiveDateTime,
        /// How long that one lasts, hours.
        hours: usize,
        /// The lesser of its two jumps, K; positive for a jump up.
        jump_k: f64,
        /// How many there are.
        times: usize,
    },
    /// The temperature stays the very same for long, as when a sensor is stuck or hours were filled.
    Stuck {
        /// The first hour of the longest run.
        at: NaiveDateTime,
        /// How long it lasts, hours.
        hours: usize,
        /// Its temperature, °C.
        temperature_c: f64,
        /// How many such runs there are.
        times: usize,
    },
    /// Whole days repeat another day hour for hour.
    RepeatedDays {
        /// The day that is repeated first.
        first: NaiveDate,
        /// Where it comes again.
        again: NaiveDate,
        /// How many days are repeats of an earlier one.
        days: usize,
    },
    /// Whole months repeat those of another year hour for hour, as when a file was copied.
    RepeatedMonths {
        /// The first of them.
        first: NaiveDate,
        /// Where it comes again.
        again: NaiveDate,
        /// How many months are repeats of an earlier year's.
        months: usize,
    },
    /// Twelve months of a record lack more than 5 % of their hours, so that nothing is run on them.
    Lacking {
        /// The year of the July with which the first such twelve months begin.
        first_year: i32,
        /// Hours that they lack.
        missing: usize,
        /// Hours that they should have.
        hours: usize,
        /// How many such twelve months the record has.
        times: usize,
    },
    /// The numbers look like another unit than the one they were read in.
    OtherUnit {
        /// The year's number, where it has one.
        year: Option<i32>,
        /// The unit that they look like.
        looks_like: Degree,
        /// The warm end as read, which 1 % of the hours pass, °C.
        warm_end_c: f64,
    },
    /// A number that many files write where nothing was measured stands among far warmer hours.
    MissingCode {
        /// The number as the file has it.
        code: f64,
        /// The unit in which it is that number.
        degree: Degree,
        /// The first such hour.
        at: NaiveDateTime,
        /// How many there are.
        hours: usize,
    },
    /// Two neighbouring months whose means are farther apart than the rest of the year makes likely, as when
    /// some months are in another unit or in another's place.
    MonthsApart {
        /// The months, from 1.
        months: (u8, u8),
        /// Their means, °C.
        means_c: (f64, f64),
    },
    /// The cold half of the year lies in the place's summer.
    WrongSeason {
        /// Whether the place is south of the equator, where latitude or clocks tell it.
        south: Option<bool>,
        /// How much warmer its winter half is than its summer half, K.
        warmer_k: f64,
    },
    /// Hours colder or warmer than this place can be.
    Impossible {
        /// The worst hour.
        at: NaiveDateTime,
        /// Its temperature, °C.
        temperature_c: f64,
        /// The bound that it passes, °C.
        limit_c: f64,
        /// What the bound rests on.
        by: Bound,
        /// How many hours pass it.
        hours: usize,
    },
    /// The days differ too little, as in a series of climate normals or of means.
    Smoothed {
        /// Standard deviation of the step from one day's mean to the next, K.
        day_to_day_k: f64,
        /// Mean of the days' greatest less least hour, K.
        daily_spread_k: f64,
    },
    /// The daily cycle shifts between winter and summer, as when the clock's daylight saving is in the
    /// file.
    ClockShift {
        /// How much later the summer's day is, hours; 1 where summer hours carry clock time.
        hours: f64,
        /// Which cycle shows it.
        by: Cycle,
    },
}

/// A unit of temperature that a file may be in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Degree {
    /// °C.
    Celsius,
    /// °F.
    Fahrenheit,
}

/// What a bound of temperature rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bound {
    /// The coldest known at low stations of this latitude, with the height.
    Latitude,
    /// The year's own cold or warm end and its own changes from day to day.
    OwnYear,
}

/// What goes round once a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cycle {
    /// The irradiance.
    Sun,
    /// The morning's warming after sunrise.
    Temperature,
}

/// All suspicions about a year; empty for a sound one.
///
/// Nothing is said of a synthetic year, which nobody measured. The rules were tried on the six
/// built-in typical years, a TMY2 year of Miami, five actual years of Chicago and Northway and 22 of a
/// re-analysis in France: none of these raises a flag.
///
/// ```
/// let chicago = winterledger::weather::places::open("il-chicago").unwrap();
/// assert_eq!(winterledger::weather::quality::flags(&chicago), []);
/// ```
pub fn flags(year: &OutdoorYear) -> Vec<Flag> {
    flags_in(year, None)
}

/// The same, where the year's file may not say its time zone but a job does.
pub fn flags_in(year: &OutdoorYear, zone: Option<Tz>) -> Vec<Flag> {
    if matches!(year.kind, YearKind::Synthetic { .. }) {
        return Vec::new();
    }
    // Seasons and dates are counted from January.
    let times = Times::of(year);
    let year = &year.january_first();
    let hours = &year.columns.dry_bulb_c;
    let measured = Measured(&year.filled);
    let shape = place::Shape::of(hours);
    let found = [
        unit::other_unit(year),
        codes::missing(hours, times),
        months::apart(hours, times),
        months::season(year, year.zone.or(zone), times),
        sensor::drop_outs(hours, measured, times),
        sensor::stuck(hours, measured, times),
        sensor::repeated_days(hours, measured, times),
        place::impossible(year, &shape, times, place::End::Cold),
        place::impossible(year, &shape, times, place::End::Warm),
        place::smoothed(&shape),
        clock::shift(year),
    ];
    found.into_iter().flatten().collect()
}

/// The worst that could make one winter of a record look colder or milder than it was: it would move the
/// lows of the whole record.
pub fn cold_flag(year: &OutdoorYear) -> Option<Flag> {
    let times = Times::of(year);
    let year = year.january_first();
    let hours = &year.columns.dry_bulb_c;
    // Quick to see, while the bound itself takes all the year's days; and records have many winters.
    let cold = place::may_be_too_cold(&year)
        .then(|| place::impossible(&year, &place::Shape::of(hours), times, place::End::Cold));
    let measured = Measured(&year.filled);
    let sensor =
        || sensor::drop_outs(hours, measured, times).or_else(|| sensor::stuck(hours, measured, times));
    cold.flatten().or_else(|| codes::missing(hours, times)).or_else(sensor)
}

/// Suspicions that only a record of several years can raise: years that lack too many hours, months that are
/// copies of other years', years that look like another unit than the rest.
pub fn of_record(record: &WeatherRecord) -> Vec<Flag> {
    let years = record.calendar_years();
    // The first year that looks so says it for all.
    let year = years.into_iter().find_map(|year| unit::other_unit(&record.calendar_year(year)?));
    lacking(record).into_iter().chain(repeats::months(record)).chain(year).collect()
}

/// The twelve months from July of a record that lack no more than 5 % of their hours, by their first year.
pub fn winters_with_enough(record: &WeatherRecord) -> Vec<i32> {
    let enough = |year: &i32| record.filled_from_july(*year).is_some_and(|(n, all)| n <= most_missing(all));
    record.winters().into_iter().filter(enough).collect()
}

fn lacking(record: &WeatherRecord) -> Option<Flag> {
    let enough = winters_with_enough(record);
    let mut others = record.winters().into_iter().filter(|year| !enough.contains(year));
    let first_year = others.next()?;
    let (missing, hours) = record.filled_from_july(first_year)?;
    Some(Flag::Lacking { first_year, missing, hours, times: 1 + others.count() })
}

fn most_missing(hours: usize) -> usize {
    (MOST_MISSING * hours as f64).floor() as usize
}

/// The refusal of a year with more than 5 % of its hours missing; nothing for any other.
///
/// The hours were filled by the reader, each gap within its own rule; so many gaps are no record of
/// the year. The 5 % is this program's own choice.
pub fn too_much_missing(year: &OutdoorYear) -> Option<Problem> {
    let (filled, all) = (year.filled_hours, year.columns.dry_bulb_c.len());
    let most = most_missing(all);
    let of = match year.kind {
        YearKind::FromJuly(first) => {
            format!("July {first} to June {} of {}", first.saturating_add(1), year.place)
        }
        YearKind::Actual(_) | YearKind::Typical | YearKind::Synthetic { .. } => year.place.clone(),
    };
    let help = match 2 * filled > all {
        true => "Give every hour: rows that come every few hours are no weather by the hour",
        false => "Take another year, or a station near by",
    };
    (filled > most).then(|| {
        Problem::new(format!("{filled} of the {all} hours of {of} have no temperature"))
            .allowed(format!("up to {most} hours, 5 % of the year"))
            .help(help)
    })
}

/// Which hours were measured: not those that this program filled.
#[derive(Debug, Clone, Copy)]
struct Measured<'a>(&'a [bool]);

impl Measured<'_> {
    fn all(self, hours: std::ops::Range<usize>) -> bool {
        self.count(hours.clone()) == hours.len()
    }

    fn count(self, hours: std::ops::Range<usize>) -> usize {
        let length = hours.len();
        // Nothing is noted where nothing was filled.
        self.0.get(hours).map_or(length, |filled| filled.iter().filter(|filled| !**filled).count())
    }
}

/// Hours of the year, January first, into dates.
#[derive(Debug, Clone, Copy)]
struct Times {
    first: NaiveDate,
    /// Whether the later half is of the year before.
    from_july: bool,
}

impl Times {
    fn of(year: &OutdoorYear) -> Self {
        let from_july = matches!(year.kind, YearKind::FromJuly(_));
        let number = year.calendar_year().saturating_add(i32::from(from_july));
        Self { first: NaiveDate::from_ymd_opt(number, 1, 1).unwrap_or_default(), from_july }
    }

    fn hour(self, hour: usize) -> NaiveDateTime {
        let midnight = self.first.and_time(chrono::NaiveTime::MIN);
        let time = midnight + Duration::hours(i64::try_from(hour).unwrap_or_default());
        match time.with_year(time.year() - 1) {
            Some(before) if self.from_july && time.month() > 6 => before,
            _ => time,
        }
    }

    fn day(self, day: usize) -> NaiveDate {
        self.hour(day * 24).date()
    }
}
