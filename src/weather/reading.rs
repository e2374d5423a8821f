//! What came of reading a file: what was taken, skipped and filled, and what a reader of the
//! results should know. Values only; the words are made elsewhere.
//!
//! Start at [`Reading`].

use super::cells::Column;
use super::labels::Labels;
use super::lines::Row;
use super::options::Layout;
use chrono::{NaiveDate, NaiveDateTime};

/// What was taken from one weather file, or from several read as one record.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// The layout.
    pub layout: Layout,
    /// Rows that were read.
    pub rows: usize,
    /// Hours of the result whose dry-bulb is from the file.
    pub hours_taken: usize,
    /// Rows that were not used: beyond the whole days or the year that was taken.
    pub rows_skipped: usize,
    /// Hours whose dry-bulb was filled, by either rule.
    pub filled_hours: usize,
    /// The columns that were taken, by their names in the file.
    pub columns_taken: Vec<String>,
    /// The columns that were passed over.
    pub columns_passed_over: Vec<String>,
    /// What else there is to say.
    pub remarks: Vec<Remark>,
}

/// Something done on the way that a reader should know of.
#[derive(Debug, Clone, PartialEq)]
pub enum Remark {
    /// The bytes were no UTF-8 and were taken as Windows-1252.
    Windows1252,
    /// Lines above the names of the columns were passed over.
    LinesAbove {
        /// How many.
        lines: usize,
        /// The first of them.
        first: String,
    },
    /// The line below the names of the columns was taken as their units.
    UnitsBelow {
        /// That line.
        line: String,
    },
    /// A column was left out because hours of it are missing.
    ColumnDropped {
        /// Its name in the file.
        column: String,
        /// Hours without a value.
        missing: usize,
        /// The first of them, in words.
        first: String,
    },
    /// The hours were put from UTC, or from another zone, into local standard time.
    Shifted {
        /// Hours that the clock was put forward; back where negative.
        hours: f64,
        /// Hours at one end that were taken from the other.
        wrapped: usize,
    },
    /// The offset from UTC was taken from the longitude, a zone each 15°.
    OffsetFromLongitude {
        /// Standard time less UTC, hours.
        hours: f64,
    },
    /// The offset of standard time from UTC is the least that the rows' own times carry.
    OffsetFromTimes {
        /// Standard time less UTC, hours.
        hours: f64,
    },
    /// The rows' own times carry another offset from UTC than file or job says of the place.
    OffsetsDiffer {
        /// The least that the times carry, hours.
        times: f64,
        /// What is said of the place, hours; the hours were put into that.
        place: f64,
    },
    /// The times are said to be in UTC but carry another offset, which was followed.
    OffsetsNotUtc {
        /// The least that the times carry, hours.
        hours: f64,
    },
    /// Files of one record that name different stations or places.
    OtherStation {
        /// The file.
        file: String,
        /// The station or place that it names.
        of: String,
        /// The first file of the record.
        first_file: String,
        /// What that one names.
        first_of: String,
    },
    /// Neither file nor job says the clock; the hours were taken as local standard time.
    ClockUnsaid,
    /// The dates name no year; the hours were taken as those of a typical one.
    NoYear,
    /// Times name the end of the hour, as 24:00 shows; each was counted as the hour before.
    EndOfHour,
    /// The labels of the rows look wrong; hours were laid where their labels say.
    Labels(Labels),
    /// Several rows fell into one hour; their mean was taken.
    Averaged {
        /// Rows in the fullest hour.
        rows_an_hour: usize,
    },
    /// A column does not say its unit; all its numbers can only be kelvin.
    TakenAsKelvin {
        /// Its name in the file.
        column: String,
    },
    /// Each 29 February had no row at all and was filled from the days beside it.
    NoLeapDay {
        /// How many.
        days: usize,
    },
    /// The rows name no year and were taken for a typical one's.
    TakenAsTypical,
    /// Gaps longer than six hours were filled from the neighbouring days.
    FilledByDays {
        /// Hours so filled.
        hours: usize,
    },
    /// Rows without any value, as spreadsheets write below the last; they were passed over.
    EmptyRows {
        /// How many.
        rows: usize,
    },
    /// Hours before or after the days that were taken.
    LeftOut {
        /// How many.
        hours: usize,
    },
    /// A year that does not begin on 1 January was turned to do so; its winter stays whole.
    Turned {
        /// The day with which it begins, in the year before that on which it was laid.
        first: NaiveDate,
    },
    /// Times look cut to a minute before the hour; what hour their rows were meant for lacks one.
    CutTimes {
        /// How many.
        times: usize,
        /// The first.
        at: NaiveDateTime,
    },
}

impl Reading {
    /// Nothing read yet.
    pub(super) fn of(layout: Layout, windows_1252: bool) -> Self {
        Self {
            layout,
            rows: 0,
            hours_taken: 0,
            rows_skipped: 0,
            filled_hours: 0,
            columns_taken: Vec::new(),
            columns_passed_over: Vec::new(),
            remarks: windows_1252.then_some(Remark::Windows1252).into_iter().collect(),
        }
    }

    /// Notes the names of columns that are none of those taken, nor at the places of `others`.
    pub(super) fn pass_over(&mut self, names: &Row<'_>, taken: &[Column], others: &[usize]) {
        let used = |at: usize| taken.iter().any(|column| column.position == at) || others.contains(&at);
        let others = names.cells().enumerate().filter(|(at, name)| !name.is_empty() && !used(*at));
        self.columns_passed_over.extend(others.map(|(_, name)| name.to_owned()));
    }
}
