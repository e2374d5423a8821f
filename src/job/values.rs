//! Single TOML values into texts, numbers, quantities and choices, or a fault in plain words.
//!
//! Must never know keys or places in the text. Start at [`quantity`].

use toml::de::DeValue;

use super::limits::Limits;
use super::typed::ClockTime;
use super::wording::{Fault, closest, described, digits, quoted};
use crate::calendar::MonthDay;
use crate::units::{Quantity, UnitError, split_number};

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
                    Some(percent) => fault.help(share(percent)),
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
        let fault = || Fault::new(format!("{typed} is no whole number"));
        if typed.fract() == 0.0 { Ok(typed) } else { Err(fault().help("write a whole number, such as 7")) }
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
            let fault =
                Fault::new(format!("a {} with its unit is needed here, not {}", Q::NAME, described(value)));
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
    let typed = quoted(typed);
    match error {
        UnitError::NoNumber if typed.contains(',') => {
            Fault::new(format!("{typed} does not begin with a number"))
                .help("the decimal sign is a point; commas only part thousands, as in 33,250")
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
            let what = format!("{} in {typed} is not a unit of {}", quoted(found), Q::NAME);
            let spelt = match found.to_lowercase().as_str() {
                "'" | "\u{2032}" | "\u{2019}" | "foot" | "feet" => "ft",
                "''" | "\"" | "\u{2033}" | "inch" | "inches" => "in",
                _ => found,
            };
            let near = closest(spelt, Q::UNITS.iter().map(|unit| unit.name).filter(|name| name.len() > 1));
            let help = match near {
                // A thousand of one is three times and more of the other.
                _ if found == "k" && Q::NAME == "power" => "is it kBtu/h or kW? Write which".to_owned(),
                Some(near) => format!("did you mean {near}?"),
                None => example::<Q>(),
            };
            Fault::new(what).allowed(units::<Q>()).help(help)
        }
    }
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
        fault.allowed("00:00 to 23:59").help("write it as in \"22:00\"")
    })
}

/// A day of the year such as `"01-10"`.
pub(super) fn month_day(value: &DeValue<'_>) -> Result<MonthDay, Fault> {
    value.as_str().and_then(MonthDay::parse).ok_or_else(|| {
        let fault = Fault::new(format!("{} is not a day of the year", described(value)));
        fault.allowed("\"01-01\" to \"12-31\", month first").help("write 10 January as \"01-10\"")
    })
}
