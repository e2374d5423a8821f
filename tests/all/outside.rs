//! One check against something outside the program: a published number, one worked by hand, another tool.
//!
//! Where `WINTERLEDGER_RECORD` names a folder, each check is written down there, whether it holds or not:
//! `validation` makes a page of them. Start at [`Outside::holds`].

use serde_json::{Value, json};
use std::io::Write;

/// What is checked and what it is held against.
pub(crate) struct Outside<'a> {
    pub(crate) what: String,
    /// published, from memory, hand-worked, independent tool, common practice.
    pub(crate) origin: &'a str,
    pub(crate) source: &'a str,
    pub(crate) value: f64,
    pub(crate) tolerance: f64,
}

impl Outside<'_> {
    /// Fails where `ours` is farther from the value than the tolerance.
    pub(crate) fn holds(&self, ours: f64) {
        let test = std::thread::current().name().unwrap_or_default().to_owned();
        if let Some(folder) = std::env::var_os("WINTERLEDGER_RECORD") {
            let path = std::path::Path::new(&folder).join(test.replace("::", "."));
            let mut file = std::fs::OpenOptions::new().create(true).append(true).open(path).unwrap();
            writeln!(file, "{}", self.record(ours, &test)).unwrap();
        }
        assert!(
            (ours - self.value).abs() <= self.tolerance,
            "{}: {ours}, expected {} ± {}",
            self.what,
            self.value,
            self.tolerance
        );
    }

    fn record(&self, ours: f64, test: &str) -> Value {
        json!({
            "what": self.what, "origin": self.origin, "source": self.source, "value": self.value,
            "tolerance": self.tolerance, "ours": ours, "test": test,
        })
    }
}
