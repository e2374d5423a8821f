//! `sway`: what each input does to the difference between two options.

use super::arguments::Sway as Arguments;
use super::{Failure, input, output};
use crate::comparison::compare;
use crate::problem::Problem;
use crate::report::charts::png;
use crate::report::figures::Measure;
use crate::report::files::{ReadyFile, on_paper, table_file};
use crate::report::printed::Chart;
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
    let table = words::table(&c, &found);
    let report = Report { verdict, tables: vec![table.clone()], appendices: Vec::new(), ..build::report(&c) };
    let json = sway_json::text(&c, &found).map_err(Failure::Ours)?;
    if let Some(folder) = &arguments.out {
        let about = format!("{} \u{b7} {}", c.title, build::weather_words(&c, Measure(c.units)));
        let failed = |e| Failure::Ours(Problem::new(format!("the chart 'sway' cannot be drawn: {e}")));
        let svg = words::picture(&c, &found, &about).draw().map_err(failed)?;
        let words = "What each input, moved by itself, does to the difference.".into();
        let chart = Chart { name: "sway".into(), svg: svg.clone(), words, tables: vec!["sway".into()] };
        let ready = |name: &str, bytes: Vec<u8>| ReadyFile { name: name.into(), bytes };
        let files = [
            table_file(&table).map_err(Failure::Ours)?,
            ready("sway.txt", terminal::render(&report, output::COLUMNS).into_bytes()),
            ready("sway.json", json.clone().into_bytes()),
            ready("sway.png", png(&svg, 2.0).map_err(failed)?),
            ready("sway.svg", svg.into_bytes()),
            ready("sway.pdf", on_paper(&c, &report, None, &[chart]).map_err(Failure::Ours)?),
        ];
        output::write(folder, &files, Some(&job))?;
    }
    match arguments.json {
        true => output::result(&json),
        false => output::result(&terminal::render(&report, output::columns())),
    }
}
