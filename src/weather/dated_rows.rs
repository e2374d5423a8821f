//! Rows that carry their date, read one after the other as they come.
//!
//! Must never know a layout: where things stand in a row is told by a [`Table`]. Start at [`rows`].

use super::cells::{Column, wrong_shape};
use super::dates::Dates;
use super::findings::{Findings, shown};
use super::hours::Hours;
use super::lines::{Cells, Row};
use super::names::DateColumns;
use super::no_date::{is_day, no_such_day, way_out};
use super::text::Text;
use super::when::{ANY_LEAP_YEAR, DayOrder, Moment, has_no_year, of_numbers, shown_order};
use crate::problem::Problem;

/// Where things stand in the rows of a file with dates.
pub(super) struct Table {
    /// What separates the cells.
    pub(super) separator: char,
    /// Cells in a row.
    pub(super) width: usize,
    /// Why there must be so many, after their number.
    pub(super) shape: &'static str,
    /// The date.
    pub(super) date: DateColumns,
    /// The values.
    pub(super) columns: Vec<Column>,
    /// The station's number or sign, where each row has it.
    pub(super) station: Option<usize>,
    /// Whether lines of words may stand below the last row.
    pub(super) foot: bool,
}

/// Rows that were read.
#[derive(Debug)]
pub(super) struct Rows {
    /// The values, a row each.
    pub(super) hours: Hours,
    /// When each row is, see [`Moment`].
    pub(super) minutes: Vec<i64>,
    /// The least and the greatest offset from UTC that the dates themselves say, minutes; it is taken off.
    pub(super) offsets: Option<(i64, i64)>,
    /// The station that all rows name.
    pub(super) station: Option<String>,
    /// Whether times run to 24:00 and never are 00:00, so that each is the end of its hour.
    pub(super) end_of_hour: bool,
    /// Rows that had separators alone, as spreadsheets write below the last; they are passed over.
    pub(super) empty: usize,
    /// Whether the dates name no year; the minutes are then of a leap year.
    pub(super) no_year: bool,
}

/// Reads all rows that are left of a text. Each must have a date, and every one its offset from UTC or
/// none.
///
/// # Errors
/// What ends the reading; what is wrong with single rows goes to `findings`.
pub(super) fn rows(table: Table, text: &mut Text<'_>, findings: &mut Findings) -> Result<Rows, Problem> {
    let (mut dates, no_year) = dates(&table, text);
    let mut hours = Hours::new(table.columns.clone());
    let mut minutes = Vec::new();
    let (mut at_24, mut at_0) = (false, false);
    let (mut says_offset, mut offsets) = (None, None);
    let (mut station, mut empty) = (None, 0);
    let mut cells = Cells::default();
    let mut since_last = findings.another();
    while let Some((first, lines)) = text.next_lines()? {
        for (line, row) in (first..).zip(lines.lines()) {
            let row = cells.split(line, row, table.separator);
            let found = (row.len() == table.width).then(|| when(table.date, &row, &mut dates)).flatten();
            if let Some(found) =
                found.filter(|found| says_offset.is_none_or(|says| says == found.offset.is_some()))
            {
                // What was wrong above a row is no foot.
                findings.take(&mut since_last);
                says_offset = Some(found.offset.is_some());
                offsets = widened(offsets, found.offset);
                at_24 |= found.at_24;
                at_0 |= found.at_0;
                if let Some(place) = table.station {
                    one_station(&row, place, &mut station, findings);
                }
                minutes.push(found.minutes);
                hours.push(&row, findings);
            } else if row.cells().all(str::is_empty) {
                empty += usize::from(!row.text.trim().is_empty());
            } else {
                since_last.add(wrong(&row, (table.width, table.shape), table.date));
            }
        }
    }
    if !table.foot {
        findings.take(&mut since_last);
    }
    let end_of_hour = at_24 && !at_0;
    if end_of_hour {
        minutes.iter_mut().for_each(|minute| *minute -= 60);
    }
    Ok(Rows { hours, minutes, offsets, station, end_of_hour, empty, no_year })
}

/// Tells a row of another station than the first.
fn one_station(row: &Row<'_>, place: usize, station: &mut Option<String>, findings: &mut Findings) {
    let found = row.cell(place);
    let first = station.get_or_insert_with(|| found.to_owned());
    if *first != found {
        let what = format!("the row is of station {}, those above of {}", shown(found), shown(first));
        let problem = row.spot(place).mark(Problem::new(what));
        findings.add(problem.help("Put each station's rows into a file of its own, and name one of them"));
    }
}

fn widened(span: Option<(i64, i64)>, offset: Option<i64>) -> Option<(i64, i64)> {
    let Some(offset) = offset else { return span };
    Some(span.map_or((offset, offset), |(least, most)| (least.min(offset), most.max(offset))))
}

const WHOLE_NUMBERS: &str = "Year, month, day and hour must each be a whole number in every row";
const HOURS: &str = "Hours run from 0 to 23 or from 1 to 24 (or from 100 to 2400), minutes to 59";

/// What is wrong with a row of which the date is not known.
fn wrong(row: &Row<'_>, (width, shape): (usize, &str), date: DateColumns) -> Problem {
    if row.len() != width {
        return wrong_shape(row, width, shape);
    }
    let positions = date.positions();
    let texts: Vec<&str> = positions.iter().map(|place| row.cell(*place)).collect();
    let text = texts.join(" ");
    let (wrong, help) = match (date, texts.as_slice()) {
        (DateColumns::Two(..), [day, _]) => (usize::from(is_day(day)), way_out(&text)),
        (DateColumns::One(_) | DateColumns::Two(..), _) => (0, way_out(&text)),
        (DateColumns::Parts(..) | DateColumns::NoYear(..), _) => way_out_of_numbers(date, &texts),
    };
    row.spot(positions.get(wrong).copied().unwrap_or_default())
        .mark(Problem::new(format!("found {}, which is no date and time", shown(&text))))
        .allowed("such as 2015-01-31 23:00, written alike in every row; years 1850 to 2200")
        .help(help)
}

/// Which of the numbers is wrong that are no date and hour, and what to do about it.
fn way_out_of_numbers(date: DateColumns, texts: &[&str]) -> (usize, String) {
    let number = |text: &&str| text.strip_suffix(".0").unwrap_or(text).parse::<u32>().ok();
    if let Some(wrong) = texts.iter().position(|text| number(text).is_none()) {
        return (wrong, WHOLE_NUMBERS.to_owned());
    }
    let numbers: Vec<u32> = texts.iter().filter_map(number).collect();
    let (day, hour) = match (date, numbers.as_slice()) {
        (DateColumns::NoYear(..), [month, day, ..]) => (no_such_day(None, (*month, *day)), 2),
        (_, [year, month, day, ..]) => (no_such_day(Some(*year), (*month, *day)), 3),
        _ => (None, 0),
    };
    day.map_or_else(|| (hour, HOURS.to_owned()), |help| (0, help))
}

fn when(date: DateColumns, row: &Row<'_>, dates: &mut Dates) -> Option<Moment> {
    // A spreadsheet may write whole numbers as 1.0.
    let number = |place: usize| {
        let text = row.get(place)?;
        text.strip_suffix(".0").unwrap_or(text).parse::<i64>().ok()
    };
    match date {
        DateColumns::One(one) => dates.moment(row.get(one)?),
        DateColumns::Two(date, time) => dates.moment(&format!("{} {}", row.cell(date), row.cell(time))),
        DateColumns::Parts([year, month, day, hour], minute) => of_numbers(
            (number(year)?, number(month)?, number(day)?),
            number(hour)?,
            minute.map_or(Some(0), number)?,
        ),
        DateColumns::NoYear([month, day, hour], minute) => of_numbers(
            (i64::from(ANY_LEAP_YEAR), number(month)?, number(day)?),
            number(hour)?,
            minute.map_or(Some(0), number)?,
        ),
    }
}

/// How the dates are read, and whether they name no year, as the first of them shows.
fn dates(table: &Table, text: &Text<'_>) -> (Dates, bool) {
    let order = order(table, text);
    let (column, of_columns) = match table.date {
        DateColumns::One(column) | DateColumns::Two(column, _) => (Some(column), false),
        DateColumns::Parts(..) => (None, false),
        DateColumns::NoYear(..) => (None, true),
    };
    let mut cells = Cells::default();
    let ahead = text.ahead();
    let first = ahead.lines().find(|line| !line.trim().is_empty()).unwrap_or_default();
    let row = cells.split(0, first, table.separator);
    let of_text = column.is_some_and(|column| has_no_year(row.cell(column)));
    (if of_text { Dates::of_no_year(order) } else { Dates::new(order) }, of_text || of_columns)
}

/// Month or day first, as the first date ahead that can be read in one way only shows.
fn order(table: &Table, text: &Text<'_>) -> DayOrder {
    let (DateColumns::One(column) | DateColumns::Two(column, _)) = table.date else {
        return DayOrder::MonthFirst;
    };
    let mut cells = Cells::default();
    let ahead = text.ahead();
    for row in ahead.lines() {
        let row = cells.split(0, row, table.separator);
        let date = row.cell(column);
        // Dates that begin with the year need no looking for.
        if date.bytes().take_while(u8::is_ascii_digit).count() >= 4 {
            break;
        }
        if let Some(order) = shown_order(date) {
            return order;
        }
    }
    DayOrder::MonthFirst
}
