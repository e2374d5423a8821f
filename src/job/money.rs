//! Money texts: `"2.49 $/gal"` or `"18.4 c/kWh"` into an amount and what it is for; and amounts of a
//! fuel: `"500 kWh"`.
//!
//! Must never know which units a fuel is sold in. Start at [`PriceText`].

use crate::units::{UnitError, split_number};

/// An amount of a fuel.
#[derive(Debug, Clone, PartialEq)]
pub struct AmountText {
    /// How much, more than 0.
    pub amount: f64,
    /// The unit, as typed: `gal`, `kWh`.
    pub unit: String,
}

impl AmountText {
    /// Reads `"500 kWh"`; `None` without a number above 0 and at most a billion, or without a unit.
    ///
    /// ```
    /// use winterledger::job::AmountText;
    /// assert_eq!(AmountText::parse("500 kWh"), Some(AmountText { amount: 500.0, unit: "kWh".into() }));
    /// assert_eq!(AmountText::parse("500"), None);
    /// ```
    pub fn parse(text: &str) -> Option<Self> {
        let (amount, unit) = split_number(text).ok()?;
        let sound = amount > 0.0 && amount <= 1.0e9 && !unit.is_empty();
        (sound && is_short(unit)).then(|| Self { amount, unit: unit.to_owned() })
    }
}

/// An amount of money for one of something.
#[derive(Debug, Clone, PartialEq)]
pub struct PriceText {
    /// The amount in the currency's main unit (dollars, not cents).
    pub amount: f64,
    /// What the amount is for, as typed: `gal`, `kWh`, `month`.
    pub per: String,
}

/// Most that one of anything may cost; above it a price is taken for a slip.
const GREATEST: f64 = 1.0e6;

/// Why a text is not a price.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum MoneyError {
    /// Nothing stands after a slash: what the amount is for is not said.
    NoPer,
    /// There is no number.
    NoNumber,
    /// There is a number without the currency's sign.
    NoCurrency,
    /// The sign is not the job's; holds what was found.
    OtherCurrency(String),
    /// Not finite, or more than a million.
    TooLarge,
}

impl PriceText {
    /// Reads `"2.49 $/gal"`, `"$2.49/gal"`, `"18.4 c/kWh"` or `"18.4 ¢/kWh"`; `currency` is the job's sign.
    ///
    /// ```
    /// use winterledger::job::PriceText;
    /// let price = PriceText::parse("18.4 c/kWh", "$").unwrap();
    /// assert!((price.amount - 0.184).abs() < 1e-12);
    /// assert_eq!(price.per, "kWh");
    /// ```
    ///
    /// # Errors
    /// Says which part of the text is missing or wrong.
    pub fn parse(text: &str, currency: &str) -> Result<Self, MoneyError> {
        let (money, per) = text.split_once('/').unwrap_or((text, ""));
        let amount = amount(money.trim(), currency)?;
        let per = per.trim();
        if per.is_empty() || !is_short(per) {
            return Err(MoneyError::NoPer);
        }
        Ok(Self { amount, per: per.to_owned() })
    }
}

fn is_short(unit: &str) -> bool {
    unit.chars().nth(30).is_none() && !unit.chars().any(char::is_control)
}

/// Reads `"14500 $"` or `"$14,500"`; `currency` is the job's sign.
///
/// # Errors
/// Says which part of the text is missing or wrong.
pub(super) fn amount(money: &str, currency: &str) -> Result<f64, MoneyError> {
    let negative = money.starts_with('-');
    let unsigned = money.trim_start_matches(['-', '+']).trim_start();
    let (number, sign) = match unsigned.strip_prefix(currency) {
        Some(rest) if !currency.is_empty() => split(rest.trim_start(), currency)?,
        _ => split(unsigned, "")?,
    };
    let factor = match sign {
        "" => return Err(MoneyError::NoCurrency),
        sign if sign == currency => 1.0,
        "dollar" | "dollars" | "USD" if currency == "$" => 1.0,
        "c" | "\u{a2}" | "ct" | "cent" | "cents" => 0.01,
        other => return Err(MoneyError::OtherCurrency(other.to_owned())),
    };
    match number * factor {
        amount if amount.abs() <= GREATEST => Ok(if negative { -amount } else { amount }),
        _ => Err(MoneyError::TooLarge),
    }
}

/// The number, and the sign after it; `before` is the sign that stood in front.
fn split<'t>(text: &'t str, before: &'t str) -> Result<(f64, &'t str), MoneyError> {
    let (number, after) = split_number(text).map_err(|error| match error {
        UnitError::NotFinite => MoneyError::TooLarge,
        _ => MoneyError::NoNumber,
    })?;
    match (before, after) {
        (before, "") => Ok((number, before)),
        ("", after) => Ok((number, after)),
        (_, after) => Err(MoneyError::OtherCurrency(after.to_owned())),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Result<(f64, String), MoneyError> {
        PriceText::parse(text, "$").map(|price| (price.amount, price.per))
    }

    #[test]
    fn a_price_reads_the_spellings_that_people_use() {
        for text in [
            "2.49 $/gal",
            "$2.49/gal",
            "$ 2.49 / gal",
            "249 c/gal",
            "249\u{a2}/gal",
            "2.49$/gal",
            "2.49 dollars/gal",
            "2.49 USD/gal",
            "249 cents/gal",
        ] {
            let read = read(text);
            let right = matches!(&read, Ok((a, per)) if (a - 2.49).abs() < 1e-12 && per == "gal");
            assert!(right, "{text}: {read:?}");
        }
        let per_ton = PriceText { amount: 1200.0, per: "short ton".to_owned() };
        assert_eq!(PriceText::parse("1,200 CHF/short ton", "CHF"), Ok(per_ton));
    }

    #[test]
    fn what_is_wrong_with_a_price_is_told() {
        for text in ["-2.49 $/gal", "-$2.49/gal", "$-2.49/gal"] {
            assert_eq!(read(text), Ok((-2.49, "gal".into())));
        }
        assert_eq!(read("1e308 $/gal"), Err(MoneyError::TooLarge));
        assert_eq!(read("1e999 $/gal"), Err(MoneyError::TooLarge));
        assert_eq!(read("2.49 $"), Err(MoneyError::NoPer));
        assert_eq!(read("2.49/gal"), Err(MoneyError::NoCurrency));
        assert_eq!(read("2.49 EUR/gal"), Err(MoneyError::OtherCurrency("EUR".into())));
        assert_eq!(read("cheap $/gal"), Err(MoneyError::NoNumber));
        assert_eq!(read("2,49 $/gal"), Err(MoneyError::NoNumber));
    }
}
