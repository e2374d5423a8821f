//! All integration tests in one binary. Start with the module named after what is tested.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test fails by panicking")]

mod gallery;
mod job;
