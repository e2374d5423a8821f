//! A report and its charts into the blocks that are printed, in reading order.
//!
//! Start at [`blocks`].

use super::model::{Report, Table};
use super::print::Block;

/// A chart with what it shows in words.
#[derive(Debug, Clone, PartialEq)]
pub struct Chart {
    /// The picture.
    pub svg: String,
    /// What it shows.
    pub words: String,
}

/// Title, verdict, tables, charts, notes, assumptions, cautions.
pub fn blocks(report: &Report, charts: &[Chart]) -> Vec<Block> {
    let mut blocks = vec![Block::Title(report.title.clone())];
    blocks.extend(report.about.iter().cloned().map(Block::Small));
    blocks.extend(report.verdict.iter().cloned().map(Block::Verdict));
    blocks.extend(report.tables.iter().flat_map(table));
    for chart in charts {
        let Chart { svg, words } = chart.clone();
        blocks.push(Block::Picture { svg, words, most_height: 0.48 });
    }
    for (heading, list) in [
        ("Notes", &report.notes),
        ("Assumed, since the job does not say", &report.assumptions),
        ("Cautions", &report.cautions),
    ] {
        if !list.is_empty() {
            blocks.push(Block::Heading(heading.into()));
            blocks.push(Block::List(list.clone()));
        }
    }
    blocks
}

fn table(table: &Table) -> Vec<Block> {
    let mut blocks = vec![Block::Heading(table.heading.clone()), Block::Table(table.clone())];
    blocks.extend(table.remark.iter().cloned().map(Block::Small));
    blocks
}
