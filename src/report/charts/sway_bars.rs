//! What the chart of a swaying difference shows, as plain values, and whether it can be shown.
//!
//! Must not know how it is drawn. Start at [`SwayChart`].

use super::ChartError;

/// Beyond this an amount's digits leave no room.
const MOST: f64 = 1e9;

/// How far each input moves a difference from where it is now.
#[derive(Debug, Clone, PartialEq)]
pub struct SwayChart {
    /// What the chart shows, as a headline.
    pub title: String,
    /// A sentence more.
    pub subtitle: String,
    /// The sign put before amounts: `$`.
    pub currency: String,
    /// The difference as it is.
    pub now: f64,
    /// One an input, in the order drawn; at least one.
    pub bars: Vec<SwayBar>,
    /// What a difference below 0 means, and one above.
    pub sides: [String; 2],
    /// A remark under the chart; may be empty.
    pub foot: String,
}

/// One input.
#[derive(Debug, Clone, PartialEq)]
pub struct SwayBar {
    /// Its name.
    pub name: String,
    /// Its low value in words, and the difference with it.
    pub low: (String, f64),
    /// The same of its high value.
    pub high: (String, f64),
}

impl SwayChart {
    /// At least one bar, amounts in range.
    pub(super) fn checked(&self) -> Result<(), ChartError> {
        if self.bars.is_empty() {
            return Err(ChartError::Empty);
        }
        let ends = self.bars.iter().flat_map(|bar| [bar.low.1, bar.high.1]);
        match ends.chain([self.now]).find(|amount| !(-MOST..=MOST).contains(amount)) {
            Some(amount) => Err(ChartError::BadValue(amount.to_string())),
            None => Ok(()),
        }
    }
}
