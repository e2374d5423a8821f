//! `compare --out` writes the sheet that goes home, with the logo that the job names, or says why not.

use crate::commands_start::winterledger;
use std::path::Path;

/// The demonstration beside a logo, compared into a folder.
fn written(folder: &Path, logo: &str) -> std::process::Output {
    let job = include_str!("../../data/demo.toml");
    let job = job
        .replace("currency = \"$\"", &format!("logo = \"{logo}\"\nphone = \"555-0100\"\ncurrency = \"$\""));
    std::fs::write(folder.join("job.toml"), job).unwrap();
    let out = folder.join("out");
    winterledger().arg("compare").arg(folder.join("job.toml")).arg("--out").arg(out).output().unwrap()
}

#[test]
fn the_sheet_carries_the_logo_and_the_phone_number() {
    let folder = tempfile::tempdir().unwrap();
    let svg =
        "<svg xmlns='http://www.w3.org/2000/svg' width='90' height='30'><rect width='90' height='30'/></svg>";
    std::fs::write(folder.path().join("logo.svg"), svg).unwrap();
    let output = written(folder.path(), "logo.svg");
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let page = std::fs::read_to_string(folder.path().join("out/comparison.html")).unwrap();
    assert!(page.contains("<img src=\"data:image/svg+xml;base64,") && page.contains("555-0100"));
    for name in ["comparison.pdf", "page_one.json"] {
        assert!(folder.path().join("out").join(name).exists(), "{name}");
    }
}

#[test]
fn a_logo_that_cannot_be_used_is_refused_at_its_line_with_the_way_out() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("logo.gif"), "GIF89a").unwrap();
    for (logo, told, help) in [
        ("logo.gif", "the logo is neither a PNG nor an SVG", "save it anew as a PNG or an SVG"),
        ("nowhere.png", "is not there", "the path counts from the job file's folder"),
    ] {
        let output = written(folder.path(), logo);
        let text = String::from_utf8_lossy(&output.stderr).into_owned();
        assert_eq!(output.status.code(), Some(2), "{text}");
        assert!(text.contains("job.logo") && text.contains(told) && text.contains(help), "{text}");
        assert!(!folder.path().join("out").exists());
    }
}
