//! Everything that is tested from outside, in one program: linking twenty is slow. Start with the
//! module named after what is tested.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test fails by panicking")]

mod charts;
mod gallery;
mod job;
mod oracle;
