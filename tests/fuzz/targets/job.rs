//! Any bytes as a job file: read, worded, and run on bins; never a panic.
#![no_main]

use libfuzzer_sys::fuzz_target;
use winterledger::cli::messages::render;
use winterledger::comparison::compare;
use winterledger::job::reader::from_bytes;
use winterledger::weather::read;

fuzz_target!(|bytes: &[u8]| {
    let text = std::str::from_utf8(bytes).ok();
    match from_bytes("fuzz.toml", bytes) {
        Err(problems) => {
            assert!(!problems.is_empty());
            render(&problems, text, false);
        }
        Ok(job) => {
            let bins = b"outdoor_degF,hours\n97,10\n62,700\n32,700\n2,50\n-28,3\n".as_slice();
            let Ok(weather) = read("bins.csv", bins) else { return };
            if let Err(problems) = compare(&job, &weather) {
                render(&problems, text, false);
            }
        }
    }
});
