//! `[past_use]` as typed: what the house burned in winters gone by, and in which machine.
//!
//! Start at [`PastUseSection`].

use super::money::AmountText;
use super::typed::Typed;
use chrono::NaiveDate;

/// `[past_use]`: bills or delivery tickets of the house as it is, against which its need is held.
#[derive(Debug, Clone, PartialEq)]
pub struct PastUseSection {
    /// `fuel` that heated the house, by its name in the table of fuels.
    pub fuel: Typed<String>,
    /// `efficiency`: share of the fuel's energy that reached the rooms as heat, 0.3 to 5 (beyond 1 a heat pump).
    pub efficiency: Typed<f64>,
    /// `other_use`: what else took of the same fuel, in a month.
    pub other_use: Option<Typed<AmountText>>,
    /// `source`: where the figures come from, in the job's words.
    pub source: Option<Typed<String>>,
    /// `bills`, at least one, none over another.
    pub bills: Vec<BillSection>,
}

/// One of the `bills`.
#[derive(Debug, Clone, PartialEq)]
pub struct BillSection {
    /// `from`: the first day.
    pub from: Typed<NaiveDate>,
    /// `to`: the day of the next reading or fill, itself left out; after `from`.
    pub to: Typed<NaiveDate>,
    /// `used` from the one to the other.
    pub used: Typed<AmountText>,
}
