//! The JSON Schema of `[[scenario]]`, `[[vary]]` and `[draws]`.
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

/// How winters are drawn by chance.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Draws {
    /// How many winters.
    #[schemars(range(min = 100, max = 100_000))]
    winters: Option<u32>,
    /// Which of many equally good rows of chance.
    #[schemars(range(min = 0, max = 1_000_000))]
    seed: Option<u32>,
    /// The probability of a run-out in a winter that is put up with.
    #[schemars(range(min = 0.0001, max = 0.5))]
    risk: Option<f64>,
    /// Whether queue and price go by winters of their own instead of the one that sets the demand.
    independent: Option<bool>,
}

/// An input at a low and a high value: a key, or the price of a fuel's energy.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(extend("oneOf" = [{"required": ["key", "low", "high"]}, {"required": ["fuel", "low_times", "high_times"]}]))]
pub(super) struct Vary {
    /// What it is called.
    name: Line,
    /// The key's path, such as house.zone.main.design_load.
    key: Option<Line>,
    /// Its low value, as text.
    low: Option<Line>,
    /// Its high value, as text.
    high: Option<Line>,
    /// The fuel.
    fuel: Option<Line>,
    /// Low factor on the price of its energy.
    #[schemars(range(min = 0.1, max = 20.0))]
    low_times: Option<f64>,
    /// High factor.
    #[schemars(range(min = 0.1, max = 20.0))]
    high_times: Option<f64>,
    /// Why it is moved so far.
    source: Option<Line>,
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
