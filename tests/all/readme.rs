//! The README shows what the program prints.

use assert_cmd::Command;
use std::path::Path;

/// The README's demonstration, between its command and the end of the block.
fn shown(readme: &str) -> (usize, usize) {
    let command = "$ cargo run --release -- compare\n";
    let start = readme.find(command).expect("the README shows the first command") + command.len();
    let end = readme[start..].find("```").expect("the block ends") + start;
    (start, end)
}

#[test]
fn the_readme_shows_what_the_demonstration_prints() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("README.md");
    let readme = std::fs::read_to_string(&path).unwrap();
    let output =
        Command::cargo_bin("winterledger").unwrap().arg("compare").env("COLUMNS", "80").output().unwrap();
    let printed = String::from_utf8(output.stdout).unwrap();
    let (start, end) = shown(&readme);
    if std::env::var_os("WINTERLEDGER_REWRITE").is_some() {
        let rewritten = format!("{}{printed}{}", &readme[..start], &readme[end..]);
        std::fs::write(&path, rewritten).unwrap();
        return;
    }
    assert_eq!(
        &readme[start..end],
        printed,
        "WINTERLEDGER_REWRITE=1 cargo test readme puts the present output into README.md"
    );
}
