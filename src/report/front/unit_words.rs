//! Selling units as people say them.
//!
//! Start at [`price`].

use crate::fuel::Fuel;

/// A price for one kWh as a price for the unit that people buy, and that unit's name.
pub fn price(fuel: &Fuel, per_kwh: f64) -> (f64, &str) {
    (per_kwh * fuel.kwh_per_unit, fuel.unit_word())
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

/// An amount with hundredths only where it has some: `$36`, `$12.50`.
pub fn whole(currency: &str, amount: f64) -> String {
    let digits = if (amount - amount.round()).abs() < 0.005 { 0 } else { 2 };
    format!("{currency}{amount:.digits$}")
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
