//! `compare`: every option of a job side by side.

use super::arguments::Compare;
use super::{Failure, input, output};
use crate::comparison::compare;
use crate::report::{build, files, json, terminal};

/// Runs the command.
pub(crate) fn run(arguments: &Compare) -> Result<(), Failure> {
    let path = arguments.job.as_deref();
    let job = input::job(path, &arguments.changes)?;
    let weather = input::weather(&job, path)?;
    let comparison =
        compare(&job, &weather).map_err(|problems| Failure::Given(problems, Some(job.text.clone())))?;
    if let Some(folder) = &arguments.out {
        let ready = files::ready_files(&comparison).map_err(Failure::Ours)?;
        let written = files::write_all(folder, &ready)?;
        output::remark(&format!("{} files written into {}", written.len(), folder.display()));
    }
    if arguments.json {
        output::result(&json::text(&comparison).map_err(Failure::Ours)?)
    } else {
        output::result(&terminal::render(&build::report(&comparison), output::columns()))
    }
}
