//! The ways in which files write their dates: with names, letters of zones, hours with minutes behind them, bars
//! between the cells, and no year at all.
//!
//! The hours are those of the built-in Chicago year; each file must give them back.

use crate::weather_other_peoples::{chicago, file, near, refused, year};
use chrono::{Datelike, NaiveDateTime, Timelike};
use winterledger::weather::year::YearKind;
use winterledger::weather::{ReadOptions, Remark};

/// A file of 2023 whose rows begin with what is made of the time.
fn written(head: &str, date: impl Fn(NaiveDateTime) -> String) -> String {
    file(head, 2023, |_, time, c| Some(format!("{}{c:.1}", date(time))))
}

#[test]
fn dates_with_names_zones_and_other_signs_are_read() {
    let as_is = |format: &'static str| move |time: NaiveDateTime| time.format(format).to_string();
    for (head, format) in [
        ("time,temp_C", "\"%b %d, %Y %I:%M %p\","),
        ("time,temp_C", "%-d %B %Y %H:%M,"),
        ("time,temp_C", "%a %m/%d/%Y %H:%M,"),
        ("time,temp_C", "\"%a, %d %b %Y %H:%M:%S\","),
        ("time,temp_C", "%d/%m/%Y %Hh%M,"),
        ("date,time,temp_C", "%d.%m.%y,%H.%M,"),
        ("time|temp_C", "%Y-%m-%d %H:%M|"),
        ("month,day,hour,temp_C", "%m,%d,%H,"),
        ("time,temp_C", "%m/%d %H:%M,"),
    ] {
        near(&year(&written(head, as_is(format)), &ReadOptions::default()), &chicago());
    }
}

#[test]
fn hours_from_100_to_2400_end_then() {
    for (head, date) in [("Date,Hour,temp_C", "%m/%d/%Y"), ("Year,Month,Day,Hour,temp_C", "%Y,%m,%d")] {
        let text = written(head, |time| format!("{},{}00,", time.format(date), time.hour() + 1));
        let read = year(&text, &ReadOptions::default());
        near(&read, &chicago());
        assert!(read.reading.unwrap().remarks.contains(&Remark::EndOfHour));
    }
}

#[test]
fn letters_of_a_zone_are_an_offset() {
    // RFC 5322: CST is 6 h behind UTC, and so is Chicago's standard time.
    let text = written("time,temp_C", |time| time.format("%Y-%m-%d %H:%M CST,").to_string());
    let read = year(&text, &ReadOptions::default());
    near(&read, &chicago());
    assert_eq!(read.utc_offset_h, Some(-6.0));
    let other = refused(&text.replace("CST", "AKST"), &ReadOptions::default());
    assert!(other.help.unwrap().contains("Write the offset from UTC in their place"));
}

#[test]
fn hours_of_no_year_are_those_of_a_typical_one() {
    let text = written("Month,Day,Hour,temp_C", |time| {
        format!("{},{},{},", time.month(), time.day(), time.hour() + 1)
    });
    let read = year(&text, &ReadOptions::default());
    near(&read, &chicago());
    assert_eq!(read.kind, YearKind::Typical);
    assert!(read.reading.unwrap().remarks.contains(&Remark::NoYear));
    // 24 rows of a 29 February have no place on a calendar of 365 days.
    let leap = file("Month,Day,Hour,temp_C", 2024, |_, time, c| {
        Some(format!("{},{},{},{c:.1}", time.month(), time.day(), time.hour()))
    });
    let read = year(&leap, &ReadOptions::default()).reading.unwrap();
    assert_eq!((read.rows, read.rows_skipped), (8784, 24));
    // Half a year of them is told without a year.
    let half: String = text.lines().take(4000).map(|line| format!("{line}\n")).collect();
    let what = refused(&half, &ReadOptions::default()).what;
    assert_eq!(what, "the hours run from 1 January to 16 June, which is no whole year");
}

#[test]
fn a_column_without_any_value_is_not_said_to_be_kelvin() {
    let text = file("time,temp_C,dew_point", 2023, |_, time, c| {
        Some(format!("{},{c:.1},", time.format("%F %H:%M")))
    });
    let read = year(&text, &ReadOptions::default());
    let remarks = read.reading.unwrap().remarks;
    assert!(
        matches!(remarks.as_slice(), [Remark::ClockUnsaid, Remark::ColumnDropped { missing: 8760, .. }]),
        "{remarks:?}"
    );
}

#[test]
fn names_and_rows_parted_by_other_signs_are_told() {
    let text = written("time,temp_C", |time| time.format("%F %H:%M|").to_string());
    let problem = refused(&text, &ReadOptions::default());
    assert_eq!(problem.what, "the row has 1 column");
    assert!(problem.help.unwrap().contains("by the same sign"));
}

#[test]
fn hours_without_dates_may_be_numbered_from_one() {
    for number in [|hour: usize| hour + 1, |hour: usize| hour % 24 + 1] {
        let text = file("hour,dry_bulb_degC", 2023, |hour, _, c| Some(format!("{},{c:.1}", number(hour))));
        near(&year(&text, &ReadOptions::default()), &chicago());
    }
}

#[test]
fn a_leap_year_without_its_29_february_has_that_day_from_those_beside_it() {
    let text = file("time,temp_C", 2024, |_, time, _| {
        let degrees = match (time.month(), time.day()) {
            (2, 28) => 2.0,
            (2, 29) => return None,
            (3, 1) => 5.0,
            _ => 10.0,
        };
        Some(format!("{},{degrees}", time.format("%F %H:%M")))
    });
    let read = year(&text, &ReadOptions::default());
    assert_eq!((read.kind, read.columns.dry_bulb_c.len()), (YearKind::Actual(2024), 8784));
    // Hand-worked: 31 + 28 days come before it; (2 + 5)/2.
    assert_eq!(read.columns.dry_bulb_c[59 * 24..60 * 24], [3.5; 24]);
    assert!(read.reading.unwrap().remarks.contains(&Remark::NoLeapDay { days: 1 }));
}
