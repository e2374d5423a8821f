//! Furnaces: a fuel's energy and an efficiency into heat, with the blower's warmth and thin air.
//!
//! Knows neither hours nor ducts. Start at [`furnace_row`].

use super::map::{MapRow, Point};
use crate::units::METRES_PER_FOOT;

/// Share of its sea-level input that a gas or propane burner keeps at `elevation_m`.
///
/// `1 − 0.04·elevation/1,000 ft`, counted from sea level, when the site lies above 2,000 ft; 1 at
/// and below it. Source: the 4 % a thousand feet rule of the fuel gas code; common practice for the
/// step at 2,000 ft.
///
/// ```
/// use winterledger::equipment::combustion::altitude_factor;
/// assert_eq!(altitude_factor(2000.0 * 0.3048), 1.0);
/// assert!((altitude_factor(5000.0 * 0.3048) - 0.80).abs() < 1e-12);
/// assert!((altitude_factor(8000.0 * 0.3048) - 0.68).abs() < 1e-12);
/// ```
pub fn altitude_factor(elevation_m: f64) -> f64 {
    let feet = elevation_m / METRES_PER_FOOT;
    // The rounding of ft to m and back must not lift 2,000 ft over the step.
    if feet > 2000.0 + 1e-6 { (1.0 - 0.04 * feet / 1000.0).max(0.0) } else { 1.0 }
}

/// A furnace as a map row that holds at every outdoor temperature: it stands at minus infinity.
///
/// `input_kw` is the burner's full input (HHV) at the site, `afue` 0.5 to 1, `blower_kw` its blower,
/// `turndown` the least share of full fire. The blower runs by its share of the hour and its warmth
/// counts as heat, so full output is `input·AFUE + blower`.
pub fn furnace_row(input_kw: f64, afue: f64, blower_kw: f64, turndown: f64) -> MapRow {
    let at =
        |share: f64| Point { capacity_kw: share * input_kw * afue + blower_kw, power_kw: share * input_kw };
    MapRow { outdoor_c: f64::NEG_INFINITY, least: at(turndown), rated: at(1.0), greatest: at(1.0) }
}
