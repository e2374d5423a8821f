//! How large a text may be, and the refusals of what is larger or no text.
//!
//! Start at [`Limits`].

use crate::problem::Problem;

/// The greatest line, of which length pieces are read, and the greatest text that are taken, and what is
/// read ahead, bytes.
#[derive(Debug, Clone, Copy)]
pub(super) struct Limits {
    pub(super) line: usize,
    pub(super) size: usize,
    pub(super) ahead: usize,
}

/// What is taken.
pub(super) const LIMITS: Limits = Limits { line: 64 * 1024, size: 256 * 1024 * 1024, ahead: 1024 * 1024 };
pub(super) fn too_long(limits: Limits, line: usize) -> Problem {
    Problem::new("the line is too long")
        .at_line(line)
        .allowed(format!("lines up to {} kB", limits.line / 1024))
        .help("Give a text file with one hour or one bin on each line")
}

pub(super) fn too_large(limits: Limits) -> Problem {
    Problem::new("the file is too large")
        .allowed(format!("up to {} MB when unpacked", limits.size / (1024 * 1024)))
        .help("Give one year of hourly weather; that is a few MB")
}

pub(super) fn binary(line: usize, first: &[u8]) -> Problem {
    let problem = Problem::not_text(first).at_line(line).allowed("text, or gzipped text");
    match problem.help {
        Some(_) => problem,
        None => problem.help("Unpack archives, and save spreadsheets as CSV (UTF-8)"),
    }
}
