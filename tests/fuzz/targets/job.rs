//! Any bytes as a job file; see `checks.rs`.
#![no_main]

use libfuzzer_sys::fuzz_target;

#[path = "../checks.rs"]
#[allow(dead_code)]
mod checks;

fuzz_target!(|bytes: &[u8]| checks::job(bytes));
