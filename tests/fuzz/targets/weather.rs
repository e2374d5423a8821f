//! Any bytes as a weather file of whatever layout they show: read or refused; never a panic.
#![no_main]

use libfuzzer_sys::fuzz_target;
use winterledger::cli::messages::render;
use winterledger::weather::read;

fuzz_target!(|bytes: &[u8]| {
    if let Err(problems) = read("fuzz.csv", bytes) {
        assert!(!problems.is_empty());
        render(&problems, None, false);
    }
});
