//! Amounts of money and prices out of values, with what is wrong with them in words.
//!
//! Must never know what is paid for. Start at [`price_text`] and [`whole`].

use toml::de::DeValue;

use super::money::{MoneyError, PriceText, amount};
use super::wording::{Fault, described, quoted};
use crate::sources::HowKnown;

/// An amount for one of something, such as `"2.49 $/gal"`; it may be below 0.
pub(super) fn price_text(value: &DeValue<'_>, currency: &str) -> Result<PriceText, Fault> {
    let example = format!("write it as in \"2.49 {currency}/gal\" or \"18.4 c/kWh\"");
    let Some(typed) = value.as_str() else {
        let fault =
            Fault::new(format!("an amount with what it is for is needed here, not {}", described(value)));
        return Err(fault.help(example));
    };
    PriceText::parse(typed, currency).map_err(|error| match money_fault(&quoted(typed), currency, &error) {
        fault if fault.help.is_some() => fault,
        fault => fault.help(example),
    })
}

/// An amount of money of 0 or more, such as `"14500 $"`.
pub(super) fn whole(currency: &str) -> impl Fn(&DeValue<'_>) -> Result<f64, Fault> + '_ {
    move |value| {
        let example = format!("write it as in \"14500 {currency}\"");
        let Some(typed) = value.as_str() else {
            let fault = Fault::new(format!("an amount of money is needed here, not {}", described(value)));
            return Err(fault.help(example));
        };
        if typed.contains('/') {
            let fault = Fault::new(format!("{} is so much for each of something", quoted(typed)));
            return Err(fault.help("write what the whole comes to"));
        }
        match amount(typed.trim(), currency) {
            Ok(amount) if amount >= 0.0 => Ok(amount),
            Ok(_) => Err(below_zero(value)
                .help("write amounts without a minus sign; what others pay goes into incentive")),
            Err(error) => Err(money_fault(&quoted(typed), currency, &error).help(example)),
        }
    }
}

/// What is wrong with an amount below 0.
pub(super) fn below_zero(value: &DeValue<'_>) -> Fault {
    let typed = described(value);
    Fault::new(format!("{} is less than 0", typed.trim_start_matches("the text "))).allowed("0 or more")
}

fn money_fault(typed: &str, currency: &str, error: &MoneyError) -> Fault {
    let sign = format!("{currency} or c, the sign given by job.currency and its hundredth");
    match error {
        MoneyError::NoPer => Fault::new(format!("{typed} does not say what the amount is for")),
        MoneyError::NoNumber => Fault::new(format!("{typed} holds no number where the amount should be")),
        MoneyError::NoCurrency => Fault::new(format!("{typed} has no currency sign")).allowed(sign),
        MoneyError::OtherCurrency(found) if each(found).is_some() => {
            let per = each(found).unwrap_or_default();
            Fault::new(format!("{typed} has no slash before what the amount is for"))
                .help(format!("write it as in \"25 {currency}/{per}\""))
        }
        MoneyError::OtherCurrency(found) => {
            Fault::new(format!("{} in {typed} is not the job's currency", quoted(found))).allowed(sign)
        }
        MoneyError::TooLarge => {
            Fault::new(format!("{typed} is out of range")).allowed(format!("0 to 1,000,000 {currency}"))
        }
    }
}

/// What the amount is for, where words say so instead of a stroke: `a month`, `per gal`.
fn each(found: &str) -> Option<&str> {
    let found = found.trim_start_matches(['$', ' ']);
    let (word, per) = found.split_once(' ')?;
    matches!(word, "a" | "per" | "each").then_some(per.trim())
}

/// The words of `basis`.
pub(super) const BASES: &[(&str, HowKnown)] = &[
    ("bill", HowKnown::Bill),
    ("quote", HowKnown::Quote),
    ("published", HowKnown::Published),
    ("guess", HowKnown::Guess),
];
