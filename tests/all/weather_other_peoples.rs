//! Files as other people write them: column names, words for missing, short years, line ends, offsets; and
//! several files that may not be of one place.
//!
//! The hours are those of the built-in Chicago year, whose statistics are known, written in each way.

use std::sync::LazyLock;

use chrono::{Duration, NaiveDate, NaiveDateTime};
use winterledger::problem::Problem;
use winterledger::report::figures::Measure;
use winterledger::report::weather_flags::words;
use winterledger::units::{UnitSystem, celsius_to_fahrenheit};
use winterledger::weather::extremes::{SEED, Winters};
use winterledger::weather::places::open;
use winterledger::weather::quality::{Degree, Flag, flags};
use winterledger::weather::{
    FileClock, GapRule, OutdoorYear, ReadOptions, Remark, Weather, WeatherRecord, read_many, read_with,
};

/// The hours of the built-in Chicago year, °C; read once, since many files are made of them.
pub(crate) fn chicago() -> Vec<f64> {
    static HOURS: LazyLock<Vec<f64>> =
        LazyLock::new(|| open("il-chicago").unwrap().columns.dry_bulb_c.to_vec());
    HOURS.clone()
}

pub(crate) fn time(year: i32, hour: usize) -> NaiveDateTime {
    let first = NaiveDate::from_ymd_opt(year, 1, 1).unwrap().and_hms_opt(0, 0, 0).unwrap();
    first + Duration::hours(hour as i64)
}

/// A file of a year of Chicago's hours, each row made from its time and temperature.
pub(crate) fn file(
    head: &str,
    year: i32,
    row: impl Fn(usize, NaiveDateTime, f64) -> Option<String>,
) -> String {
    let hours = chicago();
    let count = if NaiveDate::from_ymd_opt(year, 2, 29).is_some() { 8784 } else { 8760 };
    let rows = (0..count).filter_map(|h| row(h, time(year, h), hours[h % 8760]));
    format!("{head}\n{}\n", rows.collect::<Vec<_>>().join("\n"))
}

pub(crate) fn plain(head: &str, year: i32) -> String {
    file(head, year, |_, time, c| Some(format!("{},{c:.1}", time.format("%Y-%m-%d %H:%M"))))
}

pub(crate) fn year(text: &str, options: &ReadOptions) -> OutdoorYear {
    match read_with("a.csv", text.as_bytes(), options) {
        Ok(Weather::Year(year)) => *year,
        Ok(_) => panic!("no year"),
        Err(problems) => panic!("{problems:?}"),
    }
}

pub(crate) fn refused(text: &str, options: &ReadOptions) -> Problem {
    read_with("a.csv", text.as_bytes(), options).unwrap_err().remove(0)
}

fn joined(files: &[(&str, String)]) -> Result<WeatherRecord, Vec<Problem>> {
    let files = files.iter().map(|(name, text)| ((*name).to_owned(), text.as_bytes())).collect();
    match read_many(files, &ReadOptions::default())? {
        Weather::Record(record) => Ok(*record),
        _ => panic!("no record"),
    }
}

pub(crate) fn near(year: &OutdoorYear, wanted: &[f64]) {
    let off = year.columns.dry_bulb_c.iter().zip(wanted).map(|(a, b)| (a - b).abs()).fold(0.0, f64::max);
    // Numbers are written to a tenth, of °F at worst.
    assert!(off < 0.051, "{off}");
}

#[test]
fn names_that_can_mean_one_thing_only_are_taken() {
    let hours = chicago();
    for (head, fahrenheit) in [
        ("valid,tmpf", true),
        ("dt,tempF", true),
        ("datetime,tempC", false),
        ("time,temp_c", false),
        ("Zeit;Lufttemperatur (°C)", false),
        ("timestamp,outdoor_degF", true),
    ] {
        let text = file(head, 2023, |_, time, c| {
            let number = if fahrenheit { celsius_to_fahrenheit(c) } else { c };
            let (separator, number) = match head.contains(';') {
                true => (';', format!("{number:.1}").replace('.', ",")),
                false => (',', format!("{number:.1}")),
            };
            Some(format!("{}{separator}{number}", time.format("%Y-%m-%d %H:%M")))
        });
        near(&year(&text, &ReadOptions::default()), &hours);
    }
}

#[test]
fn other_names_are_refused_with_the_known_ones_and_what_to_do() {
    let problem = |head: &str| refused(&plain(head, 2023), &ReadOptions::default());
    let no_temperature = problem("valid,warmth");
    assert!(
        no_temperature.what.contains("'valid', 'warmth' is known as the temperature"),
        "{no_temperature}"
    );
    assert!(no_temperature.allowed.unwrap().contains("tmpf"));
    let no_date = problem("when,temp_F");
    assert_eq!(no_date.what, "no column is known as date and time");
    assert!(no_date.allowed.unwrap().contains("timestamp"));
    assert!(no_date.help.unwrap().ends_with("name 'temp_F' dry_bulb_degF"));
    let neither = problem("when,warmth").help.unwrap();
    assert!(
        ["datetime", "tempC", "site.weather_format", "--format"].iter().all(|w| neither.contains(w)),
        "{neither}"
    );
}

#[test]
fn words_for_missing_short_years_and_returns_alone_are_read() {
    let mut hours = chicago();
    let plain = plain("datetime,temp_C", 2023);
    near(&year(&plain.replace('\n', "\r"), &ReadOptions::default()), &hours);
    let short = |form: &'static str| {
        file("datetime,temp_C", 2023, move |_, time, c| Some(format!("{},{c:.1}", time.format(form))))
    };
    for form in ["%m/%d/%y %H:%M", "%d.%m.%y %H:%M"] {
        let year = year(&short(form), &ReadOptions::default());
        near(&year, &hours);
        assert_eq!(year.calendar_year(), 2023);
    }
    assert!(
        refused(&short("%y-%m-%d %H:%M"), &ReadOptions::default()).allowed.unwrap().contains("2015-01-31")
    );
    // Hand-worked: the two hours between lie on the line from hour 99 to hour 102.
    (hours[100], hours[101]) =
        (hours[99] + (hours[102] - hours[99]) / 3.0, hours[99] + (hours[102] - hours[99]) / 1.5);
    for word in ["M", "null", "NA", "N/A", "-"] {
        let text = file("datetime,temp_C", 2023, |h, time, c| {
            let number = if h == 100 || h == 101 { word.to_owned() } else { format!("{c:.1}") };
            Some(format!("{},{number}", time.format("%Y-%m-%d %H:%M")))
        });
        let year = year(&text, &ReadOptions::default());
        near(&year, &hours);
        assert_eq!(year.filled_hours, 2);
    }
}

#[test]
fn decimal_commas_between_commas_are_refused_with_the_way_out() {
    let text = file("datetime,temp_C", 2023, |_, time, c| {
        Some(format!("{},{}", time.format("%Y-%m-%d %H:%M"), format!("{c:.1}").replace('.', ",")))
    });
    let problem = refused(&text, &ReadOptions::default());
    assert_eq!(problem.what, "the row has 3 columns");
    assert!(problem.help.unwrap().starts_with("Are these decimal commas?"));
}

#[test]
fn offsets_in_the_times_are_followed_and_told_where_others_say_otherwise() {
    let hours = chicago();
    let stamped =
        |head| file(head, 2023, |_, time, c| Some(format!("{}-05:00,{c:.1}", time.format("%Y-%m-%dT%H:%M"))));
    let remarks = |year: &OutdoorYear| year.reading.as_ref().unwrap().remarks.clone();
    let alone = year(&stamped("datetime,temp_C"), &ReadOptions::default());
    near(&alone, &hours);
    assert_eq!(alone.utc_offset_h, Some(-5.0));
    assert!(remarks(&alone).contains(&Remark::OffsetFromTimes { hours: -5.0 }));
    let moved = |year: &OutdoorYear| {
        remarks(year)
            .iter()
            .find_map(|r| if let Remark::Shifted { hours, .. } = r { Some(*hours) } else { None })
    };
    assert_eq!(moved(&alone), None, "the hours are those that are written");
    // In Chicago, an hour behind, hour 0 is the file's hour 1.
    let zone = Some(chrono_tz::America::Chicago);
    let elsewhere = year(&stamped("datetime,temp_C"), &ReadOptions { zone, ..ReadOptions::default() });
    assert!((elsewhere.columns.dry_bulb_c[0] - hours[1]).abs() < 0.051);
    assert!(remarks(&elsewhere).contains(&Remark::OffsetsDiffer { times: -5.0, place: -6.0 }));
    assert_eq!(moved(&elsewhere), Some(-1.0));
    let in_utc = year(&stamped("datetime_utc,temp_C"), &ReadOptions::default());
    near(&in_utc, &hours);
    assert!(remarks(&in_utc).contains(&Remark::OffsetsNotUtc { hours: -5.0 }));
    // Said to be standard time whatever the offset: the hours are those that are written.
    let clock = Some(FileClock::Standard);
    near(&year(&stamped("datetime,temp_C"), &ReadOptions { clock, zone, ..ReadOptions::default() }), &hours);
    let summer = |h: usize| (1700..7400).contains(&h);
    let two = file("datetime,temp_C", 2023, |h, time, c| {
        let (hour, offset) = if summer(h) { (1, 4) } else { (0, 5) };
        let time = time + Duration::hours(hour);
        Some(format!("{}-0{offset}:00,{c:.1}", time.format("%Y-%m-%dT%H:%M")))
    });
    near(&year(&two, &ReadOptions::default()), &hours);
    let problem = refused(&two, &ReadOptions { clock, ..ReadOptions::default() });
    assert!(problem.what.contains("offsets from UTC from -5 to -4 h"), "{problem}");
}

#[test]
fn celsius_under_the_name_of_fahrenheit_is_asked_about_and_the_other_way_round_refused() {
    let wrong = year(&plain("datetime,temp_F", 2023), &ReadOptions::default());
    let found = flags(&wrong);
    let Some(flag @ Flag::OtherUnit { looks_like: Degree::Celsius, year: Some(2023), .. }) = found.first()
    else {
        panic!("{found:?}")
    };
    let shown = words(flag, Measure(UnitSystem::Us));
    assert!(shown.contains("is this degC?"), "{shown}");
    for place in ["ak-northway", "az-tucson", "co-golden", "nc-greensboro", "nj-mcguire"] {
        let wrong = open(place).unwrap();
        let hours = wrong.columns.dry_bulb_c.clone().map(|c| (c - 32.0) / 1.8);
        let columns = winterledger::weather::OutdoorColumns::of_dry_bulb(hours);
        let other = |flag: &Flag| matches!(flag, Flag::OtherUnit { looks_like: Degree::Celsius, .. });
        assert!(flags(&OutdoorYear { columns, ..wrong }).iter().any(other), "{place}");
    }
    let text = file("datetime,temp_C", 2023, |_, time, c| {
        Some(format!("{},{:.1}", time.format("%Y-%m-%d %H:%M"), celsius_to_fahrenheit(c)))
    });
    let problem = refused(&text, &ReadOptions::default());
    assert!(problem.what.contains("out of range") && problem.help.unwrap().contains("is this degF?"));
}

#[test]
fn files_of_two_places_are_refused_or_told() {
    let at = |place: &str, latitude: f64, year| {
        plain(&format!("# place: {place}\n# latitude: {latitude}\n# longitude: -88\ndatetime,temp_C"), year)
    };
    let pair = |second: String| joined(&[("2021.csv", at("Old Mill", 41.9, 2021)), ("2022.csv", second)]);
    let problem = pair(at("Far Off", 30.1, 2022)).unwrap_err().remove(0);
    assert_eq!(problem.file.as_deref(), Some("2022.csv"));
    assert!(problem.what.contains("30.10° north") && problem.what.contains("another place"), "{problem}");
    let told = pair(at("New Mill", 41.95, 2022)).unwrap().reading.remarks;
    let other = Remark::OtherStation {
        file: "2022.csv".into(),
        of: "New Mill".into(),
        first_file: "2021.csv".into(),
        first_of: "Old Mill".into(),
    };
    assert!(told.contains(&other), "{told:?}");
    let same = pair(at("Old Mill", 41.9, 2022)).unwrap().reading.remarks;
    assert!(!same.iter().any(|r| matches!(r, Remark::OtherStation { .. })), "{same:?}");
    let clock = |offset: i32, year| plain(&format!("# utc_offset_h: {offset}\ndatetime,temp_C"), year);
    let problem = joined(&[("a.csv", clock(-6, 2021)), ("b.csv", clock(-5, 2022))]).unwrap_err().remove(0);
    assert!(problem.what.contains("standard time is -5 h from UTC, that of a.csv -6 h"), "{problem}");
    let mixed = file("station,valid,tmpf", 2023, |h, time, c| {
        let station = if h == 5000 { "ORD" } else { "MDW" };
        Some(format!("{station},{},{c:.1}", time.format("%Y-%m-%d %H:%M")))
    });
    let problem = refused(&mixed, &ReadOptions::default());
    assert_eq!(problem.what, "the row is of station 'ORD', those above of 'MDW'");
}

#[test]
fn a_gap_is_told_with_its_own_file_or_the_two_it_lies_between() {
    let without = |year: i32, gap: std::ops::Range<usize>| {
        file("datetime,temp_C", year, |h, time, c| {
            (!gap.contains(&h)).then(|| format!("{},{c:.1}", time.format("%Y-%m-%d %H:%M")))
        })
    };
    let three = |second: String, third: String| {
        joined(&[("2021.csv", plain("datetime,temp_C", 2021)), ("2022.csv", second), ("2023.csv", third)])
            .unwrap_err()
            .remove(0)
    };
    let inside = three(without(2022, 3000..3100), plain("datetime,temp_C", 2023));
    assert_eq!(inside.file.as_deref(), Some("2022.csv"), "{inside}");
    assert!(inside.what.contains("for 100 hours") && !inside.what.contains("between"), "{inside}");
    let between = three(plain("datetime,temp_C", 2022), without(2023, 0..200));
    assert_eq!(between.file.as_deref(), Some("2022.csv"), "{between}");
    assert!(between.what.ends_with("between the end of this file and 2023.csv"), "{between}");
}

#[test]
fn a_year_that_is_the_copy_of_another_is_told() {
    let files = |third: String| {
        [("2021.csv", plain("datetime,temp_C", 2021)), ("2022.csv", warmer(2022)), ("2023.csv", third)]
    };
    let of_record = |third: String| Winters::of(&joined(&files(third)).unwrap(), 0.0, SEED).of_record;
    let first = |year| NaiveDate::from_ymd_opt(year, 1, 1).unwrap();
    let copied = Flag::RepeatedMonths { first: first(2021), again: first(2023), months: 12 };
    assert_eq!(of_record(plain("datetime,temp_C", 2023)), [copied]);
    let own = file("datetime,temp_C", 2023, |h, time, c| {
        Some(format!("{},{:.1}", time.format("%Y-%m-%d %H:%M"), c + (h % 7) as f64 * 0.1))
    });
    assert_eq!(of_record(own), []);
}

/// Chicago's year with every hour 0.3 K warmer.
fn warmer(year: i32) -> String {
    file("datetime,temp_C", year, |_, time, c| {
        Some(format!("{},{:.1}", time.format("%Y-%m-%d %H:%M"), c + 0.3))
    })
}

#[test]
fn days_that_the_program_filled_are_no_repeated_days() {
    // Three days missing within one that lacks nothing: each is filled with the mean of the same two days.
    let text = file("datetime,temp_C", 2023, |h, time, c| {
        (!(2400..2472).contains(&h)).then(|| format!("{},{c:.1}", time.format("%Y-%m-%d %H:%M")))
    });
    let options = ReadOptions { gaps: GapRule::NeighbouringDays, ..ReadOptions::default() };
    let filled = year(&text, &options);
    assert_eq!(filled.filled_hours, 72);
    assert_eq!(filled.columns.dry_bulb_c[2400..2424], filled.columns.dry_bulb_c[2424..2448]);
    assert_eq!(flags(&filled), []);
    // The same hours as if measured are told.
    let measured = OutdoorYear { filled: Vec::new(), filled_hours: 0, ..filled };
    assert!(flags(&measured).iter().any(|flag| matches!(flag, Flag::RepeatedDays { days: 2, .. })));
}

#[test]
fn rows_of_separators_alone_are_passed_over_and_told() {
    let plain = plain("date,temp_C", 2019);
    let read = year(&format!("{plain},\n ,\n\n"), &ReadOptions::default());
    let remarks = read.reading.unwrap().remarks;
    assert!(remarks.contains(&Remark::EmptyRows { rows: 2 }), "{remarks:?}");
    assert_eq!(read.columns.dry_bulb_c, year(&plain, &ReadOptions::default()).columns.dry_bulb_c);
}
