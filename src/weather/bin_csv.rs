//! A table of hours by outdoor temperature into a [`BinTable`].
//!
//! ```text
//! # place: Old Mill, New York
//! outdoor_degF,hours
//! 62,740
//! 57,673
//! ```
//! The temperature is the bin's middle. A season is enough: the hours need not add up to a year.
//! Knows no other layout. Start at [`read`].

use super::cells::Field;
use super::comments::Parts;
use super::findings::{Findings, shown};
use super::lines::{self, Cells, Row};
use super::names::temperature;
use super::spot::Spot;
use super::stamps::LEAP_HOURS;
use super::text::Whole;
use super::writing::{self, UNIT_UNSAID, Writing};
use super::year::{Bin, BinTable};
use crate::problem::{Problem, Problems};

/// More rows than this are no bins: a bin for each 0.1 K of the allowed range.
const MOST_BINS: usize = 1500;
const HOURS: &str = "hours";

/// Whether a line of column names looks like this layout's.
pub(super) fn is_header(line: &str) -> bool {
    let has = |wanted: &str| lines::any_cell(line, |name| name.to_lowercase().starts_with(wanted));
    has("outdoor_") || (has(HOURS) && line.matches(lines::separator(line)).count() == 1)
}

/// Reads a bin file.
///
/// # Errors
/// Every wrong line, up to twenty; a temperature twice; hours that sum to under 1 or over 8,784.
pub(super) fn read(file: &str, text: Whole) -> Result<BinTable, Problems> {
    let mut findings = Findings::new(file);
    let parts = Parts::of(&text.text, MOST_BINS + 1);
    parts.check_spelling(&["place"], &mut findings);
    let place = parts.get("place", &mut findings).map_or(file, |(_, place)| place).to_owned();
    let (header_line, header) = parts.header.unwrap_or((1, ""));
    let mut cells = Cells::default();
    let Some(columns) = columns(&cells.split(header_line, header, lines::separator(header))) else {
        let problem = Problem::new(format!("the column names are {}", shown(header)));
        let problem = problem.allowed(
            "outdoor_degF,hours or outdoor_degC,hours: hours, and one temperature that ends in its unit",
        );
        let problem = problem
            .help("Rename the column of temperatures; a bin goes by its middle, such as -7.5 for -10 to -5");
        return Err(findings.end(Spot::line(header_line, header).mark(problem)));
    };
    if parts.rows.len() > MOST_BINS {
        let problem = Problem::new("there are too many bins").allowed(format!("up to {MOST_BINS}"));
        return Err(findings.end(problem));
    }
    let mut rows: Vec<(usize, Bin)> = Vec::new();
    for (line, row) in &parts.rows {
        let row = cells.split(*line, row, lines::separator(header));
        match columns.bin(&row) {
            Ok(bin) => {
                check_new(bin, &row, &rows, &mut findings);
                rows.push((*line, bin));
            }
            Err(problem) => findings.add(problem),
        }
    }
    // Hours of bins that were found wrong are lacking in the sum.
    findings.check()?;
    check_total(&rows, &mut findings);
    findings.check()?;
    let mut bins: Vec<Bin> = rows.into_iter().map(|(_, bin)| bin).filter(|bin| bin.hours > 0.0).collect();
    bins.sort_by(|a, b| b.temperature_c.total_cmp(&a.temperature_c));
    Ok(BinTable { place, bins, sha256: text.origin.sha256 })
}

struct Columns {
    width: usize,
    temperature: (usize, String, Writing),
    hours: usize,
}

fn columns(names: &Row<'_>) -> Option<Columns> {
    let hours = names.cells().position(|name| name.eq_ignore_ascii_case(HOURS))?;
    let outdoors = |name: &str| temperature(name).filter(|(field, _)| *field == Field::DryBulb);
    let mut temperatures = names.cells().enumerate().filter_map(|(place, name)| {
        let (_, writing) = outdoors(name).filter(|(_, writing)| !writing.is(&UNIT_UNSAID))?;
        Some((place, name.to_owned(), writing))
    });
    let temperature = temperatures.next()?;
    // Two temperature columns: which one holds? Neither is taken.
    let one = temperatures.next().is_none();
    Some(Columns { width: names.len(), temperature, hours }).filter(|_| one)
}

impl Columns {
    fn bin(&self, row: &Row<'_>) -> Result<Bin, Problem> {
        if row.len() != self.width {
            let problem = Problem::new(format!("the row has {} columns", row.len()));
            return Err(row.spot_of_all().mark(problem).allowed(format!("{} columns", self.width)));
        }
        let (position, title, writing) =
            (self.temperature.0, self.temperature.1.as_str(), &self.temperature.2);
        let told = |place: usize, key: &str, problem| row.spot(place).mark(problem).at_key(key);
        let missing = |place, key| told(place, key, Problem::new("the value is missing"));
        let cell = row.cell(position);
        let middle = |problem: Problem| match is_range(cell) {
            true => problem.help("Write the middle of the bin: -7.5 for -10 to -5"),
            false if self.exchanged(row) => problem.help(format!(
                "Are the columns exchanged? The temperatures belong below {title}, the hours below {HOURS}"
            )),
            false => problem,
        };
        let temperature = writing.value(cell).map_err(|p| told(position, title, middle(p)))?;
        let hours = writing::number(row.cell(self.hours)).map_err(|p| told(self.hours, HOURS, p))?;
        let hours = hours.ok_or_else(|| missing(self.hours, HOURS))?;
        if !(hours >= 0.0 && hours <= LEAP_HOURS as f64) {
            let problem = Problem::new(format!("found {}", shown(row.cell(self.hours))));
            let problem = problem.allowed("0 to 8784");
            return Err(told(self.hours, HOURS, problem));
        }
        Ok(Bin { temperature_c: temperature.ok_or_else(|| missing(position, title))?, hours })
    }

    /// Whether a row reads well the other way round only.
    fn exchanged(&self, row: &Row<'_>) -> bool {
        let (position, _, writing) = &self.temperature;
        let hours = writing::number(row.cell(*position)).ok().flatten();
        let outdoors = writing.value(row.cell(self.hours)).ok().flatten();
        outdoors.is_some() && hours.is_some_and(|hours| (0.0..=LEAP_HOURS as f64).contains(&hours))
    }
}

/// Whether a cell has a bin's two ends, as in -10--5, 0-5 or 5 to 10.
fn is_range(cell: &str) -> bool {
    let signs = cell.char_indices().skip(1).filter(|(_, c)| matches!(c, '-' | '/' | 't' | '\u{2013}'));
    signs.map(|(at, _)| cell.split_at(at)).any(|(from, to)| {
        let to = to.trim_start_matches("to").trim_start_matches(['/', '\u{2013}']);
        let to = to.strip_prefix('-').unwrap_or(to);
        from.trim().parse::<f64>().is_ok() && to.trim().parse::<f64>().is_ok()
    })
}

fn check_new(bin: Bin, row: &Row<'_>, rows: &[(usize, Bin)], findings: &mut Findings) {
    let same = |other: &Bin| (other.temperature_c - bin.temperature_c).abs() < 1.0e-9;
    if let Some((first, _)) = rows.iter().find(|(_, other)| same(other)) {
        let problem = Problem::new(format!("the bin stands a second time, the first is line {first}"));
        findings.add(row.spot_of_all().mark(problem).help("Add the hours up in one line"));
    }
}

fn check_total(rows: &[(usize, Bin)], findings: &mut Findings) {
    // Not `sum`: of nothing that is -0, and would be shown so.
    let total = rows.iter().fold(0.0, |total, (_, bin)| total + bin.hours);
    if !(1.0..=LEAP_HOURS as f64).contains(&total) {
        findings.add(
            Problem::new(format!("the bins hold {total} hours together"))
                .allowed("1 to 8784: a year or a part of one"),
        );
    }
}
