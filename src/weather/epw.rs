//! The EPW layout into an [`OutdoorYear`]: eight header lines, then one row of 35 columns an hour.
//!
//! Takes the place from the `LOCATION` line and never looks at the design conditions. Source: the
//! published EnergyPlus *Auxiliary Programs* manual, "EnergyPlus Weather File (EPW) Data
//! Dictionary". Knows no other layout. Start at [`read`].

use super::cells::{self, CELSIUS, Column, Field, IRRADIANCE, PASCAL, PERCENT, WIND, Writing};
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

/// How the first line begins; a file is recognised by it.
pub(super) const FIRST: [&str; 2] = ["LOCATION,", "LOCATION;"];
const LAST_OF_HEADER: &str = "DATA PERIODS";
const WIDTH: usize = 35;
/// Some writers leave out the last columns (snow, albedo, rain); up to the wind all must be there.
const LEAST_WIDTH: usize = 22;

const COLUMNS: [(usize, &str, Field, Writing); 8] = [
    (6, "dry bulb temperature", Field::DryBulb, CELSIUS),
    (7, "dew point temperature", Field::DewPoint, CELSIUS),
    (8, "relative humidity", Field::Humidity, PERCENT),
    (9, "atmospheric station pressure", Field::Pressure, PASCAL),
    (13, "global horizontal radiation", Field::Global, IRRADIANCE),
    (14, "direct normal radiation", Field::Direct, IRRADIANCE),
    (15, "diffuse horizontal radiation", Field::Diffuse, IRRADIANCE),
    (21, "wind speed", Field::Wind, WIND),
];

/// Reads an EPW file.
///
/// # Errors
/// Every wrong line, up to twenty; see the other functions of this folder for what is wrong.
pub(super) fn read(file: &str, text: Text, options: &ReadOptions) -> Result<OutdoorYear, Problems> {
    let mut findings = Findings::new(file);
    let mut lines = lines::filled_lines(&text.text);
    let location = lines.next().unwrap_or_default();
    // Spreadsheets of some countries save with semicolons and decimal commas.
    let separator = if location.1.trim_start().starts_with(FIRST[1]) { ';' } else { ',' };
    let Some(periods) = lines.find(|(_, line)| line.starts_with(LAST_OF_HEADER)) else {
        return Err(findings.end(
            Problem::new(format!("the line '{LAST_OF_HEADER}' that ends the header is missing"))
                .help("Give the file as it was published, header and all"),
        ));
    };
    check_periods(periods, separator, &mut findings);
    let rows: Vec<(usize, &str)> = lines.take(LEAP_HOURS + 1).collect();
    let first = rows.first().map(|(_, row)| lines::split(row, separator)).unwrap_or_default();
    let kind = kind_of(rows.len(), label(&first).map(|l| l.year), &mut findings);
    let site = site(file, location, separator, &mut findings);
    let reading = Reading::of(Layout::Epw, text.windows_1252);
    let mut hours = Hours::new(COLUMNS.map(column).into());
    let mut stamps = Stamps::new(rows.len());
    for (line, row) in rows {
        let row = lines::split(row, separator);
        if row.len() != first.len() || row.len() < LEAST_WIDTH {
            findings.add(wrong_width(line, row.len()));
            stamps.skip();
            continue;
        }
        stamps.check(label(&row), &written(&row), line, &mut findings);
        hours.push(line, &row, &mut findings);
    }
    hours.into_year(site, kind, text.sha256, reading, (options.gaps, findings))
}

fn column((position, title, field, writing): (usize, &str, Field, Writing)) -> Column {
    Column { position, title: title.to_owned(), field, writing }
}

/// `DATA PERIODS,1,1,…`: one period, one record an hour.
fn check_periods((line, text): (usize, &str), separator: char, findings: &mut Findings) {
    let row = lines::split(text, separator);
    let is_one = |i: usize| row.get(i).is_some_and(|c| c.trim() == "1");
    if !(is_one(1) && is_one(2)) {
        findings.add(
            Problem::new(format!("found {}", shown(text)))
                .at_line(line)
                .at_key("DATA PERIODS")
                .allowed("one period with one record an hour: DATA PERIODS,1,1,…"),
        );
    }
}

fn wrong_width(line: usize, found: usize) -> Problem {
    Problem::new(format!("the row has {found} columns"))
        .at_line(line)
        .allowed(format!("{WIDTH} columns (at least {LEAST_WIDTH}), the same number in every row"))
}

/// City, state, country, source, station number, latitude, longitude, hours from UTC, elevation.
fn site(file: &str, (line, text): (usize, &str), separator: char, findings: &mut Findings) -> Site {
    let row = lines::split(text, separator);
    let cell = |i: usize| row.get(i).map(|c| c.trim()).unwrap_or_default();
    let mut number =
        |i, key: &str, range, unit| cells::site_number(cell(i), (key, line), range, unit, findings);
    let place: Vec<&str> = [cell(1), cell(2)].into_iter().filter(|p| !p.is_empty() && *p != "-").collect();
    Site {
        place: if place.is_empty() { named_after(file) } else { place.join(", ") },
        latitude: number(6, "latitude", LATITUDE, "°"),
        longitude: number(7, "longitude", LONGITUDE, "°"),
        utc_offset_h: number(8, "hours from UTC", UTC_OFFSET, "h"),
        elevation_m: number(9, "elevation", ELEVATION, "m"),
        zone: None,
    }
}

fn written(row: &[Cow<'_, str>]) -> String {
    let cell = |i: usize| row.get(i).map(|c| c.trim()).unwrap_or_default();
    shown(&format!("{}/{} hour {}", cell(1), cell(2), cell(3)))
}

/// Year, month, day, hour 1 to 24. The minute means nothing: writers put 0, 30 or 60 there.
fn label(row: &[Cow<'_, str>]) -> Option<EndOfHour> {
    let cell = |i: usize| row.get(i)?.trim().parse::<u32>().ok();
    let year = i32::try_from(cell(0)?).ok()?;
    Some(EndOfHour { year, month: cell(1)?, day: cell(2)?, hour: cell(3)? })
}
