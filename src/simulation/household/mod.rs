//! What people use beside heating and cooling: base electricity, hot water, drying, cooking.
//!
//! Enters each hour before heating does. Knows no money. Start at [`HouseholdDesign`].

pub mod design;
pub mod from_job;
pub mod plan;

pub use design::{HotWater, HouseholdDesign, SteadyDraw};
pub use plan::{HouseholdPlan, PlannedDraw};
