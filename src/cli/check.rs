//! `check`: the problems of a job, or everything that it takes for granted.
//!
//! Start at [`run`].

use super::arguments::Check;
use super::{Failure, input, output};
use crate::comparison::{Comparison, compare};
use crate::job::Job;
use crate::report::{job_check, terminal};
use crate::study;

/// Runs the command.
pub(crate) fn run(arguments: &Check) -> Result<(), Failure> {
    match (checked(arguments), arguments.json) {
        (Ok((job, comparison)), true) => {
            let document = job_check::json(&job.file, Ok(&comparison), &to_replace(&job.text));
            output::result(&document.map_err(Failure::Ours)?)
        }
        (Ok((job, comparison)), false) => {
            let report = job_check::report(&job.file, &comparison, &to_replace(&job.text));
            output::result(&terminal::render(&report, output::columns()))
        }
        (Err(Failure::Given(problems, _)), true) => {
            let name = arguments.job.as_ref().map_or(input::DEMO_NAME.into(), |p| p.display().to_string());
            output::result(&job_check::json(&name, Err(&problems), &[]).map_err(Failure::Ours)?)?;
            Err(Failure::Told)
        }
        (Err(failure), _) => Err(failure),
    }
}

/// The lines, counted from 1, whose value is still the starter job's: they say so behind it.
fn to_replace(text: &str) -> Vec<usize> {
    let says = |line: &str| {
        line.split_once('#')
            .is_some_and(|(value, words)| !value.trim().is_empty() && words.contains("REPLACE ME"))
    };
    (1..).zip(text.lines()).filter(|(_, line)| says(line)).map(|(number, _)| number).collect()
}

/// The whole pipeline is run, scenarios too, since some of what a job takes for granted, and what is wrong
/// with a scenario, shows only there.
fn checked(arguments: &Check) -> Result<(Job, Comparison), Failure> {
    let path = arguments.job.as_deref();
    let job = input::job(path, &arguments.changes)?;
    let weather = input::weather(&job, path)?;
    let given = |problems| Failure::Given(problems, Some(job.text.clone()));
    let comparison = compare(&job, &weather).map_err(given)?;
    study::scenarios(&job, &weather, &comparison).map_err(given)?;
    Ok((job, comparison))
}
