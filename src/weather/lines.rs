//! Text into lines that hold anything, and a line into cells.
//!
//! Must never know what a cell means. Start at [`split`].

use std::borrow::Cow;

/// The cells of a line; quotes are understood, and a decimal comma where `;` separates.
pub(super) fn split(line: &str, separator: char) -> Vec<Cow<'_, str>> {
    let cells: Vec<Cow<'_, str>> = if line.contains('"') {
        quoted(line, separator).into_iter().map(Cow::Owned).collect()
    } else {
        line.split(separator).map(Cow::Borrowed).collect()
    };
    if separator != ';' {
        return cells;
    }
    cells.into_iter().map(|c| if c.contains(',') { Cow::Owned(c.replace(',', ".")) } else { c }).collect()
}

fn quoted(line: &str, separator: char) -> Vec<String> {
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .delimiter(u8::try_from(separator).unwrap_or(b','))
        .from_reader(line.as_bytes());
    match reader.records().next() {
        Some(Ok(record)) => record.iter().map(str::to_owned).collect(),
        _ => Vec::new(),
    }
}

/// What separates the cells of a header line: tab or semicolon if it has one, else the comma.
pub(super) fn separator(header: &str) -> char {
    ['\t', ';'].into_iter().find(|c| header.contains(*c)).unwrap_or(',')
}

/// The lines that hold anything, each with its number from 1.
pub(super) fn filled_lines(text: &str) -> impl Iterator<Item = (usize, &str)> {
    text.lines().enumerate().map(|(i, line)| (i + 1, line)).filter(|(_, line)| !line.trim().is_empty())
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn quotes_semicolons_and_decimal_commas_are_understood() {
        assert_eq!(split("1,\"a, b\",2", ','), ["1", "a, b", "2"]);
        assert_eq!(split("1,5;2", separator("dry_bulb_degC;hour")), ["1.5", "2"]);
        assert_eq!(split("1\t2", separator("a\tb")), ["1", "2"]);
    }
}
