//! Any CSV whose rows carry date and time into dated rows.
//!
//! ```text
//! datetime,temp_2m
//! 1997-01-01 00:30:00,258.64
//! ```
//! The date may stand in one column, in two, or as numbers in four or five. The dry-bulb is a
//! column of our plain layout or one whose name says temperature; its unit is in the name, or is
//! kelvin where no other unit is possible. Knows no other layout. Start at [`read`].

use super::cells::{AS_NAMES, Column, Field};
use super::comments::{Parts, is_comment};
use super::dated::{Clock, Dated};
use super::dated_rows::{Rows, Table, rows};
use super::findings::{Findings, shown};
use super::hours::Hours;
use super::lines::{self, Cells, Row};
use super::names::{DATE_WORDS, DateColumns, TEMPERATURE_WORDS, dates, is_station, temperature, unit_alone};
use super::options::{FileClock, Layout, ReadOptions};
use super::plain_csv;
use super::plain_site;
use super::reading::{Reading, Remark};
use super::text::Text;
use super::writing::{FLAGGED_TENTHS_CELSIUS, UNIT_UNSAID, is_flagged};
use super::year::YearKind;
use crate::problem::{Problem, Problems};

/// The coldest air there is, in kelvin: numbers above it are no °C and no °F.
const COLDEST_KELVIN: f64 = 183.15;
/// The way out where no column has the dates.
const NO_DATES: &str = "Rename the column with the dates; or take the layout out (weather_format, --format), so that the \
     content tells it";
/// 0 °C in kelvin.
const ZERO_CELSIUS_K: f64 = 273.15;

/// Whether a line of column names has a date and a temperature.
pub(super) fn is_header(line: &str) -> bool {
    let mut cells = Cells::default();
    let names = cells.split(1, line, lines::separator(line));
    match dates(&names.cells().collect::<Vec<_>>()) {
        // Our plain layout may have such columns too.
        Some((DateColumns::NoYear(..), _)) if plain_csv::is_header(line) => false,
        found => found.is_some() && names.cells().any(is_dry_bulb),
    }
}

/// Whether a column of that name holds the temperature outdoors.
pub(super) fn is_dry_bulb(name: &str) -> bool {
    plain_csv::known(name).or_else(|| temperature(name)).is_some_and(|(field, _)| field == Field::DryBulb)
}

/// Reads a CSV file with dates.
///
/// # Errors
/// Every wrong line, up to twenty; no dry-bulb, or none of which the unit is known.
pub(super) fn read(file: &str, mut text: Text<'_>, options: &ReadOptions) -> Result<Dated, Problems> {
    let mut findings = Findings::new(file);
    let head = match head(&mut text) {
        Ok(head) => head,
        Err(problem) => return Err(findings.end(problem)),
    };
    let parts = Parts::of(&head, 0);
    let Some((header_line, header)) = parts.header else {
        return Err(findings.end(Problem::new("there is no line of column names")));
    };
    let separator = lines::separator(header);
    let mut cells = Cells::default();
    let names = cells.split(header_line, header, separator);
    let Some((date, utc)) = dates(&names.cells().collect::<Vec<_>>()) else {
        let problem = Problem::new("there is no column with date and time");
        let problem = problem.allowed(DATE_WORDS).help(NO_DATES);
        return Err(findings.end(names.spot_of_all().mark(problem)));
    };
    let below = match units_below(&mut text, separator, names.len(), date) {
        Ok(below) => below,
        Err(problem) => return Err(findings.end(problem)),
    };
    let mut cells = Cells::default();
    let units = below.as_ref().map(|(line, row)| cells.split(*line, row, separator));
    let (columns, flagged) = match flagged(&names, &text, separator) {
        flagged if flagged.is_empty() => (columns(&names, units.as_ref(), &mut findings), false),
        flagged => (flagged, true),
    };
    let site = plain_site::read(file, &parts, YearKind::Typical, &mut findings);
    let mut reading = Reading::of(Layout::DatedCsv, false);
    let station = names.cells().position(is_station);
    let others: Vec<usize> = date.positions().into_iter().chain(station).collect();
    reading.pass_over(&names, &columns, &others);
    reading.remarks.extend(below.as_ref().map(|(_, row)| Remark::UnitsBelow { line: row.trim().to_owned() }));
    let table = Table { separator, width: names.len(), shape: AS_NAMES, date, columns, station, foot: false };
    let mut rows = match rows(table, &mut text, &mut findings) {
        Ok(rows) => rows,
        Err(problem) => return Err(findings.end(problem)),
    };
    reading.remarks.extend((rows.empty > 0).then_some(Remark::EmptyRows { rows: rows.empty }));
    settle_units(&mut rows.hours, &names, &mut reading, &mut findings);
    let says_utc = utc || flagged || options.clock == Some(FileClock::Utc);
    let clock = match (rows.offsets, options.clock) {
        (Some(offsets), Some(FileClock::Standard)) => {
            as_written(&mut rows, offsets, &mut findings);
            Clock::Standard
        }
        (Some((least, most)), _) => {
            if says_utc && (least, most) != (0, 0) {
                reading.remarks.push(Remark::OffsetsNotUtc { hours: least as f64 / 60.0 });
            }
            Clock::Offset(0.0)
        }
        (None, Some(FileClock::Standard)) => Clock::Standard,
        (None, _) if says_utc => Clock::Offset(0.0),
        (None, _) if site.utc_offset_h.is_some() => Clock::Standard,
        (None, _) => Clock::Unsaid,
    };
    Dated::of(site, clock, rows, reading, (text, findings))
}

/// Times that carry an offset, by the clock that they are written in, since the job says that this is
/// standard time; there can be only one such offset.
fn as_written(rows: &mut Rows, (least, most): (i64, i64), findings: &mut Findings) {
    if least != most {
        let what = format!(
            "the times carry offsets from UTC from {} to {} h, so they are not in one standard time",
            least as f64 / 60.0,
            most as f64 / 60.0
        );
        let help = "Take weather_clock = \"standard\" out: the offsets tell the clock";
        findings.add(Problem::new(what).help(help));
    }
    rows.minutes.iter_mut().for_each(|minutes| *minutes += least);
    rows.offsets = None;
}

/// The lines up to the column names, and these.
fn head(text: &mut Text<'_>) -> Result<String, Problem> {
    let mut head = String::new();
    while let Some((_, line)) = text.next_line()? {
        head.push_str(line);
        head.push('\n');
        if !line.trim().is_empty() && !is_comment(line) {
            break;
        }
    }
    Ok(head)
}

/// The line directly below the names if it can only be one of units: as many cells, words where the date stands,
/// and no number at all.
fn units_below(
    text: &mut Text<'_>,
    separator: char,
    width: usize,
    date: DateColumns,
) -> Result<Option<(usize, String)>, Problem> {
    let mut cells = Cells::default();
    let is_units = |line: &str| {
        let row = cells.split(1, line, separator);
        let dated = date.positions().iter().any(|place| row.cell(*place).bytes().any(|b| b.is_ascii_digit()));
        let number = row.cells().any(|cell| cell.parse::<f64>().is_ok());
        let word = row.cells().any(|cell| cell.contains(char::is_alphabetic));
        row.len() == width && !dated && !number && word
    };
    let found = text.ahead().lines().find(|line| !line.trim().is_empty()).is_some_and(is_units);
    if found { text.next_filled() } else { Ok(None) }
}

/// Our own names first; else the first column whose name says temperature. Its unit may stand below.
fn columns(names: &Row<'_>, units: Option<&Row<'_>>, findings: &mut Findings) -> Vec<Column> {
    let mut columns: Vec<Column> = Vec::new();
    for known in [plain_csv::known, temperature] {
        for (position, name) in names.cells().enumerate() {
            let Some((field, mut writing)) = known(name) else { continue };
            if let Some((units, unit)) = units.and_then(|row| Some((row, unit_alone(row.cell(position))?))) {
                if !writing.is(&UNIT_UNSAID) && !writing.is(&unit) {
                    findings.add(two_units(name, units, position));
                }
                writing = unit;
            }
            if columns.iter().all(|column| column.field != field && column.position != position) {
                columns.push(Column { position, title: name.to_owned(), field, writing });
            }
        }
    }
    if !columns.iter().any(|column| column.field == Field::DryBulb) {
        let help = "Rename the column that holds it, with the unit its numbers are in";
        findings.add(plain_csv::no_dry_bulb(names).allowed(TEMPERATURE_WORDS).help(help));
    }
    columns
}

/// The columns `TMP` and `DEW` of whole station reports, where the first row has tenths with a sign of quality in them;
/// these are in UTC.
fn flagged(names: &Row<'_>, text: &Text<'_>, separator: char) -> Vec<Column> {
    let ahead = text.ahead();
    let mut cells = Cells::default();
    let row = cells.split(1, ahead.lines().next().unwrap_or_default(), separator);
    let column = |(name, field): (&str, Field)| {
        let position = names.cells().position(|n| n == name).filter(|at| is_flagged(row.cell(*at)))?;
        Some(Column { position, title: name.to_owned(), field, writing: FLAGGED_TENTHS_CELSIUS })
    };
    match column(("TMP", Field::DryBulb)) {
        Some(dry_bulb) => [Some(dry_bulb), column(("DEW", Field::DewPoint))].into_iter().flatten().collect(),
        None => Vec::new(),
    }
}

/// A unit below a name that says another.
fn two_units(name: &str, units: &Row<'_>, position: usize) -> Problem {
    let below = shown(units.cell(position));
    let problem = Problem::new(format!("{} says another unit than {below} below it", shown(name)));
    units.spot(position).mark(problem).help("Write in both the unit that the numbers are in")
}

/// Numbers without a unit are taken where they can only be kelvin, and refused where not.
fn settle_units(hours: &mut Hours, names: &Row<'_>, reading: &mut Reading, findings: &mut Findings) {
    let mut settled = Vec::new();
    for (column, mut values) in std::mem::take(&mut hours.columns) {
        if column.writing.is(&UNIT_UNSAID) {
            if values.iter().all(Option::is_none) {
                settled.push((column, values));
                continue;
            }
            if values.iter().flatten().any(|value| *value < COLDEST_KELVIN) {
                if column.field == Field::DryBulb {
                    let what = format!("the column {} does not say its unit", shown(&column.title));
                    let problem = Problem::new(what).allowed("a name that ends in _degC, _degF or _K");
                    let help = "Rename it in the line of names; nothing is guessed from the numbers";
                    findings.add(names.spot(column.position).mark(problem).help(help));
                }
                reading.columns_passed_over.push(column.title);
                continue;
            }
            values.iter_mut().flatten().for_each(|value| *value -= ZERO_CELSIUS_K);
            reading.remarks.push(Remark::TakenAsKelvin { column: column.title.clone() });
        }
        settled.push((column, values));
    }
    hours.columns = settled;
}
