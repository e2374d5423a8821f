//! Postings: everything that costs, one line each. Every total anywhere is a sum over them.
//!
//! Start at [`Ledger`].

use crate::fuel::{Fuel, FuelId, Fuels};
use crate::prices::{FuelPrice, Prices};
use crate::simulation::EndUse;
use crate::simulation::sums::EnergyByDay;
use crate::supply::meter::{BillLine, month_lines};

/// Why a posting is there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Reason {
    /// Fuel used at the ordinary price.
    Used,
    /// Fuel used on days on which the price was multiplied by this.
    UsedInSpike(f64),
    /// Due each month whatever is used.
    FixedCharge,
}

/// One line of what an option costs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Posting {
    /// Month, 1 to 12; nothing where the weather has no months.
    pub month: Option<u8>,
    /// What it is for.
    pub end_use: EndUse,
    /// The fuel it is for.
    pub fuel: FuelId,
    /// How much, in the fuel's selling unit; months for a fixed charge.
    pub quantity: f64,
    /// The price of one, in the job's currency.
    pub price: f64,
    /// What it comes to.
    pub amount: f64,
    /// Why it is there.
    pub reason: Reason,
}

/// The postings of one option through one year.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Ledger {
    /// The postings, by month from January, fuel and use.
    pub postings: Vec<Posting>,
}

impl Ledger {
    /// Posts a year's energy at the prices given.
    ///
    /// A fixed charge is due for electricity always, for another fuel only where `burns` says that
    /// the option has a machine for it.
    pub fn of_year(
        energy: &EnergyByDay,
        prices: &Prices,
        fuels: &Fuels,
        burns: impl Fn(FuelId) -> bool,
    ) -> Self {
        let mut postings = Vec::new();
        for month in 1..=12 {
            for (id, fuel) in fuels.iter() {
                let Some(price) = prices.of(id) else { continue };
                let lines = month_lines(price, energy, month);
                postings.extend(lines.iter().map(|line| of_line(line, Some(month), id, fuel)));
                if id == FuelId::ELECTRICITY || burns(id) {
                    postings.extend(fixed_charge(price, Some(month), 1.0));
                }
            }
        }
        Self { postings }
    }

    /// Posts energy without months at flat prices; fuels whose price varies are left out.
    pub fn of_bins(
        energy: &[(FuelId, EndUse, f64)],
        prices: &Prices,
        fuels: &Fuels,
        burns: impl Fn(FuelId) -> bool,
    ) -> Self {
        let mut postings = Vec::new();
        for (id, fuel) in fuels.iter() {
            let Some(price) = prices.of(id) else { continue };
            let Some(flat) = price.flat() else { continue };
            for end_use in EndUse::DRAWING {
                let kwh: f64 =
                    energy.iter().filter(|(f, u, _)| *f == id && *u == end_use).map(|(_, _, kwh)| kwh).sum();
                if kwh != 0.0 {
                    let price = crate::prices::PriceOfDay { base_per_kwh: flat, spike_factor: 1.0 };
                    postings.push(of_line(&BillLine { end_use, kwh, price }, None, id, fuel));
                }
            }
            if id == FuelId::ELECTRICITY || burns(id) {
                postings.extend(fixed_charge(price, None, 12.0));
            }
        }
        Self { postings }
    }

    /// The sum of all postings.
    pub fn total(&self) -> f64 {
        self.sum(|_| true)
    }

    /// The sum of the postings that `which` picks.
    pub fn sum(&self, which: impl Fn(&Posting) -> bool) -> f64 {
        self.postings.iter().filter(|p| which(p)).map(|p| p.amount).sum()
    }

    /// How much of a fuel was used, in its selling unit.
    pub fn quantity(&self, fuel: FuelId) -> f64 {
        let used = self.postings.iter().filter(|p| p.fuel == fuel && p.reason != Reason::FixedCharge);
        used.map(|p| p.quantity).sum()
    }
}

fn of_line(line: &BillLine, month: Option<u8>, id: FuelId, fuel: &Fuel) -> Posting {
    let spiked = line.price.spike_factor != 1.0;
    Posting {
        month,
        end_use: line.end_use,
        fuel: id,
        quantity: line.kwh / fuel.kwh_per_unit,
        price: line.price.per_kwh() * fuel.kwh_per_unit,
        amount: line.amount(),
        reason: if spiked { Reason::UsedInSpike(line.price.spike_factor) } else { Reason::Used },
    }
}

fn fixed_charge(price: &FuelPrice, month: Option<u8>, months: f64) -> Option<Posting> {
    (price.fixed_per_month != 0.0).then_some(Posting {
        month,
        end_use: EndUse::FixedCharge,
        fuel: price.fuel,
        quantity: months,
        price: price.fixed_per_month,
        amount: months * price.fixed_per_month,
        reason: Reason::FixedCharge,
    })
}
