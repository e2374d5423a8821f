//! Prints: results to standard output, problems to the error stream; a broken pipe ends quietly.
//!
//! Start at [`result`].

use super::{Failure, messages};
use crate::job::Job;
use crate::problem::Problem;
use crate::report::files::{ReadyFile, table_file};
use crate::report::folder::write_all;
use crate::report::{Report, terminal};
use std::io::{ErrorKind, IsTerminal, Write};
use std::path::Path;
use std::process::ExitCode;

/// Columns where the terminal does not say.
pub(crate) const COLUMNS: u16 = 80;

/// Prints a result.
pub(crate) fn result(text: &str) -> Result<(), Failure> {
    let mut out = std::io::stdout().lock();
    match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
        Ok(()) => Ok(()),
        Err(e) if e.kind() == ErrorKind::BrokenPipe => Err(Failure::BrokenPipe),
        Err(e) => Err(Failure::Ours(Problem::new(format!("the result cannot be printed: {e}")))),
    }
}

/// Writes a report as text under `name`, its tables as CSV, and whatever else is ready into a folder.
pub(crate) fn folder(
    folder: &Path,
    report: &Report,
    name: &str,
    others: Vec<ReadyFile>,
    job: Option<&Job>,
) -> Result<(), Failure> {
    let tables = report.tables.iter().chain(&report.appendices).map(table_file);
    let mut files = tables.collect::<Result<Vec<_>, Problem>>().map_err(Failure::Ours)?;
    let text = terminal::render(report, COLUMNS);
    files.push(ReadyFile { name: format!("{name}.txt"), bytes: text.into_bytes() });
    files.extend(others);
    write(folder, &files, job)
}

/// Writes files into a folder and says so; what was written there for another job goes.
pub(crate) fn write(folder: &Path, files: &[ReadyFile], job: Option<&Job>) -> Result<(), Failure> {
    let written = write_all(folder, files, job.map(|job| job.sha256.as_str()))?;
    remark(&format!("{} files written into {}", written.files, folder.display()));
    if !written.removed.is_empty() {
        remark(&format!("taken away, of another job: {}", written.removed.join(", ")));
    }
    if !written.kept.is_empty() {
        remark(&format!("of another job, kept because changed since: {}", written.kept.join(", ")));
    }
    Ok(())
}

/// Prints a remark to the error stream.
pub(crate) fn remark(text: &str) {
    // Nobody can be told if the error stream itself is gone.
    let _ = writeln!(std::io::stderr(), "{text}");
}

/// Prints problems to the error stream, in colour on a terminal.
pub(crate) fn problems(problems: &[Problem], text: Option<&str>) {
    let colour = std::io::stderr().is_terminal() && std::env::var_os("NO_COLOR").is_none();
    let _ = write!(std::io::stderr(), "{}", messages::render(problems, text, colour));
}

/// Prints what the argument parser has to say: help and version are no failure.
pub(crate) fn clap_message(shown: &clap::Error) -> ExitCode {
    let _ = shown.print();
    if shown.use_stderr() { ExitCode::from(2) } else { ExitCode::SUCCESS }
}

/// Columns to write for: the terminal's, if it says, else 80.
pub(crate) fn columns() -> u16 {
    std::env::var("COLUMNS").ok().and_then(|c| c.parse().ok()).unwrap_or(COLUMNS)
}
