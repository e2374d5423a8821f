//! The TMY3 layout into an [`OutdoorYear`]: a station line, a line of column names, 8,760 rows.
//!
//! Source: Wilcox and Marion, *User's Manual for TMY3 Data Sets*, NREL/TP-581-43156 (2008), tables
//! 1-1 and 1-2. Knows no other layout. Start at [`read`].

use super::cells::{self, CELSIUS, Column, Field, IRRADIANCE, MILLIBAR, PERCENT, WIND, Writing};
use super::findings::{Findings, shown};
use super::hours::{ELEVATION, Hours, LATITUDE, LONGITUDE, Site, UTC_OFFSET, named_after};
use super::lines;
use super::options::{Layout, ReadOptions};
use super::reading::Reading;
use super::stamps::{EndOfHour, LEAP_HOURS, Stamps, kind_of};
use super::text::Text;
use super::year::OutdoorYear;
use crate::problem::{Problem, Problems};
use std::borrow::Cow;

/// How the line of column names begins; a file is recognised by it.
pub(super) const HEADER: &str = "Date (MM/DD/YYYY)";

const COLUMNS: [(&str, Field, Writing); 8] = [
    ("Dry-bulb (C)", Field::DryBulb, CELSIUS),
    ("Dew-point (C)", Field::DewPoint, CELSIUS),
    ("RHum (%)", Field::Humidity, PERCENT),
    ("Pressure (mbar)", Field::Pressure, MILLIBAR),
    ("GHI (W/m^2)", Field::Global, IRRADIANCE),
    ("DNI (W/m^2)", Field::Direct, IRRADIANCE),
    ("DHI (W/m^2)", Field::Diffuse, IRRADIANCE),
    ("Wspd (m/s)", Field::Wind, WIND),
];

/// Reads a TMY3 file.
///
/// # Errors
/// Every wrong line, up to twenty; see the other functions of this folder for what is wrong.
pub(super) fn read(file: &str, text: Text, options: &ReadOptions) -> Result<OutdoorYear, Problems> {
    let mut findings = Findings::new(file);
    let mut lines = lines::filled_lines(&text.text).peekable();
    let station = lines.next_if(|(_, line)| !is_header(line));
    let Some((header_line, header)) = lines.next().filter(|(_, line)| is_header(line)) else {
        return Err(findings.end(Problem::new("the line of column names is missing").at_line(2)));
    };
    let separator = lines::separator(header);
    let names = lines::split(header, separator);
    let columns = find_columns(&names, header_line, &mut findings);
    let rows: Vec<(usize, &str)> = lines.take(LEAP_HOURS + 1).collect();
    let first_year = rows.first().and_then(|(_, row)| label(&lines::split(row, separator))).map(|l| l.year);
    let kind = kind_of(rows.len(), first_year, &mut findings);
    let site = site(file, station, separator, &mut findings);
    let mut reading = Reading::of(Layout::Tmy3, text.windows_1252);
    reading.pass_over(&names, &columns, &[]);
    let mut hours = Hours::new(columns);
    let mut stamps = Stamps::new(rows.len());
    for (line, row) in rows {
        let row = lines::split(row, separator);
        if row.len() != names.len() {
            findings.add(wrong_width(line, row.len(), names.len()));
            stamps.skip();
            continue;
        }
        stamps.check(label(&row), &written(&row), line, &mut findings);
        hours.push(line, &row, &mut findings);
    }
    hours.into_year(site, kind, text.sha256, reading, (options.gaps, findings))
}

fn is_header(line: &str) -> bool {
    line.trim_start().starts_with(HEADER)
}

fn find_columns(names: &[Cow<'_, str>], line: usize, findings: &mut Findings) -> Vec<Column> {
    let found = |(name, field, writing): &(&str, Field, Writing)| {
        let position = names.iter().position(|n| n.trim() == *name)?;
        Some(Column { position, title: (*name).to_owned(), field: *field, writing: *writing })
    };
    let columns: Vec<Column> = COLUMNS.iter().filter_map(found).collect();
    if !columns.iter().any(|c| c.field == Field::DryBulb) {
        let problem = Problem::new("the column 'Dry-bulb (C)' is missing");
        findings.add(problem.at_line(line).help("Give the file as it was published, with all its columns"));
    }
    columns
}

fn wrong_width(line: usize, found: usize, wanted: usize) -> Problem {
    Problem::new(format!("the row has {found} columns"))
        .at_line(line)
        .allowed(format!("{wanted} columns, as the line of names has"))
}

/// Station number, name, state, hours from UTC, latitude, longitude, elevation.
fn site(file: &str, station: Option<(usize, &str)>, separator: char, findings: &mut Findings) -> Site {
    let (line, text) = station.unwrap_or((1, ""));
    let row = lines::split(text, separator);
    let cell = |i: usize| row.get(i).map(|c| c.trim()).unwrap_or_default();
    let mut number =
        |i, key: &str, range, unit| cells::site_number(cell(i), (key, line), range, unit, findings);
    let place: Vec<&str> = [cell(1), cell(2)].into_iter().filter(|part| !part.is_empty()).collect();
    Site {
        place: if place.is_empty() { named_after(file) } else { place.join(", ") },
        utc_offset_h: number(3, "hours from UTC", UTC_OFFSET, "h"),
        latitude: number(4, "latitude", LATITUDE, "°"),
        longitude: number(5, "longitude", LONGITUDE, "°"),
        elevation_m: number(6, "elevation", ELEVATION, "m"),
        zone: None,
    }
}

fn written(row: &[Cow<'_, str>]) -> String {
    let cell = |i: usize| row.get(i).map(|c| c.trim()).unwrap_or_default();
    shown(&format!("{} {}", cell(0), cell(1)))
}

/// `01/31/2002` and `01:00` to `24:00`.
fn label(row: &[Cow<'_, str>]) -> Option<EndOfHour> {
    let mut date = row.first()?.trim().split('/');
    let (month, day, year) = (date.next()?, date.next()?, date.next()?);
    let (hour, minute) = row.get(1)?.trim().split_once(':')?;
    let whole = minute == "00" && date.next().is_none();
    Some(EndOfHour {
        year: year.parse().ok()?,
        month: month.parse().ok()?,
        day: day.parse().ok()?,
        hour: hour.parse().ok().filter(|_| whole)?,
    })
}
