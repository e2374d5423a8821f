//! A job in one system of units shows none of the other: in tables, CSV heads, charts and the terminal.
//!
//! Defaults are written as a job may write them. Start at the tests.

use crate::demo_job::{chicago, job, with_tank};
use winterledger::comparison::compare;
use winterledger::report::front::front;
use winterledger::report::sheet::Sheet;
use winterledger::report::studied::Studied;
use winterledger::report::{build, files, terminal};
use winterledger::study;

/// Signs of US units, and of the SI units that replace them.
const US: [&str; 9] = ["\u{b0}F", "degF", "Btu", "cfm", "_ft", " ft ", "_gal", " gal ", "gallon"];
const SI: [&str; 5] = ["\u{b0}C", "degC", "_L_s", "propane_L", "litre"];

/// Whatever a reader sees that is made by the program: terminal up to the defaults, heads of CSV, charts.
fn shown(units: &str) -> Vec<(String, String)> {
    // The job's own words are the job's own, so its tank is not called by its gallons.
    let text = with_tank().replace("500 gallon tank", "tank");
    let (job, weather) = (job(&text, &[("job.units", units)]), chicago());
    let c = compare(&job, &weather).unwrap();
    let report = build::report(&c);
    let text = terminal::render(&report, 80);
    let (before, _) = text.split_once("\nNotes\n").unwrap();
    let mut seen = vec![("terminal".to_owned(), before.to_owned())];
    let (around, levers) = (study::around(&job, &weather, &c).unwrap(), study::levers(&c));
    let sheet = Sheet { front: front(&c, &around, &Studied::default()), logo: None, levers };
    for file in files::ready_files(&c, &report, &sheet, &Studied::default()).unwrap() {
        let text = String::from_utf8(file.bytes).unwrap_or_default();
        if file.name.ends_with(".csv") {
            seen.push((file.name, format!("{},", text.lines().next().unwrap())));
        } else if file.name.ends_with(".svg") {
            seen.push((file.name, text));
        }
    }
    seen
}

fn has_none(units: &str, foreign: &[&str], own: &str) {
    let seen = shown(units);
    assert!(seen.iter().any(|(_, text)| text.contains(own)), "{own} is nowhere, so nothing is held");
    for (name, text) in seen {
        for sign in foreign {
            let line = text.lines().find(|line| line.contains(sign)).unwrap_or_default();
            let shown: String = line.chars().take(300).collect();
            assert!(!text.contains(sign), "{name} in {units} has {sign:?}: {shown}");
        }
    }
}

#[test]
fn a_job_in_si_units_shows_no_us_unit() {
    has_none("si", &US, "\u{b0}C");
}

#[test]
fn a_job_in_us_units_shows_no_si_unit() {
    has_none("us", &SI, "\u{b0}F");
}
