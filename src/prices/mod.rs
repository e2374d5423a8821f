//! What one more unit of a fuel costs at an hour, and what is due whatever is used.
//!
//! Knows nothing of use. Start at [`price_year`].

pub mod price_year;
pub mod from_job;

pub use price_year::{FuelPrice, PriceOfDay, Prices, Spike};
