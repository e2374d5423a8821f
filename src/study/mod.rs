//! Whatever runs the pipeline again on a changed job: candidate sizes, the changeover sweep, scenarios;
//! and winters drawn by chance.
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

pub use around::{Around, around};
pub use changeover::{ChangeoverSweep, SweepRow, changeover_sweep};
pub use draws::{WinterDraws, draws};
pub use levers::{Levers, OptionLevers, levers};
pub use scenarios::{ScenarioRow, ScenarioTable, scenarios, years};
pub use sizes::{CandidateSizes, SizeRow, candidate_sizes};
