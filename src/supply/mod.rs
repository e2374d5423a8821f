//! How fuel reaches the house and is paid for: bills by meter; and stores that a truck fills, with
//! their days, contracts and cost.
//!
//! Knows prices and use, not options. Start at [`meter`] and [`year`].

pub mod charge;
pub mod reason;
mod priced_hours;
pub mod meter;
pub mod vapour;
pub mod tank;
pub mod contract;
pub mod queue;
pub mod store;
pub mod ordinary;
pub mod from_job;
pub mod book;
pub mod fuel_use;
pub mod days;
pub mod cost;
pub mod at_market;
pub mod year;

pub use store::{MarketDays, Store, Supplies};
pub use year::Supplied;
