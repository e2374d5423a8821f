//! Page one, a report and its charts into the blocks that are printed, in reading order.
//!
//! Start at [`blocks`].

use super::front::Front;
use super::logo::Logo;
use super::model::{Report, Table};
use super::print::Block;

/// A chart with what it shows in words.
#[derive(Debug, Clone, PartialEq)]
pub struct Chart {
    /// Its plain name, as files carry it.
    pub name: String,
    /// The picture.
    pub svg: String,
    /// What it shows.
    pub words: String,
    /// The names of the tables that hold its figures.
    pub tables: Vec<String>,
}

/// Parts of the following pages: heading, and the names that their tables begin with.
pub const PARTS: [(&str, &[&str]); 6] = [
    ("Month by month", &["yearly_cost", "monthly_cost", "fuel_use", "bill"]),
    ("The coldest night", &["warmth", "cold_night", "worst_failures", "power_out"]),
    ("Deliveries", &["stores", "fuel_paid", "deliveries"]),
    ("What if", &["scenarios"]),
    ("Where it turns", &["tipping_price", "price_map", "sway"]),
    ("Over the years", &["life_cycle_cost", "against_base", "a_month"]),
];
/// Appendices that are printed too; the others are for files.
const PRINTED_APPENDICES: [&str; 3] = ["monthly_cost", "deliveries", super::walls::NAME];
/// The part whose table tells what must be done before rough-in ends.
pub const WALLS: &str = "Before the walls close";

/// Everything that is printed: page one, where there is one, then what stands behind it.
pub fn blocks(front: Option<(&Front, Option<&Logo>)>, report: &Report, charts: &[Chart]) -> Vec<Block> {
    let mut blocks = Vec::new();
    match front {
        Some((front, logo)) => {
            blocks.extend(page_one(front, logo));
            blocks.push(Block::PageHeading(format!("{}: behind page one", report.title)));
        }
        None => blocks.push(Block::PageHeading(report.title.clone())),
    }
    blocks.extend(report.about.iter().cloned().map(Block::Small));
    blocks.extend(report.verdict.iter().chain(&report.tipping_price).cloned().map(Block::Paragraph));
    for Chart { svg, words, .. } in charts.iter().cloned() {
        blocks.push(Block::Picture { svg, words, most_height: 0.86 });
    }
    for (heading, tables) in parts(report) {
        blocks.push(Block::Section(heading.into()));
        blocks.extend(tables.into_iter().flat_map(table));
    }
    blocks.push(Block::Section("What it rests on".into()));
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

fn page_one(front: &Front, logo: Option<&Logo>) -> Vec<Block> {
    let name = front.prepared_by.iter().chain(&front.phone).cloned();
    let mut blocks = vec![
        Block::Letterhead { logo: logo.cloned(), lines: name.collect() },
        Block::Title(front.house.clone()),
        Block::Facts(front.facts.clone()),
        Block::Verdict(front.verdict.clone()),
    ];
    blocks.extend(front.more.iter().cloned().map(Block::Paragraph));
    blocks.extend(front.bands.iter().cloned().map(Block::Band));
    blocks.push(Block::Basis(front.basis.clone()));
    blocks.push(Block::List(front.cautions.clone()));
    blocks
}

/// The tables of the following pages by part, in reading order; what no part asks for stands last.
pub fn parts(report: &Report) -> Vec<(&'static str, Vec<&Table>)> {
    let appendices = report.appendices.iter().filter(|t| PRINTED_APPENDICES.contains(&t.name.as_str()));
    let all: Vec<&Table> = report.tables.iter().chain(appendices).collect();
    let belongs = |table: &Table, names: &[&str]| names.iter().any(|name| table.name.starts_with(name));
    let mut parts: Vec<(&'static str, Vec<&Table>)> = Vec::new();
    for (heading, names) in PARTS {
        parts.push((heading, all.iter().copied().filter(|t| belongs(t, names)).collect()));
    }
    let walls = |t: &&Table| t.name == super::walls::NAME;
    parts.push((WALLS, all.iter().copied().filter(walls).collect()));
    let taken = |t: &&Table| walls(t) || PARTS.iter().any(|(_, names)| belongs(t, names));
    let others: Vec<&Table> = all.iter().copied().filter(|t| !taken(t)).collect();
    parts.push(("More figures", others));
    parts.retain(|(_, tables)| !tables.is_empty());
    parts
}

fn table(table: &Table) -> Vec<Block> {
    let mut blocks = vec![Block::Heading(table.heading.clone()), Block::Table(table.clone())];
    blocks.extend(table.remark.iter().cloned().map(Block::Small));
    blocks
}
