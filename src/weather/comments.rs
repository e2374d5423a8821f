//! The leading `# key: value` lines of the plain layouts, apart from the header and the rows.
//!
//! Keys that are not known are free text, unless they look like a known one misspelt. Must never
//! know what a key means. Start at [`Parts`].

use super::findings::Findings;
use super::lines::filled_lines;
use super::spot::Spot;
use crate::problem::Problem;

/// How alike (Jaro–Winkler, 0 to 1) two words must be for one to be taken as the other misspelt.
const ALIKE: f64 = 0.88;

/// One `# key: value` line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Comment<'a> {
    /// The line, counted from 1.
    pub(super) line: usize,
    /// The whole line.
    pub(super) text: &'a str,
    /// The key in lower case.
    pub(super) key: String,
    /// The rest of the line, trimmed.
    pub(super) value: &'a str,
}

/// A plain file in its three parts.
#[derive(Debug)]
pub(super) struct Parts<'a> {
    /// The leading comments.
    pub(super) comments: Vec<Comment<'a>>,
    /// The line of column names with its number, if there is one.
    pub(super) header: Option<(usize, &'a str)>,
    /// The lines below, with their numbers; at most so many as asked for.
    pub(super) rows: Vec<(usize, &'a str)>,
}

impl<'a> Parts<'a> {
    /// Cuts the text; rows beyond `most` are left unread.
    pub(super) fn of(text: &'a str, most: usize) -> Self {
        let mut lines = filled_lines(text).skip_while(|(_, line)| is_comment(line));
        let header = lines.next();
        let (header_line, names) = header.unwrap_or((usize::MAX, ""));
        let above = filled_lines(text).take_while(|(line, _)| *line < header_line);
        let comments = above.filter_map(|(line, text)| comment(line, text)).collect();
        // Where there is but one column, an empty line is an hour whose value is missing.
        let one_column = !names.contains([',', ';', '\t', '|']);
        let below = text.trim_end().lines().enumerate().map(|(i, row)| (i + 1, row)).skip(header_line);
        let rows = below.filter(|(_, row)| one_column || !row.trim().is_empty()).take(most).collect();
        Self { comments, header, rows }
    }

    /// The value of a key, with its place; a key given twice is a problem.
    pub(super) fn get(&self, key: &str, findings: &mut Findings) -> Option<(Spot<'a>, &'a str)> {
        let mut found = self.comments.iter().filter(|c| c.key == key);
        let first = found.next()?;
        if let Some(again) = found.next() {
            let first_line = first.line;
            let what = format!("the line stands a second time, the first is line {first_line}");
            findings.add(Spot::line(again.line, again.text).mark(Problem::new(what)).at_key(key));
        }
        Some((Spot::part(first.line, first.text, first.value), first.value))
    }

    /// Tells keys that are nearly one of `known`.
    pub(super) fn check_spelling(&self, known: &[&str], findings: &mut Findings) {
        for comment in self.comments.iter().filter(|c| !known.contains(&c.key.as_str())) {
            if let Some(meant) = nearest(&comment.key, known) {
                let problem = Problem::new(format!("'{}' is not known", comment.key));
                let problem = problem.allowed(known.join(", ")).help(format!("Did you mean '{meant}'?"));
                findings.add(Spot::line(comment.line, comment.text).mark(problem));
            }
        }
    }
}

/// Whether a line is a comment; spreadsheets put quotes around it.
pub(super) fn is_comment(line: &str) -> bool {
    line.trim_start().trim_start_matches('"').starts_with('#')
}

/// The known word that `word` most looks like, if one is near enough.
pub(super) fn nearest<'k>(word: &str, known: &[&'k str]) -> Option<&'k str> {
    let word = word.to_lowercase();
    known
        .iter()
        .map(|k| (strsim::jaro_winkler(&word, &k.to_lowercase()), *k))
        .filter(|(likeness, _)| *likeness >= ALIKE)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, k)| k)
}

/// Spreadsheets also leave a comma or semicolon for every empty cell behind.
fn comment(line: usize, text: &str) -> Option<Comment<'_>> {
    let edge = |c: char| c.is_whitespace() || matches!(c, '"' | ',' | ';');
    let body = text.trim_matches(edge).trim_start_matches('#');
    let (key, value) = body.split_once(':')?;
    Some(Comment { line, text, key: key.trim().to_lowercase(), value: value.trim() })
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn comments_header_and_rows_are_told_apart() {
        let parts =
            Parts::of("# free text\n# Place: Old Mill, NY\n\"# latitude: 41.9\",,,\n\nh\n1\n2\n3\n", 2);
        assert_eq!(parts.comments.len(), 2);
        assert_eq!((parts.comments[0].key.as_str(), parts.comments[0].value), ("place", "Old Mill, NY"));
        assert_eq!((parts.comments[1].line, parts.comments[1].value), (3, "41.9"));
        assert_eq!(parts.header, Some((5, "h")));
        assert_eq!(parts.rows, [(6, "1"), (7, "2")]);
    }

    #[test]
    fn a_misspelt_key_is_told_and_free_text_is_not() {
        let mut findings = Findings::new("a.csv");
        Parts::of("# lattitude: 4\n# origin: a book\nh\n", 9).check_spelling(&["latitude"], &mut findings);
        let problems = findings.check().unwrap_err();
        assert_eq!(problems.len(), 1);
        assert_eq!(problems[0].help.as_deref(), Some("Did you mean 'latitude'?"));
    }
}
