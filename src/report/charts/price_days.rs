//! What the chart of prices paid shows, as plain values, and whether they can be shown.
//!
//! Must not know how it is drawn, nor what a fuel is. Start at [`PriceDaysChart`].

use super::ChartError;

/// The dearest price that can be shown; also keeps infinity out.
const MOST: f64 = 1e9;

/// The price of each day and what was paid, a panel a store.
#[derive(Debug, Clone, PartialEq)]
pub struct PriceDaysChart {
    /// What the chart shows, as a headline.
    pub title: String,
    /// A sentence more.
    pub subtitle: String,
    /// The day on which each month begins, counted from the first, and its name; rising.
    pub months: Vec<(usize, String)>,
    /// At least one panel, all of as many days.
    pub panels: Vec<PriceDaysPanel>,
    /// A remark under the chart; may be empty.
    pub foot: String,
}

/// One store's fuel through the year.
#[derive(Debug, Clone, PartialEq)]
pub struct PriceDaysPanel {
    /// Whose store it is, and which.
    pub name: String,
    /// The unit of every price: `$/gal`.
    pub unit: String,
    /// What the market asks on each day, at least two; at least 0.
    pub market: Vec<f64>,
    /// Deliveries: the day on which one came, and the price that was paid.
    pub paid: Vec<(usize, f64)>,
    /// The mean of what was paid, where there was a delivery.
    pub mean_paid: Option<f64>,
}

impl PriceDaysChart {
    /// Every value finite and in its place.
    pub(super) fn checked(&self) -> Result<(), ChartError> {
        let Some(days) = self.panels.first().map(|panel| panel.market.len()).filter(|days| *days > 1) else {
            return Err(ChartError::Empty);
        };
        let rising = self.months.windows(2).all(|pair| matches!(pair, [a, b] if a.0 < b.0));
        if !rising || self.months.iter().any(|(day, _)| *day >= days) {
            return Err(ChartError::BadValue("a month outside the year".into()));
        }
        self.panels.iter().try_for_each(|panel| panel.checked(days))
    }
}

impl PriceDaysPanel {
    fn checked(&self, days: usize) -> Result<(), ChartError> {
        let paid = self.paid.iter().map(|(_, price)| price);
        if let Some(bad) =
            self.market.iter().chain(paid).chain(&self.mean_paid).find(|price| !(0.0..=MOST).contains(*price))
        {
            return Err(ChartError::BadValue(format!("a price of {bad} in “{}”", self.name)));
        }
        if self.market.len() != days || self.paid.iter().any(|(day, _)| *day >= days) {
            return Err(ChartError::BadValue(format!("the days of “{}”", self.name)));
        }
        Ok(())
    }
}
