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

use super::cells::{self, CELSIUS, FAHRENHEIT, Writing};
use super::comments::Parts;
use super::findings::{Findings, shown};
use super::stamps::LEAP_HOURS;
use super::text::Text;
use super::year::{Bin, BinTable};
use crate::problem::{Problem, Problems};

/// More rows than this are no bins: a bin for each 0.1 K of the allowed range.
const MOST_BINS: usize = 1500;
const TEMPERATURES: [(&str, Writing); 2] = [("outdoor_degF", FAHRENHEIT), ("outdoor_degC", CELSIUS)];
const HOURS: &str = "hours";

/// Whether a line of column names looks like this layout's.
pub(super) fn is_header(line: &str) -> bool {
    let names = cells::split(line, cells::separator(line));
    let has = |wanted: &str| names.iter().any(|n| n.trim().to_lowercase().starts_with(wanted));
    has("outdoor_") || (has(HOURS) && names.len() == 2)
}

/// Reads a bin file.
///
/// # Errors
/// Every wrong line, up to twenty; a temperature twice; hours that sum to under 1 or over 8,784.
pub(super) fn read(file: &str, text: Text) -> Result<BinTable, Problems> {
    let mut findings = Findings::new(file);
    let parts = Parts::of(&text.text, MOST_BINS + 1);
    parts.check_spelling(&["place"], &mut findings);
    let place = parts.get("place", &mut findings).map_or(file, |(_, place)| place).to_owned();
    let Some(columns) = parts.header.and_then(|(_, header)| columns(header)) else {
        let found = parts.header.map(|(_, header)| header).unwrap_or_default();
        return Err(findings.end(wrong_header(found, parts.header.map_or(1, |(line, _)| line))));
    };
    if parts.rows.len() > MOST_BINS {
        let problem = Problem::new("there are too many bins").allowed(format!("up to {MOST_BINS}"));
        return Err(findings.end(problem));
    }
    let mut rows: Vec<(usize, Bin)> = Vec::new();
    for (line, row) in &parts.rows {
        match columns.bin(row) {
            Ok(bin) => {
                check_new(bin, *line, &rows, &mut findings);
                rows.push((*line, bin));
            }
            Err(problem) => findings.add(problem.at_line(*line)),
        }
    }
    check_total(&rows, &mut findings);
    findings.check()?;
    let mut bins: Vec<Bin> = rows.into_iter().map(|(_, bin)| bin).collect();
    bins.sort_by(|a, b| b.temperature_c.total_cmp(&a.temperature_c));
    Ok(BinTable { place, bins, sha256: text.sha256 })
}

struct Columns {
    separator: char,
    width: usize,
    temperature: (usize, &'static str, Writing),
    hours: usize,
}

fn columns(header: &str) -> Option<Columns> {
    let separator = cells::separator(header);
    let names = cells::split(header, separator);
    let position = |wanted: &str| names.iter().position(|n| n.trim().eq_ignore_ascii_case(wanted));
    let mut temperatures = TEMPERATURES.iter().filter_map(|(name, w)| Some((position(name)?, *name, *w)));
    let temperature = temperatures.next()?;
    // Two temperature columns: which one holds? Neither is taken.
    let one = temperatures.next().is_none();
    Some(Columns { separator, width: names.len(), temperature, hours: position(HOURS)? }).filter(|_| one)
}

fn wrong_header(found: &str, line: usize) -> Problem {
    Problem::new(format!("the column names are {}", shown(found)))
        .at_line(line)
        .allowed("outdoor_degF,hours or outdoor_degC,hours")
}

impl Columns {
    fn bin(&self, row: &str) -> Result<Bin, Problem> {
        let row = cells::split(row, self.separator);
        if row.len() != self.width {
            let what = format!("the row has {} columns", row.len());
            return Err(Problem::new(what).allowed(format!("{} columns", self.width)));
        }
        let cell = |i: usize| row.get(i).map(AsRef::as_ref).unwrap_or_default();
        let (position, title, writing) = self.temperature;
        let missing = |key| Problem::new("the value is missing").at_key(key);
        let temperature = writing.value(cell(position)).map_err(|p| p.at_key(title))?;
        let hours = cells::number(cell(self.hours)).map_err(|p| p.at_key(HOURS))?;
        let hours = hours.ok_or_else(|| missing(HOURS))?;
        if !(hours > 0.0 && hours <= LEAP_HOURS as f64) {
            return Err(Problem::new(format!("found {}", shown(cell(self.hours))))
                .at_key(HOURS)
                .allowed("more than 0, up to 8784")
                .help("Leave out bins without hours"));
        }
        Ok(Bin { temperature_c: temperature.ok_or_else(|| missing(title))?, hours })
    }
}

fn check_new(bin: Bin, line: usize, rows: &[(usize, Bin)], findings: &mut Findings) {
    let same = |other: &Bin| (other.temperature_c - bin.temperature_c).abs() < 1.0e-9;
    if let Some((first, _)) = rows.iter().find(|(_, other)| same(other)) {
        let what = format!("the bin stands a second time, the first is line {first}");
        findings.add(Problem::new(what).at_line(line).help("Add the hours up in one line"));
    }
}

fn check_total(rows: &[(usize, Bin)], findings: &mut Findings) {
    let total: f64 = rows.iter().map(|(_, bin)| bin.hours).sum();
    if !(1.0..=LEAP_HOURS as f64).contains(&total) {
        findings.add(
            Problem::new(format!("the bins hold {total} hours together"))
                .allowed("1 to 8784: a year or a part of one"),
        );
    }
}
