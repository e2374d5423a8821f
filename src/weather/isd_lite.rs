//! The ISD-Lite layout into dated rows: twelve whole numbers each, in UTC, −9999 where missing.
//!
//! Source: NOAA, *Integrated Surface Data – Lite, Format Documentation* (June 20, 2006): year,
//! month, day, hour, air temperature and dew point (tenths of °C), sea-level pressure (tenths of
//! hPa), wind direction, wind speed (tenths of m/s), sky, rain of one and of six hours. The file
//! does not say where its station is. Knows no other layout. Start at [`read`].

use super::cells::{Column, Field, TENTHS_CELSIUS, TENTHS_WIND, Writing};
use super::dated::{Clock, Dated};
use super::findings::{Findings, shown};
use super::hours::{Hours, Site, named_after};
use super::lines;
use super::options::Layout;
use super::reading::Reading;
use super::text::Text;
use super::when;
use crate::problem::{Problem, Problems};
use std::borrow::Cow;

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
pub(super) fn read(file: &str, text: Text) -> Result<Dated, Problems> {
    let mut findings = Findings::new(file);
    let columns = COLUMNS.map(|(position, title, field, writing)| Column {
        position,
        title: title.to_owned(),
        field,
        writing,
    });
    let mut hours = Hours::new(columns.into());
    let mut minutes = Vec::new();
    let mut cells = Vec::new();
    for (line, row) in lines::filled_lines(&text.text) {
        cells.clear();
        cells.extend(row.split_ascii_whitespace().map(Cow::Borrowed));
        match moment(&cells) {
            Some(minute) => {
                minutes.push(minute);
                hours.push(line, &cells, &mut findings);
            }
            None => findings.add(
                Problem::new(format!("found {}, which is no row of this layout", shown(row)))
                    .at_line(line)
                    .allowed("twelve whole numbers: year, month, day, hour, then eight values"),
            ),
        }
    }
    findings.check()?;
    let mut reading = Reading::of(Layout::IsdLite, text.windows_1252);
    reading.columns_passed_over = PASSED_OVER.map(str::to_owned).into();
    let (latitude, longitude, elevation_m, utc_offset_h, zone) = (None, None, None, None, None);
    let site = Site { place: named_after(file), latitude, longitude, elevation_m, utc_offset_h, zone };
    let clock = Clock::Offset(0.0);
    Ok(Dated {
        file: file.to_owned(),
        sha256: text.sha256,
        site,
        clock,
        typical: false,
        hours,
        minutes,
        reading,
    })
}

fn moment(cells: &[Cow<'_, str>]) -> Option<i64> {
    let number = |i: usize| cells.get(i)?.parse::<i64>().ok();
    let hour = number(3).filter(|hour| (0..24).contains(hour) && cells.len() == WIDTH)?;
    Some(when::of_numbers((number(0)?, number(1)?, number(2)?), hour, 0)?.minutes)
}
