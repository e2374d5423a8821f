//! `reports/demo`: what `compare --out` writes for the demonstration, committed so that every change of what
//! people see is seen. Snapshots of the program's own output, no checks of it; pixels are left out, as the
//! same pictures stand there as SVG.
//!
//! `WINTERLEDGER_REWRITE=1 cargo test --test all -- reports` writes the folder anew; read the difference
//! before it is committed.

use crate::commands_start::winterledger;
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

/// The whole folder stays small, bytes.
const MOST: usize = 2_000_000;

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("reports/demo")
}

/// The files of a folder by name, but for pixels.
fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let entries = fs::read_dir(folder).into_iter().flatten().map(|entry| entry.unwrap().path());
    let kept = entries.filter(|path| path.extension().is_none_or(|e| e != "png"));
    kept.map(|path| (path.file_name().unwrap().to_str().unwrap().to_owned(), fs::read(&path).unwrap()))
        .collect()
}

/// The first line in which two files differ.
fn difference(old: &[u8], new: &[u8]) -> String {
    let (old, new) = (String::from_utf8_lossy(old), String::from_utf8_lossy(new));
    let lines = old.lines().chain([""]).zip(new.lines().chain([""]));
    let (number, (was, is)) = lines.enumerate().find(|(_, (was, is))| was != is).unwrap_or_default();
    let short = |line: &str| line.chars().take(300).collect::<String>();
    format!("line {}\n- {}\n+ {}", number + 1, short(was), short(is))
}

#[test]
fn the_gallery_of_the_demonstration_is_what_the_program_writes() {
    let made = tempfile::tempdir().unwrap();
    let output = winterledger().args(["compare", "--out"]).arg(made.path()).output().unwrap();
    assert!(output.status.success(), "{output:?}");
    let found = files(made.path());
    let size: usize = found.values().map(Vec::len).sum();
    assert!(size < MOST, "{size}");
    if std::env::var_os("WINTERLEDGER_REWRITE").is_some() {
        let _ = fs::remove_dir_all(folder());
        fs::create_dir_all(folder()).unwrap();
        for (name, bytes) in &found {
            fs::write(folder().join(name), bytes).unwrap();
        }
        return;
    }
    let committed = files(&folder());
    let names = |list: &BTreeMap<String, Vec<u8>>| list.keys().cloned().collect::<Vec<_>>();
    let help = "WINTERLEDGER_REWRITE=1 cargo test --test all -- reports writes reports/demo anew";
    assert_eq!(names(&committed), names(&found), "{help}");
    for (name, bytes) in &found {
        let old = &committed[name];
        assert!(old == bytes, "{name}, {}\n{help}", difference(old, bytes));
    }
}
