//! The JSON Schema of `[[scenario]]`.
//!
//! Start at [`Scenario`].

// The fields are read by the schema's derivation, never by the program.
#![allow(dead_code)]

use super::schema_values::{Day, Line};
use schemars::JsonSchema;

/// The same job with something changed: prices, or any keys.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(extend("anyOf" = [{"required": ["price"]}, {"required": ["set"]}]))]
pub(super) struct Scenario {
    /// What it is called.
    name: Line,
    /// Fuels whose energy costs so many times as much.
    price: Option<Vec<PriceChange>>,
    /// Keys and values, each as "house.zone.main.design_load = 28000 Btu/h".
    #[schemars(length(min = 1))]
    set: Option<Vec<Setting>>,
}

#[derive(JsonSchema)]
#[serde(transparent)]
struct Setting(#[schemars(regex(pattern = r"^[^=]+=.+$"))] String);

/// A fuel whose energy costs so many times as much, in some days or all year.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(extend("dependentRequired" = { "from": ["to"], "to": ["from"] }))]
struct PriceChange {
    /// The fuel.
    fuel: Line,
    /// Factor on the price of its energy.
    #[schemars(range(min = 0.1, max = 20.0))]
    times: f64,
    /// First day; all year without it.
    from: Option<Day>,
    /// Last day, included.
    to: Option<Day>,
}
