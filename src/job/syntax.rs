//! What the TOML parser found wrong with the form of the text, in plain words.
//!
//! Must never know keys. Start at [`problems`].

use std::collections::BTreeSet;

use toml::de::Error;

use super::sections::problem_at;
use super::table::MOST_PROBLEMS;
use super::values::{Fault, quoted};
use crate::problem::Problem;

/// The parser's errors as problems, in the order of the text.
pub(super) fn problems(file: &str, text: &str, errors: &[Error]) -> Vec<Problem> {
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
    problems
}

/// Whether a table's header is broken, so that the keys below it seem to be those of another table.
pub(super) fn has_broken_header(errors: &[Error]) -> bool {
    errors.iter().any(|error| {
        let message = error.message();
        message.starts_with("unclosed table") || message.starts_with("unclosed array table")
    })
}

fn problem(file: &str, text: &str, error: &Error) -> Problem {
    let span = error.span().unwrap_or(0..0);
    let (start, end) = (span.start.min(text.len()), span.end.min(text.len()));
    let found = text.get(start..end).unwrap_or_default();
    let fault = worded(error.message(), found);
    let mut problem = problem_at(file, text, &(start..end.max(start)), "", fault.what);
    problem.key = None;
    (problem.allowed, problem.help) = (fault.allowed, fault.help);
    problem
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
        Fault::new("this list lacks its closing ]")
    } else if starts("unclosed inline table") {
        Fault::new("this table lacks its closing }")
    } else if starts("key with no value") {
        Fault::new("there is no value for this key").help("write it as in key = \"value\"")
    } else if starts("invalid basic string") || starts("invalid literal string") {
        string(found)
    } else if starts("cannot recurse") || starts("recursion limit") {
        Fault::new("lists and tables are nested too deep").allowed("up to 80 levels")
    } else if starts("unexpected key or value") || starts("unexpected content") {
        Fault::new("the line should end here").help("write one key = value on each line, and texts in quotation marks")
    } else {
        other(message)
    }
}

fn string(found: &str) -> Fault {
    if found.trim().is_empty() {
        Fault::new("the closing quotation mark is missing")
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
