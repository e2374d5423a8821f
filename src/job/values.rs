//! Single TOML values into texts, numbers, quantities and choices, or a [`Fault`] in plain words.
//!
//! Must never know keys or places in the text. Start at [`quantity`].

use toml::de::DeValue;

use super::typed::ClockTime;
use crate::calendar::MonthDay;
use crate::units::{Quantity, UnitError, split_number};

/// What is wrong with one value, not yet knowing where it stands.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct Fault {
    pub(super) what: String,
    pub(super) allowed: Option<String>,
    pub(super) help: Option<String>,
}

impl Fault {
    pub(super) fn new(what: impl Into<String>) -> Self {
        Self { what: what.into(), ..Self::default() }
    }

    pub(super) fn allowed(mut self, allowed: impl Into<String>) -> Self {
        self.allowed = Some(allowed.into());
        self
    }

    pub(super) fn help(mut self, help: impl Into<String>) -> Self {
        self.help = Some(help.into());
        self
    }
}

/// The range of a number in its base unit; both ends are allowed unless `above` leaves out the low one.
#[derive(Debug, Clone, Copy)]
pub(super) struct Limits {
    low: f64,
    high: f64,
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
    fn hold(self, x: f64) -> bool {
        let low_enough = if self.above { x > self.low } else { x >= self.low - slack(self.low) };
        low_enough && x <= self.high + slack(self.high)
    }

    fn words(self, unit: &str, show: impl Fn(f64) -> f64) -> String {
        let unit = if unit.is_empty() { String::new() } else { format!(" {unit}") };
        let (low, high) = (digits(show(self.low)), digits(show(self.high)));
        if self.above { format!("more than {low}, up to {high}{unit}") } else { format!("{low} to {high}{unit}") }
    }
}

/// The printed limit must itself be accepted after its trip through °F or Btu/h.
fn slack(limit: f64) -> f64 {
    limit.abs() * 1e-6
}

/// A number for a message: four significant digits, thousands separated.
pub(super) fn digits(x: f64) -> String {
    if x == 0.0 || !x.is_finite() {
        return "0".to_owned();
    }
    let decimals = (3 - x.abs().log10().floor() as i32).max(0) as usize;
    let text = format!("{x:.decimals$}");
    let text = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    let (whole, fraction) = text.split_once('.').unwrap_or((text, ""));
    let (sign, whole) = whole.strip_prefix('-').map_or(("", whole), |rest| ("-", rest));
    let mut grouped = String::new();
    for (i, digit) in whole.chars().enumerate() {
        if i > 0 && (whole.len() - i).is_multiple_of(3) {
            grouped.push(',');
        }
        grouped.push(digit);
    }
    if fraction.is_empty() { format!("{sign}{grouped}") } else { format!("{sign}{grouped}.{fraction}") }
}

/// A text for a message: in single quotes, control characters escaped, cut after 60 characters.
pub(super) fn quoted(text: &str) -> String {
    let mut shown: String = text.chars().take(60).flat_map(escaped).collect();
    if text.chars().nth(60).is_some() {
        shown.push('\u{2026}');
    }
    format!("'{shown}'")
}

fn escaped(letter: char) -> Vec<char> {
    // Direction marks would let a text turn the rest of the line around.
    let hidden = letter.is_control()
        || matches!(letter, '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{feff}');
    if hidden { letter.escape_unicode().collect() } else { vec![letter] }
}

/// What a value is, for a message.
pub(super) fn described(value: &DeValue<'_>) -> String {
    match value {
        DeValue::String(text) => format!("the text {}", quoted(text)),
        DeValue::Integer(number) => format!("the number {}", quoted(number.as_str()).trim_matches('\'')),
        DeValue::Float(number) => format!("the number {}", quoted(number.as_str()).trim_matches('\'')),
        DeValue::Boolean(flag) => flag.to_string(),
        DeValue::Datetime(time) => format!("the date or time {time}"),
        DeValue::Array(_) => "a list".to_owned(),
        DeValue::Table(_) => "a table".to_owned(),
    }
}

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
    move |value| {
        let typed = match value {
            DeValue::Integer(number) => i64::from_str_radix(number.as_str(), number.radix()).ok().map(|n| n as f64),
            DeValue::Float(number) => number.as_str().parse().ok(),
            other => {
                let fault = Fault::new(format!("a number is needed here, not {}", described(other)));
                return Err(fault.allowed(limits.words("", |x| x)).help(number_help(other)));
            }
        };
        match typed.filter(|x: &f64| x.is_finite() && limits.hold(*x)) {
            Some(x) => Ok(x),
            None => Err(Fault::new(format!("{} is out of range", described(value))).allowed(limits.words("", |x| x))),
        }
    }
}

fn number_help(value: &DeValue<'_>) -> String {
    match value.as_str().map(|text| text.trim().trim_end_matches('%').parse::<f64>()) {
        Some(Ok(_)) if value.as_str().is_some_and(|text| text.contains('%')) => {
            "write a share such as 0.95 instead of 95 %".to_owned()
        }
        Some(Ok(_)) => "leave the quotation marks out".to_owned(),
        _ => "write a number without quotation marks".to_owned(),
    }
}

/// A number with its unit, within the limits (in the base unit).
pub(super) fn quantity<Q: Quantity>(limits: Limits) -> impl Fn(&DeValue<'_>) -> Result<Q, Fault> {
    move |value| {
        let Some(typed) = value.as_str() else {
            let fault = Fault::new(format!("a {} with its unit is needed here, not {}", Q::NAME, described(value)));
            return Err(fault.allowed(units::<Q>()).help(example::<Q>()));
        };
        let read = Q::parse(typed).map_err(|error| unit_fault::<Q>(typed, &error))?;
        if limits.hold(read.base()) {
            return Ok(read);
        }
        let unit = split_number(typed).map(|(_, unit)| unit).unwrap_or_default();
        let shown = limits.words(unit, |base| Q::from_base(base).in_unit(unit).unwrap_or(base));
        Err(Fault::new(format!("{} is out of range", quoted(typed))).allowed(shown))
    }
}

fn unit_fault<Q: Quantity>(typed: &str, error: &UnitError) -> Fault {
    let typed = quoted(typed);
    match error {
        UnitError::NoNumber if typed.contains(',') => Fault::new(format!("{typed} does not begin with a number"))
            .help("the decimal sign is a point; commas only part thousands, as in 33,250"),
        UnitError::NoNumber => Fault::new(format!("{typed} does not begin with a number")).help(example::<Q>()),
        UnitError::NotFinite => Fault::new(format!("{typed} is too large to be a number")).help(example::<Q>()),
        UnitError::NoUnit { .. } => {
            Fault::new(format!("{typed} has no unit")).allowed(units::<Q>()).help(example::<Q>())
        }
        UnitError::WrongUnit { found, .. } => {
            let what = format!("{} in {typed} is not a unit of {}", quoted(found), Q::NAME);
            Fault::new(what).allowed(units::<Q>()).help(example::<Q>())
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
        "length" => "1150 ft\" or \"350 m",
        "heat capacity" => "6 kWh/K\" or \"11400 Btu/degF",
        _ => return "write a number and its unit".to_owned(),
    };
    format!("write it as in \"{example}\"")
}

/// One of a few words.
pub(super) fn word<T: Copy + 'static>(words: &'static [(&'static str, T)]) -> impl Fn(&DeValue<'_>) -> Result<T, Fault> {
    move |value| {
        let typed = value.as_str().unwrap_or_default();
        if let Some((_, found)) = words.iter().find(|(word, _)| *word == typed) {
            return Ok(*found);
        }
        let known: Vec<_> = words.iter().map(|(word, _)| *word).collect();
        let fault = Fault::new(format!("{} is not one of the words for this key", described(value)));
        let fault = fault.allowed(known.iter().map(|word| format!("\"{word}\"")).collect::<Vec<_>>().join(", "));
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

/// The nearest of the known words, if it is near enough to be meant.
pub(super) fn closest<'k>(typed: &str, known: impl IntoIterator<Item = &'k str>) -> Option<&'k str> {
    let plain = |word: &str| word.trim().to_lowercase().replace([' ', '-'], "_");
    let typed = plain(typed);
    let scored = known.into_iter().map(|word| (strsim::jaro_winkler(&typed, &plain(word)), word));
    let best = scored.max_by(|a, b| a.0.total_cmp(&b.0))?;
    (best.0 > 0.8).then_some(best.1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_in_messages_are_short_and_grouped() {
        assert_eq!(digits(3_412_141.633), "3,412,142");
        assert_eq!(digits(-130.0), "-130");
        assert_eq!(digits(0.3), "0.3");
        assert_eq!(digits(107_639.1), "107,639");
        assert_eq!(digits(999.0), "999");
    }

    #[test]
    fn texts_in_messages_cannot_steer_the_terminal() {
        assert_eq!(quoted("a\u{1b}[31m"), "'a\\u{1b}[31m'");
        assert_eq!(quoted("a\u{202e}b"), "'a\\u{202e}b'");
    }
}
