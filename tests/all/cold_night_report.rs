//! The coldest night in the report: warmth before cost, readable in 80 columns, and everything in files.
//!
//! Start at the tests.

use crate::demo_job::{self, STEADY, compared};
use winterledger::comparison::{Comparison, compare};
use winterledger::report::{build, csv_text, json, terminal};
use winterledger::weather::{Bin, BinTable, Weather};

fn printed(c: &Comparison) -> String {
    terminal::render(&build::report(c), 80)
}

#[test]
fn failures_and_power_come_before_cost_and_fit_in_80_columns() {
    let text = printed(&compared(&[]));
    let place = |words: &str| text.find(words).unwrap_or_else(|| panic!("no {words:?} in\n{text}"));
    let order = [
        "How far down does it carry",
        "What if a machine fails and stays out for the coldest 5 days",
        "If the power fails",
        "What does it cost",
    ];
    assert!(order.windows(2).all(|pair| place(pair[0]) < place(pair[1])));
    for line in text.lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
}

#[test]
fn units_and_zone_names_are_the_jobs() {
    let text = printed(&compared(&[("job.units", "si")]));
    for words in ["7\u{a0}°C", "main is at 13\u{a0}°C after"] {
        let plain = text.replace('\n', " ");
        assert!(plain.contains(words), "no {words:?} in\n{text}");
    }
}

#[test]
fn the_engineers_tables_are_files_with_units_in_their_heads() {
    let report = build::report(&compared(&[]));
    for name in ["first_machine_shares", "strips", "supply_air", "heat_off", "failures"] {
        let table = report.appendices.iter().find(|t| t.name == name).unwrap_or_else(|| panic!("no {name}"));
        assert!(table.rows.iter().all(|row| row.len() == table.columns.len()), "{name}");
        assert!(csv_text::csv(table).unwrap().lines().count() > 1, "{name}");
        assert!(report.tables.iter().all(|t| t.name != name), "{name} is too long for people");
    }
}

#[test]
fn what_tempers_the_air_while_a_heat_pump_defrosts_is_a_file_of_its_own() {
    let table = |c: &Comparison| build::report(c).appendices.into_iter().find(|t| t.name == "tempering");
    // The job says that nothing tempers; without that line the first stage of the strips does.
    assert!(table(&compared(&[])).is_none());
    let text: String = demo_job::text()
        .lines()
        .filter(|l| !l.starts_with("defrost_aux"))
        .map(|l| format!("{l}\n"))
        .collect();
    let c = compare(&demo_job::job(&text, &[]), &demo_job::chicago()).unwrap();
    let lines = csv_text::csv(&table(&c).unwrap()).unwrap();
    let sums = &c.options[0].zones[0].sums;
    let row = format!(
        "Heat pumps with strips,main,{:.6},{:.6},{},{}",
        sums.backup_heat_kwh, sums.tempering_heat_kwh, sums.backup_hours, sums.tempering_hours
    );
    assert_eq!(lines.lines().nth(1), Some(row.as_str()), "{lines}");
}

#[test]
fn the_json_tells_the_coldest_night_of_each_option() {
    let text = json::text(&compared(&[]), None).unwrap();
    assert!(!text.lines().any(|line| line.trim_end_matches(',').ends_with("-0.0")));
    let document: serde_json::Value = serde_json::from_str(&text).unwrap();
    let night = &document["options"][0]["cold_night"];
    // Typed: 17 kW of strips and baseboards; 17,000 W/240 V.
    assert_eq!(night["installed_strips"]["power_at_240V_kW"], 17.0);
    assert!((night["installed_strips"]["current_at_240V_A"].as_f64().unwrap() - 70.833_333).abs() < 1e-6);
    assert_eq!(night["panel"], "ask an electrician");
    assert_eq!(night["failures"]["days"], 5);
    assert_eq!(night["zones"][0]["heat_off_to_55degF"]["outcome"], "reached");
    assert_eq!(night["power_out"]["heats_without_power"], false);
    let worst = night["failures"]["worst"].as_u64().unwrap() as usize;
    assert_eq!(night["failures"]["runs"][worst]["part"], "blower");
}

#[test]
fn weather_without_hours_gives_no_failures_and_no_room_no_falling() {
    let bins = vec![Bin { temperature_c: 0.0, hours: 3000.0 }, Bin { temperature_c: -18.0, hours: 200.0 }];
    let weather = Weather::Bins(BinTable { place: "bins".into(), bins, sha256: String::new() });
    let job = demo_job::job(&demo_job::with_flat_propane(&demo_job::text()), &STEADY);
    let c = compare(&job, &weather).unwrap();
    assert!(c.options.iter().all(|o| o.cold_night.failures.is_none()));
    let text = printed(&c);
    assert!(!text.contains("What if a machine fails") && !text.contains("Without heat that night"));
    assert!(text.contains("If the power fails"));
    let document: serde_json::Value = serde_json::from_str(&json::text(&c, None).unwrap()).unwrap();
    assert!(document["options"][0]["cold_night"]["failures"].is_null());
}

#[test]
fn a_share_is_cut_for_people_and_exact_in_files() {
    // Hand-worked: cut, so that 99.6 % does not read as enough.
    let cell = winterledger::report::Cell::cut(99.6);
    assert_eq!(cell.shown(), "99");
    assert!(matches!(cell, winterledger::report::Cell::Number { value, .. } if value == 99.6));
}
