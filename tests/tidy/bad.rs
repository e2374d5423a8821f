//! Small bad texts: each check must complain of them, and stay quiet about the good ones beside.
//!
//! Start anywhere; each test shows one rule.

use crate::modules::{self, File};
use crate::tokens::{paths_from, tokens};
use crate::{habits, pages};

fn file(path: &str, text: &str) -> File {
    File { path: path.to_owned(), text: text.to_owned() }
}

/// A crate of units, weather/{year, fill} and prices, with one more file put in its place.
fn crate_with(path: &str, text: &str) -> Vec<File> {
    let mut files = vec![
        file("src/lib.rs", "pub mod units; pub mod weather; pub mod prices; pub use weather::Year;"),
        file(
            "src/weather/mod.rs",
            "pub mod year; pub mod fill; pub use fill::{Gap as Hole, Rule}; pub struct Own;",
        ),
        file("src/weather/year.rs", ""),
        file("src/weather/fill.rs", ""),
        file("src/units.rs", ""),
        file("src/prices.rs", ""),
    ];
    files.retain(|f| f.path != path);
    files.push(file(path, text));
    files
}

fn order_complaints(path: &str, text: &str) -> usize {
    modules::order(&crate_with(path, text)).len()
}

#[test]
fn a_path_that_points_down_is_found() {
    assert_eq!(order_complaints("src/prices.rs", "use crate::units::Kw; fn f() { crate::weather::g() }"), 0);
    assert_eq!(order_complaints("src/units.rs", "use crate::prices::P;"), 1);
    assert_eq!(order_complaints("src/units.rs", "fn f() -> crate::weather::Year { todo() }"), 1);
    assert_eq!(order_complaints("src/units.rs", "use crate::{prices::{A, B}, weather};"), 3);
    assert_eq!(order_complaints("src/units.rs", "use super::weather::Year;"), 1);
    assert_eq!(order_complaints("src/weather/year.rs", "use crate::prices::P;"), 1);
    assert_eq!(order_complaints("src/weather/mod.rs", "mod year; mod fill; use crate::prices::P;"), 1);
}

#[test]
fn comments_strings_and_words_that_only_look_like_paths_are_let_be() {
    let text = r##"// crate::prices
        /* crate::prices /* crate::prices */ crate::prices */
        const A: &str = "crate::prices \" crate::prices"; const B: &str = r#"crate::prices " "#;
        const C: char = '"'; const D: char = '\''; fn f<'a>(x: &'a str) {} pub(crate) struct E;"##;
    assert_eq!(order_complaints("src/units.rs", text), 0);
    let after = format!("{text} use crate::prices::P;");
    assert_eq!(order_complaints("src/units.rs", &after), 1);
}

#[test]
fn a_re_export_of_the_root_is_found() {
    assert_eq!(order_complaints("src/prices.rs", "use crate::Year;"), 1);
    assert_eq!(order_complaints("src/prices.rs", "use winterledger::weather::Year;"), 1);
}

#[test]
fn siblings_follow_the_order_of_their_folder() {
    assert_eq!(
        order_complaints("src/weather/fill.rs", "use super::year::Y; use crate::weather::year::Z;"),
        0
    );
    assert_eq!(order_complaints("src/weather/year.rs", "use super::fill::F;"), 1);
    assert_eq!(order_complaints("src/weather/year.rs", "use crate::weather::fill::F;"), 1);
    assert_eq!(order_complaints("src/weather/year.rs", "use super::{Rule, Hole};"), 2);
    assert_eq!(order_complaints("src/weather/year.rs", "use super::Own;"), 0);
    assert_eq!(order_complaints("src/weather/year.rs", "use super::*;"), 1);
    assert_eq!(order_complaints("src/weather/year.rs", "use crate::weather;"), 1);
    assert_eq!(order_complaints("src/weather/year.rs", "#[cfg(test)] mod tests { use super::*; }"), 0);
}

#[test]
fn two_steps_up_are_found() {
    assert_eq!(
        order_complaints("src/weather/fill.rs", "#[cfg(test)] mod t { use super::super::year::Y; }"),
        1
    );
}

#[test]
fn a_file_that_no_mod_line_names_is_found() {
    assert_eq!(modules::orphans(&crate_with("src/weather/lost.rs", "")).len(), 1);
    assert_eq!(modules::orphans(&crate_with("src/units.rs", "")).len(), 0);
}

#[test]
fn a_formula_that_knows_the_job_is_found() {
    let uses = "use crate::job::House;";
    let complaints = |path| modules::job_use(&[file(path, uses)]).len();
    assert_eq!(complaints("src/load/room.rs"), 1);
    assert_eq!(complaints("src/fuel.rs"), 1);
    for path in
        ["src/load/from_job.rs", "src/job/edit.rs", "src/comparison.rs", "src/cli/compare.rs", "src/lib.rs"]
    {
        assert_eq!(complaints(path), 0, "{path}");
    }
}

#[test]
fn a_computing_module_that_asks_the_machine_is_found() {
    let complaints = |path, text| habits::pure(&[file(path, text)]).len();
    for text in [
        "use std::env;",
        "use std::{fmt, env::var};",
        "fn f() { std::time::now() }",
        "use x::Instant;",
        "fn f() { rand::rng() }",
        "fn f() { io::stderr() }",
    ] {
        assert_eq!(complaints("src/prices/year.rs", text), 1, "{text}");
        assert_eq!(complaints("src/cli/mod.rs", text), 0, "{text}");
    }
    assert_eq!(complaints("src/prices/year.rs", "use std::fmt; const V: &str = env!(\"X\");"), 0);
}

#[test]
fn threads_hash_maps_and_prints_out_of_place_are_found() {
    let thread = "use std::thread;";
    assert_eq!(habits::threads(&[file("src/load/room.rs", thread)]).len(), 1);
    assert_eq!(habits::threads(&[file("src/study/draws.rs", thread)]).len(), 0);
    assert_eq!(habits::hash_maps(&[file("src/cli/mod.rs", "use a::HashMap;")]).len(), 1);
    assert_eq!(habits::hash_maps(&[file("src/cli/mod.rs", "use a::BTreeMap; // HashMap")]).len(), 0);
    let prints = "fn f() { println!(\"x\") }";
    assert_eq!(habits::printing(&[file("src/report/text.rs", prints)]).len(), 1);
    assert_eq!(habits::printing(&[file("src/cli/mod.rs", prints)]).len(), 0);
    assert_eq!(habits::printing(&[file("src/cli/mod.rs", "fn f() { dbg!(1) }")]).len(), 1);
}

#[test]
fn a_file_without_its_opening_words_is_found() {
    assert_eq!(habits::openings(&[file("src/a.rs", "use b::c;\n//! late\n")]).len(), 1);
    assert_eq!(habits::openings(&[file("src/a.rs", "//! Early.\n")]).len(), 0);
}

#[test]
fn long_files_and_long_functions_are_found() {
    let (complaints, notes) = habits::file_lengths(&[file("src/a.rs", &"\n".repeat(501))]);
    assert_eq!((complaints.len(), notes.len()), (1, 0));
    let (complaints, notes) = habits::file_lengths(&[file("src/a.rs", &"\n".repeat(251))]);
    assert_eq!((complaints.len(), notes.len()), (0, 1));
    let function =
        |lines: usize| format!("fn f(x: [u8; 3]) -> u8 {{\n{}}}\n fn g() {{}}", "x;\n".repeat(lines - 2));
    assert_eq!(habits::function_lengths(&[file("src/a.rs", &function(60))]).len(), 0);
    assert_eq!(habits::function_lengths(&[file("src/a.rs", &function(61))]).len(), 1);
}

#[test]
fn names_that_say_nothing_are_found() {
    for path in ["src/util.rs", "src/load/types.rs", "tests/common/mod.rs"] {
        assert_eq!(habits::names(&[file(path, "")]).len(), 1, "{path}");
    }
    assert_eq!(habits::names(&[file("src/utility_bill.rs", "")]).len(), 0);
}

#[test]
fn ignored_tests_and_examples_are_found() {
    let complaints = |text| habits::ignored_tests(&[file("tests/a.rs", text)]).len();
    assert_eq!(complaints("#[test]\n#[ignore]\nfn f() {}"), 1);
    assert_eq!(complaints("#[ignore = \"slow\"] fn f() {}"), 1);
    assert_eq!(complaints("#[cfg_attr(x, ignore)] fn f() {}"), 1);
    assert_eq!(complaints("/// ```ignore\nfn f() {}"), 1);
    assert_eq!(complaints("fn ignore() {} // #[ignore]"), 0);
}

#[test]
fn paths_of_one_machine_are_found() {
    let complaints = |text: &str| habits::machine_paths(&[file("README.md", text)]).len();
    for folder in ["work", "farm", "tmp", "home", "root"] {
        assert_eq!(complaints(&format!("see (/{folder}/x)")), 1, "{folder}");
        assert_eq!(complaints(&format!("see data/{folder}/x")), 0, "{folder}");
    }
}

#[test]
fn strangers_at_the_top_are_found() {
    assert_eq!(pages::top_level(["src/lib.rs", ".ci/run", "notes.txt"].into_iter()).len(), 1);
}

#[test]
fn a_module_list_that_drifted_is_found() {
    let modules = ["units".to_owned(), "weather".to_owned()];
    let page = |list: &str| format!("# X\n## Modules\nWords.\n```text\nsrc/\n{list}```\n## Next\n");
    assert_eq!(pages::module_list(&page("units.rs  a\n          more\nweather/  b\n"), &modules).len(), 0);
    assert_eq!(pages::module_list(&page("weather/  b\nunits.rs  a\n"), &modules).len(), 1);
    assert_eq!(pages::module_list(&page("units.rs  a\n"), &modules).len(), 1);
    assert_eq!(pages::module_list("# X\n", &modules).len(), 1);
}

#[test]
fn a_dependency_without_a_reason_is_found() {
    let manifest = "[package]\nname = \"x\"\n[dependencies]\n# serde = 1\ncsv = \"1\"\ntoml = { v = 1 }\n\
                    [dev-dependencies]\napprox.workspace = true\n[dependencies.clap]\nversion = \"4\"\n[lints]\na = 1\n";
    assert_eq!(pages::manifest_dependencies(manifest), ["csv", "toml", "approx", "clap"]);
    let page = "## Dependencies\n- `csv`: lines\n- `toml`: spans\n- `approx`: closeness\n## Next\n`clap`\n";
    assert_eq!(pages::dependencies(page, manifest), ["`clap` has no line under \"## Dependencies\""]);
}

#[test]
fn groups_in_paths_come_apart() {
    let found = paths_from(&tokens("use crate::{a::{self, B as C, d::*}, e}; crate::f::<g>(h);"), "crate");
    let written: Vec<String> = found.iter().map(|path| path.segments.join("::")).collect();
    assert_eq!(written, ["a", "a::B", "a::d::*", "e", "f"]);
    assert_eq!(found[1].name, "C");
}
