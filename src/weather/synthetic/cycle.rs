//! Each day's least and greatest temperature into its hours.
//!
//! A sine while the sun is up, a decay through the night to the next day's least: short days make the
//! mean of a day lie below the middle of its extremes, long days above. Must never know how the days
//! were made. Start at [`hours`].

use super::curve::DAYS;
use std::f64::consts::PI;

/// Where no latitude is known the sun rises as at 40° north.
const LATITUDE: f64 = 40.0;
/// The day's length stays within these hours, also where the sun never rises or never sets.
const DAY_LENGTH: (f64, f64) = (6.0, 18.0);
/// Greatest declination of the sun, degrees.
const DECLINATION: f64 = 23.45;
/// Hours from noon to the greatest temperature.
const LAG: f64 = 1.86;
/// How fast the night cools: the share left at its end is e to the power of minus this.
const NIGHT: f64 = 2.20;

/// Half the time from sunrise to sunset, hours, on a day of the year from 0.
///
/// Source: P. I. Cooper, "The absorption of radiation in solar stills", Solar Energy 12 (1969), for the
/// declination; the sunrise equation `cos ω = −tan φ·tan δ`.
fn half_day(day: usize, latitude: Option<f64>) -> f64 {
    let turn = 2.0 * PI * (284.0 + day as f64 + 1.0) / 365.0;
    let declination = (DECLINATION * turn.sin()).to_radians();
    let latitude = latitude.unwrap_or(LATITUDE).to_radians();
    let cosine = (-latitude.tan() * declination.tan()).clamp(-1.0, 1.0);
    let (least, most) = DAY_LENGTH;
    (cosine.acos() * 12.0 / PI).clamp(least / 2.0, most / 2.0)
}

/// The hours of the year, from each day's least value at sunrise to its greatest in the afternoon and
/// on to the next day's least; the last day leads on to the first. Solar time stands for clock time;
/// an hour holds the value of its middle.
///
/// Source: W. J. Parton and J. A. Logan, "A model for diurnal variation in soil and air temperature",
/// Agricultural Meteorology 23 (1981), with its lag and night coefficient for air at 1.5 m (from
/// memory). DEPARTURE: the night's decay is scaled to end at the next day's least, where the original
/// ends a tenth of the range above it, so that the extremes asked for are met.
pub(super) fn hours(lows: &[f64], highs: &[f64], latitude: Option<f64>) -> Vec<f64> {
    let halves: Vec<f64> = (0..DAYS).map(|day| half_day(day, latitude)).collect();
    let at = |values: &[f64], day: usize| values.get(day % DAYS).copied().unwrap_or_default();
    let value = |hour: usize| {
        let (today, time) = (hour / 24, hour as f64 % 24.0 + 0.5);
        // Before sunrise it is still the night of the day before.
        let night_before = time < 12.0 - at(&halves, today);
        let (day, time) = if night_before { (today + DAYS - 1, time + 24.0) } else { (today, time) };
        let half = at(&halves, day);
        let (low, high, next) = (at(lows, day), at(highs, day), at(lows, day + 1));
        let sine =
            |time: f64| low + (high - low) * (PI * (time - 12.0 + half) / (2.0 * half + 2.0 * LAG)).sin();
        let (sunset, sunrise) = (12.0 + half, 36.0 - at(&halves, day + 1));
        if time <= sunset {
            return sine(time);
        }
        let left =
            ((-NIGHT * (time - sunset) / (sunrise - sunset)).exp() - (-NIGHT).exp()) / (1.0 - (-NIGHT).exp());
        next + (sine(sunset) - next) * left
    };
    (0..DAYS * 24).map(value).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Published: at 40° north the sun is up for 9 h 20 min and 15 h 0 min on the solstices and
    /// 12 h 10 min on the equinoxes, with refraction and the sun's upper edge, which the equation
    /// leaves out, about 10 minutes (sunrise tables, from memory).
    #[test]
    fn days_are_as_long_as_tables_say() {
        for (day, table) in [(354, 9.33), (171, 15.0), (79, 12.17)] {
            let found = 2.0 * half_day(day, Some(40.0));
            assert!((found - table).abs() < 0.25, "{day}: {found}");
        }
        assert_eq!((half_day(354, Some(80.0)), half_day(171, Some(80.0))), (3.0, 9.0));
        assert_eq!(half_day(0, None), half_day(0, Some(40.0)));
    }

    #[test]
    fn the_least_hour_is_near_sunrise_and_the_greatest_early_in_the_afternoon() {
        let hours = hours(&[-5.0; DAYS], &[5.0; DAYS], None);
        assert_eq!(hours.len(), 8760);
        for (day, values) in hours.chunks(24).enumerate() {
            let place = |sign: f64| {
                let all = values.iter().enumerate().map(|(hour, value)| (sign * value, hour));
                all.max_by(|a, b| a.0.total_cmp(&b.0)).unwrap_or_default()
            };
            let ((high, warmest), (low, coldest)) = (place(1.0), place(-1.0));
            assert_eq!(warmest, 13);
            assert!((12.0 - half_day(day, None) - coldest as f64 - 0.5).abs() <= 1.0, "{day}: {coldest}");
            assert!((4.9..=5.0).contains(&high) && (4.3..=5.0).contains(&low), "{day}: {high} {low}");
        }
    }

    #[test]
    fn long_days_are_warmer_than_the_middle_of_their_extremes_and_short_ones_colder() {
        let hours = hours(&[-5.0; DAYS], &[5.0; DAYS], Some(40.0));
        let mean = |day: usize| hours[day * 24..day * 24 + 24].iter().sum::<f64>() / 24.0;
        assert!(mean(354) < -0.2 && mean(171) > 0.1, "{} {}", mean(354), mean(171));
    }
}
