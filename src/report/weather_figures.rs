//! A weather year into the figures of its summary: temperatures, degree-days, spells, months, days.
//!
//! Months and days are those of standard time; a cold spell is looked for from July on, so that no
//! winter is cut in two. Knows no unit that is shown. Start at [`Figures`].

use super::wording::MONTHS;
use crate::series::Hourly;
use crate::units::fahrenheit_to_celsius;
use crate::weather::statistics::{
    coldest_hour, degree_days_above, degree_days_below, hours_below, percentile,
};
use crate::weather::{OutdoorYear, YearKind};
use chrono::{Datelike, Duration, NaiveDate, NaiveDateTime, NaiveTime, Timelike};

/// The outdoor temperatures below which hours are counted, °F: those at which heat pumps are tested
/// in the United States (10 CFR 430 Subpart B, Appendix M1), and −13 °F, to which many are rated.
pub const LIMITS_F: [f64; 6] = [47.0, 35.0, 17.0, 5.0, -5.0, -13.0];
/// The base of degree-days, °F: common practice in the United States.
const BASE_F: f64 = 65.0;
/// Days over which the coldest mean is taken.
pub const COLD_DAYS: usize = 5;

/// An hour and its temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct At {
    /// When the hour begins, standard time.
    pub time: NaiveDateTime,
    /// Its place in the run from 1 July.
    pub hour: usize,
    /// Dry-bulb temperature, °C.
    pub temperature_c: f64,
}

/// Hours one after another that are all colder than a limit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spell {
    /// When the first of them begins.
    pub start: NaiveDateTime,
    /// Its place in the run from 1 July.
    pub hour: usize,
    /// How many they are.
    pub hours: usize,
    /// Their mean, °C.
    pub mean_c: f64,
}

/// One day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Day {
    /// The date.
    pub date: NaiveDate,
    /// The coldest hour, °C.
    pub low_c: f64,
    /// The mean of the 24 hours, °C.
    pub mean_c: f64,
    /// The warmest hour, °C.
    pub high_c: f64,
}

/// One month.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Month {
    /// 1 to 12.
    pub number: u32,
    /// The mean of its hours, °C.
    pub mean_c: f64,
    /// The mean of its days' coldest hours, °C.
    pub mean_low_c: f64,
    /// The mean of its days' warmest hours, °C.
    pub mean_high_c: f64,
    /// Its coldest hour, °C.
    pub lowest_c: f64,
    /// Its warmest hour, °C.
    pub highest_c: f64,
    /// Heating degree-days below 65 °F, K·day.
    pub heating_days: f64,
}

/// What is told of one weather year.
#[derive(Debug, Clone, PartialEq)]
pub struct Figures {
    /// The mean of all hours, °C.
    pub mean_c: f64,
    /// The coldest hour.
    pub coldest: At,
    /// The warmest hour.
    pub warmest: At,
    /// Heating degree-days below 65 °F, K·day.
    pub heating_days: f64,
    /// Cooling degree-days above 65 °F, K·day.
    pub cooling_days: f64,
    /// The temperatures exceeded by 99.6 % and by 99 % of the hours, °C.
    pub heating_design_c: [f64; 2],
    /// The temperatures exceeded by 1 % and by 0.4 % of the hours, °C.
    pub cooling_design_c: [f64; 2],
    /// Hours colder than each of [`LIMITS_F`].
    pub hours_below: [usize; 6],
    /// The longest time colder than the 99 % temperature; nothing where the coldest hours are all alike.
    pub spell: Option<Spell>,
    /// The coldest [`COLD_DAYS`] days in a row.
    pub cold_days: Spell,
    /// The months, January first.
    pub months: Vec<Month>,
    /// The days from 1 July on.
    pub days: Vec<Day>,
}

/// Gathers the figures of a year; nothing for a year of less than [`COLD_DAYS`] days.
pub fn figures(year: &OutdoorYear) -> Option<Figures> {
    let run = Run::of(year);
    let hours = &run.hours;
    let design = |share| percentile(hours, share);
    let (limit, days) = (design(0.01)?, days(&run));
    Some(Figures {
        mean_c: hours.mean(),
        coldest: run.at(coldest_hour(hours)?.hour)?,
        warmest: run.at(hours.iter().enumerate().rev().max_by(|a, b| a.1.total_cmp(b.1))?.0)?,
        heating_days: degree_days_below(hours, fahrenheit_to_celsius(BASE_F)),
        cooling_days: degree_days_above(hours, fahrenheit_to_celsius(BASE_F)),
        heating_design_c: [design(0.004)?, limit],
        cooling_design_c: [design(0.99)?, design(0.996)?],
        hours_below: LIMITS_F.map(|f| hours_below(hours, fahrenheit_to_celsius(f))),
        spell: longest_spell(&run, limit),
        cold_days: coldest_days(&run)?,
        months: (1..=12).filter_map(|number| month(number, &days)).collect(),
        days,
    })
}

/// The hours from 1 July on, and when they are.
struct Run {
    hours: Hourly<f64>,
    first: NaiveDateTime,
    start: usize,
}

impl Run {
    fn of(year: &OutdoorYear) -> Self {
        // Dates are counted from January, also of hours that begin in July.
        let year = year.january_first();
        let run = year.run(None);
        let number = year.calendar_year();
        let first = NaiveDate::from_ymd_opt(number, 1, 1).unwrap_or_default().and_time(NaiveTime::MIN);
        Self { hours: run.dry_bulb_c, first, start: run.calendar.start_in_year() }
    }

    fn time(&self, hour: usize) -> NaiveDateTime {
        let in_year = (hour + self.start) % self.hours.len();
        self.first + Duration::hours(i64::try_from(in_year).unwrap_or_default())
    }

    fn at(&self, hour: usize) -> Option<At> {
        Some(At { time: self.time(hour), hour, temperature_c: *self.hours.get(hour)? })
    }

    fn spell(&self, hour: usize, hours: usize) -> Option<Spell> {
        let part = self.hours.get(hour..hour + hours).filter(|part| !part.is_empty())?;
        let mean_c = part.iter().sum::<f64>() / part.len() as f64;
        Some(Spell { start: self.time(hour), hour, hours, mean_c })
    }
}

fn longest_spell(run: &Run, limit_c: f64) -> Option<Spell> {
    let (mut best, mut first) = (0..0, None);
    for (hour, t) in run.hours.iter().chain([&f64::INFINITY]).enumerate() {
        match (hours_below(&[*t], limit_c) > 0, first) {
            (true, None) => first = Some(hour),
            (false, Some(start)) => {
                if hour - start > best.len() {
                    best = start..hour;
                }
                first = None;
            }
            _ => {}
        }
    }
    run.spell(best.start, best.len())
}

fn coldest_days(run: &Run) -> Option<Spell> {
    let sums = run.hours.daily_sums();
    let of = |days: &[f64]| days.iter().sum::<f64>();
    let (day, _) = sums.windows(COLD_DAYS).map(of).enumerate().min_by(|a, b| a.1.total_cmp(&b.1))?;
    run.spell(day * 24, COLD_DAYS * 24)
}

fn days(run: &Run) -> Vec<Day> {
    let day = |(i, hours): (usize, &[f64])| Day {
        date: run.time(i * 24).date(),
        low_c: hours.iter().copied().fold(f64::INFINITY, f64::min),
        mean_c: hours.iter().sum::<f64>() / 24.0,
        high_c: hours.iter().copied().fold(f64::NEG_INFINITY, f64::max),
    };
    run.hours.days().enumerate().map(day).collect()
}

fn month(number: u32, days: &[Day]) -> Option<Month> {
    let own: Vec<&Day> = days.iter().filter(|day| day.date.month() == number).collect();
    let base = fahrenheit_to_celsius(BASE_F);
    let mean = |of: fn(&Day) -> f64| own.iter().map(|day| of(day)).sum::<f64>() / own.len() as f64;
    Some(Month {
        number,
        mean_c: mean(|day| day.mean_c),
        mean_low_c: mean(|day| day.low_c),
        mean_high_c: mean(|day| day.high_c),
        lowest_c: own.iter().map(|day| day.low_c).min_by(f64::total_cmp)?,
        highest_c: own.iter().map(|day| day.high_c).max_by(f64::total_cmp)?,
        heating_days: own.iter().map(|day| (base - day.mean_c).max(0.0)).sum(),
    })
}

/// What kind of year it is, in words.
pub fn kind(year: &OutdoorYear) -> String {
    match year.kind {
        YearKind::Typical => "typical year".to_owned(),
        YearKind::Actual(number) => format!("actual year {number}"),
        YearKind::FromJuly(number) => format!("July {number} to June {}", number + 1),
        YearKind::Synthetic { .. } => "synthetic year".to_owned(),
    }
}

/// `12 Jan 07:00`.
pub fn moment(time: NaiveDateTime) -> String {
    format!("{} {:02}:00", date(time), time.hour())
}

/// `12 Jan`.
pub fn date(time: NaiveDateTime) -> String {
    let month = MONTHS.get(time.month0() as usize).copied().unwrap_or_default();
    format!("{} {month}", time.day())
}

/// `12 Jan to 15 Jan`, or one date.
pub fn span(spell: &Spell) -> String {
    let last = spell.start + Duration::hours(i64::try_from(spell.hours).unwrap_or_default() - 1);
    match (date(spell.start), date(last)) {
        (first, last) if first == last => first,
        (first, last) => format!("{first} to {last}"),
    }
}
