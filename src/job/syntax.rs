//! What the TOML parser found wrong with the form of the text, in plain words.
//!
//! Must never know keys. Start at [`problems`].

use std::collections::BTreeSet;
use std::ops::Range;

use toml::de::Error;

use super::found::MOST_PROBLEMS;
use super::sections::problem_at;
use super::slips::{Around, LIST_OF_ONE, NO_COMMA, NOT_OPENED, comma_in_braces, slip};
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
    if problems.iter().any(|problem| problem.what.starts_with(NOT_OPENED)) {
        // What stands below seems to be of the table above.
        let seeming = [LIST_OF_ONE, "is given twice"];
        problems.retain(|problem| !seeming.iter().any(|end| problem.what.ends_with(end)));
    }
    if open_braces(text, errors) {
        problems.truncate(1);
    }
    below_a_second_header(text, &mut problems);
    problems
}

/// Whether a table in braces is not closed, so that the lines below it seem to be of it.
fn open_braces(text: &str, errors: &[Error]) -> bool {
    let inside = ["missing key for inline table", "missing comma between key-value", "invalid inline table"];
    let inside = errors.iter().filter(|e| inside.iter().any(|start| e.message().starts_with(start)));
    let lines = inside
        .filter_map(|e| e.span())
        .map(|span| text.get(..span.start).map_or(0, |above| above.bytes().filter(|b| *b == b'\n').count()));
    lines.collect::<BTreeSet<_>>().len() > 1
}

/// Keys below a header that stands twice are not told as given twice too.
fn below_a_second_header(text: &str, problems: &mut Vec<Problem>) {
    let twice = problems.iter().filter(|p| p.what.ends_with("] stands twice"));
    let twice: Vec<Range<usize>> = twice.filter_map(|p| p.span.clone()).collect();
    let ends = twice.iter().map(|span| {
        let below = text.get(span.end..).and_then(|below| below.find("\n["));
        span.end..below.map_or(text.len(), |at| span.end + at)
    });
    let below: Vec<Range<usize>> = ends.collect();
    problems.retain(|p| {
        let start = p.span.as_ref().map_or(0, |span| span.start);
        !(p.what.ends_with("is given twice") && below.iter().any(|range| range.contains(&start)))
    });
}

/// Whether what stands below a slip cannot be told apart from it: a header or a list is broken, so that what
/// follows seems to be of another table, or of the list.
pub(super) fn hides_the_rest(text: &str, errors: &[Error]) -> bool {
    has_broken_header(errors) || open_list(text, errors).is_some() || open_braces(text, errors)
}

fn has_broken_header(errors: &[Error]) -> bool {
    errors.iter().any(|error| {
        let message = error.message();
        message.starts_with("unclosed table") || message.starts_with("unclosed array table")
    })
}

/// Where a list ends that is not closed, so that headers and keys below it seem to be its values.
fn open_list(text: &str, errors: &[Error]) -> Option<usize> {
    let empty = |at: usize| {
        let above = text.get(..at).unwrap_or_default();
        above.ends_with('\n') && without_remarks(above).ends_with('[')
    };
    let spans = errors.iter().filter_map(|error| Some((error.message(), error.span()?.start)));
    let in_list = spans.filter(|(message, at)| message.starts_with(NO_COMMA) || empty(*at));
    let first = in_list.map(|(_, at)| at).min()?;
    let (above, line) = (text.get(..first)?, text.get(first..)?.lines().next()?);
    let begins_line = above.lines().last().is_none_or(|line| line.trim().is_empty()) || above.ends_with('\n');
    let is_key = line.split_once('=').is_some_and(|(key, _)| key.trim().chars().all(is_of_key));
    (begins_line && (line.starts_with('[') || is_key)).then(|| without_headers(above).len())
}

/// The text without headers at its end: behind a comma they look like lists in the list.
fn without_headers(text: &str) -> &str {
    let mut text = without_remarks(text);
    while let Some((above, last)) = text.rsplit_once('\n') {
        let name = last.trim().trim_start_matches('[').trim_end_matches(']');
        if !(last.starts_with('[') && last.ends_with(']') && name.chars().all(is_of_key)) {
            break;
        }
        text = without_remarks(above);
    }
    text
}

/// The text without remarks and blank lines at its end: a bracket is missing before them.
fn without_remarks(text: &str) -> &str {
    let mut text = text.trim_end();
    loop {
        let line = text.rfind('\n').map_or(0, |at| at + 1);
        let Some(remark) = remark_at(text.get(line..).unwrap_or_default()) else { return text };
        text = text.get(..line + remark).unwrap_or_default().trim_end();
    }
}

/// Where a line's remark begins: at the first # that stands in no text.
fn remark_at(line: &str) -> Option<usize> {
    let mut quote = None;
    for (at, c) in line.char_indices() {
        match (c, quote) {
            ('#', None) => return Some(at),
            ('"' | '\'', None) => quote = Some(c),
            (c, Some(open)) if c == open => quote = None,
            _ => {}
        }
    }
    None
}

fn is_of_key(c: char) -> bool {
    c.is_alphanumeric() || matches!(c, '_' | '-' | '.')
}

fn problem(file: &str, text: &str, error: &Error) -> Problem {
    let span = error.span().unwrap_or(0..0);
    let (start, end) = (span.start.min(text.len()), span.end.min(text.len()));
    let around = Around {
        before: text.get(..start).and_then(|text| text.rsplit('\n').next()).unwrap_or_default(),
        found: text.get(start..end).unwrap_or_default(),
        rest: text.get(start..).and_then(|text| text.lines().next()).unwrap_or_default(),
        text,
    };
    let line = start - around.before.len();
    let whole = text.get(line..).and_then(|text| text.lines().next()).unwrap_or_default();
    if let Some((at, fault)) = comma_in_braces(whole) {
        return placed(file, text, line + at.start..line + at.end, fault);
    }
    if let Some(end) = open_row(text, start, error.message()) {
        let fault = Fault::new("the table in braces that ends here lacks its closing }");
        return placed(file, text, end.saturating_sub(1)..end, fault.help("write } behind its last value"));
    }
    let fault = slip(error.message(), &around).unwrap_or_else(|| worded(error.message(), around.found));
    placed(file, text, start..end.max(start), fault)
}

/// Where a table in braces ends that is not closed, so that the list's end or next row seems to be of it.
fn open_row(text: &str, at: usize, message: &str) -> Option<usize> {
    let starts = ["invalid inline table element", "missing key for inline table"];
    let (above, rest) = (text.get(..at)?, text.get(at..)?);
    let begins_line = above.rsplit('\n').next()?.trim().is_empty();
    let meant = begins_line && rest.starts_with([']', '{']) && starts.iter().any(|s| message.starts_with(s));
    meant.then(|| without_remarks(above).trim_end_matches(',').trim_end().len())
}

fn placed(file: &str, text: &str, span: Range<usize>, fault: Fault) -> Problem {
    let mut problem = problem_at(file, text, &span, "", fault.what);
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
            .help("write one key = value on each line, texts in quotation marks, and # before a remark")
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
