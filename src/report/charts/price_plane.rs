//! What the chart of two prices shows, as plain values, and whether it can be shown.
//!
//! Must not know how it is drawn. Start at [`PriceChart`].

use super::ChartError;

/// Beyond this an amount's digits leave no room.
const MOST: f64 = 1e9;
/// More points a side would be thinner than a pixel.
const MOST_POINTS: usize = 400;

/// Which of two options costs less, over a field of two prices.
#[derive(Debug, Clone, PartialEq)]
pub struct PriceChart {
    /// What the chart shows, as a headline.
    pub title: String,
    /// A sentence more.
    pub subtitle: String,
    /// The sign put before amounts: `$`.
    pub currency: String,
    /// The two options' names.
    pub options: [String; 2],
    /// Their places among all options, whose colours they wear.
    pub places: [usize; 2],
    /// The price across.
    pub across: PriceAxis,
    /// The price up.
    pub up: PriceAxis,
    /// How much more the first option costs a year: a row for each price up, a column for each across.
    pub costs_more: Vec<Vec<f64>>,
    /// Prices with a name; the first is drawn in ink.
    pub marks: Vec<PriceMark>,
    /// A remark under the chart; may be empty.
    pub foot: String,
}

/// Prices along one side.
#[derive(Debug, Clone, PartialEq)]
pub struct PriceAxis {
    /// What they are of, with the unit: `propane, $ a gallon`.
    pub words: String,
    /// The least and the greatest; the columns or rows stand evenly between them.
    pub ends: (f64, f64),
}

/// Two prices with a name.
#[derive(Debug, Clone, PartialEq)]
pub struct PriceMark {
    /// The name.
    pub name: String,
    /// The price across and the price up.
    pub at: (f64, f64),
}

impl PriceChart {
    /// At least two columns and rows, every row as long, amounts and prices in range, marks within.
    pub(super) fn checked(&self) -> Result<(), ChartError> {
        let columns = self.costs_more.first().map_or(0, Vec::len);
        if columns < 2 || self.costs_more.len() < 2 {
            return Err(ChartError::Empty);
        }
        let bad = |what: &str| Err(ChartError::BadValue(what.to_owned()));
        let uneven = self.costs_more.iter().any(|row| row.len() != columns);
        if uneven || columns.max(self.costs_more.len()) > MOST_POINTS {
            return bad("the field of prices");
        }
        if self.costs_more.iter().flatten().any(|amount| !(-MOST..=MOST).contains(amount)) {
            return bad("an amount of the field");
        }
        for PriceAxis { words, ends: (low, high) } in [&self.across, &self.up] {
            if !(0.0..=MOST).contains(low) || !(0.0..=MOST).contains(high) || high <= low {
                return bad(words);
            }
        }
        let within = |at: f64, (low, high): (f64, f64)| (low..=high).contains(&at);
        let outside = |m: &&PriceMark| !within(m.at.0, self.across.ends) || !within(m.at.1, self.up.ends);
        match self.marks.iter().find(outside) {
            Some(mark) => bad(&mark.name),
            None => Ok(()),
        }
    }
}
