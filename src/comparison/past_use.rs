//! The need of the house as calculated, held against what it burned in winters gone by.
//!
//! Each bill is set beside what the house should have burned on the same days: in their own weather where the
//! job's weather holds them, else in that of the year that is run. Start at [`PastUse`].

use super::RunWeather;
use crate::fuel::{Fuel, FuelId, Fuels};
use crate::job::{AmountText, BillSection, Job, PastUseSection, Typed};
use crate::load::Zone;
use crate::load::past_use::{Agreement, agreement, daily_need_kwh};
use crate::problem::{Problem, Problems};
use crate::sources::{Assumptions, Source};
use crate::units::Quantity;
use crate::weather::{OutdoorYear, Weather, YearKind, quality};
use chrono::{Datelike, NaiveDate};
use chrono_tz::Tz;
use std::collections::BTreeMap;

/// Days of a month on the mean.
const DAYS_OF_MONTH: f64 = 365.0 / 12.0;
/// Days from 1 July to 31 December.
const JULY_TO_DECEMBER: usize = 184;

/// Bills of the past beside what is calculated for their days.
#[derive(Debug, Clone, PartialEq)]
pub struct PastUse {
    /// What heated the house.
    pub fuel: FuelId,
    /// Share of its energy that reached the rooms as heat.
    pub efficiency: f64,
    /// Where the bills come from, in the job's words.
    pub source: Option<String>,
    /// The bills, in the job's order.
    pub bills: Vec<PastBill>,
    /// How far the bills lie from what is calculated; nothing of a single one.
    pub agreement: Option<Agreement>,
}

/// One bill.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PastBill {
    /// Its first day.
    pub from: NaiveDate,
    /// The day after its last.
    pub to: NaiveDate,
    /// What was used, kWh of fuel.
    pub used_kwh: f64,
    /// What should have been, kWh of fuel.
    pub calculated_kwh: f64,
    /// Whether the weather was that of its own days.
    pub own_days: bool,
}

impl PastBill {
    /// How much more is calculated than was used, as a share of what was used.
    pub fn excess(&self) -> f64 {
        self.calculated_kwh / self.used_kwh - 1.0
    }

    fn calculated_a_day(&self) -> f64 {
        self.calculated_kwh / (self.to - self.from).num_days().max(1) as f64
    }
}

/// A bill that is off by more than this either way is asked about: a judgement.
const SLIP: f64 = 3.0;
/// Days that should take less than this share of the coldest bill's tell no slip: they are hardly heating.
const HEATING: f64 = 0.2;

impl PastUse {
    /// What was used in all, kWh of fuel.
    pub fn used_kwh(&self) -> f64 {
        self.bills.iter().map(|bill| bill.used_kwh).sum()
    }

    /// What should have been, kWh of fuel.
    pub fn calculated_kwh(&self) -> f64 {
        self.bills.iter().map(|bill| bill.calculated_kwh).sum()
    }

    /// How much more is calculated than was used, as a share of what was used.
    pub fn excess(&self) -> f64 {
        self.calculated_kwh() / self.used_kwh() - 1.0
    }

    /// How many bills were calculated in the weather of their own days.
    pub fn in_own_weather(&self) -> usize {
        self.bills.iter().filter(|bill| bill.own_days).count()
    }

    /// Bills so far from what is calculated that a digit, a unit or a date must have slipped.
    pub fn slips(&self) -> impl Iterator<Item = &PastBill> {
        let most = self.bills.iter().map(PastBill::calculated_a_day).fold(0.0, f64::max);
        let heats = move |bill: &&PastBill| bill.calculated_a_day() >= HEATING * most;
        let off = |bill: &&PastBill| !(1.0 / SLIP..=SLIP).contains(&(bill.used_kwh / bill.calculated_kwh));
        self.bills.iter().filter(heats).filter(off)
    }
}

/// What the check needs of the comparison.
pub(super) struct Beside<'a> {
    pub(super) fuels: &'a Fuels,
    pub(super) zones: &'a [Zone],
    pub(super) time_zone: Option<Tz>,
    /// All the weather that the job names.
    pub(super) weather: &'a Weather,
    /// What is run of it.
    pub(super) run: &'a RunWeather,
}

/// The job's bills beside what is calculated for their days; nothing where it gives none.
///
/// # Errors
/// An unknown fuel, amounts in a unit that it is not sold by, weather without days.
pub(super) fn past_use(
    job: &Job,
    beside: &Beside<'_>,
    assumptions: &mut Assumptions,
) -> Result<Option<PastUse>, Problems> {
    let Some(section) = &job.past_use else { return Ok(None) };
    let (fuel, about) =
        job.fuel(&section.fuel, "past_use.fuel", beside.fuels).map_err(|problem| vec![problem])?;
    let RunWeather::Year(year) = beside.run else {
        let what = "bills cannot be held against weather that has hours by temperature only";
        let problem = job.problem(&section.fuel.span, "past_use", what);
        return Err(vec![problem.help("Take [past_use] out, or name an hourly weather file")]);
    };
    let other_kwh_day = other_use(job, section, about, assumptions).map_err(|problem| vec![problem])?;
    let days = Days::of(job, section, beside, year);
    let bill = |(place, bill): (usize, &BillSection)| {
        let used_kwh = kwh(job, about, &bill.used, &format!("past_use.bills.{}.used", place + 1))?;
        let span = bill.from.value.iter_days().take_while(|day| *day < bill.to.value);
        let own_days = days.hold(bill);
        let (heat_kwh, count) =
            span.fold((0.0, 0.0), |(heat, n), day| (heat + days.need_kwh(day, own_days), n + 1.0));
        let calculated_kwh = heat_kwh / section.efficiency.value + other_kwh_day * count;
        Ok(PastBill { from: bill.from.value, to: bill.to.value, used_kwh, calculated_kwh, own_days })
    };
    let (bills, wrong): (Vec<_>, Vec<_>) =
        section.bills.iter().enumerate().map(bill).partition(Result::is_ok);
    if !wrong.is_empty() {
        return Err(wrong.into_iter().filter_map(Result::err).collect());
    }
    let bills: Vec<PastBill> = bills.into_iter().filter_map(Result::ok).collect();
    Ok(Some(PastUse {
        fuel,
        efficiency: section.efficiency.value,
        source: section.source.as_ref().map(|source| source.value.clone()),
        agreement: agreement(
            &bills.iter().map(|bill| bill.used_kwh).collect::<Vec<_>>(),
            &bills.iter().map(|bill| bill.calculated_kwh).collect::<Vec<_>>(),
        ),
        bills,
    }))
}

fn kwh(job: &Job, fuel: &Fuel, amount: &Typed<AmountText>, key: &str) -> Result<f64, Problem> {
    Ok(amount.amount * job.units_in(fuel, &amount.unit, &amount.span, key)? * fuel.kwh_per_unit)
}

/// What else takes of the fuel, kWh a day.
fn other_use(
    job: &Job,
    section: &PastUseSection,
    fuel: &Fuel,
    assumptions: &mut Assumptions,
) -> Result<f64, Problem> {
    let key = "past_use.other_use";
    let given = section.other_use.as_ref().map(|amount| kwh(job, fuel, amount, key)).transpose()?;
    let none = || Source::Derived("nothing else is taken to have used that fuel".into());
    Ok(assumptions.or_default(given, key, 0.0, "nothing else", none) / DAYS_OF_MONTH)
}

/// The need of the whole house by days of one or more years from July.
struct Days {
    /// Of each winter of the record that has enough hours, by the year of its July.
    own: BTreeMap<i32, Vec<f64>>,
    /// The calendar year that is run, where it is one that was.
    actual: Option<i32>,
    /// Of the year that is run, laid on the days of any other, and the year of its July.
    shown: (i32, Vec<f64>),
}

impl Days {
    fn of(job: &Job, section: &PastUseSection, beside: &Beside<'_>, year: &OutdoorYear) -> Self {
        let need = |year: &OutdoorYear| {
            let run = year.run(beside.time_zone);
            let zones = beside.zones.iter().map(|zone| daily_need_kwh(zone, &run));
            zones.reduce(|sum, zone| sum.iter().zip(zone).map(|(a, b)| a + b).collect()).unwrap_or_default()
        };
        let (first_year, actual) = match year.kind {
            YearKind::FromJuly(first) => (first, None),
            // The run of a calendar year has its second half first.
            YearKind::Actual(number) => (number - 1, Some(number)),
            YearKind::Typical | YearKind::Synthetic { .. } => (year.calendar_year() - 1, None),
        };
        let own = own_winters(job, section, beside.weather);
        Self {
            own: own.iter().map(|(first, year)| (*first, need(year))).collect(),
            actual,
            shown: (first_year, need(year)),
        }
    }

    /// Whether they hold the bill's own days.
    fn hold(&self, bill: &BillSection) -> bool {
        let last = last_day(bill);
        let in_record = winters_of(bill).all(|winter| self.own.contains_key(&winter));
        let in_year = self.actual.is_some_and(|year| bill.from.year() == year && last.year() == year);
        in_record || in_year
    }

    fn need_kwh(&self, day: NaiveDate, own: bool) -> f64 {
        let (shown_year, shown) = &self.shown;
        let (first_year, need) = match self.own.get(&winter_of(day)).filter(|_| own) {
            Some(winter) => (winter_of(day), winter),
            None => (*shown_year, shown),
        };
        need.get(place(first_year, day)).copied().unwrap_or_default()
    }
}

fn last_day(bill: &BillSection) -> NaiveDate {
    bill.to.pred_opt().unwrap_or(bill.to.value)
}

fn winters_of(bill: &BillSection) -> std::ops::RangeInclusive<i32> {
    winter_of(bill.from.value)..=winter_of(last_day(bill))
}

/// The winters that bills lie in and of which the record holds enough hours.
fn own_winters(job: &Job, section: &PastUseSection, weather: &Weather) -> BTreeMap<i32, OutdoorYear> {
    let Weather::Record(record) = weather else { return BTreeMap::new() };
    let kelvin = job.site.site_offset.as_deref().map_or(0.0, |offset| offset.base());
    let winters = section.bills.iter().flat_map(winters_of);
    let held = winters.filter_map(|first| {
        let year = record.from_july(first)?;
        quality::too_much_missing(&year).is_none().then(|| (first, year.warmer_by(kelvin)))
    });
    held.collect()
}

/// The year of the July before a day.
fn winter_of(day: NaiveDate) -> i32 {
    if day.month() >= 7 { day.year() } else { day.year() - 1 }
}

/// The place of a day in twelve months from 1 July; 29 February is the 28th where there is none.
fn place(first_year: i32, day: NaiveDate) -> usize {
    if day.month() >= 7 {
        let july = NaiveDate::from_ymd_opt(day.year(), 7, 1);
        return july.map_or(0, |july| (day - july).num_days().unsigned_abs() as usize);
    }
    let same = NaiveDate::from_ymd_opt(first_year + 1, day.month(), day.day())
        .or_else(|| NaiveDate::from_ymd_opt(first_year + 1, day.month(), 28));
    JULY_TO_DECEMBER + same.map_or(0, |same| same.ordinal0() as usize)
}
