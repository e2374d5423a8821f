//! All integration tests in one binary. Start with the module named after what is tested.

mod gallery;
mod job;
