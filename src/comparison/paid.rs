//! What an option paid for its energy on the mean of the year.
//!
//! A sum over postings; knows no rate. Start at [`average_price`].

use super::{Comparison, OptionResult};
use crate::fuel::FuelId;
use crate::simulation::EndUse;

/// The average price that an option paid for one selling unit of a fuel for a use, all that goes with it
/// included; where the year's hours had no such use, for the fuel at all, else what one more unit costs
/// on the mean of the year.
pub fn average_price(option: &OptionResult, c: &Comparison, (fuel, end_use): (FuelId, EndUse)) -> f64 {
    let mean = |same_use: bool| {
        let paid = option.ledger.postings.iter().filter(|p| {
            p.fuel == fuel && EndUse::DRAWING.contains(&p.end_use) && (!same_use || p.end_use == end_use)
        });
        let (amount, quantity) = paid.fold((0.0, 0.0), |(a, q), p| {
            (a + p.amount, q + if p.reason.is_energy() { p.quantity } else { 0.0 })
        });
        (quantity > 0.0).then(|| amount / quantity)
    };
    let per_unit = c.fuels.get(fuel).map_or(1.0, |f| f.kwh_per_unit);
    let plain = || c.prices.of(fuel).map(|p| p.mean_marginal() * per_unit);
    mean(true).or_else(|| mean(false)).or_else(plain).unwrap_or_default()
}
