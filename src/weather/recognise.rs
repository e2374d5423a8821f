//! The first lines of a text into the [`Layout`] they show.
//!
//! Looks at content only, never at a file's name. Start at [`recognise`].

use super::comments::is_comment;
use super::lines::filled_lines;
use super::options::Layout;
use super::{bin_csv, dated_csv, epw, isd_lite, nsrdb, plain_csv, pvgis, tmy2, tmy3};

/// Lines that may stand above a line of names.
pub(super) const MOST_ABOVE: usize = 5;

/// What the text looks like; `None` if like nothing known.
pub(super) fn recognise(text: &str) -> Option<Layout> {
    let mut lines = filled_lines(text).map(|(_, line)| line).take(2);
    let (first, second) = (lines.next()?, lines.next().unwrap_or_default());
    if epw::FIRST.iter().any(|start| first.trim_start().starts_with(start)) {
        return Some(Layout::Epw);
    }
    if tmy2::is_station(first) {
        return Some(Layout::Tmy2);
    }
    if isd_lite::is_row(first) {
        return Some(Layout::IsdLite);
    }
    if nsrdb::is_first(first) {
        return Some(Layout::Nsrdb);
    }
    if pvgis::is_first(first) {
        return Some(Layout::Pvgis);
    }
    if [first, second].iter().any(|line| line.trim_start().starts_with(tmy3::HEADER)) {
        return Some(Layout::Tmy3);
    }
    let (_, header) = filled_lines(text).find(|(_, line)| !is_comment(line))?;
    if pvgis::is_header(header) {
        return Some(Layout::Pvgis);
    }
    csv_layout(header)
}

/// How many lines stand above the names of a CSV file's columns and are no comments, and its layout; at most
/// so many as an export puts there.
pub(super) fn below_other_lines(text: &str) -> Option<(usize, Layout)> {
    let lines = filled_lines(text).map(|(_, line)| line).filter(|line| !is_comment(line));
    lines
        .take(MOST_ABOVE + 1)
        .enumerate()
        .skip(1)
        .find_map(|(above, header)| csv_layout(header).map(|layout| (above, layout)))
}

/// The layout of which a line is the line of names.
fn csv_layout(header: &str) -> Option<Layout> {
    if dated_csv::is_header(header) {
        return Some(Layout::DatedCsv);
    }
    if plain_csv::is_header(header) {
        return Some(Layout::PlainCsv);
    }
    bin_csv::is_header(header).then_some(Layout::BinCsv)
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn each_layout_is_known_by_its_first_lines() {
        let layout = |text| recognise(text);
        assert_eq!(layout("LOCATION,Old Mill,NY,USA\n"), Some(Layout::Epw));
        assert_eq!(layout("1,\"X\",NY,-5\nDate (MM/DD/YYYY),Time (HH:MM)\n"), Some(Layout::Tmy3));
        assert_eq!(layout("# place: x\ndry_bulb_degF\n"), Some(Layout::PlainCsv));
        assert_eq!(layout("hour;DRY_BULB\n"), Some(Layout::PlainCsv));
        assert_eq!(layout("datetime,dry_bulb_degC\n"), Some(Layout::DatedCsv));
        assert_eq!(layout("datetime,surface_pressure,temp_2m\n"), Some(Layout::DatedCsv));
        assert_eq!(layout("Year;Month;Day;Hour;Temperature (°C)\n"), Some(Layout::DatedCsv));
        assert_eq!(
            layout("2015 01 01 00   -83  -172 10243   240    62     2 -9999 -9999\n"),
            Some(Layout::IsdLite)
        );
        assert_eq!(layout("Source,Location ID,City,Time Zone\nNSRDB,1,-,-6\n"), Some(Layout::Nsrdb));
        assert_eq!(layout("Latitude (decimal degrees):\t48.4\n"), Some(Layout::Pvgis));
        assert_eq!(layout("time(UTC),T2m,RH\n"), Some(Layout::Pvgis));
        let station = " 12839 MIAMI                  FL  -5 N 25 48 W  80 16     2\n";
        assert_eq!(layout(station), Some(Layout::Tmy2));
        assert_eq!(layout("outdoor_degF,hours\n"), Some(Layout::BinCsv));
        assert_eq!(layout("temperature,hours\n"), Some(Layout::BinCsv));
        assert_eq!(layout("a letter\nto nobody\n"), None);
        assert_eq!(layout("# only: comments\n"), None);
        let above = |n: usize| below_other_lines(&("of, a station\n\n".repeat(n) + "date,temp_F\n"));
        assert_eq!((above(0), above(6)), (None, None));
        assert_eq!((above(1), above(5)), (Some((1, Layout::DatedCsv)), Some((5, Layout::DatedCsv))));
    }
}
