//! The dates of one row after another into moments, quickly where they are written as most are.
//!
//! Start at [`Dates`].

use super::when::{DayOrder, Moment, moment, moment_of_no_year, number_of, of_parts};

/// Reads the dates of one row after another: hours of one day write it alike.
#[derive(Debug)]
pub(super) struct Dates {
    order: DayOrder,
    no_year: bool,
    last: [u8; 10],
    day: i64,
}

impl Dates {
    /// None yet, of that order.
    pub(super) fn new(order: DayOrder) -> Self {
        Self { order, no_year: false, last: [0; 10], day: 0 }
    }

    /// The same, of dates without a year.
    pub(super) fn of_no_year(order: DayOrder) -> Self {
        Self { no_year: true, ..Self::new(order) }
    }

    /// As [`moment`], or as [`moment_of_no_year`].
    pub(super) fn moment(&mut self, text: &str) -> Option<Moment> {
        match self.no_year {
            false => self.commonest(text.as_bytes()).or_else(|| moment(text, self.order)),
            true => moment_of_no_year(text, self.order),
        }
    }

    /// `2015-01-31 23:00`, with seconds or without: records have very many of them.
    fn commonest(&mut self, text: &[u8]) -> Option<Moment> {
        let (date, time) = text.split_first_chunk::<10>()?;
        let [b' ' | b'T', h, m, b':', n, o, rest @ ..] = time else { return None };
        if *date != self.last {
            let [y, e, a, r, b'-', month, of, b'-', d, t] = date else { return None };
            let year = i32::try_from(two(y, e)? * 100 + two(a, r)?).ok()?;
            self.day = number_of(year, two(month, of)?, two(d, t)?)?;
            self.last = *date;
        }
        let whole = matches!(rest, [] | [b':', b'0'..=b'5', b'0'..=b'9']);
        of_parts(self.day, i64::from(two(h, m)?), i64::from(two(n, o)?)).filter(|_| whole)
    }
}

/// Two digits.
fn two(a: &u8, b: &u8) -> Option<u32> {
    let digits = a.is_ascii_digit() && b.is_ascii_digit();
    digits.then(|| u32::from(a - b'0') * 10 + u32::from(b - b'0'))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dates_after_each_other_are_read_as_each_alone() {
        let mut dates = Dates::new(DayOrder::DayFirst);
        for text in ["2015-02-28 23:00", "2015-03-01T00:30:59", "2015-03-01 00:60", "2015-03-01 24:00"] {
            assert_eq!(dates.moment(text), moment(text, DayOrder::DayFirst), "{text}");
        }
        assert_eq!(dates.moment("2015-03-01 00:00:60"), None);
        assert_eq!(dates.moment("2015-02-30 00:00"), None);
        assert_eq!(dates.moment("2015-03-01 01:00"), moment("2015-03-01 01:00", DayOrder::DayFirst));
    }

    #[test]
    fn what_is_written_otherwise_is_read_as_ever() {
        for text in ["2015/1/31 23", "31.01.2015 23:00", "2015-01-31T23:00-06:00", "", "2015-01-31", "x"] {
            assert_eq!(
                Dates::new(DayOrder::DayFirst).moment(text),
                moment(text, DayOrder::DayFirst),
                "{text}"
            );
        }
    }
}
