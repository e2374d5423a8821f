//! The gallery of messages: `tests/errors/NAME.toml` is checked, its message must be `NAME.txt`; a
//! weather file `NAME.csv` likewise.
//!
//! The texts are snapshots of the program's own wording, each read as prose by a person. After a
//! change of wording, `WINTERLEDGER_REWRITE=1 cargo test --test all gallery` writes them anew; read
//! the difference before it is committed.

use std::fs;
use std::path::{Path, PathBuf};

use crate::commands_start::winterledger;
use winterledger::cli::messages::render;
use winterledger::job::reader::from_bytes;

const NONE: &str = "no problem was found\n";

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/errors")
}

fn entries() -> Vec<PathBuf> {
    let files = fs::read_dir(folder()).unwrap().map(|entry| entry.unwrap().path());
    let mut inputs: Vec<_> =
        files.filter(|path| path.extension().is_some_and(|e| e == "toml" || e == "csv")).collect();
    // A weather file that a job here names has nothing wrong with it.
    inputs.retain(|path| !path.ends_with("weather_bins_good.csv"));
    inputs.sort();
    inputs
}

/// The reader's own message; where it has none, that of the whole program.
fn message(input: &Path) -> String {
    let bytes = fs::read(input).unwrap();
    let name = input.file_name().unwrap().to_str().unwrap();
    let command = match input.extension().is_some_and(|e| e == "csv") {
        true => "weather",
        false => match from_bytes(name, &bytes) {
            Err(problems) => return render(&problems, std::str::from_utf8(&bytes).ok(), false),
            Ok(_) => "check",
        },
    };
    let output = winterledger().current_dir(folder()).args([command, name]).output().unwrap();
    assert!([Some(0), Some(2)].contains(&output.status.code()), "{name}: {output:?}");
    match output.status.code() {
        Some(2) => String::from_utf8(output.stderr).unwrap(),
        _ => NONE.to_owned(),
    }
}

/// Lines of both texts, `-` expected and `+` found, common ones at start and end left out.
fn difference(expected: &str, found: &str) -> String {
    let (old, new): (Vec<_>, Vec<_>) = (expected.lines().collect(), found.lines().collect());
    let start = old.iter().zip(&new).take_while(|(a, b)| a == b).count();
    let rest = old.len().min(new.len()) - start;
    let end = old.iter().rev().zip(new.iter().rev()).take(rest).take_while(|(a, b)| a == b).count();
    let removed = old[start..old.len() - end].iter().map(|line| format!("- {line}\n"));
    let added = new[start..new.len() - end].iter().map(|line| format!("+ {line}\n"));
    removed.chain(added).collect()
}

#[test]
fn every_message_of_the_gallery_reads_as_written() {
    let rewrite = std::env::var_os("WINTERLEDGER_REWRITE").is_some();
    let mut failures = String::new();
    for input in entries() {
        let found = message(&input);
        let beside = input.with_extension("txt");
        if rewrite {
            fs::write(&beside, &found).unwrap();
        }
        let expected = fs::read_to_string(&beside).unwrap_or_default();
        if expected != found {
            failures.push_str(&format!("{}:\n{}\n", beside.display(), difference(&expected, &found)));
        }
    }
    assert!(failures.is_empty(), "messages differ (- written, + now):\n{failures}");
}

#[test]
fn the_gallery_is_whole() {
    let inputs = entries();
    assert!(inputs.len() >= 100, "only {} entries", inputs.len());
    for input in inputs {
        let shown = message(&input);
        let name = input.display();
        assert_ne!(shown, NONE, "{name} is in the gallery but has no problem");
        assert!(!shown.contains('\u{1b}'), "{name} shows a control character");
        assert!(shown.lines().all(|line| line.chars().count() <= 160), "{name} has a line that is too long");
    }
    for text in fs::read_dir(folder()).unwrap().map(|entry| entry.unwrap().path()) {
        if text.extension().is_some_and(|e| e == "txt") {
            let input = ["toml", "csv"].iter().any(|e| text.with_extension(e).exists());
            assert!(input, "{} has no input", text.display());
        }
    }
}
