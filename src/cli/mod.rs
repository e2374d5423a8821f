//! The command line: arguments into work, problems into messages, exit codes. Only here is anything
//! printed; results go to standard output, notes and problems to the error stream.
//!
//! Start at [`run`]; one file a command.

pub mod messages;
mod arguments;
mod input;
mod output;
mod start;
mod what_if;
mod winters;
mod history;
mod tipping;
mod sway;
mod check;
mod compare;
mod choosing;
mod study;
mod working;
mod weather;
mod completions;

use clap::Parser;
use std::process::ExitCode;

use crate::problem::Problem;
use crate::report::folder::WriteError;
use arguments::{Arguments, Command};

/// Why a command did not do what was asked.
pub(crate) enum Failure {
    /// What was given cannot be used; the text of the job is there to show the places.
    Given(Vec<Problem>, Option<String>),
    /// Our own defect, or the disk's.
    Ours(Problem),
    /// What was given cannot be used, and the result already says so.
    Told,
    /// The reader of our output went away; nothing needs saying.
    BrokenPipe,
}

impl From<Problem> for Failure {
    fn from(problem: Problem) -> Self {
        Self::Given(vec![problem], None)
    }
}

impl From<WriteError> for Failure {
    fn from(error: WriteError) -> Self {
        match error {
            WriteError::Given(problem) => problem.into(),
            WriteError::Disk(problem) => Self::Ours(problem),
        }
    }
}

/// Runs the program with the process's arguments.
///
/// Returns 0 when done (also when an option leaves the house cold), 2 when what was given cannot be
/// used, 1 for a defect of ours or of the disk.
pub fn run() -> ExitCode {
    let arguments = match Arguments::try_parse() {
        Ok(arguments) => arguments,
        Err(shown) => return output::clap_message(&shown),
    };
    let done = match arguments.command {
        Command::Start(start) => start::run(&start),
        Command::Check(check) => check::run(&check),
        Command::Compare(compare) => compare::run(&compare),
        Command::Sizes(sizes) => study::sizes(&sizes),
        Command::Changeover(changeover) => study::changeover(&changeover),
        Command::Scenarios(arguments) => what_if::scenarios(&arguments),
        Command::Winters(arguments) => winters::run(&arguments),
        Command::History(arguments) => history::run(&arguments),
        Command::Tipping(arguments) => tipping::run(&arguments),
        Command::Sway(arguments) => sway::run(&arguments),
        Command::Working(working) => working::run(&working),
        Command::Weather(weather) => weather::run(&weather),
        Command::Schema(schema) => completions::schema(&schema),
        Command::Completions(shell) => completions::completions(&shell),
    };
    match done {
        Ok(()) | Err(Failure::BrokenPipe) => ExitCode::SUCCESS,
        Err(Failure::Given(problems, text)) => {
            output::problems(&problems, text.as_deref());
            ExitCode::from(2)
        }
        Err(Failure::Told) => ExitCode::from(2),
        Err(Failure::Ours(problem)) => {
            output::problems(&[problem], None);
            ExitCode::FAILURE
        }
    }
}
