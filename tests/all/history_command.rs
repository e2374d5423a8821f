//! `history` as a person runs it: the demonstration, a file of one's own, what is refused.
//!
//! All prices are invented. Start at the test names.

use crate::commands_start::winterledger;
use serde_json::Value;

#[test]
fn the_demonstration_tells_its_season_its_spikes_and_what_it_cannot_say() {
    let folder = tempfile::tempdir().unwrap();
    let output = winterledger().args(["history", "--out"]).arg(folder.path()).output().unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let told = String::from_utf8_lossy(&output.stdout).into_owned();
    for words in [
        "demonstration, invented",
        "How do the months of a winter differ?",
        "What could the winter after these prices be like",
        "what fuel costs in summer is asked",
        "[prices.propane.moves]",
        "apr = \"? $/gal\"",
        "of_winters = 20",
    ] {
        assert!(told.contains(words), "{words}\n{told}");
    }
    for name in
        ["price_history.svg", "price_history.png", "price_season.csv", "price_lines.toml", "price_model.csv"]
    {
        assert!(folder.path().join(name).exists(), "{name}");
    }
    let again = winterledger().args(["history", "--json"]).output().unwrap();
    let json: Value = serde_json::from_slice(&again.stdout).unwrap();
    assert_eq!(json["price_season"].as_array().unwrap().len(), 6);
    let quantiles = &json["winter_ahead"][3];
    assert!(quantiles["price_p10"].as_f64().unwrap() < quantiles["price_p90"].as_f64().unwrap());
}

/// The lines for the job, with the price of summer that is asked for, are read as they stand.
#[test]
fn its_lines_fit_into_a_job() {
    let folder = tempfile::tempdir().unwrap();
    let output =
        winterledger().args(["history", "--summer", "1.99", "--out"]).arg(folder.path()).output().unwrap();
    assert!(output.status.success());
    let lines = std::fs::read_to_string(folder.path().join("price_lines.toml")).unwrap();
    let demo = crate::demo_job::with_tank();
    let (from, to) = (demo.find("[prices.propane]").unwrap(), demo.find("[prices.oil_no_2]").unwrap());
    let job = folder.path().join("job.toml");
    std::fs::write(&job, format!("{}{lines}\n{}", &demo[..from], &demo[to..])).unwrap();
    winterledger().arg("check").arg(&job).assert().success();
}

/// One's own file, its text and options, into what the program says of it.
fn told(text: &str, options: &[&str]) -> (Option<i32>, String) {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("mine.csv");
    std::fs::write(&file, text).unwrap();
    let output = winterledger().arg("history").arg(&file).args(options).output().unwrap();
    (output.status.code(), String::from_utf8_lossy(&output.stderr).into_owned())
}

#[test]
fn what_cannot_be_fitted_is_refused_with_its_place() {
    let demo = include_str!("../../data/prices/demo-propane.csv");
    let seven: String = demo
        .lines()
        .filter(|line| *line < "2007-07" || !line.starts_with("20"))
        .collect::<Vec<_>>()
        .join("\n");
    let (code, said) = told(&seven, &[]);
    assert_eq!(code, Some(2));
    assert!(said.contains("7 winters") && said.contains("8 or more") && said.contains("scenarios"), "{said}");
    let (code, said) = told("date,$/gal\n2020-10-05,2.10\n2020-10-05,2.12\nsoon,2\n2020-11-02,-1\n", &[]);
    assert_eq!(code, Some(2));
    for words in
        ["mine.csv, line 3", "mine.csv, line 4", "mine.csv, line 5", "'soon' is no date", "'-1' is no price"]
    {
        assert!(said.contains(words), "{words}\n{said}");
    }
    let (code, said) = told(demo, &["--half-life-from", "6", "--half-life-to", "2"]);
    assert_eq!(code, Some(2));
    assert!(said.contains("is less than --half-life-from"), "{said}");
    // One byte more than 8 MB (8 × 2^20), which a reader that cuts would take without a word.
    let (code, said) = told(&format!("{demo}{}", "\n".repeat((8 << 20) + 1 - demo.len())), &[]);
    assert_eq!(code, Some(2));
    assert!(said.contains("is larger than 8 MB"), "{said}");
}

/// What the program says of the demonstration with only the lines that `keep` keeps.
fn shown(keep: impl Fn(&str) -> bool) -> String {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("mine.csv");
    let demo = include_str!("../../data/prices/demo-propane.csv").lines();
    let kept: Vec<&str> = demo.filter(|line| !line.starts_with("20") || keep(line)).collect();
    std::fs::write(&file, kept.join("\n")).unwrap();
    let output = winterledger().arg("history").arg(&file).output().unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    // Lines are broken to fit the terminal.
    String::from_utf8_lossy(&output.stdout).split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn one_price_a_month_is_told_to_hide_spikes() {
    let told = shown(|line| &line[8..10] <= "07");
    for words in ["Spikes cannot be found from about one price a month", "as in 2004-10"] {
        assert!(told.contains(words), "{words}\n{told}");
    }
    assert!(!told.contains("spike_winters =") && !told.contains("A spike was found in"), "{told}");
}

#[test]
fn slipped_points_mixed_units_early_years_and_unknown_fuels_are_refused() {
    let head = "date,$/gal\n2004-10-04,2.10\n2004-10-11,2.12\n";
    for (more, options, words) in [
        ("2004-10-18,21.30\n2004-10-25,2.14\n", &[][..], "21.3 on 2004-10-18"),
        ("2004-10-18,212\n2004-10-25,214\n", &[], "as if one were in cents"),
        ("0005-10-18,2.14\n", &[], "lies before 1900"),
        ("", &["--fuel", "propan"], "did you mean propane?"),
    ] {
        let (code, said) = told(&format!("{head}{more}"), options);
        assert!(code == Some(2) && said.contains(words), "{words}\n{said}");
        assert!(more.is_empty() || said.contains("mine.csv, line 4"), "{said}");
    }
}

#[test]
fn a_bound_that_was_not_typed_is_told_as_a_judgement() {
    let assumed = |options: &[&str]| {
        let output = winterledger().arg("history").args(options).output().unwrap();
        String::from_utf8_lossy(&output.stdout).contains("half-life of a departure from")
    };
    assert!(assumed(&["--half-life-from", "1"]) && assumed(&["--half-life-to", "3"]));
    assert!(!assumed(&["--half-life-from", "1", "--half-life-to", "3"]));
}
