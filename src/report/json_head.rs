//! What the JSON documents of the studies begin with, and how every document is written out.
//!
//! Start at [`JsonHead`].

use super::json_text;
use super::model::SCHEMA_VERSION;
use crate::comparison::Comparison;
use crate::problem::Problem;
use serde::Serialize;

/// Which program, job and weather a document is of; laid flat into it.
#[derive(Debug, Serialize)]
pub(super) struct JsonHead<'a> {
    schema_version: u32,
    program_version: &'static str,
    title: &'a str,
    currency: &'a str,
    job_sha256: &'a str,
    weather_sha256: &'a str,
}

impl<'a> JsonHead<'a> {
    /// The head of what came of `c`.
    pub(super) fn of(c: &'a Comparison) -> Self {
        Self {
            schema_version: SCHEMA_VERSION,
            program_version: env!("CARGO_PKG_VERSION"),
            title: &c.title,
            currency: &c.currency,
            job_sha256: &c.job_sha256,
            weather_sha256: c.weather.sha256(),
        }
    }
}

/// A document as indented JSON with a line end.
///
/// # Errors
/// A value that JSON cannot hold; that would be a defect.
pub(super) fn written(document: &impl Serialize) -> Result<String, Problem> {
    json_text::indented(document)
        .map_err(|e| Problem::new(format!("the result cannot be written as JSON: {e}")))
}
