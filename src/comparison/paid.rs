//! What an option paid for its energy on the mean of the year.
//!
//! A sum over postings; knows no rate. Start at [`average_price`].

use super::{Comparison, OptionResult};
use crate::fuel::FuelId;
use crate::simulation::EndUse;

/// The average price that an option paid for one selling unit of a fuel for a use, all that goes with it
/// included; where the year's hours had no such use, for the fuel at all, else what one more unit costs
/// on the mean of the year.
///
/// Of a fuel from a store it is one price for all uses, over what this year burned: what its deliveries
/// and its change of stock come to, this year's own fees left out, and the line that makes its cost the
/// mean over the levels it may begin at. In that line the fees of the other years less this one's stand too,
/// so this is not [`mean_price_over_levels`](crate::supply::Supplied::mean_price_over_levels), which has
/// none. The change of stock belongs to no use.
pub fn average_price(option: &OptionResult, c: &Comparison, (fuel, end_use): (FuelId, EndUse)) -> f64 {
    let is_stored = is_stored(option, fuel);
    let is_fuel = |of: EndUse| EndUse::DRAWING.contains(&of) || (is_stored && of == EndUse::StockChange);
    let mean = |same_use: bool| {
        let same = |of: EndUse| !same_use || is_stored || of == end_use;
        let paid = option.ledger.postings.iter();
        let paid = paid.filter(|p| p.fuel == fuel && is_fuel(p.end_use) && same(p.end_use));
        let (amount, quantity) = paid.fold((0.0, 0.0), |(a, q), p| {
            (a + p.amount, q + if p.reason.is_energy() { p.quantity } else { 0.0 })
        });
        (quantity > 0.0).then(|| amount / quantity)
    };
    let per_unit = c.fuels.get(fuel).map_or(1.0, |f| f.kwh_per_unit);
    let plain = || c.prices.of(fuel).map(|p| p.mean_marginal() * per_unit);
    mean(true).or_else(|| mean(false)).or_else(plain).unwrap_or_default()
}

/// Whether the option has a fuel from a store.
pub fn is_stored(option: &OptionResult, fuel: FuelId) -> bool {
    option.stores.iter().any(|store| store.supplied.store.fuel == fuel)
}
