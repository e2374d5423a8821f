//! The slow level of a price: how fast it comes back, and to where, by its exact steps over irregular
//! times.
//!
//! Start at [`level`].

use crate::prices::moves::LevelStep;

/// What a level does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LevelFit {
    /// Years in which half of a departure is gone.
    pub half_life_years: f64,
    /// Where it comes to rest, as logarithm.
    pub mean: f64,
    /// Standard deviation at rest.
    pub spread: f64,
}

/// Half-lives that are tried, evenly apart as logarithm.
const TRIED: usize = 21;

/// The likeliest half-life within bounds (years), with the mean and spread that go with it; nothing for
/// fewer than three points. Points are times (years, rising) and logarithms.
pub fn level(points: &[(f64, f64)], (low, high): (f64, f64)) -> Option<LevelFit> {
    let ratio = (high / low).powf(1.0 / (TRIED - 1) as f64);
    let tried = (0..TRIED).filter_map(|i| at(points, low * ratio.powi(i as i32)));
    tried.max_by(|a, b| a.1.total_cmp(&b.1)).map(|(fit, _)| fit)
}

/// Mean and spread at a half-life, with the profile's logarithm of likelihood.
fn at(points: &[(f64, f64)], half_life_years: f64) -> Option<(LevelFit, f64)> {
    let first = points.first()?;
    // In units of the spread: the first point stands where the level rests, each other one step on.
    let (mut weight, mut weighted, mut squares, mut log_deviations) = (1.0, first.1, first.1 * first.1, 0.0);
    for (before, after) in points.iter().zip(points.iter().skip(1)) {
        let step = LevelStep::new(half_life_years, after.0 - before.0, 1.0);
        let deviation = step.deviation();
        let own = (1.0 - step.kept()) / deviation;
        let value = (after.1 - step.kept() * before.1) / deviation;
        weight += own * own;
        weighted += own * value;
        squares += value * value;
        log_deviations += deviation.ln();
    }
    let count = points.len() as f64;
    if count < 3.0 {
        return None;
    }
    let mean = weighted / weight;
    let variance = (squares - mean * weighted).max(f64::MIN_POSITIVE) / (count - 1.0);
    let fit = LevelFit { half_life_years, mean, spread: variance.sqrt() };
    // Restricted: the mean is estimated too.
    let likelihood = -0.5 * (count - 1.0) * variance.ln() - log_deviations - 0.5 * weight.ln();
    Some((fit, likelihood))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chance::Chance;

    #[test]
    fn a_long_drawn_level_is_found_again() {
        let (step, mut chance) = (LevelStep::new(1.0, 0.1, 0.3), Chance::keyed(1, 0, 0, 0));
        let mut level_now = 0.0;
        let points: Vec<(f64, f64)> = (0..20_000)
            .map(|i| {
                level_now = step.next(level_now, chance.normal());
                (0.1 * f64::from(i), 0.9 + level_now)
            })
            .collect();
        let fit = level(&points, (0.5, 2.0)).unwrap();
        // The nearest tried is within 3.5 %; 2,000 years tell the half-life to 5 %, spread and mean better.
        assert!((fit.half_life_years - 1.0).abs() < 0.15, "{fit:?}");
        assert!((fit.mean - 0.9).abs() < 0.05 && (fit.spread / 0.3 - 1.0).abs() < 0.06, "{fit:?}");
        assert_eq!(level(&points[..2], (0.5, 2.0)), None);
    }
}
