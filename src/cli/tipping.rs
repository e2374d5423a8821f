//! `tipping`: at which price two options cost the same.

use super::arguments::Tipping as Arguments;
use super::{Failure, input, output};
use crate::comparison::compare;
use crate::problem::Problem;
use crate::report::files::study_files;
use crate::report::studied::Studied;
use crate::report::{Report, build, terminal, tipping as words, tipping_json};
use crate::study;
use crate::study::tipping::Asked;

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
        let studied = Studied { map, ..Studied::default() };
        let files = study_files("tipping", &c, &report, &studied, &json).map_err(Failure::Ours)?;
        output::folder(folder, &report, "tipping", files, Some(&job))?;
    }
    match arguments.json {
        true => output::result(&json),
        false => output::result(&terminal::render(&report, output::columns())),
    }
}
