//! Logarithms of prices on the effects of months and spikes, where what is left is a level that comes
//! back slowly: generalised least squares, its half-life by restricted likelihood.
//!
//! Knows no dates and no money. Start at [`regress`].

use super::averages::covariance;
use crate::prices::moves::LevelStep;
use nalgebra::{DMatrix, DVector};

/// Half-lives that are tried, evenly apart as logarithm.
const TRIED: usize = 21;

/// Times between prices that differ by less are one, years.
const ALIKE_YEARS: f64 = 1e-9;

/// One observation.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Years since the first; rising.
    pub years: f64,
    /// Years over which it is a mean; 0 for the price of a day.
    pub over_years: f64,
    /// The logarithm of the price.
    pub log: f64,
    /// What each effect adds to it, for one of it.
    pub effects: Vec<f64>,
}

/// What is found.
#[derive(Debug, Clone, PartialEq)]
pub struct Regressed {
    /// Years in which half of a departure of the level is gone.
    pub half_life_years: f64,
    /// Standard deviation of the level at rest.
    pub spread: f64,
    /// Observations less effects.
    pub freedom: f64,
    /// What rounding of each price by itself adds to the square of `spread`, for a variance of 1.
    pub of_rounding: f64,
    /// The effects.
    effects: DVector<f64>,
    /// Their covariance, in squares of `spread`.
    covariance: DMatrix<f64>,
}

impl Regressed {
    /// An effect.
    pub fn effect(&self, place: usize) -> f64 {
        self.effects.get(place).copied().unwrap_or_default()
    }

    /// A weighted sum of effects and its standard error.
    pub fn weighted(&self, weights: &[f64]) -> (f64, f64) {
        let weights =
            DVector::from_fn(self.effects.len(), |i, _| weights.get(i).copied().unwrap_or_default());
        let variance = (&self.covariance * &weights).dot(&weights).max(0.0);
        (self.effects.dot(&weights), self.spread * variance.sqrt())
    }
}

/// The likeliest half-life within bounds (years), with what goes with it; nothing where the rows cannot
/// tell the effects apart.
pub fn regress(rows: &[Row], (low, high): (f64, f64)) -> Option<Regressed> {
    let ratio = (high / low).powf(1.0 / (TRIED - 1) as f64);
    let tried = (0..TRIED).filter_map(|i| at(rows, low * ratio.powi(i as i32)));
    tried.max_by(|a, b| a.1.total_cmp(&b.1)).map(|(found, _)| found)
}

/// At one half-life (years).
pub fn regress_at(rows: &[Row], half_life_years: f64) -> Option<Regressed> {
    at(rows, half_life_years).map(|(found, _)| found)
}

/// Rows made independent, of deviation 1 in units of the spread.
struct White {
    effects: DMatrix<f64>,
    logs: DVector<f64>,
    /// Of all that the rows were divided by.
    log_deviations: f64,
    of_rounding: f64,
}

/// At one half-life, with the logarithm of the restricted likelihood.
fn at(rows: &[Row], half_life_years: f64) -> Option<(Regressed, f64)> {
    let width = rows.first()?.effects.len();
    let freedom = rows.len().checked_sub(width).filter(|left| *left > 0)? as f64;
    let white = match rows.iter().any(|row| row.over_years > 0.0) {
        true => of_means(rows, half_life_years)?,
        false => of_days(rows, half_life_years),
    };
    let normal = white.effects.tr_mul(&white.effects).cholesky()?;
    let effects = normal.solve(&white.effects.tr_mul(&white.logs));
    let left = &white.logs - &white.effects * &effects;
    let variance = (left.norm_squared() / freedom).max(f64::MIN_POSITIVE);
    let log_determinant: f64 = 2.0 * normal.l_dirty().diagonal().map(f64::ln).sum();
    let likelihood = -0.5 * freedom * variance.ln() - white.log_deviations - 0.5 * log_determinant;
    let spread = variance.sqrt();
    let covariance = normal.inverse();
    let of_rounding = white.of_rounding;
    Some((Regressed { half_life_years, spread, freedom, of_rounding, effects, covariance }, likelihood))
}

/// Each day's price less what the level kept of the one before: the first stands where the level rests.
fn of_days(rows: &[Row], half_life_years: f64) -> White {
    let width = rows.first().map_or(0, |row| row.effects.len());
    let mut white = White {
        effects: DMatrix::zeros(rows.len(), width),
        logs: DVector::zeros(rows.len()),
        log_deviations: 0.0,
        of_rounding: 0.0,
    };
    let mut last: Option<(f64, LevelStep)> = None;
    for (i, row) in rows.iter().enumerate() {
        let before = i.checked_sub(1).and_then(|i| rows.get(i));
        let (kept, deviation) = match before {
            None => (0.0, 1.0),
            Some(before) => {
                let years = row.years - before.years;
                let step = match last {
                    Some((same, step)) if (same - years).abs() < ALIKE_YEARS => step,
                    _ => LevelStep::new(half_life_years, years, 1.0),
                };
                last = Some((years, step));
                (step.kept(), step.deviation())
            }
        };
        let of_before = |value: fn(&Row, usize) -> f64, place| before.map_or(0.0, |b| kept * value(b, place));
        white.logs[i] = (row.log - of_before(|row, _| row.log, 0)) / deviation;
        for (j, own) in row.effects.iter().enumerate() {
            let earlier = of_before(|row, j| row.effects.get(j).copied().unwrap_or_default(), j);
            white.effects[(i, j)] = (own - earlier) / deviation;
        }
        white.log_deviations += deviation.ln();
        white.of_rounding += (1.0 + kept * kept) / (deviation * deviation) / rows.len() as f64;
    }
    white
}

/// Means over spans of time: by the covariance of all with all.
fn of_means(rows: &[Row], half_life_years: f64) -> Option<White> {
    let width = rows.first()?.effects.len();
    let spans: Vec<(f64, f64)> = rows.iter().map(|row| (row.years, row.over_years)).collect();
    let of = |i: usize, j: usize| match (spans.get(i), spans.get(j)) {
        (Some(one), Some(other)) => covariance(*one, *other, half_life_years),
        _ => 0.0,
    };
    let factor = DMatrix::from_fn(rows.len(), rows.len(), of).cholesky()?.unpack();
    let value = |i: usize, j: usize| rows.get(i).and_then(|row| row.effects.get(j)).copied();
    let effects = DMatrix::from_fn(rows.len(), width, |i, j| value(i, j).unwrap_or_default());
    let logs = DVector::from_fn(rows.len(), |i, _| rows.get(i).map_or(0.0, |row| row.log));
    Some(White {
        effects: factor.solve_lower_triangular(&effects)?,
        logs: factor.solve_lower_triangular(&logs)?,
        log_deviations: factor.diagonal().map(f64::ln).sum(),
        // A mean of a month's days is rounded so little beside what a month moves that it is left out.
        of_rounding: 0.0,
    })
}
