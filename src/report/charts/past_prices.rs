//! What the chart of a price history shows, as plain values, and whether they can be shown.
//!
//! Must not know how it is drawn, nor what a fuel is. Start at [`HistoryChart`].

use super::ChartError;

/// The dearest price that can be shown; also keeps infinity out.
const MOST: f64 = 1e9;

/// A price history, its season, and the winter that could follow.
#[derive(Debug, Clone, PartialEq)]
pub struct HistoryChart {
    /// What the chart shows, as a headline.
    pub title: String,
    /// A sentence more.
    pub subtitle: String,
    /// The unit of every price: `$/gal`.
    pub unit: String,
    /// Winters of at least one price each: time as year with fraction, and price, in order.
    pub winters: Vec<Vec<(f64, f64)>>,
    /// Where the price comes to rest, and where 90 % of it lies then.
    pub rest: PriceRange,
    /// Spikes that were found: time, price.
    pub spikes: Vec<(f64, f64)>,
    /// Each month of the season, at rest.
    pub season: Vec<(String, PriceRange)>,
    /// The winter that could follow, week by week, at least two: 10 %, 50 % and 90 % lie below.
    pub ahead: Vec<PriceRange>,
    /// The week in which each month begins, rising, and its name.
    pub ahead_months: Vec<(usize, String)>,
    /// A remark under the chart; may be empty.
    pub foot: String,
}

/// A price between two others.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PriceRange {
    /// The lower end.
    pub low: f64,
    /// The middle.
    pub middle: f64,
    /// The upper end.
    pub high: f64,
}

impl PriceRange {
    fn prices(&self) -> [f64; 3] {
        [self.low, self.middle, self.high]
    }
}

impl HistoryChart {
    /// Every price of the history.
    pub(super) fn past(&self) -> impl Iterator<Item = (f64, f64)> + '_ {
        self.winters.iter().flatten().copied()
    }

    /// Every value finite and in its place.
    pub(super) fn checked(&self) -> Result<(), ChartError> {
        if self.past().nth(1).is_none() || self.ahead.len() < 2 {
            return Err(ChartError::Empty);
        }
        let ranges = self.ahead.iter().chain(self.season.iter().map(|(_, range)| range)).chain([&self.rest]);
        let prices = self.past().chain(self.spikes.iter().copied()).map(|(_, price)| price);
        let all = prices.chain(ranges.flat_map(PriceRange::prices));
        if let Some(bad) = all.into_iter().find(|price| !(0.0..=MOST).contains(price)) {
            return Err(ChartError::BadValue(format!("a price of {bad}")));
        }
        let times: Vec<f64> = self.past().map(|(time, _)| time).collect();
        let rising = times.windows(2).all(|pair| matches!(pair, [a, b] if a < b));
        let months = self.ahead_months.iter().all(|(week, _)| *week < self.ahead.len());
        if rising && months { Ok(()) } else { Err(ChartError::BadValue("times out of order".into())) }
    }
}
