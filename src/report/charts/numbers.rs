//! Turns numbers into the text a chart prints, and a range into a scale with round ticks.
//!
//! Knows no unit. Start at [`grouped`] and [`Scale`].

/// A number to the nearest whole, thousands set off by commas, with a true minus sign (U+2212).
pub(super) fn grouped(value: f64) -> String {
    let digits = format!("{:.0}", value.abs());
    let mut text = String::new();
    if value < 0.0 && digits != "0" {
        text.push('\u{2212}');
    }
    for (place, digit) in digits.chars().enumerate() {
        if place > 0 && (digits.len() - place).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    text
}

/// An amount in whole currency units: `$3,410`, `−$40`.
pub(super) fn money(currency: &str, amount: f64) -> String {
    let text = grouped(amount);
    match text.strip_prefix('\u{2212}') {
        Some(digits) => format!("\u{2212}{currency}{digits}"),
        None => format!("{currency}{text}"),
    }
}

/// Maps values between `low` and `high` onto pixels between `from` and `to`, evenly.
#[derive(Debug, Clone, Copy)]
pub(super) struct Scale {
    /// The value at `from`.
    pub(super) low: f64,
    /// The value at `to`, more than `low`.
    pub(super) high: f64,
    /// The pixel of `low`.
    pub(super) from: f64,
    /// The pixel of `high`.
    pub(super) to: f64,
}

impl Scale {
    /// The pixel of a value.
    pub(super) fn at(&self, value: f64) -> f64 {
        self.from + (value - self.low) / (self.high - self.low) * (self.to - self.from)
    }
}

/// The smallest step of 1, 2 or 5 times a power of ten that parts `span` into at most `most`.
pub(super) fn step(span: f64, most: f64) -> f64 {
    let rough = (span / most.max(1.0)).max(1e-9);
    let power = 10f64.powf(rough.log10().floor());
    [1.0, 2.0, 5.0, 10.0].into_iter().map(|n| n * power).find(|s| *s >= rough * 0.999_999).unwrap_or(10.0 * power)
}

/// The multiples of `step` from `low` to `high`, both ends included.
pub(super) fn ticks(low: f64, high: f64, step: f64) -> Vec<f64> {
    let first = (low / step - 1e-9).ceil() as i64;
    let last = (high / step + 1e-9).floor() as i64;
    (first..=last).map(|n| n as f64 * step).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn thousands_are_set_off_and_minus_is_the_true_sign() {
        // Hand-worked: the habit of US print.
        assert_eq!(grouped(1_234_567.4), "1,234,567");
        assert_eq!(grouped(999.6), "1,000");
        assert_eq!(grouped(-0.2), "0");
        assert_eq!(money("$", -40.0), "\u{2212}$40");
        assert_eq!(money("€", 3_410.0), "€3,410");
    }

    #[test]
    fn steps_are_round_and_never_more_than_asked() {
        // Hand-worked: 4,300 in at most 5 parts is 1,000; 84 in at most 10 is 10; 85 in at most 8 is 20.
        assert_eq!(step(4_300.0, 5.0), 1_000.0);
        assert_eq!(step(84.0, 10.0), 10.0);
        assert_eq!(step(85.0, 8.0), 20.0);
        assert_eq!(ticks(-22.0, 62.0, 20.0), [-20.0, 0.0, 20.0, 40.0, 60.0]);
    }
}
