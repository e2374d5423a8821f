//! The range that a number may have, and its wording.
//!
//! Must never know which key it is for. Start at [`Limits`].

use super::wording::digits;

/// The range of a number in its base unit; both ends are allowed unless `above` leaves out the low one.
#[derive(Debug, Clone, Copy)]
pub(super) struct Limits {
    low: f64,
    pub(super) high: f64,
    above: bool,
}

/// From `low` to `high`, both allowed.
pub(super) const fn from_to(low: f64, high: f64) -> Limits {
    Limits { low, high, above: false }
}

/// More than 0, up to `high`.
pub(super) const fn above_zero(high: f64) -> Limits {
    Limits { low: 0.0, high, above: true }
}

impl Limits {
    /// Whether a number lies within.
    pub(super) fn hold(self, x: f64) -> bool {
        let low_enough = if self.above { x > self.low } else { x >= self.low - slack(self.low) };
        low_enough && x <= self.high + slack(self.high)
    }

    /// The range in words, in the unit that `show` turns base numbers into.
    pub(super) fn words(self, unit: &str, show: impl Fn(f64) -> f64) -> String {
        let unit = if unit.is_empty() { String::new() } else { format!(" {unit}") };
        let (low, high) = (digits(show(self.low)), digits(show(self.high)));
        if self.above {
            format!("more than {low}, up to {high}{unit}")
        } else {
            format!("{low} to {high}{unit}")
        }
    }
}

/// The printed limit must itself be accepted after its trip through °F or Btu/h.
fn slack(limit: f64) -> f64 {
    limit.abs() * 1e-6
}
