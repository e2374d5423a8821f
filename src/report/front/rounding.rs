//! The one place where page one's amounts are rounded.
//!
//! Start at [`about`].

use crate::report::band::Entry;
use crate::report::figures::money;

/// Below this amounts are rounded to [`FINE`], from it on to [`COARSE`].
pub const FINE_BELOW: f64 = 5000.0;
/// To the nearest ten.
pub const FINE: f64 = 10.0;
/// To the nearest fifty.
pub const COARSE: f64 = 50.0;

/// To so many units of the currency an amount is rounded.
pub fn step(amount: f64) -> f64 {
    if amount.abs() < FINE_BELOW { FINE } else { COARSE }
}

/// An amount to the nearest ten or fifty, in words: `$2,520`.
///
/// ```
/// use winterledger::report::front::rounding::about;
/// assert_eq!(about("$", 2522.4), "$2,520");
/// assert_eq!(about("$", 23_612.0), "$23,600");
/// ```
pub fn about(currency: &str, amount: f64) -> String {
    let step = step(amount);
    money(currency, (amount / step).round() * step)
}

/// An amount as an entry.
pub fn figure(currency: &str, amount: f64) -> Entry {
    Entry::Figure { exact: amount, shown: about(currency, amount) }
}

/// From one amount to another, rounded outwards; one amount where both are shown alike.
pub fn range(currency: &str, low: f64, high: f64) -> Entry {
    let step = step(high);
    let (from, to) = ((low / step).floor() * step, (high / step).ceil() * step);
    let shown = match from == to {
        true => money(currency, from),
        false => format!("{} to {}", money(currency, from), money(currency, to)),
    };
    Entry::Range { exact: (low, high), shown }
}

/// A share as a percentage, cut so that what is not enough never reads as 100.
pub fn percent(share: f64) -> String {
    format!("{:.0}\u{a0}%", (100.0 * share).floor())
}
