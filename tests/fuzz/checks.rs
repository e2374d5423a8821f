//! What each fuzz target does with its bytes. The ordinary tests call the same on every seed, so that
//! these cannot fall behind the library.
//!
//! Each panics where something is wrong. Start at [`job`].

use winterledger::cli::messages::render;
use winterledger::comparison::compare;
use winterledger::job::edit::set;
use winterledger::job::reader::from_bytes;
use winterledger::report::weather_figures::figures;
use winterledger::weather::quality::flags;
use winterledger::weather::{Weather, read};

/// Any bytes as a job file: read, worded, and run on bins; never a panic.
pub(crate) fn job(bytes: &[u8]) {
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
}

/// Any bytes as a weather file of whatever layout they show: read, summed up and judged, or refused; never a
/// panic.
pub(crate) fn weather(bytes: &[u8]) {
    match read("fuzz.csv", bytes) {
        Err(problems) => {
            assert!(!problems.is_empty());
            render(&problems, None, false);
        }
        Ok(Weather::Year(year)) => {
            flags(&year);
            assert!(figures(&year).is_some());
        }
        Ok(Weather::Record(_) | Weather::Bins(_)) => {}
    }
}

/// A key path, a value and a job's text, a line each and then the rest: changed or refused.
pub(crate) fn edit(bytes: &[u8]) {
    let Ok(all) = std::str::from_utf8(bytes) else { return };
    let mut parts = all.splitn(3, '\n');
    let (Some(path), Some(value), Some(text)) = (parts.next(), parts.next(), parts.next()) else { return };
    if let Ok(changed) = set(text, path, value) {
        // What was changed can be changed again.
        assert!(set(&changed, path, value).is_ok(), "{path}");
    }
}
