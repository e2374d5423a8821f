//! The JSON Schema of `[economics]` and of what an option costs beside its energy.
//!
//! Start at [`Economics`].

// The fields are read by the schema's derivation, never by the program.
#![allow(dead_code)]

use super::schema_values::{CalendarDate, HowKnown, Line, Span, Sum};
use schemars::JsonSchema;
use std::collections::BTreeMap;

/// Over which years and on which terms costs are set against each other.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Economics {
    /// Years that are looked at; 20 without it.
    #[schemars(range(min = 1, max = 60))]
    years: Option<u32>,
    /// What money could earn elsewhere above inflation, share a year; 0.03 without it.
    #[schemars(range(min = 0.0, max = 0.3))]
    discount_rate: Option<f64>,
    /// Share a year; what payments of a loan lose in worth.
    #[schemars(range(min = 0.0, max = 0.3))]
    inflation: Option<f64>,
    /// Whether incentives are counted; true without it.
    count_incentives: Option<bool>,
    /// The option that the others are set against; the one that costs least to install without it.
    base: Option<Line>,
    /// By fuel, how much its price rises above inflation, share a year; 0 without it.
    escalation: Option<BTreeMap<String, Escalation>>,
}

#[derive(JsonSchema)]
#[serde(transparent)]
struct Escalation(#[schemars(range(min = -0.1, max = 0.2))] f64);

/// A part of the whole job as installed.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(extend("dependentRequired" = { "renewal": ["lasts"] }))]
pub(super) struct Cost {
    /// What it is.
    what: Line,
    /// As installed, such as "14500 $".
    amount: Sum,
    /// Where the amount comes from: a quote, a guess.
    source: Option<Line>,
    /// How it is known.
    basis: Option<HowKnown>,
    /// Whole years after which it is bought anew, such as "15 years"; never bought again without it.
    lasts: Option<Span>,
    /// What a new one costs; the amount without it.
    renewal: Option<Sum>,
}

/// A grant, credit or rebate.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Incentive {
    /// What it is.
    what: Line,
    /// What is given.
    amount: Sum,
    /// When it was looked up, such as "2026-03".
    date: CalendarDate,
    /// Where it was looked up.
    source: Line,
    /// How it is known.
    basis: Option<HowKnown>,
}

/// A loan paid back in equal months.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Loan {
    /// What is lent; not more than all costs of the option.
    amount: Sum,
    /// Interest as the lender says it, share a year.
    #[schemars(range(min = 0.0, max = 0.5))]
    rate: f64,
    /// Months until it is paid back.
    #[schemars(range(min = 1, max = 600))]
    months: u32,
}
