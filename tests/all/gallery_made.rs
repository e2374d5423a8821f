//! The rest of the gallery: messages and notes on weather files that are too long to keep, made here row
//! by row out of the built-in Chicago year; the words that the program finds for each are kept as
//! `tests/errors/made/NAME.txt`.
//!
//! The texts are snapshots of the program's own wording, each read as prose by a person;
//! `WINTERLEDGER_REWRITE=1` writes them anew. Start at [`cases`].

use crate::commands_start::winterledger;
use crate::gallery_made_dates::what_dates_say;
use crate::weather_other_peoples::{chicago, file, plain};
use std::collections::BTreeSet;
use std::fmt::Write;
use std::path::{Path, PathBuf};
use winterledger::units::{celsius_to_fahrenheit, fahrenheit_to_celsius};

/// Files by name, and what is asked of `weather`.
pub(crate) struct Case {
    name: &'static str,
    files: Vec<(&'static str, Vec<u8>)>,
    arguments: &'static [&'static str],
}

pub(crate) fn case(name: &'static str, text: String, arguments: &'static [&'static str]) -> Case {
    Case { name, files: vec![("my.csv", text.into_bytes())], arguments }
}

fn list(name: &'static str, files: [(&'static str, String); 2], arguments: &'static [&'static str]) -> Case {
    Case { name, files: files.into_iter().map(|(name, text)| (name, text.into_bytes())).collect(), arguments }
}

pub(crate) const HEAD: &str = "datetime,temp_degC";

/// A year of dated rows, each degree changed; `None` leaves the row out.
fn dated(year: i32, change: impl Fn(usize, f64) -> Option<f64>) -> String {
    file(HEAD, year, |hour, time, c| {
        Some(format!("{},{:.1}", time.format("%Y-%m-%d %H:%M"), change(hour, c)?))
    })
}

/// A year of hours without dates under lines that say its place.
fn undated(head: &str, change: impl Fn(usize, f64) -> f64) -> String {
    let mut text = format!("{head}dry_bulb_degC\n");
    for (hour, c) in chicago().into_iter().enumerate() {
        writeln!(text, "{:.1}", change(hour, c)).unwrap();
    }
    text
}

/// The rows of a text, put together anew.
fn rows(text: &str, change: impl Fn(&mut Vec<String>)) -> String {
    let mut rows = text.lines().map(str::to_owned).collect();
    change(&mut rows);
    rows.join("\n") + "\n"
}

fn warmer(by: f64) -> impl Fn(usize, f64) -> Option<f64> {
    move |_, c| Some(c + by)
}

/// As a clock with daylight saving labels the hours of 2023 in Chicago: from 12 March 02:00 to 5 November.
fn by_the_wall_clock() -> String {
    file(HEAD, 2023, |hour, time, c| {
        let summer = (70 * 24 + 2..308 * 24 + 1).contains(&hour);
        let shown = time + chrono::Duration::hours(i64::from(summer));
        Some(format!("{},{c:.1}", shown.format("%Y-%m-%d %H:%M")))
    })
}

/// Days that differ by the season alone, of two waves.
fn normals() -> String {
    let turn = std::f64::consts::TAU;
    dated(2023, |hour, _| {
        let (day, hour) = (hour as f64 / 24.0, hour as f64 % 24.0);
        Some(10.0 - 14.0 * (turn * (day - 20.0) / 365.0).cos() + 4.0 * (turn * (hour - 9.0) / 24.0).sin())
    })
}

/// Each hour the mean of the day about it.
fn means_over_a_day() -> String {
    let real = chicago();
    dated(2023, |hour, _| Some((0..24).map(|i| real[(hour + 8760 - 12 + i) % 8760]).sum::<f64>() / 24.0))
}

fn what_sensors_do() -> Vec<Case> {
    let hours = chicago();
    vec![
        case("running_means_for_weather", means_over_a_day(), &[]),
        case("sensor_dropped_out", dated(2023, |h, c| Some(if h / 2 == 2000 { -18.0 } else { c })), &[]),
        case("zero_for_missing", dated(2023, |h, c| Some(if h % 60 == 0 { 0.0 } else { c + 5.0 })), &[]),
        case("sensor_stuck", dated(2023, |h, c| Some(if h / 100 == 10 { 3.0 } else { c })), &[]),
        case("year_filled_from_june", dated(2023, |h, c| Some(if h < 4344 { c } else { 20.0 })), &[]),
        case("year_stops_in_june", dated(2023, |h, c| (h < 4344).then_some(c)), &[]),
        case("hours_over_five_percent_missing", dated(2023, |h, c| (h % 19 != 3).then_some(c)), &[]),
        case("rows_every_third_hour", dated(2023, |h, c| (h % 3 == 0).then_some(c)), &[]),
        case("gap_of_ten_hours", dated(2023, |h, c| (h / 10 != 50).then_some(c)), &[]),
        case(
            "gap_filled_by_days",
            dated(2023, |h, c| (h / 10 != 50).then_some(c)),
            &["--gaps", "neighbouring_days"],
        ),
        case("normals_for_weather", normals(), &[]),
        case(
            "month_copied",
            dated(2023, |h, c| Some(if h / 24 / 31 == 1 { hours[h - 744] } else { c })),
            &[],
        ),
        case(
            "zero_in_a_warm_city",
            undated(
                "# place: Warm City\n# latitude: 25.8\n# longitude: -80.2\n# elevation_m: 3\n",
                |h, c| {
                    if h == 300 { -17.8 } else { 20.0 + 0.3 * c }
                },
            ),
            &[],
        ),
        case(
            "winter_too_cold_for_the_latitude",
            undated("# place: Warm City\n# latitude: 25.8\n# longitude: -80.2\n# elevation_m: 3\n", |_, c| c),
            &[],
        ),
    ]
}

/// What a sensor, a logger or whoever copied its hours makes of them.
fn what_is_lost_on_the_way() -> Vec<Case> {
    let hours = chicago();
    let row = |hour: usize, every: usize| hours[hour / every * every];
    let line = |hour: usize, every: usize| {
        let next = hours[(hour / every + 1) * every % 8760];
        row(hour, every) + (next - row(hour, every)) * (hour % every) as f64 / every as f64
    };
    let fahrenheit = |change: &dyn Fn(usize, f64) -> f64| {
        file("datetime,temp_degF", 2023, |hour, time, c| {
            let f = change(hour, celsius_to_fahrenheit(c));
            Some(format!("{},{f:.1}", time.format("%Y-%m-%d %H:%M")))
        })
    };
    let stuck = |h: usize, c: f64| if h % 400 < 14 { hours[h / 400 * 400] } else { c };
    // A week from 1 February and one from 1 July, 744 and 4,344 hours into the year.
    let week = |h: usize, from: usize| (from..from + 168).contains(&h);
    let celsius = fahrenheit(&|h, f| if week(h, 4344) { fahrenheit_to_celsius(f) } else { f });
    vec![
        case(
            "sensor_stuck_for_thirty_hours",
            dated(2023, |h, c| Some(if h / 30 == 150 { 21.3 } else { c })),
            &[],
        ),
        case("sensor_sticks_again_and_again", dated(2023, |h, c| Some(stuck(h, c))), &[]),
        case("signs_lost", dated(2023, |_, c| Some(c.abs())), &[]),
        case("signs_lost_in_january", dated(2023, |h, c| Some(if h < 744 { c.abs() } else { c })), &[]),
        case("signs_lost_in_fahrenheit", fahrenheit(&|_, f| f.abs()), &[]),
        // From 9 January on, where Chicago has frost by day and night.
        case(
            "signs_lost_for_two_weeks",
            dated(2023, |h, c| Some(if week(h, 192) || week(h, 360) { c.abs() } else { c })),
            &[],
        ),
        case(
            "sensor_stuck_every_night",
            dated(2023, |h, c| Some(if h % 24 < 8 { hours[h / 24 * 24] } else { c })),
            &[],
        ),
        case("week_in_celsius", celsius, &[]),
        case(
            "week_in_fahrenheit",
            dated(2023, |h, c| Some(if week(h, 744) { celsius_to_fahrenheit(c) } else { c })),
            &[],
        ),
        case("rows_repeated_threefold", dated(2023, |h, _| Some(row(h, 3))), &[]),
        case("lines_between_every_third_hour", dated(2023, |h, _| Some(line(h, 3))), &[]),
        case("warmest_at_night", dated(2023, |h, _| Some(hours[(h + 8754) % 8760])), &[]),
        case(
            "clock_two_hours_late",
            undated("# latitude: 41.98\n# longitude: -87.92\n# utc_offset_h: -6\n", |h, _| {
                hours[(h + 8758) % 8760]
            }),
            &[],
        ),
        case("utc_taken_twice", plain(HEAD, 2023), &["--clock", "utc", "--time-zone", "America/Los_Angeles"]),
    ]
}

/// A week of another unit at either edge of the year, one in kelvin, nights without signs, an early clock.
fn what_is_a_week_long() -> Vec<Case> {
    let hours = chicago();
    let golden = winterledger::weather::places::open("co-golden").unwrap().columns.dry_bulb_c.to_vec();
    let week = |h: usize, from: usize| (from..from + 168).contains(&h);
    vec![
        case("clock_three_hours_early", dated(2023, |h, _| Some(hours[(h + 3) % 8760])), &[]),
        // Golden's nights from 4 January on, between days above 0 °C.
        case(
            "signs_lost_in_nights",
            dated(2023, |h, _| Some(if week(h, 72) || week(h, 240) { golden[h].abs() } else { golden[h] })),
            &[],
        ),
        case(
            "first_week_in_fahrenheit",
            dated(2023, |h, c| Some(if week(h, 0) { celsius_to_fahrenheit(c) } else { c })),
            &[],
        ),
        case(
            "last_week_in_fahrenheit",
            dated(2023, |h, c| Some(if week(h, 8592) { celsius_to_fahrenheit(c) } else { c })),
            &[],
        ),
        case("week_in_kelvin", dated(2023, |h, c| Some(if week(h, 744) { c + 273.15 } else { c })), &[]),
    ]
}

/// Months in the wrong place, in the wrong unit, and codes among temperatures. Hours of months by hand:
/// January to 744, July from 4344 to 5088, November from 7296.
fn what_is_mixed_up() -> Vec<Case> {
    let hours = chicago();
    let fahrenheit = |change: &dyn Fn(usize, f64) -> f64| {
        file("datetime,temp_degF", 2023, |hour, time, c| {
            Some(format!("{},{:.1}", time.format("%Y-%m-%d %H:%M"), change(hour, c)))
        })
    };
    let mixed = |from: usize, to: usize| {
        fahrenheit(&|hour, c| if (from..to).contains(&hour) { c } else { celsius_to_fahrenheit(c) })
    };
    let swapped = |hour: usize, c: f64| match hour {
        0..744 => hours[hour + 4344],
        4344..5088 => hours[hour - 4344],
        _ => c,
    };
    let shifted = dated(2023, |hour, _| Some(hours[(hour + 4380) % 8760]));
    let code = fahrenheit(&|hour, c| if hour % 45 == 0 { -99.0 } else { celsius_to_fahrenheit(c) });
    let south = &["--time-zone", "Pacific/Auckland"];
    vec![
        case("months_of_the_south", shifted.clone(), south),
        case("months_swapped", dated(2023, |h, c| Some(swapped(h, c))), &[]),
        case("months_shifted_by_half_a_year", shifted, &[]),
        case("half_a_year_in_celsius", mixed(4344, 8760), &[]),
        case("two_months_in_celsius", mixed(7296, 8760), &[]),
        case("january_in_celsius", mixed(0, 744), &[]),
        case("code_for_missing_among_degrees", code, &[]),
    ]
}

fn what_is_written_otherwise() -> Vec<Case> {
    let fahrenheit = dated(2023, |_, c| Some(celsius_to_fahrenheit(c)));
    let every = |h: usize, row: &str, word: &str| if h % 40 == 7 { word.to_owned() } else { row.to_owned() };
    let with_word = |word: &'static str| {
        file(HEAD, 2023, move |h, time, c| {
            Some(format!("{},{}", time.format("%Y-%m-%d %H:%M"), every(h, &format!("{c:.1}"), word)))
        })
    };
    let latin_1 = file("Datum;Uhrzeit;Lufttemperatur (\u{b0}C)", 2023, |_, time, c| {
        Some(format!("{};{}", time.format("%d.%m.%Y;%H:%M"), format!("{c:.1}").replace('.', ",")))
    });
    let latin_1: Vec<u8> = latin_1.chars().map(|c| u8::try_from(u32::from(c)).unwrap()).collect();
    let day = |_, time: chrono::NaiveDateTime, c: f64| {
        (time.time() == chrono::NaiveTime::MIN).then(|| format!("{},{c:.1}", time.format("%Y-%m-%d")))
    };
    vec![
        case("celsius_under_fahrenheit", plain("datetime,temp_degF", 2023), &[]),
        case("fahrenheit_under_celsius", fahrenheit, &[]),
        case("unit_not_said", plain("time,temperature", 2023), &[]),
        case(
            "kelvin_not_said",
            file("time,t2m", 2023, |_, t, c| Some(format!("{t},{:.2}", c + 273.15))),
            &[],
        ),
        case("words_for_missing", with_word("M"), &[]),
        case("nan_for_missing", with_word("NaN"), &[]),
        case("commas_in_numbers", plain(HEAD, 2023).replace('.', ","), &[]),
        case("days_without_hours", file("date,temp_degF", 2023, day), &[]),
        case("names_of_nothing_known", plain("when,warmth", 2023), &[]),
        case("json_for_csv", "{\"hourly\":{\"time\":[\"2023-01-01T00:00\"],\"t\":[1.0]}}\n".into(), &[]),
        case("web_page_for_csv", "<!DOCTYPE html>\n<html><body>No such station</body></html>\n".into(), &[]),
        Case { name: "latin_1_semicolons_commas", files: vec![("my.csv", latin_1)], arguments: &[] },
        case("layout_forced_wrongly", plain(HEAD, 2023), &["--format", "epw"]),
        case("hours_in_utc_of_no_zone", plain(HEAD, 2023), &["--clock", "utc"]),
        case("hours_in_utc", plain(HEAD, 2023), &["--clock", "utc", "--time-zone", "America/Chicago"]),
        case("times_with_offsets", plain(HEAD, 2023).replace(":00,", ":00-06:00,"), &[]),
        case(
            "times_with_other_offsets",
            plain(HEAD, 2023).replace(":00,", ":00-05:00,"),
            &["--time-zone", "America/Chicago"],
        ),
        case("clock_with_daylight_saving", by_the_wall_clock(), &[]),
        // Row 7393 is the first of the two labelled 5 November 01:00, the line of names counted.
        case(
            "clock_without_its_doubled_hour",
            rows(&by_the_wall_clock(), |rows| drop(rows.remove(7394))),
            &[],
        ),
        case("bins_of_half_a_year", "outdoor_degF,hours\n52,1500\n32,2000\n12,880\n".into(), &[]),
        case(
            "rows_once_a_day",
            file("datetime,temp_degC", 2023, |h, t, c| {
                (h % 24 == 0).then(|| format!("{},{c:.1}", t.format("%Y-%m-%d %H:%M")))
            }),
            &["--gaps", "neighbouring_days"],
        ),
        case("gap_of_500_hours", dated(2023, |h, c| (h / 500 != 3).then_some(c)), &[]),
    ]
}

fn what_stands_twice() -> Vec<Case> {
    let year = dated(2023, warmer(0.0));
    let again = |by: f64| {
        let other = dated(2023, warmer(by));
        rows(&year, move |rows| rows.extend(other.lines().skip(301).take(60).map(str::to_owned)))
    };
    let stations = |differ: bool| {
        let of = |sign: &str, by: f64| {
            let rows = dated(2023, warmer(by));
            rows.lines().skip(1).map(|row| format!("{sign},{row}\n")).collect::<String>()
        };
        match differ {
            true => format!("station,{HEAD}\n{}{}", of("A", 0.0), of("B", 2.0)),
            false => format!("{HEAD}\n{}{}", of("", 0.0), of("", 2.0)).replace("\n,", "\n"),
        }
    };
    let placed = |town: &str, latitude: &str, year: i32| {
        format!("# place: {town}\n# latitude: {latitude}\n# longitude: -87.9\n{}", dated(year, warmer(0.1)))
    };
    let named =
        |town: &str, year: i32| format!("# place: {town}\n{}", dated(year, warmer(f64::from(year % 7))));
    vec![
        case("rows_twice_alike", again(0.0), &[]),
        case("rows_twice_that_differ", again(2.0), &[]),
        case("rows_all_twice", stations(false), &[]),
        case("rows_newest_first", rows(&year, |rows| rows[1..].reverse()), &[]),
        case("two_stations_in_one_file", stations(true), &[]),
        list(
            "places_differ_in_a_list",
            [("2021.csv", placed("Oak Park", "41.9", 2021)), ("2022.csv", placed("Elm Park", "43.1", 2022))],
            &["--as-one"],
        ),
        list(
            "stations_differ_in_a_list",
            [("2021.csv", named("Oak Park", 2021)), ("2022.csv", named("Elm Park", 2022))],
            &["--as-one"],
        ),
        list(
            "year_copied",
            [("2021.csv", dated(2021, warmer(0.0))), ("2022.csv", dated(2022, warmer(0.0)))],
            &["--as-one"],
        ),
        list(
            "year_twice_in_a_list",
            [("2021.csv", dated(2021, warmer(0.0))), ("again.csv", dated(2021, warmer(1.0)))],
            &["--as-one"],
        ),
        list(
            "year_between_missing",
            [("2020.csv", dated(2020, warmer(0.0))), ("2022.csv", dated(2022, warmer(1.0)))],
            &["--as-one"],
        ),
        list(
            "year_without_dates_in_a_list",
            [("2021.csv", dated(2021, warmer(0.0))), ("typical.csv", undated("", |_, c| c))],
            &["--as-one"],
        ),
    ]
}

/// Dates and values that stand otherwise than they are read.
fn what_cells_hold() -> Vec<Case> {
    let of = |row: fn(chrono::NaiveDateTime, f64) -> String| {
        file("datetime,temp_degF", 2023, move |_, time, c| Some(row(time, celsius_to_fahrenheit(c))))
    };
    let both = of(|t, f| {
        let order = if chrono::Datelike::month(&t) > 6 { "%d/%m/%Y %H:%M" } else { "%m/%d/%Y %H:%M" };
        format!("{},{f:.1}", t.format(order))
    });
    let names = |lines: &str| plain(lines, 2023);
    let sums = rows(&names(HEAD), |rows| rows.push("mean,10.2".to_owned()));
    vec![
        case(
            "twelve_hours_without_am_and_pm",
            of(|t, f| format!("{},{f:.1}", t.format("%m/%d/%Y %I:%M"))),
            &[],
        ),
        case("tenths_of_degrees", file(HEAD, 2023, |_, t, c| Some(format!("{t},{:.0}", 10.0 * c))), &[]),
        case("names_and_no_rows", format!("{HEAD}\n"), &[]),
        case(
            "hours_cut_short",
            undated("", |_, c| c).lines().take(4000).map(|row| format!("{row}\n")).collect(),
            &[],
        ),
        case("line_of_units", names("local_time,temperature\nLST,deg C"), &[]),
        case("line_of_another_unit", names("datetime,temp_degF\n,\u{b0}C"), &[]),
        case("line_of_sums", sums, &[]),
        case("lines_above_the_names", names("Station data export\nPeriod: 2023\n\ndate,temp_degC"), &[]),
        case("dates_in_two_orders", both, &[]),
        case("dates_with_names_of_months", of(|t, f| format!("{},{f:.1}", t.format("%d-%b-%Y %H:%M"))), &[]),
        case("dates_without_a_year", of(|t, f| format!("{},{f:.1}", t.format("%b %d %H:%M"))), &[]),
        case("seconds_since_1970", of(|t, f| format!("{},{f:.1}", t.and_utc().timestamp())), &[]),
        case("units_in_cells", of(|t, f| format!("{},{f:.1} F", t.format("%Y-%m-%d %H:%M"))), &[]),
        case("words_in_cells", of(|t, _| format!("{},offline", t.format("%Y-%m-%d %H:%M"))), &[]),
    ]
}

/// From July 2022 to June 2023 one hour in nine is missing.
fn what_records_lack() -> Vec<Case> {
    vec![Case {
        name: "latest_winter_of_a_record_lacks_hours",
        files: vec![
            ("2021.csv", dated(2021, warmer(0.0)).into_bytes()),
            ("2022.csv", dated(2022, |h, c| (h < 4344 || h % 9 > 0).then_some(c + 1.0)).into_bytes()),
            ("2023.csv", dated(2023, |h, c| (h > 4344 || h % 9 > 0).then_some(c - 1.0)).into_bytes()),
        ],
        arguments: &["--as-one"],
    }]
}

fn cases() -> Vec<Case> {
    let mut all = what_sensors_do();
    all.extend(what_is_lost_on_the_way());
    all.extend(what_is_a_week_long());
    all.extend(what_is_mixed_up());
    all.extend(what_is_written_otherwise());
    all.extend(what_cells_hold());
    all.extend(what_dates_say());
    all.extend(what_stands_twice());
    all.extend(what_records_lack());
    all
}

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/errors/made")
}

/// What the program says of a case: the message, or the notes below its tables.
fn said(case: &Case) -> String {
    let folder = tempfile::tempdir().unwrap();
    for (name, bytes) in &case.files {
        std::fs::write(folder.path().join(name), bytes).unwrap();
    }
    let names = case.files.iter().map(|(name, _)| *name);
    let output =
        winterledger().current_dir(&folder).arg("weather").args(names).args(case.arguments).output().unwrap();
    match output.status.code() {
        Some(2) => String::from_utf8(output.stderr).unwrap(),
        Some(0) => {
            let shown = String::from_utf8(output.stdout).unwrap();
            let (_, notes) = shown.split_once("\nNotes\n").unwrap();
            let (notes, _) = notes.rsplit_once("\n\nwinterledger ").unwrap();
            notes.to_owned() + "\n"
        }
        _ => panic!("{}: {output:?}", case.name),
    }
}

#[test]
fn the_gallery_of_made_weather_files_reads_as_written() {
    let rewrite = std::env::var_os("WINTERLEDGER_REWRITE").is_some();
    let mut failures = String::new();
    for case in cases() {
        let found = said(&case);
        let beside = folder().join(format!("{}.txt", case.name));
        if rewrite {
            std::fs::create_dir_all(folder()).unwrap();
            std::fs::write(&beside, &found).unwrap();
        }
        if std::fs::read_to_string(&beside).unwrap_or_default() != found {
            writeln!(failures, "{}, now:\n{found}", beside.display()).unwrap();
        }
    }
    assert!(failures.is_empty(), "{failures}");
}

#[test]
fn every_text_of_made_weather_files_has_its_case() {
    let wanted: BTreeSet<String> = cases().iter().map(|case| format!("{}.txt", case.name)).collect();
    let entries = std::fs::read_dir(folder()).unwrap();
    let found = entries.map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
    assert_eq!(wanted, found);
}
