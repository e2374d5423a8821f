//! A text that is no date and time into what is wrong with it and what would be right.
//!
//! Must never know where in a row it stands. Start at [`way_out`].

use super::named_dates::without_weekday;
use super::when::{ANY_LEAP_YEAR, DayOrder, moment};
use chrono::NaiveDate;

/// The way out for rows that name a day alone.
const VALUE_A_DAY: &str = "Each row must say its hour: write 00:00 behind a day that stands for its midnight; if \
     another column has the hour, name that one hour or time. Values of whole days are no weather by the hour; from \
     monthly means of the days' highs and lows a job makes a year: monthly_highs, monthly_lows and heating_99 in \
     [site]";

/// The same for rows of which each could be read by itself.
const NOT_ALIKE: &str = "Write all rows alike: month and day in one order, and an offset from UTC in every row or in \
     none";
const SECONDS: &str = "Are these seconds since 1970? Have the source give date and time";
const SPREADSHEET_DAY: &str = "Is this a spreadsheet's number of a day? Format the column as date and time there, and \
     save it as CSV again";
const NO_HOUR: &str = "Is this a second line of names, or one of sums? Take it out: below the names there must be hours \
     alone";
const NO_YEAR: &str = "The year is lacking here: write it in every row, as in 2015-01-31 23:00, or in none";
const SHORT_YEAR: &str = "Which of the numbers is the year? Write it with four digits";
const FAR_YEAR: &str = "The year lies before 1850 or after 2200: is a digit of it wrong?";
const NO_MONTH: &str = "No month has a number above 12: is a digit wrong, or was another order meant? Day before month \
     is known by a number above 12 in the first rows";
const LATE: &str = "No day has such a time: hours run from 00:00 to 23:59, or to 24:00 for the end of the day; with AM \
     or PM from 1 to 12";
const ZONE: &str = "The letters behind the time are not known. Write the offset from UTC in their place, such as -09:00 \
     for AKST, or take them out where all hours are in one standard time";
const TIME_FORM: &str = "The day can be read, its time cannot: write it as 23:00, 2300 or 11:00 PM";
const FRACTION: &str =
    "Is this a spreadsheet's part of a day? Format the column as a time there, and save it as CSV again";

/// No date is written in so many letters; of a longer text the beginning is looked at.
const LONGEST: usize = 60;

/// What to do about a text that is no date and time, by what it looks like.
pub(super) fn way_out(text: &str) -> String {
    let text = text.char_indices().nth(LONGEST).and_then(|(end, _)| text.get(..end)).unwrap_or(text);
    let fixed = match text.parse::<f64>() {
        _ if reads(text) => NOT_ALIKE,
        _ if is_day(text) => VALUE_A_DAY,
        Ok(number) if (1.0e8..1.0e13).contains(&number) => SECONDS,
        Ok(number) if (1.0e4..1.0e5).contains(&number) => SPREADSHEET_DAY,
        _ if !text.bytes().any(|byte| byte.is_ascii_digit()) => NO_HOUR,
        _ => match time_behind_a_day(text) {
            Some(time) => time_way_out(time),
            None => return date_way_out(without_weekday(text)),
        },
    };
    fixed.to_owned()
}

/// Whether a text is a day, without a time.
pub(super) fn is_day(text: &str) -> bool {
    reads(&format!("{text} 00:00"))
}

fn reads(text: &str) -> bool {
    [DayOrder::MonthFirst, DayOrder::DayFirst].iter().any(|order| moment(text, *order).is_some())
}

/// What stands behind the longest beginning of a text that is a day.
fn time_behind_a_day(text: &str) -> Option<&str> {
    let mut ends =
        text.match_indices([' ', 'T']).map(|(end, _)| text.split_at(end)).filter(|(day, _)| is_day(day));
    ends.next_back().map(|(_, time)| time.trim_start_matches([' ', 'T']))
}

/// What is wrong with a time.
fn time_way_out(time: &str) -> &'static str {
    let number = time.split(|c: char| !c.is_ascii_digit()).find_map(|digits| digits.parse::<u32>().ok());
    let is_time = time.bytes().all(|byte| byte.is_ascii_digit() || byte == b':');
    let letters: String = time.chars().filter(|c| c.is_alphabetic()).collect();
    match number {
        _ if ["am", "pm"].contains(&letters.to_lowercase().as_str()) => LATE,
        Some(_) if letters.len() > 1 && time.ends_with(&letters) => ZONE,
        Some(_) if is_time => LATE,
        Some(_) if time.parse::<f64>().is_ok_and(|part| part < 1.0) => FRACTION,
        _ => TIME_FORM,
    }
}

/// What is wrong with a date.
fn date_way_out(text: &str) -> String {
    let date = text.split([' ', 'T']).next().unwrap_or_default();
    let numbers: Vec<Option<u32>> = date.split(['-', '/', '.']).map(|part| part.parse().ok()).collect();
    let lengths: Vec<usize> = date.split(['-', '/', '.']).map(str::len).collect();
    match (numbers.as_slice(), lengths.as_slice()) {
        ([Some(year), Some(month), Some(day)], [4, ..]) => {
            no_such_day(Some(*year), (*month, *day)).unwrap_or_else(in_digits)
        }
        ([Some(first), Some(second), Some(year)], [.., 4]) => {
            no_such_day(Some(*year), (*first, *second)).unwrap_or_else(in_digits)
        }
        ([Some(_), Some(_), Some(_)], _) => SHORT_YEAR.to_owned(),
        ([Some(_), Some(_)], _) => NO_YEAR.to_owned(),
        ([Some(_)], [8]) => {
            let part = |from: usize, to: usize| {
                date.get(from..to).and_then(|part| part.parse().ok()).unwrap_or_default()
            };
            no_such_day(Some(part(0, 4)), (part(4, 6), part(6, 8))).unwrap_or_else(in_digits)
        }
        _ => in_digits(),
    }
}

/// What is wrong with a date in digits, its year (where it names one), its month or its day; nothing where there is such a day.
pub(super) fn no_such_day(year: Option<u32>, (first, second): (u32, u32)) -> Option<String> {
    let (month, day) = if first > 12 && second <= 12 { (second, first) } else { (first, second) };
    let number = year.map_or(Some(ANY_LEAP_YEAR), |year| i32::try_from(year).ok())?;
    let words = if year.is_some() { "%B %Y" } else { "%B" };
    match NaiveDate::from_ymd_opt(number, month, 1) {
        _ if !(1850..=2200).contains(&number) => Some(FAR_YEAR.to_owned()),
        Some(_) if NaiveDate::from_ymd_opt(number, month, day).is_some() => None,
        Some(date) => Some(format!("There is no day {day} in {}: is a digit wrong?", date.format(words))),
        None => Some(NO_MONTH.to_owned()),
    }
}

fn in_digits() -> String {
    "Write year, month, day and hour in digits".to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_wrong_with_a_date_is_named() {
        let begins = [
            ("2015-05-41 00:00", "There is no day 41 in May 2015"),
            ("20150541 0000", "There is no day 41 in May 2015"),
            ("31/04/2015 00:00", "There is no day 31 in April 2015"),
            ("02/29/2015 00:00", "There is no day 29 in February 2015"),
            ("14/14/2015 00:00", "No month has a number above 12"),
            ("0215-05-14 00:00", "The year lies before 1850"),
            ("15-05-14 00:00", "Which of the numbers is the year?"),
            ("05/14 00:00", "The year is lacking here"),
            ("Sat 05/14 00:00", "The year is lacking here"),
            ("2015-05-14 24:30", "No day has such a time"),
            ("2015-05-14 2460", "No day has such a time"),
            ("5/14/2015 13:00 PM", "No day has such a time"),
            ("2015-05-14 23:00 AKST", "The letters behind the time"),
            ("2015-05-14 0.5", "Is this a spreadsheet's part of a day?"),
            ("2015-05-14 23-00-00", "The day can be read, its time cannot"),
            ("5/14/2015", "Each row must say its hour: write 00:00 behind a day"),
            ("1 Mai 2015 00:00", "Write year, month, day and hour in digits"),
        ];
        for (text, begin) in begins {
            let found = way_out(text);
            assert!(found.starts_with(begin), "{text}: {found}");
        }
        assert_eq!(
            no_such_day(None, (2, 30)).as_deref(),
            Some("There is no day 30 in February: is a digit wrong?")
        );
        assert_eq!((no_such_day(None, (2, 29)), no_such_day(Some(2016), (2, 29))), (None, None));
    }
}
