//! Where a number comes from, and a value that remembers it.
//!
//! Every default that a run uses ends up in the report with its [`Source`]. This module must never
//! know which numbers there are. Start at [`Sourced`].

use schemars::JsonSchema;
use serde::Serialize;

/// The origin of a number.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case", tag = "kind", content = "text")]
pub enum Source {
    /// Typed in the job; the text is what the job says of it (a bill, a quote, a guess), if anything.
    Job(Option<String>),
    /// A published text: author or body, title, year, place in it.
    Published(String),
    /// A rule of the trade with no printed source.
    CommonPractice(String),
    /// Remembered, not looked up in print.
    FromMemory(String),
    /// Follows from other values by arithmetic.
    Derived(String),
}

/// How a price or a cost that the job gives is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HowKnown {
    /// It was paid: a bill, a delivery ticket.
    Bill,
    /// Somebody offered it.
    Quote,
    /// It stands in print: a tariff sheet, a programme's page.
    Published,
    /// Somebody guessed.
    Guess,
}

/// A value with its [`Source`].
#[derive(Debug, Clone, PartialEq)]
pub struct Sourced<T> {
    /// The value.
    pub value: T,
    /// Where it comes from.
    pub source: Source,
}

/// A default that stood in for a value the job does not give.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Assumption {
    /// The key that would replace it, as a path in the job.
    pub key: String,
    /// The value, written as the job would write it.
    pub value: String,
    /// Where the value comes from.
    pub source: Source,
}

/// An option's, zone's or machine's value: the job's own, or a default that is put on the list.
///
/// ```
/// use winterledger::sources::{Assumptions, Source};
/// let mut list = Assumptions::default();
/// let exponent = list.or_default(None, "house.zone.main.vent", 25.0, "25 degC", || {
///     Source::CommonPractice("windows are opened above this".into())
/// });
/// assert_eq!(exponent, 25.0);
/// assert_eq!(list.0.len(), 1);
/// ```
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Assumptions(pub Vec<Assumption>);

impl Assumptions {
    /// Returns `given`, or `default` after noting it under `key` as `written`.
    pub fn or_default<T>(
        &mut self,
        given: Option<T>,
        key: impl Into<String>,
        default: T,
        written: impl Into<String>,
        source: impl FnOnce() -> Source,
    ) -> T {
        given.unwrap_or_else(|| {
            self.note(key, written, source());
            default
        })
    }

    /// Notes an assumption, once.
    pub fn note(&mut self, key: impl Into<String>, value: impl Into<String>, source: Source) {
        let assumption = Assumption { key: key.into(), value: value.into(), source };
        if !self.0.contains(&assumption) {
            self.0.push(assumption);
        }
    }
}
