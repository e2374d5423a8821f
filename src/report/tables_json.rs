//! Tables of a report as JSON: each table a list of rows, each row its columns' names and values.
//!
//! Start at [`tables_json`].

use super::json::SCHEMA_VERSION;
use super::model::{Cell, Table};
use crate::comparison::Comparison;
use crate::problem::Problem;
use serde_json::{Map, Value, json};

/// What the tables are of and the tables, as indented JSON; numbers as exact as they are known, null where
/// nothing is given.
///
/// # Errors
/// A value that JSON cannot hold; that would be a defect.
pub fn tables_json(c: &Comparison, tables: &[Table], told: &[String]) -> Result<String, Problem> {
    let mut document = json!({
        "schema_version": SCHEMA_VERSION,
        "program_version": env!("CARGO_PKG_VERSION"),
        "title": c.title,
        "currency": c.currency,
        "job_sha256": c.job_sha256,
        "weather_sha256": c.weather.sha256(),
        "told": told,
    });
    if let Some(fields) = document.as_object_mut() {
        fields.extend(tables.iter().map(|table| (table.name.clone(), rows(table))));
    }
    let text = serde_json::to_string_pretty(&document);
    text.map(|t| t + "\n").map_err(|e| Problem::new(format!("the result cannot be written as JSON: {e}")))
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
