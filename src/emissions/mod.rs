//! What burning fuel and drawing from the grid sends into the air in a year.
//!
//! Knows no money. Start at [`Emissions::of`].

pub mod grid;
pub mod of_year;
pub mod from_job;

pub use grid::{Grid, GridRate};
pub use of_year::Emissions;
