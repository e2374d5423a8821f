//! The EPW layout into an [`OutdoorYear`]: eight header lines, then one row of 35 columns an hour.
//!
//! Takes the place from the `LOCATION` line and never looks at the design conditions. Source: the
//! published EnergyPlus *Auxiliary Programs* manual, "EnergyPlus Weather File (EPW) Data
//! Dictionary". Knows no other layout. Start at [`read`].

use super::cells::{Column, Field};
use super::findings::{Findings, shown};
use super::hours::Hours;
use super::lines::{self, Cells, Row};
use super::options::{Layout, ReadOptions};
use super::reading::Reading;
use super::site::{self, ELEVATION, LATITUDE, LONGITUDE, Site, UTC_OFFSET, named_after};
use super::stamps::{AN_HOUR, EndOfHour, LEAP_HOURS, Stamps, kind_of};
use super::text::Whole;
use super::writing::{CELSIUS, IRRADIANCE, PASCAL, PERCENT, WIND, Writing};
use super::year::OutdoorYear;
use crate::problem::{Problem, Problems};

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
pub(super) fn read(file: &str, text: Whole, options: &ReadOptions) -> Result<OutdoorYear, Problems> {
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
    let mut cells = Cells::default();
    let an_hour = an_hour(&cells.split(periods.0, periods.1, separator), &mut findings);
    let rows: Vec<(usize, &str)> = lines.take(LEAP_HOURS * an_hour + 1).collect();
    let (line, first) = rows.first().copied().unwrap_or_default();
    let first = cells.split(line, first, separator);
    let (width, first_year) = (first.len(), label(&first).map(|l| l.year));
    let kind = kind_of(rows.len(), an_hour, first_year, &mut findings);
    let site = site(file, &cells.split(location.0, location.1, separator), &mut findings);
    let mut reading = Reading::of(Layout::Epw, text.origin.windows_1252);
    let mut hours = Hours::new(COLUMNS.map(column).into());
    let mut stamps = Stamps::new(rows.len(), an_hour);
    let last = rows.last().map(|(line, _)| *line);
    for (line, row) in rows {
        let row = cells.split(line, row, separator);
        if row.len() != width || width < LEAST_WIDTH {
            let cut = last == Some(line) && (LEAST_WIDTH..).contains(&width) && row.len() < width;
            findings.add(if cut { cut_short(&row, width) } else { wrong_width(&row) });
            stamps.skip();
            continue;
        }
        stamps.check(label(&row), &written(&row), &row, &mut findings);
        hours.push(&row, &mut findings);
    }
    let hours = hours.averaged(an_hour, &mut reading);
    hours.into_year(site, kind, text.origin.sha256, reading, (options.gaps, findings))
}

fn column((position, title, field, writing): (usize, &str, Field, Writing)) -> Column {
    Column { position, title: title.to_owned(), field, writing }
}

/// `DATA PERIODS,1,1,…`: one period, and how many records an hour.
fn an_hour(row: &Row<'_>, findings: &mut Findings) -> usize {
    let number = |place: usize| row.cell(place).parse::<usize>().ok();
    if let (Some(1), Some(an_hour)) = (number(1), number(2).filter(|n| AN_HOUR.contains(n))) {
        return an_hour;
    }
    let problem = Problem::new(format!("found {}", shown(row.text))).at_key("DATA PERIODS");
    let allowed = "one period with 1, 2 or 4 records an hour: DATA PERIODS,1,1,…";
    findings.add(row.spot_of_all().mark(problem).allowed(allowed));
    1
}

/// The last line of a file that was not fetched to its end.
fn cut_short(row: &Row<'_>, width: usize) -> Problem {
    let problem =
        Problem::new(format!("the last line is cut short: {} of its {width} columns are there", row.len()));
    row.spot_of_all().mark(problem).help("Take the file again from its source, whole: fetching it broke off")
}

fn wrong_width(row: &Row<'_>) -> Problem {
    let problem = Problem::new(format!("the row has {} columns", row.len()));
    let allowed = format!("{WIDTH} columns (at least {LEAST_WIDTH}), the same number in every row");
    row.spot_of_all().mark(problem).allowed(allowed)
}

/// City, state, country, source, station number, latitude, longitude, hours from UTC, elevation.
fn site(file: &str, row: &Row<'_>, findings: &mut Findings) -> Site {
    let mut number = |i, key: &str, range, unit| {
        site::site_number(row.cell(i), (key, &row.spot(i)), range, unit, findings)
    };
    let place: Vec<&str> =
        [row.cell(1), row.cell(2)].into_iter().filter(|p| !p.is_empty() && *p != "-").collect();
    Site {
        place: if place.is_empty() { named_after(file) } else { place.join(", ") },
        latitude: number(6, "latitude", LATITUDE, "°"),
        longitude: number(7, "longitude", LONGITUDE, "°"),
        utc_offset_h: number(8, "hours from UTC", UTC_OFFSET, "h"),
        elevation_m: number(9, "elevation", ELEVATION, "m"),
        zone: None,
    }
}

fn written(row: &Row<'_>) -> String {
    shown(&format!("{}/{} hour {}", row.cell(1), row.cell(2), row.cell(3)))
}

/// Year, month, day, hour 1 to 24. The minute means nothing: writers put 0, 30 or 60 there.
fn label(row: &Row<'_>) -> Option<EndOfHour> {
    let cell = |i: usize| row.get(i)?.parse::<u32>().ok();
    let year = i32::try_from(cell(0)?).ok()?;
    Some(EndOfHour { year, month: cell(1)?, day: cell(2)?, hour: cell(3)? })
}
