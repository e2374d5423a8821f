//! What an option costs beside its energy: the whole job, incentives, loan, upkeep.
//!
//! Start at [`Project`].

use super::life_cycle::{Costs, Replacement};
use super::loan::Loan;

/// The whole job of one option.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Project {
    /// Its parts, as installed; at least one.
    pub parts: Vec<Part>,
    /// What is given for it.
    pub incentives: Vec<Incentive>,
    /// What is lent for it.
    pub loan: Option<Loan>,
    /// Upkeep of a year, in the job's currency.
    pub upkeep: f64,
}

/// A part of the whole job.
#[derive(Debug, Clone, PartialEq)]
pub struct Part {
    /// What it is.
    pub what: String,
    /// As installed, in the job's currency.
    pub amount: f64,
    /// When it wears out and what a new one costs; nothing for what is never bought again.
    pub replacement: Option<Replacement>,
    /// What the job says of where the amount comes from.
    pub source: Option<String>,
}

/// A grant, credit or rebate.
#[derive(Debug, Clone, PartialEq)]
pub struct Incentive {
    /// What it is.
    pub what: String,
    /// What is given, in the job's currency.
    pub amount: f64,
    /// When it was looked up.
    pub date: String,
    /// Where it was looked up.
    pub source: String,
}

impl Project {
    /// Whether nothing of it is ever bought again.
    pub fn lasts_for_ever(&self) -> bool {
        self.parts.iter().all(|part| part.replacement.is_none())
    }

    /// The whole job as installed, in the job's currency.
    pub fn installed(&self) -> f64 {
        self.parts.iter().map(|part| part.amount).sum()
    }

    /// All incentives together, in the job's currency.
    pub fn given(&self) -> f64 {
        self.incentives.iter().map(|given| given.amount).sum()
    }

    /// What the option costs over the years, with the first year's bills and how each fuel's price rises
    /// (share a year), and with incentives or without.
    pub fn costs(&self, yearly: Vec<(f64, f64)>, with_incentives: bool) -> Costs {
        Costs {
            installed: self.installed(),
            incentives: if with_incentives { self.given() } else { 0.0 },
            loan: self.loan,
            upkeep: self.upkeep,
            replacements: self.parts.iter().filter_map(|part| part.replacement).collect(),
            yearly,
        }
    }
}
