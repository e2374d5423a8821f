//! The ISD-Lite layout into dated rows: twelve whole numbers each, in UTC, −9999 where missing.
//!
//! Source: NOAA, *Integrated Surface Data – Lite, Format Documentation* (June 20, 2006): year,
//! month, day, hour, air temperature and dew point (tenths of °C), sea-level pressure (tenths of
//! hPa), wind direction, wind speed (tenths of m/s), sky, rain of one and of six hours. The file
//! does not say where its station is. Knows no other layout. Start at [`read`].

use super::cells::{Column, Field};
use super::dated::{Clock, Dated};
use super::dated_rows::{Table, rows};
use super::findings::Findings;
use super::names::DateColumns;
use super::options::Layout;
use super::reading::Reading;
use super::site::{Site, named_after};
use super::text::Text;
use super::writing::{TENTHS_CELSIUS, TENTHS_WIND, Writing};
use crate::problem::Problems;

const WIDTH: usize = 12;
const COLUMNS: [(usize, &str, Field, Writing); 3] = [
    (4, "air temperature", Field::DryBulb, TENTHS_CELSIUS),
    (5, "dew point temperature", Field::DewPoint, TENTHS_CELSIUS),
    (8, "wind speed", Field::Wind, TENTHS_WIND),
];
/// Sea-level pressure is not the pressure at the station, which the program would need.
const PASSED_OVER: [&str; 5] =
    ["sea level pressure", "wind direction", "sky condition", "rain of one hour", "rain of six hours"];

/// Whether a line is a row of this layout.
pub(super) fn is_row(line: &str) -> bool {
    let numbers: Vec<&str> = line.split_ascii_whitespace().take(WIDTH + 1).collect();
    numbers.len() == WIDTH
        && numbers.first().is_some_and(|year| year.len() == 4)
        && numbers.iter().all(|number| number.parse::<i32>().is_ok())
}

/// Reads an ISD-Lite file.
///
/// # Errors
/// Every wrong line, up to twenty.
pub(super) fn read(file: &str, mut text: Text<'_>) -> Result<Dated, Problems> {
    let mut findings = Findings::new(file);
    let columns = COLUMNS.map(|(position, title, field, writing)| Column {
        position,
        title: title.to_owned(),
        field,
        writing,
    });
    let table = Table {
        separator: ' ',
        width: WIDTH,
        shape: "all whole numbers: year, month, day, hour, then eight values",
        date: DateColumns::Parts([0, 1, 2, 3], None),
        columns: columns.into(),
        station: None,
        foot: false,
    };
    let rows = match rows(table, &mut text, &mut findings) {
        Ok(rows) => rows,
        Err(problem) => return Err(findings.end(problem)),
    };
    let mut reading = Reading::of(Layout::IsdLite, false);
    reading.columns_passed_over = PASSED_OVER.map(str::to_owned).into();
    let (latitude, longitude, elevation_m, utc_offset_h, zone) = (None, None, None, None, None);
    let site = Site { place: named_after(file), latitude, longitude, elevation_m, utc_offset_h, zone };
    let mut dated = Dated::of(site, Clock::Offset(0.0), rows, reading, (text, findings))?;
    dated.station = station(file);
    Ok(dated)
}

/// The station by the file's name, as the source names its files: two numbers of it, then the year, such as
/// `725300-94846-2015`. The rows themselves do not say it.
fn station(file: &str) -> Option<String> {
    let name = named_after(file);
    let numbers = name.split(|c: char| !c.is_ascii_digit()).filter(|number| number.len() >= 5);
    let numbers: Vec<&str> = numbers.collect();
    (!numbers.is_empty()).then(|| format!("station {}", numbers.join("-")))
}
