//! A place in a line into what a message shows of it.
//!
//! Start at [`Spot`].

use crate::problem::Problem;
use std::ops::Range;

/// A place in a line, for a message.
#[derive(Debug, Clone)]
pub(super) struct Spot<'a> {
    line: usize,
    text: &'a str,
    span: Range<usize>,
}

impl<'a> Spot<'a> {
    /// Bytes of a line.
    pub(super) fn at(line: usize, text: &'a str, span: Range<usize>) -> Self {
        Self { line, text, span }
    }

    /// A whole line.
    pub(super) fn line(line: usize, text: &'a str) -> Self {
        Self { line, text, span: whole(text) }
    }

    /// A part of a line, which must be cut from it; else the whole line.
    pub(super) fn part(line: usize, text: &'a str, part: &str) -> Self {
        let span = ends(text, part).filter(|(from, to)| from < to).map(|(from, to)| from..to);
        Self { line, text, span: span.unwrap_or_else(|| whole(text)) }
    }

    /// The problem, shown there.
    pub(super) fn mark(&self, problem: Problem) -> Problem {
        problem.at_line(self.line).showing(self.text, self.span.clone())
    }
}

fn whole(text: &str) -> Range<usize> {
    ends(text, text.trim()).map_or(0..text.len(), |(from, to)| from..to)
}

/// Where a part that is cut from a text begins and ends in it.
pub(super) fn ends(text: &str, part: &str) -> Option<(usize, usize)> {
    let from = (part.as_ptr() as usize).checked_sub(text.as_ptr() as usize)?;
    let to = from + part.len();
    text.get(from..to).map(|_| (from, to))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_part_is_marked_where_it_was_cut() {
        let text = "# latitude: 91";
        let spot = Spot::part(3, text, &text[12..]).mark(Problem::new("x"));
        assert_eq!((spot.line, spot.span, spot.excerpt.as_deref()), (Some(3), Some(12..14), Some(text)));
        assert_eq!(Spot::part(3, text, "91").mark(Problem::new("x")).span, Some(0..14));
    }
}
