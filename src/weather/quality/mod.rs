//! What looks wrong with a year of hours, told and never repaired.
//!
//! A finding is a suspicion with its figures: whoever reads decides. Each rule's bounds stand beside it,
//! with what real years come to. Must never change an hour. Start at [`flags`].

mod flag;
mod sensor;
mod clock;
mod place;
mod folded;
mod minus;
mod stretch;
mod rows;
mod hour_of_day;
mod repeats;
mod unit;
mod months;
mod codes;

pub use flag::{Bound, Cycle, Degree, Edge, Filling, Flag};

use super::gaps::MOST_MISSING;
use super::names::is_fahrenheit;
use super::record::WeatherRecord;
use super::year::{BinTable, OutdoorYear, YearKind};
use crate::problem::Problem;
use chrono::{Datelike, Duration, NaiveDate, NaiveDateTime};
use chrono_tz::Tz;

/// Hours of bins that are a year's: 8,760 or 8,784, less what rounding of each bin to whole hours or days leaves.
const A_YEAR_OF_BINS: std::ops::RangeInclusive<f64> = 8700.0..=8800.0;

/// From so many on, drop-outs explain what else jumps do; no real year has one.
const DROP_OUTS: usize = 5;

/// All suspicions about a year; empty for a sound one.
///
/// Nothing is said of a synthetic year, which nobody measured. The rules were tried on the six
/// built-in typical years, a TMY2 year of Miami, seven actual years of Illinois and Northway and 22 of a
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
    let smoothed = place::smoothed(&shape);
    let drops = sensor::drop_outs(hours, measured, times);
    // Where a number stands for missing again and again, jumps to and from it look like much else.
    let jumpy = matches!(drops, Some(Flag::DropOut { times: DROP_OUTS.., .. }));
    // Normals have the same least hour every night, at whatever temperature.
    let even = smoothed.is_none() && !jumpy;
    let stretch = if jumpy { None } else { stretch::other_unit(hours, times, written(year)) };
    // A night and a day in two units look upside down too.
    let by_days = |flag: &Flag| matches!(flag, Flag::UpsideDown { .. } | Flag::ThrownBack { .. });
    let explained = |flag: &Flag| stretch.is_some() && by_days(flag);
    let signs = even.then(|| minus::lost(hours, times)).flatten().filter(|flag| !explained(flag));
    let line = |flag: &Flag| matches!(flag, Flag::FilledRows { by: Filling::Line, .. });
    // Nights without their signs can make day and night alike; days without a cycle can look upside down.
    let floor = |flag: &Flag| matches!(flag, Flag::FloorAtZero { .. } | Flag::ThrownBack { .. });
    let no_cycle = (even && !signs.as_ref().is_some_and(floor))
        .then(|| place::without_cycle(&shape, year.latitude))
        .flatten();
    let signs = signs.filter(|flag| no_cycle.is_none() || floor(flag));
    let rows = rows::filled(hours).filter(|flag| !(jumpy && line(flag)));
    let flat = smoothed.is_some() || no_cycle.is_some();
    let found = [
        unit::other_unit(year),
        codes::missing(hours, times),
        // Months without their signs stand apart too.
        signs.is_none().then(|| months::apart(hours, times)).flatten(),
        months::season(year, year.zone.or(zone), times),
        drops,
        sensor::stuck(hours, measured, times),
        sensor::stuck_often(hours, measured, times),
        rows.is_none().then(|| sensor::stuck_daily(hours, measured, times)).flatten(),
        signs,
        stretch,
        rows,
        sensor::repeated_days(hours, measured, times),
        place::impossible(year, &shape, times, place::End::Cold),
        place::impossible(year, &shape, times, place::End::Warm),
        smoothed,
        no_cycle,
        clock(year, flat),
    ];
    found.into_iter().flatten().collect()
}

/// Of a shift by daylight saving and a clock that is wrong throughout the one that explains the other: days that
/// are warmest at night shift too, and a summer that is late makes the year's sun late. What is wrong with the sun
/// throughout, where it keeps its place from winter to summer, is wrong with the mornings too.
/// Temperatures that are flat tell no clock.
fn clock(year: &OutdoorYear, flat: bool) -> Option<Flag> {
    if flat {
        return clock::by_sun(year).or_else(|| hour_of_day::odd_sun(year));
    }
    let throughout = hour_of_day::odd(year);
    match throughout {
        Some(Flag::HourOfDay { by: Cycle::Temperature, .. }) => throughout,
        Some(Flag::HourOfDay { by: Cycle::Sun, .. }) => clock::by_sun(year).or(throughout),
        _ => clock::by_sun(year).or_else(|| clock::by_mornings(year)).or(throughout),
    }
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
    let unit = || stretch::other_unit(hours, times, written(&year)).or_else(|| minus::lost(hours, times));
    cold.flatten().or_else(|| codes::missing(hours, times)).or_else(sensor).or_else(unit)
}

/// Suspicions that only a record of several years can raise: years that lack too many hours, months that are
/// copies of other years', years that look like another unit than the rest.
pub fn of_record(record: &WeatherRecord) -> Vec<Flag> {
    let years = record.calendar_years();
    // The first year that looks so says it for all.
    let year = years.into_iter().find_map(|year| unit::other_unit(&record.calendar_year(year)?));
    lacking(record).into_iter().chain(repeats::months(record)).chain(year).collect()
}

/// The suspicion about bins whose hours are not those of a year.
pub fn of_bins(bins: &BinTable) -> Option<Flag> {
    let hours: f64 = bins.bins.iter().map(|bin| bin.hours).sum();
    (!A_YEAR_OF_BINS.contains(&hours)).then_some(Flag::BinsOfNoYear { hours })
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
        let at = year.filled_at().map_or_else(String::new, |at| {
            let ((first, _), (longest, hours)) = (at.first, at.longest);
            let time = |at: NaiveDateTime| at.format("%-d %B %H:%M").to_string();
            match hours {
                1 => format!(", each of them alone, first {}", time(first)),
                _ => format!(", first {}, most on end ({hours}) from {}", time(first), time(longest)),
            }
        });
        Problem::new(format!("{filled} of the {all} hours of {of} have no temperature{at}"))
            .allowed(format!("up to {most} hours, 5 % of the year"))
            .help(help)
    })
}

/// The unit in which the file's temperatures are written.
fn written(year: &OutdoorYear) -> Degree {
    let column = year.reading.as_ref().and_then(|reading| reading.columns_taken.first());
    if column.is_some_and(|name| is_fahrenheit(name)) { Degree::Fahrenheit } else { Degree::Celsius }
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
    /// The month and day from which on hours are of the year before.
    before: Option<(u32, u32)>,
}

impl Times {
    fn of(year: &OutdoorYear) -> Self {
        let from_july = matches!(year.kind, YearKind::FromJuly(_));
        let number = year.calendar_year().saturating_add(i32::from(from_july));
        let before = if from_july { Some((7, 1)) } else { year.turned_at() };
        Self { first: NaiveDate::from_ymd_opt(number, 1, 1).unwrap_or_default(), before }
    }

    fn hour(self, hour: usize) -> NaiveDateTime {
        let midnight = self.first.and_time(chrono::NaiveTime::MIN);
        let time = midnight + Duration::hours(i64::try_from(hour).unwrap_or_default());
        match time.with_year(time.year() - 1) {
            Some(before) if self.before.is_some_and(|first| first <= (time.month(), time.day())) => before,
            _ => time,
        }
    }

    fn day(self, day: usize) -> NaiveDate {
        self.hour(day * 24).date()
    }
}
