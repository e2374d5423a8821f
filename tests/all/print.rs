//! The printed report: nothing leaves its page or lies over anything else, and text can be read out of it.

use crate::sheet::{DEMO, Made, demo, eight_options, extremes, for_nothing, made, one_option};
use std::process::Command;
use winterledger::report::print::pieces::{Ink, Part};
use winterledger::report::print::{Block, Page, Paper, lay_out};
use winterledger::report::printed::{self, Chart};

fn blocks(made: &Made) -> Vec<Block> {
    let square = "<svg xmlns='http://www.w3.org/2000/svg' width='640' height='400'/>".to_owned();
    let charts = [Chart { name: "square".into(), svg: square, words: "nothing".into(), tables: Vec::new() }];
    printed::blocks(Some((&made.sheet.front, made.sheet.logo.as_ref())), &made.report, &charts)
}

fn pages(made: &Made, paper: Paper) -> Vec<Page> {
    lay_out(&blocks(made), "foot", paper)
}

#[test]
fn nothing_leaves_its_page_or_lies_over_anything_else() {
    for text in [DEMO.to_owned(), one_option(), extremes(), eight_options(), for_nothing()] {
        let made = made(&text);
        for paper in [Paper::Letter, Paper::A4] {
            let (width, height) = paper.size();
            for (number, page) in pages(&made, paper).iter().enumerate() {
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
    let made = demo();
    let report = &made.report;
    let printed: String = pages(made, Paper::Letter)
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
    let pdf = demo().file("comparison.pdf");
    assert!(pdf.len() < 1_000_000, "{}", pdf.len());
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("comparison.pdf");
    std::fs::write(&path, &pdf).unwrap();
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
