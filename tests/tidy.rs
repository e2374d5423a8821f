//! The project's invariants, held on its own source text and pages.
//!
//! The compiler lets modules use each other in circles and files grow without end; these tests do
//! not. Every check is also shown a small bad text, so that it can be seen to fail. Start at the
//! test names; the rules themselves are in `tidy/`.

#[path = "tidy/bad.rs"]
mod bad;
#[path = "tidy/habits.rs"]
mod habits;
#[path = "tidy/modules.rs"]
mod modules;
#[path = "tidy/pages.rs"]
mod pages;
#[path = "tidy/tokens.rs"]
mod tokens;

use modules::File;
use std::io::Write;
use std::path::Path;
use std::process::Command;

/// Every file of the project that is tracked, or would be at the next `git add`.
fn tracked() -> Vec<String> {
    let listed = Command::new("git")
        .args(["-c", "safe.directory=*", "ls-files", "-z", "--cached", "--others", "--exclude-standard"])
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output();
    let text = listed.map(|output| output.stdout).unwrap_or_default();
    let paths: Vec<String> =
        String::from_utf8_lossy(&text).split('\0').filter(|p| !p.is_empty()).map(str::to_owned).collect();
    assert!(!paths.is_empty(), "git ls-files lists nothing: git is missing, or this is no git clone");
    paths
}

fn read(path: &str) -> Option<String> {
    std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(path)).ok()
}

/// The tracked files that hold text.
fn project() -> Vec<File> {
    let text = |path: String| read(&path).map(|text| File { path, text });
    tracked().into_iter().filter_map(text).collect()
}

fn must_be_empty(complaints: Vec<String>) {
    assert!(complaints.is_empty(), "\n{}\n", complaints.join("\n"));
}

/// A page that must exist.
fn page(path: &str) -> String {
    let text = read(path);
    assert!(text.is_some(), "{path} is missing");
    text.unwrap_or_default()
}

#[test]
fn every_module_uses_only_modules_above_it() {
    must_be_empty(modules::order(&project()));
}

#[test]
fn no_source_file_is_left_over() {
    must_be_empty(modules::orphans(&project()));
}

#[test]
fn formulas_know_no_job_file() {
    must_be_empty(modules::job_use(&project()));
}

#[test]
fn computing_modules_read_no_clock_environment_terminal_or_randomness() {
    must_be_empty(habits::pure(&project()));
}

#[test]
fn threads_live_only_where_work_is_spread() {
    must_be_empty(habits::threads(&project()));
}

#[test]
fn no_container_of_random_order_is_used() {
    must_be_empty(habits::hash_maps(&project()));
}

#[test]
fn only_the_command_line_prints() {
    must_be_empty(habits::printing(&project()));
}

#[test]
fn every_source_file_says_first_what_it_is() {
    must_be_empty(habits::openings(&project()));
}

#[test]
fn no_file_is_longer_than_500_lines() {
    let (complaints, notes) = habits::file_lengths(&project());
    for note in notes {
        // Written past the test runner's capture, so that a passing run shows it too.
        let _ = writeln!(std::io::stderr(), "note: {note}");
    }
    must_be_empty(complaints);
}

#[test]
fn no_function_is_longer_than_60_lines() {
    must_be_empty(habits::function_lengths(&project()));
}

#[test]
fn no_file_has_a_name_that_says_nothing() {
    must_be_empty(habits::names(&project()));
}

#[test]
fn no_test_or_example_is_ignored() {
    must_be_empty(habits::ignored_tests(&project()));
}

#[test]
fn no_file_speaks_of_the_machine_it_was_written_on() {
    must_be_empty(habits::machine_paths(&project()));
}

#[test]
fn the_top_level_holds_only_what_belongs_there() {
    must_be_empty(pages::top_level(tracked().iter().map(String::as_str)));
}

#[test]
fn the_developers_page_lists_the_modules_in_order() {
    let modules = modules::declared(&tokens::tokens(&page("src/lib.rs")));
    assert!(!modules.is_empty(), "src/lib.rs declares no module");
    must_be_empty(pages::module_list(&page("DEVELOPERS.md"), &modules));
}

#[test]
fn the_developers_page_accounts_for_every_dependency() {
    must_be_empty(pages::dependencies(&page("DEVELOPERS.md"), &page("Cargo.toml")));
}
