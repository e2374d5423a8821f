//! Prices of a history that cannot be, or seldom are: a slipped point, cents among dollars.
//!
//! The bounds are judgements. Start at [`refused`] and [`odd_points`].

use super::{PriceHistory, PricePoint};
use crate::problem::Problem;

/// So many times both neighbours is asked about: no week's price is known to have done so and come back.
const ODD: f64 = 3.0;
/// So many times both neighbours is a slip.
const ABSURD: f64 = 5.0;
/// Steps between two prices that stay are about 100 where one is in cents.
const CENTS: std::ops::RangeInclusive<f64> = 40.0..=250.0;
/// Points that belong together, so that a rise and its end lie this near.
const NEAR: usize = 2;

/// What must be a slip, each with its line; `lines` are those of `points`.
pub fn refused(points: &[PricePoint], lines: &[usize]) -> Vec<Problem> {
    let mixed = (1..points.len()).find(|place| {
        let of = |place: usize| points.get(place).map(|point| point.price.ln());
        let before = place.checked_sub(1).and_then(of);
        let step = before.zip(of(*place)).map_or(0.0, |(before, after)| (after - before).abs());
        CENTS.contains(&step.exp()) && !(place - 1..=*place).any(|place| beyond(points, place, ABSURD))
    });
    let slipped = (0..points.len()).filter(|place| beyond(points, *place, ABSURD));
    let tell = |place: usize, what: String, help: &str| {
        Some(Problem::new(what).at_line(*lines.get(place)?).help(help))
    };
    let slip = |place: usize| {
        let point = points.get(place)?;
        let what =
            format!("{} on {} is over {ABSURD} times off the prices around it", point.price, point.date);
        tell(place, what, "Look for a slipped digit or point; if it is right, leave the line out")
    };
    let cents = mixed.and_then(|place| {
        let (before, after) = (points.get(place.checked_sub(1)?)?, points.get(place)?);
        let what = format!(
            "{} on {} follows {} on {}, as if one were in cents",
            after.price, after.date, before.price, before.date
        );
        tell(place, what, "Write all prices in the unit of the first line")
    });
    slipped.filter_map(slip).chain(cents).collect()
}

/// Prices over three times off those around them, though not so far that they are refused.
pub fn odd_points(history: &PriceHistory) -> Vec<PricePoint> {
    let points = &history.points;
    let odd = (0..points.len()).filter(|place| beyond(points, *place, ODD));
    odd.filter_map(|place| points.get(place).copied()).collect()
}

/// Whether a price is `times` above, or below, one of the two prices before it and one of the two after.
fn beyond(points: &[PricePoint], place: usize, times: f64) -> bool {
    let at = |place: usize| points.get(place).map(|point| point.price);
    let Some(own) = at(place) else { return false };
    let before: Vec<f64> = (1..=NEAR).filter_map(|back| at(place.checked_sub(back)?)).collect();
    let after: Vec<f64> = (1..=NEAR).filter_map(|on| at(place + on)).collect();
    let any = |off: &dyn Fn(f64) -> bool, of: &[f64]| of.iter().any(|price| off(*price));
    let high = |price: f64| own > times * price;
    let low = |price: f64| own * times < price;
    (any(&high, &before) && any(&high, &after)) || (any(&low, &before) && any(&low, &after))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn points(prices: &[f64]) -> (Vec<PricePoint>, Vec<usize>) {
        let first = chrono::NaiveDate::default();
        let day = |week: usize| first + chrono::Days::new(7 * week as u64);
        let points =
            prices.iter().enumerate().map(|(week, price)| PricePoint { date: day(week), price: *price });
        (points.collect(), (2..prices.len() + 2).collect())
    }

    fn lines(prices: &[f64]) -> Vec<usize> {
        let (points, lines) = points(prices);
        refused(&points, &lines).iter().filter_map(|problem| problem.line).collect()
    }

    #[test]
    fn a_slipped_point_and_cents_among_dollars_are_refused_at_their_lines() {
        // Invented; the first price stands on line 2.
        assert_eq!(lines(&[2.5, 2.4, 25.0, 2.5, 2.4]), [4]);
        assert_eq!(lines(&[2.5, 2.4, 0.25, 2.5, 2.4]), [4]);
        assert_eq!(lines(&[250.0, 240.0, 245.0, 2.5, 2.4, 2.45]), [5]);
        assert!(lines(&[2.5, 2.4, 7.4, 2.5, 2.4]).is_empty(), "three times is asked about, not refused");
        assert!(lines(&[1.0, 1.0, 6.0, 6.0, 6.0]).is_empty(), "a price may go up and stay");
    }

    #[test]
    fn three_times_the_prices_around_is_odd() {
        let (points, _) = points(&[2.5, 2.4, 7.6, 2.5, 2.4, 4.9, 2.6]);
        let odd = PriceHistory { unit: "$/gal".into(), points, rounded_to: 0.1, monthly_means: false };
        assert_eq!(odd_points(&odd).iter().map(|point| point.price).collect::<Vec<_>>(), [7.6]);
    }
}
