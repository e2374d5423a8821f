//! A price history drawn from a model that is known, to see what a fit finds of it.
//!
//! Start at [`made_at`].

use super::level::LevelFit;
use super::{MONTHS, PriceHistory, PricePoint};
use crate::chance::Chance;
use crate::prices::moves::LevelStep;
use chrono::{Datelike, Days, NaiveDate};

/// A model that is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Truth {
    /// The logarithm of each month's price over the winter's middle, October first; their sum is 0.
    pub season: [f64; 6],
    /// The level.
    pub level: LevelFit,
    /// Of a spike in a winter.
    pub spike_probability: f64,
    /// Mean of the logarithm of its factor, exponentially distributed.
    pub spike_size: f64,
    /// Weeks in which half of it is gone.
    pub spike_half_life_weeks: f64,
    /// The step to which prices are rounded; 0 rounds none.
    pub rounded_to: f64,
}

/// Numbers of the streams.
const LEVEL: u64 = 1;
const SPIKE: u64 = 2;

/// The history of that number on these days, in order; a spike begins on any day from December to
/// February.
pub fn made_at(dates: &[NaiveDate], truth: &Truth, seed: u64, number: u64) -> PriceHistory {
    let mut chance = Chance::keyed(seed, number, LEVEL, 0);
    let mut level = truth.level.spread * chance.normal();
    let mut before: Option<NaiveDate> = None;
    let mut points = Vec::with_capacity(dates.len());
    for date in dates {
        if let Some(before) = before {
            let years = (*date - before).num_days() as f64 / 365.25;
            level = LevelStep::new(truth.level.half_life_years, years, truth.level.spread)
                .next(level, chance.normal());
        }
        before = Some(*date);
        let month = MONTHS.iter().position(|month| *month == date.month());
        let season = month.and_then(|month| truth.season.get(month)).copied().unwrap_or_default();
        let price = (truth.level.mean + level + season + spike(*date, truth, seed, number)).exp();
        let step = truth.rounded_to;
        let price = if step > 0.0 { ((price / step).round() * step).max(step) } else { price };
        points.push(PricePoint { date: *date, price });
    }
    PriceHistory { unit: "$/gal".into(), points, rounded_to: truth.rounded_to, monthly_means: false }
}

/// What the spike of the date's winter adds to the logarithm.
fn spike(date: NaiveDate, truth: &Truth, seed: u64, number: u64) -> f64 {
    let first_year = date.year() - i32::from(date.month() < 7);
    let mut chance = Chance::keyed(seed, number, SPIKE, u64::from(first_year.unsigned_abs()));
    let comes = chance.share() < truth.spike_probability;
    let size = -truth.spike_size * chance.share().ln();
    let day = (chance.share() * 90.0) as u64;
    let began = NaiveDate::from_ymd_opt(first_year, 12, 1).and_then(|d| d.checked_add_days(Days::new(day)));
    let since = began.map(|began| (date - began).num_days()).filter(|days| *days >= 0 && comes);
    since.map_or(0.0, |days| size * 0.5_f64.powf(days as f64 / 7.0 / truth.spike_half_life_weeks))
}
