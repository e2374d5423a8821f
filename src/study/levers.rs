//! How each option's yearly cost hangs on prices, as coefficients: so that a price can be moved and every
//! cost told at once, without running the hours again.
//!
//! `cost = constant + Σ amount · factor of the fuel · Π times of the spikes`. Start at [`levers`].

use crate::comparison::option::energy_hangs_on_prices;
use crate::comparison::{Billing, Comparison, OptionResult};
use crate::fuel::FuelId;
use crate::prices::{FuelPrice, Prices};
use crate::supply::contract::PricePlan;

/// More spikes of one fuel than this are not parted: each more doubles the work.
const MOST_SPIKES: usize = 6;

/// The levers of a comparison, and how each option hangs on them.
#[derive(Debug, Clone, PartialEq)]
pub struct Levers {
    /// Fuels whose energy price can be moved, as a factor on it; 1 is as the job has it.
    pub fuels: Vec<FuelId>,
    /// Spikes whose factor can be moved.
    pub spikes: Vec<SpikeLever>,
    /// One an option that was asked for, in the job's order where all were.
    pub options: Vec<OptionLevers>,
}

/// A spike whose factor can be moved.
#[derive(Debug, Clone, PartialEq)]
pub struct SpikeLever {
    /// The fuel whose price it is on.
    pub fuel: FuelId,
    /// The job's name for it.
    pub name: String,
    /// Its factor in the job.
    pub times: f64,
}

/// How one option hangs on the levers.
#[derive(Debug, Clone, PartialEq)]
pub enum OptionLevers {
    /// The cost is a sum.
    On {
        /// What no lever moves, in the job's currency.
        constant: f64,
        /// What they move.
        terms: Vec<Term>,
        /// The fuels whose levers do not move it, and why: what they cost stands in `constant`.
        held: Vec<(FuelId, WhyOff)>,
    },
    /// The cost is no such sum: the option has to be run again.
    Off(WhyOff),
}

/// One part of a cost.
#[derive(Debug, Clone, PartialEq)]
pub struct Term {
    /// The place of its fuel in [`Levers::fuels`].
    pub fuel: usize,
    /// The places of its spikes in [`Levers::spikes`]; none for days without one.
    pub spikes: Vec<usize>,
    /// What it comes to where all its factors are 1, in the job's currency.
    pub amount: f64,
}

/// Why an option's cost is no sum of prices.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WhyOff {
    /// It changes over on cost, so that other prices make it run otherwise.
    ChangesOverOnCost,
    /// A fuel has a price by tiers, or by what is used in a year, so that no one price can be moved.
    Tiers,
    /// A fuel is charged by the largest hour too.
    Demand,
    /// A contract says what a stored fuel costs.
    Contract,
    /// A fuel has more spikes than are parted.
    ManySpikes,
}

/// Where the levers stand.
#[derive(Debug, Clone, PartialEq)]
pub struct LeverSetting {
    /// Factor on each fuel's energy price, in the order of [`Levers::fuels`].
    pub fuels: Vec<f64>,
    /// Factor of each spike, in the order of [`Levers::spikes`].
    pub spikes: Vec<f64>,
}

impl Levers {
    /// The levers as the job has them.
    pub fn as_it_is(&self) -> LeverSetting {
        let spikes = self.spikes.iter().map(|spike| spike.times).collect();
        LeverSetting { fuels: vec![1.0; self.fuels.len()], spikes }
    }

    /// What the option at that place costs in a year, in the job's currency; nothing where its levers
    /// are off, or where one that does not move it is not as the job has it.
    pub fn cost(&self, option: usize, at: &LeverSetting) -> Option<f64> {
        let OptionLevers::On { constant, terms, held } = self.options.get(option)? else { return None };
        if held.iter().any(|(fuel, _)| self.is_moved(*fuel, at)) {
            return None;
        }
        let factor = |list: &[f64], place: usize| list.get(place).copied().unwrap_or(1.0);
        let moved = terms.iter().map(|term| {
            let spikes: f64 = term.spikes.iter().map(|place| factor(&at.spikes, *place)).product();
            term.amount * factor(&at.fuels, term.fuel) * spikes
        });
        Some(constant + moved.sum::<f64>())
    }

    /// Whether a fuel's lever, or that of a spike of it, is not as the job has it.
    fn is_moved(&self, fuel: FuelId, at: &LeverSetting) -> bool {
        let price = self.fuels.iter().zip(&at.fuels).any(|(own, factor)| *own == fuel && *factor != 1.0);
        let spikes = self.spikes.iter().zip(&at.spikes);
        price || spikes.into_iter().any(|(spike, times)| spike.fuel == fuel && *times != spike.times)
    }
}

/// Finds the coefficients of every option.
pub fn levers(c: &Comparison) -> Levers {
    let all: Vec<usize> = (0..c.options.len()).collect();
    levers_of(&Billing::new(c), c, &all)
}

/// Finds the coefficients of the options at some places, in that order, by billing each one's energy with
/// some factors at 0 and the others at 1; `billing` bills the options of `c`.
pub fn levers_of(billing: &Billing<'_>, c: &Comparison, places: &[usize]) -> Levers {
    let mut fuels: Vec<FuelId> = Vec::new();
    for price in &c.prices.0 {
        if !fuels.contains(&price.fuel) {
            fuels.push(price.fuel);
        }
    }
    let of = |price: &FuelPrice| {
        let fuel = price.fuel;
        let spike = |s: &crate::prices::Spike| SpikeLever { fuel, name: s.name.clone(), times: s.times };
        price.spikes.iter().map(spike).collect::<Vec<_>>()
    };
    let spikes: Vec<SpikeLever> = fuels.iter().filter_map(|fuel| c.prices.of(*fuel)).flat_map(of).collect();
    let one = |option: usize| match why_off(c, option) {
        Some(why) if why != WhyOff::Contract => OptionLevers::Off(why),
        _ => of_option(c, billing, option, (&fuels, &spikes)),
    };
    let options = places.iter().map(|option| one(*option)).collect();
    Levers { fuels, spikes, options }
}

/// Why the job's prices, the option's controls or its contract leave no sum.
pub(super) fn why_off(c: &Comparison, option: usize) -> Option<WhyOff> {
    let option = c.options.get(option)?;
    let used = |price: &&FuelPrice| {
        price.fuel == FuelId::ELECTRICITY || option.design.fuels(&c.machines).contains(&price.fuel)
    };
    let has = |asked: fn(&FuelPrice) -> bool| c.prices.0.iter().filter(used).any(asked);
    if has(|price| price.has_tiers() || !price.by_yearly_use.is_empty()) {
        Some(WhyOff::Tiers)
    } else if has(|price| price.demand_per_kw != 0.0) {
        Some(WhyOff::Demand)
    } else {
        let contract = !under_contract(c, option).is_empty();
        let many = c.prices.0.iter().any(|price| price.spikes.len() > MOST_SPIKES);
        let on_cost = energy_hangs_on_prices(&option.design);
        let reasons =
            [(many, WhyOff::ManySpikes), (on_cost, WhyOff::ChangesOverOnCost), (contract, WhyOff::Contract)];
        reasons.into_iter().find(|(holds, _)| *holds).map(|(_, why)| why)
    }
}

/// The fuels of an option whose store is filled at another price than the market's.
fn under_contract(c: &Comparison, option: &OptionResult) -> Vec<FuelId> {
    let stores = c.supplies.of(&option.design.name).into_iter();
    stores.filter(|store| store.contract.price != PricePlan::Market).map(|store| store.fuel).collect()
}

fn of_option(
    c: &Comparison,
    billing: &Billing<'_>,
    option: usize,
    (fuels, spikes): (&[FuelId], &[SpikeLever]),
) -> OptionLevers {
    let held = c.options.get(option).map_or_else(Vec::new, |option| under_contract(c, option));
    let own = |fuel: FuelId| -> Vec<usize> {
        let places = spikes.iter().enumerate().filter(|(_, spike)| spike.fuel == fuel);
        places.map(|(place, _)| place).collect()
    };
    let cost = |on: Option<(FuelId, usize)>| {
        let prices = c.prices.0.iter().map(|price| match held.contains(&price.fuel) {
            true => price.clone(),
            false => probed(price, on),
        });
        let prices = prices.collect();
        billing.at(option, &Prices(prices)).map(|ledger| ledger.total())
    };
    let Some(constant) = cost(None) else { return OptionLevers::Off(WhyOff::ChangesOverOnCost) };
    let mut terms = Vec::new();
    for (place, fuel) in fuels.iter().enumerate().filter(|(_, fuel)| !held.contains(fuel)) {
        let own = own(*fuel);
        // What the days bring whose spikes are all among a subset; then what those of just it bring.
        let mut of_subset: Vec<f64> = Vec::new();
        for subset in 0..1_usize << own.len() {
            let all = cost(Some((*fuel, subset))).unwrap_or(constant) - constant;
            let within = (0..subset).filter(|smaller| smaller & !subset == 0);
            let smaller: f64 = within.filter_map(|smaller| of_subset.get(smaller)).sum();
            of_subset.push(all - smaller);
        }
        for (subset, amount) in of_subset.into_iter().enumerate().filter(|(_, amount)| *amount != 0.0) {
            let chosen = own.iter().enumerate().filter(|(bit, _)| subset >> bit & 1 == 1);
            terms.push(Term { fuel: place, spikes: chosen.map(|(_, spike)| *spike).collect(), amount });
        }
    }
    OptionLevers::On {
        constant,
        terms,
        held: held.into_iter().map(|fuel| (fuel, WhyOff::Contract)).collect(),
    }
}

/// A price with its energy at 0; or, for the fuel that is `on`, as it is but for its spikes, which are
/// at 1 where the bit of `subset` says so and at 0 elsewhere.
fn probed(price: &FuelPrice, on: Option<(FuelId, usize)>) -> FuelPrice {
    let mut price = price.clone();
    match on.filter(|(fuel, _)| *fuel == price.fuel) {
        Some((_, subset)) => {
            for (bit, spike) in price.spikes.iter_mut().enumerate() {
                spike.times = if subset >> bit & 1 == 1 { 1.0 } else { 0.0 };
            }
            price
        }
        None => price.times(0.0),
    }
}
