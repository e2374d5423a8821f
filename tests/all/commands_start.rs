//! `start`, `check` and `completions` as a person runs them.

use assert_cmd::Command;
use std::process::Stdio;
use winterledger::job::edit::set;
use winterledger::job::reader::read;
use winterledger::report::wording::assumptions;
use winterledger::sources::{Assumption, Source};

pub(crate) fn winterledger() -> Command {
    let mut command = Command::cargo_bin("winterledger").unwrap();
    command.env_remove("COLUMNS").env("NO_COLOR", "1");
    command
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8(bytes.to_vec()).unwrap()
}

#[test]
fn the_starter_job_is_written_once_checks_and_compares() {
    let folder = tempfile::tempdir().unwrap();
    let run = |arguments: &[&str]| winterledger().current_dir(&folder).args(arguments).output().unwrap();
    let first = run(&["start", "house.toml"]);
    assert_eq!((first.status.code(), text(&first.stdout)), (Some(0), String::new()));
    assert!(text(&first.stderr).contains("winterledger check house.toml"));
    let written = std::fs::read_to_string(folder.path().join("house.toml")).unwrap();
    assert_eq!(text(&run(&["start"]).stdout), written);

    let checked = run(&["check", "house.toml"]);
    assert_eq!(checked.status.code(), Some(0), "{}", text(&checked.stderr));
    let shown = text(&checked.stdout);
    // Every line with a value that says REPLACE ME is counted, and what is said first is not that all is well.
    let left =
        written.lines().filter(|l| l.contains("REPLACE ME") && !l.trim_start().starts_with('#')).count();
    assert!(
        shown.starts_with(&format!("No errors in house.toml, but {left} places to look at\n")),
        "{shown}"
    );
    assert!(shown.contains(&format!("{left} lines still say REPLACE ME")), "{shown}");
    let own = written.replace("REPLACE ME", "ours");
    std::fs::write(folder.path().join("own.toml"), &own).unwrap();
    assert!(text(&run(&["check", "own.toml"]).stdout).starts_with("No problems in own.toml\n"));
    std::fs::write(folder.path().join("odd.toml"), own.replace("0.16 $/kWh", "16 $/kWh")).unwrap();
    let odd = text(&run(&["check", "odd.toml"]).stdout);
    assert!(odd.starts_with("No errors in odd.toml, but 1 place to look at\n"), "{odd}");
    assert!(
        odd.contains("The first of the notes below asks")
            && odd.contains("PLEASE CHECK the price of electricity"),
        "{odd}"
    );
    let compared = run(&["compare", "house.toml"]);
    assert_eq!(compared.status.code(), Some(0), "{}", text(&compared.stderr));
    for option in ["Heat pump with strips", "Heat pump and propane", "Propane furnace"] {
        assert!(text(&compared.stdout).contains(option), "{option}");
    }
}

#[test]
fn a_file_that_is_there_is_never_overwritten() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("mine.toml");
    std::fs::write(&path, "mine").unwrap();
    let output = winterledger().arg("start").arg(&path).output().unwrap();
    assert_eq!(output.status.code(), Some(2));
    assert!(text(&output.stderr).contains("is already there and stays as it is"));
    assert!(text(&output.stderr).contains("help: name a file that does not exist yet"));
    assert_eq!(std::fs::read_to_string(&path).unwrap(), "mine");
    let nowhere = winterledger().arg("start").arg(folder.path().join("no/such.toml")).output().unwrap();
    assert_eq!(nowhere.status.code(), Some(2));
    assert!(text(&nowhere.stderr).contains("make the folder first"));
}

#[test]
fn invented_values_of_the_starter_job_say_so() {
    let starter = include_str!("../../data/starter.toml");
    assert!(starter.matches("REPLACE ME").count() >= 20);
    assert!(starter.starts_with("#:schema ./job.schema.json\n"));
    let prices = starter.split("[prices.electricity]").nth(1).unwrap();
    assert_eq!(prices.matches("source = \"invented\"").count(), 2);
}

#[test]
fn check_tells_every_default_with_its_source_and_what_the_weather_gives() {
    let output = winterledger().args(["check"]).output().unwrap();
    let shown = text(&output.stdout);
    let flat = shown.split_whitespace().collect::<Vec<_>>().join(" ");
    for words in [
        "8,760, none missing",
        "standard time is −6 h from UTC; America/Chicago",
        "cycling_loss = 0.25",
        "default degradation coefficient of cooling with one speed",
        "published: ISO 13790:2008",
        "vent = \"77 degF\"",
    ] {
        assert!(flat.contains(words), "{words} is not in:\n{shown}");
    }
    assert!(output.stderr.is_empty());
}

#[test]
fn check_as_json_has_the_same_list_as_the_comparison() {
    let json = |command: &str| -> serde_json::Value {
        let output = winterledger().args([command, "--json"]).output().unwrap();
        serde_json::from_slice(&output.stdout).unwrap()
    };
    let (checked, compared) = (json("check"), json("compare"));
    assert_eq!(checked["problems"].as_array().unwrap().len(), 0);
    assert!(checked["assumptions"].as_array().unwrap().len() >= 5);
    for assumption in compared["assumptions"].as_array().unwrap() {
        assert!(checked["assumptions"].as_array().unwrap().contains(assumption), "{assumption}");
        assert!(!assumption["source"]["text"].as_str().unwrap().is_empty());
    }
}

#[test]
fn problems_as_json_keep_the_error_stream_clean_and_point_into_the_text() {
    let output =
        winterledger().args(["check", "--json", "--set", "house.zone.main.indoor=70 degX"]).output().unwrap();
    assert_eq!((output.status.code(), text(&output.stderr)), (Some(2), String::new()));
    let found: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    let problem = &found["problems"][0];
    assert_eq!(problem["key"], "house.zone.main.indoor");
    assert!(problem["line"].as_u64().is_some() && problem["help"].as_str().is_some());
    let place = winterledger().args(["check", "--set", "site.weather=il-chicgo"]).output().unwrap();
    assert_eq!(place.status.code(), Some(2));
    let shown = text(&place.stderr);
    assert!(
        shown.contains("weather = \"il-chicgo\"") && shown.contains("did you mean 'il-chicago'?"),
        "{shown}"
    );
}

#[test]
fn completions_name_every_command_and_a_closed_pipe_is_quiet() {
    for shell in ["bash", "zsh", "fish", "powershell", "elvish"] {
        let shown = text(&winterledger().args(["completions", shell]).output().unwrap().stdout);
        for command in ["start", "check", "compare", "weather", "schema", "completions"] {
            assert!(shown.contains(command), "{shell}: {command}");
        }
    }
    for arguments in [["completions", "bash"], ["schema", "job"]] {
        let mut child = std::process::Command::new(env!("CARGO_BIN_EXE_winterledger"))
            .args(arguments)
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        drop(child.stdout.take());
        let output = child.wait_with_output().unwrap();
        assert_eq!((output.status.code(), text(&output.stderr)), (Some(0), String::new()), "{arguments:?}");
    }
}

#[test]
fn a_place_or_file_that_is_not_there_is_told_beside_what_else_is_wrong() {
    let folder = tempfile::tempdir().unwrap();
    let demo = include_str!("../../data/demo.toml").replace("afue = 0.95", "afue = 9.5");
    for (weather, told) in
        [("weather = \"il-chicgo\"", "il-chicago"), ("weather_file = \"no.csv\"", "is not there")]
    {
        let text = demo.replace("weather = \"il-chicago\"", weather);
        std::fs::write(folder.path().join("job.toml"), text).unwrap();
        let output = winterledger().current_dir(&folder).args(["check", "job.toml"]).output().unwrap();
        let message = String::from_utf8(output.stderr).unwrap();
        assert!(message.contains("afue") && message.contains(told), "{message}");
    }
}

/// What is printed as `key = value` can be copied into the job; what cannot stands behind a colon.
#[test]
fn defaults_that_are_printed_as_settings_can_be_pasted() {
    let jobs = [
        include_str!("../../data/demo.toml"),
        include_str!("../../data/small-tank.toml"),
        include_str!("../../data/starter.toml"),
    ];
    for job in jobs {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("job.toml");
        std::fs::write(&path, job).unwrap();
        let output = winterledger().args(["check", "--json"]).arg(&path).output().unwrap();
        let json: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
        let (mut pasted, mut told, mut changed) = (0, 0, job.to_owned());
        for found in json["assumptions"].as_array().unwrap() {
            let word = |name: &str| found[name].as_str().unwrap().to_owned();
            let source = Source::CommonPractice("any".into());
            let printed =
                assumptions(&[Assumption { key: word("key"), value: word("value"), source }]).remove(0);
            let key = word("key");
            let last = key.rsplit('.').next().unwrap();
            let Some(rest) = printed.strip_prefix(&format!("{last} = ")) else {
                assert!(printed.starts_with(&format!("{last}: ")), "{printed}");
                told += 1;
                continue;
            };
            let value = match rest.strip_prefix('"').and_then(|quoted| quoted.split_once('"')) {
                Some((value, _)) => format!("\"{value}\""),
                None => rest.split(" in ").next().unwrap().to_owned(),
            };
            changed = set(&changed, &key, &value).unwrap_or_else(|p| panic!("{printed}: {p:?}"));
            pasted += 1;
        }
        let again = read("job.toml", changed);
        assert!(again.is_ok(), "{:?}", again.err());
        assert!(pasted >= 8 && told < 12, "{pasted} {told}");
    }
}
