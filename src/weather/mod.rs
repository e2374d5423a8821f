//! Outdoor hours: files of several layouts into one [`OutdoorYear`], and what can be said of it.
//!
//! Knows nothing of houses, machines or money, and never repairs silently. Start at [`year`].

pub mod year;

pub use year::{Bin, BinTable, OutdoorRun, OutdoorYear, Weather, YearKind};
