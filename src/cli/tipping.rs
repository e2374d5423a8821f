//! `tipping`: at which price two options cost the same.

use super::arguments::Tipping as Arguments;
use super::{Failure, input, output};
use crate::comparison::{Comparison, compare};
use crate::job::Job;
use crate::problem::Problem;
use crate::report::charts::png;
use crate::report::figures::Measure;
use crate::report::files::{ReadyFile, on_paper, table_file};
use crate::report::printed::Chart;
use crate::report::{Report, build, terminal, tipping as words, tipping_json, tipping_picture};
use crate::study::tipping::Asked;
use crate::study::{self, PriceMap};
use std::path::Path;

/// Runs the command.
pub(crate) fn run(arguments: &Arguments) -> Result<(), Failure> {
    let path = arguments.job.as_deref();
    let job = input::job(path, &arguments.changes)?;
    let weather = input::weather(&job, path)?;
    let given = |problems| Failure::Given(problems, Some(job.text.clone()));
    let c = compare(&job, &weather).map_err(given)?;
    let asked = Asked {
        option: arguments.option.clone(),
        against: arguments.against.clone(),
        fuel: arguments.fuel.clone(),
    };
    let found = study::tipping(&job, &weather, &c, &asked).map_err(given)?;
    let found = found.ok_or_else(|| {
        let what = "no two options that keep the house warm differ by the fuel they burn";
        Problem::new(what).help("Name two with --option and --against")
    })?;
    let scenarios = study::scenarios(&job, &weather, &c).map_err(given)?;
    let map = study::price_map(&job, &weather, &c, &found, &scenarios).map_err(given)?;
    let report = Report {
        verdict: words::sentences(&c, &found),
        tables: vec![words::table(&c, &found)],
        appendices: map.iter().map(|map| words::map_table(&c, map)).collect(),
        ..build::report(&c)
    };
    let json = tipping_json::text(&c, &found, map.as_ref()).map_err(Failure::Ours)?;
    if let Some(folder) = &arguments.out {
        written((folder, &job), &c, &report, map.as_ref(), &json)?;
    }
    match arguments.json {
        true => output::result(&json),
        false => output::result(&terminal::render(&report, output::columns())),
    }
}

fn written(
    (folder, job): (&Path, &Job),
    c: &Comparison,
    report: &Report,
    map: Option<&PriceMap>,
    json: &str,
) -> Result<(), Failure> {
    let ready = |name: &str, bytes: Vec<u8>| ReadyFile { name: name.into(), bytes };
    let tables = report.tables.iter().chain(&report.appendices).map(table_file);
    let mut files = tables.collect::<Result<Vec<_>, Problem>>().map_err(Failure::Ours)?;
    files.push(ready("tipping.txt", terminal::render(report, output::COLUMNS).into_bytes()));
    files.push(ready("tipping.json", json.as_bytes().to_vec()));
    let mut charts = Vec::new();
    if let Some(map) = map {
        let about = format!("{} \u{b7} {}", c.title, build::weather_words(c, Measure(c.units)));
        let failed = |e| Failure::Ours(Problem::new(format!("the chart 'price_map' cannot be drawn: {e}")));
        let svg = tipping_picture::price_map(c, map, &about).draw().map_err(failed)?;
        files.push(ready("price_map.png", png(&svg, 2.0).map_err(failed)?));
        files.push(ready("price_map.svg", svg.clone().into_bytes()));
        let words = "Which of the two costs less at which prices; the figures stand in price_map.csv.".into();
        charts.push(Chart { name: "price_map".into(), svg, words, tables: vec!["price_map".into()] });
    }
    files.push(ready("tipping.pdf", on_paper(c, report, None, &charts).map_err(Failure::Ours)?));
    output::write(folder, &files, Some(job))
}
