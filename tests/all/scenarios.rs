//! Scenarios against single runs of the same job as a person could type them, and the short cut of
//! billing the first run's energy anew against the full run.
//!
//! The houses, prices and changes are invented. Start at the test names.

use crate::demo_job::{STEADY, chicago, job, text, with_flat_propane, with_tank};
use winterledger::comparison::{Comparison, Reruns, compare};
use winterledger::job::{Job, edit, reader};
use winterledger::study::change::{Change, Scenario};
use winterledger::study::{scenarios, years};
use winterledger::weather::{Weather, from_job, read_many};

fn cost(c: &Comparison, option: &str) -> f64 {
    c.options.iter().find(|o| o.design.name == option).unwrap().yearly_cost()
}

/// The demonstration without scenarios of its own, and one option that changes over on cost.
fn on_cost() -> Job {
    let text = text();
    let from = text.find("[[scenario]]").unwrap();
    let to = text.find("[economics]").unwrap();
    let text = format!("{}{}", &text[..from], &text[to..]);
    let rule = "sharing = \"in_time\"                       # or \"whole_hour\"";
    assert!(text.contains(rule));
    job(&text.replace(rule, "changeover = \"cost\""), &[])
}

#[test]
fn a_scenario_is_the_run_a_person_could_type() {
    let (job, weather) = (job(&text(), &[]), chicago());
    let first = compare(&job, &weather).unwrap();
    let table = scenarios(&job, &weather, &first).unwrap();
    let row = |name: &str| table.rows.iter().find(|r| r.name.as_deref() == Some(name)).unwrap();
    let colder = edit::set(&job.text, "site.site_offset", "-5 degF").unwrap();
    let colder = compare(&reader::read("demo", colder).unwrap(), &weather).unwrap();
    for (option, typed) in row("5 \u{b0}F colder").found.options.iter().zip(&colder.options) {
        assert_eq!(option.yearly_cost(), typed.yearly_cost(), "{}", option.name);
        assert_eq!(option.hours_not_kept_warm, typed.hours_not_kept_warm());
        assert_eq!(option.lowest_room_c, typed.lowest_room_c());
    }
    // Typed by hand: the twelve prices doubled, the spike of the job still on top.
    let mut doubled = job.text.clone();
    let months = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];
    let prices = [5.38, 5.18, 4.78, 4.20, 3.80, 3.58, 3.38, 3.50, 3.90, 4.30, 4.70, 5.10];
    for (month, price) in months.iter().zip(prices) {
        let key = format!("prices.propane.price_by_month.{month}");
        doubled = edit::set(&doubled, &key, &format!("{price} $/gal")).unwrap();
    }
    let doubled = compare(&reader::read("demo", doubled).unwrap(), &weather).unwrap();
    for (option, typed) in row("propane \u{d7} 2").found.options.iter().zip(&doubled.options) {
        assert!((option.yearly_cost() - typed.yearly_cost()).abs() < 1e-9, "{}", option.name);
    }
    let lives = first.life_cycles.as_ref().unwrap();
    let none = &row("no incentives").found.options[0];
    let without = &lives.options[0].as_ref().unwrap().without_incentives;
    assert_eq!(none.life_cycle_cost, Some(without.life.total()));
}

/// The short cut is told by how many options were not worked out again.
#[test]
fn billing_the_first_energy_anew_equals_the_full_run() {
    let (job, weather) = (on_cost(), chicago());
    let first = compare(&job, &weather).unwrap();
    let set = |key: &str, value: &str| Change::Set { key: key.into(), value: value.into() };
    let cases = [
        (vec![], 6),
        (vec![Change::price("oil_no_2", 2.0)], 5), // by other prices the one on cost may run otherwise
        (vec![Change::price("propane", 2.0), Change::price("electricity", 1.3)], 5),
        (vec![set("prices.electricity.fixed", "50 $/month")], 5),
        (vec![set("economics.count_incentives", "false")], 6),
        (vec![set("equipment.propane furnace.afue", "0.8")], 4),
        (vec![set("option.Heat pump and propane.zone.main.compressor_lockout", "30 degF")], 5),
        (vec![set("house.zone.main.heating_set_point", "68 degF")], 0),
        (vec![set("site.site_offset", "1 K")], 0),
    ];
    let (quick, full) = (Reruns::new(&first, &weather), Reruns::new(&first, &weather).in_full());
    for (changes, reused) in cases {
        let scenario = Scenario { name: "x".into(), changes };
        let short = scenario.with(&job, |changed| quick.run(changed)).unwrap();
        let whole = scenario.with(&job, |changed| full.run(changed)).unwrap();
        assert_eq!(short.options, whole.options, "{scenario:?}");
        assert_eq!((short.reused, whole.reused), (reused, 0), "{scenario:?}");
    }
}

/// With the demonstration's tank, and with a small one that runs dry, so that the hours are not those with
/// ample fuel.
#[test]
fn buying_the_fuel_of_the_same_hours_anew_equals_the_full_run() {
    let set = |key: &str, value: &str| Change::Set { key: key.into(), value: value.into() };
    let cases = [
        (vec![Change::price("propane", 2.0)], 6),
        (vec![Change::price("electricity", 1.3), set("prices.propane.tax", "0.05")], 6),
        (vec![set("supply.500 gallon tank.start_level", "0.3")], 4),
        (vec![set("equipment.propane furnace.afue", "0.8")], 4),
    ];
    let small =
        [("capacity", "120 gal"), ("minimum_drop", "20 gal"), ("lead_days", "14"), ("cold_lead_days", "14")];
    let small = small.map(|(key, value)| (format!("supply.500 gallon tank.{key}"), value));
    let small: Vec<(&str, &str)> = small.iter().map(|(key, value)| (key.as_str(), *value)).collect();
    let weather = chicago();
    for (changes, runs_dry) in [(&[][..], false), (&small[..], true)] {
        let job = job(&with_tank(), changes);
        let first = compare(&job, &weather).unwrap();
        let run_outs = first.options[2].stores[0].supplied.year.run_outs;
        assert_eq!(run_outs > 0, runs_dry, "{run_outs}");
        let (quick, full) = (Reruns::new(&first, &weather), Reruns::new(&first, &weather).in_full());
        for (changes, reused) in &cases {
            let scenario = Scenario { name: "x".into(), changes: changes.clone() };
            let short = scenario.with(&job, |changed| quick.run(changed)).unwrap();
            let whole = scenario.with(&job, |changed| full.run(changed)).unwrap();
            assert_eq!(short.options, whole.options, "{scenario:?}");
            assert_eq!((short.reused, whole.reused), (*reused, 0), "{scenario:?}");
        }
    }
}

/// By the ledger: a price times a factor adds the factor less 1 of that fuel's bill, fixed charges
/// left out, in options that do not change over on cost.
#[test]
fn without_scenarios_each_price_is_stressed_by_itself_and_then_all_together() {
    let (job, weather) = (on_cost(), chicago());
    let first = compare(&job, &weather).unwrap();
    let table = scenarios(&job, &weather, &first).unwrap();
    assert!(table.is_default_stress);
    let names: Vec<_> = table.rows.iter().map(|r| r.name.clone().unwrap_or_default()).collect();
    let expected = [
        "",
        "propane \u{d7} 2",
        "heating oil No. 2 \u{d7} 2",
        "electricity \u{d7} 1.3",
        "all of these at once",
    ];
    assert_eq!(names, expected);
    let furnace = first.options.iter().position(|o| o.design.name == "Propane furnace").unwrap();
    let energy = |fuel: &str| {
        let fuel = first.fuels.find(fuel).unwrap();
        let fixed = winterledger::ledger::Reason::FixedCharge;
        first.options[furnace].ledger.sum(|p| p.fuel == fuel && p.reason != fixed)
    };
    let costs: Vec<f64> = table.rows.iter().map(|r| r.found.options[furnace].yearly_cost()).collect();
    let more: Vec<f64> = costs.iter().map(|cost| cost - costs[0]).collect();
    let (propane, electricity) = (energy("propane"), 0.3 * energy("electricity"));
    for (more, expected) in more.iter().zip([0.0, propane, 0.0, electricity, propane + electricity]) {
        assert!((more - expected).abs() < 1e-9, "{more} {expected}");
    }
}

#[test]
fn the_least_keeps_warm_and_the_next_is_the_next_dearer_one() {
    let (job, weather) = (job(&text(), &[]), chicago());
    let first = compare(&job, &weather).unwrap();
    let row = &scenarios(&job, &weather, &first).unwrap().rows[0];
    let least = row.least_a_year().unwrap();
    // "Heat pumps alone" would cost less and goes cold.
    assert!(cost(&first, "Heat pumps alone") < cost(&first, "Heat pumps with strips"));
    assert_eq!(row.found.options[least.option].name, "Heat pumps with strips");
    let (next, by) = least.next.unwrap();
    assert_eq!(row.found.options[next].name, "Heat pump and propane");
    assert!((by - (cost(&first, "Heat pump and propane") - least.cost)).abs() < 1e-9);
}

#[test]
fn a_price_all_year_works_on_bins_too() {
    let steady = job(&with_flat_propane(&text()), &STEADY);
    let (first, bins) = {
        let first = compare(&steady, &chicago()).unwrap();
        let bins = Weather::Bins(first.bins.clone());
        (compare(&steady, &bins).unwrap(), bins)
    };
    let scenario = Scenario { name: "x".into(), changes: vec![Change::price("propane", 1.5)] };
    let found = scenario.with(&steady, |changed| Reruns::new(&first, &bins).run(changed)).unwrap();
    let typed = edit::set(&steady.text, "prices.propane.price", "3.30 $/gal").unwrap();
    let typed = compare(&reader::read("demo", typed).unwrap(), &bins).unwrap();
    for (option, typed) in found.options.iter().zip(&typed.options) {
        assert!((option.yearly_cost() - typed.yearly_cost()).abs() < 1e-9, "{}", option.name);
    }
    let months = Change::Price {
        fuel: "propane".into(),
        times: 2.0,
        days: (
            winterledger::calendar::MonthDay::FIRST,
            winterledger::calendar::MonthDay { month: 1, day: 31 },
        ),
    };
    let scenario = Scenario { name: "x".into(), changes: vec![months] };
    let refused = scenario.with(&steady, |changed| Reruns::new(&first, &bins).run(changed)).unwrap_err();
    assert!(refused[0].what.contains("with this scenario"), "{refused:?}");
}

/// A digit too many in a scenario alone is asked about as in the job; the demonstration's own scenarios are not.
#[test]
fn jobs_of_scenarios_are_asked_about_as_the_job_itself_is() {
    let asked = |text: &str| {
        let (job, weather) = (job(text, &[]), chicago());
        let first = winterledger::comparison::compare_alone(&job, &weather).unwrap();
        winterledger::study::scenario_questions(&job, &weather, &first).unwrap()
    };
    assert_eq!(asked(&text()), []);
    let from = "house.zone.main.design_load = 27000 Btu/h";
    assert!(text().contains(from));
    let slipped = asked(&text().replace(from, "house.zone.main.design_load = 270000 Btu/h"));
    let of = |note: &winterledger::comparison::note::Note| {
        use winterledger::comparison::note::Note::OfScenario;
        matches!(note, OfScenario { scenario, .. } if scenario == "tighter house") && note.asks()
    };
    assert!(!slipped.is_empty() && slipped.iter().all(of), "{slipped:?}");
}

#[test]
fn every_winter_of_a_record_is_the_run_of_its_own_year() {
    let text = text().replace(
        "weather = \"il-chicago\"",
        "weather_file = [\"a\", \"b\", \"c\"]\nweather_gaps = \"neighbouring_days\"\ntime_zone = \"America/Chicago\"",
    );
    let record_job = job(&text, &[]);
    let open = |year: &str| {
        let name = format!("isd-lite-725300-{year}.gz");
        let path = format!("{}/tests/data/weather/{name}", env!("CARGO_MANIFEST_DIR"));
        (name, std::fs::File::open(path).unwrap())
    };
    let files = ["2015", "2016", "2017"].map(open);
    let record = read_many(files.into(), &from_job::options(&record_job).unwrap()).unwrap();
    let first = compare(&record_job, &record).unwrap();
    let table = years(&record_job, &record, &first).unwrap().unwrap();
    let names: Vec<_> = table.rows.iter().filter_map(|r| r.name.as_deref()).collect();
    assert_eq!(names, ["July 2015 to June 2016", "July 2016 to June 2017"]);
    let typed = compare(&job(&text, &[("site.weather_year", "2015")]), &record).unwrap();
    for (option, typed) in table.rows[0].found.options.iter().zip(&typed.options) {
        assert_eq!(option.yearly_cost(), typed.yearly_cost());
    }
    assert_eq!(table.rows[1].found.reused, 6); // the latest is the one that was run first
    assert_ne!(table.rows[0].found.options, table.rows[1].found.options);
    assert_eq!(
        years(&record_job, &chicago(), &compare(&job(&crate::demo_job::text(), &[]), &chicago()).unwrap()),
        Ok(None)
    );
}

/// A truck that comes a month later, rooms that lose less, no help, a winter of the past: each is what
/// the same words typed into the job come to, and each tells which option costs least and by how much.
#[test]
fn a_late_truck_a_tighter_house_and_no_help_are_scenarios_like_any_other() {
    let whole = with_tank();
    let from = whole.find("[[scenario]]").unwrap();
    let to = whole.find("[economics]").unwrap();
    let own = "[[scenario]]\nname = \"truck a month late\"\nset = [\"supply.500 gallon tank.lead_days = 34\", \
               \"supply.500 gallon tank.cold_lead_days = 34\"]\n\
               [[scenario]]\nname = \"tighter house\"\nset = [\"house.zone.main.design_load = 27000 Btu/h\"]\n\
               [[scenario]]\nname = \"no help\"\nset = [\"economics.count_incentives = false\"]\n";
    let job = job(&format!("{}{own}{}", &whole[..from], &whole[to..]), &[]);
    let weather = chicago();
    let first = compare(&job, &weather).unwrap();
    let table = scenarios(&job, &weather, &first).unwrap();
    let typed = [
        (
            "truck a month late",
            &[("supply.500 gallon tank.lead_days", "34"), ("supply.500 gallon tank.cold_lead_days", "34")][..],
        ),
        ("tighter house", &[("house.zone.main.design_load", "27000 Btu/h")]),
        ("no help", &[("economics.count_incentives", "false")]),
    ];
    for (row, (name, keys)) in table.rows.iter().skip(1).zip(typed) {
        assert_eq!(row.name.as_deref(), Some(name));
        let set = |text: String, (key, value): &(&str, &str)| edit::set(&text, key, value).unwrap();
        let text = keys.iter().fold(job.text.clone(), set);
        let typed = compare(&reader::read("demo", text).unwrap(), &weather).unwrap();
        for (option, typed) in row.found.options.iter().zip(&typed.options) {
            assert_eq!(option.yearly_cost(), typed.yearly_cost(), "{name}: {}", option.name);
            assert_eq!(option.hours_not_kept_warm, typed.hours_not_kept_warm());
        }
        let least = row.least_a_year().unwrap();
        let warm = row.found.options.iter().filter(|option| !option.goes_cold());
        assert_eq!(Some(least.cost), warm.map(|option| option.yearly_cost()).min_by(f64::total_cmp));
        assert!(least.next.unwrap().1 >= 0.0);
    }
    // With 34 days from order to truck and 15 days of fuel at the reorder level, the furnace runs dry.
    let furnace = |row: usize| {
        table.rows[row].found.options.iter().find(|option| option.name == "Propane furnace").unwrap()
    };
    assert!(!furnace(0).goes_cold() && furnace(1).goes_cold());
    assert!(furnace(2).yearly_cost() < furnace(0).yearly_cost());
    let over = |row: usize| table.rows[row].found.options[0].life_cycle_cost.unwrap();
    assert!(over(3) > over(0)); // the first option has a rebate
}
