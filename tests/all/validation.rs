//! `reports/validation.md`: the checks against something outside the program that the tests write down.
//!
//! Runs the tests that hold such checks once more, in a process of their own that writes each check down.
//! Start at the test.

use serde_json::Value;
use std::collections::BTreeMap;
use std::path::Path;
use std::process::Command;

/// Tests that hold checks, by the beginnings of their names.
const TESTS: [&str; 8] = [
    "climate_extremes::",
    "cold_night::",
    "life_cycle::a_thousand",
    "ratings::",
    "reference::",
    "spreadsheet::libreoffice",
    "weather::the_statistics",
    "weather::numpy",
];

/// Origins, in the order of the page, each with what it means.
const ORIGINS: [(&str, &str); 5] = [
    ("published", "Numbers in print, read there or in a transcription, as the source says."),
    (
        "independent tool",
        "Worked out by another program, in the same run or outside the project; where none is named, its name was \
         not kept.",
    ),
    ("from memory", "Published numbers as remembered, not looked up in print."),
    ("common practice", "What the trade reckons with."),
    ("hand-worked", "Worked by hand from the rule; the source shows the arithmetic, or where it stands."),
];

const OPENING: &str = "# Validation

Checks of the program's numbers against something outside it, as the last run found them: those that the tests
write down. More stand in the tests alone. What is ours is never typed: `WINTERLEDGER_REWRITE=1 cargo test --test
all validation` runs the tests and writes this page, and the same test without it fails where the page is not what
the tests find. *Allowed* is how far the test lets ours be from the value. Differences that are no more than
rounding in the last digits of the computer (a billionth) are 0. The equivalent hours of the three European seasons
stand here twice: from the standards' tables as `ratings` reads them, and from the bins of `tests/reference` by the
bin method.
";

fn records() -> Vec<Value> {
    let folder = tempfile::tempdir().unwrap();
    let mut command = Command::new(std::env::current_exe().unwrap());
    command.args(TESTS).arg("--test-threads=2").env("WINTERLEDGER_RECORD", folder.path());
    let output = command.env_remove("WINTERLEDGER_REWRITE").output().unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stdout));
    let mut by_test: BTreeMap<String, Vec<Value>> = BTreeMap::new();
    for entry in std::fs::read_dir(folder.path()).unwrap() {
        let entry = entry.unwrap();
        let text = std::fs::read_to_string(entry.path()).unwrap();
        let lines = text.lines().map(|line| serde_json::from_str(line).unwrap()).collect();
        by_test.insert(entry.file_name().into_string().unwrap(), lines);
    }
    for name in TESTS {
        let name = name.replace("::", ".");
        assert!(by_test.keys().any(|test| test.starts_with(&name)), "no check of {name} was written down");
    }
    by_test.into_values().flatten().collect()
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap()
}

/// At most six figures that tell, trailing zeros left out.
fn figures(value: f64) -> String {
    if value == 0.0 {
        return "0".into();
    }
    let places = 5 - value.abs().log10().floor() as i32;
    if !(0..=12).contains(&places) {
        return if places < 0 { format!("{value:.0}") } else { format!("{value:.1e}") };
    }
    let text = format!("{value:.*}", places as usize);
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

fn row(check: &Value) -> String {
    let (value, ours) = (number(&check["value"]), number(&check["ours"]));
    let same = (ours - value).abs() <= 1e-9 * value.abs().max(1.0);
    let difference = if same { 0.0 } else { ours - value };
    let difference = if difference == 0.0 { "0".into() } else { format!("{difference:.1e}") };
    let cell = |key: &str| check[key].as_str().unwrap().replace('|', "\\|").replace('\n', " ");
    format!(
        "| {} | {} | {} | {} | {difference} | {:.1e} | `{}` |\n",
        cell("what"),
        cell("source"),
        figures(value),
        figures(if same { value } else { ours }),
        number(&check["tolerance"]),
        cell("test")
    )
}

fn page() -> String {
    let records = records();
    let mut page = OPENING.to_owned();
    for (origin, meaning) in ORIGINS {
        let checks: Vec<&Value> = records.iter().filter(|check| check["origin"] == origin).collect();
        page += &format!("\n## {origin}: {} checks\n\n{meaning}\n\n", checks.len());
        page += "| check | source | value | ours | difference | allowed | test |\n|---|---|---:|---:|---:|---:|---|\n";
        page.extend(checks.into_iter().map(row));
    }
    let known = |check: &&Value| ORIGINS.iter().any(|(origin, _)| check["origin"] == *origin);
    assert_eq!(records.iter().filter(known).count(), records.len(), "an origin without a heading");
    page
}

#[test]
fn the_page_of_checks_is_what_the_tests_find() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("reports/validation.md");
    let page = page();
    if std::env::var_os("WINTERLEDGER_REWRITE").is_some() {
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(&path, page).unwrap();
        return;
    }
    let committed = std::fs::read_to_string(&path).unwrap();
    assert!(
        committed == page,
        "WINTERLEDGER_REWRITE=1 cargo test --test all validation writes reports/validation.md anew"
    );
}
