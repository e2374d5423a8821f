//! A key path, a value and a job's text, a line each and then the rest: changed or refused.
#![no_main]

use libfuzzer_sys::fuzz_target;
use winterledger::job::edit::set;

fuzz_target!(|bytes: &[u8]| {
    let Ok(all) = std::str::from_utf8(bytes) else { return };
    let mut parts = all.splitn(3, '\n');
    let (Some(path), Some(value), Some(text)) = (parts.next(), parts.next(), parts.next()) else { return };
    if let Ok(changed) = set(text, path, value) {
        // What was changed can be changed again.
        assert!(set(&changed, path, value).is_ok(), "{path}");
    }
});
