//! Bills of winters gone by, held against what is calculated for their days.

use crate::demo_job::chicago;
use crate::sheet::{DEMO, made};
use std::sync::LazyLock;
use winterledger::comparison::{Comparison, Note, PastUse, compare};
use winterledger::job::reader::read;
use winterledger::report::figures::Measure;
use winterledger::report::{json, past_use, wording};
use winterledger::weather::{Weather, from_job, read as read_weather, read_many};

/// One room with strips that carry everything, and bills of electricity.
const ROOM: &str = r#"
format = 1
[job]
title = "One room, invented"
[site]
name = "Nowhere (invented)"
weather_file = "w"
weather_gaps = "neighbouring_days"
time_zone = "America/Chicago"
[house]
[[house.zone]]
name = "room"
design_load = "10 kW"
design_temperature = "-18 degC"
indoor = "21 degC"
balance_temperature = "16 degC"
design_load_includes_ducts = false
heat_capacity = "6 kWh/K"
set_back = [{ from = "22:00", to = "06:00", set_point = "18 degC" }]
[past_use]
fuel = "electricity"
efficiency = 1.0
bills = [BILLS]
[[equipment]]
name = "strips"
kind = "resistance"
ducted = false
stages = ["90 kW"]
[[option]]
name = "Strips"
zone = [{ zone = "room", heating = ["strips"] }]
[prices.electricity]
price = "0.15 $/kWh"
"#;

fn room(bills: &str) -> String {
    ROOM.replace("BILLS", bills)
}

/// Chicago, three actual years.
fn record() -> &'static Weather {
    static RECORD: LazyLock<Weather> = LazyLock::new(|| {
        let open = |year: &str| {
            let name = format!("isd-lite-725300-{year}.gz");
            let path = format!("{}/tests/data/weather/{name}", env!("CARGO_MANIFEST_DIR"));
            (name, std::fs::File::open(path).unwrap())
        };
        let job = read("job.toml", room(YEARS)).unwrap();
        let files = ["2015", "2016", "2017"].map(open);
        read_many(files.into(), &from_job::options(&job).unwrap()).unwrap()
    });
    &RECORD
}

/// Twelve months each of two winters.
const YEARS: &str = "{ from = \"2015-07-01\", to = \"2016-07-01\", used = \"20000 kWh\" }, \
                     { from = \"2016-07-01\", to = \"2017-07-01\", used = \"20000 kWh\" }";

fn compared(text: &str, weather: &Weather) -> Comparison {
    compare(&read("job.toml", text.to_owned()).unwrap(), weather).unwrap()
}

fn past(c: &Comparison) -> &PastUse {
    c.past_use.as_ref().unwrap()
}

/// The independent figure is the simulation's: strips of ample size give the heat that the room needs, with
/// set-backs and daylight saving. Theirs is summed by postings of another code path.
#[test]
fn a_years_bills_are_held_against_the_heat_that_the_simulation_gives_in_that_year() {
    for (place, year) in [(0, 2015), (1, 2016)] {
        let with_year = room(YEARS).replace("[house]\n", &format!("weather_year = {year}\n[house]\n"));
        let c = compared(&with_year, record());
        let bill = past(&c).bills[place];
        let heat = c.options[0].zones[0].sums.heat_kwh;
        assert_eq!(past(&c).in_own_weather(), 2);
        assert!((bill.calculated_kwh / heat - 1.0).abs() < 1e-9, "{year}: {} {heat}", bill.calculated_kwh);
    }
}

/// Hand-worked: 10 kW over 39 K is 0.256410 kW/K; 16 less the day's temperature, times 24 h. At −4 °C that is
/// 0.256410·20·24 = 123.0769 kWh a day; other use 73 kWh a month is 2.4 kWh a day.
#[test]
fn a_steady_day_is_worked_by_hand() {
    let rows = "-4\n".repeat(8760);
    let weather = read_weather("w", format!("dry_bulb_degC\n{rows}").as_bytes()).unwrap();
    let bills = "{ from = \"2024-02-01\", to = \"2024-03-01\", used = \"4000 kWh\" }, \
                 { from = \"2024-12-01\", to = \"2025-01-01\", used = \"8000 kWh\" }";
    let text = room(bills)
        .replace("efficiency = 1.0", "efficiency = 0.8\nother_use = \"73 kWh\"")
        .replace("set_back = [{ from = \"22:00\", to = \"06:00\", set_point = \"18 degC\" }]\n", "");
    let c = compared(&text, &weather);
    // 29 days of a February that the file has not: its 28 and the last of them again.
    let expected = |days: f64| days * (123.076_923 / 0.8 + 2.4);
    let found: Vec<f64> = past(&c).bills.iter().map(|bill| bill.calculated_kwh).collect();
    assert!(
        (found[0] - expected(29.0)).abs() < 1e-3 && (found[1] - expected(31.0)).abs() < 1e-3,
        "{found:?}"
    );
    assert_eq!(past(&c).in_own_weather(), 0);
    assert!((past(&c).excess() - (expected(60.0) / 12_000.0 - 1.0)).abs() < 1e-6);
}

#[test]
fn weather_that_lacks_a_bills_days_is_told_as_not_their_own() {
    let outside = "{ from = \"2017-12-01\", to = \"2018-02-01\", used = \"4000 kWh\" }";
    let c = compared(&room(outside), record());
    assert!(past(&c).in_own_weather() == 0 && past(&c).bills[0].calculated_kwh > 0.0);
    assert!(past_use::words(&c).unwrap().contains("which was not theirs"));
}

/// Page one and JSON say the same, rounded to whole units and percent.
#[test]
fn page_one_tells_the_bills_and_what_they_are_held_against() {
    let bills = "[past_use]\nfuel = \"oil_no_2\"\nefficiency = 0.78\nother_use = \"6 gal\"\nsource = \"tickets, invented\"\n\
                 bills = [{ from = \"2024-10-20\", to = \"2025-01-08\", used = \"290 gal\" },\n\
                 { from = \"2025-01-08\", to = \"2025-04-30\", used = \"340 gal\" }]\n\n[[equipment]]";
    let made = made(&DEMO.replacen("[[equipment]]", bills, 1));
    let whole: serde_json::Value = serde_json::from_str(&json::text(&made.c, None).unwrap()).unwrap();
    let told = &whole["past_use"];
    let fact = made.sheet.front.basis.iter().find(|fact| fact.label == "Checked against").unwrap();
    let number = |key: &str| told[key].as_f64().unwrap();
    assert!(told["unit"] == "gal" && (number("used") - 630.0).abs() < 1e-9, "{told}");
    assert!(fact.words.contains("630\u{a0}gal of heating oil No. 2 used"), "{}", fact.words);
    assert!(
        fact.words
            .contains(&format!("{:.0}\u{a0}gal come out here, other use included", number("calculated"))),
        "{}",
        fact.words
    );
    assert!(fact.words.contains(&format!("{:.0} %", number("excess_percent").abs())), "{}", fact.words);
    assert!(
        fact.words.contains("2 bills between 20 Oct 2024 and 30 Apr 2025 (tickets, invented)"),
        "{}",
        fact.words
    );
    let beyond = number("excess_percent").abs() > 15.0;
    assert_eq!(fact.words.contains("Find out why before you sign"), beyond, "{}", fact.words);
    assert!(made.report.tables.iter().any(|table| table.name == "past_use" && table.rows.len() == 3));
    assert_eq!(compared(DEMO, &chicago()).past_use, None);
}

/// Chicago's two whole winters: page one's range holds both, and names how many there are. The other winter's
/// cost is that of a run with its own year.
#[test]
fn page_one_of_a_record_holds_all_its_winters() {
    let job = read("job.toml", room(YEARS)).unwrap();
    let c = compare(&job, record()).unwrap();
    let around = winterledger::study::around(&job, record(), &c).unwrap();
    let front = winterledger::report::front::front(&c, &around, &Default::default());
    let front = serde_json::to_value(&front).unwrap();
    let band = &front["bands"][0];
    assert!(band["remark"].as_str().unwrap().contains("any of the 2 winters of this record"), "{band}");
    let other = compared(&room(YEARS).replace("[house]\n", "weather_year = 2015\n[house]\n"), record());
    let range = &band["rows"][0]["entries"][5]["range"]["exact"];
    let (low, high) = (range[0].as_f64().unwrap(), range[1].as_f64().unwrap());
    for cost in [c.options[0].yearly_cost(), other.options[0].yearly_cost()] {
        assert!((low..=high).contains(&cost), "{range} {cost}");
    }
    let weather = front["facts"].as_array().unwrap().iter().find(|fact| fact["label"] == "Weather").unwrap();
    let words = weather["words"].as_str().unwrap();
    assert!(words.contains("isd-lite-725300-2015.gz and 2 more files, July 2016 to June 2017"), "{words}");
}

/// A ticket that the record does not hold takes its own weather from none of the others.
#[test]
fn each_bill_goes_by_its_own_weather_where_the_record_holds_it() {
    let outside = "{ from = \"2017-12-01\", to = \"2018-02-01\", used = \"4000 kWh\" }";
    let c = compared(&room(&format!("{YEARS}, {outside}")), record());
    let alone = compared(&room(YEARS), record());
    assert_eq!(past(&c).in_own_weather(), 2);
    assert_eq!(past(&c).bills[..2], past(&alone).bills[..]);
    assert!(past_use::words(&c).unwrap().contains("2 of 3 bills in their own weather"));
}

/// A tenfold slip is asked about; a bill of summer, of which hardly any is heating, is not.
#[test]
fn a_bill_with_a_digit_too_many_is_asked_about() {
    let bills = "{ from = \"2016-07-01\", to = \"2016-08-01\", used = \"500 kWh\" }, \
                 { from = \"2016-12-01\", to = \"2017-01-01\", used = \"50000 kWh\" }, \
                 { from = \"2017-01-01\", to = \"2017-02-01\", used = \"5000 kWh\" }";
    let c = compared(&room(bills), record());
    let asked = c.notes.iter().filter(|note| note.asks() && matches!(note, Note::PastBill(_)));
    let words: Vec<_> = asked.map(|note| wording::note(note, Measure(c.units), "$")).collect();
    assert_eq!(words.len(), 1, "{words:?}");
    assert!(words[0].contains("2016-12-01 to 2017-01-01 has 50,000 kWh"), "{words:?}");
}
