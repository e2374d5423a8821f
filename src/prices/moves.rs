//! How a price departs by chance from the price year of the job: a slow level that comes back, and at
//! most one spike a winter.
//!
//! `ln P = season + level + spike`. Knows no calendar and no fuel. Start at [`Moves`].

use crate::chance::Chance;
use statrs::distribution::{Beta, ContinuousCDF};

/// Odds of a spike grow by this factor, as logarithm, for each standard deviation that a winter is colder
/// than the mean of all. A judgement.
const COLD_ON_ODDS: f64 = 1.0;
/// Days between two steps of the level; in between it stands.
const STEP_DAYS: f64 = 7.0;
const DAYS_A_YEAR: f64 = 365.25;
/// So many values the probability of a spike may have, each as likely.
const QUANTILES: usize = 400;

/// What is known, or believed, of how a price moves. Its parameters are drawn too, within their bounds.
#[derive(Debug, Clone, PartialEq)]
pub struct Moves {
    /// How far the level moves.
    pub level: LevelSize,
    /// Within these years half of a departure is gone; every ratio between them equally likely.
    pub half_life_years: (f64, f64),
    /// Winters with a spike among so many.
    pub spikes: (f64, f64),
    /// Mean of the logarithm of a spike's factor, which is exponentially distributed.
    pub spike_size: f64,
    /// Days in which half of a spike is gone.
    pub spike_half_life_days: f64,
}

/// How far a level moves, as standard deviation of its logarithm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum LevelSize {
    /// Where it has come to rest, whatever the half-life is.
    AtRest(f64),
    /// Of its change in a year, were there nothing to bring it back: what few winters of prices do know.
    InAYear(f64),
}

impl LevelSize {
    /// The standard deviation at rest, half of a departure being gone after `half_life_years`.
    pub fn at_rest(self, half_life_years: f64) -> f64 {
        match self {
            Self::AtRest(spread) => spread,
            Self::InAYear(volatility) => {
                volatility * (half_life_years / (2.0 * std::f64::consts::LN_2)).sqrt()
            }
        }
    }
}

/// One winter as a price sees it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WinterCold {
    /// Standard deviations colder than the mean of all.
    pub colder: f64,
    /// The day of the run on which a spike would begin: the end of its coldest ten days.
    pub spike_day: usize,
}

impl Moves {
    /// From what is said of them. The probability of a spike in a winter is Jeffreys' posterior of the
    /// count: Beta(k + ½, n − k + ½).
    pub fn new(
        level: LevelSize,
        half_life_years: (f64, f64),
        spikes: (f64, f64),
        spike_size: f64,
        spike_half_life_days: f64,
    ) -> Self {
        Self { level, half_life_years, spikes, spike_size, spike_half_life_days }
    }

    /// Between these the probability of a spike in a winter lies with 90 %.
    pub fn spike_interval(&self) -> (f64, f64) {
        (probability(self.spikes, 0.05), probability(self.spikes, 0.95))
    }

    /// The factor on the price on each of so many days from 1 July on, the level beginning at 1.
    pub fn path(&self, days: usize, winter: WinterCold, chance: &mut Chance) -> Vec<f64> {
        let (low, high) = self.half_life_years;
        let half_life = low * (high / low).powf(chance.share());
        let place = (chance.share() * QUANTILES as f64) as usize;
        let probability = probability(self.spikes, (place as f64 + 0.5) / QUANTILES as f64);
        let odds = probability / (1.0 - probability) * (COLD_ON_ODDS * winter.colder).exp();
        let comes = chance.share() < odds / (1.0 + odds);
        let size = -self.spike_size * chance.share().ln();
        let spike = |day: usize| {
            let since = day.checked_sub(winter.spike_day).filter(|_| comes)?;
            Some(size * 0.5_f64.powf(since as f64 / self.spike_half_life_days))
        };
        let step = LevelStep::new(half_life, STEP_DAYS / DAYS_A_YEAR, self.level.at_rest(half_life));
        let mut level = 0.0;
        let mut factors = Vec::with_capacity(days);
        for day in 0..days {
            if day > 0 && day.is_multiple_of(STEP_DAYS as usize) {
                level = step.next(level, chance.normal());
            }
            factors.push((level + spike(day).unwrap_or_default()).exp());
        }
        factors
    }
}

/// One exact step of the level over some time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LevelStep {
    kept: f64,
    deviation: f64,
}

impl LevelStep {
    /// Over `years`; half of a departure is gone after `half_life` years, and where it has come to rest
    /// the level's standard deviation is `spread`.
    ///
    /// `ℓ' = μ + (ℓ − μ)·e^(−κΔ)`, with the variance `σ²(1 − e^(−2κΔ))/2κ`; here μ is 0 and
    /// `spread² = σ²/2κ`.
    pub fn new(half_life: f64, years: f64, spread: f64) -> Self {
        let kept = 0.5_f64.powf(years / half_life);
        Self { kept, deviation: spread * (1.0 - kept * kept).sqrt() }
    }

    /// The level after the step; `normal` is of the standard normal distribution.
    pub fn next(self, level: f64, normal: f64) -> f64 {
        self.kept * level + self.deviation * normal
    }

    /// The standard deviation of what chance adds in the step.
    pub fn deviation(self) -> f64 {
        self.deviation
    }

    /// The share of a departure that is left after the step.
    pub fn kept(self) -> f64 {
        self.kept
    }
}

/// The probability of a spike in a winter at a share of its distribution, of `(with, among)` winters.
pub fn probability((with, among): (f64, f64), share: f64) -> f64 {
    let beta = Beta::new(with + 0.5, (among - with).max(0.0) + 0.5);
    beta.map_or(0.0, |beta| beta.inverse_cdf(share))
}

#[cfg(test)]
mod tests {
    use super::*;

    const NEVER: WinterCold = WinterCold { colder: 0.0, spike_day: usize::MAX };

    #[test]
    fn the_probability_of_a_spike_is_jeffreys_of_the_count() {
        // Closed form, to the digits that it is stated with: 0.7 to 14.6 % and 2.3 to 20.4 %.
        for (with, low, high) in [(1.0, 0.007, 0.146), (2.0, 0.023, 0.204)] {
            let moves = Moves::new(LevelSize::AtRest(0.2), (1.0, 1.0), (with, 25.0), 0.5, 28.0);
            let (found_low, found_high) = moves.spike_interval();
            assert!((found_low - low).abs() < 5e-4 && (found_high - high).abs() < 5e-4);
        }
    }

    /// Closed forms of a mean-reverting logarithm: median 2.40, half-life 1 year, resting deviation 0.22,
    /// from 3.60.
    #[test]
    fn the_level_comes_back_as_the_closed_form_says() {
        let start = (3.60_f64 / 2.40).ln();
        let medians = [(0.25, 3.37509), (0.5, 3.19688), (1.0, 2.93939), (2.0, 2.65604)];
        for (years, median) in medians {
            let step = LevelStep::new(1.0, years, 0.22);
            assert!((2.40 * step.next(start, 0.0).exp() - median).abs() < 5e-6, "{years}");
            // Many small steps are one large one.
            let small = LevelStep::new(1.0, years / 50.0, 0.22);
            let level = (0..50).fold(start, |level, _| small.next(level, 0.0));
            assert!((level - step.next(start, 0.0)).abs() < 1e-12);
        }
        let step = LevelStep::new(1.0, 1.0, 0.22);
        let mean = 2.40 * (step.next(start, 0.0) + step.deviation().powi(2) / 2.0).exp();
        assert!((mean - 2.99322).abs() < 5e-6, "{mean}");
        let rest = statrs::distribution::Normal::new(0.0, 0.22).unwrap();
        assert!((1.0 - rest.cdf(1.5_f64.ln()) - 0.0326628).abs() < 5e-8);
    }

    /// Mean and variance of 4,000 levels after 52 steps of a week.
    fn after_a_year(level: LevelSize, half_life: f64) -> (f64, f64) {
        let moves = Moves::new(level, (half_life, half_life), (0.0, 25.0), 0.5, 28.0);
        let ends: Vec<f64> = (0..4000)
            .map(|draw| moves.path(366, NEVER, &mut Chance::keyed(5, draw, 0, 0)).last().unwrap().ln())
            .collect();
        let mean = ends.iter().sum::<f64>() / 4000.0;
        (mean, ends.iter().map(|end| (end - mean).powi(2)).sum::<f64>() / 3999.0)
    }

    /// What a level does in a year is the same thing for every half-life; where it rests is not.
    #[test]
    fn a_volatility_makes_the_spread_go_with_the_half_life() {
        // Hand-worked: 0.2·√(0.5/(2 ln 2)) = 0.2·√0.360674 = 0.120112; for 4 years 0.2·√2.885390 = 0.339729.
        let level = LevelSize::InAYear(0.2);
        assert!((level.at_rest(0.5) - 0.120112).abs() < 5e-7 && (level.at_rest(4.0) - 0.339729).abs() < 5e-7);
        // 0.120112²·(1 − 2^(−2·364/365.25/0.5)) = 0.014427·0.936904 = 0.013517, and
        // 0.339729²·(1 − 2^(−2·364/365.25/4)) = 0.115416·0.292054 = 0.033708. Five standard errors: 11 %.
        for (half_life, expected) in [(0.5, 0.013517), (4.0, 0.033708)] {
            let (_, variance) = after_a_year(level, half_life);
            assert!((variance / expected - 1.0).abs() < 0.11, "{half_life}: {variance}");
        }
    }

    #[test]
    fn drawn_levels_have_the_spread_of_the_closed_form() {
        let (mean, variance) = after_a_year(LevelSize::AtRest(0.22), 1.0);
        // 52 steps of a week: 0.22²·(1 − 4^(−364/365.25)).
        let expected = 0.22_f64.powi(2) * (1.0 - 0.25_f64.powf(364.0 / 365.25));
        // Five standard errors: √(variance/4000) = 0.0030 of the mean, √(2/4000) = 2.2 % of the variance.
        assert!(mean.abs() < 0.015 && (variance / expected - 1.0).abs() < 0.11, "{mean} {variance}");
    }

    #[test]
    fn a_cold_winter_has_a_spike_more_often_and_it_halves_in_its_time() {
        let moves = Moves::new(LevelSize::AtRest(0.0), (1.0, 1.0), (5.0, 25.0), 0.5, 28.0);
        let count = |colder| {
            let winter = WinterCold { colder, spike_day: 200 };
            let paths = (0..2000).map(|draw| moves.path(300, winter, &mut Chance::keyed(1, draw, 0, 0)));
            paths
                .filter(|path| {
                    assert!(path[..200].iter().all(|factor| *factor == 1.0));
                    assert!((path[228].ln() - path[200].ln() / 2.0).abs() < 1e-12);
                    path[200] > 1.0
                })
                .count()
        };
        let (mild, ordinary, cold) = (count(-1.0), count(0.0), count(1.0));
        // Jeffreys' mean is 5.5/26 = 0.2115; five standard errors are 0.046.
        assert!((ordinary as f64 / 2000.0 - 0.2115).abs() < 0.046, "{ordinary}");
        assert!(mild < ordinary && ordinary < cold, "{mild} {ordinary} {cold}");
    }
}
