//! What a weather source turned out to hold: a year, a record of years, or bins.
//!
//! Start at [`Weather`].

use super::record::WeatherRecord;
use super::year::{BinTable, OutdoorYear};

/// What a weather source turned out to hold.
#[derive(Debug, Clone, PartialEq)]
pub enum Weather {
    /// Hours in order, one year.
    Year(Box<OutdoorYear>),
    /// Hours in order, more than one year.
    Record(Box<WeatherRecord>),
    /// Hours by temperature only.
    Bins(BinTable),
}
