//! Single TOML values into texts, numbers, quantities and choices, or a fault in plain words.
//!
//! Must never know keys or places in the text. Start at [`quantity`].

use toml::de::DeValue;

use super::limits::Limits;
use super::typed::ClockTime;
use super::wording::{Fault, closest, described, digits, quoted};
use crate::calendar::MonthDay;
use crate::units::{Quantity, UnitError, plain_unit, split_number};

/// A text that is not blank, without control characters, at most 500 characters.
pub(super) fn text(value: &DeValue<'_>) -> Result<String, Fault> {
    let Some(text) = value.as_str() else {
        let fault = Fault::new(format!("a text is needed here, not {}", described(value)));
        return Err(fault.help("put it in quotation marks"));
    };
    if text.trim().is_empty() {
        return Err(Fault::new("the text is empty").help("write something, or leave the key out"));
    }
    if text.chars().any(char::is_control) || text.chars().nth(500).is_some() {
        let fault = Fault::new(format!("{} is not one plain line of text", quoted(text)));
        return Err(fault.allowed("up to 500 characters on one line"));
    }
    Ok(text.to_owned())
}

/// `true` or `false`.
pub(super) fn flag(value: &DeValue<'_>) -> Result<bool, Fault> {
    value.as_bool().ok_or_else(|| {
        let fault = Fault::new(format!("true or false is needed here, not {}", described(value)));
        fault.help("write true or false without quotation marks")
    })
}

/// A plain number within the limits.
pub(super) fn number(limits: Limits) -> impl Fn(&DeValue<'_>) -> Result<f64, Fault> {
    number_or(limits, "look at the unit and the decimal point")
}

fn plain_number(limits: Limits) -> impl Fn(&DeValue<'_>) -> Result<f64, Fault> {
    move |value| {
        let typed = match value {
            DeValue::Integer(number) => {
                i64::from_str_radix(number.as_str(), number.radix()).ok().map(|n| n as f64)
            }
            DeValue::Float(number) => number.as_str().parse().ok(),
            other => {
                let fault = Fault::new(format!("a number is needed here, not {}", described(other)));
                return Err(fault.allowed(limits.words("", |x| x)).help(number_help(other)));
            }
        };
        match typed.filter(|x: &f64| x.is_finite() && limits.hold(*x)) {
            Some(x) => Ok(x),
            None => {
                let fault = Fault::new(format!("{} is out of range", described(value)));
                let percent = typed.filter(|x| limits.high <= 1.0 && limits.hold(x / 100.0));
                let fault = fault.allowed(limits.words("", |x| x));
                Err(match percent {
                    Some(percent) => fault.help(share_or_slipped(percent, limits)),
                    None => fault,
                })
            }
        }
    }
}

/// A number within the limits that is whole.
pub(super) fn whole(limits: Limits) -> impl Fn(&DeValue<'_>) -> Result<f64, Fault> {
    move |value| {
        let typed = number(limits)(value)?;
        let fault = || Fault::new(format!("{typed} is not a whole number"));
        if typed.fract() == 0.0 { Ok(typed) } else { Err(fault().help("take the nearest whole number")) }
    }
}

/// A whole number, both ends allowed.
pub(super) fn whole_number(low: i32, high: i32) -> impl Fn(&DeValue<'_>) -> Result<i32, Fault> {
    move |value| {
        let typed = value.as_integer().and_then(|n| i32::from_str_radix(n.as_str(), n.radix()).ok());
        typed.filter(|n| (low..=high).contains(n)).ok_or_else(|| {
            let fault = match value {
                DeValue::Integer(_) => format!("{} is out of range", described(value)),
                _ => format!("a whole number is needed here, not {}", described(value)),
            };
            Fault::new(fault).allowed(format!("{low} to {high}"))
        })
    }
}

/// A number within the limits; `help` for one that lies outside.
pub(super) fn number_or(limits: Limits, help: &'static str) -> impl Fn(&DeValue<'_>) -> Result<f64, Fault> {
    move |value| {
        plain_number(limits)(value).map_err(|fault| match fault.help {
            Some(_) => fault,
            None => fault.help(help),
        })
    }
}

/// The way out for a share typed in percent.
fn share(percent: f64) -> String {
    format!("write a share: {} for {} %", digits(percent / 100.0), digits(percent))
}

/// The same where the number may also be a share whose point stands a digit too far right.
fn share_or_slipped(typed: f64, limits: Limits) -> String {
    let (percent, slipped) = (share(typed), typed / 10.0);
    match typed < 1.0 && limits.hold(slipped) {
        true => format!("{percent}, or {} for {} %", digits(slipped), digits(10.0 * typed)),
        false => percent,
    }
}

fn number_help(value: &DeValue<'_>) -> String {
    let typed = value.as_str().unwrap_or_default();
    let number = typed.split('%').next().unwrap_or_default().trim();
    match number.parse::<f64>() {
        Ok(percent) if typed.contains('%') && percent.is_finite() => share(percent),
        Ok(_) => "leave the quotation marks out".to_owned(),
        Err(_) => "write a number without quotation marks".to_owned(),
    }
}

/// A number with its unit, within the limits (in the base unit).
pub(super) fn quantity<Q: Quantity>(limits: Limits) -> impl Fn(&DeValue<'_>) -> Result<Q, Fault> {
    move |value| {
        let Some(typed) = value.as_str() else {
            let article = if Q::NAME.starts_with(['a', 'e']) { "an" } else { "a" };
            let what =
                format!("{article} {} with its unit is needed here, not {}", Q::NAME, described(value));
            let fault = Fault::new(what);
            return Err(fault.allowed(units::<Q>()).help(example::<Q>()));
        };
        let read = Q::parse(typed).map_err(|error| unit_fault::<Q>(typed, &error))?;
        if limits.hold(read.base()) {
            return Ok(read);
        }
        let unit = split_number(typed).map(|(_, unit)| unit).unwrap_or_default();
        let shown = limits.words(unit, |base| Q::from_base(base).in_unit(unit).unwrap_or(base));
        let fault = Fault::new(format!("{} is out of range", quoted(typed))).allowed(shown);
        Err(fault.help(format!("look at the unit and the decimal point; {}", example::<Q>())))
    }
}

fn unit_fault<Q: Quantity>(typed: &str, error: &UnitError) -> Fault {
    let text = typed;
    let typed = quoted(typed);
    match error {
        UnitError::NoNumber if decimal_comma(text).is_some() => {
            let meant = decimal_comma(text).unwrap_or_default();
            Fault::new(format!("{typed} has a comma where the decimal point should be"))
                .help(format!("write \"{meant}\"; a comma only groups thousands, as in 33,250"))
        }
        UnitError::NoNumber if behind_a_sign::<Q>(text).is_some() => {
            let meant = behind_a_sign::<Q>(text).unwrap_or_default();
            let fault = Fault::new(format!("{typed} does not begin with a number"));
            fault.help(format!("write \"{meant}\""))
        }
        UnitError::NoNumber => {
            Fault::new(format!("{typed} does not begin with a number")).help(example::<Q>())
        }
        UnitError::NotFinite => {
            Fault::new(format!("{typed} is too large to be a number")).help(example::<Q>())
        }
        UnitError::NoUnit { .. } => {
            Fault::new(format!("{typed} has no unit")).allowed(units::<Q>()).help(example::<Q>())
        }
        UnitError::WrongUnit { found, .. } => {
            let range = found.starts_with(['-', '\u{2013}']) || found.starts_with("to ");
            let what = match range {
                true => format!("{typed} is a range, not one number"),
                false => format!("{} in {typed} is not a unit of {}", quoted(found), Q::NAME),
            };
            let spelt = spelt(found);
            let names = || Q::UNITS.iter().map(|unit| unit.name);
            let same = names().find(|name| *name == spelt);
            let near = same.or_else(|| closest(spelt, names().filter(|name| name.len() > 1)));
            let begins = |c: char| found.starts_with(c);
            let help = match near {
                // A thousand of one is three times and more of the other.
                _ if Q::NAME == "temperature"
                    && matches!(found.trim(), "\u{b0}" | "deg" | "degree" | "degrees") =>
                {
                    "is it degF or degC? Write which".to_owned()
                }
                _ if range => "write one number, such as the mean of the two".to_owned(),
                _ if begins('*') || begins('/') => "write what it comes to".to_owned(),
                _ if Q::NAME == "power" && a_thousand_or_a_million(text).is_some() => {
                    a_thousand_or_a_million(text).unwrap_or_default()
                }
                _ if found == "k" && Q::NAME == "power" => "is it kBtu/h or kW? Write which".to_owned(),
                Some(near) => format!("did you mean {near}?"),
                None => example::<Q>(),
            };
            Fault::new(what).allowed(units::<Q>()).help(help)
        }
    }
}

/// The unit as units are named here, where words or signs stand for it.
fn spelt(found: &str) -> &str {
    match found.to_lowercase().as_str() {
        "'" | "\u{2032}" | "\u{2019}" | "foot" | "feet" => "ft",
        "''" | "\"" | "\u{2033}" | "inch" | "inches" => "in",
        "sf" | "sq. ft." | "sq.ft." | "sqft." | "square feet" | "square foot" => "ft2",
        "fahrenheit" | "degrees f" | "deg. f" => "degF",
        "celsius" | "degrees c" | "deg. c" | "centigrade" => "degC",
        "kilowatt" | "kilowatts" => "kW",
        "watt" | "watts" => "W",
        _ => found,
    }
}

/// What to write for MBtu/h, in which M is a thousand to the trade and a million elsewhere, and for MMBtu/h.
fn a_thousand_or_a_million(text: &str) -> Option<String> {
    let (number, unit) = split_number(text).ok()?;
    // Rounded so that the product is no more exact than its factors.
    let thousand = (number * 1e9).round() / 1e6;
    match plain_unit(unit).as_str() {
        "mbtu/h" => Some(format!(
            "M is a thousand in the trade: write {number} kBtu/h, or {number} MBH; for a million write {thousand} kBtu/h"
        )),
        "mmbtu/h" => Some(format!("write {thousand} kBtu/h")),
        _ => None,
    }
}

/// The same with a decimal point, where a comma stands for it.
fn decimal_comma(text: &str) -> Option<String> {
    let (whole, rest) = text.trim().rsplit_once(',')?;
    let is_number = |text: &str| !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit() || b == b'.');
    let decimals = rest.bytes().take_while(u8::is_ascii_digit).count();
    let written = is_number(whole.trim_start_matches(['-', '+'])) && decimals > 0;
    let point = format!("{}.{rest}", whole.replace('.', ""));
    (written && split_number(&point).is_ok()).then_some(point)
}

/// The quantity that stands behind "about" or a sign of that meaning, or whose minus sign stands apart.
fn behind_a_sign<Q: Quantity>(text: &str) -> Option<String> {
    let begins = text.find(|c: char| c.is_ascii_digit())?;
    let (sign, number) = text.split_at(begins);
    let minus = if sign.trim() == "-" { "-" } else { "" };
    let meant = format!("{minus}{number}");
    (!number.contains('"') && Q::parse(&meant).is_ok()).then_some(meant)
}

fn units<Q: Quantity>() -> String {
    // One-letter spellings are accepted but not advertised: C and F read badly in a list.
    let names = Q::UNITS.iter().map(|unit| unit.name).filter(|name| !matches!(*name, "C" | "F"));
    let mut names: Vec<_> = names.collect();
    if names.contains(&"kelvin") {
        names.retain(|name| *name != "K");
    }
    format!("a number and one of {}", names.join(", "))
}

fn example<Q: Quantity>() -> String {
    let example = match Q::NAME {
        "temperature" => "70 degF\" or \"21 degC",
        "power" => "36000 Btu/h\" or \"10.5 kW",
        "area" => "2600 ft2\" or \"240 m2",
        "temperature difference" => "-3.5 degF\" or \"-2 K",
        "measure" => "37 in\" or \"94 cm",
        "length" => "1150 ft\" or \"350 m",
        "heat capacity" => "6 kWh/K\" or \"11400 Btu/degF",
        "energy" => "2.6 kWh",
        "energy a year" => "6000 kWh/year\" or \"500 kWh/month",
        "span of years" => "15 years",
        "water use" => "50 gal/day\" or \"190 L/day",
        "electric current" => "40 A",
        _ => return "write a number and its unit".to_owned(),
    };
    format!("write it as in \"{example}\"")
}

/// One of a few words.
pub(super) fn word<T: Copy + 'static>(
    words: &'static [(&'static str, T)],
) -> impl Fn(&DeValue<'_>) -> Result<T, Fault> {
    move |value| {
        let typed = value.as_str().unwrap_or_default();
        if let Some((_, found)) = words.iter().find(|(word, _)| *word == typed) {
            return Ok(*found);
        }
        let known: Vec<_> = words.iter().map(|(word, _)| *word).collect();
        let fault = Fault::new(format!("{} is not one of the words for this key", described(value)));
        let fault =
            fault.allowed(known.iter().map(|word| format!("\"{word}\"")).collect::<Vec<_>>().join(", "));
        Err(match closest(typed, known) {
            Some(near) => fault.help(format!("did you mean \"{near}\"?")),
            None => fault,
        })
    }
}

/// A time of day such as `"22:00"`.
pub(super) fn clock_time(value: &DeValue<'_>) -> Result<ClockTime, Fault> {
    value.as_str().and_then(ClockTime::parse).ok_or_else(|| {
        let fault = Fault::new(format!("{} is not a time of day in quotation marks", described(value)));
        let help = match value {
            DeValue::Datetime(time) => format!("write \"{}\"", time.to_string().get(..5).unwrap_or_default()),
            DeValue::String(text) if text.trim() == "24:00" => {
                "write the midnight that ends a day as \"00:00\"".into()
            }
            _ => "write it as in \"22:00\"".to_owned(),
        };
        fault.allowed("00:00 to 23:59").help(help)
    })
}

/// A day of the year such as `"01-10"`.
pub(super) fn month_day(value: &DeValue<'_>) -> Result<MonthDay, Fault> {
    value.as_str().and_then(MonthDay::parse).ok_or_else(|| {
        let fault = Fault::new(format!("{} is not a day of the year", described(value)));
        let help = match value.as_str().and_then(meant_day) {
            Some((_, day)) => format!("write \"{day}\""),
            None => "write 10 January as \"01-10\"".to_owned(),
        };
        fault.allowed("\"01-01\" to \"12-31\", month first").help(help)
    })
}

/// The year, if any, and the day that a date in another form can only mean: `Jan 10`, `March 15, 2026`,
/// `3/15/2026`, `28-02`; nothing for one such as 3/4.
pub(super) fn meant_day(text: &str) -> Option<(Option<i32>, MonthDay)> {
    let parts: Vec<_> = text.split(|c: char| !c.is_alphanumeric()).filter(|part| !part.is_empty()).collect();
    let month_of =
        |word: &str| word.parse::<chrono::Month>().ok().map(|month| month.number_from_month() as i32);
    let number = |word: &str| word.trim_end_matches(|c: char| c.is_ascii_alphabetic()).parse::<i32>().ok();
    let year = parts.iter().position(|part| part.len() == 4 && number(part).is_some_and(|y| y > 1900));
    let rest = parts.iter().enumerate().filter(|(i, _)| Some(*i) != year).map(|(_, part)| *part);
    let [first, second] = rest.collect::<Vec<_>>().try_into().ok()?;
    let (month, day) = match (month_of(first), month_of(second)) {
        (Some(month), None) => (month, number(second)?),
        (None, Some(month)) => (month, number(first)?),
        _ => match (number(first)?, number(second)?) {
            // A year in front is followed by the month in every country.
            (month, day) if day > 12 || year == Some(0) => (month, day),
            (day, month) if day > 12 => (month, day),
            _ => return None,
        },
    };
    let day = MonthDay::of(u8::try_from(month).ok()?, u8::try_from(day).ok()?)?;
    Some((year.and_then(|at| number(parts.get(at)?)), day))
}
