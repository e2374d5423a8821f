//! The rows of one file that carry their date, as its reader leaves them.
//!
//! Must never know a layout, nor put rows into order. Start at [`Dated`].

use super::dated_rows::Rows;
use super::findings::Findings;
use super::hours::Hours;
use super::reading::{Reading, Remark};
use super::site::Site;
use super::text::Text;
use super::when::date_of;
use crate::problem::{Problem, Problems};

/// The clock that the dates of a file follow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Clock {
    /// So many hours from UTC.
    Offset(f64),
    /// Local standard time, as file or job say.
    Standard,
    /// Nobody says.
    Unsaid,
}

/// The rows of a file whose rows carry their date.
#[derive(Debug)]
pub(super) struct Dated {
    /// The file's name, for messages.
    pub(super) file: String,
    /// SHA-256 of its bytes.
    pub(super) sha256: String,
    /// The place; its offset is that of its own standard time.
    pub(super) site: Site,
    /// The station's number or sign, where the file carries one.
    pub(super) station: Option<String>,
    /// The files whose rows these are, in order: each with its first and its last minute.
    pub(super) files: Vec<(String, i64, i64)>,
    /// The clock of `minutes`.
    pub(super) clock: Clock,
    /// The least and the greatest offset from UTC that the rows themselves say, minutes; it is taken off.
    pub(super) offsets: Option<(i64, i64)>,
    /// Whether the layout itself says that the months are of different years, or the dates name none.
    pub(super) typical: bool,
    /// The values, a row each.
    pub(super) hours: Hours,
    /// When each row is, see [`super::when::Moment`].
    pub(super) minutes: Vec<i64>,
    /// What came of reading.
    pub(super) reading: Reading,
}

impl Dated {
    /// The rows of one text, which is then at its end.
    ///
    /// # Errors
    /// What was found wrong, and no rows at all.
    pub(super) fn of(
        site: Site,
        clock: Clock,
        rows: Rows,
        mut reading: Reading,
        (text, mut findings): (Text<'_>, Findings),
    ) -> Result<Self, Problems> {
        findings.check()?;
        let origin = match text.finish() {
            Ok(origin) => origin,
            Err(problem) => return Err(findings.end(problem)),
        };
        if rows.minutes.is_empty() {
            let problem = Problem::new("there are no rows with a date and values");
            return Err(findings.end(problem.help("Take the file again from its source, whole")));
        }
        if origin.windows_1252 {
            reading.remarks.push(Remark::Windows1252);
        }
        if rows.end_of_hour {
            reading.remarks.push(Remark::EndOfHour);
        }
        if rows.no_year {
            reading.remarks.push(Remark::NoYear);
        }
        reading.rows = rows.minutes.len();
        let Rows { hours, minutes, offsets, station, no_year: typical, .. } = rows;
        let (file, sha256) = (findings.file().to_owned(), origin.sha256);
        let files = Vec::new();
        Ok(Self { file, sha256, site, station, files, clock, offsets, typical, hours, minutes, reading })
    }
}

impl Dated {
    /// The file with its first and its last minute.
    pub(super) fn reach(&self) -> Option<(String, i64, i64)> {
        Some((self.file.clone(), *self.minutes.first()?, *self.minutes.last()?))
    }

    /// What the rows come from, as a message names it.
    pub(super) fn source(&self) -> String {
        match self.files.as_slice() {
            [(first, ..), .., (last, ..)] => format!("{first} to {last}"),
            _ => self.file.clone(),
        }
    }
}

/// A minute as a message shows it.
pub(super) fn words(minutes: i64) -> String {
    date_of(minutes).map_or_else(String::new, |(date, minute)| {
        format!("{} {:02}:{:02}", date.format("%-d %B %Y"), minute / 60, minute % 60)
    })
}
