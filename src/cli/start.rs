//! `start`: a job to begin with, printed or written to a file that is not there yet.
//!
//! Never overwrites. Start at [`run`].

use super::arguments::Start;
use super::{Failure, output};
use crate::problem::Problem;
use std::fs::OpenOptions;
use std::io::{ErrorKind, Write};
use std::path::Path;

/// The starter job: invented values, every key explained.
const STARTER: &str = include_str!("../../data/starter.toml");

/// Runs the command.
pub(crate) fn run(arguments: &Start) -> Result<(), Failure> {
    let Some(path) = &arguments.file else { return output::result(STARTER) };
    // `create_new` looks and makes in one step, so that nothing can come between.
    let file = OpenOptions::new().write(true).create_new(true).open(path);
    let mut file = file.map_err(|e| refusal(path, &e))?;
    file.write_all(STARTER.as_bytes())
        .and_then(|()| file.sync_all())
        .map_err(|e| Failure::Ours(Problem::new(format!("{} cannot be written: {e}", path.display()))))?;
    output::remark(&format!(
        "{0} is written; replace its invented values, then: winterledger check {0}",
        path.display()
    ));
    Ok(())
}

fn refusal(path: &Path, error: &std::io::Error) -> Problem {
    let shown = path.display();
    match error.kind() {
        ErrorKind::AlreadyExists => Problem::new(format!("{shown} is already there and stays as it is"))
            .help("Name a file that does not exist yet, or leave the name out to print the job"),
        ErrorKind::NotFound => Problem::new(format!("{shown} cannot be made: its folder is not there"))
            .help("Make the folder first"),
        _ => Problem::new(format!("{shown} cannot be made: {error}"))
            .help("Name a file in a folder that you may write to"),
    }
}
