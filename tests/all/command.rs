//! The built program from outside: what it prints and writes, and what it says of bad input.
//!
//! Start at the tests.

use assert_cmd::Command;
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::process::Output;
use tempfile::TempDir;

fn program() -> Command {
    let mut command = Command::cargo_bin("winterledger").unwrap();
    command.env_remove("COLUMNS").env("NO_COLOR", "1");
    command
}

/// Runs `compare` with these arguments.
fn compare(arguments: &[&str]) -> Output {
    program().arg("compare").args(arguments).output().unwrap()
}

fn stdout(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).unwrap()
}

fn stderr(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).unwrap()
}

fn demo() -> String {
    crate::demo_job::text()
}

/// Refused with exit code 2, nothing on standard output, and all of `told` in the message.
fn refused(output: &Output, told: &[&str]) {
    let message = stderr(output);
    assert_eq!(output.status.code(), Some(2), "{message}");
    assert!(output.stdout.is_empty(), "{}", stdout(output));
    for part in told {
        assert!(message.contains(part), "'{part}' is not in:\n{message}");
    }
    assert!(!message.contains("panicked"), "{message}");
}

/// The job of this text in a folder of its own, beside files of these names and contents.
fn compare_text(job: &str, beside: &[(&str, &str)]) -> Output {
    let folder = TempDir::new().unwrap();
    for (name, content) in beside {
        fs::write(folder.path().join(name), content).unwrap();
    }
    let path = folder.path().join("job.toml");
    fs::write(&path, job).unwrap();
    compare(&[path.to_str().unwrap()])
}

/// The demonstration with one text replaced, which must be there.
fn demo_with(from: &str, to: &str) -> String {
    let text = demo();
    assert!(text.contains(from), "{from}");
    text.replacen(from, to, 1)
}

fn with_weather_file(name: &str) -> String {
    demo_with("weather = \"il-chicago\"", &format!("weather_file = \"{name}\""))
}

#[test]
fn the_side_by_side_names_every_option_and_fits_eighty_columns() {
    let output = compare(&[]);
    assert!(output.status.success(), "{}", stderr(&output));
    let text = stdout(&output);
    for option in ["Heat pumps with strips", "Heat pumps alone", "Electric resistance"] {
        assert!(text.contains(option), "{text}");
    }
    let widest = text.lines().map(|line| line.chars().count()).max().unwrap();
    assert!(widest <= 80 && text.lines().count() > 20, "{widest} columns");
    assert!(!text.contains('\u{1b}'), "colour in a pipe");
}

#[test]
fn json_has_the_promised_fields_and_stays_apart_from_remarks() {
    let output = compare(&["--json"]);
    assert!(output.status.success(), "{}", stderr(&output));
    let json: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(json["schema_version"], 1);
    let options = json["options"].as_array().unwrap();
    assert_eq!(options.len(), 6);
    for option in options {
        let name = option["name"].as_str().unwrap();
        let cost = option["yearly_cost"].as_f64().unwrap();
        let postings = option["postings"].as_array().unwrap();
        let sum: f64 = postings.iter().map(|p| p["amount"].as_f64().unwrap()).sum();
        assert!((sum - cost).abs() < 1e-6 && cost > 500.0, "{name}: {sum} {cost}");
        assert!(option["hours_not_kept_warm"].is_u64(), "{name}");
    }
    let cold = options.iter().find(|o| o["name"] == "Heat pumps alone").unwrap();
    assert!(cold["hours_not_kept_warm"].as_u64().unwrap() > 0, "the cold option must be called cold");
}

#[test]
fn a_study_without_its_option_asks_with_the_command_to_type() {
    let run = |arguments: &[&str]| program().args(arguments).output().unwrap();
    let typed = "winterledger sizes --option \"Heat pumps with strips\"";
    refused(&run(&["sizes"]), &["more than one option fits", "Heat pumps alone", typed]);
    let none = "no option has a heat pump followed by a furnace in the zone 'studio wing'";
    refused(&run(&["changeover", "--zone", "studio wing"]), &[none, "--zone"]);
}

/// Every file of a folder by name.
fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let entries = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap());
    entries.map(|entry| (entry.file_name().into_string().unwrap(), fs::read(entry.path()).unwrap())).collect()
}

#[test]
fn out_writes_every_file_whole_and_the_same_bytes_twice() {
    let folder = TempDir::new().unwrap();
    let run = |name: &str| {
        let place = folder.path().join(name);
        let output = compare(&["--out", place.to_str().unwrap()]);
        assert!(output.status.success(), "{}", stderr(&output));
        files(&place)
    };
    let (first, second) = (run("one"), run("two/deep"));
    assert_eq!(first.keys().collect::<Vec<_>>(), second.keys().collect::<Vec<_>>());
    for (name, bytes) in &first {
        assert!(second[name] == *bytes, "{name} differs between two runs");
        assert!(!bytes.is_empty() && !name.starts_with('.'), "{name}");
    }
    for chart in ["yearly_cost", "capacity"] {
        assert!(first[&format!("{chart}.png")].starts_with(b"\x89PNG\r\n\x1a\n"));
        let svg = std::str::from_utf8(&first[&format!("{chart}.svg")]).unwrap();
        resvg::usvg::Tree::from_str(svg, &resvg::usvg::Options::default()).unwrap();
    }
    let json: serde_json::Value = serde_json::from_slice(&first["comparison.json"]).unwrap();
    assert_eq!(json["options"].as_array().unwrap().len(), 6);
    for (name, bytes) in first.iter().filter(|(name, _)| name.ends_with(".csv")) {
        let rows: Result<Vec<_>, _> = csv::Reader::from_reader(bytes.as_slice()).into_records().collect();
        assert!(!rows.unwrap().is_empty(), "{name} has no row");
    }
}

#[test]
fn a_folder_that_cannot_be_written_is_refused_and_nothing_is_left() {
    let folder = TempDir::new().unwrap();
    // A file where the folder should be; a root user may write anywhere else.
    let taken = folder.path().join("taken");
    fs::write(&taken, "mine").unwrap();
    for place in [taken.clone(), taken.join("below")] {
        let output = compare(&["--out", place.to_str().unwrap()]);
        assert_eq!(output.status.code(), Some(2), "{}", stderr(&output));
        let told = ["cannot be written", "is a file, and a folder is needed"];
        assert!(told.iter().any(|part| stderr(&output).contains(part)), "{}", stderr(&output));
        assert!(stderr(&output).contains(place.to_str().unwrap()), "{}", stderr(&output));
    }
    assert_eq!(files(folder.path()), BTreeMap::from([("taken".to_owned(), b"mine".to_vec())]));
    // A folder in the way of one of the files: nothing of the others may stand there either.
    let place = folder.path().join("out");
    fs::create_dir_all(place.join("comparison.json")).unwrap();
    let output = compare(&["--out", place.to_str().unwrap()]);
    assert_eq!(output.status.code(), Some(2), "{}", stderr(&output));
    let left: Vec<_> = fs::read_dir(&place).unwrap().map(|e| e.unwrap().file_name()).collect();
    assert_eq!(left, ["comparison.json"], "half-written");
}

#[test]
fn files_that_are_no_job_are_refused_by_name() {
    refused(&compare(&["no-such-job.toml"]), &["no-such-job.toml", "is not there"]);
    refused(&compare_text("", &[]), &["job.toml"]);
    let folder = TempDir::new().unwrap();
    let binary = folder.path().join("binary.toml");
    fs::write(&binary, [0_u8, 159, 146, 150, 0, 1, 2, 255]).unwrap();
    refused(&compare(&[binary.to_str().unwrap()]), &["binary.toml"]);
    refused(&compare(&[folder.path().to_str().unwrap()]), &["is a folder"]);
}

#[test]
fn what_a_job_may_not_say_is_refused_with_its_place() {
    let no_options = demo().split("[[option]]").next().unwrap().to_owned();
    let prices = demo()[demo().find("[prices.electricity]").unwrap()..].to_owned();
    refused(&compare_text(&format!("{no_options}\n{prices}"), &[]), &["option"]);
    let design = "design_load = \"33250 Btu/h\"";
    for (wrong, told) in [
        ("design_load = \"-33250 Btu/h\"", "-33250"),
        ("design_load = \"1e308 Btu/h\"", "1e308"),
        ("design_load = \"nan Btu/h\"", "nan"),
        ("design_load = nan", "nan"),
    ] {
        let output = compare_text(&demo_with(design, wrong), &[]);
        refused(&output, &["house.zone.main.design_load", told, "job.toml:"]);
    }
    let output = compare_text(
        &demo_with("balance_temperature = \"62 degF\"", "balance_temperature = \"-5 degF\""),
        &[],
    );
    refused(&output, &["balance_temperature", "-5 degF", "job.toml:"]);
    let output = compare_text(&demo_with("name = \"wing heat pump\"", "name = \"main heat pump\""), &[]);
    refused(&output, &["main heat pump", "job.toml:"]);
    let output = compare_text(&demo_with("name = \"Oil furnace\"", "name = \"Propane furnace\""), &[]);
    refused(&output, &["Propane furnace", "job.toml:"]);
}

#[test]
fn misspelt_names_of_what_is_built_in_get_a_suggestion() {
    let output = compare_text(&demo_with("\"il-chicago\"", "\"il-chicgo\""), &[]);
    refused(&output, &["il-chicgo", "did you mean 'il-chicago'?", "job.toml:"]);
    let output = compare_text(&demo_with("fuel = \"oil_no_2\"", "fuel = \"oil_no_22\""), &[]);
    refused(&output, &["oil_no_22", "oil_no_2", "job.toml:"]);
    let output = compare_text(&demo_with("[site]\n", "[site]\ntime_zone = \"America/Chicgo\"\n"), &[]);
    refused(&output, &["America/Chicgo", "America/Chicago", "job.toml:"]);
    let rows = demo();
    let from = rows.find("heating = [\n").unwrap();
    let to = from + rows[from..].find("\n]\n").unwrap() + 3;
    let table = format!("{}table = \"cold-climate-63\"\n{}", &rows[..from], &rows[to..]);
    refused(&compare_text(&table, &[]), &["cold-climate-63", "cold-climate-36", "job.toml:"]);
}

fn hourly(rows: usize) -> String {
    let hours: String = (0..rows).map(|h| format!("{}.5\n", (h % 30) as i32 - 12)).collect();
    format!("# place: Old Mill\n# utc_offset_h: -6\n# year: typical\ndry_bulb_degC\n{hours}")
}

#[test]
fn weather_files_that_cannot_be_used_are_refused_and_a_whole_one_is_run() {
    let job = with_weather_file("mill.csv");
    let whole = compare_text(&job, &[("mill.csv", &hourly(8760))]);
    assert!(whole.status.success(), "{}", stderr(&whole));
    refused(&compare_text(&job, &[("mill.csv", &hourly(8759))]), &["mill.csv", "8759", "8760"]);
    refused(&compare_text(&job, &[("mill.csv", "")]), &["mill.csv"]);
    refused(&compare_text(&job, &[("mill.csv", "date,warmth\n1,2\n")]), &["mill.csv"]);
    for wrong in ["nan", "1e308", "inf"] {
        let text = hourly(8760).replacen("-7.5", wrong, 1);
        refused(&compare_text(&job, &[("mill.csv", &text)]), &["mill.csv", wrong]);
    }
    refused(&compare_text(&job, &[]), &["mill.csv", "is not there", "job.toml:"]);
}

#[test]
fn bin_weather_runs_at_flat_prices_and_is_refused_with_moving_ones() {
    let bins = "# place: Old Mill\noutdoor_degF,hours\n62,740\n47,684\n32,542\n17,54\n7,2\n-8,1\n";
    let moving = with_weather_file("bins.csv");
    let output = compare_text(&moving, &[("bins.csv", bins)]);
    refused(&output, &["prices.propane", "moves through the year", "no months"]);
    let flat = crate::demo_job::with_flat_propane(&moving);
    let output = compare_text(&flat, &[("bins.csv", bins)]);
    assert!(output.status.success(), "{}", stderr(&output));
    assert!(stdout(&output).contains("Propane furnace"));
}

/// Yearly cost of the first option, with these arguments.
fn first_cost(arguments: &[&str]) -> f64 {
    let output = compare(&[&["--json"], arguments].concat());
    assert!(output.status.success(), "{}", stderr(&output));
    let json: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    json["options"][0]["yearly_cost"].as_f64().unwrap()
}

#[test]
fn set_changes_one_value_and_a_bad_one_is_told() {
    let before = first_cost(&[]);
    // Twelve months of 10 $ less, hand-worked.
    let after = first_cost(&["--set", "prices.electricity.fixed=26 $/month"]);
    assert!((before - after - 120.0).abs() < 1e-6, "{before} {after}");
    refused(&compare(&["--set", "house.zone.main.design_lod=1 kW"]), &["design_lod", "design_load"]);
    refused(&compare(&["--set", "house.zone.attic.design_load=1 kW"]), &["attic"]);
    refused(&compare(&["--set", "no value"]), &["no value", "="]);
    refused(&compare(&["--set", "house.zone.main.design_load=1 gal"]), &["design_load", "gal"]);
}

#[test]
fn arguments_that_are_none_are_refused() {
    refused(&program().arg("compere").output().unwrap(), &["compere"]);
    refused(&compare(&["--jsn"]), &["--jsn"]);
}

#[test]
fn a_reader_that_goes_away_is_no_failure() {
    let program = assert_cmd::cargo::cargo_bin("winterledger");
    for arguments in ["compare", "compare --json", "--help"] {
        let script = format!("'{}' {arguments} | head -n 1", program.display());
        let output = std::process::Command::new("sh").args(["-c", &script]).output().unwrap();
        assert!(output.status.success() && output.stderr.is_empty(), "{arguments}: {}", stderr(&output));
    }
}

#[test]
fn the_program_tells_its_version() {
    let output = program().arg("--version").output().unwrap();
    assert_eq!(stdout(&output), format!("winterledger {}\n", env!("CARGO_PKG_VERSION")));
}

#[test]
fn working_says_which_moments_there_are() {
    let working = |arguments: &[&str]| {
        let of = ["working", "--option", "Heat pumps alone"];
        program().args(of).args(arguments).output().unwrap()
    };
    // The range is a job's own for outdoors, −90 to 60 °C: −90 · 1.8 + 32 = −130, 60 · 1.8 + 32 = 140.
    for outdoor in ["1e308 degF", "-500 degF"] {
        refused(&working(&["--outdoor", outdoor]), &[outdoor, "\u{2212}130", "140", "17 degF"]);
    }
    refused(&working(&["--outdoor", "17"]), &["the unit is missing", "help: write --outdoor \"17 degF\""]);
    refused(&working(&["--at", "1-24 25"]), &["00 to 23", "help: write --at \"01-24 06\""]);
    // In 2023, on whose calendar a typical year is laid, clocks went forward on 12 March at 02:00.
    refused(&working(&["--at", "03-12 02"]), &["skips this hour", "standard time"]);
    refused(&working(&["--at", "02-29 02"]), &["no such day", "help:"]);
    let summer = working(&["--at", "07-15 15"]);
    let text = stdout(&summer);
    assert!(text.contains("15:00 by the clock (14:00 in the weather\u{2019}s standard time)"), "{text}");
    assert!(text.contains("No heat is wanted.") && !text.contains("Need:"), "{text}");
    assert!(!text.contains("0.00000 "), "a slope of nothing says nothing:\n{text}");
}
