//! A job with some keys changed, run again.
//!
//! Start at [`rerun`].

use crate::comparison::{Comparison, OptionResult, compare};
use crate::job::{Job, OptionSection, OptionZoneSection, edit, path, reader};
use crate::problem::{Problem, Problems, choices};
use crate::simulation::EndUse;
use crate::weather::Weather;

/// Runs `job` with `changes` (key path and value, as `--set` takes them) on `weather`.
///
/// # Errors
/// A key that cannot be set, and everything a job can be refused for.
pub fn rerun(job: &Job, changes: &[(String, String)], weather: &Weather) -> Result<Comparison, Problems> {
    let mut text = job.text.clone();
    for (key, value) in changes {
        text = edit::set(&text, key, value).map_err(|problem| vec![problem])?;
    }
    compare(&reader::read(&job.file, text)?, weather)
}

/// The option and the zone of these names, or what there is to choose from.
///
/// # Errors
/// A name that does not exist, with the names that do.
pub(super) fn find<'a>(
    job: &'a Job,
    option: &str,
    zone: &str,
) -> Result<(&'a OptionSection, &'a OptionZoneSection), Problem> {
    let found = job.options.iter().find(|o| o.name.value == option).ok_or_else(|| {
        let names = choices(job.options.iter().map(|o| o.name.value.as_str()));
        Problem::new(format!("there is no option '{option}'")).in_file(&job.file).allowed(names)
    })?;
    let served = found.zone.iter().find(|z| z.zone.value == zone).ok_or_else(|| {
        let names = choices(found.zone.iter().map(|z| z.zone.value.as_str()));
        Problem::new(format!("there is no zone '{zone}'")).in_file(&job.file).allowed(names)
    })?;
    Ok((found, served))
}

/// The path of a key of a zone of an option.
pub(super) fn zone_key(option: &str, zone: &str, key: &str) -> String {
    [option, "zone", zone, key].into_iter().fold("option".to_owned(), |path, part| path::join(&path, part))
}

/// What an option costs in a year by end use, what is nothing left out.
pub(super) fn by_use(option: &OptionResult) -> Vec<(EndUse, f64)> {
    let mut uses: Vec<EndUse> = option.ledger.postings.iter().map(|p| p.end_use).collect();
    uses.sort();
    uses.dedup();
    let amounts = uses.into_iter().map(|u| (u, option.ledger.sum(|p| p.end_use == u)));
    amounts.filter(|(_, amount)| *amount != 0.0).collect()
}

/// The result of the option of that name.
pub(super) fn result<'a>(c: &'a Comparison, option: &str) -> Option<(usize, &'a OptionResult)> {
    c.options.iter().enumerate().find(|(_, o)| o.design.name == option)
}
