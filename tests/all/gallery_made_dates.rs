//! Cases of the made gallery whose dates or times are not those that were meant.
//!
//! Start at [`what_dates_say`].

use crate::gallery_made::{Case, HEAD, case};
use crate::weather_other_peoples::file;
use chrono::{Duration, NaiveDateTime};

/// A year of dated rows, each date as a change writes it.
fn written(date: impl Fn(usize, NaiveDateTime) -> String) -> String {
    file(HEAD, 2023, |hour, time, c| Some(format!("{},{c:.1}", date(hour, time))))
}

fn usual(time: NaiveDateTime) -> String {
    time.format("%Y-%m-%d %H:%M").to_string()
}

/// One in so many times a minute early, as a spreadsheet writes 0.99999 hours.
fn cut(one_in: usize) -> impl Fn(usize, NaiveDateTime) -> String {
    move |hour, time| usual(if hour % one_in == 1 { time - Duration::minutes(1) } else { time })
}

/// Days and times that there are not, letters that are not known, dates in some rows without their year.
pub(crate) fn what_dates_say() -> Vec<Case> {
    let day = |text: &'static str| move |_, time| usual(time).replace("2023-05-14", text);
    let columns = |minutes: &str| {
        let text = written(|_, time| time.format("%Y,%m,%d,%H").to_string());
        text.replace(HEAD, "year,month,day,hour,temp_degC").replace("2023,05,14,07", minutes)
    };
    vec![
        case("day_that_is_none", written(day("2023-05-41")), &[]),
        case("day_that_is_none_in_columns", columns("2023,02,29,07"), &[]),
        case("hour_that_is_none_in_columns", columns("2023,05,14,70"), &[]),
        case("month_that_is_none", written(day("2023-15-14")), &[]),
        case("year_in_two_digits", written(|_, time| time.format("%y-%m-%d %H:%M").to_string()), &[]),
        case("year_not_in_every_row", written(day("05/14")), &[]),
        case("time_that_is_none", written(|_, time| usual(time).replace(" 07:", " 70:")), &[]),
        case(
            "time_as_part_of_a_day",
            written(|h, t| format!("{} {:.4}", t.format("%F"), (h % 24) as f64 / 24.0)),
            &[],
        ),
        case("times_with_letters", written(|_, time| usual(time) + " AKST"), &[]),
        case(
            "dates_without_a_year_in_digits",
            written(|_, time| time.format("%m/%d %H:%M").to_string()),
            &[],
        ),
        case("times_cut_instead_of_rounded", written(cut(3)), &[]),
        case("few_times_cut_instead_of_rounded", written(cut(600)), &[]),
        case("day_dated_years_later", written(day("2032-05-14")), &[]),
        case(
            "rows_parted_otherwise",
            written(|_, time| usual(time)).replace(",", "|").replace("e|t", "e,t"),
            &[],
        ),
    ]
}
