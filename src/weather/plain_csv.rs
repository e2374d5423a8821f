//! Our own hourly layout into an [`OutdoorYear`]: column names that carry their unit.
//!
//! ```text
//! # place: Old Mill, New York
//! # utc_offset_h: -5
//! # time_zone: America/New_York
//! # year: typical
//! dry_bulb_degC,relative_humidity_percent
//! -3.2,81
//! ```
//! One row for each hour from 1 January 00:00 local standard time: 8,760, or 8,784 in an actual
//! leap year; or two or four rows for each, whose mean is taken. Columns of other names are passed over. Knows no other layout. Start at [`read`].

use super::cells::{Column, Field, wrong_width};
use super::comments::{Parts, nearest};
use super::findings::{Findings, shown};
use super::hours::Hours;
use super::lines::{self, Cells, Row};
use super::names::temperature;
use super::options::{Layout, ReadOptions};
use super::plain_site;
use super::reading::{Reading, Remark};
use super::stamps::{AN_HOUR, LEAP_HOURS, YEAR_HOURS, is_leap, wrong_rows};
use super::text::Whole;
use super::writing::{CELSIUS, FAHRENHEIT, IRRADIANCE, KELVIN, PASCAL, PERCENT, WIND, Writing};
use super::year::{OutdoorYear, YearKind};
use crate::problem::{Problem, Problems};

const HOUR: &str = "hour";

/// A name, what the column holds and how it is written.
type Named = (&'static str, Field, Writing);

/// Every column name that is read.
const COLUMNS: [Named; 12] = [
    ("dry_bulb_degC", Field::DryBulb, CELSIUS),
    ("dry_bulb_degF", Field::DryBulb, FAHRENHEIT),
    ("dry_bulb_K", Field::DryBulb, KELVIN),
    ("dew_point_degC", Field::DewPoint, CELSIUS),
    ("dew_point_degF", Field::DewPoint, FAHRENHEIT),
    ("dew_point_K", Field::DewPoint, KELVIN),
    ("relative_humidity_percent", Field::Humidity, PERCENT),
    ("pressure_Pa", Field::Pressure, PASCAL),
    ("global_W_m2", Field::Global, IRRADIANCE),
    ("direct_W_m2", Field::Direct, IRRADIANCE),
    ("diffuse_W_m2", Field::Diffuse, IRRADIANCE),
    ("wind_m_s", Field::Wind, WIND),
];

/// What a column of that very name holds and how it is written.
pub(super) fn known(name: &str) -> Option<(Field, Writing)> {
    named(name).map(|(_, field, writing)| (*field, *writing))
}

/// The column of that name; a temperature's may end in `_C` or `_F` as well.
fn named(name: &str) -> Option<&'static Named> {
    let name = name.trim();
    let is = |known: &str| {
        let short = known.replace("_deg", "_");
        known.eq_ignore_ascii_case(name) || short.eq_ignore_ascii_case(name)
    };
    COLUMNS.iter().find(|(known, ..)| is(known))
}

/// Whether a line of column names looks like this layout's.
pub(super) fn is_header(line: &str) -> bool {
    lines::any_cell(line, |name| {
        let name = name.to_lowercase();
        name.starts_with("dry_bulb") || nearest(&name, &["dry_bulb_degC", "dry_bulb_degF"]).is_some()
    })
}

/// Reads a plain hourly file.
///
/// # Errors
/// Every wrong line, up to twenty; see the other functions of this folder for what is wrong.
pub(super) fn read(file: &str, text: Whole, options: &ReadOptions) -> Result<OutdoorYear, Problems> {
    let mut findings = Findings::new(file);
    let parts = Parts::of(&text.text, 4 * LEAP_HOURS + 1);
    let Some((header_line, header)) = parts.header else {
        return Err(findings.end(Problem::new("there is no line of column names")));
    };
    let separator = lines::separator(header);
    let mut cells = Cells::default();
    let names = cells.split(header_line, header, separator);
    if let Some(problem) = bins_meant(&names, parts.rows.len()) {
        return Err(findings.end(problem));
    }
    let (columns, width) = (find_columns(&names, &mut findings), names.len());
    let hour_column = names.cells().position(|n| n.eq_ignore_ascii_case(HOUR));
    let mut reading = Reading::of(Layout::PlainCsv, text.origin.windows_1252);
    reading.pass_over(&names, &columns, hour_column.as_slice());
    let an_hour = an_hour(parts.rows.len());
    let kind = kind(&parts, an_hour, &mut findings);
    if kind == YearKind::Typical && parts.get("year", &mut Findings::new(file)).is_none() {
        reading.remarks.push(Remark::TakenAsTypical);
    }
    let site = plain_site::read(file, &parts, kind, &mut findings);
    let mut hours = Hours::new(columns);
    let mut count = Count::default();
    for (index, (line, row)) in parts.rows.iter().enumerate() {
        let row = cells.split(*line, row, separator);
        if row.len() != width {
            findings.add(wrong_width(&row, width));
            continue;
        }
        if let Some(place) = hour_column {
            count.check(&row, place, index / an_hour, &mut findings);
        }
        hours.push(&row, &mut findings);
    }
    let hours = hours.averaged(an_hour, &mut reading);
    hours.into_year(site, kind, text.origin.sha256, reading, (options.gaps, findings))
}

/// More rows than this are hours, not bins: a bin for each degree of the places where people live.
const MOST_BINS: usize = 200;

/// A few rows with a column of hours are bins, whose columns have names of their own.
fn bins_meant(names: &Row<'_>, rows: usize) -> Option<Problem> {
    let hours = names.cells().find(|name| name.to_lowercase().ends_with("hours"))?;
    let mut known = names.cells().filter_map(|name| Some((name, named(name)?)));
    let (outdoors, (title, ..)) = known.find(|(_, (_, field, _))| *field == Field::DryBulb)?;
    let unit = title.trim_start_matches("dry_bulb_");
    (rows <= MOST_BINS).then(|| {
        let problem = Problem::new("this looks like hours by temperature, but its columns are not named so");
        names
            .spot_of_all()
            .mark(problem)
            .allowed("outdoor_degF,hours or outdoor_degC,hours for bins")
            .help(format!("Name {} outdoor_{unit}, and {} hours", shown(outdoors), shown(hours)))
    })
}

/// Rows an hour, where that many rows make a year; else one.
fn an_hour(rows: usize) -> usize {
    let makes = |n: &usize| [YEAR_HOURS, LEAP_HOURS].iter().any(|hours| rows == hours * n);
    AN_HOUR.into_iter().find(makes).unwrap_or(1)
}

fn find_columns(names: &Row<'_>, findings: &mut Findings) -> Vec<Column> {
    let known: Vec<&str> = COLUMNS.iter().map(|(name, ..)| *name).collect();
    let mut columns: Vec<Column> = Vec::new();
    for (position, name) in names.cells().enumerate() {
        let Some((title, field, writing)) = named(name) else {
            if let Some(meant) = nearest(name, &known) {
                findings.add(names.spot(position).mark(unknown_column(name, &known, meant)));
            }
            continue;
        };
        if columns.iter().any(|c| c.field == *field) {
            let problem = Problem::new(format!("a second column for what {title} holds"));
            findings.add(names.spot(position).mark(problem).help("Keep one of them"));
        }
        columns.push(Column { position, title: (*title).to_owned(), field: *field, writing: *writing });
    }
    if !columns.iter().any(|c| c.field == Field::DryBulb) {
        findings.add(no_dry_bulb(names));
    }
    columns
}

/// No column holds the temperature.
pub(super) fn no_dry_bulb(names: &Row<'_>) -> Problem {
    let problem = Problem::new("there is no dry-bulb temperature");
    names.spot_of_all().mark(problem).allowed("a column named dry_bulb_degC, dry_bulb_degF or dry_bulb_K")
}

/// The end of a column's name in the unit that a name says; °C where it says none.
pub(super) fn unit_word(name: &str) -> &'static str {
    match temperature(name) {
        Some((_, writing)) if writing.is(&FAHRENHEIT) => "degF",
        Some((_, writing)) if writing.is(&KELVIN) => "K",
        _ => "degC",
    }
}

fn unknown_column(name: &str, known: &[&str], meant: &str) -> Problem {
    let problem = Problem::new(format!("the column {} is not known", shown(name))).allowed(known.join(", "));
    // A name that lacks no more than its unit is no slip of the pen.
    let stem = format!("{}_", name.to_lowercase());
    let in_units: Vec<&str> = known.iter().copied().filter(|known| known.starts_with(&stem)).collect();
    problem.help(match in_units.as_slice() {
        [_, _, ..] => format!("The name must end in its unit: {}", in_units.join(", ")),
        _ => format!("Did you mean '{meant}'? The name must end in its unit"),
    })
}

/// What `# year:` says, checked against the number of rows.
fn kind(parts: &Parts<'_>, an_hour: usize, findings: &mut Findings) -> YearKind {
    let rows = parts.rows.len();
    let kind = match parts.get("year", findings) {
        None if rows == LEAP_HOURS * an_hour => {
            let help = "Put '# year: 2016' (the year these hours are of) above the column names";
            findings.add(Problem::new("8784 hours are a leap year, but which?").help(help));
            return YearKind::Typical;
        }
        None => YearKind::Typical,
        Some((_, value)) if value.eq_ignore_ascii_case("typical") => YearKind::Typical,
        Some((spot, value)) => match value.parse() {
            Ok(year) if (1850..=2200).contains(&year) => YearKind::Actual(year),
            _ => {
                let problem = Problem::new(format!("found {}", shown(value))).at_key("year");
                findings.add(spot.mark(problem).allowed("typical, or a year from 1850 to 2200"));
                return YearKind::Typical;
            }
        },
    };
    let leap = matches!(kind, YearKind::Actual(year) if is_leap(year));
    let wanted = if leap { LEAP_HOURS } else { YEAR_HOURS };
    if rows != wanted * an_hour {
        findings.add(wrong_rows(rows, wanted, an_hour));
    }
    kind
}

/// How a column numbers the hours: those of the year or of the day, from 0 or from 1.
#[derive(Debug, Default)]
struct Count {
    first: usize,
    /// Whether the second day begins anew.
    daily: bool,
    told: bool,
}

impl Count {
    /// Tells the first row that is out of order.
    fn check(&mut self, row: &Row<'_>, place: usize, hour: usize, findings: &mut Findings) {
        let found = row.cell(place).parse::<usize>().ok();
        match hour {
            0 if found == Some(1) => self.first = 1,
            24 if found == Some(self.first) => self.daily = true,
            _ => {}
        }
        let wanted = self.first + if self.daily { hour % 24 } else { hour };
        if found == Some(wanted) || self.told {
            return;
        }
        self.told = true;
        let problem = Problem::new(format!("found {}, which is out of order", shown(row.cell(place))));
        let allowed =
            format!("{wanted} here: hours of the year or of the day run from 0 or 1 without a break");
        findings.add(row.spot(place).mark(problem.at_key(HOUR)).allowed(allowed));
    }
}
