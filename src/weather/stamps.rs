//! Rows labelled with the hour's end (01:00 to 24:00) checked to be one year in order.
//!
//! `01:00` is hour 0 and `24:00` is hour 23 of its day. Must never know where in a row the label
//! stands. Start at [`Stamps`].

use super::findings::Findings;
use super::lines::Row;
use super::when::ANY_LEAP_YEAR;
use super::year::YearKind;
use crate::calendar::TYPICAL_YEAR;
use crate::problem::Problem;
use chrono::{Datelike, NaiveDate};

/// Hours of an ordinary year.
pub(super) const YEAR_HOURS: usize = 8760;
/// Hours of a leap year.
pub(super) const LEAP_HOURS: usize = 8784;

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
    an_hour: usize,
    next: usize,
}

impl Stamps {
    /// For a file of that many rows, so many of them an hour; 8,784 hours are a leap year.
    pub(super) fn new(rows: usize, an_hour: usize) -> Self {
        Self { leap: rows == LEAP_HOURS * an_hour, an_hour, next: 0 }
    }

    /// Passes over a row that was found wrong and has no label to trust.
    pub(super) fn skip(&mut self) {
        self.next += 1;
    }

    /// Checks the next row's label, `written` in the file.
    pub(super) fn check(
        &mut self,
        label: Option<EndOfHour>,
        written: &str,
        row: &Row<'_>,
        findings: &mut Findings,
    ) {
        let mut tell = |what: String, allowed: &str| {
            findings.add(row.spot_of_all().mark(Problem::new(what)).allowed(allowed));
        };
        let Some(hour) = label.and_then(|l| self.hour_of_year(l)) else {
            let allowed = "a month, a day and an hour from 1 (ends at 01:00) to 24";
            tell(format!("{written} is no hour of this year"), allowed);
            self.skip();
            return;
        };
        let wanted = self.next / self.an_hour;
        if hour == wanted {
            self.next += 1;
            return;
        }
        let allowed = "every hour once, from 1 January 01:00 to 31 December 24:00";
        let wanted = self.words(wanted);
        tell(format!("the hours are out of order: {written} stands where {wanted} should"), allowed);
        // Going on from what was found tells one break once, not every row after it.
        self.next = hour * self.an_hour + 1;
    }

    fn first_day(&self) -> Option<NaiveDate> {
        NaiveDate::from_ymd_opt(if self.leap { ANY_LEAP_YEAR } else { TYPICAL_YEAR }, 1, 1)
    }

    fn hour_of_year(&self, label: EndOfHour) -> Option<usize> {
        let year = self.first_day()?.year();
        let date = NaiveDate::from_ymd_opt(year, label.month, label.day)?;
        let hour = (1..=24).contains(&label.hour).then(|| label.hour - 1)?;
        usize::try_from(date.ordinal0() * 24 + hour).ok()
    }

    fn words(&self, hour: usize) -> String {
        hour_words(self.leap, hour)
            .map_or_else(|| "the end of the year".to_owned(), |(day, h)| format!("{day} {:02}:00", h + 1))
    }
}

/// The day (`3 February`) and the hour of the day, 0 to 23, of an hour of the year.
pub(super) fn hour_words(leap: bool, hour: usize) -> Option<(String, usize)> {
    let year = if leap { ANY_LEAP_YEAR } else { TYPICAL_YEAR };
    let ordinal = u32::try_from(hour / 24 + 1).ok()?;
    let date = NaiveDate::from_yo_opt(year, ordinal)?;
    Some((date.format("%-d %B").to_string(), hour % 24))
}

/// How many rows an hour a file may have.
pub(super) const AN_HOUR: [usize; 3] = [1, 2, 4];

/// The kind of a file of labelled rows, so many of them an hour: typical at 8,760 hours whatever years
/// the months name, the actual leap year at 8,784. Any other number is told, and so are 8,784 of no leap
/// year.
pub(super) fn kind_of(
    rows: usize,
    an_hour: usize,
    first_year: Option<i32>,
    findings: &mut Findings,
) -> YearKind {
    match (rows, first_year) {
        (rows, _) if rows == YEAR_HOURS * an_hour => return YearKind::Typical,
        (rows, Some(year)) if rows == LEAP_HOURS * an_hour && is_leap(year) => return YearKind::Actual(year),
        (rows, year) if rows == LEAP_HOURS * an_hour => {
            let year = year.map_or_else(|| "no year".to_owned(), |y| y.to_string());
            let what = format!("the file has 8784 hours but names {year}, which is no leap year");
            findings.add(Problem::new(what));
        }
        _ => findings.add(wrong_rows(rows, YEAR_HOURS, an_hour)),
    }
    YearKind::Typical
}

/// More hours than a week nobody puts in by hand.
const MOST_TO_PUT_IN: usize = 168;

/// Says how many rows there are and how many there should be.
pub(super) fn wrong_rows(found: usize, wanted_hours: usize, an_hour: usize) -> Problem {
    let wanted = wanted_hours * an_hour;
    let difference = found.abs_diff(wanted);
    let word = if found < wanted { "too few" } else { "too many" };
    let (rows, each) = match an_hour {
        1 => ("hours".to_owned(), "one on each line".to_owned()),
        many => ("rows".to_owned(), format!("{many} for each hour")),
    };
    let help = if found + MOST_TO_PUT_IN * an_hour < wanted {
        "Take the file again from its source, whole: it was cut short, or is of a part of the year"
    } else {
        "Put in the missing hours (their values may be left empty), or take out the extra lines"
    };
    Problem::new(format!("the file has {found} {rows}, {difference} {word}"))
        .allowed(format!("{wanted} {rows}, {each}"))
        .help(help)
}

/// Whether the Gregorian year has a 29 February.
pub(super) fn is_leap(year: i32) -> bool {
    NaiveDate::from_ymd_opt(year, 2, 29).is_some()
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn labels_name_the_end_of_the_hour() {
        let stamps = Stamps::new(YEAR_HOURS, 1);
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
        let mut findings = Findings::new("a.epw");
        assert_eq!(kind_of(8784, 1, Some(2016), &mut findings), YearKind::Actual(2016));
        assert_eq!(kind_of(17_520, 2, Some(2016), &mut findings), YearKind::Typical);
        assert!(findings.check().is_ok());
        kind_of(8784, 1, Some(2015), &mut findings);
        kind_of(8759, 1, None, &mut findings);
        let problems = findings.check().unwrap_err();
        assert!(problems[0].what.contains("names 2015, which is no leap year"));
        assert!(problems[1].what.contains("8759 hours, 1 too few"));
    }
}
