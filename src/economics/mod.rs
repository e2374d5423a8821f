//! Yearly costs into what an option costs over its years: installed cost, loans, replacement, and the
//! measures by which one option is set against another.
//!
//! Knows money and years, no machine or hour. Start at [`mod@life_cycle`].

pub mod terms;
pub mod loan;
pub mod life_cycle;
pub mod measures;
pub mod project;
pub mod from_job;

pub use from_job::Economics;
pub use life_cycle::{Costs, LifeCycle, Replacement, life_cycle};
pub use loan::Loan;
pub use measures::{Against, Payback};
pub use project::{Incentive, Part, Project};
pub use terms::Terms;
