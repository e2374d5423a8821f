//! The PVGIS layout into dated rows: lines on the place, column names, hours in UTC, lines of words.
//!
//! Two forms: hourly series (`time,G(i),H_sun,T2m,WS10m,Int`, rows such as `20050101:0011`) and
//! typical years (`time(UTC),T2m,RH,G(h),…` below a list of months and their years). Source:
//! European Commission, Joint Research Centre, *PVGIS user manual*, "Hourly radiation" and "TMY".
//! Irradiance on a tilted plane, `G(i)`, is passed over. Knows no other layout. Start at [`read`].

use super::cells::{AS_NAMES, Field, named_columns};
use super::dated::{Clock, Dated};
use super::dated_rows::{Table, rows};
use super::findings::Findings;
use super::lines::{self, Cells};
use super::names::DateColumns;
use super::options::Layout;
use super::reading::Reading;
use super::site::{self, ELEVATION, LATITUDE, LONGITUDE, Site, named_after};
use super::spot::Spot;
use super::text::Text;
use super::writing::{CELSIUS, IRRADIANCE, PASCAL, PERCENT, WIND, Writing};
use crate::problem::{Problem, Problems};

const PLACE: [&str; 3] = ["Latitude (decimal degrees)", "Longitude (decimal degrees)", "Elevation (m)"];
const MONTHS: &str = "month,year";
/// Lines after which column names are looked for no more.
const LONGEST_HEAD: usize = 1000;
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
    let mut cells = Cells::default();
    let names = cells.split(1, line, lines::separator(line));
    matches!(names.cell(0), "time" | "time(UTC)") && names.cells().any(|name| name == "T2m")
}

/// Reads a PVGIS file.
///
/// # Errors
/// Every wrong line, up to twenty.
pub(super) fn read(file: &str, mut text: Text<'_>) -> Result<Dated, Problems> {
    let mut findings = Findings::new(file);
    let head = match head(&mut text) {
        Ok(head) => head,
        Err(problem) => return Err(findings.end(problem)),
    };
    let Some((header_line, header)) = head.last().filter(|(_, line)| is_header(line)) else {
        let problem = Problem::new("the line of column names with 'time' and 'T2m' is missing");
        return Err(findings.end(problem.help("Ask the source for hourly values with temperature, as CSV")));
    };
    let separator = lines::separator(header);
    let mut cells = Cells::default();
    let names = cells.split(*header_line, header, separator);
    let columns = named_columns(&names, &COLUMNS);
    let site = site(file, &head, &mut findings);
    let mut reading = Reading::of(Layout::Pvgis, false);
    reading.pass_over(&names, &columns, &[0]);
    let (date, shape) = (DateColumns::One(0), AS_NAMES);
    let table = Table { separator, width: names.len(), shape, date, columns, station: None, foot: true };
    let rows = match rows(table, &mut text, &mut findings) {
        Ok(rows) => rows,
        Err(problem) => return Err(findings.end(problem)),
    };
    let mut dated = Dated::of(site, Clock::Offset(0.0), rows, reading, (text, findings))?;
    dated.typical |= head.iter().any(|(_, line)| line.trim().replace(';', ",").starts_with(MONTHS));
    Ok(dated)
}

/// The lines up to the column names, and these; of a file without them the first thousand.
fn head(text: &mut Text<'_>) -> Result<Vec<(usize, String)>, Problem> {
    let mut head = Vec::new();
    while let Some((number, line)) = text.next_filled()? {
        let last = is_header(&line) || head.len() == LONGEST_HEAD;
        head.push((number, line));
        if last {
            break;
        }
    }
    Ok(head)
}

fn site(file: &str, head: &[(usize, String)], findings: &mut Findings) -> Site {
    let mut number = |key: &str, range, unit| {
        let (line, text) = head.iter().find(|(_, text)| text.trim_start().starts_with(key))?;
        let value = text.split_once(':').map_or("", |(_, value)| value);
        let value = value.trim().trim_end_matches([';', ',']);
        let spot = Spot::part(*line, text, value);
        site::site_number(&value.replace(',', "."), (key, &spot), range, unit, findings)
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
