//! The printed report: nothing leaves its page or lies over anything else, text can be read out of it,
//! and the same comparison gives the same bytes.

use std::process::Command;

use winterledger::comparison::{Comparison, compare};
use winterledger::job::{edit, reader};
use winterledger::report::print::layout::{Ink, Part};
use winterledger::report::print::{Block, Page, Paper, lay_out};
use winterledger::report::printed::{self, Chart};
use winterledger::report::{build, files};
use winterledger::weather::{Weather, places};

const DEMO: &str = include_str!("../../data/demo.toml");

fn compared(text: String) -> Comparison {
    let job = reader::read("job.toml", text).unwrap_or_else(|p| panic!("{p:?}"));
    let weather = Weather::Year(Box::new(places::open("il-chicago").unwrap()));
    compare(&job, &weather).unwrap_or_else(|p| panic!("{p:?}"))
}

/// The demonstration with one option alone.
fn one_option() -> String {
    let first = DEMO.find("[[option]]").unwrap();
    let second = first + 1 + DEMO[first + 1..].find("\n[[option]]").unwrap();
    let prices = DEMO.find("[prices.electricity]").unwrap();
    format!("{}{}", &DEMO[..second], &DEMO[prices..])
}

/// The demonstration with names as long as a page is wide, and with prices of nothing and of millions.
fn extremes() -> String {
    let long = "A very long name of an option that somebody typed who wished to say everything at once, \
                without-leaving-anything-out-whatsoever";
    let changes = [
        ("option.Heat pumps with strips.name", long),
        (
            "option.Oil furnace.name",
            "Oilfurnacewithoutanyspaceinitsnamewhichmustbecutsomewhereelseitleavesthepage",
        ),
        ("prices.electricity.price", "0.0001 $/kWh"),
        ("prices.propane.price_by_month.jan", "99999 $/gal"),
    ];
    changes.iter().fold(DEMO.to_owned(), |text, (key, value)| edit::set(&text, key, value).unwrap())
}

/// The demonstration with eight options.
fn eight_options() -> String {
    let first = DEMO.find("[[option]]").unwrap();
    let second = first + 1 + DEMO[first + 1..].find("\n[[option]]").unwrap();
    let more =
        |i: usize| DEMO[first..second].replace("Heat pumps with strips", &format!("Heat pumps, number {i}"));
    format!("{}\n{}\n{}", DEMO, more(7), more(8))
}

fn blocks(c: &Comparison) -> Vec<Block> {
    let square = "<svg xmlns='http://www.w3.org/2000/svg' width='640' height='400'/>".to_owned();
    let charts = [Chart { svg: square, words: "nothing".into() }];
    printed::blocks(&build::report(c), &charts)
}

fn pages(c: &Comparison, paper: Paper) -> Vec<Page> {
    lay_out(&blocks(c), "foot", paper)
}

#[test]
fn nothing_leaves_its_page_or_lies_over_anything_else() {
    for text in [DEMO.to_owned(), one_option(), extremes(), eight_options()] {
        let c = compared(text);
        for paper in [Paper::Letter, Paper::A4] {
            let (width, height) = paper.size();
            for (number, page) in pages(&c, paper).iter().enumerate() {
                for (i, a) in page.pieces.iter().enumerate() {
                    let inside = a.area.left >= 36.0
                        && a.area.right() <= width - 36.0
                        && a.area.top >= 36.0
                        && a.area.bottom() <= height - 18.0;
                    assert!(inside, "page {number}: {a:?}");
                    for b in &page.pieces[i + 1..] {
                        let apart = a.area.right() <= b.area.left + 1e-6
                            || b.area.right() <= a.area.left + 1e-6
                            || a.area.bottom() <= b.area.top + 1e-6
                            || b.area.bottom() <= a.area.top + 1e-6;
                        assert!(apart, "page {number}: {a:?} lies over {b:?}");
                    }
                }
            }
        }
    }
}

#[test]
fn every_row_and_sentence_of_the_report_is_on_some_page() {
    let c = compared(DEMO.to_owned());
    let report = build::report(&c);
    let printed: String = pages(&c, Paper::Letter)
        .iter()
        .flat_map(|page| &page.pieces)
        .filter(|piece| piece.part != Part::Decoration)
        .filter_map(|piece| match &piece.ink {
            Ink::Words(text, _) => Some(text.replace(' ', "")),
            _ => None,
        })
        .collect();
    let sentences =
        report.verdict.iter().chain(&report.notes).chain(&report.assumptions).chain(&report.cautions);
    for sentence in sentences {
        assert!(printed.contains(&sentence.replace(' ', "")), "{sentence}");
    }
}

/// Independent tool: poppler's pdftotext and pdffonts.
#[test]
fn poppler_reads_text_and_embedded_subset_fonts_out_of_the_pdf() {
    let c = compared(DEMO.to_owned());
    let ready = files::ready_files(&c, &build::report(&c)).unwrap();
    let pdf = &ready.iter().find(|f| f.name == "comparison.pdf").unwrap().bytes;
    assert!(pdf.len() < 1_000_000, "{}", pdf.len());
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("comparison.pdf");
    std::fs::write(&path, pdf).unwrap();
    let run = |tool: &str, arguments: &[&str]| {
        let output = Command::new(tool).args(arguments).arg(&path).arg("-").output();
        let output = output.unwrap_or_else(|e| panic!("{tool}: {e}; tests/run installs poppler-utils"));
        String::from_utf8_lossy(&output.stdout).into_owned()
    };
    let text = run("pdftotext", &["-layout"]);
    assert!(text.contains("Quince Hollow, orchard house"), "{text}");
    assert!(text.contains("page 1 of "), "{text}");
    assert!(text.contains("This is an estimate, not a quote"), "{text}");
    let fonts = Command::new("pdffonts").arg(&path).output().unwrap();
    let fonts = String::from_utf8_lossy(&fonts.stdout).into_owned();
    let rows: Vec<&str> = fonts.lines().skip(2).collect();
    assert!(!rows.is_empty());
    for row in rows {
        assert!(row.contains("+Inter") && row.contains(" yes yes yes "), "{row}");
    }
}

#[test]
fn the_same_comparison_gives_the_same_pdf() {
    let bytes = || {
        let c = compared(DEMO.to_owned());
        let ready = files::ready_files(&c, &build::report(&c)).unwrap();
        ready.into_iter().find(|f| f.name == "comparison.pdf").unwrap().bytes
    };
    assert!(bytes() == bytes());
}
