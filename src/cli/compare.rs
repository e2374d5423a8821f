//! `compare`: every option of a job side by side.

use super::arguments::Compare;
use super::{Failure, input, output, what_if};
use crate::comparison::{Comparison, compare};
use crate::job::Job;
use crate::problem::{Problem, Problems};
use crate::report::front::front;
use crate::report::sheet::Sheet;
use crate::report::studied::Studied;
use crate::report::{build, files, json, terminal, tipping as words};
use crate::study::tipping::Asked;
use crate::study::{self, ScenarioTable};
use crate::weather::Weather;

/// Runs the command.
pub(crate) fn run(arguments: &Compare) -> Result<(), Failure> {
    let path = arguments.job.as_deref();
    let job = input::job(path, &arguments.changes)?;
    let weather = input::weather(&job, path)?;
    let given = |problems: Vec<Problem>| Failure::Given(problems, Some(job.text.clone()));
    let comparison = compare(&job, &weather).map_err(given)?;
    let scenarios = study::scenarios(&job, &weather, &comparison).map_err(given)?;
    let tipping = study::tipping(&job, &weather, &comparison, &Asked::default()).map_err(given)?;
    let mut report = build::report(&comparison);
    let mut tables = what_if::for_comparison(&comparison, &scenarios).into_iter();
    report.tables.extend(tables.next());
    report.appendices.extend(tables);
    report.tipping_price = tipping.as_ref().and_then(|found| words::first_sentence(&comparison, found));
    let studied = Studied { tipping, ..Studied::default() };
    if let Some(folder) = &arguments.out {
        let around = study::around(&job, &weather, &comparison).map_err(given)?;
        let studied =
            with_pictures(&job, &weather, &comparison, &scenarios, studied.clone()).map_err(given)?;
        report.appendices.extend(studied.tables(&comparison));
        let front = front(&comparison, &around, &studied);
        let sheet = Sheet { front, logo: input::logo(&job, path)?, levers: study::levers(&comparison) };
        let ready = files::ready_files(&comparison, &report, &sheet, &studied).map_err(Failure::Ours)?;
        output::write(folder, &ready, Some(&job))?;
    }
    if arguments.json {
        output::result(&json::text(&comparison, studied.tipping.as_ref()).map_err(Failure::Ours)?)
    } else {
        output::result(&terminal::render(&report, output::columns()))
    }
}

/// The studies that only files show, beside that of where two options cost the same.
fn with_pictures(
    job: &Job,
    weather: &Weather,
    c: &Comparison,
    scenarios: &ScenarioTable,
    studied: Studied,
) -> Result<Studied, Problems> {
    let map = match &studied.tipping {
        Some(found) => study::price_map(job, weather, c, found, scenarios)?,
        None => None,
    };
    let sway = study::sway(job, weather, c, &Asked::default())?;
    let winters = study::draws_as_in_job(job, weather, c);
    Ok(Studied { map, sway, winters, ..studied })
}
