//! What a zone needs at an outdoor temperature, and how its room answers to heat.
//!
//! Knows no machine and no money. Start at [`zone`].

pub mod room;
pub mod air;
pub mod ducts;
pub mod zone;
pub mod water;
pub mod past_use;
pub mod from_job;

pub use ducts::{DuctLine, Ducts};
pub use room::RoomHour;
pub use water::Mains;
pub use zone::{CoolingNeed, Schedule, SetBack, Zone};
