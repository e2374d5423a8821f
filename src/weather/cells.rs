//! What the columns of a file hold, and their cells into values.
//!
//! Must never know a layout's order of columns. Start at [`Column`].

use super::findings::Findings;
use super::lines::Row;
use super::writing::{DECIMAL_COMMAS, Writing};
use crate::problem::Problem;

/// What a column holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Field {
    /// Dry-bulb temperature, °C.
    DryBulb,
    /// Dew point, °C.
    DewPoint,
    /// Relative humidity, 0 to 1.
    Humidity,
    /// Station pressure, Pa.
    Pressure,
    /// Global horizontal irradiance, W/m².
    Global,
    /// Direct normal irradiance, W/m².
    Direct,
    /// Diffuse horizontal irradiance, W/m².
    Diffuse,
    /// Wind speed, m/s.
    Wind,
}

/// One column of a file.
#[derive(Debug, Clone)]
pub(super) struct Column {
    /// Where it stands in a row, from 0.
    pub(super) position: usize,
    /// Its name in messages.
    pub(super) title: String,
    /// What it holds.
    pub(super) field: Field,
    /// How its numbers are written.
    pub(super) writing: Writing,
}

impl Column {
    /// The value of its cell in the program's units; `None` if it is missing or was found wrong.
    pub(super) fn value(&self, row: &Row<'_>, findings: &mut Findings) -> Option<f64> {
        if let Some(value) = self.writing.short(row.cell(self.position)) {
            return Some(value);
        }
        self.writing.value(row.cell(self.position)).unwrap_or_else(|problem| {
            findings.add(row.spot(self.position).mark(problem).at_key(self.title.clone()));
            None
        })
    }
}

/// The columns of a published layout that a line of names has, each by its very name.
pub(super) fn named_columns(names: &Row<'_>, known: &[(&str, Field, Writing)]) -> Vec<Column> {
    let found = |(name, field, writing): &(&str, Field, Writing)| {
        let position = names.cells().position(|n| n == *name)?;
        Some(Column { position, title: (*name).to_owned(), field: *field, writing: *writing })
    };
    known.iter().filter_map(found).collect()
}

/// A row that has another number of cells than there are names.
pub(super) fn wrong_width(row: &Row<'_>, names: usize) -> Problem {
    wrong_shape(row, names, AS_NAMES)
}

/// Why a row must have so many cells where the names of the columns tell it.
pub(super) const AS_NAMES: &str = "as the line of names has";

/// A row with another number of cells than its layout has, and why it must have so many.
pub(super) fn wrong_shape(row: &Row<'_>, width: usize, shape: &str) -> Problem {
    let columns = if row.len() == 1 { "column" } else { "columns" };
    let problem = Problem::new(format!("the row has {} {columns}", row.len()));
    let problem = row.spot_of_all().mark(problem).allowed(format!("{width} columns, {shape}"));
    if row.len() > width && row.text.contains(',') && !row.text.contains(';') {
        return problem.help(DECIMAL_COMMAS);
    }
    if row.len() == 1 && shape == AS_NAMES && row.text.contains(['|', ';', '\t', ',']) {
        return problem.help("Part the names of the columns and the cells of the rows by the same sign");
    }
    problem
}
