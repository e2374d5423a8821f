//! Outdoor hours: files of several layouts into one [`OutdoorYear`], and what can be said of it.
//!
//! Bytes become text, the text shows its layout, and that layout's reader makes the year. Knows
//! nothing of houses, machines or money, and never repairs silently. Start at [`read()`] and [`year`].

// A problem is made once and ends the reading: its size costs nothing, boxes would only hide it.
#![allow(clippy::result_large_err)]

pub mod options;
mod findings;
pub mod zones;
pub mod from_job;
mod stream;
mod limits;
mod text;
mod spot;
mod lines;
mod writing;
mod cells;
mod site;
mod named_dates;
mod when;
mod no_date;
mod dates;
pub mod labels;
pub mod reading;
pub mod columns;
pub mod year;
pub mod statistics;
pub mod record;
pub mod held;
mod stamps;
mod gaps;
mod hours;
mod comments;
mod tmy3;
mod tmy2;
mod epw;
mod names;
mod plain_site;
mod plain_csv;
mod bin_csv;
mod dated_rows;
mod dated;
mod misdated;
mod same_place;
mod joined;
mod by_hour;
mod span;
mod dated_csv;
mod isd_lite;
mod nsrdb;
mod pvgis;
mod recognise;
mod unknown;
mod read;
pub mod places;
mod gumbel;
pub mod quality;
pub mod extremes;
pub mod synthetic;

pub use columns::OutdoorColumns;
pub use held::Weather;
pub use options::{FileClock, GapRule, Layout, ReadOptions};
pub use read::{read, read_as, read_many, read_with};
pub use reading::{Reading, Remark};
pub use record::WeatherRecord;
pub use year::{Bin, BinTable, OutdoorRun, OutdoorYear, YearKind};
