//! Changes a job: key path and value into new job text, everything else kept byte for byte.
//!
//! Comments, order and spacing stay: only the bytes of one value are replaced, or one line is
//! added. Must never judge a value: the reader does that on the new text. Start at [`set`].

use std::ops::Range;

use toml::de::{DeArray, DeTable, DeValue};

use super::path::split;
use super::wording::{closest, quoted};
use crate::problem::Problem;

/// Sets one key of a job to a value and returns the new text.
///
/// `key_path` names tables by their keys and list entries by name or by number from 1:
/// `house.zone.main.design_load`, `option.2.zone.main.compressor_lockout`,
/// `equipment."a.b".cut_out`. A `value` that is TOML (`0.95`, `true`, `["a", "b"]`, `"text"`) is
/// taken as it is, any other (`15 degF`) becomes a text. A key that its table does not have is
/// added below the table's last key.
///
/// ```
/// use winterledger::job::edit::set;
/// let text = "[site]\nextreme_low = \"-22 degF\"  # invented\n";
/// let changed = set(text, "site.extreme_low", "-30 degF").unwrap();
/// assert_eq!(changed, "[site]\nextreme_low = \"-30 degF\"  # invented\n");
/// ```
///
/// # Errors
/// A path that is not one, that leads nowhere or ends at a table with a header of its own, or a
/// text that is not TOML.
pub fn set(text: &str, key_path: &str, value: &str) -> Result<String, Problem> {
    let changed = set_unread(text, key_path, value)?;
    match DeTable::parse(&changed) {
        Ok(_) => Ok(changed),
        Err(error) => {
            let what = format!("{} does not fit here: {}", quoted(&as_toml(value)), error.message());
            Err(Problem::new(what).at_key(key_path))
        }
    }
}

/// The same for a caller who reads the new text at once and so sees whether the value fits.
///
/// # Errors
/// As [`set`], but for a text that is not TOML with the value in it.
pub fn set_unread(text: &str, key_path: &str, value: &str) -> Result<String, Problem> {
    let refuse = |problem: Problem| problem.at_key(key_path);
    let parts = split(key_path).ok_or_else(|| {
        let help = "write it as in house.zone.main.design_load; put a name with points in quotation marks";
        refuse(Problem::new("this is not a key path").help(help))
    })?;
    let root = DeTable::parse(text).map_err(|error| {
        let problem = refuse(Problem::new(format!("the job is not TOML: {}", error.message())));
        problem.help("mend the job file first")
    })?;
    let value = as_toml(value);
    let change = change(text, root.get_ref(), &parts, &value).map_err(|problem| refuse(*problem))?;
    change.applied(text).ok_or_else(|| refuse(Problem::new("the key cannot be changed")))
}

/// The value as it will stand in the text.
fn as_toml(value: &str) -> String {
    let value = value.trim();
    match DeValue::parse(value) {
        // No key of a job is a date; `22:00` and the like are texts without quotation marks.
        // A byte order mark is skipped at the start of a text, but has no place within one.
        Ok(parsed) if !parsed.get_ref().is_datetime() && !value.starts_with('\u{feff}') => value.to_owned(),
        _ => text_literal(value),
    }
}

/// A text as TOML writes it.
pub fn text_literal(value: &str) -> String {
    let mut literal = String::from("\"");
    for letter in value.chars() {
        match letter {
            '"' | '\\' => literal.extend(['\\', letter]),
            '\n' => literal.push_str("\\n"),
            '\t' => literal.push_str("\\t"),
            control if control.is_control() => literal.push_str(&format!("\\u{:04x}", u32::from(control))),
            plain => literal.push(plain),
        }
    }
    literal.push('"');
    literal
}

/// New bytes in the place of old ones.
struct Change {
    place: Range<usize>,
    by: String,
}

impl Change {
    fn applied(&self, text: &str) -> Option<String> {
        let (before, after) = (text.get(..self.place.start)?, text.get(self.place.end..)?);
        Some(format!("{before}{}{after}", self.by))
    }
}

fn change(text: &str, root: &DeTable<'_>, parts: &[String], value: &str) -> Result<Change, Box<Problem>> {
    let Some((last, way)) = parts.split_last() else {
        return Err(Box::new(Problem::new("the key path is empty")));
    };
    let mut at = At::Table(root, 0..0);
    for part in way {
        at = at.step(part)?;
    }
    match at.find(last) {
        Some(found) if has_header(text, found.0, &found.1) => {
            Err(Box::new(Problem::new("this is a whole table, not a value").help("name one of its keys")))
        }
        Some((_, place)) => Ok(Change { place, by: value.to_owned() }),
        None => at.insert(text, last, value),
    }
}

/// A place on the way down a key path.
enum At<'a> {
    Table(&'a DeTable<'a>, Range<usize>),
    List(&'a DeArray<'a>),
    Value,
}

impl<'a> At<'a> {
    fn step(&self, part: &str) -> Result<At<'a>, Box<Problem>> {
        let (value, span) = self.find(part).ok_or_else(|| self.nowhere(part))?;
        Ok(match value {
            DeValue::Table(table) => At::Table(table, span),
            DeValue::Array(list) => At::List(list),
            _ => At::Value,
        })
    }

    fn find(&self, part: &str) -> Option<(&'a DeValue<'a>, Range<usize>)> {
        let found = match self {
            At::Table(table, _) => table.get(part)?,
            At::List(list) => {
                let named = list.iter().find(|entry| name(entry.get_ref()) == Some(part));
                let number = part.parse::<usize>().ok().and_then(|number| number.checked_sub(1));
                named.or_else(|| list.get(number?))?
            }
            At::Value => return None,
        };
        Some((found.get_ref(), found.span()))
    }

    /// Why a path cannot go on with `part`.
    fn nowhere(&self, part: &str) -> Box<Problem> {
        let known: Vec<&str> = match self {
            At::Table(table, _) => table.keys().map(|key| key.get_ref().as_ref()).collect(),
            At::List(list) => list.iter().filter_map(|entry| name(entry.get_ref())).collect(),
            At::Value => {
                let what = format!("{} is below a value, which has no keys", quoted(part));
                return Box::new(Problem::new(what));
            }
        };
        let problem = Problem::new(format!("the job has no {} there", quoted(part)));
        let list = known.iter().take(30).map(|name| quoted(name)).collect::<Vec<_>>().join(", ");
        Box::new(match closest(part, known.iter().copied()) {
            Some(near) => problem.help(format!("did you mean {}?", quoted(near))),
            None if known.is_empty() => problem.help("add its table to the job file first"),
            None => problem.allowed(list).help("add its table to the job file first"),
        })
    }

    fn insert(&self, text: &str, key: &str, value: &str) -> Result<Change, Box<Problem>> {
        let At::Table(table, span) = self else { return Err(self.nowhere(key)) };
        let key = bare_or_quoted(key);
        // The root has no header; a table in braces ends with its brace.
        let start = text.get(span.clone()).and_then(|own| own.chars().next());
        let last = last_value(text, table);
        match (start, last) {
            (Some('{'), Some(last)) => Ok(Change { place: last..last, by: format!(", {key} = {value}") }),
            (Some('{'), None) => {
                let open = span.start + 1;
                Ok(Change { place: open..open, by: format!(" {key} = {value} ") })
            }
            (Some('['), last) => Ok(new_line(text, last.unwrap_or(span.end), &key, value)),
            (_, Some(last)) if *span == (0..0) => Ok(new_line(text, last, &key, value)),
            (_, None) if *span == (0..0) => {
                Ok(Change { place: 0..0, by: format!("{key} = {value}{}", line_end(text)) })
            }
            _ => Err(Box::new(
                Problem::new("this table has no header of its own to put a new key under")
                    .help("add the key to the job file by hand"),
            )),
        }
    }
}

/// What an entry of a list is called: its `name`, its `zone` in an option, or `what` it is.
fn name<'a>(entry: &'a DeValue<'_>) -> Option<&'a str> {
    let table = entry.as_table()?;
    ["name", "zone", "what"].iter().find_map(|key| table.get(*key)).and_then(|name| name.get_ref().as_str())
}

/// Whether a value is a table, or a list of tables, with headers: these are not one stretch of text.
fn has_header(text: &str, value: &DeValue<'_>, span: &Range<usize>) -> bool {
    let own = text.get(span.clone()).unwrap_or_default();
    match value {
        DeValue::Table(_) => !own.starts_with('{'),
        DeValue::Array(list) => list.iter().any(|entry| has_header(text, entry.get_ref(), &entry.span())),
        _ => false,
    }
}

/// Where the last value that stands directly in a table ends; keys of dotted tables count too.
fn last_value(text: &str, table: &DeTable<'_>) -> Option<usize> {
    let direct = table.iter().filter_map(|(_, value)| {
        let (value, span) = (value.get_ref(), value.span());
        let own = text.get(span.clone()).unwrap_or_default();
        match value {
            DeValue::Table(inner) if !own.starts_with(['{', '[']) => {
                dotted(text, span.start).then(|| last_value(text, inner)).flatten()
            }
            value => (!has_header(text, value, &span)).then_some(span.end),
        }
    });
    direct.max()
}

/// Whether the key at `start` stands in a line of its own, `a.b = 1`, and not in a header `[a.b]`.
fn dotted(text: &str, start: usize) -> bool {
    let before = text.get(..start).unwrap_or_default();
    !before.rsplit('\n').next().unwrap_or_default().trim_start().starts_with('[')
}

/// A new line below the one in which `after` stands, indented like it.
fn new_line(text: &str, after: usize, key: &str, value: &str) -> Change {
    let (before, rest) = text.split_at_checked(after).unwrap_or((text, ""));
    let line = before.rsplit('\n').next().unwrap_or_default();
    let indent: String = line.chars().take_while(|letter| matches!(letter, ' ' | '\t')).collect();
    let end = line_end(text);
    match rest.find('\n') {
        Some(newline) => {
            let at = after + newline + 1;
            Change { place: at..at, by: format!("{indent}{key} = {value}{end}") }
        }
        None => Change { place: text.len()..text.len(), by: format!("{end}{indent}{key} = {value}") },
    }
}

fn line_end(text: &str) -> &'static str {
    if text.contains("\r\n") { "\r\n" } else { "\n" }
}

fn bare_or_quoted(key: &str) -> String {
    let bare = !key.is_empty() && key.bytes().all(|b| b.is_ascii_alphanumeric() || matches!(b, b'_' | b'-'));
    if bare { key.to_owned() } else { text_literal(key) }
}
