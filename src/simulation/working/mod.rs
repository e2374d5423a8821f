//! One hour or bin of one zone as arithmetic: the steps a pocket calculator can follow, from the
//! need to every machine's draw.
//!
//! The numbers are those the kernel used; where the steps and the kernel part, that is a defect and
//! a test says so. Words are `report`'s. Start at [`work`].

mod running;
mod step;
mod heater;
mod zone;
mod beside;

pub(super) use beside::{put_shared, tell_defrosting, tell_recovering, tell_shared};
pub use running::{Candidate, Running, Weighed};
pub use step::Step;
pub use zone::work;
pub(super) use zone::work_through;
