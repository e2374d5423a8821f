//! Costs, household use, hours and degrees that hardly anybody means are asked about; the jobs that come with the
//! program are asked nothing of the kind.

use winterledger::comparison::{Note, compare};
use winterledger::job::reader;
use winterledger::report::figures::Measure;
use winterledger::report::wording;
use winterledger::weather::{Weather, places};

const DEMO: &str = include_str!("../../data/demo.toml");
const SMALL_TANK: &str = include_str!("../../data/small-tank.toml");
const STARTER: &str = include_str!("../../data/starter.toml");

fn asked_in(text: String) -> Vec<String> {
    let job = reader::read("job.toml", text).unwrap();
    let weather = Weather::Year(Box::new(places::open("il-chicago").unwrap()));
    let c = compare(&job, &weather).unwrap();
    let found = c.notes.iter().filter(|note| matches!(note, Note::Doubt(_)));
    let worded =
        found.inspect(|note| assert!(note.asks())).map(|note| wording::note(note, Measure(c.units), "$"));
    worded.map(|words| words.replace('\u{a0}', " ")).collect()
}

/// The demonstration, with what stands in these lines instead of those.
fn asked_with(lines: &[(&str, &str)]) -> Vec<String> {
    let text = lines.iter().fold(DEMO.to_owned(), |text, (old, new)| {
        assert!(text.contains(old), "{old} is not in the demonstration");
        text.replacen(old, new, 1)
    });
    asked_in(text)
}

#[test]
fn the_jobs_that_come_with_the_program_are_asked_nothing_of_the_kind() {
    for text in [DEMO, SMALL_TANK, STARTER] {
        assert_eq!(asked_in(text.to_owned()), Vec::<String>::new());
    }
}

/// Each change of the demonstration's text, and what the questions must say, one for each.
const ASKED: [(&str, &str, &[&str]); 14] = [
    (
        "weather = \"il-chicago\"",
        "weather = \"il-chicago\"\ntime_zone = \"EST\"",
        &["EST has no daylight saving", "America/New_York"],
    ),
    (
        "stages = [\"5 kW\", \"5 kW\", \"5 kW\"]",
        "stages = [\"5 kW\", \"5 kW\", \"5 kW\"]\nlockout_above = \"-10 degF\"",
        &["lockout_above of duct strips 15 kW", "warmer than −10 °F"],
    ),
    ("amount = \"14200 $\"", "amount = \"142000 $\"", &["142,000 $", "10,500 $"]),
    ("renewal = \"10500 $\"", "renewal = \"105000 $\"", &["14,200 $", "105,000 $"]),
    ("amount = \"2800 $\"", "amount = \"280000 $\"", &["“larger panel”", "280,000 $"]),
    ("upkeep = \"190 $/year\"", "upkeep = \"190 $/month\"", &["2,280 $ a year"]),
    ("extreme_low = \"-22 degF\"", "extreme_low = \"-80 degF\"", &["extreme_low", "−80 °F"]),
    (
        "cooling_balance_temperature = \"68 degF\"",
        "cooling_balance_temperature = \"86 degF\"",
        &["86 °F", "75 °F"],
    ),
    (
        "cooling_set_point = \"75 degF\"",
        "cooling_set_point = \"85 degF\"",
        &["cooling_set_point of main", "85 °F"],
    ),
    (
        "cooling_design_temperature = \"90 degF\"",
        "cooling_design_temperature = \"109 degF\"",
        &["cooling_design_temperature of main", "109 °F"],
    ),
    (
        "cooling_set_point = \"75 degF\"",
        "cooling_set_point = \"75 degF\"\nset_back = [{ from = \"10:00\", to = \"06:00\", set_point = \"64 degF\" }]",
        &["set_back of main", "20 hours"],
    ),
    (
        "[prices.propane]",
        "[household]\nbase_electricity = \"60000 kWh/year\"\n[prices.propane]",
        &["60,000 kWh"],
    ),
    (
        "[prices.propane]",
        "[household]\nhot_water_use = \"500 gal/day\"\n[prices.propane]",
        &["500 gal a day"],
    ),
    (
        "[prices.propane]",
        "[household]\ndryer_loads_a_week = 50\n[prices.propane]",
        &["dryer_loads_a_week: 50"],
    ),
];

#[test]
fn what_hardly_anybody_means_is_asked_about_once() {
    for (old, new, words) in ASKED {
        let found = asked_with(&[(old, new)]);
        assert_eq!(found.len(), 1, "{new}: {found:?}");
        for word in words {
            assert!(found[0].contains(word), "{word} in {}", found[0]);
        }
    }
}

#[test]
fn what_is_ordinary_is_left_alone() {
    let strips = "stages = [\"5 kW\", \"5 kW\", \"5 kW\"]";
    for lines in [
        [(strips, "stages = [\"5 kW\", \"5 kW\", \"5 kW\"]\nlockout_above = \"40 degF\"")],
        // A record low of Chicago's is −27 °F (1985, from memory).
        [("extreme_low = \"-22 degF\"", "extreme_low = \"-30 degF\"")],
        [("amount = \"14200 $\"", "amount = \"60000 $\"")],
        [("upkeep = \"190 $/year\"", "upkeep = \"55 $/month\"")],
        [("cooling_set_point = \"75 degF\"", "cooling_set_point = \"80 degF\"")],
    ] {
        assert_eq!(asked_with(&lines), Vec::<String>::new(), "{lines:?}");
    }
}

#[test]
fn dear_hours_for_most_of_the_day_are_asked_about() {
    let period = |from: &str, to: &str| {
        let period = format!(
            "[[prices.electricity.period]]\nname = \"evening\"\nfrom = \"{from}\"\nto = \"{to}\"\nprice = \"0.40 $/kWh\"\n[prices.propane]"
        );
        asked_with(&[("[prices.propane]", &period)])
    };
    assert_eq!(period("17:00", "21:00"), Vec::<String>::new());
    assert_eq!(period("07:00", "23:00"), Vec::<String>::new());
    let swapped = period("21:00", "17:00");
    assert!(swapped.len() == 1 && swapped[0].contains("20 hours"), "{swapped:?}");
}

#[test]
fn lists_that_begin_with_july_are_asked_about_where_no_clock_says_why() {
    let months = |highs: [i32; 12], more: &str| {
        let list = |below: i32| highs.map(|t| format!("\"{} degF\"", t - below)).join(", ");
        let lists = format!("monthly_highs = [{}]\nmonthly_lows = [{}]\n", list(0), list(20));
        asked_with(&[("weather = \"il-chicago\"", &format!("{lists}heating_99 = \"4 degF\"{more}"))])
    };
    // Invented means of a cold place.
    let january_first = [32, 36, 47, 59, 70, 80, 84, 82, 75, 62, 48, 36];
    let july_first = [84, 82, 75, 62, 48, 36, 32, 36, 47, 59, 70, 80];
    let of_months =
        |found: Vec<String>| found.into_iter().filter(|words| words.contains("monthly_highs")).count();
    assert_eq!(of_months(months(january_first, "")), 0);
    assert_eq!(of_months(months(july_first, "")), 1);
    assert_eq!(of_months(months(july_first, "\ntime_zone = \"Pacific/Auckland\"")), 0);
}
