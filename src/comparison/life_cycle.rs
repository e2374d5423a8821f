//! What each option costs over the years, with incentives and without, and against the base.
//!
//! Start at [`life_cycles`].

use super::option::OptionResult;
use crate::economics::{Against, Economics, LifeCycle, Project, life_cycle};
use crate::fuel::Fuels;
use crate::ledger::Ledger;

/// All options over the years.
#[derive(Debug, Clone, PartialEq)]
pub struct LifeCycles {
    /// The terms, and the whole job of each option.
    pub economics: Economics,
    /// One an option, in the job's order; nothing where the job gives it no cost.
    pub options: Vec<Option<OptionLife>>,
}

/// One option over the years.
#[derive(Debug, Clone, PartialEq)]
pub struct OptionLife {
    /// With the incentives of the job.
    pub with_incentives: Worth,
    /// Without any.
    pub without_incentives: Worth,
    /// What the loan asks each month, in money of that month; 0 without one.
    pub loan_a_month: f64,
    /// The first year's bills and upkeep on the mean of its months, at today's prices.
    pub running_a_month: f64,
}

/// An option over the years on one reading of the incentives.
#[derive(Debug, Clone, PartialEq)]
pub struct Worth {
    /// What it costs.
    pub life: LifeCycle,
    /// Set against the base on the same reading; nothing for the base itself.
    pub against: Option<Against>,
    /// Where what has been spent on it meets what has been spent on the base: year and amount.
    pub crossings: Vec<(f64, f64)>,
}

impl OptionLife {
    /// What is paid each month of the first year: loan, bills and upkeep.
    pub fn first_month(&self) -> f64 {
        self.loan_a_month + self.running_a_month
    }
}

impl LifeCycles {
    /// The reading of the incentives that the verdict takes.
    pub fn counted<'a>(&self, option: &'a OptionLife) -> &'a Worth {
        match self.economics.count_incentives {
            true => &option.with_incentives,
            false => &option.without_incentives,
        }
    }

    /// The whole job of the option at that place.
    pub fn project(&self, option: usize) -> Option<&Project> {
        self.economics.projects.get(option)?.as_ref()
    }
}

/// Sets the options over the years.
pub fn life_cycles(economics: &Economics, options: &[OptionResult], fuels: &Fuels) -> LifeCycles {
    let ledgers: Vec<&Ledger> = options.iter().map(|option| &option.ledger).collect();
    let readings = [true, false].map(|with| worths(economics, &ledgers, fuels, with));
    let [with, without] = readings;
    let pairs = with.into_iter().zip(without).zip(economics.projects.iter().zip(&ledgers));
    let options = pairs.map(|((with, without), (project, ledger))| {
        let project = project.as_ref()?;
        Some(OptionLife {
            with_incentives: with?,
            without_incentives: without?,
            loan_a_month: project.loan.map_or(0.0, |loan| loan.monthly_payment()),
            running_a_month: (ledger.total() + project.upkeep) / 12.0,
        })
    });
    LifeCycles { options: options.collect(), economics: economics.clone() }
}

/// Every option over the years on one reading of the incentives, in the order of `ledgers`.
pub fn worths(
    economics: &Economics,
    ledgers: &[&Ledger],
    fuels: &Fuels,
    with_incentives: bool,
) -> Vec<Option<Worth>> {
    let lives = economics.projects.iter().zip(ledgers).map(|(project, ledger)| {
        let costs = project.as_ref()?.costs(by_fuel(economics, ledger, fuels), with_incentives);
        Some(life_cycle(&costs, &economics.terms))
    });
    let lives: Vec<Option<LifeCycle>> = lives.collect();
    let base = lives.get(economics.base).cloned().flatten();
    let worth = |(i, life): (usize, Option<LifeCycle>)| {
        let (life, base) = (life?, base.as_ref().filter(|_| i != economics.base));
        Some(Worth {
            against: base.map(|base| Against::new(&life, base, &economics.terms)),
            crossings: base.map_or_else(Vec::new, |base| crossings(&life.spent_by, &base.spent_by)),
            life,
        })
    };
    lives.into_iter().enumerate().map(worth).collect()
}

/// The first year's bills by fuel, each with how much its price rises.
fn by_fuel(economics: &Economics, ledger: &Ledger, fuels: &Fuels) -> Vec<(f64, f64)> {
    let bills = fuels.iter().map(|(id, _)| (ledger.sum(|p| p.fuel == id), economics.escalation_of(id)));
    bills.filter(|(amount, _)| *amount != 0.0).collect()
}

/// Where two lines of yearly points meet, straight within each year.
fn crossings(option: &[f64], base: &[f64]) -> Vec<(f64, f64)> {
    let more: Vec<f64> = option.iter().zip(base).map(|(o, b)| o - b).collect();
    let within = |(year, pair): (usize, &[f64])| {
        let &[before, after] = pair else { return None };
        let meets = (before > 0.0 && after <= 0.0) || (before < 0.0 && after >= 0.0);
        let share = before / (before - after);
        let (start, end) = (base.get(year)?, base.get(year + 1)?);
        meets.then_some((year as f64 + share, start + share * (end - start)))
    };
    more.windows(2).enumerate().filter_map(within).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Hand-worked: 300 more at first, 100 less each year, a new part of 250 in the fourth: level at the
    /// end of the third (1,000 + 3·200), dearer by 150 at the end of the fourth, level again half-way
    /// through the sixth year.
    #[test]
    fn lines_that_meet_several_times_are_marked_each_time() {
        let base = [1000.0, 1200.0, 1400.0, 1600.0, 1800.0, 2000.0, 2200.0];
        let option = [1300.0, 1400.0, 1500.0, 1600.0, 1950.0, 2050.0, 2150.0];
        assert_eq!(crossings(&option, &base), [(3.0, 1600.0), (5.5, 2100.0)]);
    }
}
