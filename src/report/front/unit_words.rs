//! Selling units as people say them.
//!
//! Start at [`price`].

use crate::fuel::Fuel;
use crate::report::figures::Measure;
use crate::units::{GALLONS_PER_LITRE, UnitSystem};

/// A price for one kWh in the unit that people buy, and that unit's name.
pub fn price(fuel: &Fuel, per_kwh: f64, measure: Measure) -> (f64, &'static str) {
    let per_unit = per_kwh * fuel.kwh_per_unit;
    match (fuel.selling_unit.as_str(), measure.0) {
        ("gal", UnitSystem::Si) => (per_unit * GALLONS_PER_LITRE, "litre"),
        ("gal", UnitSystem::Us) => (per_unit, "gallon"),
        ("therm", UnitSystem::Si) | ("short ton" | "cord", UnitSystem::Si) => (per_kwh, "kWh"),
        ("therm", UnitSystem::Us) => (per_unit, "therm"),
        ("cord", _) => (per_unit, "cord"),
        ("short ton", _) => (per_unit, "ton"),
        _ => (per_kwh, "kWh"),
    }
}

/// A price with as many digits as it has: `$0.184`, `$2.50`, `$280`.
pub fn shown(currency: &str, price: f64) -> String {
    let digits = match price.abs() {
        p if p >= 100.0 => 0,
        p if (p * 100.0 - (p * 100.0).round()).abs() < 1e-6 => 2,
        _ => 3,
    };
    format!("{currency}{price:.digits$}")
}

/// A price that was worked out: to the nearest 0.05, or 0.005 where it is small.
pub fn rounded(currency: &str, price: f64) -> String {
    let step = match price.abs() {
        p if p >= 100.0 => 5.0,
        p if p >= 1.0 => 0.05,
        _ => 0.005,
    };
    shown(currency, (price / step).round() * step)
}

/// A price as it is: two digits, or three where it is small.
pub fn plain(currency: &str, price: f64) -> String {
    let digits = match price.abs() {
        p if p >= 100.0 => 0,
        p if p >= 1.0 => 2,
        _ => 3,
    };
    format!("{currency}{price:.digits$}")
}
