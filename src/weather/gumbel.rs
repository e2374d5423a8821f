//! Sorted greatest values, one a year, into a Gumbel distribution, by three methods.
//!
//! Must never know what the values are. Start at [`Gumbel`].

use std::f64::consts::{LN_2, PI};

/// Euler's constant.
const EULER: f64 = 0.577_215_664_901_532_9;
/// Halvings of a bracket: more than a 64-bit number can tell apart.
const HALVINGS: usize = 200;

/// The distribution of greatest values, `F(x) = exp(−exp(−(x − mode)/scale))`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Gumbel {
    /// Where it is densest.
    pub(super) mode: f64,
    /// Its width, 0 or more.
    pub(super) scale: f64,
}

impl Gumbel {
    /// The value that is not passed with probability `share`, 0 to 1, neither included.
    pub(super) fn value_at(self, share: f64) -> f64 {
        self.mode - self.scale * (-share.ln()).ln()
    }

    /// The value that is passed once in so many years, at least 2.
    pub(super) fn once_in(self, years: u32) -> f64 {
        self.value_at(1.0 - 1.0 / f64::from(years))
    }
}

fn mean(values: &[f64]) -> Option<f64> {
    (values.len() > 1).then(|| values.iter().sum::<f64>() / values.len() as f64)
}

/// By mean and standard deviation (with n − 1): `scale = s·√6/π`, `mode = mean − γ·scale`.
pub(super) fn by_moments(values: &[f64]) -> Option<Gumbel> {
    let mean = mean(values)?;
    let squares: f64 = values.iter().map(|x| (x - mean) * (x - mean)).sum();
    let scale = (squares / (values.len() - 1) as f64).sqrt() * 6.0_f64.sqrt() / PI;
    Some(Gumbel { mode: mean - EULER * scale, scale })
}

/// By L-moments; `sorted` from least to greatest.
///
/// Source: J. R. M. Hosking and J. R. Wallis, *Regional Frequency Analysis* (1997), appendix A.2:
/// `scale = λ₂/ln 2`, `mode = λ₁ − γ·scale`, unbiased sample L-moments (from memory).
pub(super) fn by_l_moments(sorted: &[f64]) -> Option<Gumbel> {
    let first = mean(sorted)?;
    let n = sorted.len() as f64;
    let weighted: f64 = sorted.iter().enumerate().map(|(i, x)| i as f64 / (n - 1.0) * x).sum();
    let scale = (2.0 * weighted / n - first) / LN_2;
    Some(Gumbel { mode: first - EULER * scale, scale })
}

/// By maximum likelihood: the scale solves
/// `scale = mean − Σ x·exp(−x/scale) / Σ exp(−x/scale)`, whose two sides cross once.
pub(super) fn by_likelihood(sorted: &[f64]) -> Option<Gumbel> {
    let mean = mean(sorted)?;
    let (least, greatest) = (*sorted.first()?, *sorted.last()?);
    // Measured from the least value, so that no power overflows.
    let weights = |scale: f64| {
        let each = sorted.iter().map(|x| ((least - x) / scale).exp());
        each.zip(sorted).fold((0.0, 0.0), |(sum, times), (w, x)| (sum + w, times + w * x))
    };
    let (mut low, mut high) = (0.0, greatest - least);
    for _ in 0..HALVINGS {
        let middle = low + (high - low) / 2.0;
        let (sum, times) = weights(middle);
        // No width at all: every weight is 0/0, and the mode is the one value there is.
        if middle <= 0.0 || !(times / sum).is_finite() {
            break;
        }
        if middle < mean - times / sum { low = middle } else { high = middle }
    }
    let scale = high;
    let (sum, _) = weights(scale);
    let mode = if scale > 0.0 { least - scale * (sum / sorted.len() as f64).ln() } else { mean };
    Some(Gumbel { mode, scale })
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    /// Published: the frequency factors of the handbook's n-year formula.
    #[test]
    fn moments_give_the_handbooks_factors() {
        // Mean 0 and standard deviation 1 by construction.
        let fit = by_moments(&[-(0.5_f64.sqrt()), 0.5_f64.sqrt()]).unwrap();
        for (years, factor) in [(5, 0.7195), (10, 1.3046), (20, 1.8658), (50, 2.5923)] {
            assert!((fit.once_in(years) - factor).abs() < 1e-4, "{years}");
        }
    }

    /// A large even sample of a known distribution gives that distribution back, by every method.
    #[test]
    fn every_method_finds_a_known_distribution_again() {
        let known = Gumbel { mode: 11.0, scale: 2.5 };
        let sample: Vec<f64> = (0..20_000).map(|i| known.value_at((f64::from(i) + 0.5) / 20_000.0)).collect();
        for fit in [by_moments(&sample), by_l_moments(&sample), by_likelihood(&sample)] {
            let fit = fit.unwrap();
            assert!((fit.mode - 11.0).abs() < 0.01 && (fit.scale - 2.5).abs() < 0.01, "{fit:?}");
        }
    }

    #[test]
    fn one_value_or_none_is_no_sample() {
        assert_eq!((by_moments(&[1.0]), by_l_moments(&[]), by_likelihood(&[2.0])), (None, None, None));
    }
}
