//! How fuel reaches the house and is paid for: bills by meter.
//!
//! Knows prices and use, not options. Start at [`meter`].

pub mod reason;
mod priced_hours;
pub mod meter;
