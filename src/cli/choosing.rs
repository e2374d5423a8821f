//! The option that a command is about, where none is named: the only one that fits, or a question.
//!
//! Start at [`option`].

use super::arguments::Place;
use crate::job::{Job, OptionSection, OptionZoneSection};
use crate::problem::{Problem, choices};

/// The option named, or the only one of the job whose zone fits.
///
/// # Errors
/// More than one, with the command to type, or none, with `none` for what was looked for.
pub(super) fn option(
    command: &str,
    place: &Place,
    (job, zone): (&Job, &str),
    fits: impl Fn(&OptionZoneSection) -> bool,
    none: &str,
) -> Result<String, Problem> {
    if let Some(named) = &place.option {
        return Ok(named.clone());
    }
    let fitting = |option: &&OptionSection| option.zone.iter().any(|z| z.zone.value == zone && fits(z));
    let names: Vec<&str> =
        job.options.iter().filter(fitting).map(|option| option.name.value.as_str()).collect();
    match names.as_slice() {
        [] => {
            let problem =
                Problem::new(format!("no option has {none} in the zone '{zone}'")).in_file(&job.file);
            Err(problem.help("Add such an option to the job, or name another zone with --zone"))
        }
        [only] => Ok((*only).to_owned()),
        several => Err(ask(command, place, several).in_file(&job.file)),
    }
}

/// The question which of several options is meant, with the command for the first of them.
pub(super) fn ask(command: &str, place: &Place, names: &[&str]) -> Problem {
    let file = place.job.as_ref().map_or_else(String::new, |job| format!(" {}", job.display()));
    let zone = place.zone.as_ref().map_or_else(String::new, |zone| format!(" --zone \"{zone}\""));
    let first = names.first().copied().unwrap_or_default();
    let typed = format!("winterledger {command}{file} --option \"{first}\"{zone}");
    Problem::new("more than one option fits: which one is meant?")
        .allowed(choices(names.iter().copied()))
        .help(format!("Type {typed}"))
}
