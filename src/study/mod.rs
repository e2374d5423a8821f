//! Whatever runs the pipeline again on a changed job: candidate sizes, the changeover sweep, scenarios,
//! winters drawn by chance, prices at which two options cost the same, what each input does to their
//! difference.
//!
//! Changes a job only through `job::edit`, so that every run is one that a person could type. Start
//! at [`change`].

pub mod change;
pub mod rerun;
pub mod sizes;
pub mod changeover;
pub mod scenarios;
pub mod around;
pub mod levers;
pub mod draws;
pub mod crossing;
pub mod two_options;
pub mod tipping;
pub mod price_map;
pub mod sway;
pub mod price_lines;
mod price_accounts;

pub use around::{Around, around};
pub use changeover::{ChangeoverSweep, SweepRow, changeover_sweep, takes_turns};
pub use draws::{WinterDraws, draws, draws_as_in_job};
pub use levers::{Levers, OptionLevers, levers};
pub use price_accounts::price_lines;
pub use price_lines::{OptionLines, PriceLines};
pub use price_map::{PriceMap, price_map};
pub use scenarios::{ScenarioRow, ScenarioTable, scenario_questions, scenarios, years};
pub use sizes::{CandidateSizes, SizeRow, candidate_sizes};
pub use sway::{Sway, accepts_vary, sway};
pub use tipping::{Tipping, TippingPrice, tipping};
