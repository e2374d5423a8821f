//! winterledger

pub mod units;
pub mod problem;
pub mod calendar;
pub mod series;
pub mod sources;
pub mod fuel;
pub mod lane;
pub mod job;
pub mod weather;
pub mod equipment;
pub mod load;
pub mod prices;
pub mod simulation;
pub mod supply;
pub mod ledger;
pub mod coldnight;
pub mod comparison;
pub mod report;
pub mod cli;
