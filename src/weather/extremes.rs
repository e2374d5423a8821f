//! The coldest hour of each winter of a record into the lows that come once in 5, 10, 20, 50 years.
//!
//! Must never know machines or houses, nor take a typical year for a record. Start at [`Winters`].

use super::gumbel::{Gumbel, by_l_moments, by_likelihood, by_moments};
use super::quality::{self, Flag};
use super::record::WeatherRecord;
use super::statistics::percentile;
use super::year::YearKind;
use crate::chance::Chance;
use chrono::{Datelike, NaiveDate};

/// Fewer winters than this say nothing of a low that comes once in years; this program's own choice.
pub const LEAST_WINTERS: usize = 5;
/// No 50-year low from fewer winters than this; this program's own choice.
pub const LEAST_WINTERS_FOR_50: usize = 15;
/// A winter in whose cold months more hours than this are missing on end has no known minimum.
pub const LONGEST_GAP_H: usize = 6;
/// Methods that lie farther apart than this, K, are told to differ.
pub const METHODS_DIFFER_K: f64 = 1.0;
/// Rows of winters drawn for the interval.
pub const DRAWS: u64 = 10_000;
/// The shares between which nine draws in ten lie.
const INTERVAL: (f64, f64) = (0.05, 0.95);

/// The seed of the drawn intervals where nobody names another.
pub const SEED: u64 = 1;

/// The winters of a record, and the lows that follow from them.
#[derive(Debug, Clone, PartialEq)]
pub struct Winters {
    /// The coldest hour of each, in order.
    pub minima: Vec<WinterMinimum>,
    /// The lows once in so many years; nothing if the winters are too few.
    pub extremes: Option<Extremes>,
    /// The worst of what looks wrong in each winter, by the year in which it began; hours that cannot be
    /// come first.
    pub suspect: Vec<(i32, Flag)>,
    /// What looks wrong with the record as a whole.
    pub of_record: Vec<Flag>,
    /// Winters left out because hours are missing in them that nobody can fill.
    pub left_out: Vec<i32>,
}

/// The lows of a record.
#[derive(Debug, Clone, PartialEq)]
pub struct Extremes {
    /// How many winters the record has.
    pub winters: usize,
    /// The coldest hour of them all, °C.
    pub coldest_c: f64,
    /// The seed of the drawn intervals.
    pub seed: u64,
    /// The lows once in 5, 10, 20 years, and in 50 if the winters suffice.
    pub lows: Vec<NYearLow>,
}

/// A low that in the long run comes once in so many winters, by three methods.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NYearLow {
    /// How many years.
    pub years: u32,
    /// The headline, °C: Gumbel distribution fitted by moments.
    pub low_c: f64,
    /// Where nine in ten records of as many winters would put the headline, °C, colder end first.
    pub interval_c: (f64, f64),
    /// The same low by L-moments, °C.
    pub l_moments_c: f64,
    /// The same low by maximum likelihood, °C.
    pub maximum_likelihood_c: f64,
    /// Whether the three lie more than 1 K apart.
    pub methods_differ: bool,
}

/// The coldest hour of one winter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WinterMinimum {
    /// The year in which the winter began.
    pub first_year: i32,
    /// Dry-bulb temperature, °C.
    pub temperature_c: f64,
}

impl Winters {
    /// The winters of a record; `seed` draws the intervals, `offset_k` is added to every hour, K.
    pub fn of(record: &WeatherRecord, offset_k: f64, seed: u64) -> Self {
        let all = winter_minima(&record.columns.dry_bulb_c, record.first_day);
        let whole = |winter: &WinterMinimum| {
            record.longest_winter_gap(winter.first_year).is_some_and(|hours| hours <= LONGEST_GAP_H)
        };
        let (mut minima, gappy): (Vec<_>, Vec<_>) = all.into_iter().partition(whole);
        let left_out = gappy.iter().map(|winter| winter.first_year).collect();
        minima.iter_mut().for_each(|winter| winter.temperature_c += offset_k);
        let temperatures: Vec<f64> = minima.iter().map(|winter| winter.temperature_c).collect();
        let suspect = |winter: &WinterMinimum| {
            Some((winter.first_year, quality::cold_flag(&record.from_july(winter.first_year)?)?))
        };
        let mut suspect: Vec<_> = minima.iter().filter_map(suspect).collect();
        suspect.sort_by_key(|(_, flag)| !matches!(flag, Flag::Impossible { .. }));
        let of_record = quality::of_record(record);
        Self { extremes: n_year_lows(&temperatures, seed), suspect, of_record, left_out, minima }
    }

    /// What looks wrong with the record, and in winters other than the one that is run, which is told of itself.
    pub fn suspect_beside(&self, run: YearKind) -> impl Iterator<Item = &Flag> {
        let beside = self.suspect.iter().filter(move |(year, _)| run != YearKind::FromJuly(*year));
        let beside: Vec<&Flag> = beside.map(|(_, flag)| flag).collect();
        // Cold that a place cannot have first: it moves the lows; what the record as a whole has next.
        let first = beside.iter().take_while(|flag| matches!(flag, Flag::Impossible { .. })).count();
        let rest = beside.clone().into_iter().skip(first);
        beside.into_iter().take(first).chain(&self.of_record).chain(rest)
    }

    /// The low that comes once in so many years, if the winters tell it.
    pub fn low(&self, years: u32) -> Option<NYearLow> {
        self.extremes.as_ref()?.lows.iter().find(|low| low.years == years).copied()
    }
}

/// The coldest hour of each whole winter, 1 July to 30 June, of unbroken hours.
///
/// `dry_bulb_c` holds one value an hour, °C, from 00:00 of the day `first` on. Winters that the hours
/// cut at either end are left out.
pub fn winter_minima(dry_bulb_c: &[f64], first: NaiveDate) -> Vec<WinterMinimum> {
    let hour_of = |year: i32| {
        let july = NaiveDate::from_ymd_opt(year, 7, 1)?;
        usize::try_from((july - first).num_hours()).ok()
    };
    let winter = |year: i32| {
        let hours = dry_bulb_c.get(hour_of(year)?..hour_of(year + 1)?)?;
        let temperature_c = hours.iter().copied().min_by(f64::total_cmp)?;
        Some(WinterMinimum { first_year: year, temperature_c })
    };
    let years = i32::try_from(dry_bulb_c.len() / 8760 + 1).unwrap_or_default();
    (first.year()..=first.year().saturating_add(years)).filter_map(winter).collect()
}

/// The n-year lows of a record of winters; `minima_c` is each winter's coldest hour, °C, in any
/// order. `seed` draws the intervals.
///
/// Nothing for fewer than five winters or a value that is no number; no 50-year low from fewer than
/// fifteen. The headline is the handbook's n-year formula, `mean − F·s` with
/// `F = −(√6/π)·(γ + ln ln(n/(n − 1)))`: 0.7195, 1.3046, 1.8658, 2.5923 at 5, 10, 20, 50 years,
/// and `s` the standard deviation with winters − 1.
///
/// Source: ASHRAE Handbook Fundamentals, climatic design information, n-year return period values
/// (from memory). The interval is a parametric bootstrap: 10,000 records of as many winters are drawn
/// from the fitted distribution and fitted again; its ends are their 5th and 95th percentile. It
/// holds what few winters cannot say, not a changing climate.
///
/// ```
/// use winterledger::weather::extremes::n_year_lows;
/// let extremes = n_year_lows(&[-12.0, -8.0, -10.0, -14.0, -6.0], 1).unwrap();
/// // By hand: mean −10, s = √10 = 3.1623; −10 − 0.7195·3.1623 = −12.28.
/// assert!((extremes.lows[0].low_c + 12.28).abs() < 0.01);
/// assert!(n_year_lows(&[-12.0, -8.0, -10.0, -14.0], 1).is_none());
/// ```
pub fn n_year_lows(minima_c: &[f64], seed: u64) -> Option<Extremes> {
    if minima_c.len() < LEAST_WINTERS || !minima_c.iter().all(|t| t.is_finite()) {
        return None;
    }
    // Gumbel's distribution is that of greatest values: the coldest is the greatest of the negatives.
    let mut colds: Vec<f64> = minima_c.iter().map(|t| -t).collect();
    colds.sort_by(f64::total_cmp);
    let fits = (by_moments(&colds)?, by_l_moments(&colds)?, by_likelihood(&colds)?);
    let drawn = drawn_fits(fits.0, colds.len(), seed);
    let many = colds.len() >= LEAST_WINTERS_FOR_50;
    let years = [5, 10, 20, 50].into_iter().filter(|years| many || *years < 50);
    Some(Extremes {
        winters: colds.len(),
        coldest_c: -colds.last().copied()?,
        seed,
        lows: years.map(|years| low(years, fits, &drawn)).collect::<Option<_>>()?,
    })
}

fn low(
    years: u32,
    (moments, l_moments, likelihood): (Gumbel, Gumbel, Gumbel),
    drawn: &[Gumbel],
) -> Option<NYearLow> {
    let lows: Vec<f64> = drawn.iter().map(|fit| -fit.once_in(years)).collect();
    let all = [moments, l_moments, likelihood].map(|fit| -fit.once_in(years));
    let [low_c, l_moments_c, maximum_likelihood_c] = all;
    let least = all.into_iter().fold(f64::INFINITY, f64::min);
    let greatest = all.into_iter().fold(f64::NEG_INFINITY, f64::max);
    Some(NYearLow {
        years,
        low_c,
        interval_c: (percentile(&lows, INTERVAL.0)?, percentile(&lows, INTERVAL.1)?),
        l_moments_c,
        maximum_likelihood_c,
        methods_differ: greatest - least > METHODS_DIFFER_K,
    })
}

/// Each draw has its own stream, so that more draws leave the first ones as they are.
fn drawn_fits(fit: Gumbel, winters: usize, seed: u64) -> Vec<Gumbel> {
    let draw = |stream| {
        let mut chance = Chance::new(seed, stream);
        let colds: Vec<f64> = (0..winters).map(|_| fit.value_at(chance.share())).collect();
        by_moments(&colds)
    };
    (0..DRAWS).filter_map(draw).collect()
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    const WINTERS: [f64; 16] = [
        -12.0, -8.0, -10.0, -14.0, -6.0, -9.0, -11.5, -7.0, -13.0, -10.5, -8.5, -9.5, -12.5, -7.5, -15.0,
        -10.0,
    ];

    #[test]
    fn few_winters_say_nothing_and_fifteen_are_needed_for_fifty_years() {
        let years = |n: usize| {
            let extremes = n_year_lows(&WINTERS[..n], 1);
            extremes.map(|e| e.lows.iter().map(|low| low.years).collect::<Vec<_>>())
        };
        assert_eq!(years(4), None);
        assert_eq!(years(5), Some(vec![5, 10, 20]));
        assert_eq!(years(14), Some(vec![5, 10, 20]));
        assert_eq!(years(15), Some(vec![5, 10, 20, 50]));
        assert_eq!(n_year_lows(&[f64::NAN; 9], 1), None);
    }

    #[test]
    fn the_order_of_the_winters_does_not_matter_and_the_seed_moves_only_the_interval() {
        let mut backwards = WINTERS;
        backwards.reverse();
        let lows = n_year_lows(&WINTERS, 1).unwrap();
        assert_eq!(lows, n_year_lows(&backwards, 1).unwrap());
        let other = n_year_lows(&WINTERS, 2).unwrap();
        for (a, b) in lows.lows.iter().zip(&other.lows) {
            assert_eq!((a.low_c, a.maximum_likelihood_c), (b.low_c, b.maximum_likelihood_c));
            assert_ne!(a.interval_c, b.interval_c);
            assert!(a.interval_c.0 < a.low_c && a.low_c < a.interval_c.1, "{a:?}");
        }
    }

    #[test]
    fn winters_that_never_differ_have_one_low() {
        let extremes = n_year_lows(&[-9.0; 20], 1).unwrap();
        for low in extremes.lows {
            assert_eq!((low.low_c, low.interval_c, low.methods_differ), (-9.0, (-9.0, -9.0), false));
        }
    }

    #[test]
    fn only_whole_winters_count() {
        // 1 January 2001 to 31 December 2003: two winters are whole, 2001 and 2002.
        let first = NaiveDate::from_ymd_opt(2001, 1, 1).unwrap();
        let mut hours = vec![0.0; 3 * 8760];
        hours[100] = -30.0; // January 2001: its winter began before the record.
        hours[365 * 24 + 5] = -11.0; // January 2002
        hours[181 * 24] = -1.0; // 1 July 2001, 00:00, by hand: 31+28+31+30+31+30 = 181 days.
        hours[(365 + 181) * 24] = -2.0; // 1 July 2002: the next winter.
        hours[(730 + 181) * 24] = -50.0; // 1 July 2003: a winter that the record cuts.
        let found: Vec<_> =
            winter_minima(&hours, first).iter().map(|w| (w.first_year, w.temperature_c)).collect();
        assert_eq!(found, [(2001, -11.0), (2002, -2.0)]);
        assert_eq!(winter_minima(&[], first), []);
    }
}
