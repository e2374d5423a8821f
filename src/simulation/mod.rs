//! Which machine runs in each hour, what it draws, and where the room ends.
//!
//! Advances one option, hours outside and zones inside. Knows no money and no tank: whoever drives
//! it hands in what fuel may still burn. Start at [`advance()`].

pub mod end_use;
pub mod household;
pub mod kernel;
pub mod through;
pub mod working;
pub mod tempering;
mod folds;
pub mod hour_map;
pub mod bank;
pub mod bound;
pub mod design;
pub mod frost;
pub mod from_job;
pub mod source;
pub mod plan;
pub mod state;
pub mod record;
mod within;
pub mod advance;
pub mod comfort;
pub mod energy;
pub mod sums;
pub mod bins;

pub use advance::advance;
pub use end_use::EndUse;
pub use energy::EnergyByHour;
pub use state::{FuelLimits, OptionState};
