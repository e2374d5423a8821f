//! The PVGIS layout into dated rows: lines on the place, column names, hours in UTC, lines of words.
//!
//! Two forms: hourly series (`time,G(i),H_sun,T2m,WS10m,Int`, rows such as `20050101:0011`) and
//! typical years (`time(UTC),T2m,RH,G(h),…` below a list of months and their years). Source:
//! European Commission, Joint Research Centre, *PVGIS user manual*, "Hourly radiation" and "TMY".
//! Irradiance on a tilted plane, `G(i)`, is passed over. Knows no other layout. Start at [`read`].

use super::cells::{self, CELSIUS, Column, Field, IRRADIANCE, PASCAL, PERCENT, WIND, Writing};
use super::dated::{Clock, Dated};
use super::dated_csv::{Table, rows};
use super::findings::Findings;
use super::hours::{ELEVATION, LATITUDE, LONGITUDE, Site, named_after};
use super::lines;
use super::names::DateColumns;
use super::options::Layout;
use super::reading::Reading;
use super::text::Text;
use super::when::{DayOrder, moment};
use crate::problem::{Problem, Problems};
use std::borrow::Cow;

const PLACE: [&str; 3] = ["Latitude (decimal degrees)", "Longitude (decimal degrees)", "Elevation (m)"];
const MONTHS: &str = "month,year";
const COLUMNS: [(&str, Field, Writing); 7] = [
    ("T2m", Field::DryBulb, CELSIUS),
    ("RH", Field::Humidity, PERCENT),
    ("SP", Field::Pressure, PASCAL),
    ("G(h)", Field::Global, IRRADIANCE),
    ("Gb(n)", Field::Direct, IRRADIANCE),
    ("Gd(h)", Field::Diffuse, IRRADIANCE),
    ("WS10m", Field::Wind, WIND),
];

/// Whether a line is the first of this layout.
pub(super) fn is_first(line: &str) -> bool {
    line.trim_start().starts_with("Latitude (decimal degrees)")
}

/// Whether a line is this layout's line of column names.
pub(super) fn is_header(line: &str) -> bool {
    let names = lines::split(line, lines::separator(line));
    let first = names.first().map(|name| name.trim()).unwrap_or_default();
    matches!(first, "time" | "time(UTC)") && names.iter().any(|name| name.trim() == "T2m")
}

/// Reads a PVGIS file.
///
/// # Errors
/// Every wrong line, up to twenty.
pub(super) fn read(file: &str, text: Text) -> Result<Dated, Problems> {
    let mut findings = Findings::new(file);
    let all: Vec<(usize, &str)> = lines::filled_lines(&text.text).collect();
    let Some(at) = all.iter().position(|(_, line)| is_header(line)) else {
        let problem = Problem::new("the line of column names with 'time' and 'T2m' is missing");
        return Err(findings.end(problem.help("Ask the source for hourly values with temperature, as CSV")));
    };
    let (head, table) = all.split_at(at);
    let (header_line, header) = table.first().copied().unwrap_or_default();
    let separator = lines::separator(header);
    let names = lines::split(header, separator);
    let columns = columns(&names);
    let site = site(file, head, &mut findings);
    let mut reading = Reading::of(Layout::Pvgis, text.windows_1252);
    reading.pass_over(&names, &columns, &[0]);
    let width = names.len();
    let table_form = Table { separator, width, date: DateColumns::One(0), columns };
    let body = without_foot(table.get(1..).unwrap_or_default());
    let (hours, moments) = rows(&table_form, body.iter().copied(), &mut reading, &mut findings);
    if moments.is_empty() {
        findings.add(Problem::new("there are no hours below the column names").at_line(header_line));
    }
    findings.check()?;
    let typical = head.iter().any(|(_, line)| line.trim().replace(';', ",").starts_with(MONTHS));
    Ok(Dated {
        file: file.to_owned(),
        sha256: text.sha256,
        site,
        clock: Clock::Offset(0.0),
        typical,
        hours,
        minutes: moments.into_iter().map(|moment| moment.minutes).collect(),
        reading,
    })
}

fn columns(names: &[Cow<'_, str>]) -> Vec<Column> {
    let found = |(name, field, writing): &(&str, Field, Writing)| {
        let position = names.iter().position(|n| n.trim() == *name)?;
        Some(Column { position, title: (*name).to_owned(), field: *field, writing: *writing })
    };
    COLUMNS.iter().filter_map(found).collect()
}

/// The rows up to the last that begins with a date; below it stand lines of words.
fn without_foot<'a, 'b>(rows: &'b [(usize, &'a str)]) -> &'b [(usize, &'a str)] {
    let dated = |row: &str| {
        let first = row.split([',', ';', '\t']).next().unwrap_or_default();
        moment(first, DayOrder::MonthFirst).is_some()
    };
    let end = rows.iter().rposition(|(_, row)| dated(row)).map_or(0, |last| last + 1);
    rows.get(..end).unwrap_or_default()
}

fn site(file: &str, head: &[(usize, &str)], findings: &mut Findings) -> Site {
    let mut number = |key: &str, range, unit| {
        let (line, text) = head.iter().find(|(_, text)| text.trim_start().starts_with(key))?;
        let value = text.split_once(':').map_or("", |(_, value)| value);
        let value = value.trim().trim_end_matches([';', ',']).replace(',', ".");
        cells::site_number(&value, (key, *line), range, unit, findings)
    };
    let [latitude, longitude, elevation] = PLACE;
    Site {
        place: named_after(file),
        latitude: number(latitude, LATITUDE, "°"),
        longitude: number(longitude, LONGITUDE, "°"),
        elevation_m: number(elevation, ELEVATION, "m"),
        utc_offset_h: None,
        zone: None,
    }
}
