//! `scenarios`: the same job under other prices, weather, walls or help.

use super::arguments::Scenarios;
use super::{Failure, input, output};
use crate::comparison::{Comparison, compare};
use crate::report::files::ReadyFile;
use crate::report::levers::table as levers_table;
use crate::report::scenarios::{Kind, Wording, long, tables};
use crate::report::{Report, Table, build, terminal, what_if_json};
use crate::study::{self, ScenarioTable};

/// Runs `scenarios`.
pub(crate) fn scenarios(arguments: &Scenarios) -> Result<(), Failure> {
    let path = arguments.job.as_deref();
    let job = input::job(path, &arguments.changes)?;
    let weather = input::weather(&job, path)?;
    let first =
        compare(&job, &weather).map_err(|problems| Failure::Given(problems, Some(job.text.clone())))?;
    let given = |problems| Failure::Given(problems, Some(job.text.clone()));
    let table = study::scenarios(&job, &weather, &first).map_err(given)?;
    let years = study::years(&job, &weather, &first).map_err(given)?;
    let levers = study::levers(&first);
    let mut report = worded(&first, &table, years.as_ref());
    report.appendices.push(levers_table(&first, &levers));
    let json = what_if_json::scenarios(&first, &table, years.as_ref(), &levers).map_err(Failure::Ours)?;
    if let Some(folder) = &arguments.out {
        let json = ReadyFile { name: "scenarios.json".into(), bytes: json.clone().into() };
        output::folder(folder, &report, "scenarios", vec![json], Some(&job))?;
    }
    match arguments.json {
        true => output::result(&json),
        false => output::result(&terminal::render(&report, output::columns())),
    }
}

/// The tables of scenarios for the report of `compare`; the first tells which option costs least a year.
pub(crate) fn for_comparison(first: &Comparison, table: &ScenarioTable) -> Vec<Table> {
    let years = first.life_cycles.as_ref().map(|lives| lives.economics.terms.years);
    tables(table, Wording { kind: Kind::Scenarios, currency: &first.currency, years })
}

/// The tables between what the report says of the job and its cautions.
fn worded(first: &Comparison, table: &ScenarioTable, years: Option<&ScenarioTable>) -> Report {
    let over = first.life_cycles.as_ref().map(|lives| lives.economics.terms.years);
    let words = |kind| Wording { kind, currency: &first.currency, years: over };
    let (mut shown, mut appendices) =
        (tables(table, words(Kind::Scenarios)), vec![long(table, words(Kind::Scenarios))]);
    if let Some(years) = years {
        shown.extend(tables(years, words(Kind::Years)));
        appendices.push(long(years, words(Kind::Years)));
    }
    Report { verdict: Vec::new(), tables: shown, appendices, ..build::report(first) }
}
