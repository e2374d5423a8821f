//! Everything of a report into a folder: each file is written beside its place, then renamed, so
//! that nothing half-written is ever found.
//!
//! Start at [`write_all`].

use super::charts::png;
use super::csv_text::csv;
use super::figures::Measure;
use super::model::Report;
use super::print::{Paper, pdf};
use super::printed::{self, Chart};
use super::{bills, build, json, life_cycle_picture, pictures, terminal};
use crate::comparison::Comparison;
use crate::problem::Problem;
use crate::units::UnitSystem;
use std::fs;
use std::path::{Path, PathBuf};

/// One file, ready to be written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ReadyFile {
    /// Its name in the folder.
    pub name: String,
    /// Its bytes.
    pub bytes: Vec<u8>,
}

/// Makes every file of a comparison and its report in memory: text, JSON, tables, charts.
///
/// # Errors
/// A chart that cannot be drawn.
pub fn ready_files(c: &Comparison, report: &Report) -> Result<Vec<ReadyFile>, Problem> {
    let measure = Measure(c.units);
    let mut files = vec![
        ReadyFile { name: "comparison.txt".into(), bytes: terminal::render(report, 80).into_bytes() },
        ReadyFile { name: "comparison.json".into(), bytes: json::text(c)?.into_bytes() },
    ];
    for table in report.tables.iter().chain(&report.appendices) {
        let text = csv(table).map_err(|e| Problem::new(format!("{}.csv: {e}", table.name)))?;
        files.push(ReadyFile { name: format!("{}.csv", table.name), bytes: text.into_bytes() });
    }
    let about = format!("{} \u{b7} {}", c.title, build::weather_words(c, measure));
    let mut charts = vec![
        ("yearly_cost", pictures::yearly_cost(c, &about).draw()),
        ("capacity", pictures::capacity(c, measure, &about).draw()),
    ];
    charts.extend(bills::shown(c).map(|bill| ("bill", pictures::bill(c, &bill, &about).draw())));
    charts.extend(pictures::tank_level(c, &about).map(|chart| ("tank_level", chart.draw())));
    charts.extend(life_cycle_picture::spent(c, &about).map(|chart| ("spent_by_year", chart.draw())));
    let mut shown = Vec::new();
    for (name, drawn) in charts {
        let failed = |e| Problem::new(format!("the chart '{name}' cannot be drawn: {e}"));
        let svg = drawn.map_err(failed)?;
        files.push(ReadyFile { name: format!("{name}.png"), bytes: png(&svg, 2.0).map_err(failed)? });
        files.push(ReadyFile { name: format!("{name}.svg"), bytes: svg.clone().into_bytes() });
        shown.push(Chart { svg, words: format!("Chart {name}; its figures stand in the tables.") });
    }
    files.push(ReadyFile { name: "comparison.pdf".into(), bytes: on_paper(c, report, &shown)? });
    Ok(files)
}

/// The report as a PDF: on Letter where the job is in US units, else on A4.
fn on_paper(c: &Comparison, report: &Report, charts: &[Chart]) -> Result<Vec<u8>, Problem> {
    let paper = match c.units {
        UnitSystem::Us => Paper::Letter,
        UnitSystem::Si => Paper::A4,
    };
    let author = c.prepared_by.as_deref().unwrap_or_default();
    pdf::document(&report.title, author, &printed::blocks(report, charts), &report.foot, paper)
}

/// Writes the files into `folder`, making it if need be: first all beside their places, then renamed.
///
/// # Errors
/// A folder that cannot be made or written; what was begun is taken away again.
pub fn write_all(folder: &Path, files: &[ReadyFile]) -> Result<Vec<PathBuf>, Problem> {
    let unusable = |e: std::io::Error| {
        Problem::new(format!("the folder {} cannot be written: {e}", folder.display()))
            .help("Name a folder that you may write to")
    };
    fs::create_dir_all(folder).map_err(unusable)?;
    if let Some(taken) = files.iter().map(|f| folder.join(&f.name)).find(|place| place.is_dir()) {
        let what = format!("{} cannot be written: a folder stands in its place", taken.display());
        return Err(Problem::new(what).help("Name another folder, or take that one away"));
    }
    let beside = |name: &str| folder.join(format!(".{name}.part"));
    let give_up = |e: std::io::Error| {
        for begun in files {
            let _ = fs::remove_file(beside(&begun.name));
        }
        unusable(e)
    };
    for file in files {
        fs::write(beside(&file.name), &file.bytes).map_err(give_up)?;
    }
    let mut written = Vec::new();
    for file in files {
        let place = folder.join(&file.name);
        fs::rename(beside(&file.name), &place).map_err(give_up)?;
        written.push(place);
    }
    Ok(written)
}
