//! Text into lines that hold anything, and a line into cells.
//!
//! Must never know what a cell means. Start at [`split`].

use std::borrow::Cow;

/// The cells of a line; quotes are understood, and a decimal comma where `;` separates.
pub(super) fn split(line: &str, separator: char) -> Vec<Cow<'_, str>> {
    let mut cells = Vec::new();
    split_into(line, separator, &mut cells);
    cells
}

/// As [`split`], into a list that is used again for the next line: records have very many lines.
pub(super) fn split_into<'a>(line: &'a str, separator: char, cells: &mut Vec<Cow<'a, str>>) {
    cells.clear();
    if line.contains('"') {
        cells.extend(quoted(line, separator).into_iter().map(Cow::Owned));
    } else {
        cells.extend(line.split(separator).map(Cow::Borrowed));
    }
    if separator != ';' {
        return;
    }
    for cell in cells.iter_mut().filter(|cell| cell.contains(',')) {
        *cell = Cow::Owned(cell.replace(',', "."));
    }
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
pub(super) fn filled_lines(text: &str) -> impl Iterator<Item = (usize, &str)> + Clone {
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
