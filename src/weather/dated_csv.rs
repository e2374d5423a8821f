//! Any CSV whose rows carry date and time into dated rows.
//!
//! ```text
//! datetime,temp_2m
//! 1997-01-01 00:30:00,258.64
//! ```
//! The date may stand in one column, in two, or as numbers in four or five. The dry-bulb is a
//! column of our plain layout or one whose name says temperature; its unit is in the name, or is
//! kelvin where no other unit is possible. Knows no other layout. Start at [`read`].

use super::cells::{COLDEST_KELVIN, Column, Field, UNIT_UNSAID, ZERO_CELSIUS_K};
use super::comments::Parts;
use super::dated::{Clock, Dated};
use super::findings::{Findings, shown};
use super::hours::Hours;
use super::lines;
use super::names::{DateColumns, dates, temperature};
use super::options::{FileClock, Layout, ReadOptions};
use super::plain_csv;
use super::plain_site;
use super::reading::{Reading, Remark};
use super::text::Text;
use super::when::{DayOrder, Moment, moment, of_numbers, shown_order};
use super::year::YearKind;
use crate::problem::{Problem, Problems};
use std::borrow::Cow;

/// Where things stand in the rows of a file with dates.
pub(super) struct Table {
    /// What separates the cells.
    pub(super) separator: char,
    /// Cells in a row.
    pub(super) width: usize,
    /// The date.
    pub(super) date: DateColumns,
    /// The values.
    pub(super) columns: Vec<Column>,
}

/// Whether a line of column names has a date and a temperature.
pub(super) fn is_header(line: &str) -> bool {
    let names = lines::split(line, lines::separator(line));
    dates(&names).is_some() && names.iter().any(|name| is_dry_bulb(name))
}

fn is_dry_bulb(name: &str) -> bool {
    plain_csv::known(name).or_else(|| temperature(name)).is_some_and(|(field, _)| field == Field::DryBulb)
}

/// Reads a CSV file with dates.
///
/// # Errors
/// Every wrong line, up to twenty; no dry-bulb, or none of which the unit is known.
pub(super) fn read(file: &str, text: Text, options: &ReadOptions) -> Result<Dated, Problems> {
    let mut findings = Findings::new(file);
    let parts = Parts::of(&text.text, usize::MAX);
    let Some((header_line, header)) = parts.header else {
        return Err(findings.end(Problem::new("there is no line of column names")));
    };
    let separator = lines::separator(header);
    let names = lines::split(header, separator);
    let Some((date, utc)) = dates(&names) else {
        let problem = Problem::new("there is no column with date and time").at_line(header_line);
        return Err(findings.end(problem.allowed("datetime; date and time; or year, month, day and hour")));
    };
    let columns = columns(&names, header_line, &mut findings);
    let site = plain_site::read(file, &parts, YearKind::Typical, &mut findings);
    let mut reading = Reading::of(Layout::DatedCsv, text.windows_1252);
    reading.pass_over(&names, &columns, &date.positions());
    let table = Table { separator, width: names.len(), date, columns };
    let (mut hours, moments) = rows(&table, parts.rows.iter().copied(), &mut reading, &mut findings);
    settle_units(&mut hours, header_line, &mut reading, &mut findings);
    findings.check()?;
    let clock = match (utc || moments.iter().any(|moment| moment.from_utc), options.clock) {
        (_, Some(FileClock::Utc)) | (true, None) => Clock::Offset(0.0),
        (_, Some(FileClock::Standard)) => Clock::Standard,
        (false, None) if site.utc_offset_h.is_some() => Clock::Standard,
        (false, None) => Clock::Unsaid,
    };
    let minutes = moments.into_iter().map(|moment| moment.minutes).collect();
    Ok(Dated {
        file: file.to_owned(),
        sha256: text.sha256,
        site,
        clock,
        typical: false,
        hours,
        minutes,
        reading,
    })
}

/// Our own names first; else the first column whose name says temperature.
fn columns(names: &[Cow<'_, str>], line: usize, findings: &mut Findings) -> Vec<Column> {
    let mut columns: Vec<Column> = Vec::new();
    for known in [plain_csv::known, temperature] {
        for (position, name) in names.iter().enumerate() {
            let Some((field, writing)) = known(name) else { continue };
            if columns.iter().all(|column| column.field != field && column.position != position) {
                columns.push(Column { position, title: name.trim().to_owned(), field, writing });
            }
        }
    }
    if !columns.iter().any(|column| column.field == Field::DryBulb) {
        let problem = Problem::new("there is no dry-bulb temperature").at_line(line);
        findings.add(problem.allowed("a column named dry_bulb_degC, dry_bulb_degF or dry_bulb_K"));
    }
    columns
}

/// Reads rows with dates; of a file whose times run to 24:00 each is taken as the end of its hour.
pub(super) fn rows<'a>(
    table: &Table,
    rows: impl Iterator<Item = (usize, &'a str)> + Clone,
    reading: &mut Reading,
    findings: &mut Findings,
) -> (Hours, Vec<Moment>) {
    let order = order(table, rows.clone());
    let mut hours = Hours::new(table.columns.clone());
    let mut moments: Vec<Moment> = Vec::new();
    let mut cells = Vec::new();
    for (line, row) in rows {
        lines::split_into(row, table.separator, &mut cells);
        if cells.len() != table.width {
            let problem = Problem::new(format!("the row has {} columns", cells.len())).at_line(line);
            findings.add(problem.allowed(format!("{} columns, as the line of names has", table.width)));
            continue;
        }
        let found = when(table.date, &cells, order);
        let from_utc = moments.first().map(|first| first.from_utc);
        match found.filter(|moment| from_utc.is_none_or(|first| first == moment.from_utc)) {
            Some(moment) => {
                moments.push(moment);
                hours.push(line, &cells, findings);
            }
            None => findings.add(no_date(&date_text(table.date, &cells), line)),
        }
    }
    if moments.iter().any(|moment| moment.at_24) && !moments.iter().any(|moment| moment.at_0) {
        moments.iter_mut().for_each(|moment| moment.minutes -= 60);
        reading.remarks.push(Remark::EndOfHour);
    }
    (hours, moments)
}

fn no_date(found: &str, line: usize) -> Problem {
    Problem::new(format!("found {}, which is no date and time", shown(found)))
        .at_line(line)
        .allowed("such as 2015-01-31 23:00, written alike in every row; years 1850 to 2200")
}

fn when(date: DateColumns, cells: &[Cow<'_, str>], order: DayOrder) -> Option<Moment> {
    let cell = |i: usize| cells.get(i).map(|cell| cell.trim());
    // A spreadsheet may write whole numbers as 1.0.
    let number = |i: usize| {
        let text = cell(i)?;
        text.strip_suffix(".0").unwrap_or(text).parse::<i64>().ok()
    };
    match date {
        DateColumns::One(one) => moment(cell(one)?, order),
        DateColumns::Two(..) => moment(&date_text(date, cells), order),
        DateColumns::Parts([year, month, day, hour], minute) => of_numbers(
            (number(year)?, number(month)?, number(day)?),
            number(hour)?,
            minute.map_or(Some(0), number)?,
        ),
    }
}

fn date_text(date: DateColumns, cells: &[Cow<'_, str>]) -> String {
    let texts = date.positions().into_iter().filter_map(|i| cells.get(i)).map(|cell| cell.trim());
    texts.collect::<Vec<_>>().join(" ")
}

/// Month or day first, as the first date that can be read in one way only shows.
fn order<'a>(table: &Table, rows: impl Iterator<Item = (usize, &'a str)>) -> DayOrder {
    let (DateColumns::One(column) | DateColumns::Two(column, _)) = table.date else {
        return DayOrder::MonthFirst;
    };
    let mut texts = rows.map(|(_, row)| {
        let cells = lines::split(row, table.separator);
        cells.get(column).map(|cell| cell.trim().to_owned()).unwrap_or_default()
    });
    // Dates that begin with the year need no looking for.
    let first = texts.next().unwrap_or_default();
    if first.bytes().take_while(u8::is_ascii_digit).count() >= 4 {
        return DayOrder::MonthFirst;
    }
    shown_order(&first).or_else(|| texts.find_map(|text| shown_order(&text))).unwrap_or(DayOrder::MonthFirst)
}

/// Numbers without a unit are taken where they can only be kelvin, and refused where not.
fn settle_units(hours: &mut Hours, line: usize, reading: &mut Reading, findings: &mut Findings) {
    let mut settled = Vec::new();
    for (column, mut values) in std::mem::take(&mut hours.columns) {
        if column.writing.is(&UNIT_UNSAID) {
            if values.iter().flatten().any(|value| *value < COLDEST_KELVIN) {
                if column.field == Field::DryBulb {
                    findings.add(
                        Problem::new(format!("the column {} does not say its unit", shown(&column.title)))
                            .at_line(line)
                            .allowed("a name that ends in _degC, _degF or _K"),
                    );
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
