//! Tables of a report as JSON: each table a list of rows, each row its columns' names and values.
//!
//! Start at [`tables_json`].

use super::json_head::{JsonHead, written};
use super::model::{Cell, Report, SCHEMA_VERSION, Table};
use crate::comparison::Comparison;
use crate::problem::Problem;
use serde::Serialize;
use serde_json::{Map, Value};

#[derive(Serialize)]
struct TablesDocument<'a> {
    #[serde(flatten)]
    head: JsonHead<'a>,
    told: &'a [String],
    #[serde(flatten)]
    tables: Map<String, Value>,
}

/// What the tables are of and the tables, as indented JSON; numbers as exact as they are known, null where
/// nothing is given.
///
/// # Errors
/// A value that JSON cannot hold; that would be a defect.
pub fn tables_json(c: &Comparison, tables: &[Table], told: &[String]) -> Result<String, Problem> {
    written(&TablesDocument { head: JsonHead::of(c), told, tables: all(tables) })
}

#[derive(Serialize)]
struct TitledDocument<'a> {
    schema_version: u32,
    program_version: &'static str,
    title: &'a str,
    unit: &'a str,
    told: &'a [String],
    cannot_be_told: &'a [String],
    #[serde(flatten)]
    tables: Map<String, Value>,
}

/// A report that is of no job, its prices in `unit`, in the same form.
///
/// # Errors
/// A value that JSON cannot hold; that would be a defect.
pub fn titled_json(report: &Report, unit: &str) -> Result<String, Problem> {
    written(&TitledDocument {
        schema_version: SCHEMA_VERSION,
        program_version: env!("CARGO_PKG_VERSION"),
        title: &report.title,
        unit,
        told: &report.verdict,
        cannot_be_told: &report.notes,
        tables: all(&report.tables),
    })
}

fn all(tables: &[Table]) -> Map<String, Value> {
    tables.iter().map(|table| (table.name.clone(), rows(table))).collect()
}

fn rows(table: &Table) -> Value {
    let row = |cells: &Vec<Cell>| {
        let fields = table.columns.iter().zip(cells);
        fields.map(|(column, cell)| (column.key.clone(), value(cell))).collect::<Map<_, _>>()
    };
    table.rows.iter().map(|cells| Value::Object(row(cells))).collect()
}

fn value(cell: &Cell) -> Value {
    match cell {
        Cell::Text(text) => Value::from(text.as_str()),
        Cell::Number { value, .. } => Value::from(*value),
        Cell::Missing => Value::Null,
    }
}
