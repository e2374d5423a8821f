//! A price history drawn from a model that is known, to see what a fit finds of it.
//!
//! Start at [`made_at`].

use super::fit::{Asked, Fit, Level};
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
    pub level: Level,
    /// Of a spike in a winter.
    pub spike_probability: f64,
    /// Mean of the logarithm of its factor, exponentially distributed.
    pub spike_size: f64,
    /// Weeks in which half of it is gone.
    pub spike_half_life_weeks: f64,
    /// The step to which prices are rounded; 0 rounds none.
    pub rounded_to: f64,
}

impl Truth {
    /// A model as fitted.
    pub fn of(fitted: &Fit, asked: Asked, rounded_to: f64) -> Self {
        let found = fitted.spikes.as_ref().map_or(0, Vec::len) as f64;
        Self {
            season: fitted.season.map(|month| month.map_or(0.0, |month| month.value)),
            level: fitted.level,
            spike_probability: found / fitted.watched.max(1) as f64,
            spike_size: fitted.spike_size().unwrap_or_default(),
            spike_half_life_weeks: asked.spike_half_life_weeks,
            rounded_to,
        }
    }
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

/// The history of that number on the days of another, or with the means of its months.
pub fn made_like(history: &PriceHistory, truth: &Truth, seed: u64, number: u64) -> PriceHistory {
    let dates = history.points.iter().map(|point| point.date);
    if !history.monthly_means {
        return made_at(&dates.collect::<Vec<_>>(), truth, seed, number);
    }
    let days = |date: NaiveDate| date.iter_days().take_while(move |day| day.month() == date.month());
    let first = |date: NaiveDate| date.with_day(1).unwrap_or(date);
    let all: Vec<NaiveDate> = dates.flat_map(|date| days(first(date))).collect();
    let unrounded = made_at(&all, &Truth { rounded_to: 0.0, ..*truth }, seed, number);
    let months = unrounded.points.chunk_by(|a, b| a.date.month() == b.date.month());
    let mean = |days: &[PricePoint]| days.iter().map(|day| day.price).sum::<f64>() / days.len() as f64;
    let points = history.points.iter().zip(months);
    let points = points.map(|(point, days)| PricePoint { date: point.date, price: mean(days) }).collect();
    PriceHistory { points, ..history.clone() }
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
