//! What the chart of what has been spent shows of one option, as plain values, and whether it can be shown.
//!
//! Must not know how it is drawn. Start at [`SpentLine`].

use super::ChartError;

/// Beyond this an amount's digits leave no room.
const MOST: f64 = 1e9;
/// More years would leave no room between ticks.
const MOST_YEARS: usize = 100;

/// What has been spent on one option.
#[derive(Debug, Clone, PartialEq)]
pub struct SpentLine {
    /// The option's name.
    pub name: String,
    /// Its place among the options, which gives its colour.
    pub option: usize,
    /// Spent by today, and by the end of each year; two points or more.
    pub spent: Vec<f64>,
    /// Whether the others are set against it; it is drawn in ink.
    pub is_base: bool,
    /// Year and amount at which it meets the base's line.
    pub crossings: Vec<(f64, f64)>,
}

impl SpentLine {
    /// As many years as the others have, amounts in range, crossings within the years.
    pub(super) fn checked(&self, years: usize) -> Result<(), ChartError> {
        let bad = |what: String| Err(ChartError::BadValue(format!("{what} for “{}”", self.name)));
        if self.spent.len() != years + 1 || years > MOST_YEARS {
            return bad(format!("{} points of {years} years", self.spent.len()));
        }
        let met = self.crossings.iter().map(|(_, amount)| amount);
        if let Some(amount) = self.spent.iter().chain(met).find(|x| !(-MOST..=MOST).contains(*x)) {
            return bad(amount.to_string());
        }
        let within = |year: f64| (0.0..=years as f64).contains(&year);
        match self.crossings.iter().find(|(year, _)| !within(*year)) {
            Some((year, _)) => bad(format!("year {year}")),
            None => Ok(()),
        }
    }
}
