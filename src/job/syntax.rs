//! What the TOML parser found wrong with the form of the text, in plain words.
//!
//! Must never know keys. Start at [`problems`].

use std::collections::BTreeSet;
use std::ops::Range;

use toml::de::Error;

use super::found::MOST_PROBLEMS;
use super::sections::problem_at;
use super::wording::{Fault, quoted};
use crate::problem::Problem;

/// The parser's errors as problems, in the order of the text.
pub(super) fn problems(file: &str, text: &str, errors: &[Error]) -> Vec<Problem> {
    if let Some(end) = open_list(text, errors) {
        let fault = Fault::new("the list that ends here lacks its closing ]");
        return vec![placed(
            file,
            text,
            end.saturating_sub(1)..end,
            fault.help("write ] behind its last value"),
        )];
    }
    let broken_header = has_broken_header(errors);
    let mut problems: Vec<_> = errors
        .iter()
        // Below a header that cannot be read, keys seem to repeat those of the table above.
        .filter(|error| !(broken_header && error.message().starts_with("duplicate key")))
        .take(MOST_PROBLEMS)
        .map(|error| problem(file, text, error))
        .collect();
    problems.sort_by_key(|problem| problem.span.as_ref().map(|span| span.start));
    let mut lines = BTreeSet::new();
    // One slip in a line often breaks the rest of it: the first error is the true one.
    problems.retain(|problem| lines.insert(problem.line));
    let mut sorts = BTreeSet::new();
    problems.retain(|problem| !problem.what.ends_with(LIST_OF_ONE) || sorts.insert(problem.what.clone()));
    problems
}

/// Whether what stands below a slip cannot be told apart from it: a header or a list is broken, so that what
/// follows seems to be of another table, or of the list.
pub(super) fn hides_the_rest(text: &str, errors: &[Error]) -> bool {
    has_broken_header(errors) || open_list(text, errors).is_some()
}

fn has_broken_header(errors: &[Error]) -> bool {
    errors.iter().any(|error| {
        let message = error.message();
        message.starts_with("unclosed table") || message.starts_with("unclosed array table")
    })
}

/// Where a list ends that is not closed, so that headers and keys below it seem to be its values.
fn open_list(text: &str, errors: &[Error]) -> Option<usize> {
    let commas = errors.iter().filter(|error| error.message().starts_with(NO_COMMA));
    let first = commas.filter_map(|error| error.span()).map(|span| span.start).min()?;
    let (above, line) = (text.get(..first)?, text.get(first..)?.lines().next()?);
    let begins_line = above.lines().last().is_none_or(|line| line.trim().is_empty()) || above.ends_with('\n');
    let is_key = line.split_once('=').is_some_and(|(key, _)| key.trim().chars().all(is_of_key));
    (begins_line && (line.starts_with('[') || is_key)).then(|| without_headers(above).len())
}

/// The text without headers at its end: behind a comma they look like lists in the list.
fn without_headers(text: &str) -> &str {
    let mut text = text.trim_end();
    while let Some((above, last)) = text.rsplit_once('\n') {
        let name = last.trim().trim_start_matches('[').trim_end_matches(']');
        if !(last.starts_with('[') && last.ends_with(']') && name.chars().all(is_of_key)) {
            break;
        }
        text = above.trim_end();
    }
    text
}

fn is_of_key(c: char) -> bool {
    c.is_alphanumeric() || matches!(c, '_' | '-' | '.')
}

/// How the parser begins to say that values of a list are not parted.
const NO_COMMA: &str = "missing comma between array elements";
/// How the problem ends that [section] and [[section]] are one name.
const LIST_OF_ONE: &str = "in single brackets";

fn problem(file: &str, text: &str, error: &Error) -> Problem {
    let span = error.span().unwrap_or(0..0);
    let (start, end) = (span.start.min(text.len()), span.end.min(text.len()));
    let around = Around {
        before: text.get(..start).and_then(|text| text.rsplit('\n').next()).unwrap_or_default(),
        found: text.get(start..end).unwrap_or_default(),
        rest: text.get(start..).and_then(|text| text.lines().next()).unwrap_or_default(),
    };
    let fault = slip(error.message(), &around).unwrap_or_else(|| worded(error.message(), around.found));
    placed(file, text, start..end.max(start), fault)
}

fn placed(file: &str, text: &str, span: Range<usize>, fault: Fault) -> Problem {
    let mut problem = problem_at(file, text, &span, "", fault.what);
    problem.key = None;
    (problem.allowed, problem.help) = (fault.allowed, fault.help);
    problem
}

/// The place of an error within its line.
struct Around<'a> {
    before: &'a str,
    found: &'a str,
    /// From the place to the end of the line.
    rest: &'a str,
}

/// What people mean who do not write this form every day.
fn slip(message: &str, around: &Around<'_>) -> Option<Fault> {
    let Around { before, found, rest } = *around;
    let starts = |start: &str| message.starts_with(start);
    let digits = |text: &str| text.chars().next().is_some_and(|c| c.is_ascii_digit());
    let bare = starts("string values must be quoted");
    if bare && found.starts_with(CURLY) {
        let text = found.trim_matches(|c| CURLY.contains(&c));
        Some(
            Fault::new("these quotation marks are curly")
                .help(format!("write \"{text}\", with straight ones")),
        )
    } else if (bare || starts("invalid boolean")) && yes_or_no(found).is_some() {
        let meant = yes_or_no(found).unwrap_or_default();
        Some(
            Fault::new(format!("{} is neither true nor false", quoted(found))).help(format!("write {meant}")),
        )
    } else if bare
        && found.split_once(' ').is_some_and(|(number, _)| number.parse::<f64>().is_ok())
        && rest.get(found.len()..).is_some_and(|rest| rest.trim_start().starts_with('='))
    {
        let number = found.split(' ').next().unwrap_or_default();
        Some(
            Fault::new(format!("a comma is missing behind {number}"))
                .help("part key = value from the next by a comma"),
        )
    } else if rest.starts_with(',')
        && before.ends_with(|c: char| c.is_ascii_digit())
        && rest.get(1..).is_some_and(digits)
    {
        Some(
            Fault::new("a comma stands in this number")
                .help("write a point before decimals, and thousands without a comma"),
        )
    } else if rest.starts_with('.') && rest.get(1..).is_some_and(digits) {
        let number: String = rest.chars().skip(1).take_while(char::is_ascii_digit).collect();
        Some(Fault::new("this number begins with its point").help(format!("write 0.{number}")))
    } else if rest.starts_with(';') || rest.starts_with("//") {
        let sign = if rest.starts_with(';') { "a semicolon" } else { "//" };
        Some(
            Fault::new(format!("{sign} stands behind the value")).help("take it out; a remark begins with #"),
        )
    } else if starts("invalid unquoted key") && rest.starts_with(':') {
        let key = before.trim();
        Some(Fault::new("a colon stands behind the key").help(format!("write {key} = and then the value")))
    } else if starts("key with no value") && !before.contains('=') && rest.contains('=') {
        let key = format!("{before}{}", rest.split('=').next().unwrap_or_default());
        let key = key.split_whitespace().collect::<Vec<_>>().join("_");
        Some(Fault::new("a key has no blanks in it").help(format!("write {key} = and then the value")))
    } else if starts(NO_COMMA) {
        Some(Fault::new("a comma is missing before this").help("part the values of a list by commas"))
    } else if starts("duplicate key") && before.trim() == "[[" {
        let what = format!("{} stands above {LIST_OF_ONE}", quoted(found));
        Some(Fault::new(what).help(format!("begin each with [[{}]]", quoted(found).trim_matches('\''))))
    } else {
        None
    }
}

const CURLY: [char; 6] = ['\u{201c}', '\u{201d}', '\u{201e}', '\u{2018}', '\u{2019}', '\u{201a}'];

/// The flag that a word means.
fn yes_or_no(word: &str) -> Option<&'static str> {
    match word.trim().to_lowercase().as_str() {
        "yes" | "y" | "on" | "true" => Some("true"),
        "no" | "n" | "off" | "false" => Some("false"),
        _ => None,
    }
}

fn worded(message: &str, found: &str) -> Fault {
    let starts = |start: &str| message.starts_with(start);
    let shown = quoted(found);
    if starts("string values must be quoted") && found.trim().is_empty() {
        Fault::new("there is no value after the equals sign").help("write a value, or take the line out")
    } else if starts("string values must be quoted") {
        Fault::new(format!("{shown} must stand in quotation marks"))
            .help(format!("write \"{}\"", quoted(found).trim_matches('\'')))
    } else if starts("duplicate key") {
        Fault::new(format!("{shown} is given twice")).help("keep one of the two")
    } else if starts("unclosed table") {
        Fault::new("this header lacks its closing ]").help("write it as in [house]")
    } else if starts("unclosed array table") {
        Fault::new("this header lacks its closing ]]").help("write it as in [[equipment]]")
    } else if starts("unclosed array") {
        Fault::new("this list lacks its closing ]").help("write ] behind its last value")
    } else if starts("unclosed inline table") {
        Fault::new("this table lacks its closing }").help("write } behind its last value")
    } else if starts("key with no value") {
        Fault::new("there is no value for this key").help("write it as in key = \"value\"")
    } else if starts("invalid basic string") || starts("invalid literal string") {
        string(found)
    } else if starts("cannot recurse") || starts("recursion limit") {
        Fault::new("lists and tables are nested too deep").allowed("up to 80 levels")
    } else if starts("unexpected key or value") || starts("unexpected content") {
        Fault::new("the line should end here")
            .help("write one key = value on each line, and texts in quotation marks")
    } else {
        other(message)
    }
}

fn string(found: &str) -> Fault {
    if found.trim().is_empty() {
        Fault::new("the closing quotation mark is missing").help("write it as in key = \"value\"")
    } else {
        Fault::new(format!("{} cannot stand in a text", quoted(found)))
            .help("write a backslash in a text as \\\\, and leave control characters out")
    }
}

fn other(message: &str) -> Fault {
    match message.split_once(", expected ") {
        Some((what, "nothing")) => Fault::new(what),
        Some((what, expected)) => Fault::new(what).allowed(expected),
        None => Fault::new(message),
    }
}
