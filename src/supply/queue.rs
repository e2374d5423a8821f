//! How long a truck takes when many wait for it: the cold of the days behind into days from an order to
//! its delivery.
//!
//! Knows no store and no chance. Start at [`Strain`] and [`lead_days`].

use crate::weather::statistics::percentile;

/// Days over which cold piles up orders.
pub const TRAILING_DAYS: usize = 10;
/// Degree-days count below this, °C: 65 °F.
const BASE_C: f64 = 18.0 + 1.0 / 3.0;
/// Standard deviation of the logarithm of a lead: two in three within a factor 1.35 of the middle. A
/// judgement.
const SPREAD: f64 = 0.3;
/// Nobody waits longer, days.
const LONGEST: f64 = 120.0;

/// Degree-days of the ten days that end with each day, the day itself included, K·day.
pub fn trailing_degree_days(daily_mean_c: &[f64]) -> Vec<f64> {
    let colds: Vec<f64> = daily_mean_c.iter().map(|mean| (BASE_C - mean).max(0.0)).collect();
    let first = |day: usize| (day + 1).saturating_sub(TRAILING_DAYS);
    (0..colds.len()).map(|day| colds.get(first(day)..=day).map_or(0.0, |days| days.iter().sum())).collect()
}

/// What counts as ordinary and as hard weather at a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strain {
    /// Trailing degree-days on the middle day of December to February, K·day.
    pub ordinary: f64,
    /// Those of the coldest ten days of an ordinary winter.
    pub hard: f64,
}

impl Strain {
    /// Of winters, each its trailing degree-days and which of its days lie in December to February.
    pub fn of(winters: &[(Vec<f64>, Vec<bool>)]) -> Self {
        let core = |(days, is_core): &(Vec<f64>, Vec<bool>)| -> Vec<f64> {
            days.iter().zip(is_core).filter(|(_, core)| **core).map(|(day, _)| *day).collect()
        };
        let all: Vec<f64> = winters.iter().flat_map(core).collect();
        let worst = winters.iter().map(|winter| core(winter).into_iter().fold(0.0, f64::max));
        let worst: Vec<f64> = worst.collect();
        Self {
            ordinary: percentile(&all, 0.5).unwrap_or_default(),
            hard: percentile(&worst, 0.5).unwrap_or_default(),
        }
    }

    /// How hard it is after so many degree-days in ten days: 0 as on an ordinary day of winter or milder,
    /// 1 as in the coldest ten days of an ordinary winter, more beyond.
    pub fn at(self, degree_days: f64) -> f64 {
        let span = self.hard - self.ordinary;
        if span > 0.0 { ((degree_days - self.ordinary) / span).max(0.0) } else { 0.0 }
    }
}

/// Days from an order to its delivery: `ordinary` and `cold` are the middles at a strain of 0 and of 1,
/// on a line through the two; `normal` is a number of the standard normal distribution.
///
/// ```
/// use winterledger::supply::queue::lead_days;
/// assert_eq!(lead_days((4, 20), 0.0, 0.0), 4);
/// assert_eq!(lead_days((4, 20), 0.5, 0.0), 12);
/// assert_eq!(lead_days((4, 20), 1.0, 1.0), 27); // 20·e^0.3
/// ```
pub fn lead_days((ordinary, cold): (usize, usize), strain: f64, normal: f64) -> usize {
    let middle = ordinary as f64 + (cold as f64 - ordinary as f64) * strain;
    (middle * (SPREAD * normal).exp()).round().clamp(1.0, LONGEST) as usize
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cold_piles_up_over_ten_days() {
        // Hand-worked: 10 K·day a day from the third day on.
        let means: Vec<f64> = (0..15).map(|day| if day < 2 { 25.0 } else { BASE_C - 10.0 }).collect();
        let trailing = trailing_degree_days(&means);
        for (day, expected) in [(1, 0.0), (2, 10.0), (10, 90.0), (11, 100.0), (14, 100.0)] {
            assert!((trailing[day] - expected).abs() < 1e-9, "{day}");
        }
    }

    #[test]
    fn strain_goes_from_an_ordinary_day_to_the_coldest_spell_of_an_ordinary_winter() {
        // Three winters of five days, the last one of summer: middles 150, worst 200, 250, 400.
        let winter = |days: [f64; 5]| (days.to_vec(), vec![true, true, true, true, false]);
        let winters = [
            [100.0, 150.0, 150.0, 200.0, 900.0],
            [50.0, 150.0, 150.0, 250.0, 0.0],
            [60.0, 150.0, 150.0, 400.0, 0.0],
        ];
        let strain = Strain::of(&winters.map(winter));
        assert_eq!((strain.ordinary, strain.hard), (150.0, 250.0));
        assert_eq!((strain.at(100.0), strain.at(200.0), strain.at(400.0)), (0.0, 0.5, 2.5));
    }
}
