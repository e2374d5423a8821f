//! How wide the columns of a printed table are, and how small its letters must be to fit.
//!
//! Start at [`fit`].

use super::typeset::{Style, widest_word, width};
use crate::report::model::{Align, Cell, Table};

/// Letter sizes that are tried, points.
const SIZES: [f64; 6] = [9.0, 8.5, 8.0, 7.5, 7.0, 6.5];
/// Between two columns, points.
pub(super) const GUTTER: f64 = 10.0;

/// A table's columns.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Columns {
    /// Letter size, points.
    pub(super) size: f64,
    /// One width a column, without gutters.
    pub(super) widths: Vec<f64>,
}

/// What a cell says.
pub(super) fn words(cell: &Cell) -> &str {
    match cell {
        Cell::Text(text) => text,
        Cell::Number { shown, .. } => shown,
        Cell::Missing => "–",
    }
}

/// The largest letters at which no word of the table is cut in `room` points; the smallest if none.
pub(super) fn fit(table: &Table, room: f64, style: impl Fn(f64, bool) -> Style) -> Columns {
    let gutters = GUTTER * table.columns.len().saturating_sub(1) as f64;
    for size in SIZES {
        let (least, wished) = wants(table, &style(size, true), &style(size, false));
        if least.iter().sum::<f64>() + gutters <= room {
            return Columns { size, widths: share(&least, &wished, room - gutters, table) };
        }
    }
    let size = SIZES[SIZES.len() - 1];
    let (least, _) = wants(table, &style(size, true), &style(size, false));
    let squeeze = (room - gutters).max(1.0) / least.iter().sum::<f64>().max(1.0);
    Columns { size, widths: least.iter().map(|w| w * squeeze).collect() }
}

/// The widest word and the widest cell of each column.
fn wants(table: &Table, head: &Style, body: &Style) -> (Vec<f64>, Vec<f64>) {
    let of = |i: usize, measure: fn(&str, &Style) -> f64| {
        let cells = table.rows.iter().filter_map(|row| row.get(i)).map(|cell| measure(words(cell), body));
        cells.fold(0.0, f64::max)
    };
    let least = |(i, column): (usize, &crate::report::model::Column)| {
        widest_word(&column.head, head).max(match column.align {
            // A number is not broken.
            Align::Right => of(i, width),
            Align::Left => of(i, widest_word),
        })
    };
    let wished = |(i, column): (usize, &crate::report::model::Column)| {
        of(i, width).max(width(&column.head, head).min(64.0)).max(widest_word(&column.head, head))
    };
    (
        table.columns.iter().enumerate().map(least).collect(),
        table.columns.iter().enumerate().map(wished).collect(),
    )
}

/// Gives each column its least, then columns of words what they lack, then the others; what nobody
/// lacks is spread over all alike, as far as that helps the eye.
fn share(least: &[f64], wished: &[f64], room: f64, table: &Table) -> Vec<f64> {
    let mut widths = least.to_vec();
    for align in [Align::Left, Align::Right] {
        let mut left = (room - widths.iter().sum::<f64>()).max(0.0);
        let mut lacking: Vec<(usize, f64)> = (widths.iter().zip(wished).enumerate())
            .filter(|(i, _)| table.columns.get(*i).is_some_and(|column| column.align == align))
            .map(|(i, (width, wished))| (i, (wished - width).max(0.0)))
            .collect();
        // Who lacks little is given all of it first, so that a short name does not break beside long words.
        lacking.sort_by(|a, b| a.1.total_cmp(&b.1));
        let count = lacking.len();
        for (before, (i, lack)) in lacking.into_iter().enumerate() {
            let given = lack.min(left / (count - before) as f64);
            left -= given;
            if let Some(width) = widths.get_mut(i) {
                *width += given;
            }
        }
    }
    let spare = (room - widths.iter().sum::<f64>()).max(0.0) / table.columns.len().max(1) as f64;
    widths.into_iter().map(|width| width + spare.min(40.0)).collect()
}
