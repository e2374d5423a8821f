//! Slips of form that people make who do not write this form every day: what was meant, from the line itself.
//!
//! Must never know keys. Start at [`slip`].

use super::wording::{Fault, quoted};

/// The place of an error within its line.
pub(super) struct Around<'a> {
    /// From the start of the line to the place.
    pub(super) before: &'a str,
    pub(super) found: &'a str,
    /// From the place to the end of the line.
    pub(super) rest: &'a str,
    /// The whole text.
    pub(super) text: &'a str,
}

/// How the parser begins to say that values of a list are not parted.
pub(super) const NO_COMMA: &str = "missing comma between array elements";
/// How the problem ends that [section] and [[section]] are one name.
pub(super) const LIST_OF_ONE: &str = "in single brackets";
/// How the problem begins that a header has its closing bracket alone.
pub(super) const NOT_OPENED: &str = "this header lacks its opening";
/// Quotation marks that are set in print.
pub(super) const CURLY: [char; 6] = ['\u{201c}', '\u{201d}', '\u{201e}', '\u{2018}', '\u{2019}', '\u{201a}'];
/// Dashes that stand for a minus sign in print.
const DASHES: [char; 5] = ['\u{2212}', '\u{2013}', '\u{2014}', '\u{2010}', '\u{2011}'];
/// What people write where they do not know yet.
const PLACEHOLDERS: [&str; 11] =
    ["n/a", "na", "none", "null", "nil", "tbd", "tba", "?", "??", "unknown", "-"];

/// What was meant, where the line shows it.
pub(super) fn slip(message: &str, around: &Around<'_>) -> Option<Fault> {
    let of_value = || {
        let bare = is_of_value(message, around).then(|| bare_value(around))?;
        remark_behind(&bare).or_else(|| value(around))
    };
    quotes(message, around)
        .or_else(of_value)
        .or_else(|| value_end(message, around))
        .or_else(|| list(message, around))
        .or_else(|| header(message, around))
        .or_else(|| line(message, around))
}

/// A number with a decimal comma in a table in braces, where it seems to end the value: `cop = 2,3 }`.
pub(super) fn comma_in_braces(line: &str) -> Option<(std::ops::Range<usize>, Fault)> {
    let braces = line.find('{')?;
    let mut places = line.match_indices(',').map(|(at, _)| at).filter(|at| *at > braces);
    places.find_map(|at| {
        let (before, after) = (line.get(..at)?, line.get(at + 1..)?);
        let key = before.rfind('=')?;
        let whole = before.get(key + 1..)?.trim_start();
        let decimals = after.len() - after.trim_start_matches(|c: char| c.is_ascii_digit()).len();
        let number = |text: &str| !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
        let ends = after.get(decimals..)?.trim_start().starts_with([',', '}']);
        let quoted = before.matches('"').count() % 2 == 1 || before.contains('#');
        if !number(whole.trim_start_matches('-')) || decimals == 0 || !ends || quoted {
            return None;
        }
        let fault = Fault::new("a comma stands in this number where its decimal point should be");
        let fault = fault.help(format!("write {whole}.{}", after.get(..decimals)?));
        Some((at - whole.len()..at + 1 + decimals, fault))
    })
}

/// A value with words behind it that are a remark without its sign.
fn remark_behind(value: &str) -> Option<Fault> {
    let (first, rest) = value.split_once([' ', '\t'])?;
    let is_value = first.parse::<f64>().is_ok() || matches!(first, "true" | "false");
    let apart = rest.starts_with([' ', '\t']) || rest.split_whitespace().nth(2).is_some();
    (is_value && apart && rest.contains(char::is_alphabetic) && !rest.contains('=')).then(|| {
        let fault = Fault::new(format!("more stands behind the value {first}"));
        let words: Vec<&str> = rest.split_whitespace().take(4).collect();
        fault.help(format!("a remark begins with #: write {first}  # {} and so on", words.join(" ")))
    })
}

fn is_of_value(message: &str, around: &Around<'_>) -> bool {
    let starts = ["string values must be quoted", "invalid ", "unexpected leading zero"];
    around.before.contains('=') && starts.iter().any(|start| message.starts_with(start))
}

/// The value that stands around the place, to its comma, bracket or remark.
fn bare_value(around: &Around<'_>) -> String {
    let begun = around.before.rsplit(['=', '[']).next().unwrap_or_default();
    let ends = |c: char| matches!(c, ',' | '}' | ']' | '#');
    let rest = around.rest.split(ends).next().unwrap_or_default();
    format!("{}{rest}", begun.trim_start()).trim().to_owned()
}

/// A value without quotation marks that is none.
fn value(around: &Around<'_>) -> Option<Fault> {
    let value = bare_value(around);
    let number = |text: &str| text.trim().parse::<f64>().ok().filter(|x| x.is_finite());
    let write = |x: f64| format!("write {x}");
    if value.starts_with(['"', '\'']) {
        return None;
    }
    if let Some(meant) = yes_or_no(&value).or_else(|| yes_or_no(around.found)) {
        let typed = if yes_or_no(&value).is_some() { value.as_str() } else { around.found };
        return Some(
            Fault::new(format!("{} is neither true nor false", quoted(typed))).help(format!("write {meant}")),
        );
    }
    if PLACEHOLDERS.contains(&value.to_lowercase().as_str()) {
        let fault = Fault::new(format!("{} is no value", quoted(&value)));
        return Some(fault.help("write the value, or take the line out until it is known"));
    }
    if let Some(percent) = value.strip_suffix('%').and_then(number) {
        let fault = Fault::new(format!("{} has a percent sign", quoted(&value)));
        return Some(fault.help(format!("write the share: {}", (percent * 1e9).round() / 1e11)));
    }
    if let Some(x) = value.strip_prefix(DASHES).and_then(number) {
        let fault = Fault::new(format!("the sign before {x} is a dash, not a minus sign"));
        return Some(fault.help(write(-x)));
    }
    if let Some((over, under)) = value.split_once('/').and_then(|(a, b)| Some((number(a)?, number(b)?)))
        && under != 0.0
    {
        let fault = Fault::new(format!("{} is a division, not its result", quoted(&value)));
        return Some(fault.help(write(((over / under) * 1e4).round() / 1e4)));
    }
    if is_day(&value) {
        let fault = Fault::new(format!("{} must stand in quotation marks", quoted(&value)));
        return Some(fault.help(format!("write \"{value}\"")));
    }
    if value.ends_with(')') && around.before.contains('{') {
        return Some(Fault::new("a round bracket ends this table").help("write } in place of )"));
    }
    let odd_digits = value.ends_with('.') || (value.starts_with('0') && !value.starts_with("0."));
    let x = number(&value).filter(|_| odd_digits)?;
    Some(Fault::new(format!("{} is not how a number is written", quoted(&value))).help(write(x)))
}

/// Digits in two or three parts, as in 01-10 or 3/15/2026.
fn is_day(value: &str) -> bool {
    let parts: Vec<_> = value.split(['-', '/', '.']).collect();
    let digits = |part: &&str| !part.is_empty() && part.bytes().all(|b| b.is_ascii_digit());
    (parts.len() == 3 || (parts.len() == 2 && value.contains('-'))) && parts.iter().all(digits)
}

/// The flag that a word means.
fn yes_or_no(word: &str) -> Option<&'static str> {
    match word.trim().to_lowercase().as_str() {
        "yes" | "y" | "on" | "true" => Some("true"),
        "no" | "n" | "off" | "false" => Some("false"),
        _ => None,
    }
}

/// A text that ends with its quotation mark but does not begin with one.
fn no_opening_quote(around: &Around<'_>) -> Option<Fault> {
    let begun = around.before.rsplit(['=', '[', ',']).next().unwrap_or_default();
    let text = format!("{begun}{}", around.rest);
    let (text, behind) = text.split_once('"')?;
    let text = Some(text.trim()).filter(|text| !text.is_empty() && !text.contains(['#', '\'']))?;
    let behind = behind.trim_start();
    if !(behind.is_empty() || behind.starts_with(['#', ',', '}', ']'])) {
        return None;
    }
    let fault = Fault::new("the opening quotation mark is missing");
    Some(fault.help(format!("write \"{}\"", quoted(text).trim_matches('\''))))
}

/// Quotation marks of print, and backslashes in a text.
fn quotes(message: &str, around: &Around<'_>) -> Option<Fault> {
    let starts = |start: &str| message.starts_with(start);
    if (starts("missing opening quote") || is_of_value(message, around))
        && let Some(fault) = no_opening_quote(around)
    {
        return Some(fault);
    }
    if starts("string values must be quoted") && around.found.starts_with(CURLY) {
        let text = around.found.trim_matches(|c| CURLY.contains(&c));
        let fault = Fault::new("these quotation marks are curly");
        return Some(fault.help(format!("write \"{text}\", with straight ones")));
    }
    if (starts("invalid basic string") || starts("invalid literal string"))
        && around.found.trim().is_empty()
        && let Some((_, text)) = around.before.rsplit_once('"')
        && text.ends_with(CURLY)
    {
        let text = text.trim_end_matches(CURLY);
        return Some(Fault::new("the closing quotation mark is curly").help(format!("write \"{text}\"")));
    }
    let escape =
        ["too few unicode value digits", "missing escaped value", "invalid escape", "invalid unicode"];
    if escape.iter().any(|start| starts(start)) {
        let fault = Fault::new("a backslash stands in this text");
        return Some(
            fault.help("write / in paths, or put the text into single quotation marks: 'C:\\my.csv'"),
        );
    }
    None
}

/// What stands behind a value that should have ended.
fn value_end(message: &str, around: &Around<'_>) -> Option<Fault> {
    let Around { before, found, rest, .. } = *around;
    let digits = |text: &str| text.chars().next().is_some_and(|c| c.is_ascii_digit());
    let bare = message.starts_with("string values must be quoted");
    if bare
        && found.split_once(' ').is_some_and(|(number, _)| number.parse::<f64>().is_ok())
        && rest.get(found.len()..).is_some_and(|rest| rest.trim_start().starts_with('='))
    {
        let number = found.split(' ').next().unwrap_or_default();
        let fault = Fault::new(format!("a comma is missing behind {number}"));
        return Some(fault.help("put a comma between one key = value and the next"));
    }
    if rest.starts_with(',')
        && before.ends_with(|c: char| c.is_ascii_digit())
        && rest.get(1..).is_some_and(digits)
    {
        let fault = Fault::new("a comma stands in this number");
        return Some(fault.help("write a point before decimals, and thousands without a comma"));
    }
    if rest.starts_with("...") || rest.starts_with('\u{2026}') {
        let fault = Fault::new("the dots stand for values that are left out");
        return Some(
            fault.help("write the values themselves with commas between them, or put # before the line"),
        );
    }
    if rest.starts_with('.') && rest.get(1..).is_some_and(digits) {
        let number: String = rest.chars().skip(1).take_while(char::is_ascii_digit).collect();
        return Some(Fault::new("this number begins with its point").help(format!("write 0.{number}")));
    }
    if message.starts_with("extra `=`")
        || (message.starts_with("key with no value") && rest.trim_start().starts_with(":="))
    {
        let key = key_of(before);
        return Some(
            Fault::new("one equals sign is enough").help(format!("write {key} = and then the value")),
        );
    }
    let ends = message.starts_with("unexpected key or value") || message.starts_with("unexpected content");
    let more = rest.get(1..).unwrap_or_default().trim_start();
    if ends && rest.starts_with([',', '+']) && more.starts_with(['"', '\'']) {
        let value = before.split_once('=').map_or("", |(_, value)| value.trim());
        let fault = Fault::new("several values stand behind one key");
        return Some(fault.help(format!("put them in brackets with commas between them: [{value}, {more}]")));
    }
    if ends && rest.trim() == "," {
        return Some(Fault::new("a comma stands behind the value").help("take it out"));
    }
    None
}

fn list(message: &str, around: &Around<'_>) -> Option<Fault> {
    message.starts_with(NO_COMMA).then(|| match around.rest.starts_with(';') {
        true => Fault::new("a semicolon stands between these values").help("write a comma in its place"),
        false => {
            Fault::new("a comma is missing before this").help("put a comma between the values of a list")
        }
    })
}

/// Headers that stand twice, are of the other sort, or are not in square brackets.
fn header(message: &str, around: &Around<'_>) -> Option<Fault> {
    let Around { before, found, rest, text } = *around;
    let line = format!("{before}{rest}");
    let line = line.trim();
    let name = quoted(found).trim_matches('\'').to_owned();
    if message.starts_with("duplicate key") && before.trim() == "[[" {
        let what = format!("{} stands above {LIST_OF_ONE}", quoted(found));
        return Some(Fault::new(what).help(format!("begin each with [[{name}]]")));
    }
    if message.starts_with("duplicate key") && line.starts_with('[') && line.ends_with(']') {
        let whole = line.trim_matches(['[', ']']).trim();
        return Some(match text.contains(&format!("[[{whole}]]")) {
            true => {
                Fault::new(format!("[{whole}] stands in single brackets, [[{whole}]] above in double ones"))
                    .help(format!("begin each with [[{whole}]]"))
            }
            false => Fault::new(format!("the table [{whole}] stands twice"))
                .help("put all of its keys below one of the two headers"),
        });
    }
    let unclosed = message.starts_with("unclosed table") || message.starts_with("unclosed array table");
    if unclosed && line.ends_with(']') && line.contains(' ') {
        let joined = line.split_whitespace().collect::<Vec<_>>().join("_");
        return Some(Fault::new("a name in a header has no blanks in it").help(format!("write {joined}")));
    }
    if let Some(fault) = no_opening_bracket(line) {
        return Some(fault);
    }
    let wrong = line.starts_with(['(', '{']) && line.ends_with([')', '}']) && !line.contains('=');
    let name = line.trim_matches(['(', ')', '{', '}', ' ']);
    wrong.then(|| Fault::new("a header stands in square brackets").help(format!("write [{name}]")))
}

/// A header that only ends with its bracket: `site]`.
fn no_opening_bracket(line: &str) -> Option<Fault> {
    let (line, _) = line.split_once('#').unwrap_or((line, ""));
    let line = line.trim();
    let name = line.trim_start_matches('[').trim_end_matches(']');
    let (opened, closed) = (line.trim_start_matches('['), line.trim_end_matches(']'));
    let lacks = opened.len() > closed.len();
    let is_name = name.starts_with(|c: char| c.is_ascii_alphabetic())
        && name.chars().all(|c| c.is_ascii_alphanumeric() || matches!(c, '_' | '-' | '.'));
    let (open, close) = if line.ends_with("]]") { ("[[", "]]") } else { ("[", "]") };
    (lacks && is_name)
        .then(|| Fault::new(format!("{NOT_OPENED} {open}")).help(format!("write {open}{name}{close}")))
}

/// Lines that are no key = value.
fn line(message: &str, around: &Around<'_>) -> Option<Fault> {
    let Around { before, rest, .. } = *around;
    let starts = |start: &str| message.starts_with(start);
    let line = format!("{before}{rest}");
    let line = line.trim();
    if let Some(sign) = [";", "//", "--", "/*"].into_iter().find(|sign| line.starts_with(sign)) {
        return Some(Fault::new(format!("{sign} does not begin a remark here")).help("begin remarks with #"));
    }
    if rest.starts_with(';') || rest.starts_with("//") {
        let sign = if rest.starts_with(';') { "a semicolon" } else { "//" };
        let fault = Fault::new(format!("{sign} stands behind the value"));
        return Some(fault.help("take it out; a remark begins with #"));
    }
    if rest.starts_with(|c: char| {
        c != ' ' && c != '\t' && c.is_whitespace() || matches!(c, '\u{200b}' | '\u{feff}')
    }) {
        let fault = Fault::new("this is no ordinary blank; it came with copied text");
        return Some(fault.help("take it out, and type a blank where one is needed"));
    }
    if starts("invalid unquoted key") && rest.starts_with(':') {
        let key = key_of(before);
        return Some(
            Fault::new("a colon stands behind the key").help(format!("write {key} = and then the value")),
        );
    }
    if !starts("key with no value") || before.contains('=') {
        return None;
    }
    if let Some((key, _)) = line.split_once('=') {
        return Some(
            Fault::new("a key has no blanks in it")
                .help(format!("write {} = and then the value", joined(key))),
        );
    }
    if let Some((key, value)) = line.split_once(':') {
        let what = "a colon stands where an equals sign should";
        return Some(Fault::new(what).help(format!(
            "write {} = \"{}\"",
            joined(key),
            value.trim().trim_matches('"')
        )));
    }
    if let Some((key, _)) = line.split_once(['"', '\'']) {
        let value = line.get(key.len()..).unwrap_or_default();
        return Some(
            Fault::new("the equals sign is missing").help(format!("write {} = {value}", joined(key))),
        );
    }
    line.contains(' ').then(|| {
        let fault = Fault::new("this line is no key = value, no header and no remark");
        fault.help("put # before a remark")
    })
}

/// The key that ends here, be it in a line or in a table in braces.
fn key_of(before: &str) -> String {
    let key = before.rsplit(['{', ',']).next().unwrap_or_default();
    key.trim().trim_end_matches(['=', ':', ' ']).to_owned()
}

fn joined(key: &str) -> String {
    key.split_whitespace().collect::<Vec<_>>().join("_")
}
