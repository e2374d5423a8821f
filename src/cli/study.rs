//! `sizes` and `changeover`: the same job run several times.

use super::arguments::{Changeover, Place, Sizes};
use super::{Failure, choosing, input, output};
use crate::comparison::{Comparison, compare};
use crate::job::{Job, MachineSection, OptionZoneSection};
use crate::report::charts::CostChart;
use crate::report::figures::Measure;
use crate::report::model::Report;
use crate::report::{Table, build, files, studies, terminal};
use crate::study::{candidate_sizes, changeover_sweep, takes_turns};
use crate::weather::Weather;
use std::path::Path;

/// Runs `sizes`.
pub(crate) fn sizes(arguments: &Sizes) -> Result<(), Failure> {
    let (job, weather, zone) = opened(&arguments.place)?;
    let first = |zone: &OptionZoneSection| {
        let first = zone.heating.value.first().and_then(|name| job.machine(&name.value));
        !arguments.machines.is_empty()
            || first.is_some_and(|m| matches!(m.kind.value, MachineSection::HeatPump(_)))
    };
    let none = "a heat pump as its first machine";
    let option = choosing::option("sizes", &arguments.place, (&job, &zone), first, none)?;
    let machines = match arguments.machines.as_slice() {
        [] => heat_pumps(&job, &option, &zone),
        named => named.to_vec(),
    };
    let found = candidate_sizes(&job, &weather, &option, &zone, &machines)
        .map_err(|problems| Failure::Given(problems, None))?;
    show(&job, &weather, arguments.out.as_deref(), |c, about| {
        let (currency, measure) = (c.currency.as_str(), Measure(c.units));
        (studies::sizes(&found, currency, measure), studies::sizes_chart(&found, currency, about))
    })
}

/// Runs `changeover`.
pub(crate) fn changeover(arguments: &Changeover) -> Result<(), Failure> {
    let (job, weather, zone) = opened(&arguments.place)?;
    let fits = |zone: &OptionZoneSection| takes_turns(&job, zone);
    let none = "a heat pump followed by a furnace";
    let option = choosing::option("changeover", &arguments.place, (&job, &zone), fits, none)?;
    let found = changeover_sweep(&job, &weather, &option, &zone)
        .map_err(|problems| Failure::Given(problems, None))?;
    show(&job, &weather, arguments.out.as_deref(), |c, about| {
        let (currency, measure) = (c.currency.as_str(), Measure(c.units));
        let chart = studies::changeover_chart(&found, currency, measure, about);
        (studies::changeover(&found, currency, measure), chart)
    })
}

fn opened(place: &Place) -> Result<(Job, Weather, String), Failure> {
    let path = place.job.as_deref();
    let job = input::job(path, &place.changes)?;
    let weather = input::weather(&job, path)?;
    let first = job.house.zone.first().map(|z| z.name.value.clone());
    let zone = place.zone.clone().or(first).unwrap_or_default();
    Ok((job, weather, zone))
}

/// The job's heat pumps, but for those that serve another zone of the option already.
fn heat_pumps(job: &Job, option: &str, zone: &str) -> Vec<String> {
    let others = job.options.iter().filter(|o| o.name.value == option).flat_map(|o| &o.zone);
    let taken: Vec<&str> = others
        .filter(|z| z.zone.value != zone)
        .flat_map(|z| z.heating.value.iter().chain(&z.cooling))
        .map(|name| name.value.as_str())
        .collect();
    let pumps = job.equipment.iter().filter(|m| matches!(m.kind.value, MachineSection::HeatPump(_)));
    pumps.map(|m| m.name.value.clone()).filter(|name| !taken.contains(&name.as_str())).collect()
}

/// Prints one table between what the report says of the job and its cautions; with a folder, writes that,
/// the table and its chart there too.
fn show(
    job: &Job,
    weather: &Weather,
    folder: Option<&Path>,
    made: impl Fn(&Comparison, &str) -> (Table, CostChart),
) -> Result<(), Failure> {
    let comparison =
        compare(job, weather).map_err(|problems| Failure::Given(problems, Some(job.text.clone())))?;
    let whole = build::report(&comparison);
    let about = build::house_and_weather(&comparison);
    let (table, chart) = made(&comparison, &about);
    let name = table.name.clone();
    let report = Report { verdict: Vec::new(), tables: vec![table], appendices: Vec::new(), ..whole };
    if let Some(folder) = folder {
        output::folder(
            folder,
            &report,
            &name,
            files::picture(&name, chart.draw()).map_err(Failure::Ours)?,
            Some(job),
        )?;
    }
    output::result(&terminal::render(&report, output::columns()))
}
