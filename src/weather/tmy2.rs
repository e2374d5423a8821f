//! The TMY2 layout into an [`OutdoorYear`]: a station line and 8,760 rows, all of fixed width.
//!
//! Source: Marion and Urban, *User's Manual for TMY2s*, NREL/SP-463-7668 (1995), tables 3-1 and
//! 3-2: positions are counted from 1 there, and so here. Knows no other layout. Start at [`read`].

use super::cells::{Column, Field};
use super::findings::{Findings, shown};
use super::hours::Hours;
use super::lines::{self, Cells};
use super::options::{Layout, ReadOptions};
use super::reading::Reading;
use super::site::{self, ELEVATION, LATITUDE, LONGITUDE, Site, UTC_OFFSET, named_after};
use super::spot::Spot;
use super::stamps::{EndOfHour, LEAP_HOURS, Stamps, kind_of};
use super::text::Whole;
use super::writing::{IRRADIANCE, MILLIBAR, PERCENT, TENTHS_CELSIUS, TENTHS_WIND, Writing};
use super::year::OutdoorYear;
use crate::problem::{Problem, Problems};

/// First and last position of a column, its name, and what it holds.
type Place = ((usize, usize), &'static str, Field, Writing);

const COLUMNS: [Place; 8] = [
    ((68, 71), "dry bulb temperature", Field::DryBulb, TENTHS_CELSIUS),
    ((74, 77), "dew point temperature", Field::DewPoint, TENTHS_CELSIUS),
    ((80, 82), "relative humidity", Field::Humidity, PERCENT),
    ((85, 88), "atmospheric pressure", Field::Pressure, MILLIBAR),
    ((18, 21), "global horizontal radiation", Field::Global, IRRADIANCE),
    ((24, 27), "direct normal radiation", Field::Direct, IRRADIANCE),
    ((30, 33), "diffuse horizontal radiation", Field::Diffuse, IRRADIANCE),
    ((96, 98), "wind speed", Field::Wind, TENTHS_WIND),
];
const LEAST_WIDTH: usize = 98;

/// Whether a line is a station line: hemispheres, degrees and minutes at their places.
pub(super) fn is_station(line: &str) -> bool {
    let number = |from, to| field(line, from, to).trim().parse::<f64>().is_ok();
    matches!(field(line, 38, 38), "N" | "S")
        && matches!(field(line, 46, 46), "E" | "W")
        && [(34, 36), (40, 41), (43, 44), (48, 50), (52, 53)].into_iter().all(|(from, to)| number(from, to))
}

/// Reads a TMY2 file.
///
/// # Errors
/// Every wrong line, up to twenty; see the other functions of this folder for what is wrong.
pub(super) fn read(file: &str, text: Whole, options: &ReadOptions) -> Result<OutdoorYear, Problems> {
    let mut findings = Findings::new(file);
    let mut lines = lines::filled_lines(&text.text);
    let Some(station) = lines.next().filter(|(_, line)| is_station(line)) else {
        let problem = Problem::new("the first line does not give the station").at_line(1);
        return Err(findings.end(problem.help("Give the file as it was published, header and all")));
    };
    let rows: Vec<(usize, &str)> = lines.take(LEAP_HOURS + 1).collect();
    let first_year = rows.first().and_then(|(_, row)| label(row)).map(|l| l.year);
    let kind = kind_of(rows.len(), 1, first_year, &mut findings);
    let site = site(file, station, &mut findings);
    let columns = COLUMNS.iter().enumerate().map(|(position, (_, title, field, writing))| Column {
        position,
        title: (*title).to_owned(),
        field: *field,
        writing: *writing,
    });
    let mut hours = Hours::new(columns.collect());
    let mut stamps = Stamps::new(rows.len(), 1);
    let mut cells = Cells::default();
    for (line, text) in rows {
        let row = cells.fixed(line, text, COLUMNS.iter().map(|(places, ..)| *places));
        if text.len() < LEAST_WIDTH {
            let problem = Problem::new(format!("the row has {} characters", text.len()));
            findings.add(row.spot_of_all().mark(problem).allowed(format!("at least {LEAST_WIDTH}")));
            stamps.skip();
            continue;
        }
        stamps.check(label(text), &shown(field(text, 2, 9)), &row, &mut findings);
        hours.push(&row, &mut findings);
    }
    let reading = Reading::of(Layout::Tmy2, text.origin.windows_1252);
    hours.into_year(site, kind, text.origin.sha256, reading, (options.gaps, findings))
}

/// The characters of two positions and those between, counted from 1; empty where there are none.
fn field(line: &str, from: usize, to: usize) -> &str {
    line.get(from.saturating_sub(1)..to).unwrap_or_default()
}

/// Degrees and minutes with a letter for the hemisphere; metres above the sea.
fn site(file: &str, (number, line): (usize, &str), findings: &mut Findings) -> Site {
    let mut number = |text: &str, key: &str, range, unit| {
        site::site_number(text, (key, &Spot::part(number, line, text.trim())), range, unit, findings)
    };
    let degrees = |sign: &str, whole: &str, minutes: &str| {
        let part = |text: &str| text.trim().parse::<f64>().unwrap_or(f64::NAN);
        let value = part(whole) + part(minutes) / 60.0;
        (if matches!(sign, "S" | "W") { -value } else { value }).to_string()
    };
    let latitude = degrees(field(line, 38, 38), field(line, 40, 41), field(line, 43, 44));
    let longitude = degrees(field(line, 46, 46), field(line, 48, 50), field(line, 52, 53));
    let place = [field(line, 8, 29).trim(), field(line, 31, 32).trim()];
    let place: Vec<&str> = place.into_iter().filter(|part| !part.is_empty()).collect();
    Site {
        place: if place.is_empty() { named_after(file) } else { place.join(", ") },
        utc_offset_h: number(field(line, 34, 36), "hours from UTC", UTC_OFFSET, "h"),
        latitude: number(&latitude, "latitude", LATITUDE, "°"),
        longitude: number(&longitude, "longitude", LONGITUDE, "°"),
        elevation_m: number(field(line, 56, 59), "elevation", ELEVATION, "m"),
        zone: None,
    }
}

/// Two digits each of year, month, day and hour 1 to 24; the years are of the last century.
fn label(row: &str) -> Option<EndOfHour> {
    let number = |from| {
        let text = field(row, from, from + 1);
        // The manual writes zeros; blanks in their place are read too.
        text.trim_start().parse::<u32>().ok()
    };
    let year = 1900 + i32::try_from(number(2)?).ok()?;
    Some(EndOfHour { year, month: number(4)?, day: number(6)?, hour: number(8)? })
}
