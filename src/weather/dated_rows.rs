//! Rows that carry their date, read one after the other as they come.
//!
//! Must never know a layout: where things stand in a row is told by a [`Table`]. Start at [`rows`].

use super::cells::{Column, wrong_shape};
use super::dates::Dates;
use super::findings::{Findings, shown};
use super::hours::Hours;
use super::lines::{Cells, Row};
use super::names::DateColumns;
use super::text::Text;
use super::when::{DayOrder, Moment, of_numbers, shown_order};
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
}

/// Reads all rows that are left of a text. Each must have a date, and every one its offset from UTC or
/// none.
///
/// # Errors
/// What ends the reading; what is wrong with single rows goes to `findings`.
pub(super) fn rows(table: Table, text: &mut Text<'_>, findings: &mut Findings) -> Result<Rows, Problem> {
    let mut dates = Dates::new(order(&table, text));
    let mut hours = Hours::new(table.columns.clone());
    let mut minutes = Vec::new();
    let (mut at_24, mut at_0) = (false, false);
    let (mut says_offset, mut offsets) = (None, None);
    let mut station = None;
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
            } else if !row.text.trim().is_empty() {
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
    Ok(Rows { hours, minutes, offsets, station, end_of_hour })
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

/// The way out for rows that name a day alone.
const VALUE_A_DAY: &str = "Each row must say its hour: if another column has it, name that one hour or time. Values of \
     whole days are no weather by the hour; from monthly \
     means of the days' highs and lows a job makes a year: monthly_highs, monthly_lows and heating_99 in [site]";

/// The same for rows of which each could be read by itself.
const NOT_ALIKE: &str = "Write all rows alike: month and day in one order, and an offset from UTC in every row or in \
     none";
const SECONDS: &str = "Are these seconds since 1970? Have the source give date and time";
const SPREADSHEET_DAY: &str = "Is this a spreadsheet's number of a day? Format the column as date and time there, and \
     save it as CSV again";
const NO_HOUR: &str = "Is this a second line of names, or one of sums? Take it out: below the names there must be hours \
     alone";
const IN_DIGITS: &str = "Write year, month, day and hour in digits";

/// What is wrong with a row of which the date is not known.
fn wrong(row: &Row<'_>, (width, shape): (usize, &str), date: DateColumns) -> Problem {
    if row.len() != width {
        return wrong_shape(row, width, shape);
    }
    let positions = date.positions();
    let texts: Vec<&str> = positions.iter().map(|place| row.cell(*place)).collect();
    let text = texts.join(" ");
    let problem = Problem::new(format!("found {}, which is no date and time", shown(&text)));
    let problem = row
        .spot(positions.first().copied().unwrap_or_default())
        .mark(problem)
        .allowed("such as 2015-01-31 23:00, written alike in every row; years 1850 to 2200");
    problem.help(way_out(&text))
}

/// What to do about a text that is no date and time, by what it looks like.
fn way_out(text: &str) -> &'static str {
    let reads = |text: &str| {
        let read = |order| Dates::new(order).moment(text).is_some();
        read(DayOrder::MonthFirst) || read(DayOrder::DayFirst)
    };
    match text.parse::<f64>() {
        _ if reads(text) => NOT_ALIKE,
        _ if reads(&format!("{text} 00:00")) => VALUE_A_DAY,
        Ok(number) if (1.0e8..1.0e13).contains(&number) => SECONDS,
        Ok(number) if (1.0e4..1.0e5).contains(&number) => SPREADSHEET_DAY,
        _ if !text.bytes().any(|byte| byte.is_ascii_digit()) => NO_HOUR,
        _ => IN_DIGITS,
    }
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
    }
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
