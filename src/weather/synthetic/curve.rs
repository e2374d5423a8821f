//! Twelve monthly means into a smooth value a day whose means by month are those very twelve.
//!
//! Must never know what the values are. Start at [`daily`].

/// Days by month of the year on which a synthetic year is laid.
pub(super) const MONTH_DAYS: [usize; 12] = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
/// Days of that year.
pub(super) const DAYS: usize = 365;
/// Rounds of mending: each shrinks what is left to less than a third.
const ROUNDS: usize = 40;

/// The means by month of one value a day.
pub(super) fn monthly_means(daily: &[f64]) -> [f64; 12] {
    let mut rest = daily;
    MONTH_DAYS.map(|days| {
        let (month, after) = rest.split_at_checked(days).unwrap_or((rest, &[]));
        rest = after;
        month.iter().sum::<f64>() / month.len().max(1) as f64
    })
}

/// One value a day, straight between the middles of the months and on from December to January, with
/// the monthly means `means` to within a rounding error.
pub(super) fn daily(means: &[f64; 12]) -> Vec<f64> {
    let mut middles = *means;
    let mut days = between(&middles);
    for _ in 0..ROUNDS {
        let found = monthly_means(&days);
        for ((middle, mean), found) in middles.iter_mut().zip(means).zip(found) {
            *middle += mean - found;
        }
        days = between(&middles);
    }
    days
}

fn between(middles: &[f64; 12]) -> Vec<f64> {
    let mut first_day = 0;
    let places: Vec<f64> = MONTH_DAYS
        .iter()
        .map(|days| {
            let place = first_day as f64 + (*days as f64 - 1.0) / 2.0;
            first_day += days;
            place
        })
        .collect();
    let at = |month: usize| {
        let place = places.get(month % 12).copied().unwrap_or_default();
        (
            place + if month >= 12 { DAYS as f64 } else { 0.0 },
            middles.get(month % 12).copied().unwrap_or_default(),
        )
    };
    let value = |day: usize| {
        // Days before the middle of January lie after the middle of December.
        let day = day as f64 + if (day as f64) < at(0).0 { DAYS as f64 } else { 0.0 };
        let before = (0..12).rev().find(|month| at(*month).0 <= day).unwrap_or_default();
        let ((x0, y0), (x1, y1)) = (at(before), at(before + 1));
        y0 + (y1 - y0) * (day - x0) / (x1 - x0)
    };
    (0..DAYS).map(value).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_monthly_means_are_kept_and_the_days_run_on_without_a_jump() {
        let means = [-5.0, -3.0, 2.0, 9.0, 15.0, 20.0, 23.0, 22.0, 18.0, 11.0, 4.0, -3.0];
        let days = daily(&means);
        assert_eq!(days.len(), 365);
        for (found, mean) in monthly_means(&days).iter().zip(means) {
            assert!((found - mean).abs() < 1e-9, "{found} {mean}");
        }
        let steps = days.windows(2).map(|pair| (pair[1] - pair[0]).abs());
        // By hand: the steepest neighbours differ by 7 K over 30 days; mending may steepen by half.
        assert!(steps.fold(0.0, f64::max) < 0.4);
        assert!((days[0] - days[364]).abs() < 0.4);
    }
}
