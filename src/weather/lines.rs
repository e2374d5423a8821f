//! A line into cells.
//!
//! Must never know what a cell means. Start at [`Cells`].

use super::spot::{Spot, ends};

/// The cells of one line after another; its room is used again, as records have very many lines.
#[derive(Debug, Default)]
pub(super) struct Cells {
    bounds: Vec<(usize, usize)>,
    rewritten: String,
}

/// One line and its cells.
#[derive(Debug, Clone, Copy)]
pub(super) struct Row<'a> {
    /// The line's number, counted from 1.
    pub(super) line: usize,
    /// The line.
    pub(super) text: &'a str,
    /// What the cells are cut from: the line, or what it means.
    cut: &'a str,
    bounds: &'a [(usize, usize)],
    /// Whether cells stand in the line where they stand in `cut`.
    placed: bool,
}

impl Cells {
    /// Cuts a line at the separator; quotes are understood, and a decimal comma where `;` separates. A
    /// blank as the separator stands for any number of them.
    pub(super) fn split<'a>(&'a mut self, line: usize, text: &'a str, separator: char) -> Row<'a> {
        let Self { bounds, rewritten } = self;
        bounds.clear();
        let rewrite = separator == ';' && text.contains(',') || !split_at(text, separator, bounds);
        let row = Row { line, text, cut: text, bounds: &[], placed: true };
        if !rewrite {
            return Row { bounds, ..row };
        }
        bounds.clear();
        let quoted = text.contains('"');
        if quoted {
            unquoted(text, separator, rewritten, bounds);
        } else {
            rewritten.clear();
            rewritten.extend(text.chars().map(|c| if c == ',' { '.' } else { c }));
            split_at(rewritten, separator, bounds);
        }
        Row { cut: rewritten, bounds, placed: !quoted, ..row }
    }

    /// Cuts a line at positions, from one up to and with another, counted from 1.
    pub(super) fn fixed<'a>(
        &'a mut self,
        line: usize,
        text: &'a str,
        places: impl Iterator<Item = (usize, usize)>,
    ) -> Row<'a> {
        self.bounds.clear();
        self.bounds.extend(places.map(|(from, to)| (from.saturating_sub(1), to)));
        Row { line, text, cut: text, bounds: &self.bounds, placed: true }
    }
}

impl<'a> Row<'a> {
    /// How many cells there are.
    pub(super) fn len(&self) -> usize {
        self.bounds.len()
    }

    /// The cell at that place, counted from 0, if there is one.
    pub(super) fn get(&self, place: usize) -> Option<&'a str> {
        let (from, to) = *self.bounds.get(place)?;
        let cell = self.cut.get(from..to).unwrap_or_default();
        // Most cells have nothing around them, and to see that is quicker than to take it off.
        match cell.as_bytes() {
            [first, .., last] if first.is_ascii_graphic() && last.is_ascii_graphic() => Some(cell),
            _ => Some(cell.trim()),
        }
    }

    /// The cell at that place, or nothing.
    pub(super) fn cell(&self, place: usize) -> &'a str {
        self.get(place).unwrap_or_default()
    }

    /// All cells.
    pub(super) fn cells(&self) -> impl Iterator<Item = &'a str> {
        let row = *self;
        (0..self.len()).map(move |place| row.cell(place))
    }

    /// Where a cell stands, for a message.
    pub(super) fn spot(&self, place: usize) -> Spot<'a> {
        let cell = self.get(place).filter(|cell| self.placed && !cell.is_empty());
        match cell.and_then(|cell| ends(self.cut, cell)) {
            Some((from, to)) => Spot::at(self.line, self.text, from..to),
            None => self.spot_of_all(),
        }
    }

    /// Where the whole row stands.
    pub(super) fn spot_of_all(&self) -> Spot<'a> {
        Spot::line(self.line, self.text)
    }
}

/// The bounds of the cells; false at a quote, which needs more care.
fn split_at(text: &str, separator: char, bounds: &mut Vec<(usize, usize)>) -> bool {
    if separator == ' ' {
        bounds.extend(text.split_ascii_whitespace().filter_map(|cell| ends(text, cell)));
        return true;
    }
    let separator = u8::try_from(separator).unwrap_or(b',');
    let (eights, rest) = text.as_bytes().as_chunks::<8>();
    let mut last = [0; 8];
    last.iter_mut().zip(rest).for_each(|(to, byte)| *to = *byte);
    let mut from = 0;
    for (i, eight) in eights.iter().chain([&last]).enumerate() {
        let eight = u64::from_le_bytes(*eight);
        if places(eight, b'"') != 0 {
            return false;
        }
        let mut found = places(eight, separator);
        while found != 0 {
            let at = 8 * i + found.trailing_zeros() as usize / 8;
            bounds.push((from, at));
            from = at + 1;
            found &= found - 1;
        }
    }
    bounds.push((from, text.len()));
    true
}

/// The places of a byte, not 0, in eight bytes looked at together: the highest bit of each that is it.
/// Lines are so short that looking for one place after the other takes longer.
fn places(eight: u64, byte: u8) -> u64 {
    let high = u64::from_ne_bytes([0x80; 8]);
    let differing = eight ^ u64::from_ne_bytes([byte; 8]);
    !(((differing & !high) + !high) | differing) & high
}

/// What the cells of a line with quotes mean, behind each other.
fn unquoted(text: &str, separator: char, cells: &mut String, bounds: &mut Vec<(usize, usize)>) {
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .delimiter(u8::try_from(separator).unwrap_or(b','))
        .from_reader(text.as_bytes());
    cells.clear();
    let Some(Ok(record)) = reader.records().next() else { return };
    for cell in &record {
        let from = cells.len();
        match separator {
            ';' => cells.push_str(&cell.replace(',', ".")),
            _ => cells.push_str(cell),
        }
        bounds.push((from, cells.len()));
    }
}

/// What separates the cells of a header line: tab or semicolon if it has one, else the comma; a bar where there is no
/// comma.
pub(super) fn separator(header: &str) -> char {
    ['\t', ';', ',', '|'].into_iter().find(|c| header.contains(*c)).unwrap_or(',')
}

/// Whether any cell of a header line is so.
pub(super) fn any_cell(header: &str, is: impl FnMut(&str) -> bool) -> bool {
    Cells::default().split(1, header, separator(header)).cells().any(is)
}

/// The lines that hold anything, each with its number from 1.
pub(super) fn filled_lines(text: &str) -> impl Iterator<Item = (usize, &str)> + Clone {
    text.lines().enumerate().map(|(i, line)| (i + 1, line)).filter(|(_, line)| !line.trim().is_empty())
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use crate::problem::Problem;

    fn split(text: &str, separator: char) -> Vec<String> {
        Cells::default().split(1, text, separator).cells().map(str::to_owned).collect()
    }

    #[test]
    fn quotes_semicolons_and_decimal_commas_are_understood() {
        assert_eq!(split("1,\"a, b\",2", ','), ["1", "a, b", "2"]);
        assert_eq!(split("1,5;2", separator("dry_bulb_degC;hour")), ["1.5", "2"]);
        assert_eq!(split("\"1,5\"; 2", ';'), ["1.5", "2"]);
        assert_eq!(split("1\t2", separator("a\tb")), ["1", "2"]);
        assert_eq!(split("1|2", separator("a|b")), ["1", "2"]);
        assert_eq!(separator("a,b|c"), ',');
        assert_eq!(split("  1   2 ", ' '), ["1", "2"]);
        assert_eq!(split(",", ','), ["", ""]);
        assert_eq!(split("", ','), [""]);
        let long: Vec<String> = (0..40).map(|n| "\u{ac}+-\u{2c}".replace(',', "").repeat(n % 5)).collect();
        assert_eq!(split(&long.join(","), ','), long);
        let mut cells = Cells::default();
        let fixed = cells.fixed(1, "ab é", [(1, 2), (4, 4), (9, 9)].into_iter());
        assert_eq!(fixed.cells().collect::<Vec<_>>(), ["ab", "", ""]);
    }

    #[test]
    fn a_cell_is_marked_where_it_stands() {
        let mut cells = Cells::default();
        let mut marked = |text: &str, separator, place| {
            let span = cells.split(7, text, separator).spot(place).mark(Problem::new("x")).span.unwrap();
            text[span].to_owned()
        };
        assert_eq!(marked("1, nan,3", ',', 1), "nan");
        assert_eq!(marked("1;2,5;3", ';', 1), "2,5");
        assert_eq!(marked(" 1  22 3", ' ', 1), "22");
        // Nothing to mark, or no place to be sure of: the row.
        assert_eq!(marked(" 1,,3 ", ',', 1), "1,,3");
        assert_eq!(marked("1,\"2\",3", ',', 1), "1,\"2\",3");
    }
}
