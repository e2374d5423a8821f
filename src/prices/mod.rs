//! What one more unit of a fuel costs at an hour, and what is due whatever is used.
//!
//! Knows nothing of use. Start at [`price_year`].

pub mod rate;
pub mod moves;
pub mod history;
pub mod price_year;
pub mod from_job;

pub use moves::Moves;
pub use price_year::{FuelPrice, Meter, PriceOfDay, Prices, Rider, RiderCharge, Spike, YearlyUse};
pub use rate::{ClockHours, DaysOfWeek, Rate, Tier};
