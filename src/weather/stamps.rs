//! Rows labelled with the hour's end (01:00 to 24:00) checked to be one year in order.
//!
//! `01:00` is hour 0 and `24:00` is hour 23 of its day. Must never know where in a row the label
//! stands. Start at [`Stamps`].

use super::findings::Findings;
use super::year::YearKind;
use crate::calendar::TYPICAL_YEAR;
use crate::problem::Problem;
use chrono::{Datelike, NaiveDate};

/// Hours of an ordinary year.
pub(super) const YEAR_HOURS: usize = 8760;
/// Hours of a leap year.
pub(super) const LEAP_HOURS: usize = 8784;
const A_LEAP_YEAR: i32 = 2024;

/// Label of a row: the hour that ends then.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct EndOfHour {
    /// The calendar year the row names.
    pub(super) year: i32,
    /// 1 to 12.
    pub(super) month: u32,
    /// 1 to 31.
    pub(super) day: u32,
    /// 1 to 24.
    pub(super) hour: u32,
}

/// Walks the labels and tells every break in their order.
#[derive(Debug)]
pub(super) struct Stamps {
    leap: bool,
    next: usize,
}

impl Stamps {
    /// For a file of that many rows; 8,784 are a leap year.
    pub(super) fn new(rows: usize) -> Self {
        Self { leap: rows == LEAP_HOURS, next: 0 }
    }

    /// Checks the next row's label, `written` in the file.
    pub(super) fn check(&mut self, label: Option<EndOfHour>, written: &str, line: usize, findings: &mut Findings) {
        let Some(hour) = label.and_then(|l| self.hour_of_year(l)) else {
            findings.add(
                Problem::new(format!("{written} is no hour of this year"))
                    .at_line(line)
                    .allowed("a month, a day and an hour from 1 (ends at 01:00) to 24"),
            );
            self.next += 1;
            return;
        };
        if hour != self.next {
            let wanted = self.words(self.next);
            findings.add(
                Problem::new(format!("the hours are out of order: {written} stands where {wanted} should"))
                    .at_line(line)
                    .allowed("every hour once, from 1 January 01:00 to 31 December 24:00"),
            );
        }
        // Going on from what was found tells one break once, not every row after it.
        self.next = hour + 1;
    }

    fn first_day(&self) -> Option<NaiveDate> {
        NaiveDate::from_ymd_opt(if self.leap { A_LEAP_YEAR } else { TYPICAL_YEAR }, 1, 1)
    }

    fn hour_of_year(&self, label: EndOfHour) -> Option<usize> {
        let year = self.first_day()?.year();
        let date = NaiveDate::from_ymd_opt(year, label.month, label.day)?;
        let hour = (1..=24).contains(&label.hour).then(|| label.hour - 1)?;
        usize::try_from(date.ordinal0() * 24 + hour).ok()
    }

    fn words(&self, hour: usize) -> String {
        hour_words(self.leap, hour).map_or_else(|| "the end of the year".to_owned(), |(day, h)| {
            format!("{day} {:02}:00", h + 1)
        })
    }
}

/// The day (`3 February`) and the hour of the day, 0 to 23, of an hour of the year.
pub(super) fn hour_words(leap: bool, hour: usize) -> Option<(String, usize)> {
    let year = if leap { A_LEAP_YEAR } else { TYPICAL_YEAR };
    let ordinal = u32::try_from(hour / 24 + 1).ok()?;
    let date = NaiveDate::from_yo_opt(year, ordinal)?;
    Some((date.format("%-d %B").to_string(), hour % 24))
}

/// The kind of a file of labelled rows: typical at 8,760 rows whatever years the months name, the
/// actual leap year at 8,784.
///
/// # Errors
/// Any other number of rows, or 8,784 rows that name no leap year.
pub(super) fn kind_of(rows: usize, first_year: Option<i32>) -> Result<YearKind, Problem> {
    match (rows, first_year) {
        (YEAR_HOURS, _) => Ok(YearKind::Typical),
        (LEAP_HOURS, Some(year)) if is_leap(year) => Ok(YearKind::Actual(year)),
        (LEAP_HOURS, year) => {
            let year = year.map_or_else(|| "no year".to_owned(), |y| y.to_string());
            Err(Problem::new(format!("the file has 8784 hours but names {year}, which is no leap year")))
        }
        _ => Err(wrong_rows(rows, YEAR_HOURS)),
    }
}

/// Says how many hours there are and how many there should be.
pub(super) fn wrong_rows(found: usize, wanted: usize) -> Problem {
    let difference = found.abs_diff(wanted);
    let word = if found < wanted { "too few" } else { "too many" };
    Problem::new(format!("the file has {found} hours, {difference} {word}"))
        .allowed(format!("{wanted} hours, one on each line"))
        .help("Put in the missing hours (their values may be left empty), or take out the extra lines")
}

/// Whether the Gregorian year has a 29 February.
pub(super) fn is_leap(year: i32) -> bool {
    NaiveDate::from_ymd_opt(year, 2, 29).is_some()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn labels_name_the_end_of_the_hour() {
        let stamps = Stamps::new(YEAR_HOURS);
        let hour = |month, day, hour| stamps.hour_of_year(EndOfHour { year: 1999, month, day, hour });
        assert_eq!(hour(1, 1, 1), Some(0));
        assert_eq!(hour(1, 1, 24), Some(23));
        assert_eq!(hour(12, 31, 24), Some(8759));
        assert_eq!((hour(1, 1, 0), hour(1, 1, 25), hour(2, 29, 1)), (None, None, None));
        // Hand-worked: 31 + 28 days come before 1 March.
        assert_eq!(hour(3, 1, 1), Some(59 * 24));
    }

    #[test]
    fn only_a_leap_year_may_have_8784_hours() {
        assert_eq!(kind_of(8784, Some(2016)), Ok(YearKind::Actual(2016)));
        assert!(kind_of(8784, Some(2015)).is_err());
        assert_eq!(kind_of(8760, Some(2016)), Ok(YearKind::Typical));
        assert!(kind_of(8759, None).unwrap_err().what.contains("8759 hours, 1 too few"));
    }
}
