//! All integration tests in one binary: one module a subject, because linking many binaries is slow.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod python;
mod weather;
mod weather_bad_input;
mod weather_layouts;
mod weather_text;
