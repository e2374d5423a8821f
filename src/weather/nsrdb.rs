//! The NSRDB layout into dated rows: names and values of the place, column names, hours or
//! half-hours.
//!
//! Source: NREL, *Solar Resource Data: PSM v3 and v4, API documentation* (developer.nrel.gov,
//! "CSV format"): the first line names what the second holds, `Time Zone` being that of the rows
//! and `Local Time Zone` that of the place; the third names the columns, of which the first five
//! are year, month, day, hour and minute. Typical years of the same source name another year in
//! each month. Knows no other layout. Start at [`read`].

use super::cells::{AS_NAMES, Column, Field};
use super::dated::{Clock, Dated};
use super::dated_rows::{Table, rows};
use super::findings::{Findings, shown};
use super::lines::{self, Cells, Row};
use super::names::dates;
use super::options::Layout;
use super::reading::Reading;
use super::site::{self, ELEVATION, LATITUDE, LONGITUDE, Site, UTC_OFFSET, named_after};
use super::spot::Spot;
use super::text::Text;
use super::writing::{CELSIUS, IRRADIANCE, MILLIBAR, PERCENT, WIND, Writing};
use crate::problem::{Problem, Problems};

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
    let has = |wanted: &str| lines::any_cell(line, |name| name.eq_ignore_ascii_case(wanted));
    has("Source") && has("Time Zone")
}

/// Reads an NSRDB file.
///
/// # Errors
/// Every wrong line, up to twenty; a unit that is another than the layout's.
pub(super) fn read(file: &str, mut text: Text<'_>) -> Result<Dated, Problems> {
    let mut findings = Findings::new(file);
    let (first, second, header) = match head(&mut text) {
        Ok([Some(first), Some(second), Some(header)]) => (first, second, header),
        Ok(_) => return Err(findings.end(Problem::new("the file ends before its column names"))),
        Err(problem) => return Err(findings.end(problem)),
    };
    let [mut name_cells, mut value_cells, mut cells] = [(); 3].map(|()| Cells::default());
    let separator = lines::separator(&first.1);
    let facts = Facts {
        names: name_cells.split(first.0, &first.1, separator),
        values: value_cells.split(second.0, &second.1, separator),
    };
    let separator = lines::separator(&header.1);
    let names = cells.split(header.0, &header.1, separator);
    let Some((date, _)) = dates(&names.cells().collect::<Vec<_>>()) else {
        let problem = Problem::new("the columns Year, Month, Day and Hour are missing");
        return Err(findings.end(names.spot_of_all().mark(problem)));
    };
    let columns = columns(&names, &facts, &mut findings);
    let own = facts.number("Time Zone", UTC_OFFSET, "h", &mut findings);
    let local = facts.number("Local Time Zone", UTC_OFFSET, "h", &mut findings);
    let site = facts.site(file, local.or(own.filter(|own| *own != 0.0)), &mut findings);
    let mut reading = Reading::of(Layout::Nsrdb, false);
    reading.pass_over(&names, &columns, &date.positions());
    let shape = AS_NAMES;
    let table = Table { separator, width: names.len(), shape, date, columns, station: None, foot: false };
    match rows(table, &mut text, &mut findings) {
        Ok(rows) => {
            let clock = own.map_or(Clock::Unsaid, Clock::Offset);
            let mut dated = Dated::of(site, clock, rows, reading, (text, findings))?;
            dated.station = Some(facts.get("Location ID").0)
                .filter(|id| !matches!(*id, "" | "-"))
                .map(|id| format!("station {id}"));
            Ok(dated)
        }
        Err(problem) => Err(findings.end(problem)),
    }
}

/// The first three lines that hold anything.
fn head(text: &mut Text<'_>) -> Result<[Option<(usize, String)>; 3], Problem> {
    Ok([text.next_filled()?, text.next_filled()?, text.next_filled()?])
}

fn columns(names: &Row<'_>, facts: &Facts<'_>, findings: &mut Findings) -> Vec<Column> {
    let mut columns = Vec::new();
    for (name, field, writing, key, units) in COLUMNS {
        let Some(position) = names.cells().position(|n| n.eq_ignore_ascii_case(name)) else { continue };
        let (unit, spot) = facts.get(key);
        let unit = unit.to_lowercase();
        if !unit.is_empty() && !units.contains(&unit.as_str()) {
            let problem = Problem::new(format!("found {}", shown(&unit))).at_key(key);
            let problem = problem.allowed(units.join(", ")).help("Fetch the file in the source's own units");
            findings.add(spot.mark(problem));
        }
        columns.push(Column { position, title: name.to_owned(), field, writing });
    }
    if !columns.iter().any(|column| column.field == Field::DryBulb) {
        let problem = Problem::new("the column 'Temperature' is missing");
        let help = "Ask the source for air temperature (air_temperature) too";
        findings.add(names.spot_of_all().mark(problem).help(help));
    }
    columns
}

/// What the first two lines say, name by name.
struct Facts<'a> {
    names: Row<'a>,
    values: Row<'a>,
}

impl<'a> Facts<'a> {
    /// What is said, and where.
    fn get(&self, name: &str) -> (&'a str, Spot<'a>) {
        let place = self.names.cells().position(|n| n.eq_ignore_ascii_case(name));
        let value = place.map(|place| (self.values.cell(place), self.values.spot(place)));
        value.unwrap_or_else(|| ("", self.values.spot_of_all()))
    }

    fn number(&self, name: &str, range: (f64, f64), unit: &str, findings: &mut Findings) -> Option<f64> {
        let (text, spot) = self.get(name);
        let text = if matches!(text, "-" | "None") { "" } else { text };
        site::site_number(text, (name, &spot), range, unit, findings)
    }

    /// Fields that the source does not fill hold a hyphen or `b'None'`.
    fn site(&self, file: &str, utc_offset_h: Option<f64>, findings: &mut Findings) -> Site {
        let parts = [self.get("City").0, self.get("State").0];
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
