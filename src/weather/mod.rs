//! Outdoor hours: files of several layouts into one [`OutdoorYear`], and what can be said of it.
//!
//! Bytes become text, the text shows its layout, and that layout's reader makes the year. Knows
//! nothing of houses, machines or money, and never repairs silently. Start at [`read()`] and [`year`].

// A problem is made once and ends the reading: its size costs nothing, boxes would only hide it.
#![allow(clippy::result_large_err)]

pub mod year;
pub mod statistics;
mod text;
mod findings;
mod lines;
mod cells;
mod stamps;
mod gaps;
mod hours;
mod comments;
mod tmy3;
mod epw;
mod plain_site;
mod plain_csv;
mod bin_csv;
mod recognise;
mod read;
pub mod places;
mod chance;
mod gumbel;
pub mod extremes;
pub mod synthetic;
pub mod quality;

pub use read::{read, read_as};
pub use recognise::Layout;
pub use year::{Bin, BinTable, OutdoorRun, OutdoorYear, Weather, YearKind};
