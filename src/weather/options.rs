//! What may be said beside a weather file: its layout, its clock, the rule for gaps, the time zone.
//!
//! All of it is optional; a file that says these things itself needs none. Start at
//! [`ReadOptions`].

use chrono_tz::Tz;

/// The layouts that can be read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Layout {
    /// TMY3 comma-separated: a station line, a line of column names, 8,760 rows.
    Tmy3,
    /// TMY2 fixed-width: a station line, 8,760 rows.
    Tmy2,
    /// EPW: eight header lines, 8,760 rows (8,784 of an actual leap year).
    Epw,
    /// ISD-Lite: twelve whole numbers a row, in UTC, one year a file.
    IsdLite,
    /// NSRDB comma-separated: two lines on the place, a line of column names, hours or half-hours.
    Nsrdb,
    /// PVGIS comma-separated: lines on the place, a line of column names, hours in UTC.
    Pvgis,
    /// Our plain hourly CSV; names carry the unit.
    PlainCsv,
    /// Comma-separated with date and time in each row.
    DatedCsv,
    /// Hours by outdoor temperature.
    BinCsv,
}

impl Layout {
    /// Its name, as messages and reports tell it.
    pub fn name(self) -> &'static str {
        match self {
            Self::Tmy3 => "TMY3",
            Self::Tmy2 => "TMY2",
            Self::Epw => "EPW",
            Self::IsdLite => "ISD-Lite",
            Self::Nsrdb => "NSRDB",
            Self::Pvgis => "PVGIS",
            Self::PlainCsv => "CSV with a row an hour",
            Self::DatedCsv => "CSV with dates",
            Self::BinCsv => "hours by temperature",
        }
    }
}

/// What fills a gap in the dry-bulb.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum GapRule {
    /// Straight lines up to six hours; longer gaps are refused.
    #[default]
    Line,
    /// Straight lines up to six hours; in longer gaps the mean of the same hour of the nearest day
    /// on each side that has it.
    NeighbouringDays,
}

/// The clock that the dates and times of a file follow.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FileClock {
    /// Coordinated universal time.
    Utc,
    /// Standard time of the place, all year.
    Standard,
}

/// What the job says of its weather file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct ReadOptions {
    /// The layout; looked for where nothing is said.
    pub layout: Option<Layout>,
    /// What fills gaps.
    pub gaps: GapRule,
    /// The clock of a CSV file with dates that does not say it itself.
    pub clock: Option<FileClock>,
    /// The place's time zone: hours in UTC are put into its standard time where the file does not
    /// give the offset.
    pub zone: Option<Tz>,
}
