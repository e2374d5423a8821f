//! Rows that carry their date, of one file or several, checked and put into one order.
//!
//! Must never know a layout, nor choose what years are taken. Start at [`join`].

use super::cells::Field;
use super::findings::Findings;
use super::hours::{Hours, Site};
use super::reading::Reading;
use super::text::hash_of_all;
use super::when::{date_of, minute_of};
use crate::calendar::TYPICAL_YEAR;
use crate::problem::{Problem, Problems};
use chrono::{Datelike, NaiveDate};

/// The clock that the dates of a file follow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Clock {
    /// So many hours from UTC.
    Offset(f64),
    /// Local standard time, as file or job say.
    Standard,
    /// Nobody says.
    Unsaid,
}

/// The rows of a file whose rows carry their date.
#[derive(Debug)]
pub(super) struct Dated {
    /// The file's name, for messages.
    pub(super) file: String,
    /// SHA-256 of its bytes.
    pub(super) sha256: String,
    /// The place; its offset is that of its own standard time.
    pub(super) site: Site,
    /// The clock of `minutes`.
    pub(super) clock: Clock,
    /// Whether the layout itself says that the months are of different years.
    pub(super) typical: bool,
    /// The values, a row each.
    pub(super) hours: Hours,
    /// When each row is, see [`super::when::Moment`].
    pub(super) minutes: Vec<i64>,
    /// What came of reading.
    pub(super) reading: Reading,
}

/// Checks each file's order and puts several files behind each other, by their first hours.
///
/// Of several, the first file's place holds, and the columns that all have.
///
/// # Errors
/// Rows twice or out of order, files that overlap or follow different clocks.
pub(super) fn join(mut parts: Vec<Dated>) -> Result<Dated, Problems> {
    let mut problems = Problems::new();
    for part in &mut parts {
        problems.extend(ordered(part).err().into_iter().flatten());
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    parts.sort_by_key(|part| part.minutes.first().copied());
    let sha256 = hash_of_all(&parts.iter().map(|part| part.sha256.as_str()).collect::<Vec<_>>());
    let mut parts = parts.into_iter();
    let Some(mut whole) = parts.next() else {
        return Err(vec![Problem::new("there is no weather file")]);
    };
    for part in parts {
        append(&mut whole, part, &mut problems);
    }
    whole.sha256 = sha256;
    if problems.is_empty() { Ok(whole) } else { Err(problems) }
}

fn append(whole: &mut Dated, part: Dated, problems: &mut Problems) {
    let overlap = part.minutes.first() <= whole.minutes.last();
    if overlap || part.typical || whole.typical {
        let what = match overlap {
            true => "its hours overlap those of another file of the list",
            false => "it is a typical year, which cannot be one of several",
        };
        let problem = Problem::new(what).in_file(part.file.clone());
        problems.push(problem.help("Give each year once, as actual years of one place"));
        return;
    }
    if part.clock != whole.clock {
        let problem = Problem::new(format!("its hours follow another clock than those of {}", whole.file));
        problems.push(problem.in_file(part.file.clone()).help("Give files of one source"));
        return;
    }
    let missing = |field: Field| part.hours.columns.iter().all(|(column, _)| column.field != field);
    let (kept, dropped): (Vec<_>, Vec<_>) =
        std::mem::take(&mut whole.hours.columns).into_iter().partition(|(column, _)| !missing(column.field));
    whole.hours.columns = kept;
    whole.reading.columns_passed_over.extend(dropped.into_iter().map(|(column, _)| column.title));
    for (column, values) in &mut whole.hours.columns {
        let more = part.hours.columns.iter().find(|(other, _)| other.field == column.field);
        values.extend(more.into_iter().flat_map(|(_, values)| values.iter().copied()));
    }
    // A line number means nothing where there are several files.
    whole.hours.lines = vec![0; whole.minutes.len() + part.minutes.len()];
    whole.minutes.extend(part.minutes);
    whole.reading.rows += part.reading.rows;
    for remark in part.reading.remarks {
        if !whole.reading.remarks.contains(&remark) {
            whole.reading.remarks.push(remark);
        }
    }
}

/// Checks the order of one file; the months of a typical year are laid on one calendar first.
fn ordered(part: &mut Dated) -> Result<(), Problems> {
    let mut findings = Findings::new(&part.file);
    part.reading.rows = part.minutes.len();
    if part.minutes.is_empty() {
        return Err(findings.end(Problem::new("there are no rows with a date and values")));
    }
    part.typical = part.typical || months_of_different_years(&part.minutes);
    if part.typical {
        on_one_calendar(part);
    }
    let pairs = part.minutes.iter().zip(part.minutes.iter().skip(1));
    for ((before, after), line) in pairs.zip(part.hours.lines.iter().skip(1)) {
        if after <= before {
            findings.add(out_of_order(*before, *after).at_line(*line));
        }
    }
    findings.check()
}

fn out_of_order(before: i64, after: i64) -> Problem {
    let what = match after == before {
        true => format!("{} stands a second time", words(after)),
        false => format!("the hours are out of order: {} comes after {}", words(after), words(before)),
    };
    Problem::new(what).allowed("each hour once, in order").help(
        "If the clock is put back in autumn, give the hours in standard time all year, or in UTC; else sort \
         the rows and take out those that stand twice",
    )
}

/// A minute as a message shows it.
pub(super) fn words(minutes: i64) -> String {
    date_of(minutes).map_or_else(String::new, |(date, minute)| {
        format!("{} {:02}:{:02}", date.format("%-d %B %Y"), minute / 60, minute % 60)
    })
}

/// Whether the rows are January to December, each month of one year but not all of the same.
fn months_of_different_years(minutes: &[i64]) -> bool {
    let mut months: Vec<(u32, i32)> = Vec::with_capacity(12);
    for (date, _) in minutes.iter().filter_map(|m| date_of(*m)) {
        let month = (date.month(), date.year());
        if months.last() != Some(&month) {
            months.push(month);
        }
        if months.len() > 12 {
            return false;
        }
    }
    let in_order = months.len() == 12 && months.iter().zip(1..).all(|((month, _), i)| *month == i);
    in_order && months.iter().any(|(_, year)| Some(*year) != months.first().map(|(_, year)| *year))
}

/// Lays every row on the calendar of typical years; rows of a 29 February are taken out.
fn on_one_calendar(part: &mut Dated) {
    let laid = |minutes: &i64| {
        let (date, minute) = date_of(*minutes)?;
        let day = NaiveDate::from_ymd_opt(TYPICAL_YEAR, date.month(), date.day())?;
        Some(minute_of(day) + minute)
    };
    let laid: Vec<Option<i64>> = part.minutes.iter().map(laid).collect();
    let mut kept = laid.iter().map(Option::is_some);
    part.hours.lines.retain(|_| kept.next().unwrap_or_default());
    for (_, values) in &mut part.hours.columns {
        let mut kept = laid.iter().map(Option::is_some);
        values.retain(|_| kept.next().unwrap_or_default());
    }
    part.minutes = laid.into_iter().flatten().collect();
    part.reading.rows_skipped = part.reading.rows - part.minutes.len();
}
