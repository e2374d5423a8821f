//! `compare`: every option of a job side by side.

use super::arguments::Compare;
use super::{Failure, input, output, what_if};
use crate::comparison::compare;
use crate::problem::Problem;
use crate::report::front::front;
use crate::report::sheet::Sheet;
use crate::report::{build, files, json, terminal, tipping as words};
use crate::study;
use crate::study::tipping::{Asked, tipping};

/// Runs the command.
pub(crate) fn run(arguments: &Compare) -> Result<(), Failure> {
    let path = arguments.job.as_deref();
    let job = input::job(path, &arguments.changes)?;
    let weather = input::weather(&job, path)?;
    let comparison =
        compare(&job, &weather).map_err(|problems| Failure::Given(problems, Some(job.text.clone())))?;
    let mut report = build::report(&comparison);
    report.tables.push(what_if::least(&job, &weather, &comparison)?);
    let tipping = tipping(&job, &weather, &comparison, &Asked::default())
        .map_err(|problems| Failure::Given(problems, Some(job.text.clone())))?;
    report.tipping_price = tipping.as_ref().and_then(|found| words::first_sentence(&comparison, found));
    if let Some(folder) = &arguments.out {
        let given = |problems: Vec<Problem>| Failure::Given(problems, Some(job.text.clone()));
        let around = study::around(&job, &weather, &comparison).map_err(given)?;
        let levers = study::levers(&comparison);
        let logo = input::logo(&job, path)?;
        let sheet = Sheet { front: front(&comparison, &around, tipping.as_ref()), logo, levers };
        let ready =
            files::ready_files(&comparison, &report, &sheet, tipping.as_ref()).map_err(Failure::Ours)?;
        output::write(folder, &ready, Some(&job))?;
    }
    if arguments.json {
        output::result(&json::text(&comparison, tipping.as_ref()).map_err(Failure::Ours)?)
    } else {
        output::result(&terminal::render(&report, output::columns()))
    }
}
