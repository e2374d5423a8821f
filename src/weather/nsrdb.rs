//! The NSRDB layout into dated rows: names and values of the place, column names, hours or
//! half-hours.
//!
//! Source: NREL, *Solar Resource Data: PSM v3 and v4, API documentation* (developer.nrel.gov,
//! "CSV format"): the first line names what the second holds, `Time Zone` being that of the rows
//! and `Local Time Zone` that of the place; the third names the columns, of which the first five
//! are year, month, day, hour and minute. Typical years of the same source name another year in
//! each month. Knows no other layout. Start at [`read`].

use super::cells::{self, CELSIUS, Column, Field, IRRADIANCE, MILLIBAR, PERCENT, WIND, Writing};
use super::dated::{Clock, Dated};
use super::dated_csv::{Table, rows};
use super::findings::{Findings, shown};
use super::hours::{ELEVATION, LATITUDE, LONGITUDE, Site, UTC_OFFSET, named_after};
use super::lines;
use super::names::dates;
use super::options::Layout;
use super::reading::Reading;
use super::text::Text;
use crate::problem::{Problem, Problems};
use std::borrow::Cow;

/// Name, what it holds, how it is written, where the second line says its unit, and that unit.
type Known = (&'static str, Field, Writing, &'static str, &'static [&'static str]);

const COLUMNS: [Known; 8] = [
    ("Temperature", Field::DryBulb, CELSIUS, "Temperature Units", &["c", "°c", "celsius"]),
    ("Dew Point", Field::DewPoint, CELSIUS, "Dew Point Units", &["c", "°c", "celsius"]),
    ("Relative Humidity", Field::Humidity, PERCENT, "Relative Humidity Units", &["%"]),
    ("Pressure", Field::Pressure, MILLIBAR, "Pressure Units", &["mbar", "hpa", "millibar"]),
    ("GHI", Field::Global, IRRADIANCE, "GHI Units", &["w/m2"]),
    ("DNI", Field::Direct, IRRADIANCE, "DNI Units", &["w/m2"]),
    ("DHI", Field::Diffuse, IRRADIANCE, "DHI Units", &["w/m2"]),
    ("Wind Speed", Field::Wind, WIND, "Wind Speed Units", &["m/s"]),
];

/// Whether a line is the first of this layout.
pub(super) fn is_first(line: &str) -> bool {
    let names = lines::split(line, lines::separator(line));
    let has = |wanted: &str| names.iter().any(|name| name.trim().eq_ignore_ascii_case(wanted));
    has("Source") && has("Time Zone")
}

/// Reads an NSRDB file.
///
/// # Errors
/// Every wrong line, up to twenty; a unit that is another than the layout's.
pub(super) fn read(file: &str, text: Text) -> Result<Dated, Problems> {
    let mut findings = Findings::new(file);
    let mut lines = lines::filled_lines(&text.text);
    let (Some(first), Some(second), Some(header)) = (lines.next(), lines.next(), lines.next()) else {
        return Err(findings.end(Problem::new("the file ends before its column names")));
    };
    let separator = lines::separator(header.1);
    let facts = Facts::of(first.1, second.1, second.0);
    let names = lines::split(header.1, separator);
    let Some((date, _)) = dates(&names) else {
        let problem = Problem::new("the columns Year, Month, Day and Hour are missing");
        return Err(findings.end(problem.at_line(header.0)));
    };
    let columns = columns(&names, &facts, header.0, &mut findings);
    let own = facts.number("Time Zone", UTC_OFFSET, "h", &mut findings);
    let local = facts.number("Local Time Zone", UTC_OFFSET, "h", &mut findings);
    let site = facts.site(file, local.or(own.filter(|own| *own != 0.0)), &mut findings);
    let mut reading = Reading::of(Layout::Nsrdb, text.windows_1252);
    reading.pass_over(&names, &columns, &date.positions());
    let table = Table { separator, width: names.len(), date, columns };
    let (hours, moments) = rows(&table, lines, &mut reading, &mut findings);
    findings.check()?;
    Ok(Dated {
        file: file.to_owned(),
        sha256: text.sha256,
        site,
        clock: own.map_or(Clock::Unsaid, Clock::Offset),
        typical: false,
        hours,
        minutes: moments.into_iter().map(|moment| moment.minutes).collect(),
        reading,
    })
}

fn columns(names: &[Cow<'_, str>], facts: &Facts<'_>, line: usize, findings: &mut Findings) -> Vec<Column> {
    let mut columns = Vec::new();
    for (name, field, writing, key, units) in COLUMNS {
        let Some(position) = names.iter().position(|n| n.trim().eq_ignore_ascii_case(name)) else { continue };
        let unit = facts.get(key).to_lowercase();
        if !unit.is_empty() && !units.contains(&unit.as_str()) {
            let problem = Problem::new(format!("found {}", shown(&unit))).at_line(facts.line).at_key(key);
            findings.add(problem.allowed(units.join(", ")).help("Fetch the file in the source's own units"));
        }
        columns.push(Column { position, title: name.to_owned(), field, writing });
    }
    if !columns.iter().any(|column| column.field == Field::DryBulb) {
        let problem = Problem::new("the column 'Temperature' is missing").at_line(line);
        findings.add(problem.help("Ask the source for air temperature (air_temperature) too"));
    }
    columns
}

/// What the first two lines say, name by name.
struct Facts<'a> {
    names: Vec<Cow<'a, str>>,
    values: Vec<Cow<'a, str>>,
    line: usize,
}

impl<'a> Facts<'a> {
    fn of(names: &'a str, values: &'a str, line: usize) -> Self {
        let separator = lines::separator(names);
        Self { names: lines::split(names, separator), values: lines::split(values, separator), line }
    }

    fn get(&self, name: &str) -> &str {
        let position = self.names.iter().position(|n| n.trim().eq_ignore_ascii_case(name));
        position.and_then(|i| self.values.get(i)).map(|value| value.trim()).unwrap_or_default()
    }

    fn number(&self, name: &str, range: (f64, f64), unit: &str, findings: &mut Findings) -> Option<f64> {
        let text = match self.get(name) {
            "-" | "None" => "",
            text => text,
        };
        cells::site_number(text, (name, self.line), range, unit, findings)
    }

    /// Fields that the source does not fill hold a hyphen or `b'None'`.
    fn site(&self, file: &str, utc_offset_h: Option<f64>, findings: &mut Findings) -> Site {
        let parts = [self.get("City"), self.get("State")];
        let known = |part: &&str| !part.is_empty() && *part != "-" && !part.contains("None");
        let place: Vec<&str> = parts.into_iter().filter(known).collect();
        Site {
            place: if place.is_empty() { named_after(file) } else { place.join(", ") },
            latitude: self.number("Latitude", LATITUDE, "°", findings),
            longitude: self.number("Longitude", LONGITUDE, "°", findings),
            elevation_m: self.number("Elevation", ELEVATION, "m", findings),
            utc_offset_h,
            zone: None,
        }
    }
}
