//! The habits of single files: what code may touch, how long it may be, how it is named.
//!
//! Files in, complaints out; knows nothing of the disk. Start at [`pure`].

use crate::modules::File;
use crate::tokens::{Token, past_closing, paths_from, reads, text_at, tokens, without_tests};

/// Modules that meet a person, a disk or a network. All others get data and seed passed in.
const OUTER: [&str; 4] = ["batch", "report", "web", "cli"];
/// Drawn winters, and pictures made into pixels; each result stands in its place, whatever thread made it.
const THREADED: [&str; 4] = ["study", "report", "batch", "web"];
const LONGEST_FILE: usize = 500;
const LONG_FILE: usize = 250;
const LONGEST_FUNCTION: usize = 60;

fn first_module(file: &File) -> Option<String> {
    file.module()?.first().cloned()
}

fn is_in(file: &File, modules: &[&str]) -> bool {
    first_module(file).is_some_and(|first| modules.contains(&first.as_str()))
}

fn each_source<'a>(files: &'a [File]) -> impl Iterator<Item = (&'a File, Vec<Token>)> + 'a {
    files.iter().filter(|file| file.is_source()).map(|file| (file, tokens(&file.text)))
}

/// Complains about words and about paths of the standard library or another crate.
fn forbid(file: &File, code: &[Token], words: &[&str], paths: &[(&str, &str)], why: &str) -> Vec<String> {
    let mut complaints = Vec::new();
    for token in code {
        if words.contains(&token.text.as_str()) {
            complaints.push(file.says(token.line, &format!("{}: {why}", token.text)));
        }
    }
    for (root, second) in paths {
        for path in paths_from(code, root) {
            let hit = second.is_empty() || path.segments.first().is_some_and(|first| first == second);
            if hit {
                let whole = format!("{root}::{}", path.segments.join("::"));
                complaints.push(file.says(path.line, &format!("{whole}: {why}")));
            }
        }
    }
    complaints
}

/// No clock, environment, terminal or randomness of its own below the outer modules.
pub(crate) fn pure(files: &[File]) -> Vec<String> {
    let words = [
        "SystemTime",
        "Instant",
        "IsTerminal",
        "stdin",
        "stdout",
        "stderr",
        "thread_rng",
        "ThreadRng",
        "OsRng",
        "getrandom",
        "RandomState",
    ];
    let paths = [("std", "env"), ("std", "time"), ("rand", "rng"), ("rand", "random")];
    let why = "only the outer modules may ask the machine; pass it in";
    each_source(files)
        .filter(|(file, _)| first_module(file).is_some() && !is_in(file, &OUTER))
        .flat_map(|(file, code)| forbid(file, &without_tests(&code), &words, &paths, why))
        .collect()
}

/// Threads only where work is spread.
pub(crate) fn threads(files: &[File]) -> Vec<String> {
    let paths = [("std", "thread"), ("rayon", ""), ("tokio", "")];
    each_source(files)
        .filter(|(file, _)| !is_in(file, &THREADED))
        .flat_map(|(file, code)| {
            forbid(file, &without_tests(&code), &[], &paths, "threads do not belong here")
        })
        .collect()
}

/// No container whose order changes from run to run.
pub(crate) fn hash_maps(files: &[File]) -> Vec<String> {
    let why = "its order is random; take BTreeMap, BTreeSet or Vec";
    each_source(files)
        .flat_map(|(file, code)| forbid(file, &code, &["HashMap", "HashSet"], &[], why))
        .collect()
}

/// Only `cli` and `main` print.
pub(crate) fn printing(files: &[File]) -> Vec<String> {
    let mut complaints = Vec::new();
    for (file, code) in each_source(files) {
        let speaks = file.path == "src/main.rs" || is_in(file, &["cli"]);
        for (i, token) in code.iter().enumerate() {
            let prints = matches!(token.text.as_str(), "print" | "println" | "eprint" | "eprintln");
            let leftover = matches!(token.text.as_str(), "dbg" | "todo" | "unimplemented");
            if text_at(&code, i + 1) == "!" && (leftover || prints && !speaks) {
                complaints.push(file.says(token.line, &format!("{}! does not belong here", token.text)));
            }
        }
    }
    complaints
}

/// Every source file says first what it is.
pub(crate) fn openings(files: &[File]) -> Vec<String> {
    let bare = |file: &&File| file.is_source() && !file.text.starts_with("//! ");
    files.iter().filter(bare).map(|file| file.says(1, "does not begin with //!")).collect()
}

/// Rust files that are too long, and notes on those that are long.
pub(crate) fn file_lengths(files: &[File]) -> (Vec<String>, Vec<String>) {
    let mut complaints = Vec::new();
    let mut notes = Vec::new();
    for file in files.iter().filter(|file| file.path.ends_with(".rs")) {
        let lines = file.text.lines().count();
        if lines > LONGEST_FILE {
            complaints.push(format!("{}: {lines} lines, at most {LONGEST_FILE}", file.path));
        } else if lines > LONG_FILE && file.is_source() {
            notes.push(format!("{}: {lines} lines, better under {LONG_FILE}", file.path));
        }
    }
    (complaints, notes)
}

/// Functions that are too long.
pub(crate) fn function_lengths(files: &[File]) -> Vec<String> {
    let mut complaints = Vec::new();
    for file in files.iter().filter(|file| file.path.ends_with(".rs")) {
        let code = tokens(&file.text);
        for (i, token) in code.iter().enumerate() {
            let named = text_at(&code, i + 1).starts_with(|c: char| c.is_alphabetic() || c == '_');
            if token.text != "fn" || !named {
                continue;
            }
            let Some(end) = body_end(&code, i) else { continue };
            let lines = end + 1 - token.line;
            if lines > LONGEST_FUNCTION {
                let name = text_at(&code, i + 1);
                let what = format!("fn {name} has {lines} lines, at most {LONGEST_FUNCTION}");
                complaints.push(file.says(token.line, &what));
            }
        }
    }
    complaints
}

/// The line on which the body of the function at `i` closes; `None` without a body.
fn body_end(code: &[Token], mut i: usize) -> Option<usize> {
    loop {
        match text_at(code, i) {
            "{" => return code.get(past_closing(code, i) - 1).map(|token| token.line),
            "(" | "[" => i = past_closing(code, i),
            ";" | "" => return None,
            _ => i += 1,
        }
    }
}

/// Names that say nothing.
pub(crate) fn names(files: &[File]) -> Vec<String> {
    let empty = ["util", "utils", "misc", "common", "helper", "helpers", "types"];
    let mut complaints = Vec::new();
    for file in files.iter().filter(|file| file.path.ends_with(".rs")) {
        let parts = file.path.trim_end_matches(".rs").split('/');
        for part in parts.filter(|part| empty.contains(part)) {
            complaints.push(format!("{}: {part} says nothing; name it by what it holds", file.path));
        }
    }
    complaints
}

/// No test is switched off.
pub(crate) fn ignored_tests(files: &[File]) -> Vec<String> {
    let mut complaints = Vec::new();
    for file in files.iter().filter(|file| file.path.ends_with(".rs")) {
        let code = tokens(&file.text);
        for i in 0..code.len() {
            if !reads(&code, i, &["#", "["]) {
                continue;
            }
            let attribute = &code[i..past_closing(&code, i + 1)];
            if attribute.iter().any(|token| token.text == "ignore") {
                complaints.push(file.says(code[i].line, "a test is ignored"));
            }
        }
        for (n, line) in file.text.lines().enumerate() {
            let doc = line.trim_start();
            let in_docs = doc.starts_with("///") || doc.starts_with("//!");
            if in_docs && doc.contains("```ignore") {
                complaints.push(file.says(n + 1, "an example is ignored"));
            }
        }
    }
    complaints
}

/// No file speaks of the machine it was written on.
pub(crate) fn machine_paths(files: &[File]) -> Vec<String> {
    let mut complaints = Vec::new();
    for file in files {
        for (n, line) in file.text.lines().enumerate() {
            for folder in ["work", "farm", "tmp", "home", "root"] {
                if has_absolute(line, &format!("/{folder}/")) {
                    complaints.push(file.says(n + 1, &format!("a path of one machine, under {folder}")));
                }
            }
        }
    }
    complaints
}

/// True where `path` stands in `line` and is not the inside of a longer, relative one.
fn has_absolute(line: &str, path: &str) -> bool {
    line.match_indices(path).any(|(at, _)| {
        let before = line[..at].chars().next_back();
        before.is_none_or(|c| !(c.is_alphanumeric() || "_-.}*~".contains(c)))
    })
}
