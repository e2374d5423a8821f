//! What the command shows of weather that is made up or looks wrong.

use crate::weather_other_peoples::file;
use assert_cmd::Command;
use std::fmt::Write;
use std::fs;
use winterledger::weather::places::open;

const HEAD: &str = "datetime,temp_degC";
const DEMO: &str = include_str!("../../data/demo.toml");

/// Monthly means near Chicago's, invented.
const MONTHLY: &str = r#"
monthly_highs = ["32 degF", "36 degF", "47 degF", "59 degF", "70 degF", "80 degF", "84 degF", "82 degF", "75 degF", "62 degF", "48 degF", "36 degF"]
monthly_lows = ["19 degF", "22 degF", "31 degF", "41 degF", "51 degF", "61 degF", "67 degF", "65 degF", "57 degF", "45 degF", "34 degF", "23 degF"]
heating_99 = "4 degF"
"#;

/// What `compare` prints of the demonstration with its weather given by these lines, blanks evened;
/// and whether it succeeded. `file` becomes `y.csv` beside the job.
fn compared(weather: &str, file: &str) -> (bool, String) {
    run("compare", weather, file)
}

/// The same of another command.
fn run(command: &str, weather: &str, file: &str) -> (bool, String) {
    let folder = tempfile::tempdir().unwrap();
    let job = DEMO.replace("weather = \"il-chicago\"", weather);
    assert_ne!(job, DEMO);
    fs::write(folder.path().join("job.toml"), job).unwrap();
    fs::write(folder.path().join("y.csv"), file).unwrap();
    let mut program = Command::new(env!("CARGO_BIN_EXE_winterledger"));
    let output = program.arg(command).arg(folder.path().join("job.toml")).output().unwrap();
    let printed = [output.stdout, output.stderr].concat();
    let words = String::from_utf8(printed).unwrap();
    (output.status.success(), words.split_whitespace().collect::<Vec<_>>().join(" "))
}

fn undated(change: impl Fn(usize, f64) -> Option<f64>) -> String {
    let mut text = "# latitude: 41.98\n# utc_offset_h: -6\ndry_bulb_degC\n".to_owned();
    for (hour, value) in open("il-chicago").unwrap().columns.dry_bulb_c.iter().enumerate() {
        let value = change(hour, *value).map_or_else(|| "9999".to_owned(), |value| format!("{value:.2}"));
        writeln!(text, "{value}").unwrap();
    }
    text
}

#[test]
fn monthly_means_alone_are_compared_and_called_a_synthetic_year() {
    let (done, shown) = compared(MONTHLY, "");
    assert!(done, "{shown}");
    for text in
        ["synthetic year", "no hour of it was measured", "weather drawn with seed 1", "weather_seed = 1"]
    {
        assert!(shown.contains(text), "{text}: {shown}");
    }
    let (_, other) = compared(&format!("{MONTHLY}weather_seed = 2"), "");
    assert!(other.contains("weather drawn with seed 2") && !other.contains("weather_seed = 1"), "{other}");
}

#[test]
fn a_note_tells_a_stuck_sensor_and_a_sound_file_gets_none() {
    let weather = "weather_file = \"y.csv\"";
    let (done, shown) = compared(weather, &undated(|_, value| Some(value)));
    assert!(done && !shown.contains("Check the weather file"), "{shown}");
    let stuck = undated(|hour, value| Some(if (500..560).contains(&hour) { 3.0 } else { value }));
    let (done, shown) = compared(weather, &stuck);
    // Hand-worked: hour 500 is 20 days and 20 hours into January; 3 °C is 37.4 °F.
    let note = "Check the weather file: from 21 January 20:00 it is 37 °F for 60 hours on end";
    assert!(done && shown.replace('\u{a0}', " ").contains(note), "{shown}");
}

#[test]
fn one_hour_in_ten_missing_is_refused_with_the_count() {
    let (done, shown) =
        compared("weather_file = \"y.csv\"", &undated(|hour, value| (hour % 10 != 3).then_some(value)));
    assert!(!done && shown.contains("876 of the 8760 hours"), "{shown}");
    // One in twenty-five is filled and counted, as before.
    let (done, shown) =
        compared("weather_file = \"y.csv\"", &undated(|hour, value| (hour % 25 != 3).then_some(value)));
    assert!(
        done && shown.contains("351 hours of the weather year that is used had no temperature"),
        "{shown}"
    );
}

/// Three years, 2021 to 2023, of Chicago's typical hours, each 0.7 K warmer than the last; from July 2022 to June 2023 one in nine is missing.
fn record_that_lacks() -> String {
    let of = |year: i32| {
        file(HEAD, year, |hour, time, c| {
            let lacking = (year == 2022 && hour >= 4344) || (year == 2023 && hour < 4344);
            let c = c + 0.7 * f64::from(year - 2021);
            (!lacking || hour % 9 > 0).then(|| format!("{},{c:.1}", time.format("%Y-%m-%d %H:%M")))
        })
    };
    let rows = |year: i32| of(year).lines().skip(1).map(|row| format!("{row}\n")).collect::<String>();
    format!("# utc_offset_h: -6\n{HEAD}\n{}{}{}", rows(2021), rows(2022), rows(2023))
}

#[test]
fn of_a_record_the_latest_winter_with_enough_hours_is_run_and_others_are_told() {
    let record = record_that_lacks();
    let (done, shown) = run("compare", "weather_file = \"y.csv\"", &record);
    assert!(done, "{shown}");
    // Hand-counted: hours 4344 to 8759 that are multiples of nine, 4347 to 8757, are 491; 0 to 4338, 483.
    for part in [
        "July 2021 to June 2022, the latest complete one, out of a record with 1 such year",
        "July 2022 to June 2023 lacks 974 of its 8,760 hours, more than 5 %: no option is run on such a year",
    ] {
        assert!(shown.contains(part), "{part}: {shown}");
    }
    assert!(!shown.contains("CHECK THE WEATHER FIRST"), "{shown}");
    // The scenarios run each year of the record that can be run.
    let (done, shown) = run("scenarios", "weather_file = \"y.csv\"", &record);
    assert!(done && shown.contains("July 2021 to June 2022"), "{shown}");
    let (done, shown) = run("check", "weather_file = \"y.csv\"\nweather_year = 2022", &record);
    let help = "take a year of the record with enough hours: 2021; or a station near by";
    assert!(!done && shown.contains("site.weather_year: 974 of the 8760 hours of July 2022"), "{shown}");
    assert!(shown.contains(help), "{shown}");
}
