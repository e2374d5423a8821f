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
    (
        "The coldest night",
        &[
            "warmth",
            "cold_night",
            "first_machine_shares",
            "strips_in_short",
            "supply_air",
            "worst_failures",
            "power_out",
        ],
    ),
    ("What it costs, month by month", &["yearly_cost", "monthly_cost", "fuel_use", "bill"]),
    ("Deliveries", &["stores", "fuel_paid", "ordinary_terms", "deliveries"]),
    ("What if", &["scenarios", "drawn_winters"]),
    ("Where it turns", &["tipping_price", "price_map", "sway"]),
    ("Over the years", &["life_cycle_cost", "against_base", "a_month"]),
];
/// Appendices that are printed too; the others are for files.
const PRINTED_APPENDICES: [&str; 7] = [
    "monthly_cost",
    "deliveries",
    "scenarios_",
    "tipping_price",
    "sway",
    "drawn_winters",
    super::walls::NAME,
];
/// From so many options on, page one has its cautions before them.
const CROWDED: usize = 7;
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
    let parts = parts(report);
    let stands_in = |chart: &Chart, (_, tables): &(&str, Vec<&Table>)| {
        tables.iter().any(|table| chart.tables.contains(&table.name))
    };
    let nowhere = charts.iter().filter(|chart| !parts.iter().any(|part| stands_in(chart, part)));
    blocks.extend(nowhere.map(picture));
    for part in &parts {
        blocks.push(Block::Section(part.0.into()));
        blocks.extend(charts.iter().filter(|chart| stands_in(chart, part)).map(picture));
        blocks.extend(part.1.iter().flat_map(|one| table(one)));
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
    // With so many options what stands last may not find room on the page, and cautions must.
    let crowded = front.bands.iter().any(|band| band.rows.len() >= CROWDED);
    let cautions = Block::List(front.cautions.clone());
    blocks.extend(crowded.then(|| cautions.clone()));
    blocks.extend(front.bands.iter().cloned().map(Block::Band));
    blocks.push(Block::Basis(front.basis.clone()));
    blocks.extend((!crowded).then_some(cautions));
    blocks
}

/// The tables of the following pages by part, in reading order; what no part asks for stands last.
pub fn parts(report: &Report) -> Vec<(&'static str, Vec<&Table>)> {
    let printed = |t: &&Table| PRINTED_APPENDICES.iter().any(|name| t.name.starts_with(name));
    let appendices = report.appendices.iter().filter(printed);
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

fn picture(chart: &Chart) -> Block {
    let Chart { svg, words, .. } = chart.clone();
    Block::Picture { svg, words, most_height: 0.86 }
}

fn table(table: &Table) -> Vec<Block> {
    let mut blocks = Vec::new();
    if !table.heading.is_empty() {
        blocks.push(Block::Heading(table.heading.clone()));
    }
    blocks.push(Block::Table(table.clone()));
    blocks.extend(table.remark.iter().cloned().map(Block::Small));
    blocks
}
