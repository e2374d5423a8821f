//! Words for what was done when the weather file was read.
//!
//! Start at [`remark`].

use super::figures::{Measure, grouped, signed};
use super::flag_hours::{day, hour};
use super::weather_flags;
use crate::weather::extremes::LONGEST_GAP_H;
use crate::weather::year::FilledAt;
use crate::weather::{Reading, Remark};
use chrono::NaiveDateTime;

/// So many columns that were passed over are named.
const MOST_SHOWN: usize = 8;

/// What was taken of a file, and what was not.
pub fn taken(reading: &Reading) -> String {
    let count = |n: usize| grouped(n as f64, 0);
    let mut words = format!("read as {}: {} rows", reading.layout.name(), count(reading.rows));
    if reading.rows_skipped > 0 {
        words += &format!(", {} of them not used", count(reading.rows_skipped));
    }
    words += &format!("; columns taken: {}", reading.columns_taken.join(", "));
    if !reading.columns_passed_over.is_empty() {
        let (shown, more) = reading
            .columns_passed_over
            .split_at_checked(MOST_SHOWN)
            .unwrap_or((&reading.columns_passed_over, &[]));
        words += &format!("; passed over: {}", shown.join(", "));
        if !more.is_empty() {
            words += &format!(" and {} more", more.len());
        }
    }
    words + "."
}

/// A remark in words.
pub fn remark(remark: &Remark, measure: Measure) -> String {
    match remark {
        Remark::Windows1252 => "The weather file is no UTF-8 text and was read as Windows-1252.".into(),
        Remark::ColumnDropped { column, missing, first } => {
            let verb = if *missing == 1 { "is" } else { "are" };
            let hours = hours(*missing);
            format!(
                "Weather: the column '{column}' was left out; {hours} of it {verb} missing, first {first}."
            )
        }
        Remark::Shifted { .. }
        | Remark::OffsetFromLongitude { .. }
        | Remark::OffsetFromTimes { .. }
        | Remark::OffsetsDiffer { .. }
        | Remark::OffsetsNotUtc { .. }
        | Remark::ClockUnsaid
        | Remark::TakenAsTypical => of_clock(remark),
        Remark::EndOfHour => {
            "Weather: the file's times run to 24:00, so each was taken as the end of its hour.".into()
        }
        Remark::NoYear => {
            "Weather: the dates name no year, so the hours were taken as those of a typical year. If \
                           they are of one actual year, write it into the dates."
                .into()
        }
        Remark::Labels(labels) => weather_flags::labels(labels, measure),
        Remark::OtherStation { file, of, first_file, first_of } => format!(
            "Check the weather file: {file} says that it is of {of}, {first_file} of {first_of}; both were taken \
             as one record. Are they of one place?"
        ),
        Remark::Averaged { rows_an_hour } => {
            format!("Weather: up to {rows_an_hour} rows fall into one hour; their mean was taken.")
        }
        Remark::LinesAbove { .. } | Remark::UnitsBelow { .. } => of_head(remark),
        Remark::TakenAsKelvin { column } => {
            format!("Weather: the column '{column}' does not say its unit; its numbers can only be kelvin.")
        }
        Remark::NoLeapDay { .. } | Remark::FilledByDays { .. } => of_gaps(remark),
        Remark::EmptyRows { rows: 1 } => "Weather: one row of empty cells was passed over.".to_owned(),
        Remark::EmptyRows { rows } => {
            format!("Weather: {} rows of empty cells were passed over.", grouped(*rows as f64, 0))
        }
        Remark::LeftOut { hours: n } => {
            format!("Weather: {} before or after the days that were taken were left out.", hours(*n))
        }
        Remark::Turned { first } => format!(
            "Weather: the twelve months from {} were laid on one calendar year; their winter stays whole.",
            day(*first)
        ),
        Remark::CutTimes { times, at } => cut_times(*times, *at),
    }
}

/// A remark on lines around the names of the columns.
fn of_head(remark: &Remark) -> String {
    match remark {
        Remark::LinesAbove { lines: 1, first } => {
            format!("Weather: the line above the names of the columns was passed over: '{}'.", begun(first))
        }
        Remark::LinesAbove { lines, first } => format!(
            "Weather: {lines} lines above the names of the columns were passed over, the first '{}'.",
            begun(first)
        ),
        Remark::UnitsBelow { line } => {
            format!(
                "Weather: the line below the names of the columns was taken as their units: '{}'.",
                begun(line)
            )
        }
        _ => String::new(),
    }
}

/// Times that look cut, how many and the first.
fn cut_times(times: usize, at: NaiveDateTime) -> String {
    format!(
        "Check the weather file: {} cut instead of rounded ({}{}): two rows fall into one hour, and none into the next, \
             which was filled from its neighbours. Round them in the spreadsheet (=ROUND(A2*24,0)/24, shown as date and \
             time), and save it as CSV again.",
        if times == 1 { "a time looks".to_owned() } else { format!("{times} times look") },
        if times == 1 { "" } else { "first " },
        hour(at)
    )
}

/// The beginning of a line.
fn begun(line: &str) -> String {
    let most = line.char_indices().nth(40).map(|(at, _)| at);
    most.map_or_else(|| line.to_owned(), |at| format!("{}…", line.get(..at).unwrap_or_default()))
}

fn hours(n: usize) -> String {
    if n == 1 { "1 hour".to_owned() } else { format!("{} hours", grouped(n as f64, 0)) }
}

/// A remark on what was filled.
fn of_gaps(remark: &Remark) -> String {
    match remark {
        Remark::NoLeapDay { days } => format!(
            "Weather: the file has no 29 February{}, as years that are made to have 365 days; each hour of it was filled \
             from the same hour of the days beside it.",
            if *days == 1 { String::new() } else { format!(" in {days} years") }
        ),
        Remark::FilledByDays { hours: n } => format!(
            "Weather: in all the years of the record, {} in gaps longer than six hours were filled from the same hour \
             of the neighbouring days.",
            hours(*n)
        ),
        _ => String::new(),
    }
}

/// A remark on the clock or the year of a file.
fn of_clock(remark: &Remark) -> String {
    match remark {
        Remark::Shifted { hours: by, wrapped: 0 } => {
            format!("Weather: the clock was moved by {} h to local standard time.", clock(*by))
        }
        Remark::Shifted { hours: by, wrapped } => format!(
            "Weather: the clock was moved by {} h to local standard time; the {} then lacking at one end {} of the \
             other.",
            clock(*by),
            hours(*wrapped),
            if *wrapped == 1 { "is that" } else { "are those" }
        ),
        Remark::OffsetFromLongitude { hours } => format!(
            "Weather: the offset of {} h from UTC was taken from the longitude; give site.time_zone.",
            clock(*hours)
        ),
        Remark::OffsetFromTimes { hours } => format!(
            "Weather: the times carry their offset from UTC; standard time was taken to be {} h. Give \
             site.time_zone to be sure of it.",
            clock(*hours)
        ),
        Remark::OffsetsDiffer { times, place } => format!(
            "Check the weather file: its times carry {} h from UTC, but the place is said to have {} h in \
             standard time, into which the hours were put. Is the time zone another one, or the file one of \
             another place?",
            clock(*times),
            clock(*place)
        ),
        Remark::OffsetsNotUtc { hours } => format!(
            "Check the weather file: its times are said to be in UTC but carry {} h, which was followed. Take \
             the one or the other out.",
            clock(*hours)
        ),
        Remark::ClockUnsaid => "Weather: the file does not say its clock; its hours were taken as local \
                                standard time (else give site.weather_clock = \"utc\"). Lines # latitude, \
                                # longitude and # utc_offset_h at its top let them be held against the sun."
            .into(),
        Remark::TakenAsTypical => "Weather: the file names no year, so its hours are taken for a typical year, on the \
                                   calendar of 2023. If they were measured in one year, write it above the names \
                                   of the columns: # year: 2015."
            .into(),
        _ => String::new(),
    }
}

/// Hours of the year that is used which had no temperature.
pub fn filled(hours: usize, at: Option<&FilledAt>) -> String {
    let (noun, verb, whose) = if hours == 1 { ("hour", "was", "its") } else { ("hours", "were", "their") };
    format!(
        "{} {noun} of the weather year that is used had no temperature and {verb} filled from {whose} neighbours{}{}.",
        grouped(hours as f64, 0),
        at.map_or_else(String::new, filled_at),
        match at {
            Some(at) if at.longest.1 > LONGEST_GAP_H =>
                "; gaps longer than six hours from the same hour of the days beside",
            _ => "",
        }
    )
}

fn filled_at(at: &FilledAt) -> String {
    let (first, longest) = (hour(at.first.0), hour(at.longest.0));
    match at.stretches {
        1 if at.longest.1 == 1 => format!(", {first}"),
        1 => format!(", from {first} on"),
        _ if at.longest.1 == 1 => format!(", each of them alone, first {first}"),
        n => format!(
            ", in {} stretches: the first from {first} ({}), the longest from {longest} ({})",
            grouped(n as f64, 0),
            hours(at.first.1),
            hours(at.longest.1)
        ),
    }
}

/// Winters that are not counted among a record's lows.
pub fn winters_left_out(first_years: &[i32]) -> String {
    let winters: Vec<String> = first_years.iter().map(|y| format!("{y}/{:02}", (y + 1) % 100)).collect();
    let (noun, verb) = if winters.len() == 1 { ("winter", "is") } else { ("winters", "are") };
    format!(
        "The {noun} {} {verb} left out of the record's lows: more than {LONGEST_GAP_H} hours on end have no \
         temperature between November and March, and filled hours do not tell how cold it was.",
        winters.join(", ")
    )
}

/// Which twelve months of a record were run; `asked` if the job names them.
pub fn one_of_record(first_year: i32, complete_years: usize, asked: bool) -> String {
    format!(
        "The weather is July {first_year} to June {}, {}, out of a record with {complete_years} such {}.",
        first_year + 1,
        if asked { "the year the job names" } else { "the latest complete one" },
        if complete_years == 1 { "year" } else { "years" }
    )
}

/// What was added to every hour.
pub fn site_offset(kelvin: f64, measure: Measure) -> String {
    format!(
        "The house is not the weather station: {} was added to every outdoor hour (site_offset).",
        measure.difference_words(kelvin)
    )
}

/// Hours with their sign; halves where there are any.
fn clock(hours: f64) -> String {
    signed(hours, if hours.fract() == 0.0 { 0 } else { 1 })
}
