//! A file of no known layout into what it lacks, and how it would be known.
//!
//! Must never guess what a column holds. Start at [`unknown`].

use super::comments::is_comment;
use super::findings::shown;
use super::lines::{self, Cells, Row, filled_lines};
use super::names::{DATE_WORDS, TEMPERATURE_WORDS, dates};
use super::recognise::MOST_ABOVE;
use super::spot::Spot;
use super::when::{DayOrder, moment};
use super::{dated_csv, plain_csv};
use crate::problem::Problem;

/// Why nothing can be made of a text: by its column names where it has some, else by its first line.
pub(super) fn unknown(name: &str, text: &str) -> Problem {
    let mut cells = Cells::default();
    let lines = filled_lines(text).filter(|(_, line)| !is_comment(line));
    let of_names = lines.take(MOST_ABOVE + 1).find_map(|(line, header)| {
        let names = cells.split(line, header, lines::separator(header));
        of_names(&names)
    });
    of_names.unwrap_or_else(|| of_first_line(text)).in_file(name)
}

/// So many names of columns are told, the others are counted.
const MOST_NAMED: usize = 8;

/// Names of columns of which one of the two needed is known.
fn of_names(names: &Row<'_>) -> Option<Problem> {
    let all: Vec<&str> = names.cells().collect();
    let temperature = names.cells().find(|name| dated_csv::is_dry_bulb(name));
    let mut found = all.iter().take(MOST_NAMED).map(|name| shown(name)).collect::<Vec<_>>().join(", ");
    if all.len() > MOST_NAMED {
        found += &format!(" and {} more", all.len() - MOST_NAMED);
    }
    let of_hours = |name: &&&str| name.starts_with(|c: char| c.is_ascii_digit());
    let problem = match (dates(&all), temperature) {
        (Some(_), None) if all.iter().filter(of_hours).count() > 20 => {
            Problem::new(format!("none of the columns {found} is known as the temperature outdoors"))
                .allowed("a row for each hour")
                .help("Does each row hold a day, with a column for each hour? Give each hour a row of its own, with its \
                       date and time, and name the temperature's column by its unit, such as temp_degF")
        }
        (Some(_), _) => Problem::new(format!("none of the columns {found} is known as the temperature outdoors"))
            .allowed(TEMPERATURE_WORDS)
            .help("Rename the temperature's column in the line of names, with the unit its numbers are in"),
        (None, Some(temperature)) if names.cells().any(of_bins) => {
            Problem::new("no column is known as date and time, and none as hours by temperature").allowed(format!(
                "outdoor_degF,hours or outdoor_degC,hours for bins; else {DATE_WORDS}"
            )).help(format!(
                "Are these hours of a year by temperature? Then name {} outdoor_{}, and the hours hours",
                shown(temperature),
                plain_csv::unit_word(temperature)
            ))
        }
        (None, Some(temperature)) => Problem::new("no column is known as date and time").allowed(DATE_WORDS).help(
            format!(
                "Rename the column with the dates; or, where the rows are the hours of one year from 1 January \
                 00:00 in standard time, name {} dry_bulb_{}",
                shown(temperature),
                plain_csv::unit_word(temperature)
            ),
        ),
        (None, None) => return None,
    };
    Some(names.spot_of_all().mark(problem))
}

/// Whether a name says hours, many of them: one alone is the hour of a row.
fn of_bins(name: &str) -> bool {
    name.to_lowercase().split(|c: char| !c.is_alphabetic()).any(|word| matches!(word, "hours" | "hrs"))
}

/// The way out where the first line is a row already.
fn row_without_names(line: &str) -> Option<&'static str> {
    let mut cells = Cells::default();
    let row = cells.split(1, line, lines::separator(line));
    let number = |at: usize| row.get(at).is_some_and(|cell| cell.parse::<f64>().is_ok());
    let date = |cell: &str| {
        [DayOrder::MonthFirst, DayOrder::DayFirst].iter().any(|order| moment(cell, *order).is_some())
    };
    match row.len() {
        30.. if (0..4).all(number) => Some(
            "This looks like a row of an EPW file whose first lines are lacking: give the file as it was published, \
             header and all",
        ),
        2.. if date(row.cell(0)) || date(&format!("{} {}", row.cell(0), row.cell(1))) => Some(
            "This looks like the first of the hours, without names of columns: put a line of names above it, such as \
             datetime,temp_degF, or date,time,temp_degF where the time has a column of its own",
        ),
        _ => None,
    }
}

fn of_first_line(text: &str) -> Problem {
    let names = filled_lines(text).find(|(_, line)| !is_comment(line));
    let (line, first) = names.or_else(|| filled_lines(text).next()).unwrap_or((1, ""));
    let begins = if line == 1 { "the file begins with" } else { "its first line that is no comment is" };
    let problem = Problem::new(format!("the layout is not known; {begins} {}", shown(first)));
    let problem = Spot::line(line, first).mark(problem);
    let other = match first.trim_start().chars().next() {
        Some('{' | '[') => Some("This looks like JSON"),
        Some('<') => Some("This looks like a web page or XML; it may say why the source gave no data"),
        _ => None,
    };
    if let Some(other) = other {
        return problem
            .allowed("a table as text: a line for each hour")
            .help(format!("{other}. Ask the source for CSV"));
    }
    if let Some(help) = row_without_names(first) {
        return problem.allowed("a line of names above the rows").help(help);
    }
    problem
        .allowed(
            "TMY3, EPW, TMY2, ISD-Lite, NSRDB, PVGIS, CSV with a column dry_bulb_degC (or _degF, _K) and a \
             row an hour or a date in each row, bins with outdoor_degF,hours",
        )
        .help(format!(
            "Name the columns of a CSV file above its rows, such as datetime,temp_degF: {DATE_WORDS}; and \
             {TEMPERATURE_WORDS}. Or say the layout: site.weather_format in the job, --format for `weather`"
        ))
}
