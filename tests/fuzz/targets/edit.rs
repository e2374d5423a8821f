//! Any bytes as an edit of a job; see `checks.rs`.
#![no_main]

use libfuzzer_sys::fuzz_target;

#[path = "../checks.rs"]
#[allow(dead_code)]
mod checks;

fuzz_target!(|bytes: &[u8]| checks::edit(bytes));
