//! Outdoor hours into degree-days, percentiles, bins, the coldest hour and the longest cold spell.
//!
//! Must never know where the hours come from. Start at [`degree_days_below`].

use super::year::{Bin, BinTable};
use crate::series::Hourly;
use crate::units::{celsius_to_fahrenheit, fahrenheit_to_celsius};
use std::collections::BTreeMap;

/// Temperatures nearer to an edge than this, K, lie on it: what comes from °F or K may stand a rounding
/// error beside the edge that it is on. Instruments tell 0.1 K at best.
const EDGE: f64 = 1.0e-9;
const EDGES_PER_DEGREE: f64 = 1.0e9;

/// Heating degree-days below `base_c` °C, in K·day: the sum over days of base less the mean of the
/// day's 24 hours, where that is above 0. Multiply by 1.8 for °F·day.
///
/// ```
/// use winterledger::{series::Hourly, weather::statistics::degree_days_below};
/// let two_days = Hourly::new([vec![8.0; 24], vec![20.0; 24]].concat()).unwrap();
/// assert_eq!(degree_days_below(&two_days, 18.0), 10.0);
/// ```
pub fn degree_days_below(dry_bulb_c: &Hourly<f64>, base_c: f64) -> f64 {
    dry_bulb_c.daily_sums().iter().map(|sum| (base_c - sum / 24.0).max(0.0)).sum()
}

/// Cooling degree-days above `base_c` °C, in K·day, by the same rule.
pub fn degree_days_above(dry_bulb_c: &Hourly<f64>, base_c: f64) -> f64 {
    dry_bulb_c.daily_sums().iter().map(|sum| (sum / 24.0 - base_c).max(0.0)).sum()
}

/// The value below which `share` (0 to 1) of the values lie, by linear interpolation at position
/// (n − 1)·share of the sorted values.
///
/// The 99 % heating design temperature is the percentile at 0.01. `None` without values or with a
/// share outside 0 to 1.
pub fn percentile(values: &[f64], share: f64) -> Option<f64> {
    if !(0.0..=1.0).contains(&share) {
        return None;
    }
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let position = sorted.len().checked_sub(1)? as f64 * share;
    let lower = *sorted.get(position.floor() as usize)?;
    let upper = *sorted.get(position.ceil() as usize)?;
    Some(lower + (upper - lower) * position.fract())
}

/// Hours colder than `limit_c` °C. An hour nearer to the limit than 1e-9 K is at it, not below.
pub fn hours_below(dry_bulb_c: &[f64], limit_c: f64) -> usize {
    dry_bulb_c.iter().filter(|t| is_below(**t, limit_c)).count()
}

/// The longest unbroken run of hours colder than `limit_c` °C.
///
/// Does not wrap: give hours from July (see [`super::OutdoorYear::run`]), or a spell over the new
/// year is cut in two.
pub fn longest_spell_below(dry_bulb_c: &[f64], limit_c: f64) -> usize {
    dry_bulb_c.split(|t| !is_below(*t, limit_c)).map(<[f64]>::len).max().unwrap_or(0)
}

fn is_below(temperature_c: f64, limit_c: f64) -> bool {
    temperature_c < limit_c - EDGE
}

/// One hour and its temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HourAt {
    /// The hour's place in the hours given, from 0.
    pub hour: usize,
    /// Dry-bulb temperature, °C.
    pub temperature_c: f64,
}

/// The coldest hour, the first if several are; `None` without hours.
pub fn coldest_hour(dry_bulb_c: &[f64]) -> Option<HourAt> {
    let hours = dry_bulb_c.iter().enumerate();
    hours
        .map(|(hour, t)| HourAt { hour, temperature_c: *t })
        .min_by(|a, b| a.temperature_c.total_cmp(&b.temperature_c))
}

/// Hours by 5 °F bins, warm to cold, bins without hours left out.
///
/// The bin of 42 °F holds 39.5 up to, not including, 44.5 °F. The °F value is rounded to 1e-9
/// first, so that a temperature on an edge (12.5 °C is 54.5 °F, bin 57) goes to the bin it belongs to
/// and not to where a rounding error puts it.
pub fn bins_5_fahrenheit(place: &str, dry_bulb_c: &[f64]) -> BinTable {
    let bins = dry_bulb_c.iter().map(|t| bin_of_5_fahrenheit(*t));
    table(place, bins, |bin| fahrenheit_to_celsius(42.0 + 5.0 * bin))
}

/// The 5 °F bin that holds `temperature_c` °C, counted from that of 42 °F, colder ones below 0.
pub fn bin_of_5_fahrenheit(temperature_c: f64) -> i64 {
    ((on_edge(celsius_to_fahrenheit(temperature_c)) - 39.5) / 5.0).floor() as i64
}

/// Hours by 1 K bins, warm to cold, bins without hours left out.
///
/// The bin of 3 °C holds 2.5 up to, not including, 3.5 °C, with the same care for its edges.
pub fn bins_1_kelvin(place: &str, dry_bulb_c: &[f64]) -> BinTable {
    let bin = |t: &f64| (on_edge(*t) + 0.5).floor() as i64;
    table(place, dry_bulb_c.iter().map(bin), |bin| bin)
}

/// Rounded to 1e-9. Dividing at the end gives the number nearest to the decimal fraction.
fn on_edge(temperature: f64) -> f64 {
    (temperature * EDGES_PER_DEGREE).round() / EDGES_PER_DEGREE
}

fn table(place: &str, hours: impl Iterator<Item = i64>, middle_c: impl Fn(f64) -> f64) -> BinTable {
    let mut counts: BTreeMap<i64, f64> = BTreeMap::new();
    for bin in hours {
        *counts.entry(bin).or_default() += 1.0;
    }
    let bins =
        counts.iter().rev().map(|(bin, hours)| Bin { temperature_c: middle_c(*bin as f64), hours: *hours });
    BinTable { place: place.to_owned(), bins: bins.collect(), sha256: String::new() }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn a_percentile_lies_between_its_neighbours() {
        // Hand-worked: position (5 - 1)*0.1 = 0.4 of 1 2 4 8 16 is 1.4; at 0.6, 2.4 of the way, 5.6.
        let values = [16.0, 1.0, 8.0, 2.0, 4.0];
        assert_eq!(percentile(&values, 0.1), Some(1.4));
        assert!((percentile(&values, 0.6).unwrap() - 5.6).abs() < 1e-12);
        assert_eq!((percentile(&values, 0.0), percentile(&values, 1.0)), (Some(1.0), Some(16.0)));
        assert_eq!((percentile(&[], 0.5), percentile(&values, 1.1)), (None, None));
        assert_eq!(percentile(&values, f64::NAN), None);
    }

    #[test]
    fn bin_42_holds_39_5_up_to_44_5_fahrenheit() {
        // The rule itself, in degrees Fahrenheit.
        let middle = |degrees_f: f64| {
            let table = bins_5_fahrenheit("x", &[fahrenheit_to_celsius(degrees_f)]);
            celsius_to_fahrenheit(table.bins[0].temperature_c).round()
        };
        for (degrees_f, bin) in
            [(39.5, 42.0), (44.4, 42.0), (44.5, 47.0), (39.4, 37.0), (-0.5, 2.0), (-0.6, -3.0)]
        {
            assert_eq!(middle(degrees_f), bin, "{degrees_f}");
        }
        // Every edge from -90 to 120 °F, whatever the rounding on the way to °C and back.
        for step in -18..24 {
            let edge = f64::from(step) * 5.0 - 0.5;
            assert_eq!(middle(edge), edge + 2.5);
        }
    }

    #[test]
    fn one_kelvin_bins_are_centred_on_whole_degrees() {
        let table = bins_1_kelvin("x", &[2.5, 3.49, 3.5, -0.5, -0.51]);
        let bins: Vec<(f64, f64)> = table.bins.iter().map(|b| (b.temperature_c, b.hours)).collect();
        assert_eq!(bins, [(4.0, 1.0), (3.0, 2.0), (0.0, 1.0), (-1.0, 1.0)]);
    }

    #[test]
    fn degree_days_count_only_days_beyond_the_base() {
        let days = Hourly::new([vec![10.0; 24], vec![20.0; 24]].concat()).unwrap();
        assert_eq!(degree_days_below(&days, 18.0), 8.0);
        assert_eq!(degree_days_above(&days, 18.0), 2.0);
    }

    #[test]
    fn an_hour_at_the_limit_is_not_below_it() {
        let hours = [1.0, 5.0, 5.0 - 1e-12, 4.9, 4.8, 6.0, 0.0];
        assert_eq!(hours_below(&hours, 5.0), 4);
        assert_eq!(longest_spell_below(&hours, 5.0), 2);
        assert_eq!((longest_spell_below(&[], 5.0), longest_spell_below(&[1.0; 3], 5.0)), (0, 3));
        assert_eq!(coldest_hour(&hours), Some(HourAt { hour: 6, temperature_c: 0.0 }));
        assert_eq!(coldest_hour(&[3.0, 2.0, 2.0]).map(|h| h.hour), Some(1));
        assert_eq!(coldest_hour(&[]), None);
    }
}
