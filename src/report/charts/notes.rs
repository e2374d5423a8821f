//! Words inside a plot, beside the point they speak of.
//!
//! Knows no panel: finds a free place among what is drawn, and draws. Start at [`Note`].

use super::ChartError;
use super::canvas::{self, Align, Canvas, Point, Stroke, Type};
use super::palette::Colour;
use super::placing::{Clutter, Plate};

/// A point farther from its words than this is joined to them by a line, pixels.
const FAR: f64 = 16.0;

/// Words that have found their place.
pub(super) struct Note {
    words: String,
    plate: Plate,
    anchor: Point,
    kind: Type,
}

impl Note {
    /// Finds a place near `anchor` inside a plot from its upper left to its lower right corner; nothing
    /// where there is none.
    pub(super) fn placed(
        (words, anchor, colour): (String, Point, Colour),
        clutter: &mut Clutter,
        (left, top): Point,
        (right, bottom): Point,
    ) -> Result<Option<Self>, ChartError> {
        let kind = Type::bold(12.0, colour);
        let size = (canvas::width(&words, &kind)?, 13.0);
        let inside = Plate { left: left + 4.0, top: top + 2.0, right: right - 4.0, bottom: bottom - 4.0 };
        Ok(clutter.spot(size, anchor, inside).map(|plate| Self { words, plate, anchor, kind }))
    }

    /// Draws it.
    pub(super) fn drawn(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        let near = self.plate.nearest(self.anchor);
        let (dx, dy) = (near.0 - self.anchor.0, near.1 - self.anchor.1);
        let far = dx.hypot(dy);
        if far > FAR {
            let start = (self.anchor.0 + dx / far * 6.5, self.anchor.1 + dy / far * 6.5);
            let end = (near.0 - dx / far * 2.0, near.1 - dy / far * 2.0);
            canvas.path(&[start, end], Stroke(0.9, self.kind.colour))?;
        }
        canvas.words(&self.words, (self.plate.left, self.plate.bottom - 3.0), Align::Left, &self.kind)
    }
}
