//! `check`: the problems of a job, or everything that it takes for granted.
//!
//! Start at [`run`].

use super::arguments::Check;
use super::{Failure, input, output};
use crate::comparison::{Comparison, compare};
use crate::job::Job;
use crate::report::{job_check, terminal};
use crate::study;
use crate::weather::{Weather, places};

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
/// with a scenario or a `[[vary]]`, shows only there.
fn checked(arguments: &Check) -> Result<(Job, Comparison), Failure> {
    let path = arguments.job.as_deref();
    let job = input::job(path, &arguments.changes)?;
    let weather = input::weather(&job, path).map_err(|failure| with_other_problems(failure, &job))?;
    let given = |problems| Failure::Given(problems, Some(job.text.clone()));
    let mut comparison = compare(&job, &weather).map_err(given)?;
    study::scenarios(&job, &weather, &comparison).map_err(given)?;
    study::accepts_vary(&job, &weather, &comparison).map_err(given)?;
    let asked = study::scenario_questions(&job, &weather, &comparison).map_err(given)?;
    comparison.notes.extend(asked);
    Ok((job, comparison))
}

/// Beside weather that cannot be opened, what else is wrong with the job, as any other weather would show it.
fn with_other_problems(failure: Failure, job: &Job) -> Failure {
    let Failure::Given(mut problems, Some(text)) = failure else { return failure };
    let stand_in = places::places().first().and_then(|place| places::open(place.key).ok());
    let found = stand_in.map(|year| compare(job, &Weather::Year(Box::new(year))));
    let others = found.and_then(Result::err).unwrap_or_default().into_iter();
    let of_weather = |key: &str| key.starts_with("site.") || key.starts_with("past_use");
    problems.extend(others.filter(|problem| !problem.key.as_deref().is_some_and(of_weather)));
    problems.sort_by_key(|problem| problem.line);
    Failure::Given(problems, Some(text))
}
