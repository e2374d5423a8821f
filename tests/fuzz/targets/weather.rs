//! Any bytes as a weather file; see `checks.rs`.
#![no_main]

use libfuzzer_sys::fuzz_target;

#[path = "../checks.rs"]
#[allow(dead_code)]
mod checks;

fuzz_target!(|bytes: &[u8]| checks::weather(bytes));
