//! `weather` as a person runs it, its figures held against others, its chart held to print.

use crate::charts::fit_to_print;
use crate::commands_start::winterledger;
use chrono::{Datelike, Duration, NaiveDate, Timelike};
use serde_json::Value;
use std::fmt::Write;
use winterledger::report::charts::{ChartError, DayRange, Mark, Moment, Stretch, WeatherYearChart};
use winterledger::report::figures::Measure;
use winterledger::report::weather_figures::{Figures, figures};
use winterledger::report::weather_picture::chart;
use winterledger::units::UnitSystem;
use winterledger::weather::Weather;
use winterledger::weather::places::{open, places};
use winterledger::weather::statistics::longest_spell_below;

fn text(bytes: &[u8]) -> String {
    String::from_utf8(bytes.to_vec()).unwrap()
}

fn of(key: &str) -> Figures {
    figures(&open(key).unwrap()).unwrap()
}

#[test]
fn without_a_place_the_built_in_ones_are_listed() {
    let shown = text(&winterledger().arg("weather").output().unwrap().stdout);
    for place in places() {
        assert!(shown.contains(place.key) && shown.contains(place.name), "{}", place.key);
    }
}

#[test]
fn places_and_files_stand_side_by_side_and_are_written() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("bins.csv"), "outdoor_degF,hours\n42,100\n37,60.5\n").unwrap();
    let run = |units: &str| {
        let arguments = ["weather", "il-chicago", "bins.csv", "--out", "out", "--units", units];
        winterledger().current_dir(&folder).args(arguments).output().unwrap()
    };
    let output = run("us");
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    let shown = text(&output.stdout);
    assert!(shown.contains("hours by temperature only") && shown.contains("6,325"), "{shown}");
    let file = |name: &str| std::fs::read_to_string(folder.path().join("out").join(name)).unwrap();
    // Hand-counted: the two rows of the file, and Chicago's own beside them.
    assert!(file("bins.csv").contains("\n42,567,100\n37,773,60.5\n"), "{}", file("bins.csv"));
    assert_eq!(file("months.csv").lines().count(), 13);
    assert!(file("il-chicago.svg").contains("A year of weather at Chicago"));
    assert!(folder.path().join("out/il-chicago.png").exists());
    assert!(text(&run("si").stdout).contains("\u{b0}C"));
}

#[test]
fn a_file_in_utc_is_shifted_to_the_time_zone_that_is_named() {
    let folder = tempfile::tempdir().unwrap();
    let first = NaiveDate::from_ymd_opt(2015, 1, 1).unwrap().and_hms_opt(0, 0, 0).unwrap();
    // As cold as can be at one hour: 20 January 12:00 UTC.
    let row = |hour: i64| {
        let time = first + Duration::hours(hour);
        let tenths = if hour == 19 * 24 + 12 { -300 } else { hour % 24 * 10 };
        format!("{} {tenths:>5}  -250 10132   270    26     2     0 -9999\n", time.format("%Y %m %d %H"))
    };
    std::fs::write(folder.path().join("isd"), (0..8760).map(row).collect::<String>()).unwrap();
    let run = |more: &[&str]| {
        let output =
            winterledger().current_dir(&folder).args(["weather", "./isd"]).args(more).output().unwrap();
        (output.status.code(), text(&output.stdout) + &text(&output.stderr))
    };
    let (code, words) = run(&["--time-zone", "America/Chicago"]);
    let words = words.split_whitespace().collect::<Vec<_>>().join(" ");
    assert_eq!(code, Some(0), "{words}");
    for part in [
        "on 20 Jan 06:00",
        "isd: read as ISD-Lite: 8,760 rows; columns taken: air temperature",
        "passed over: sea level pressure",
        "isd: Weather: the clock was moved by \u{2212}6 h",
    ] {
        assert!(words.contains(part), "{part}: {words}");
    }
    let (code, words) = run(&[]);
    assert!(code == Some(2) && words.contains("--time-zone America/Chicago"), "{words}");
    let (code, words) = run(&["--time-zone", "Chicgo"]);
    assert!(code == Some(2) && words.contains("did you mean \"America/Chicago\"?"), "{words}");
}

#[test]
fn what_cannot_be_read_is_told_for_all_sources_at_once() {
    let output =
        winterledger().args(["weather", "il-chicgo", "no-such.epw", "nj-mcguire", "nj-mcguire"]).output();
    let output = output.unwrap();
    assert_eq!((output.status.code(), output.stdout.is_empty()), (Some(2), true));
    let shown = text(&output.stderr);
    for words in ["did you mean 'il-chicago'?", "no-such.epw", "'nj-mcguire' comes twice", "3 problems"] {
        assert!(shown.contains(words), "{words} is not in:\n{shown}");
    }
}

/// Hours of whole years from 1 July 2001, in °C: each day of the winter half has its month's number below
/// zero, so that dates show; the winter that begins in year `y` has one hour of −20 − (y mod 7).
fn record_of(winters: i64) -> String {
    let first = NaiveDate::from_ymd_opt(2001, 7, 1).unwrap();
    let last = NaiveDate::from_ymd_opt(2001 + winters as i32, 7, 1).unwrap();
    let mut text = "# utc_offset_h: 0\n# latitude: 60\ndatetime,dry_bulb_degC\n".to_owned();
    for hour in 0..(last - first).num_hours() {
        let time = first.and_hms_opt(0, 0, 0).unwrap() + Duration::hours(hour);
        let cold = (time.month(), time.day(), time.hour()) == (1, 9, 6);
        let value = if cold { -20 - (time.year() - 1) % 7 } else { -(time.month() as i32) };
        writeln!(text, "{},{value}", time.format("%Y-%m-%d %H:%M")).unwrap();
    }
    text
}

#[test]
fn a_record_shows_its_lows_and_dates_its_latest_winter() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("r.csv"), record_of(16)).unwrap();
    let arguments = ["weather", "r.csv", "il-chicago", "--units", "si", "--out", "out"];
    let output = winterledger().current_dir(&folder).args(arguments).output().unwrap();
    let words = text(&output.stdout).split_whitespace().collect::<Vec<_>>().join(" ");
    // The last winter began in 2016, and 2016 mod 7 is 0.
    for part in [
        "r.csv: down to \u{2212}20 \u{b0}C on 9 Jan 06:00",
        "July 2016 to June 2017",
        "a record of 16 winters",
        "intervals of the lows drawn with seed 1",
        "il-chicago: extremes are not covered: a typical year leaves out the coldest winters",
    ] {
        assert!(words.contains(part), "{part}: {words}");
    }
    let file = |name: &str| std::fs::read_to_string(folder.path().join("out").join(name)).unwrap();
    let months = file("months.csv");
    assert!(months.contains("r.csv,Jan,") && months.contains("r.csv,Nov,-11,-11,-11"), "{months}");
    // Independent: minima −20 − (2001…2016 mod 7) are 26, 20…26, 20…26, 20; by hand their mean is
    // (26 + 2·161 + 20)/16 = 23, their squares from it 2·28 + 9 + 9 = 74, s = √(74/15) = 2.2211;
    // −23 − 1.8658·2.2211 = −27.1.
    let lows: Vec<String> = file("n_year_lows.csv").lines().map(str::to_owned).collect();
    assert_eq!(lows.len(), 5, "{lows:?}");
    assert!(lows[3].starts_with("r.csv,16,20,-27.1"), "{lows:?}");
    assert!(file("r_csv.svg").contains("20-year low") && !file("il-chicago.svg").contains("year low"));
    fit_to_print("weather-record", &file("r_csv.svg"));
}

#[test]
fn an_hour_too_cold_for_the_place_is_told_in_whatever_winter_it_is() {
    let folder = tempfile::tempdir().unwrap();
    // −80 °C at 60° north, the coldest there being −72: 30 December 2005, a winter long before the last.
    let cold = record_of(8).replacen("2005-12-30 06:00,-12", "2005-12-30 06:00,-80", 1);
    std::fs::write(folder.path().join("r.csv"), cold).unwrap();
    let output = winterledger().current_dir(&folder).args(["weather", "r.csv"]).output().unwrap();
    let words = text(&output.stdout).split_whitespace().collect::<Vec<_>>().join(" ");
    let wanted = "r.csv: Check the weather file: 30 December 2005 06:00 is \u{2212}112 \u{b0}F, colder than";
    assert!(words.contains(wanted), "{words}");
    // The year that is summed up tells of its own cold hour once, not again as one of the winters.
    assert_eq!(words.matches("9 January 2009 06:00 is").count(), 1, "{words}");
}

#[test]
fn a_cold_spell_in_the_summer_of_another_winter_is_told() {
    let folder = tempfile::tempdir().unwrap();
    // Seven hours of −30 °C in July 2004, where July has −7.
    let spell = (8..15).fold(record_of(8), |text, hour| {
        text.replacen(&format!("2004-07-11 {hour:02}:00,-7"), &format!("2004-07-11 {hour:02}:00,-30"), 1)
    });
    std::fs::write(folder.path().join("r.csv"), spell).unwrap();
    let output = winterledger().current_dir(&folder).args(["weather", "r.csv"]).output().unwrap();
    let words = text(&output.stdout).split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(words.contains("11 July 2004"), "{words}");
}

#[test]
fn a_winter_whose_cold_days_are_missing_is_left_out_of_the_lows() {
    let folder = tempfile::tempdir().unwrap();
    // 8 to 10 January 2006 hold the coldest hour of the winter that begins in 2005; filled from the
    // neighbouring days it would be a mild one.
    let hole =
        |line: &&str| !["2006-01-08", "2006-01-09", "2006-01-10"].iter().any(|day| line.starts_with(day));
    let record = record_of(8);
    let kept: Vec<&str> = record.lines().filter(hole).collect();
    std::fs::write(folder.path().join("r.csv"), kept.join("\n")).unwrap();
    let site = "weather_file = \"r.csv\"\nweather_gaps = \"neighbouring_days\"";
    let job = include_str!("../../data/demo.toml")
        .replace("weather = \"il-chicago\"", site)
        .replace("extreme_low = \"-22 degF\"", "");
    std::fs::write(folder.path().join("job.toml"), job).unwrap();
    let output = winterledger().current_dir(&folder).args(["compare", "job.toml"]).output().unwrap();
    let words = text(&output.stdout).split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(words.contains("The winter 2005/06 is left out of the record's lows"), "{words}");
    assert!(words.contains("The 20-year low of the record\u{2019}s 7 winters is"), "{words}");
}

#[test]
fn a_comparison_on_a_record_plans_for_its_20_year_low_unless_the_job_says_another() {
    let folder = tempfile::tempdir().unwrap();
    let run = |winters: i64, low: &str, site: &str| {
        std::fs::write(folder.path().join("r.csv"), record_of(winters)).unwrap();
        let job = include_str!("../../data/demo.toml")
            .replace("weather = \"il-chicago\"", &format!("weather_file = \"r.csv\"\n{site}"))
            .replace("extreme_low = \"-22 degF\"", low);
        std::fs::write(folder.path().join("job.toml"), job).unwrap();
        let run = |json: &[&str]| {
            let output =
                winterledger().current_dir(&folder).args(["compare", "job.toml"]).args(json).output();
            text(&output.unwrap().stdout)
        };
        let json: serde_json::Value = serde_json::from_str(&run(&["--json"])).unwrap();
        (run(&[]).split_whitespace().collect::<Vec<_>>().join(" "), json)
    };
    let (words, json) = run(16, "", "");
    for part in [
        "The 20-year low of the record\u{2019}s 16 winters is",
        "nine in ten such records",
        "It is the coldest night to plan for",
        // Hand-worked from the −27.14 °C below: −27.14 × 1.8 + 32 = −16.85.
        "extreme_low = \"-16.9 degF\" in site (derived: 20-year low of the weather's 16 winters)",
        "intervals of the lows drawn with seed 1",
    ] {
        assert!(words.contains(part), "{part}: {words}");
    }
    let low = json["extreme_low_degC"].as_f64().unwrap();
    assert!((low + 27.14).abs() < 0.01, "{low}");
    assert_eq!(json["n_year_lows"]["lows"].as_array().unwrap().len(), 4);
    // The house is 5 K colder than the station: so is its low.
    let (_, colder) = run(16, "", "site_offset = \"-9 degF\"");
    assert!((colder["extreme_low_degC"].as_f64().unwrap() - low + 5.0).abs() < 1e-9);
    let (words, json) = run(14, "extreme_low = \"-40 degC\"", "");
    assert_eq!(json["extreme_low_degC"], -40.0);
    assert_eq!(json["n_year_lows"]["lows"].as_array().unwrap().len(), 3);
    assert!(words.contains("plan for is the job\u{2019}s own extreme_low"), "{words}");
    let (words, json) = run(4, "", "");
    assert_eq!((&json["extreme_low_degC"], &json["n_year_lows"]), (&Value::Null, &Value::Null));
    assert!(words.contains("Extremes are not covered: the weather has 4 whole winters"), "{words}");
}

#[test]
fn months_days_and_the_year_agree() {
    for place in places() {
        let f = of(place.key);
        let months: f64 = f.months.iter().map(|m| m.heating_days).sum();
        assert!((months - f.heating_days).abs() < 1e-6, "{}", place.key);
        assert_eq!((f.months.len(), f.days.len()), (12, 365));
        let low = f.months.iter().map(|m| m.lowest_c).fold(f64::INFINITY, f64::min);
        assert_eq!((low, f.coldest.temperature_c), (f.coldest.temperature_c, low));
        let mean = f.days.iter().map(|d| d.mean_c).sum::<f64>() / 365.0;
        assert!((mean - f.mean_c).abs() < 1e-9);
        assert!(f.hours_below.windows(2).all(|pair| pair[0] >= pair[1]));
    }
}

#[test]
fn the_coldest_days_and_the_longest_spell_are_what_a_plain_search_finds() {
    for place in places() {
        let (year, f) = (open(place.key).unwrap(), of(place.key));
        let hours = year.run(None).dry_bulb_c;
        let means =
            (0..hours.len() / 24 - 4).map(|d| hours[d * 24..(d + 5) * 24].iter().sum::<f64>() / 120.0);
        let least = means.fold(f64::INFINITY, f64::min);
        assert!((f.cold_days.mean_c - least).abs() < 1e-9, "{}", place.key);
        let spell = f.spell.as_ref().unwrap();
        assert_eq!(spell.hours, longest_spell_below(&hours, f.heating_design_c[1]));
        let own = &hours[spell.hour..spell.hour + spell.hours];
        assert!(own.iter().all(|t| *t < f.heating_design_c[1]));
        assert_eq!(hours[f.coldest.hour], f.coldest.temperature_c);
    }
}

#[test]
fn the_coldest_hour_of_chicago_is_dated_as_the_file_dates_it() {
    // The file's own row: 7 January, the hour that begins at 06:00 standard time, is the coldest of the year.
    let year = open("il-chicago").unwrap();
    let f = of("il-chicago");
    assert_eq!(f.coldest.time.to_string(), "2023-01-07 06:00:00");
    assert_eq!(year.columns.dry_bulb_c[6 * 24 + 6], f.coldest.temperature_c);
}

#[test]
fn the_chart_of_every_place_is_fit_to_print_in_both_units() {
    for place in places() {
        let weather = Weather::Year(Box::new(open(place.key).unwrap()));
        for (units, name) in [(UnitSystem::Us, "us"), (UnitSystem::Si, "si")] {
            let svg = chart(&weather, None, Measure(units)).unwrap().unwrap();
            fit_to_print(&format!("weather-{}-{name}", place.key), &svg);
            for words in ["coldest 5 days", "warmest", "heating design 99 %", "freezing", "Jul", "Jun"] {
                assert!(svg.contains(words), "{}: {words}", place.key);
            }
            assert_eq!(svg, chart(&weather, None, Measure(units)).unwrap().unwrap());
        }
    }
}

fn sample() -> WeatherYearChart {
    let day = |i: usize| {
        let mean = 40.0 - 30.0 * (i as f64 / 30.0).sin();
        DayRange { low: mean - 8.0, mean, high: mean + 8.0 }
    };
    WeatherYearChart {
        title: "A year of weather at a place with a long name ".repeat(4),
        subtitle: "Invented".into(),
        temperature_unit: "°F".into(),
        days: (0..365).map(day).collect(),
        months: (0..12).map(|m| (m * 30, format!("month {m}"))).collect(),
        levels: (0..6)
            .map(|i| Mark { label: format!("level {i}"), temperature: 10.0 + f64::from(i) })
            .collect(),
        spell: Some(Stretch { from: 0.0, to: 0.2, words: "coldest days ".repeat(20) }),
        moments: vec![Moment { day: 364.9, temperature: 2.0, words: "W".repeat(200) }],
        hours: (-30..60).map(|t| (f64::from(t), f64::from(1000 + t))).collect(),
        freezing: 32.0,
        foot: "Invented. ".repeat(30),
    }
}

#[test]
fn crowded_bare_and_tiny_weather_charts_fit() {
    fit_to_print("weather-crowded", &sample().draw().unwrap());
    let bare =
        WeatherYearChart { levels: vec![], spell: None, moments: vec![], foot: String::new(), ..sample() };
    fit_to_print("weather-bare", &bare.draw().unwrap());
    let flat = DayRange { low: 50.0, mean: 50.0, high: 50.0 };
    let tiny = WeatherYearChart {
        days: vec![flat; 2],
        months: vec![(0, "Jan".into())],
        spell: None,
        moments: vec![],
        hours: vec![(1.0, 0.0), (2.0, 0.0)],
        ..sample()
    };
    fit_to_print("weather-tiny", &tiny.draw().unwrap());
}

#[test]
fn a_weather_chart_that_would_mislead_is_refused() {
    let with = |change: fn(&mut WeatherYearChart)| {
        let mut chart = sample();
        change(&mut chart);
        chart.draw()
    };
    assert_eq!(with(|c| c.days.truncate(1)), Err(ChartError::Empty));
    assert_eq!(with(|c| c.hours.clear()), Err(ChartError::Empty));
    let bad: [fn(&mut WeatherYearChart); 9] = [
        |c| c.days[3].low = f64::NAN,
        |c| c.days[3].mean = 900.0,
        |c| c.hours[3].1 = -1.0,
        |c| c.hours.reverse(),
        |c| c.levels[0].temperature = f64::INFINITY,
        |c| c.moments[0].day = 400.0,
        |c| c.spell.as_mut().unwrap().to = -1.0,
        |c| c.months[3].0 = 0,
        |c| c.freezing = f64::NAN,
    ];
    for (i, change) in bad.into_iter().enumerate() {
        assert!(matches!(with(change), Err(ChartError::BadValue(_))), "{i}");
    }
}

/// Files of a year each, of invented hours that end in a gap of ten hours in the second.
#[test]
fn files_of_a_year_each_are_taken_as_one_record_with_the_gap_rule_that_is_named() {
    let folder = tempfile::tempdir().unwrap();
    for year in [2021, 2022] {
        let first = NaiveDate::from_ymd_opt(year, 1, 1).unwrap().and_hms_opt(0, 0, 0).unwrap();
        let mut rows = String::from("datetime,temp_C\n");
        for hour in (0..8760).filter(|hour| year == 2021 || !(3000..3010).contains(hour)) {
            let degrees = (hour % 377) as f64 / 10.0 - 20.0 + f64::from(year - 2021) / 10.0;
            writeln!(rows, "{},{degrees:.1}", first + Duration::hours(hour)).unwrap();
        }
        std::fs::write(folder.path().join(format!("{year}.csv")), rows).unwrap();
    }
    let run = |more: &[&str]| {
        let arguments = ["weather", "--as-one", "2022.csv", "2021.csv"].iter().chain(more);
        winterledger().current_dir(&folder).args(arguments).output().unwrap()
    };
    let refused = run(&[]);
    assert_eq!(refused.status.code(), Some(2));
    let shown = text(&refused.stderr);
    assert!(shown.contains("2022.csv") && shown.contains("--gaps neighbouring_days"), "{shown}");
    let taken = run(&["--gaps", "neighbouring_days"]);
    assert_eq!(taken.status.code(), Some(0), "{}", text(&taken.stderr));
    let shown = text(&taken.stdout).split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(shown.contains("July 2021 to June 2022") && shown.contains("10 hours in gaps longer"), "{shown}");
    // With the gap allowed nothing but the layout is left to refuse.
    let forced = run(&["--gaps", "neighbouring_days", "--format", "tmy3"]);
    assert_eq!(forced.status.code(), Some(2));
    assert!(!text(&forced.stderr).contains("--gaps"), "{}", text(&forced.stderr));
}
