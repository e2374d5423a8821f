//! The first lines of a text into the [`Layout`] they show.
//!
//! Looks at content only, never at a file's name. Start at [`recognise`].

use super::cells::filled_lines;
use super::comments::is_comment;
use super::{bin_csv, epw, plain_csv, tmy3};

/// The layouts that can be read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Layout {
    /// TMY3 comma-separated: a station line, a line of column names, 8,760 rows.
    Tmy3,
    /// EPW: eight header lines, 8,760 rows (8,784 of an actual leap year).
    Epw,
    /// Our plain hourly CSV; names carry the unit.
    PlainCsv,
    /// Hours by outdoor temperature.
    BinCsv,
}

/// What the text looks like; `None` if like nothing known.
pub(super) fn recognise(text: &str) -> Option<Layout> {
    let mut lines = filled_lines(text).map(|(_, line)| line).take(2);
    let (first, second) = (lines.next()?, lines.next().unwrap_or_default());
    if first.trim_start().starts_with(epw::FIRST) {
        return Some(Layout::Epw);
    }
    if [first, second].iter().any(|line| line.trim_start().starts_with(tmy3::HEADER)) {
        return Some(Layout::Tmy3);
    }
    let (_, header) = filled_lines(text).find(|(_, line)| !is_comment(line))?;
    if plain_csv::is_header(header) {
        return Some(Layout::PlainCsv);
    }
    bin_csv::is_header(header).then_some(Layout::BinCsv)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_layout_is_known_by_its_first_lines() {
        let layout = |text| recognise(text);
        assert_eq!(layout("LOCATION,Old Mill,NY,USA\n"), Some(Layout::Epw));
        assert_eq!(layout("1,\"X\",NY,-5\nDate (MM/DD/YYYY),Time (HH:MM)\n"), Some(Layout::Tmy3));
        assert_eq!(layout("# place: x\ndry_bulb_degF\n"), Some(Layout::PlainCsv));
        assert_eq!(layout("hour;DRY_BULB\n"), Some(Layout::PlainCsv));
        assert_eq!(layout("outdoor_degF,hours\n"), Some(Layout::BinCsv));
        assert_eq!(layout("temperature,hours\n"), Some(Layout::BinCsv));
        assert_eq!(layout("a letter\nto nobody\n"), None);
        assert_eq!(layout("# only: comments\n"), None);
    }
}
