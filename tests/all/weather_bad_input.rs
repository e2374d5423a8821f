//! Files that are wrong: each gets a message that says where, what, and what to do; none a panic.

use crate::weather_text::{EPW_HEAD, TMY3_HEAD, epw_row, file, gzip, plain, tmy3_row};
use proptest::prelude::*;
use winterledger::problem::Problem;
use winterledger::weather::{FileClock, GapRule, Layout, ReadOptions, Weather, read, read_with};

fn problems(text: &str) -> Vec<Problem> {
    read("bad.csv", text.as_bytes()).unwrap_err()
}

/// The one message for a text.
fn message(text: &str) -> String {
    let problems = problems(text);
    let all: Vec<String> = problems.iter().map(ToString::to_string).collect();
    assert_eq!(problems.len(), 1, "{all:#?}");
    all[0].clone()
}

fn assert_parts(text: &str, parts: &[&str]) {
    let message = message(text);
    for part in parts {
        assert!(message.contains(part), "'{part}' is not in: {message}");
    }
}

fn swap(at: usize, with: &'static str) -> impl Fn(usize, String) -> Option<String> {
    move |h, row| Some(if h == at { with.to_owned() } else { row })
}

fn drop(at: usize) -> impl Fn(usize, String) -> Option<String> {
    move |h, row| (h != at).then_some(row)
}

#[test]
fn empty_and_binary_files_are_refused() {
    assert_parts("", &["bad.csv: the file is empty"]);
    assert_parts("PK\u{3}\u{4}\0\0\0", &["bad.csv: ", "line 1", "not text", "save one sheet as CSV"]);
    assert_parts("dry_bulb_degC\n", &["0 hours", "8760 hours"]);
    assert_parts("# only a comment\n", &["the layout is not known", "dry_bulb_degC"]);
    assert_parts("Dear reader,\nhow are you?\n", &["begins with 'Dear reader,'", "TMY3, EPW"]);
}

#[test]
fn one_hour_too_few_is_told_in_every_layout() {
    assert_parts(&plain("", drop(17)), &["8759 hours, 1 too few", "allowed: 8760 hours"]);
    for text in [file(TMY3_HEAD, tmy3_row, drop(17)), file(EPW_HEAD, epw_row, drop(17))] {
        let problems = problems(&text);
        assert_eq!(problems.len(), 2, "{problems:?}");
        assert!(problems[0].what.contains("8759 hours, 1 too few"));
        // The break is told once, and not again for each row after it.
        assert!(problems[1].what.contains("out of order"), "{:?}", problems[1]);
        assert!(problems[1].what.contains("stands where 1 January 18:00 should"), "{:?}", problems[1]);
    }
    assert_parts(&(plain("", |_, row| Some(row)) + "1\n"), &["8761 hours, 1 too many"]);
}

#[test]
fn what_is_no_temperature_is_shown_with_its_line_and_column() {
    let at = ["bad.csv: line 12: dry_bulb_degC: "];
    for (cell, what) in [
        ("NaN", "found 'NaN', which is no number"),
        ("-inf", "which is no number"),
        ("warm", "found 'warm', which is no number"),
        ("1e308", "found '1e308', which is out of range; allowed: -90 to 60 °C"),
        ("-90.1", "which is out of range"),
        ("61", "which is out of range"),
    ] {
        assert_parts(&plain("", swap(10, cell)), &[at[0], what]);
    }
    let bad = |h, row: String| Some(if h == 10 { row.replace(",990,", ",inf,") } else { row });
    assert_parts(&file(TMY3_HEAD, tmy3_row, bad), &["line 13: Pressure (mbar): found 'inf'"]);
}

#[test]
fn many_problems_are_told_together_and_the_rest_is_counted() {
    let problems = problems(&plain("", |h, row| Some(if h < 30 { "x".into() } else { row })));
    // Three of one kind tell it; the other 27 are counted.
    let told: Vec<_> = problems.iter().map(|p| (p.line, p.more)).collect();
    assert_eq!(told, [(Some(2), 0), (Some(3), 0), (Some(4), 27)]);
    let ranges = ["1.5e3", "1,2", "cold"].iter().cycle();
    let mixed: Vec<&str> = ranges.take(12).copied().collect();
    let of_kinds = self::problems(&plain("", |h, row| Some(mixed.get(h).map_or(row, |x| (*x).to_owned()))));
    let all = of_kinds.len() + of_kinds.iter().map(|p| p.more).sum::<usize>();
    assert_eq!(all, 12, "{of_kinds:?}");
}

#[test]
fn wrong_columns_are_told() {
    assert_parts(&plain("", swap(3, "1,2")), &["line 5: the row has 2 columns; allowed: 1 columns"]);
    assert_parts(&file(TMY3_HEAD, tmy3_row, swap(3, "01/01/1981,04:00,1")), &["the row has 3 columns"]);
    assert_parts(&file(EPW_HEAD, epw_row, swap(3, "1981,1,1,4,0")), &["line 12: the row has 5 columns"]);
    let whole = file(EPW_HEAD, epw_row, |_, row| Some(row));
    let cut = whole.get(..whole.trim_end().len() - 40).unwrap();
    assert_parts(cut, &["line 8768: the last line is cut short", "fetching it broke off"]);
    let without = TMY3_HEAD.replace("Dry-bulb (C)", "Warmth");
    assert_parts(
        &file(&without, tmy3_row, |_, r| Some(r)),
        &["line 2: the column 'Dry-bulb (C)' is missing"],
    );
    let named = |name: &str| plain("", |_, r| Some(r)).replace("dry_bulb_degC", name);
    for name in ["dry_bulb", "dry_bulb_deg", "drybulb_degC"] {
        let problems = problems(&named(name));
        assert!(
            problems.iter().any(|p| p.what == "there is no dry-bulb temperature"),
            "{name}: {problems:?}"
        );
    }
    let twice = "dry_bulb_degC,dry_bulb_degF\n".to_owned() + &"0,32\n".repeat(8760);
    assert_parts(&twice, &["line 1: a second column", "Keep one of them"]);
    let misspelt = "dry_bulb_degC,dew_pont_degC\n".to_owned() + &"0,0\n".repeat(8760);
    assert_parts(&misspelt, &["the column 'dew_pont_degC' is not known", "Did you mean 'dew_point_degC'?"]);
    assert_parts(&EPW_HEAD.replace("DATA PERIODS", "DATES"), &["the line 'DATA PERIODS'", "is missing"]);
}

#[test]
fn hours_out_of_order_are_told() {
    let swapped = |h, row: String| Some(if h == 50 { tmy3_row(60, "1.0") } else { row });
    let found = problems(&file(TMY3_HEAD, tmy3_row, swapped));
    assert_eq!(found.len(), 2, "{found:?}");
    assert!(found[0].what.contains("'01/03/1981 13:00' stands where 3 January 03:00 should"), "{found:?}");
    let zero = |h, row: String| Some(if h == 50 { row.replace("03:00", "00:00") } else { row });
    assert_parts(&file(TMY3_HEAD, tmy3_row, zero), &["'01/03/1981 00:00' is no hour of this year"]);
    let leap = |h, row: String| Some(if h == 1415 { row.replacen(",2,28,", ",2,29,", 1) } else { row });
    assert_parts(&file(EPW_HEAD, epw_row, leap), &["'2/29 hour 24' is no hour of this year"]);
    let rows: String = (0..8760).map(|h| format!("{},1\n", if h == 7 { 8 } else { h })).collect();
    assert_parts(&format!("hour,dry_bulb_degC\n{rows}"), &["line 9: hour: found '8'", "allowed: 7 here"]);
}

#[test]
fn epw_files_of_other_periods_are_refused_by_their_header() {
    let head = |words: &str| EPW_HEAD.replace("DATA PERIODS,1,1,", words);
    let whole = |words: &str| file(&head(words), epw_row, |_, r| Some(r));
    for words in ["DATA PERIODS,2,1,", "DATA PERIODS,1,60,", "DATA PERIODS,1,0,"] {
        assert_parts(&whole(words), &["line 8: DATA PERIODS: found", "1, 2 or 4 records an hour"]);
    }
    let problems = problems(&whole("DATA PERIODS,1,2,"));
    assert!(problems[0].what.contains("8760 rows, 8760 too few"), "{problems:?}");
    assert_eq!(problems[0].allowed.as_deref(), Some("17520 rows, 2 for each hour"));
}

#[test]
fn what_a_file_says_of_its_place_is_checked() {
    let head = |line: &str| plain(&format!("{line}\n"), |_, r| Some(r));
    assert_parts(&head("# latitude: 91"), &["line 1: latitude: found '91'", "-90 to 90 °"]);
    assert_parts(
        &head("# time_zone: America/Chicgo"),
        &["there is no time zone 'America/Chicgo'", "\"America/Chicago\"?"],
    );
    let contradiction = "# utc_offset_h: -5\n# time_zone: America/Chicago";
    assert_parts(&head(contradiction), &["the zone's standard time is -6 h from UTC, utc_offset_h says -5"]);
    assert_parts(&head("# lattitude: 42"), &["'lattitude' is not known", "Did you mean 'latitude'?"]);
    assert_parts(&head("# year: last"), &["year: found 'last'", "typical, or a year"]);
    assert_parts(&head("# year: 2016"), &["8760 hours, 24 too few"]);
    assert_parts(&head("# place: a\n# place: b"), &["line 2: place: the line stands a second time"]);
    let leap = "dry_bulb_degC\n".to_owned() + &"1\n".repeat(8784);
    assert_parts(&leap, &["8784 hours are a leap year, but which?", "# year: 2016"]);
}

#[test]
fn wrong_bins_are_told() {
    let bins = |rows: &str| format!("outdoor_degF,hours\n{rows}");
    assert_parts(&bins(""), &["the bins hold 0 hours together"]);
    assert_parts(&bins("50,5000\n40,5000\n"), &["10000 hours together", "1 to 8784"]);
    assert_parts(
        &bins("50,10\n40,5\n50,3\n"),
        &["line 4: the bin stands a second time, the first is line 2"],
    );
    assert_parts(&bins("50,-5\n40,5\n"), &["line 2: hours: found '-5'", "0 to 8784"]);
    assert_parts(&bins("50,NaN\n40,5\n"), &["line 2: hours: found 'NaN', which is no number"]);
    assert_parts(&bins("50,\n40,5\n"), &["line 2: hours: the value is missing"]);
    assert_parts(&bins("1e308,5\n40,5\n"), &["line 2: outdoor_degF: found '1e308'", "-130 to 140 °F"]);
    assert_parts(&bins("50,5,5\n40,5\n"), &["line 2: the row has 3 columns; allowed: 2 columns"]);
    assert_parts(
        "temperature,hours\n50,5\n",
        &["the column names are", "outdoor_degF,hours or outdoor_degC,hours"],
    );
    let too_many: String = (0..2000).map(|i| format!("{},1\n", f64::from(i) / 100.0)).collect();
    assert_parts(&bins(&too_many), &["there are too many bins"]);
}

#[test]
fn a_line_over_64_kb_is_refused() {
    let text = format!("dry_bulb_degC\n{}\n", "1".repeat(64 * 1024 + 1));
    assert_parts(&text, &["line 2: the line is too long", "up to 64 kB"]);
}

/// A short piece of each layout; whole years would make hundreds of cases slow.
fn samples() -> Vec<Vec<u8>> {
    let rows =
        |row: &dyn Fn(usize, &str) -> String| (0..30).map(|h| row(h, "-1.5") + "\n").collect::<String>();
    let plain =
        "# place: x\n# time_zone: America/Chicago\n# year: 2016\nhour,dry_bulb_degC\n0,1\n1,-2\n".to_owned();
    let texts = [
        TMY3_HEAD.to_owned() + &rows(&tmy3_row),
        EPW_HEAD.to_owned() + &rows(&epw_row),
        plain,
        "outdoor_degF,hours\n50,10\n40,\"20\"\n".to_owned(),
        TMY2_PIECE.to_owned(),
        ISD_LITE_PIECE.to_owned(),
        NSRDB_PIECE.to_owned(),
        PVGIS_PIECE.to_owned(),
        "datetime,surface_pressure,temp_2m\n1997-01-01 00:30:00,97353.0,258.64\n1997-01-01 01:30,1,2\n"
            .to_owned(),
        "# utc_offset_h: 1\nDate;Time;Temp (°C)\n31.12.2015;24:00;1,5\n1/13/2016;1:00 PM;-2\n".to_owned(),
    ];
    let packed: Vec<Vec<u8>> = texts.iter().map(|t| gzip(t)).collect();
    texts.into_iter().map(String::into_bytes).chain(packed).collect()
}

const TMY2_PIECE: &str = " 12839 OLD MILL               FL  -5 N 25 48 W  80 16     2\n 62010101000000000000?00000?0\
    0000?00000?00000?00000?00000?007A703A70200A70150A7073A71017A7158A7067A70161A777777A70999999999013F8062F800\
    0A788E7\n";
const ISD_LITE_PIECE: &str = "2015 01 01 00   -83  -172 10243   240    62     2 -9999 -9999\n\
    2015 01 01 01   -78  -172 10234   240    57     2     0 -9999\n";
const NSRDB_PIECE: &str = "Source,City,Latitude,Longitude,Time Zone,Elevation,Local Time Zone,Temperature Units\n\
    NSRDB,-,40.14,-105.23,0,1645,-7,c\nYear,Month,Day,Hour,Minute,GHI,Temperature\n2015,1,1,0,0,0,-2\n\
    2015,1,1,0,30,0,-2.4\n";
const PVGIS_PIECE: &str = "Latitude (decimal degrees):\t53.835\nLongitude (decimal degrees):\t-7.072\nmonth,year\n\
    1,2005\ntime(UTC),T2m,RH,SP\n20050101:0000,5.63,80,99000\n20050101:0100,5.85,80,99000\n\nT2m: words\n";

/// Everything that a job may say beside a file, so that each rule meets damaged rows.
fn options(which: usize) -> ReadOptions {
    ReadOptions {
        layout: None,
        gaps: if which.is_multiple_of(2) { GapRule::Line } else { GapRule::NeighbouringDays },
        clock: [None, Some(FileClock::Utc), Some(FileClock::Standard)][which % 3],
        zone: (!which.is_multiple_of(4)).then_some(chrono_tz::Asia::Kolkata),
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_damaged_file_makes_a_reader_panic(
        which in 0..20_usize,
        beside in 0..12_usize,
        flips in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 0..12),
        cut in prop::option::of(any::<prop::sample::Index>()),
        doubled in prop::option::of(any::<prop::sample::Index>()),
    ) {
        let mut bytes = samples().swap_remove(which);
        for (at, byte) in flips {
            let at = at.index(bytes.len());
            bytes[at] = byte;
        }
        if let Some(at) = doubled {
            let tail = bytes[at.index(bytes.len())..].to_vec();
            bytes.extend(tail);
        }
        if let Some(at) = cut {
            bytes.truncate(at.index(bytes.len()));
        }
        if let Err(problems) = read_with("damaged", &bytes[..], &options(beside)) {
            prop_assert!(!problems.is_empty() && problems.len() <= 21);
            prop_assert!(problems.iter().all(|p| p.file.as_deref() == Some("damaged")));
        }
    }

    #[test]
    fn no_forced_layout_makes_a_reader_panic(which in 0..10_usize, layout in 0..9_usize, beside in 0..12_usize) {
        let layouts = [
            Layout::Tmy3, Layout::Tmy2, Layout::Epw, Layout::IsdLite, Layout::Nsrdb, Layout::Pvgis,
            Layout::PlainCsv, Layout::DatedCsv, Layout::BinCsv,
        ];
        let options = ReadOptions { layout: Some(layouts[layout]), ..options(beside) };
        let _ = read_with("forced", &samples().swap_remove(which)[..], &options);
    }

    #[test]
    fn no_damaged_year_with_dates_makes_a_reader_panic_or_gives_an_impossible_temperature(
        dates in prop::collection::vec((0..17_520_usize, "[-+0-9.,:T Z]{0,12}"), 0..4),
        cells in prop::collection::vec((0..17_520_usize, "[-+0-9.,e\"# ]{0,6}"), 0..8),
        (first, hours) in (0..9000_usize, 8000..17_520_usize),
        beside in 0..12_usize,
    ) {
        let start = chrono::NaiveDate::from_ymd_opt(2015, 1, 1).unwrap().and_hms_opt(0, 0, 0).unwrap();
        let mut text = "datetime,dry_bulb_degC\n".to_owned();
        for h in first..first + hours {
            let time = (start + chrono::Duration::hours(h as i64)).format("%Y-%m-%d %H:%M").to_string();
            let date = dates.iter().find(|(at, _)| *at == h).map_or(time.as_str(), |(_, text)| text);
            let cell = cells.iter().find(|(at, _)| *at == h).map_or("-1.5", |(_, text)| text);
            text += &format!("{date},{cell}\n");
        }
        let temperatures = match read_with("damaged", text.as_bytes(), &options(beside)) {
            Ok(Weather::Year(year)) => year.columns.dry_bulb_c,
            Ok(Weather::Record(record)) => record.columns.dry_bulb_c,
            Ok(Weather::Bins(_)) => return Err(TestCaseError::fail("bins out of hours")),
            Err(problems) => {
                prop_assert!(!problems.is_empty());
                return Ok(());
            }
        };
        prop_assert!(temperatures.iter().all(|t| (-90.0..=60.0).contains(t)));
    }

    #[test]
    fn no_damaged_whole_year_makes_a_reader_panic_or_gives_an_impossible_temperature(
        layout in 0..3_usize,
        cells in prop::collection::vec((0..8760_usize, "[-+0-9.,e\"# ]{0,6}"), 1..10),
    ) {
        let change = |h: usize, row: String| {
            let cell = cells.iter().find(|(at, _)| *at == h);
            Some(cell.map_or(row.clone(), |(_, text)| row.replacen(",-", text, 1)))
        };
        let text = match layout {
            0 => file(TMY3_HEAD, tmy3_row, change),
            1 => file(EPW_HEAD, epw_row, change),
            _ => plain("", |h, row| Some(cells.iter().find(|(at, _)| *at == h).map_or(row, |c| c.1.clone()))),
        };
        match read("damaged", text.as_bytes()) {
            Ok(Weather::Year(year)) => {
                prop_assert!(year.columns.dry_bulb_c.iter().all(|t| (-90.0..=60.0).contains(t)));
            }
            Ok(_) => prop_assert!(false, "bins out of hours"),
            Err(problems) => prop_assert!(!problems.is_empty()),
        }
    }
}
