//! The `[[scenario]]` and `[[vary]]` tables and `[draws]` as typed; field names are the keys.
//!
//! Must never know what a scenario costs. Start at [`ScenarioSection`].

use super::typed::Typed;
use crate::calendar::MonthDay;

/// One `[[scenario]]`: the same job with something changed.
#[derive(Debug, Clone, PartialEq)]
pub struct ScenarioSection {
    /// `name`: unique among the scenarios.
    pub name: Typed<String>,
    /// `price`: fuels whose energy costs so many times as much, in the order typed.
    pub price: Vec<PriceChangeSection>,
    /// `set`: keys and values, each as `KEY = VALUE`, in the order typed.
    pub set: Vec<Typed<String>>,
}

/// One entry of a scenario's `price`.
#[derive(Debug, Clone, PartialEq)]
pub struct PriceChangeSection {
    /// `fuel` with a price.
    pub fuel: Typed<String>,
    /// `times`: factor on the price of its energy, 0.1 to 20.
    pub times: Typed<f64>,
    /// `from`, first day, and `to`, last day, included: both or neither, then it is all year.
    pub days: Option<(MonthDay, MonthDay)>,
}

/// `[draws]`: how winters are drawn by chance.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct DrawsSection {
    /// `winters`: how many; a whole number, 100 to 100,000.
    pub winters: Option<Typed<f64>>,
    /// `seed`: which of many equally good rows of chance; a whole number, 0 to 1,000,000.
    pub seed: Option<Typed<f64>>,
    /// `risk`: the probability of a run-out in a winter that is put up with, 0.0001 to 0.5.
    pub risk: Option<Typed<f64>>,
    /// `independent`: whether queue and price go by winters of their own.
    pub independent: Option<Typed<bool>>,
}

/// One `[[vary]]`: an input at a low and a high value.
#[derive(Debug, Clone, PartialEq)]
pub struct VarySection {
    /// `name`: unique among them.
    pub name: Typed<String>,
    /// What is moved.
    pub what: VaryWhat,
    /// `source`: why it is moved so far.
    pub source: Option<Typed<String>>,
}

/// What a `[[vary]]` moves: exactly one of `key` and `fuel`.
#[derive(Debug, Clone, PartialEq)]
pub enum VaryWhat {
    /// `key` with its values `low` and `high`.
    Key {
        /// The key's path.
        key: Typed<String>,
        /// A value, as `--set` takes it.
        low: Typed<String>,
        /// The other.
        high: Typed<String>,
    },
    /// `fuel` with factors on the price of its energy, 0.1 to 20.
    Price {
        /// A fuel with a price.
        fuel: Typed<String>,
        /// `low_times`.
        low_times: Typed<f64>,
        /// `high_times`.
        high_times: Typed<f64>,
    },
}

impl ScenarioSection {
    /// Key and value of an entry of `set`; nothing where no `=` stands between them.
    pub fn key_and_value(entry: &str) -> Option<(&str, &str)> {
        let (key, value) = entry.split_once('=')?;
        Some((key.trim(), value.trim()))
    }
}
