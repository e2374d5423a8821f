//! A history with all that is made of it: the fit, what it leaves open, the winter that could follow.
//!
//! Start at [`examine`].

use super::PriceHistory;
use super::ahead::{WintersAhead, winters_ahead};
use super::fit::{Asked, Fit, NoFit, fit};
use super::left_open::{LeftOpen, fitted_again};
use crate::weather::statistics::percentile;
use chrono::Datelike;

/// Histories that are drawn from a fit to see what it leaves open.
const AGAIN: u64 = 200;
/// Winters that are drawn.
pub const WINTERS: u64 = 2000;

/// A history and what is made of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Examined {
    /// The history, in money of its last day where prices in general are said to have risen.
    pub history: PriceHistory,
    /// What no history tells.
    pub asked: Asked,
    /// The fit.
    pub fit: Fit,
    /// What the data leave open of it.
    pub open: LeftOpen,
    /// The winter that could follow.
    pub ahead: WintersAhead,
}

/// Where 10, 50 and 90 % of drawn winters lie below.
pub type Deciles = [f64; 3];

/// Fits a history and draws what could follow it.
///
/// # Errors
/// Why it is not fitted.
pub fn examine(history: PriceHistory, asked: Asked, seed: u64) -> Result<Examined, NoFit> {
    let fit = fit(&history, asked)?;
    let again = fitted_again(&fit, &history, asked, AGAIN, seed);
    let open = LeftOpen::of(&fit, &again).ok_or(NoFit::NothingMoves)?;
    let ahead = winters_ahead(&history, &fit, &again, asked, (WINTERS, seed)).ok_or(NoFit::NothingMoves)?;
    Ok(Examined { history, asked, fit, open, ahead })
}

impl Examined {
    /// The price where it rests, on the mean of the winter's months.
    pub fn rest(&self) -> f64 {
        self.fit.level.mean.exp()
    }

    /// Of each week of the winter that could follow.
    pub fn weeks_ahead(&self) -> Vec<Deciles> {
        let week = |week: usize| deciles(self.ahead.paths.iter().filter_map(|path| path.get(week).copied()));
        (0..self.ahead.dates.len()).filter_map(week).collect()
    }

    /// Of the mean price of each month of the winter that could follow, October first.
    pub fn months_ahead(&self) -> Vec<Deciles> {
        let of_month = |month: u32, path: &Vec<f64>| {
            let weeks = self.ahead.dates.iter().zip(path).filter(|(date, _)| date.month() == month);
            let prices: Vec<f64> = weeks.map(|(_, price)| *price).collect();
            (!prices.is_empty()).then(|| prices.iter().sum::<f64>() / prices.len() as f64)
        };
        let paths = &self.ahead.paths;
        let month = |month: &u32| deciles(paths.iter().filter_map(|path| of_month(*month, path)));
        super::MONTHS.iter().filter_map(month).collect()
    }

    /// Of the dearest week of the winter that could follow.
    pub fn dearest_week_ahead(&self) -> Option<Deciles> {
        let dearest = |path: &Vec<f64>| path.iter().copied().reduce(f64::max);
        deciles(self.ahead.paths.iter().filter_map(dearest))
    }
}

fn deciles(values: impl Iterator<Item = f64>) -> Option<Deciles> {
    let values: Vec<f64> = values.collect();
    let at = |share| percentile(&values, share);
    Some([at(0.1)?, at(0.5)?, at(0.9)?])
}
