//! The bytes of any weather file into [`Weather`]: text first, then its layout, then the reader.
//!
//! Opens nothing itself; whoever calls hands in the bytes and the name for messages. Start at
//! [`read`].

use super::cells::filled_lines;
use super::findings::shown;
use super::recognise::{Layout, recognise};
use super::text::{Text, read_text};
use super::year::Weather;
use super::{bin_csv, epw, plain_csv, tmy3};
use crate::problem::{Problem, Problems};
use std::io::Read;

/// Reads a weather file of any known layout, gzipped or not; `name` stands in messages.
///
/// TMY3 and EPW files of 8,760 rows are typical years whatever years their months name, and lie on
/// the calendar of 2023. Missing codes are missing. Gaps of up to six hours in the dry-bulb are
/// filled by straight lines and counted in `filled_hours`; another column with a missing hour is
/// `None` as a whole.
///
/// ```
/// use winterledger::weather::{Weather, read};
/// let file = "outdoor_degF,hours\n32,10\n50,20\n";
/// let Ok(Weather::Bins(table)) = read("bins.csv", file.as_bytes()) else { panic!() };
/// assert_eq!(table.bins[0].temperature_c, 10.0); // warm to cold
/// ```
///
/// # Errors
/// All that is wrong with the file: too large, binary, of no known layout, wrong columns, rows
/// missing or out of order, no numbers, numbers out of range (dry-bulb −90 to 60 °C), long gaps.
pub fn read(name: &str, bytes: impl Read) -> Result<Weather, Problems> {
    let text = read_text(name, bytes).map_err(|problem| vec![problem])?;
    match recognise(&text.text) {
        Some(layout) => read_text_as(name, text, layout),
        None => Err(vec![unknown(name, &text.text)]),
    }
}

/// Reads a weather file of which the layout is told.
///
/// # Errors
/// As [`read`], save that the layout is not looked for.
pub fn read_as(name: &str, bytes: impl Read, layout: Layout) -> Result<Weather, Problems> {
    let text = read_text(name, bytes).map_err(|problem| vec![problem])?;
    read_text_as(name, text, layout)
}

fn read_text_as(name: &str, text: Text, layout: Layout) -> Result<Weather, Problems> {
    let year = match layout {
        Layout::BinCsv => return bin_csv::read(name, text).map(Weather::Bins),
        Layout::Tmy3 => tmy3::read(name, text),
        Layout::Epw => epw::read(name, text),
        Layout::PlainCsv => plain_csv::read(name, text),
    };
    Ok(Weather::Year(Box::new(year?)))
}

fn unknown(name: &str, text: &str) -> Problem {
    let (line, first) = filled_lines(text).next().unwrap_or((1, ""));
    Problem::new(format!("the layout is not known; the file begins with {}", shown(first)))
        .in_file(name)
        .at_line(line)
        .allowed("TMY3, EPW, hourly CSV with a column dry_bulb_degC (or _degF, _K), bins with outdoor_degF,hours")
        .help("Name the columns of a CSV file in its first line, each with its unit")
}
