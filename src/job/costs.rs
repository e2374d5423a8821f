//! `[economics]`, and what an option costs beside its energy, as typed; field names are the keys.
//!
//! Must never know what later money is worth. Start at [`EconomicsSection`] and [`OptionCosts`].

use super::money::PriceText;
use super::typed::Typed;
use crate::sources::HowKnown;
use crate::units::Years;

/// The `[economics]` table: over which years and on which terms costs are set against each other.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct EconomicsSection {
    /// `years` that are looked at, 1 to 60.
    pub years: Option<Typed<i32>>,
    /// `discount_rate` above inflation, share a year, 0 to 0.3.
    pub discount_rate: Option<Typed<f64>>,
    /// `inflation`, share a year, 0 to 0.3.
    pub inflation: Option<Typed<f64>>,
    /// `count_incentives`: whether the verdict takes them as given.
    pub count_incentives: Option<Typed<bool>>,
    /// `base`: the option that the others are set against.
    pub base: Option<Typed<String>>,
    /// `[economics.escalation]`: by fuel, how much its price rises above inflation, share a year,
    /// -0.1 to 0.2; in the order typed.
    pub escalation: Vec<(Typed<String>, Typed<f64>)>,
}

/// What an `[[option]]` costs beside its energy.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct OptionCosts {
    /// `[[option.cost]]`: the parts of the whole job, in the order typed.
    pub cost: Vec<CostSection>,
    /// `[[option.incentive]]`, in the order typed.
    pub incentive: Vec<IncentiveSection>,
    /// `[option.loan]`; not more than all costs together.
    pub loan: Option<LoanSection>,
    /// `upkeep`: so much a month or a year; `per` is one of the two.
    pub upkeep: Option<Typed<PriceText>>,
}

/// One `[[option.cost]]`: a part of the whole job as installed.
#[derive(Debug, Clone, PartialEq)]
pub struct CostSection {
    /// `what` it is.
    pub what: Typed<String>,
    /// `amount`, 0 or more.
    pub amount: Typed<f64>,
    /// `source`: who says so.
    pub source: Option<Typed<String>>,
    /// `basis`: how it is known.
    pub basis: Option<Typed<HowKnown>>,
    /// `lasts` whole years, 1 to 100, then it is bought anew; nothing for what is never bought again.
    pub lasts: Option<Typed<Years>>,
    /// `renewal`: what a new one costs, 0 or more; stands only beside `lasts`.
    pub renewal: Option<Typed<f64>>,
}

/// One `[[option.incentive]]`: a grant, credit or rebate.
#[derive(Debug, Clone, PartialEq)]
pub struct IncentiveSection {
    /// `what` it is.
    pub what: Typed<String>,
    /// `amount`, 0 or more.
    pub amount: Typed<f64>,
    /// `date` on which it was looked up: `2026-03` or `2026-03-15`.
    pub date: Typed<String>,
    /// `source`: where it was looked up.
    pub source: Typed<String>,
    /// `basis`: how it is known.
    pub basis: Option<Typed<HowKnown>>,
}

/// An `[option.loan]`.
#[derive(Debug, Clone, PartialEq)]
pub struct LoanSection {
    /// `amount` that is lent, 0 or more.
    pub amount: Typed<f64>,
    /// `rate` of interest as the lender says it, share a year, 0 to 0.5.
    pub rate: Typed<f64>,
    /// `months`, 1 to 600.
    pub months: Typed<i32>,
}
