//! Problems into text for people: the source line with the place marked, and the way out below.
//!
//! Must never decide what is a problem, and never prints by itself. Start at [`render`].

use std::ops::Range;

use annotate_snippets::renderer::DecorStyle;
use annotate_snippets::{AnnotationKind, Group, Level, Renderer, Snippet};

use crate::problem::Problem;
use crate::report::figures::grouped;

/// Columns to which source lines are cut, so that a line without end does not fill the screen.
const WIDTH: usize = 120;

/// Columns to which allowed values and help are broken.
const NOTE_WIDTH: usize = 90;

/// Words all problems, each with its place shown where `text` is at hand, and a count at the end.
///
/// `colour` adds terminal colours. Problems whose span does not lie in `text` are worded plainly.
///
/// ```
/// use winterledger::{cli::messages::render, problem::Problem};
/// let problem = Problem::new("no price").in_file("job.toml").help("add one");
/// let shown = render(&[problem], None, false);
/// assert!(shown.starts_with("error: no price\n"));
/// assert!(shown.ends_with("1 problem in job.toml\n"));
/// ```
pub fn render(problems: &[Problem], text: Option<&str>, colour: bool) -> String {
    let renderer = if colour { Renderer::styled() } else { Renderer::plain() };
    let renderer = renderer.decor_style(DecorStyle::Ascii).term_width(WIDTH);
    let mut out = String::new();
    for problem in problems {
        let shown = renderer.render(&[group(problem, text)]);
        out.push_str(trimmed(&shown).as_str());
        out.push('\n');
    }
    out.push_str(&count(problems));
    out
}

fn trimmed(shown: &str) -> String {
    let mut lines: Vec<_> = shown.lines().map(str::trim_end).collect();
    // An empty gutter line above the notes costs a line and says nothing when it is the last one.
    while lines.last().is_some_and(|line| line.is_empty() || *line == "|") {
        lines.pop();
    }
    lines.iter().map(|line| format!("{line}\n")).collect()
}

fn group<'a>(problem: &'a Problem, text: Option<&'a str>) -> Group<'a> {
    let title = match &problem.key {
        Some(key) => format!("{key}: {}", problem.what),
        None => problem.what.clone(),
    };
    let mut group = Group::with_title(Level::ERROR.primary_title(title));
    match marked(problem, text) {
        Some((text, span)) => {
            let first = problem.excerpt.as_ref().and(problem.line).unwrap_or(1);
            let snippet = Snippet::source(text).line_start(first).path(problem.file.as_deref());
            group = group.element(snippet.annotation(AnnotationKind::Primary.span(span)));
        }
        None => {
            if let Some(place) = place(problem) {
                group = group.element(Level::NOTE.with_name(Some("in")).message(place));
            }
        }
    }
    if problem.more > 0 {
        group = group.element(Level::NOTE.with_name(Some("and")).message(more(problem.more)));
    }
    if let Some(allowed) = &problem.allowed {
        group = group.element(Level::NOTE.with_name(Some("allowed")).message(wrapped(allowed)));
    }
    if let Some(help) = &problem.help {
        group = group.element(Level::HELP.message(wrapped(&after_colon(help))));
    }
    group
}

/// The text, or the problem's own line of it, and the place to mark, if the place lies in it.
fn marked<'a>(problem: &'a Problem, text: Option<&'a str>) -> Option<(&'a str, Range<usize>)> {
    let (text, span) = (problem.excerpt.as_deref().or(text)?, problem.span.clone()?);
    let inside = text.get(span.clone())?;
    // A list over many lines would show all of them; its first line says enough.
    let first_line = inside.split(['\r', '\n']).next().unwrap_or_default();
    Some((text, span.start..span.start + first_line.len()))
}

fn place(problem: &Problem) -> Option<String> {
    match (&problem.file, problem.line) {
        (Some(file), Some(line)) => Some(format!("{file}, line {line}")),
        (Some(file), None) => Some(file.clone()),
        (None, Some(line)) => Some(format!("line {line}")),
        (None, None) => None,
    }
}

/// A sentence that stands after a colon: it begins small, unless its first word is a name such as TMY3.
fn after_colon(sentence: &str) -> String {
    let mut letters = sentence.chars();
    match (letters.next(), letters.next()) {
        (Some(first), Some(second)) if first.is_uppercase() && second.is_lowercase() => {
            first.to_lowercase().chain(sentence.chars().skip(1)).collect()
        }
        _ => sentence.to_owned(),
    }
}

/// Breaks a note at blanks, so that a list of many keys stays readable.
fn wrapped(note: &str) -> String {
    let mut lines = vec![String::new()];
    for word in note.split(' ') {
        let Some(line) = lines.last_mut() else { continue };
        if line.chars().count() + word.chars().count() > NOTE_WIDTH && !line.is_empty() {
            lines.push(word.to_owned());
        } else {
            if !line.is_empty() {
                line.push(' ');
            }
            line.push_str(word);
        }
    }
    lines.join("\n")
}

fn more(like_it: usize) -> String {
    format!("{} more like {}", grouped(like_it as f64, 0), if like_it == 1 { "it" } else { "these" })
}

fn count(problems: &[Problem]) -> String {
    let number = problems.len() + problems.iter().map(|problem| problem.more).sum::<usize>();
    let sort = if number == 1 { "problem" } else { "problems" };
    let number = grouped(number as f64, 0);
    let file = problems.first().and_then(|problem| problem.file.as_deref());
    let one_file = problems.iter().all(|problem| problem.file.as_deref() == file);
    match file.filter(|_| one_file) {
        Some(file) => format!("{number} {sort} in {file}\n"),
        None => format!("{number} {sort}\n"),
    }
}
