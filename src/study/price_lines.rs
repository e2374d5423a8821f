//! How each option's yearly cost is made of prices, quantity by quantity: so that any one price can be
//! changed and the costs summed anew, without running the hours again.
//!
//! Options whose cost is no such sum are told with the reason, as by the levers. Start at
//! [`PriceLines`].

use super::levers::WhyOff;
use crate::fuel::FuelId;
use crate::prices::FuelPrice;
use crate::simulation::EndUse;

/// The prices of a job, and what each option takes at each of them.
#[derive(Debug, Clone, PartialEq)]
pub struct PriceLines {
    /// Every price that may be changed, in the order of the job's fuels.
    pub prices: Vec<Priced>,
    /// One an option, in the job's order.
    pub options: Vec<OptionLines>,
}

/// A price that may be changed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Priced {
    /// The fuel.
    pub fuel: FuelId,
    /// Whether it is of the fuel's meter for heating.
    pub heating_meter: bool,
    /// What it is the price of.
    pub of: PriceOf,
    /// Its value: for one selling unit, one month, as a share, or as a factor.
    pub value: f64,
}

/// What a price is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PriceOf {
    /// A month of being a customer.
    Fixed,
    /// A month of the tank.
    Rent,
    /// Energy: the place of the rate among the price's.
    Rate(usize),
    /// The factor of a spike: its place among the price's.
    Spike(usize),
    /// A charge on energy, for one selling unit or as a share: its place among the price's.
    Rider(usize),
    /// Tax, a share of everything else on the account.
    Tax,
}

/// What an option takes at each price.
#[derive(Debug, Clone, PartialEq)]
pub enum OptionLines {
    /// The cost is the sum of the lines.
    On(Vec<Line>),
    /// It is no such sum: why, and what each fuel costs as it was run.
    Off(WhyOff, Vec<(FuelId, f64)>),
}

/// One line of an option's cost.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// The fuel.
    pub fuel: FuelId,
    /// Whether it is on the fuel's meter for heating. Fuel and meter are an account.
    pub heating_meter: bool,
    /// What it is for, and how it is reckoned.
    pub what: LineOf,
    /// Selling units of fuel, months, or, for fees, currency; 0 where it is a share of other lines.
    pub quantity: f64,
    /// The place of its price in [`PriceLines::prices`]; nothing for fees.
    pub price: Option<usize>,
    /// The places of the spikes that multiply it.
    pub spikes: Vec<usize>,
}

/// What a line is for. All but shares are quantity times price times spikes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LineOf {
    /// Due each month.
    Due(EndUse),
    /// Energy for a use.
    Energy(EndUse),
    /// Fuel out of a store, for all uses, on the mean of the starting levels.
    FromStore,
    /// A charge on each unit of energy.
    Rider,
    /// A share of what the account's energy costs.
    RiderShare,
    /// A share of everything above it on the account.
    Tax,
    /// What a store costs beside fuel.
    StoreFees,
}

impl LineOf {
    /// Whether its quantity is fuel.
    pub fn is_energy(self) -> bool {
        matches!(self, Self::Energy(_) | Self::FromStore)
    }
}

impl PriceLines {
    /// The prices as the job has them.
    pub fn as_it_is(&self) -> Vec<f64> {
        self.prices.iter().map(|price| price.value).collect()
    }

    /// What each line of the option at that place comes to at other prices, in the order of
    /// [`Self::prices`]; nothing where its cost is no sum of prices.
    pub fn amounts(&self, option: usize, prices: &[f64]) -> Option<Vec<f64>> {
        let OptionLines::On(lines) = self.options.get(option)? else { return None };
        let mut amounts: Vec<f64> = Vec::new();
        for line in lines {
            let above = |which: fn(LineOf) -> bool| -> f64 {
                let same = |l: &Line| (l.fuel, l.heating_meter) == (line.fuel, line.heating_meter);
                let own = lines.iter().zip(&amounts).filter(|(l, _)| same(l) && which(l.what));
                own.map(|(_, amount)| amount).sum()
            };
            let of = |place: usize| prices.get(place).copied().unwrap_or_default();
            let price = line.price.map_or(1.0, of);
            let times: f64 = line.spikes.iter().map(|place| of(*place)).product();
            amounts.push(match line.what {
                LineOf::RiderShare => price * above(LineOf::is_energy),
                LineOf::Tax => price * above(|_| true),
                _ => line.quantity * price * times,
            });
        }
        Some(amounts)
    }

    pub(super) fn place(&self, price: &FuelPrice, of: PriceOf) -> Option<usize> {
        // Riders, spikes and tax are the fuel's; only fixed charges and rates are a meter's own.
        let own = matches!(of, PriceOf::Fixed | PriceOf::Rent | PriceOf::Rate(_));
        let heating = own && price.is_heating();
        self.prices.iter().position(|p| (p.fuel, p.heating_meter, p.of) == (price.fuel, heating, of))
    }
}
