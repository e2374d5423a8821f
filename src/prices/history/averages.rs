//! How means of the level over spans of time hang together: a month's mean moves less than a day's price,
//! and the next month's with it.
//!
//! Start at [`covariance`].

/// Covariance of the means over two spans, `(middle, length)` in years, that are the same or do not
/// overlap, of a level with a spread of 1.
///
/// Closed form of the double integral of e^(−κ|s − t|). For short spans next to each other, steps from
/// mean to mean have 2/3 of a walk's variance and a quarter of it in common with the next.
pub fn covariance(one: (f64, f64), other: (f64, f64), half_life_years: f64) -> f64 {
    let kappa = std::f64::consts::LN_2 / half_life_years;
    let apart = (one.0 - other.0).abs();
    if apart == 0.0 {
        let x = kappa * one.1;
        // exp_m1, since for short spans the sum is small beside its parts.
        return if x > 0.0 { 2.0 * (x + (-x).exp_m1()) / (x * x) } else { 1.0 };
    }
    // sinh(x/2)/(x/2) for each of the two.
    let widened = |length: f64| {
        let half = kappa * length / 2.0;
        if half > 0.0 { half.sinh() / half } else { 1.0 }
    };
    (-kappa * apart).exp() * widened(one.1) * widened(other.1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_between_monthly_means_have_two_thirds_of_the_variance_and_a_quarter_in_common() {
        // Published: H. Working, "Note on the correlation of first differences of averages in a random
        // chain", Econometrica 28 (1960); a long half-life is nearly a walk.
        let (month, half_life) = (1.0 / 12.0, 2000.0);
        let mean = |i: i32| (f64::from(i) * month, month);
        let step = |i: i32, j: i32| {
            let of = |a, b| covariance(mean(a), mean(b), half_life);
            of(i + 1, j + 1) - of(i + 1, j) - of(i, j + 1) + of(i, j)
        };
        let walk = 2.0 * std::f64::consts::LN_2 / half_life * month;
        assert!((step(0, 0) / walk - 2.0 / 3.0).abs() < 1e-4, "{}", step(0, 0) / walk);
        assert!((step(0, 1) / step(0, 0) - 0.25).abs() < 1e-4);
    }

    #[test]
    fn a_mean_is_the_mean_of_its_points() {
        // Independent: sums over 400 points a span.
        let direct = |a: (f64, f64), b: (f64, f64)| {
            let points = |(middle, length): (f64, f64)| {
                (0..400).map(move |i| middle + length * ((f64::from(i) + 0.5) / 400.0 - 0.5))
            };
            points(a).map(|s| points(b).map(|t| 0.5_f64.powf((s - t).abs() / 0.7)).sum::<f64>()).sum::<f64>()
                / 160_000.0
        };
        for (a, b) in [((0.0, 0.5), (0.0, 0.5)), ((0.0, 0.5), (0.8, 0.3))] {
            assert!((covariance(a, b, 0.7) - direct(a, b)).abs() < 1e-5);
        }
    }
}
