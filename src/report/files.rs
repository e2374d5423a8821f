//! Every file of a report, made in memory.
//!
//! Must never write; `folder` does. Start at [`ready_files`].

use super::charts::{ChartError, png};
use super::csv_text::csv;
use super::json_head::written;
use super::model::{Report, Table};
use super::print::{Paper, pdf};
use super::printed::{self, Chart};
use super::sheet::Sheet;
use super::spreadsheet::spreadsheet;
use super::studied::Studied;
use super::{chart_tables, gallery, json, page, terminal};
use crate::comparison::{Comparison, PaperSize};
use crate::problem::Problem;
use crate::study::price_lines;
use rayon::prelude::{IntoParallelRefIterator, ParallelIterator};

/// One file, ready to be written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ReadyFile {
    /// Its name in the folder.
    pub name: String,
    /// Its bytes.
    pub bytes: Vec<u8>,
}

/// Makes every file of a comparison and its report in memory: text, JSON, tables, spreadsheet, charts, what
/// is printed. The tables of what was `studied` stand in the report already.
///
/// # Errors
/// A chart that cannot be drawn.
pub fn ready_files(
    c: &Comparison,
    report: &Report,
    sheet: &Sheet,
    studied: &Studied,
) -> Result<Vec<ReadyFile>, Problem> {
    let tipping = studied.tipping.as_ref();
    let mut files = vec![
        ReadyFile { name: "comparison.txt".into(), bytes: terminal::render(report, 80).into_bytes() },
        ReadyFile { name: "comparison.json".into(), bytes: json::text(c, tipping)?.into_bytes() },
    ];
    let remarks = chart_tables::remarks(report);
    for table in report.tables.iter().chain(&report.appendices).chain([&remarks]) {
        files.push(table_file(table)?);
    }
    let charts = gallery::charts(c, studied)?;
    files.extend(pictures(&charts)?);
    let spreadsheet = spreadsheet(c, report, &price_lines(c))?;
    files.push(ReadyFile { name: "prices.xlsx".into(), bytes: spreadsheet });
    files.extend(sheet_files(c, report, sheet, &charts)?);
    Ok(files)
}

/// A table as CSV.
///
/// # Errors
/// A table that CSV cannot hold; that would be a defect.
pub fn table_file(table: &Table) -> Result<ReadyFile, Problem> {
    let text = csv(table).map_err(|e| Problem::new(format!("{}.csv: {e}", table.name)))?;
    Ok(ReadyFile { name: format!("{}.csv", table.name), bytes: text.into_bytes() })
}

/// A drawn chart as SVG and PNG.
///
/// # Errors
/// A chart that could not be drawn.
pub fn picture(name: &str, drawn: Result<String, ChartError>) -> Result<Vec<ReadyFile>, Problem> {
    let failed = |e| Problem::new(format!("the chart '{name}' cannot be drawn: {e}"));
    let svg = drawn.map_err(failed)?;
    let bitmap = ReadyFile { name: format!("{name}.png"), bytes: png(&svg, 2.0).map_err(failed)? };
    Ok(vec![bitmap, ReadyFile { name: format!("{name}.svg"), bytes: svg.into_bytes() }])
}

/// Each chart as SVG and PNG, in order: no picture knows another, and pixels take long.
fn pictures(charts: &[Chart]) -> Result<Vec<ReadyFile>, Problem> {
    let made = charts.par_iter().map(|chart| picture(&chart.name, Ok(chart.svg.clone())));
    let made: Vec<Vec<ReadyFile>> = made.collect::<Result<_, _>>()?;
    Ok(made.into_iter().flatten().collect())
}

/// What a study puts beside its text and tables: its JSON, its charts, and all that is printed of it.
///
/// # Errors
/// A chart that cannot be drawn.
pub fn study_files(
    name: &str,
    c: &Comparison,
    report: &Report,
    studied: &Studied,
    json: &str,
) -> Result<Vec<ReadyFile>, Problem> {
    let charts = gallery::of_studies(c, studied)?;
    let mut files = vec![ReadyFile { name: format!("{name}.json"), bytes: json.as_bytes().to_vec() }];
    files.extend(pictures(&charts)?);
    files.push(ReadyFile { name: format!("{name}.pdf"), bytes: on_paper(c, report, None, &charts)? });
    Ok(files)
}

/// The sheet that goes home: as a PDF and as a page, and page one's figures as JSON.
///
/// # Errors
/// A chart that cannot be drawn.
pub fn sheet_files(
    c: &Comparison,
    report: &Report,
    sheet: &Sheet,
    charts: &[Chart],
) -> Result<Vec<ReadyFile>, Problem> {
    let page_one = written(&sheet.front)?;
    Ok(vec![
        ReadyFile { name: "comparison.pdf".into(), bytes: on_paper(c, report, Some(sheet), charts)? },
        ReadyFile {
            name: "comparison.html".into(),
            bytes: page::document(c, report, sheet, charts)?.into_bytes(),
        },
        ReadyFile { name: "page_one.json".into(), bytes: page_one.into_bytes() },
    ])
}

/// The report as a PDF: on Letter where the job is in US units, else on A4, unless it names its paper;
/// with page one where there is a sheet.
///
/// # Errors
/// What the typesetter refuses; that would be a defect.
fn on_paper(
    c: &Comparison,
    report: &Report,
    sheet: Option<&Sheet>,
    charts: &[Chart],
) -> Result<Vec<u8>, Problem> {
    let paper = match c.heading.paper_or(c.units) {
        PaperSize::Letter => Paper::Letter,
        PaperSize::A4 => Paper::A4,
    };
    let author = c.prepared_by.as_deref().unwrap_or_default();
    let blocks = printed::blocks(sheet.map(|sheet| (&sheet.front, sheet.logo.as_ref())), report, charts);
    pdf::document(&report.title, author, &blocks, &report.foot, paper)
}
