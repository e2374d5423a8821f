//! The names of lines right of a plot, each beside its line's end and none over another.
//!
//! Must not know what the lines are. Start at [`placed`].

use super::ChartError;
use super::canvas::{self, Align, Canvas, Point, Stroke, Type};
use super::end_labels::{NAME_LINE, NAME_SIZE, NAMES, readable};
use super::palette::Colour;
use super::placing;

/// The words at a line's end, and where they stand.
pub(super) struct LineName {
    lines: Vec<String>,
    middle: f64,
    end: Point,
    colour: Colour,
}

/// A line's end with its name, its last amount, and its colour.
pub(super) struct LineEnd<'a> {
    /// The name.
    pub(super) name: &'a str,
    /// The amount below it.
    pub(super) amount: Option<String>,
    /// Where the line ends.
    pub(super) end: Point,
    /// Its colour.
    pub(super) colour: Colour,
}

/// Finds a place between `top` and `bottom` for each name.
pub(super) fn placed(ends: Vec<LineEnd<'_>>, top: f64, bottom: f64) -> Result<Vec<LineName>, ChartError> {
    let mut names = Vec::new();
    for own in ends {
        let kind = Type::bold(NAME_SIZE, own.colour);
        let mut lines = canvas::wrapped(own.name, &kind, NAMES, 2)?;
        lines.extend(own.amount);
        names.push(LineName { lines, middle: own.end.1, end: own.end, colour: own.colour });
    }
    let wanted: Vec<f64> = names.iter().map(|name| name.end.1).collect();
    let sizes: Vec<f64> = names.iter().map(|name| name.lines.len() as f64 * NAME_LINE + 6.0).collect();
    let middles = placing::spread(&wanted, &sizes, top, bottom);
    for (name, middle) in names.iter_mut().zip(middles) {
        name.middle = middle;
    }
    Ok(names)
}

impl LineName {
    /// Where its last line ends.
    pub(super) fn bottom(&self) -> f64 {
        self.middle + self.lines.len() as f64 * NAME_LINE / 2.0
    }

    /// Draws it right of `right`, the plot's edge.
    pub(super) fn drawn(&self, canvas: &Canvas<'_>, right: f64) -> Result<(), ChartError> {
        let left = right + 16.0;
        canvas
            .path(&[(self.end.0 + 3.0, self.end.1), (left - 4.0, self.middle)], Stroke(0.9, self.colour))?;
        let mut base = self.middle - self.lines.len() as f64 * NAME_LINE / 2.0 + 12.0;
        for (i, line) in self.lines.iter().enumerate() {
            let is_first = i == 0 || i + 1 < self.lines.len();
            let colour = readable(self.colour);
            let kind = if is_first { Type::bold(NAME_SIZE, colour) } else { Type::plain(11.5, colour) };
            canvas.words(line, (left, base), Align::Left, &kind)?;
            base += NAME_LINE;
        }
        Ok(())
    }
}
