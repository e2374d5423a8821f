//! The weather years that winters are drawn from: those of a record, else a single year made colder and
//! milder.
//!
//! Start at [`Pool`].

use crate::calendar::MonthDay;
use crate::prices::moves::WinterCold;
use crate::problem::{Problem, Problems};
use crate::supply::MarketDays;
use crate::supply::queue::{Strain, trailing_degree_days};
use crate::weather::extremes::LONGEST_GAP_H;
use crate::weather::quality::winters_with_enough;
use crate::weather::{OutdoorYear, Weather};
use chrono_tz::Tz;
use statrs::distribution::{ContinuousCDF, Normal};

/// Years that a single year is made into.
const MADE: usize = 25;
/// How far winters differ from year to year where only one is known: standard deviation of the mean of
/// November to March, K. From memory, of the northern United States; the report says so.
pub const WINTER_SPREAD_K: f64 = 1.5;

/// Out of which years winters are drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum YearsBasis {
    /// The complete winters of a record, each as likely as any other.
    Record {
        /// How many.
        winters: usize,
        /// Winters left out, since cold days are missing in them.
        left_out: usize,
    },
    /// One year, its hours of November to March made milder or colder together.
    Made {
        /// How many, each as likely as any other.
        years: usize,
        /// The standard deviation among them, K.
        spread_k: f64,
    },
}

/// One weather year, as demand, queue and price see it.
#[derive(Debug, Clone, PartialEq)]
pub struct PoolYear {
    /// The hours.
    pub year: OutdoorYear,
    /// Degree-days of the ten days to each day of the run, K·day.
    pub trailing: Vec<f64>,
    /// The dates of the run's days.
    pub dates: Vec<MonthDay>,
    /// How cold its winter is, for the price.
    pub winter: WinterCold,
}

/// All weather years.
#[derive(Debug, Clone, PartialEq)]
pub struct Pool {
    /// The years.
    pub years: Vec<PoolYear>,
    /// Where they come from.
    pub basis: YearsBasis,
    /// What is ordinary and what hard among them.
    pub strain: Strain,
}

impl Pool {
    /// Of `weather`, or of the one year that is `own`; `offset_k` is added to hours of a record.
    ///
    /// # Errors
    /// A record without a whole winter.
    pub fn new(
        weather: &Weather,
        own: &OutdoorYear,
        offset_k: f64,
        zone: Option<Tz>,
    ) -> Result<Self, Problems> {
        let (years, basis) = match weather {
            Weather::Record(record) => {
                let enough = winters_with_enough(record);
                let whole = |year: &i32| {
                    let gap = record.longest_winter_gap(*year);
                    enough.contains(year) && gap.is_some_and(|hours| hours <= LONGEST_GAP_H)
                };
                let (kept, left): (Vec<i32>, Vec<i32>) = record.winters().iter().partition(|y| whole(y));
                let years = kept.iter().filter_map(|year| record.from_july(*year));
                let years: Vec<OutdoorYear> = years.map(|year| year.warmer_by(offset_k)).collect();
                let basis = YearsBasis::Record { winters: years.len(), left_out: left.len() };
                (years, basis)
            }
            Weather::Year(_) | Weather::Bins(_) => {
                let years = departures().into_iter().map(|k| own.winter_warmer_by(k)).collect();
                (years, YearsBasis::Made { years: MADE, spread_k: WINTER_SPREAD_K })
            }
        };
        if years.is_empty() {
            return Err(vec![Problem::new("the record holds no winter without gaps to draw from")]);
        }
        Ok(Self::of_years(years, basis, zone))
    }

    fn of_years(years: Vec<OutdoorYear>, basis: YearsBasis, zone: Option<Tz>) -> Self {
        let mut list: Vec<PoolYear> = years.into_iter().map(|year| pool_year(year, zone)).collect();
        let colds: Vec<f64> = list.iter().map(|year| year.winter.colder).collect();
        let mean = colds.iter().sum::<f64>() / colds.len() as f64;
        let square = colds.iter().map(|cold| (cold - mean).powi(2)).sum::<f64>();
        let deviation = (square / (colds.len() as f64 - 1.0).max(1.0)).sqrt();
        for year in &mut list {
            let colder = year.winter.colder - mean;
            year.winter.colder = if deviation > 0.0 { colder / deviation } else { 0.0 };
        }
        let cores = list.iter().map(|year| {
            let core = year.dates.iter().map(|date| is_core(*date)).collect();
            (year.trailing.clone(), core)
        });
        let strain = Strain::of(&cores.collect::<Vec<_>>());
        Self { years: list, basis, strain }
    }
}

/// Evenly likely departures of a winter from the one that is known, K, cold to mild.
fn departures() -> Vec<f64> {
    let share = |i: usize| (i as f64 + 0.5) / MADE as f64;
    let normal = Normal::standard();
    (0..MADE).map(|i| WINTER_SPREAD_K * normal.inverse_cdf(share(i))).collect()
}

/// The winter's degree-days stand for how much colder it is until all years are known.
fn pool_year(year: OutdoorYear, zone: Option<Tz>) -> PoolYear {
    let run = year.run(zone);
    let means: Vec<f64> = run.dry_bulb_c.daily_sums().iter().map(|sum| sum / 24.0).collect();
    let trailing = trailing_degree_days(&means);
    let dates = MarketDays::dates_of(&run.calendar);
    let in_winter = |date: &MonthDay| date.month >= 11 || date.month <= 3;
    let colder = means.iter().zip(&dates).filter(|(_, date)| in_winter(date)).map(|(mean, _)| -mean).sum();
    let core = trailing.iter().zip(&dates).enumerate().filter(|(_, (_, date))| is_core(**date));
    let spike_day = core.max_by(|a, b| a.1.0.total_cmp(b.1.0)).map_or(0, |(day, _)| day);
    PoolYear { year, trailing, dates, winter: WinterCold { colder, spike_day } }
}

fn is_core(date: MonthDay) -> bool {
    matches!(date.month, 12 | 1 | 2)
}
