//! Files into a folder, each beside its place first and then renamed, so that nothing half-written is ever
//! found; and out of it what an earlier run wrote there for another job.
//!
//! Takes away only what its own list names and whose bytes are still those it wrote. Start at [`write_all`].

use super::files::ReadyFile;
use crate::problem::Problem;
use sha2::{Digest, Sha256};
use std::fs;
use std::io::{Error, ErrorKind};
use std::path::{Component, Path, PathBuf};

/// The list of what was written: for which job, under which name, with which SHA-256.
pub const LIST: &str = "written_by_winterledger.csv";
/// What a file that is not yet whole is called: a point, its name, and this.
const PART: &str = ".winterledger-part";
const HEAD: [&str; 3] = ["job_sha256", "file", "file_sha256"];

/// What came of writing.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Written {
    /// How many files were written, the list not counted.
    pub files: usize,
    /// Files of another job that were taken away.
    pub removed: Vec<String>,
    /// Files of another job that somebody has changed since, and which stay.
    pub kept: Vec<String>,
}

/// Why files could not be written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum WriteError {
    /// What was given cannot be used.
    Given(Problem),
    /// The disk is full or fails.
    Disk(Problem),
}

/// A line of the list.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Entry {
    job: String,
    name: String,
    sha256: String,
}

/// Writes the files into `folder`, making it if need be: first all beside their places, then renamed. Takes
/// away what was written there for another job than `job` (its SHA-256; nothing for files of no job, which
/// take nothing away and are never taken away), as long as nobody has changed it since.
///
/// # Errors
/// A folder that cannot be made or written; what was begun is taken away again.
pub fn write_all(folder: &Path, files: &[ReadyFile], job: Option<&str>) -> Result<Written, WriteError> {
    let failed = |e: Error| failure(folder, &e);
    if folder.is_file() {
        let what = format!("{} is a file, and a folder is needed for several files", folder.display());
        let help = "Name a folder; it is made if it is not there";
        return Err(WriteError::Given(Problem::new(what).help(help)));
    }
    fs::create_dir_all(folder).map_err(failed)?;
    let names = || files.iter().map(|f| f.name.as_str()).chain([LIST]);
    if let Some(taken) = names().map(|name| folder.join(name)).find(|place| place.is_dir()) {
        let what = format!("{} cannot be written: a folder stands in its place", taken.display());
        let help = "Name another folder, or take that one away";
        return Err(WriteError::Given(Problem::new(what).help(help)));
    }
    remove_parts(folder);
    let before = listed(folder);
    let (stale, others): (Vec<Entry>, Vec<Entry>) = before
        .into_iter()
        .filter(|entry| names().all(|name| name != entry.name))
        .partition(|entry| job.is_some_and(|job| !entry.job.is_empty() && entry.job != job));
    let own = files.iter().map(|f| Entry {
        job: job.unwrap_or_default().to_owned(),
        name: f.name.clone(),
        sha256: sha256(&f.bytes),
    });
    let list: Vec<Entry> = others.into_iter().chain(own).collect();
    // What is to go stays listed until it is gone, so that a run that is broken off loses sight of nothing.
    let first = [stale.clone(), list.clone()].concat();
    place_all(folder, files, &first).map_err(failed)?;
    let (removed, kept) = remove(folder, &stale);
    if !stale.is_empty() {
        place_all(folder, &[], &list).map_err(failed)?;
    }
    Ok(Written { files: files.len(), removed, kept })
}

/// Writes the list and the files beside their places, then renames them all, the list first.
fn place_all(folder: &Path, files: &[ReadyFile], list: &[Entry]) -> Result<(), Error> {
    let list = ReadyFile { name: LIST.into(), bytes: list_text(list)? };
    let all = || std::iter::once(&list).chain(files);
    let beside = |name: &str| folder.join(format!(".{name}{PART}"));
    let done = all().try_for_each(|f| fs::write(beside(&f.name), &f.bytes));
    let done = done.and_then(|()| all().try_for_each(|f| fs::rename(beside(&f.name), folder.join(&f.name))));
    if done.is_err() {
        remove_parts(folder);
    }
    done
}

/// Whether what was given is at fault, or the disk.
fn failure(folder: &Path, error: &Error) -> WriteError {
    use ErrorKind::{
        AlreadyExists, InvalidFilename, InvalidInput, IsADirectory, NotADirectory, NotFound,
        PermissionDenied, ReadOnlyFilesystem,
    };
    let problem = Problem::new(format!("the folder {} cannot be written: {error}", folder.display()));
    match error.kind() {
        NotFound | PermissionDenied | NotADirectory | IsADirectory | ReadOnlyFilesystem | AlreadyExists
        | InvalidInput | InvalidFilename => {
            WriteError::Given(problem.help("Name a folder that you may write to"))
        }
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded => {
            WriteError::Disk(problem.help("Make room there, or name a folder on another disk"))
        }
        _ => WriteError::Disk(problem),
    }
}

/// What a run that was broken off left half-written.
fn remove_parts(folder: &Path) {
    let entries = fs::read_dir(folder).into_iter().flatten().flatten();
    let is_part = |name: &str| name.starts_with('.') && name.ends_with(PART);
    for entry in entries.filter(|entry| entry.file_name().to_str().is_some_and(is_part)) {
        // One that cannot be taken away does no harm where it is.
        let _ = fs::remove_file(entry.path());
    }
}

/// The names that were taken away, and those that stay because their bytes are others by now.
fn remove(folder: &Path, stale: &[Entry]) -> (Vec<String>, Vec<String>) {
    let (mut removed, mut kept) = (Vec::new(), Vec::new());
    for entry in stale {
        let Some(place) = inside(folder, &entry.name) else { continue };
        let Ok(bytes) = fs::read(&place) else { continue };
        let gone = sha256(&bytes) == entry.sha256 && fs::remove_file(&place).is_ok();
        if gone { removed.push(entry.name.clone()) } else { kept.push(entry.name.clone()) }
    }
    (removed, kept)
}

/// The place of a file right in the folder; nothing for a name that leads elsewhere, or for no plain file.
fn inside(folder: &Path, name: &str) -> Option<PathBuf> {
    let mut parts = Path::new(name).components();
    let plain = matches!((parts.next(), parts.next()), (Some(Component::Normal(_)), None));
    let place = folder.join(name);
    let is_file = fs::symlink_metadata(&place).is_ok_and(|found| found.is_file());
    (plain && is_file).then_some(place)
}

/// What the folder's list names; nothing where there is no list of ours.
fn listed(folder: &Path) -> Vec<Entry> {
    let Ok(mut reader) = csv::Reader::from_path(folder.join(LIST)) else { return Vec::new() };
    if reader.headers().map_or(true, |head| *head != HEAD[..]) {
        return Vec::new();
    }
    let entry = |row: csv::StringRecord| {
        let cell = |at: usize| row.get(at).map(str::to_owned);
        Some(Entry { job: cell(0)?, name: cell(1)?, sha256: cell(2)? })
    };
    reader.records().flatten().filter_map(entry).collect()
}

fn list_text(list: &[Entry]) -> Result<Vec<u8>, Error> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(HEAD)?;
    for entry in list {
        writer.write_record([&entry.job, &entry.name, &entry.sha256])?;
    }
    writer.into_inner().map_err(|e| e.into_error())
}

fn sha256(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().map(|byte| format!("{byte:02x}")).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_full_disk_is_not_the_fault_of_what_was_given() {
        let of = |kind: ErrorKind| failure(Path::new("x"), &Error::from(kind));
        for kind in [ErrorKind::StorageFull, ErrorKind::QuotaExceeded, ErrorKind::Other] {
            assert!(matches!(of(kind), WriteError::Disk(_)), "{kind}");
        }
        for kind in [ErrorKind::PermissionDenied, ErrorKind::ReadOnlyFilesystem, ErrorKind::NotADirectory] {
            assert!(matches!(of(kind), WriteError::Given(_)), "{kind}");
        }
    }
}
