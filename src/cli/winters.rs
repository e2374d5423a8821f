//! `winters`: the same job through many winters drawn by chance.

use super::arguments::Scenarios;
use super::{Failure, input, output};
use crate::comparison::compare;
use crate::report::draws::{sentences, tables};
use crate::report::files::ReadyFile;
use crate::report::tables_json::tables_json;
use crate::report::{Report, build, terminal};
use crate::study;

/// Runs `winters`.
pub(crate) fn run(arguments: &Scenarios) -> Result<(), Failure> {
    let path = arguments.job.as_deref();
    let job = input::job(path, &arguments.changes)?;
    let weather = input::weather(&job, path)?;
    let given = |problems| Failure::Given(problems, Some(job.text.clone()));
    let first = compare(&job, &weather).map_err(given)?;
    let drawn = study::draws(&job, &weather, &first).map_err(given)?;
    let (told, tables) = (sentences(&first, &drawn), tables(&first, &drawn));
    let json = tables_json(&first, &tables, &told).map_err(Failure::Ours)?;
    let report = Report { verdict: told, tables, appendices: Vec::new(), ..build::report(&first) };
    if let Some(folder) = &arguments.out {
        let json = ReadyFile { name: "winters.json".into(), bytes: json.clone().into() };
        output::folder(folder, &report, "winters", vec![json], Some(&job))?;
    }
    match arguments.json {
        true => output::result(&json),
        false => output::result(&terminal::render(&report, output::columns())),
    }
}
