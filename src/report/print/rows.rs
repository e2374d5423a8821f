//! How high the rows of a table are, and where it is broken over pages.
//!
//! Start at [`Rows`].

use super::columns::{Columns, fit, words};
use super::typeset::{Style, lines};
use crate::report::model::{Cell, Table};

/// So many rows at least stand together where a table is broken.
pub(super) const TOGETHER: usize = 3;

/// A table as it is set: its columns, and how high its head and each row are.
pub(super) struct Rows {
    /// Its columns.
    pub(super) columns: Columns,
    /// How high its head is.
    pub(super) head_height: f64,
    /// How high each row is.
    pub(super) heights: Vec<f64>,
}

impl Rows {
    /// Measures a table that has so much room.
    pub(super) fn of(table: &Table, room: f64, style: impl Fn(f64, bool) -> Style) -> Self {
        let columns = fit(table, room, &style);
        let head: Vec<&str> = table.columns.iter().map(|c| c.head.as_str()).collect();
        let head_height = row_height(&head, &columns, &style(columns.size, true));
        let letters = style(columns.size, false);
        let height =
            |cells: &Vec<Cell>| row_height(&cells.iter().map(words).collect::<Vec<_>>(), &columns, &letters);
        let heights = table.rows.iter().map(height).collect();
        Self { columns, head_height, heights }
    }

    /// How high a row is.
    pub(super) fn height(&self, row: usize) -> f64 {
        self.heights.get(row).copied().unwrap_or_default()
    }

    /// Before which row the page ends that has so much room left for those from `from` on: never so that a
    /// row or two stand alone on the next.
    pub(super) fn until(&self, from: usize, mut room: f64) -> usize {
        let mut to = from;
        for height in self.heights.iter().skip(from) {
            room -= height;
            if room < 0.0 {
                break;
            }
            to += 1;
        }
        let left = self.heights.len() - to;
        if (1..TOGETHER).contains(&left) {
            to = to.saturating_sub(TOGETHER - left);
        }
        to.max(from + 1)
    }
}

/// How high a row is: its tallest cell, and air.
pub(super) fn row_height(cells: &[&str], columns: &Columns, letters: &Style) -> f64 {
    let counts = cells.iter().zip(&columns.widths).map(|(cell, room)| lines(cell, letters, *room).len());
    counts.max().unwrap_or(1) as f64 * letters.size * 1.2 + 4.5
}
