//! What each option keeps out of the air against a base, and what a tonne of that costs.
//!
//! Start at [`Air`].

use super::life_cycle::LifeCycles;
use super::option::OptionResult;
use crate::emissions::{Emissions, Grid};
use crate::fuel::Fuels;
use crate::simulation::EndUse;

/// Less than this a year (t) is no difference that a price could be put on.
const LEAST_T: f64 = 0.01;

/// What all options send into the air.
#[derive(Debug, Clone, PartialEq)]
pub struct Air {
    /// The grid.
    pub grid: Grid,
    /// The place of the option that the others are set against.
    pub base: usize,
    /// One an option, in the job's order.
    pub options: Vec<OptionAir>,
}

/// What one option sends into the air.
#[derive(Debug, Clone, PartialEq)]
pub struct OptionAir {
    /// In a year.
    pub emissions: Emissions,
    /// CO2e less than the base in a year (t); below 0 where it is more, nothing for the base itself.
    pub avoided_t: Option<f64>,
    /// What a tonne avoided costs in bills, in the job's currency; below 0 where it saves.
    pub bills_per_t: Option<f64>,
    /// What it costs with all that is spent over the years, money of today.
    pub whole_per_t: Option<f64>,
}

/// Sets the options against the base of the life cycle, or against the first.
pub(super) fn air(grid: Grid, options: &[OptionResult], fuels: &Fuels, lives: Option<&LifeCycles>) -> Air {
    let base = lives.map_or(0, |lives| lives.economics.base);
    let emissions: Vec<Emissions> = options.iter().map(|option| of(option, fuels, &grid)).collect();
    let whole = |place: usize| {
        let lives = lives?;
        let option = lives.options.get(place)?.as_ref()?;
        Some((lives.counted(option).life.total(), lives.economics.terms.years as f64))
    };
    let of_base = emissions.get(base).map(|air| air.co2e_kg);
    let option = |(place, emissions): (usize, Emissions)| {
        let less = of_base.filter(|_| place != base).map(|kg| (kg - emissions.co2e_kg) / 1000.0);
        let avoided = less.filter(|tonnes| *tonnes >= LEAST_T);
        let costs = |i: usize| options.get(i).map(OptionResult::yearly_cost);
        let more = costs(place).zip(costs(base)).map(|(own, base)| own - base);
        let whole = whole(place).zip(whole(base)).map(|((own, years), (base, _))| (own - base) / years);
        OptionAir {
            emissions,
            avoided_t: less,
            bills_per_t: more.zip(avoided).map(|(more, tonnes)| more / tonnes),
            whole_per_t: whole.zip(avoided).map(|(whole, tonnes)| whole / tonnes),
        }
    };
    let options = emissions.into_iter().enumerate().map(option).collect();
    Air { grid, base, options }
}

fn of(option: &OptionResult, fuels: &Fuels, grid: &Grid) -> Emissions {
    let kwh = |fuel| EndUse::DRAWING.iter().map(|end_use| option.energy.year(fuel, *end_use)).sum();
    Emissions::of(kwh, fuels, grid)
}
