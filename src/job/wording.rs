//! Pieces of messages: numbers, texts and values as shown to people, and the nearest known word.
//!
//! What was typed is cut and escaped before it is shown. Must never know keys. Start at [`Fault`].

use toml::de::DeValue;

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

/// The nearest of the known words, if it is near enough to be meant.
pub(crate) fn closest<'k>(typed: &str, known: impl IntoIterator<Item = &'k str>) -> Option<&'k str> {
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
