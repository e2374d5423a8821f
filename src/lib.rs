//! winterledger

pub mod units;
pub mod problem;
pub mod calendar;
pub mod series;
pub mod sources;
pub mod weather;
pub mod report;
