//! What a machine gives and draws at an outdoor temperature and a wanted output.
//!
//! Knows no time, no house and no money. Start at [`machine`].

pub mod map;
pub mod output;
pub mod combustion;
pub mod ground;
pub mod origin;
pub mod machine;
pub mod household;
pub mod tables;
pub mod ratings;
pub mod nameplate;
pub mod from_job;

pub use household::{HouseholdKind, HouseholdMachine, WaterHeater};
pub use machine::{Cooling, Heating, Machine, MachineKind, Pilot, Presence};
