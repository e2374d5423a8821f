//! Chance into each day's departure from the season: persistent, wider in winter, cold tail apart.
//!
//! Must never know hours. Start at [`Departures`].

use super::curve::{DAYS, daily, monthly_means};
use crate::chance::Chance;

/// How much of one day's departure the next day keeps; 0.61 to 0.75 at the six built-in places.
const KEPT: f64 = 0.67;
/// Standard deviation of the coldest month's daily means, K: so much, and more for each kelvin that
/// the 99 % temperature lies below the lowest monthly mean minimum. A line through the six built-in
/// places, which it meets within 1 K.
const WINTER_DEVIATION: (f64, f64) = (2.2, 0.45);
/// The warmest month's standard deviation over the coldest month's; 0.28 to 0.56 at those places.
const SUMMER_SHARE: f64 = 0.45;
/// Days farther than this from the season, in standard deviations, are drawn in, so that none passes
/// the sum of the two: a typical year, without the night that comes once in decades.
const BOUND: (f64, f64) = (1.5, 0.8);
/// A month of drawn days that hardly differ is not blown up beyond this share.
const LEAST_SPREAD: f64 = 0.3;
/// The tail begins this many standard deviations below the season's mean.
const TAIL: f64 = 0.5;

/// What chance makes of the days of one year, before the tail is stretched.
#[derive(Debug)]
pub(super) struct Departures {
    /// In standard deviations; mean 0 and deviation 1 in each month.
    shapes: Vec<f64>,
    /// Standard deviation of each day, K.
    deviations: Vec<f64>,
    /// 1 in the coldest month, 0 in the warmest.
    winter: Vec<f64>,
}

impl Departures {
    /// For monthly means, °C, whose coldest month's minima lie `reach_k` above the 99 % temperature.
    pub(super) fn new(means: &[f64; 12], reach_k: f64, seed: u64) -> Self {
        let coldest = means.iter().copied().fold(f64::INFINITY, f64::min);
        let warmest = means.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let span = (warmest - coldest).max(f64::MIN_POSITIVE);
        let winter = means.map(|mean| (warmest - mean) / span);
        let (least, each) = WINTER_DEVIATION;
        let deviation = least + each * reach_k.max(0.0);
        let deviations = winter.map(|w| deviation * (SUMMER_SHARE + (1.0 - SUMMER_SHARE) * w));
        Self {
            shapes: standardised(persistent(seed)),
            deviations: daily(&deviations),
            winter: daily(&winter),
        }
    }

    /// Each day's departure, K, with the cold tail stretched by `stretch` (1 leaves it) where it is
    /// winter, and the mean of every month 0.
    pub(super) fn stretched(&self, stretch: f64) -> Vec<f64> {
        let days = self.shapes.iter().zip(&self.deviations).zip(&self.winter);
        let raw: Vec<f64> = days
            .map(|((shape, deviation), winter)| {
                let times = 1.0 + (stretch - 1.0) * winter.clamp(0.0, 1.0);
                let beyond = (shape + TAIL).min(0.0);
                deviation * (shape - beyond + times * beyond)
            })
            .collect();
        centred(&raw)
    }
}

/// First-order persistence round the year, so that New Year has no seam.
fn persistent(seed: u64) -> Vec<f64> {
    let mut chance = Chance::new(seed, 0);
    let fresh = (1.0 - KEPT * KEPT).sqrt();
    let noise: Vec<f64> = (0..DAYS).map(|_| fresh * chance.normal()).collect();
    let mut today = 0.0;
    // The first time round only finds the state in which the year ends, which is where it begins.
    let twice: Vec<f64> = noise
        .iter()
        .chain(&noise)
        .map(|new| {
            today = KEPT * today + new;
            today
        })
        .collect();
    twice.into_iter().skip(DAYS).collect()
}

fn bounded(shape: f64) -> f64 {
    let (free, more) = BOUND;
    let beyond = (shape.abs() - free).max(0.0);
    shape.signum() * (shape.abs().min(free) + more * (beyond / more).tanh())
}

/// Mean 0 and deviation near 1 in every month: a typical year, not a lucky one.
fn standardised(days: Vec<f64>) -> Vec<f64> {
    let days = centred(&days);
    let squares: Vec<f64> = days.iter().map(|day| day * day).collect();
    let deviations = daily(&monthly_means(&squares).map(f64::sqrt));
    let scaled =
        days.iter().zip(deviations).map(|(day, deviation)| bounded(day / deviation.max(LEAST_SPREAD)));
    let scaled: Vec<f64> = scaled.collect();
    centred(&scaled)
}

fn centred(days: &[f64]) -> Vec<f64> {
    let means = daily(&monthly_means(days));
    days.iter().zip(means).map(|(day, mean)| day - mean).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    const MEANS: [f64; 12] = [-5.0, -3.0, 2.0, 9.0, 15.0, 20.0, 23.0, 22.0, 18.0, 11.0, 4.0, -3.0];

    #[test]
    fn departures_have_no_mean_in_any_month_whatever_the_stretch() {
        for stretch in [0.2, 1.0, 3.0] {
            let days = Departures::new(&MEANS, 7.0, 1).stretched(stretch);
            for mean in monthly_means(&days) {
                assert!(mean.abs() < 1e-9, "{mean}");
            }
        }
    }

    #[test]
    fn a_day_resembles_the_day_before_by_the_share_that_is_kept() {
        let mut pairs = (0.0, 0.0);
        for seed in 0..50 {
            let days = persistent(seed);
            pairs.0 += days.windows(2).map(|pair| pair[0] * pair[1]).sum::<f64>();
            pairs.1 += days.iter().map(|day| day * day).sum::<f64>();
        }
        // Five standard errors: √((1 − 0.67²)/18250) = 0.0055.
        assert!((pairs.0 / pairs.1 - KEPT).abs() < 0.03, "{}", pairs.0 / pairs.1);
    }

    #[test]
    fn winter_varies_more_than_summer_and_a_stretch_makes_only_winters_cold_days_colder() {
        let departures = Departures::new(&MEANS, 7.0, 1);
        let (plain, long) = (departures.stretched(1.0), departures.stretched(2.0));
        let coldest = |days: &[f64], range: std::ops::Range<usize>| {
            days[range].iter().copied().fold(f64::INFINITY, f64::min)
        };
        assert!(coldest(&plain, 0..31) < 1.3 * coldest(&plain, 181..212));
        assert!(coldest(&long, 0..31) < coldest(&plain, 0..31) - 1.0);
        assert!((coldest(&long, 181..212) - coldest(&plain, 181..212)).abs() < 0.5);
    }
}
