//! Many drawn outcomes into percentiles and probabilities.
//!
//! Start at [`Spread`] and [`Probability`].

use crate::weather::statistics::percentile;

/// Where drawn amounts lie.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spread {
    /// One in ten is less.
    pub p10: f64,
    /// Half are less.
    pub p50: f64,
    /// Nine in ten are less.
    pub p90: f64,
    /// The mean.
    pub mean: f64,
}

impl Spread {
    /// Of amounts in any order; 0 of none.
    pub fn of(amounts: impl Iterator<Item = f64>) -> Self {
        let amounts: Vec<f64> = amounts.collect();
        let at = |share| percentile(&amounts, share).unwrap_or_default();
        let mean = amounts.iter().sum::<f64>() / amounts.len().max(1) as f64;
        Self { p10: at(0.1), p50: at(0.5), p90: at(0.9), mean }
    }
}

/// How often something came among draws.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Probability {
    /// Draws in which it came.
    pub times: usize,
    /// Draws.
    pub of: usize,
}

impl Probability {
    /// Of draws that it came in or not.
    pub fn of(draws: impl Iterator<Item = bool>) -> Self {
        let count = |sum: Self, came: bool| Self { times: sum.times + usize::from(came), of: sum.of + 1 };
        draws.fold(Self { times: 0, of: 0 }, count)
    }

    /// The share.
    pub fn share(self) -> f64 {
        self.times as f64 / self.of.max(1) as f64
    }

    /// The standard error of the share; 0 where it came never or always, which says little.
    pub fn standard_error(self) -> f64 {
        (self.share() * (1.0 - self.share()) / self.of.max(1) as f64).sqrt()
    }

    /// Where it never came, one in so many at most, with 95 %: the rule of three.
    pub fn one_in_at_most(self) -> Option<f64> {
        (self.times == 0).then_some(self.of as f64 / 3.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_probability_knows_its_error() {
        // Hand-worked: 10 of 100, √(0.1·0.9/100) = 0.03; none of 10,000 is at most one in 3,333.
        let ten = Probability { times: 10, of: 100 };
        assert!((ten.share() - 0.1).abs() < 1e-15 && (ten.standard_error() - 0.03).abs() < 1e-15);
        let never = Probability::of((0..10_000).map(|_| false));
        assert!((never.one_in_at_most().unwrap() - 3333.333).abs() < 0.001);
        assert_eq!(ten.one_in_at_most(), None);
    }
}
