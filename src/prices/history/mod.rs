//! What a fuel did cost in past winters: read, and fitted to the model of [`super::moves`].
//!
//! Such histories have no summers: prices are collected from October to March. Start at
//! [`PriceHistory`] and [`fit::fit`].

pub mod slips;
pub mod reading;
pub mod spikes;
pub mod averages;
pub mod regress;
pub mod fit;
pub mod made;
pub mod left_open;
pub mod ahead;
pub mod examined;

use chrono::{Datelike, NaiveDate};

/// The months of a history's winters, in order.
pub const MONTHS: [u32; 6] = [10, 11, 12, 1, 2, 3];

/// Prices of one fuel at dates in order.
#[derive(Debug, Clone, PartialEq)]
pub struct PriceHistory {
    /// The currency's sign and the selling unit, as in `$/gal`.
    pub unit: String,
    /// Dates and prices, in order.
    pub points: Vec<PricePoint>,
    /// The step to which prices are rounded, in the same unit.
    pub rounded_to: f64,
    /// Whether each is the mean of its month instead of the price of its day.
    pub monthly_means: bool,
}

/// One price.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PricePoint {
    /// The day.
    pub date: NaiveDate,
    /// The price, above 0.
    pub price: f64,
}

/// The logarithms of one winter's prices.
#[derive(Debug, Clone, PartialEq)]
pub struct LogWinter {
    /// The year in which it began.
    pub first_year: i32,
    /// Years since the first point of the history, the place of the month in [`MONTHS`], logarithm.
    pub points: Vec<LogPoint>,
}

/// The logarithm of a price.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LogPoint {
    /// Years since the first point of the history.
    pub years: f64,
    /// The place of its month in [`MONTHS`].
    pub month: usize,
    /// The logarithm of the price.
    pub log: f64,
}

impl PriceHistory {
    /// The same in money of its last day, where prices in general rose by that share a year.
    #[must_use]
    pub fn deflated(mut self, inflation: f64) -> Self {
        let last = self.points.last().map(|point| point.date);
        for point in &mut self.points {
            let years = last.map_or(0.0, |last| (last - point.date).num_days() as f64 / 365.25);
            point.price *= (1.0 + inflation).powf(years);
        }
        self
    }

    /// The winters, prices from April to September left out.
    pub fn winters(&self) -> Vec<LogWinter> {
        let first = self.points.first().map(|point| point.date);
        let mut winters: Vec<LogWinter> = Vec::new();
        for point in &self.points {
            let Some(month) = MONTHS.iter().position(|month| *month == point.date.month()) else { continue };
            let first_year = point.date.year() - i32::from(point.date.month() < 7);
            let years = first.map_or(0.0, |first| (point.date - first).num_days() as f64 / 365.25);
            let point = LogPoint { years, month, log: point.price.ln() };
            match winters.last_mut().filter(|winter| winter.first_year == first_year) {
                Some(winter) => winter.points.push(point),
                None => winters.push(LogWinter { first_year, points: vec![point] }),
            }
        }
        winters
    }

    /// The middle of all its prices.
    pub fn middle(&self) -> Option<f64> {
        let prices: Vec<f64> = self.points.iter().map(|point| point.price).collect();
        crate::weather::statistics::percentile(&prices, 0.5)
    }

    /// Prices outside October to March.
    pub fn summer_points(&self) -> usize {
        self.points.iter().filter(|point| !MONTHS.contains(&point.date.month())).count()
    }
}
