//! A folder that is written again: what another job left there goes, what is somebody's own stays.
//!
//! Start at the tests.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use winterledger::report::files::ReadyFile;
use winterledger::report::folder::{LIST, write_all};

fn ready(name: &str, text: &str) -> ReadyFile {
    ReadyFile { name: name.into(), bytes: text.into() }
}

fn names(folder: &Path) -> BTreeSet<String> {
    let entries = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap());
    entries.map(|entry| entry.file_name().into_string().unwrap()).collect()
}

fn set(names: &[&str]) -> BTreeSet<String> {
    names.iter().map(|name| (*name).to_owned()).chain([LIST.to_owned()]).collect()
}

#[test]
fn another_jobs_files_go_and_nobody_elses() {
    let folder = tempfile::TempDir::new().unwrap();
    let place = folder.path();
    let both = [ready("both.csv", "1"), ready("tank.csv", "full"), ready("notes.csv", "old")];
    assert_eq!(write_all(place, &both, Some("aaaa")).unwrap().files, 3);
    fs::write(place.join("mine.txt"), "mine").unwrap();
    fs::write(place.join("notes.csv"), "changed by hand").unwrap();
    fs::write(place.join(".tank.csv.winterledger-part"), "half").unwrap();
    // The same job by another command takes nothing away; files of no job neither.
    write_all(place, &[ready("sizes.csv", "2")], Some("aaaa")).unwrap();
    write_all(place, &[ready("weather.csv", "3")], None).unwrap();
    let all = ["both.csv", "tank.csv", "notes.csv", "sizes.csv", "weather.csv", "mine.txt"];
    assert_eq!(names(place), set(&all), "the half-written one is gone");
    let written = write_all(place, &[ready("both.csv", "4")], Some("bbbb")).unwrap();
    assert_eq!(
        (written.removed, written.kept),
        (vec!["tank.csv".to_owned(), "sizes.csv".to_owned()], vec!["notes.csv".to_owned()],)
    );
    assert_eq!(names(place), set(&["both.csv", "notes.csv", "weather.csv", "mine.txt"]));
    assert_eq!(fs::read_to_string(place.join("notes.csv")).unwrap(), "changed by hand");
    // What was told once as somebody's own is left alone from then on.
    let again = write_all(place, &[ready("both.csv", "5")], Some("cccc")).unwrap();
    assert_eq!((again.removed.len(), again.kept.len()), (0, 0));
}

#[test]
fn a_list_that_leads_out_of_the_folder_or_is_not_ours_takes_nothing_away() {
    let folder = tempfile::TempDir::new().unwrap();
    let place = folder.path().join("out");
    fs::create_dir(&place).unwrap();
    fs::write(folder.path().join("outside.txt"), "x").unwrap();
    fs::write(place.join("inside.txt"), "x").unwrap();
    // SHA-256 of the one letter x, by sha256sum of GNU coreutils 9.
    let x = "2d711642b726b04401627ca9fbac32f5c8530fb1903cc4db02258717921a4881";
    let outside = folder.path().join("outside.txt");
    let list = format!("job_sha256,file,file_sha256\na,../outside.txt,{x}\na,{},{x}\n", outside.display());
    fs::write(place.join(LIST), list).unwrap();
    write_all(&place, &[ready("new.txt", "n")], Some("b")).unwrap();
    assert!(outside.exists() && place.join("inside.txt").exists());
    fs::write(place.join(LIST), format!("what,file,file_sha256\na,inside.txt,{x}\n")).unwrap();
    write_all(&place, &[ready("new.txt", "n")], Some("b")).unwrap();
    assert!(place.join("inside.txt").exists(), "a list with another head");
    fs::write(place.join(LIST), format!("job_sha256,file,file_sha256\na,inside.txt,{x}\n")).unwrap();
    write_all(&place, &[ready("new.txt", "n")], Some("b")).unwrap();
    assert!(!place.join("inside.txt").exists(), "the same line under our own head");
}
