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
    PriceText::parse(typed, currency).map_err(|error| match money_fault(typed, currency, &error) {
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
            let fault =
                Fault::new(format!("{} is a price for each of something, not a whole amount", quoted(typed)));
            return Err(fault.help(format!("multiply it out, and {example}")));
        }
        match amount(typed.trim(), currency) {
            Ok(found) if thousands_by_point(typed) => {
                let whole = digits_alone(typed);
                let what = format!("{} has three decimals: is it {whole} or {found}?", quoted(typed));
                let help = format!("write \"{whole} {currency}\" or \"{found:.2} {currency}\"");
                Err(Fault::new(what).help(help))
            }
            Ok(amount) if amount >= 0.0 => Ok(amount),
            Ok(_) => Err(below_zero(value)
                .help("write amounts without a minus sign; what others pay goes into incentive")),
            Err(error) => Err(match money_fault(typed, currency, &error) {
                fault if fault.help.is_some() => fault,
                fault => fault.help(example),
            }),
        }
    }
}

/// What is wrong with an amount below 0.
pub(super) fn below_zero(value: &DeValue<'_>) -> Fault {
    let typed = described(value);
    Fault::new(format!("{} is less than 0", typed.trim_start_matches("the text "))).allowed("0 or more")
}

/// Whether a number such as 14.200 may be a thousand times what it says: with a point before three digits.
fn thousands_by_point(typed: &str) -> bool {
    let number = typed.trim_matches(|c: char| !c.is_ascii_digit());
    number.split_once('.').is_some_and(|(whole, rest)| whole != "0" && rest.len() == 3)
}

fn digits_alone(typed: &str) -> String {
    typed.chars().filter(char::is_ascii_digit).collect()
}

/// The same with a decimal point, where a comma stood for it: `2,60 $/gal`, `1.234,50 $`.
fn with_point(text: &str) -> Option<String> {
    let (whole, rest) = text.rsplit_once(',')?;
    let decimals = rest.chars().take_while(char::is_ascii_digit).count();
    (decimals > 0).then(|| format!("{}.{rest}", whole.replace(['.', ','], "")))
}

fn money_fault(text: &str, currency: &str, error: &MoneyError) -> Fault {
    let typed = &quoted(text);
    let sign = format!("{currency} or c, the sign given by job.currency and its hundredth");
    match error {
        MoneyError::NoPer => Fault::new(format!("{typed} does not say what the amount is for")),
        MoneyError::NoNumber if with_point(text).is_some() => {
            let meant = with_point(text).unwrap_or_default();
            let fault = Fault::new(format!("{typed} has a comma where the decimal point should be"));
            fault.help(format!("write {}", quoted(&meant).replace('\'', "\"")))
        }
        MoneyError::NoNumber => Fault::new(format!("{typed} holds no number where the amount should be")),
        MoneyError::NoCurrency => Fault::new(format!("{typed} has no currency sign")).allowed(sign),
        MoneyError::OtherCurrency(found) if each(found).is_some() => {
            let per = each(found).unwrap_or_default();
            Fault::new(format!("{typed} has no slash before what the amount is for"))
                .help(format!("write \"{} {currency}/{per}\"", number_of(text)))
        }
        MoneyError::OtherCurrency(found) if found.starts_with('k') => {
            let thousand =
                number_of(text).parse::<f64>().map_or_else(|_| String::new(), |x| format!("{}", 1000.0 * x));
            let fault = Fault::new(format!("{typed} counts in thousands"));
            fault.help(format!("write \"{thousand} {currency}\""))
        }
        MoneyError::OtherCurrency(found) => {
            Fault::new(format!("{} in {typed} is not the job's currency", quoted(found))).allowed(sign)
        }
        MoneyError::TooLarge => {
            Fault::new(format!("{typed} is out of range")).allowed(format!("0 to 1,000,000 {currency}"))
        }
    }
}

/// The number as typed, without what stands around it.
fn number_of(text: &str) -> String {
    let number = text.trim_start_matches(|c: char| !c.is_ascii_digit());
    number
        .chars()
        .take_while(|c| c.is_ascii_digit() || matches!(c, '.' | ','))
        .filter(|c| *c != ',')
        .collect()
}

/// An amount that does not say what it is for, or for what time, with the ways to say it.
pub(super) fn says_no_per(value: &DeValue<'_>, currency: &str, pers: &[&str]) -> Option<Fault> {
    let (shown, number) = match value {
        DeValue::String(text) => {
            let bare = text.trim().parse::<f64>().is_ok() || amount(text.trim(), currency).is_ok();
            (bare && !text.contains('/')).then(|| (quoted(text), number_of(text)))?
        }
        DeValue::Integer(number) => (described(value), number.as_str().to_owned()),
        DeValue::Float(number) => (described(value), number.as_str().to_owned()),
        _ => return None,
    };
    let ways: Vec<_> = pers.iter().map(|per| format!("\"{number} {currency}/{per}\"")).collect();
    Some(
        Fault::new(format!("{shown} does not say what the amount is for"))
            .help(format!("write {}", ways.join(" or "))),
    )
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
