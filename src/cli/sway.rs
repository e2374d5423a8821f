//! `sway`: what each input does to the difference between two options.

use super::arguments::Sway as Arguments;
use super::{Failure, input, output};
use crate::comparison::compare;
use crate::problem::Problem;
use crate::report::files::study_files;
use crate::report::studied::Studied;
use crate::report::{Report, build, sway as words, sway_json, terminal};
use crate::study;
use crate::study::tipping::Asked;

/// Runs the command.
pub(crate) fn run(arguments: &Arguments) -> Result<(), Failure> {
    let path = arguments.job.as_deref();
    let job = input::job(path, &arguments.changes)?;
    let weather = input::weather(&job, path)?;
    let given = |problems| Failure::Given(problems, Some(job.text.clone()));
    let c = compare(&job, &weather).map_err(given)?;
    let asked = Asked { option: arguments.option.clone(), against: arguments.against.clone(), fuel: None };
    let found = study::sway(&job, &weather, &c, &asked).map_err(given)?;
    let found = found.ok_or_else(|| {
        Problem::new("there are no two options that keep the house warm")
            .help("Name two with --option and --against")
    })?;
    let verdict = words::sentences(&c, &found);
    let report = Report {
        verdict,
        tables: vec![words::table(&c, &found)],
        appendices: Vec::new(),
        ..build::report(&c)
    };
    let json = sway_json::text(&c, &found).map_err(Failure::Ours)?;
    if let Some(folder) = &arguments.out {
        let studied = Studied { sway: Some(found), ..Studied::default() };
        let files = study_files("sway", &c, &report, &studied, &json).map_err(Failure::Ours)?;
        output::folder(folder, &report, "sway", files, Some(&job))?;
    }
    match arguments.json {
        true => output::result(&json),
        false => output::result(&terminal::render(&report, output::columns())),
    }
}
