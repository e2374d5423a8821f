//! Whatever runs the pipeline again on a changed job: candidate sizes, the changeover sweep.
//!
//! Changes a job only through `job::edit`, so that every run is one that a person could type. Start
//! at [`rerun`].

pub mod rerun;
pub mod sizes;
pub mod changeover;

pub use changeover::{ChangeoverSweep, SweepRow, changeover_sweep};
pub use sizes::{CandidateSizes, SizeRow, candidate_sizes};
