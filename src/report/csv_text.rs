//! A table as CSV text: keys with units in the head, numbers as exact as they are known.
//!
//! Start at [`csv()`].

use super::model::{Cell, Table};

/// The table as CSV, rows ended by `\n`.
///
/// # Errors
/// What the CSV writer says; it writes to memory, so only memory can fail.
pub fn csv(table: &Table) -> Result<String, csv::Error> {
    let mut writer = csv::WriterBuilder::new().from_writer(Vec::new());
    writer.write_record(table.columns.iter().map(|c| c.key.as_str()))?;
    for row in &table.rows {
        writer.write_record(row.iter().map(field))?;
    }
    let bytes = writer.into_inner().map_err(|e| csv::Error::from(e.into_error()))?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

fn field(cell: &Cell) -> String {
    match cell {
        Cell::Text(text) => text.clone(),
        // Six digits after the point are far finer than any input; −0 would only puzzle.
        Cell::Number { value, .. } => trimmed(format!("{value:.6}")),
        Cell::Missing => String::new(),
    }
}

fn trimmed(number: String) -> String {
    let short = number.trim_end_matches('0').trim_end_matches('.');
    if matches!(short, "-0" | "") { "0".into() } else { short.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn minus_zero_and_what_rounds_to_it_are_zero() {
        let texts = [-0.0, -4e-7, 0.0, -6e-7, -0.5, 120.0, 1e7].map(|value| trimmed(format!("{value:.6}")));
        assert_eq!(texts, ["0", "0", "0", "-0.000001", "-0.5", "120", "10000000"]);
    }
}
