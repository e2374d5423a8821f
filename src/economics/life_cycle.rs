//! What one option costs over the years, in money of today's worth.
//!
//! 10 CFR 436 Subpart A; NIST Handbook 135: yearly costs at year's end, the first year's price
//! escalated once. Start at [`life_cycle`].

use super::loan::Loan;
use super::terms::{Terms, escalated};

/// What an option costs beside its first year's bills.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Costs {
    /// The whole job as installed, today.
    pub installed: f64,
    /// Grants, credits and rebates that are taken off it, today.
    pub incentives: f64,
    /// The part that is lent, if any.
    pub loan: Option<Loan>,
    /// Upkeep in each year, at today's prices.
    pub upkeep: f64,
    /// What has to be bought anew.
    pub replacements: Vec<Replacement>,
    /// The first year's cost at today's prices, and its escalation (real, share a year), one a fuel.
    pub yearly: Vec<(f64, f64)>,
}

/// A part that wears out and is bought anew.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Replacement {
    /// Years that it lasts, 1 or more.
    pub life_years: usize,
    /// What a new one costs, at today's prices.
    pub cost: f64,
}

/// What an option costs over the years, each part's worth today.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct LifeCycle {
    /// Installed cost less incentives and less what is lent.
    pub paid_today: f64,
    /// Payments of the loan.
    pub loan: f64,
    /// The same less what is lent: what the loan costs.
    pub loan_interest: f64,
    /// Energy, fixed charges, deliveries: the yearly bills.
    pub bills: f64,
    /// Upkeep.
    pub upkeep: f64,
    /// Parts bought anew.
    pub replacements: f64,
    /// What is left in parts bought that outlast the years: taken off.
    pub residual: f64,
    /// Money of today's worth, not discounted, that has been spent by the end of each year, from
    /// today (0) on; what is left in parts is not taken off.
    pub spent_by: Vec<f64>,
}

impl LifeCycle {
    /// The life-cycle cost.
    pub fn total(&self) -> f64 {
        self.investment() + self.bills + self.upkeep
    }

    /// The part that is investment: today's, the loan, parts bought anew less what is left in them.
    pub fn investment(&self) -> f64 {
        self.paid_today + self.loan + self.replacements - self.residual
    }
}

/// The life-cycle cost of an option.
///
/// What is left in a replaced part at the end is its unused share of life, at what it costs anew; a
/// part that was there from the first and lasts longer than the years leaves its share alike.
///
/// ```
/// use winterledger::economics::{Costs, Terms, life_cycle};
/// let terms = Terms { years: 15, discount_rate: 0.03, inflation: 0.0 };
/// let costs = Costs { installed: 9000.0, yearly: vec![(1000.0, 0.03)], ..Costs::default() };
/// assert!((life_cycle(&costs, &terms).total() - 24_000.0).abs() < 1e-8); // 9,000 + 15 · 1,000
/// ```
pub fn life_cycle(costs: &Costs, terms: &Terms) -> LifeCycle {
    let lent = costs.loan.map_or(0.0, |loan| loan.amount);
    let paid_today = costs.installed - costs.incentives - lent;
    let loan = costs.loan.map_or(0.0, |loan| loan.worth(terms));
    let replaced = |part: &Replacement| replacements(part, terms).map(|year| terms.worth(year)).sum::<f64>();
    LifeCycle {
        paid_today,
        loan,
        loan_interest: loan - lent,
        bills: costs.yearly.iter().map(|(cost, escalation)| cost * terms.worth_of_years(*escalation)).sum(),
        upkeep: costs.upkeep * terms.worth_of_years(0.0),
        replacements: costs.replacements.iter().map(|part| part.cost * replaced(part)).sum(),
        residual: costs.replacements.iter().map(|part| residual(part, terms)).sum::<f64>()
            * terms.worth(terms.years),
        spent_by: spent_by(costs, terms, paid_today),
    }
}

/// The years at whose end a part is bought anew; none at the end of the last.
fn replacements(part: &Replacement, terms: &Terms) -> impl Iterator<Item = usize> + use<> {
    (part.life_years.max(1)..terms.years).step_by(part.life_years.max(1))
}

/// What is left in the part at the end of the years, not discounted.
fn residual(part: &Replacement, terms: &Terms) -> f64 {
    let life = part.life_years.max(1);
    let used = terms.years % life;
    let left = if used == 0 { 0 } else { life - used };
    part.cost * left as f64 / life as f64
}

fn spent_by(costs: &Costs, terms: &Terms, paid_today: f64) -> Vec<f64> {
    let mut spent = vec![paid_today];
    let mut so_far = paid_today;
    for year in 1..=terms.years {
        let bills: f64 = costs.yearly.iter().map(|(cost, e)| cost * escalated(*e, year)).sum();
        let due = |part: &&Replacement| replacements(part, terms).any(|at| at == year);
        let parts: f64 = costs.replacements.iter().filter(due).map(|part| part.cost).sum();
        let loan = costs.loan.map_or(0.0, |loan| loan.paid_in(year) * terms.deflated(year));
        so_far += bills + costs.upkeep + parts + loan;
        spent.push(so_far);
    }
    spent
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Hand-worked at 0 %: 20 years, a part of 12 years at 6,000 is bought once, after 12 years; of its
    /// second life 8 years are used and 4 are left: 2,000.
    #[test]
    fn a_part_is_bought_anew_and_keeps_its_unused_years() {
        let terms = Terms { years: 20, discount_rate: 0.0, inflation: 0.0 };
        let part = Replacement { life_years: 12, cost: 6000.0 };
        let costs = Costs { installed: 8000.0, replacements: vec![part], upkeep: 100.0, ..Costs::default() };
        let all = life_cycle(&costs, &terms);
        assert_eq!((all.replacements, all.residual, all.upkeep), (6000.0, 2000.0, 2000.0));
        assert_eq!(all.total(), 14_000.0);
        assert_eq!((all.spent_by[11], all.spent_by[12], all.spent_by[20]), (9100.0, 15_200.0, 16_000.0));
    }

    /// Hand-worked: one that lasts just as long as the years is neither bought anew nor left over.
    #[test]
    fn a_part_that_lasts_the_years_costs_nothing_more() {
        let terms = Terms { years: 20, discount_rate: 0.03, inflation: 0.0 };
        let part = Replacement { life_years: 20, cost: 6000.0 };
        let costs = Costs { replacements: vec![part], ..Costs::default() };
        assert_eq!(life_cycle(&costs, &terms).total(), 0.0);
    }
}
