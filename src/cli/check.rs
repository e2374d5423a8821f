//! `check`: the problems of a job, or everything that it takes for granted.
//!
//! Start at [`run`].

use super::arguments::Check;
use super::{Failure, input, output, what_if};
use crate::comparison::{Comparison, compare};
use crate::job::Job;
use crate::report::{job_check, terminal};

/// Runs the command.
pub(crate) fn run(arguments: &Check) -> Result<(), Failure> {
    match (checked(arguments), arguments.json) {
        (Ok((job, comparison)), true) => {
            output::result(&job_check::json(&job.file, Ok(&comparison)).map_err(Failure::Ours)?)
        }
        (Ok((job, comparison)), false) => {
            output::result(&terminal::render(&job_check::report(&job.file, &comparison), output::columns()))
        }
        (Err(Failure::Given(problems, _)), true) => {
            let name = arguments.job.as_ref().map_or(input::DEMO_NAME.into(), |p| p.display().to_string());
            output::result(&job_check::json(&name, Err(&problems)).map_err(Failure::Ours)?)?;
            Err(Failure::Told)
        }
        (Err(failure), _) => Err(failure),
    }
}

/// The whole pipeline is run, scenarios too, since some of what a job takes for granted, and what is wrong
/// with a scenario, shows only there.
fn checked(arguments: &Check) -> Result<(Job, Comparison), Failure> {
    let path = arguments.job.as_deref();
    let job = input::job(path, &arguments.changes)?;
    let weather = input::weather(&job, path)?;
    let comparison =
        compare(&job, &weather).map_err(|problems| Failure::Given(problems, Some(job.text.clone())))?;
    what_if::least(&job, &weather, &comparison)?;
    Ok((job, comparison))
}
