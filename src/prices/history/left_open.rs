//! What a history leaves open of its fit, by a parametric bootstrap: histories drawn from the fit on the
//! same days, and fitted again.
//!
//! Start at [`fitted_again`] and [`LeftOpen::of`].

use super::PriceHistory;
use super::fit::{Asked, Fit, fit};
use super::made::{Truth, made_like};
use crate::prices::moves::probability;
use crate::weather::statistics::percentile;

/// Where parameters lie with 90 %.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeftOpen {
    /// The half-life of the level, years.
    pub half_life_years: (f64, f64),
    /// Where the level rests, as logarithm.
    pub mean: (f64, f64),
    /// Its standard deviation there.
    pub spread: (f64, f64),
    /// The mean size of spikes, as logarithm; nothing without two of them.
    pub spike_size: Option<(f64, f64)>,
    /// The probability of a spike in a winter: Jeffreys' interval of their count, no bootstrap; nothing
    /// where monthly means hide them.
    pub spike_probability: Option<(f64, f64)>,
}

/// The fits of `count` histories drawn from a fit of `history`.
pub fn fitted_again(fitted: &Fit, history: &PriceHistory, asked: Asked, count: u64, seed: u64) -> Vec<Fit> {
    let truth = Truth::of(fitted, asked, history.rounded_to);
    (0..count).filter_map(|draw| fit(&made_like(history, &truth, seed, draw), asked).ok()).collect()
}

impl LeftOpen {
    /// Of a fit and the fits of histories drawn from it; nothing where there are none.
    pub fn of(fitted: &Fit, again: &[Fit]) -> Option<Self> {
        let between = |of: &dyn Fn(&Fit) -> Option<f64>| {
            let values: Vec<f64> = again.iter().filter_map(of).collect();
            percentile(&values, 0.05).zip(percentile(&values, 0.95))
        };
        let found = fitted.spikes.as_ref().map(Vec::len);
        let sizes = found.filter(|count| *count > 1);
        let probable = |count: usize| {
            let share = |share| probability((count as f64, fitted.watched as f64), share);
            (share(0.05), share(0.95))
        };
        Some(Self {
            half_life_years: between(&|fit| Some(fit.level.half_life_years))?,
            mean: between(&|fit| Some(fit.level.mean))?,
            spread: between(&|fit| Some(fit.level.spread))?,
            spike_size: sizes.and_then(|_| between(&Fit::spike_size)),
            spike_probability: found.map(probable),
        })
    }
}
