//! The TMY3 layout into an [`OutdoorYear`]: a station line, a line of column names, 8,760 rows.
//!
//! Source: Wilcox and Marion, *User's Manual for TMY3 Data Sets*, NREL/TP-581-43156 (2008), tables
//! 1-1 and 1-2. Knows no other layout. Start at [`read`].

use super::cells::{Column, Field, named_columns, wrong_width};
use super::findings::{Findings, shown};
use super::hours::Hours;
use super::lines::{self, Cells, Row};
use super::options::{Layout, ReadOptions};
use super::reading::Reading;
use super::site::{self, ELEVATION, LATITUDE, LONGITUDE, Site, UTC_OFFSET, named_after};
use super::stamps::{EndOfHour, LEAP_HOURS, Stamps, kind_of};
use super::text::Whole;
use super::writing::{CELSIUS, IRRADIANCE, MILLIBAR, PERCENT, WIND, Writing};
use super::year::OutdoorYear;
use crate::problem::{Problem, Problems};

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
pub(super) fn read(file: &str, text: Whole, options: &ReadOptions) -> Result<OutdoorYear, Problems> {
    let mut findings = Findings::new(file);
    let mut lines = lines::filled_lines(&text.text).peekable();
    let station = lines.next_if(|(_, line)| !is_header(line)).unwrap_or((1, ""));
    let Some((header_line, header)) = lines.next().filter(|(_, line)| is_header(line)) else {
        return Err(findings.end(Problem::new("the line of column names is missing").at_line(2)));
    };
    let separator = lines::separator(header);
    let mut cells = Cells::default();
    let names = cells.split(header_line, header, separator);
    let (columns, width) = (find_columns(&names, &mut findings), names.len());
    let mut reading = Reading::of(Layout::Tmy3, text.origin.windows_1252);
    reading.pass_over(&names, &columns, &[0, 1]);
    let rows: Vec<(usize, &str)> = lines.take(LEAP_HOURS + 1).collect();
    let first = rows.first().and_then(|(line, row)| label(&cells.split(*line, row, separator)));
    let kind = kind_of(rows.len(), 1, first.map(|l| l.year), &mut findings);
    let site = site(file, &cells.split(station.0, station.1, separator), &mut findings);
    let mut hours = Hours::new(columns);
    let mut stamps = Stamps::new(rows.len(), 1);
    for (line, row) in rows {
        let row = cells.split(line, row, separator);
        if row.len() != width {
            findings.add(wrong_width(&row, width));
            stamps.skip();
            continue;
        }
        stamps.check(label(&row), &written(&row), &row, &mut findings);
        hours.push(&row, &mut findings);
    }
    hours.into_year(site, kind, text.origin.sha256, reading, (options.gaps, findings))
}

fn is_header(line: &str) -> bool {
    line.trim_start().starts_with(HEADER)
}

fn find_columns(names: &Row<'_>, findings: &mut Findings) -> Vec<Column> {
    let columns = named_columns(names, &COLUMNS);
    if !columns.iter().any(|c| c.field == Field::DryBulb) {
        let problem = Problem::new("the column 'Dry-bulb (C)' is missing");
        let help = "Give the file as it was published, with all its columns";
        findings.add(names.spot_of_all().mark(problem).help(help));
    }
    columns
}

/// Station number, name, state, hours from UTC, latitude, longitude, elevation.
fn site(file: &str, row: &Row<'_>, findings: &mut Findings) -> Site {
    let mut number = |i, key: &str, range, unit| {
        site::site_number(row.cell(i), (key, &row.spot(i)), range, unit, findings)
    };
    let place: Vec<&str> = [row.cell(1), row.cell(2)].into_iter().filter(|part| !part.is_empty()).collect();
    Site {
        place: if place.is_empty() { named_after(file) } else { place.join(", ") },
        utc_offset_h: number(3, "hours from UTC", UTC_OFFSET, "h"),
        latitude: number(4, "latitude", LATITUDE, "°"),
        longitude: number(5, "longitude", LONGITUDE, "°"),
        elevation_m: number(6, "elevation", ELEVATION, "m"),
        zone: None,
    }
}

fn written(row: &Row<'_>) -> String {
    shown(&format!("{} {}", row.cell(0), row.cell(1)))
}

/// `01/31/2002` and `01:00` to `24:00`.
fn label(row: &Row<'_>) -> Option<EndOfHour> {
    let mut date = row.get(0)?.split('/');
    let (month, day, year) = (date.next()?, date.next()?, date.next()?);
    let (hour, minute) = row.get(1)?.split_once(':')?;
    let whole = minute == "00" && date.next().is_none();
    Some(EndOfHour {
        year: year.parse().ok()?,
        month: month.parse().ok()?,
        day: day.parse().ok()?,
        hour: hour.parse().ok().filter(|_| whole)?,
    })
}
