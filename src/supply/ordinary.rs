//! The ordinary terms for a fuel that comes by truck: the price of the day, ordered by the house or kept
//! full by the supplier.
//!
//! Prices of plans that nobody has quoted are not made up. Start at [`ordinary`].

use super::contract::{Contract, Fees, Orders, PriceDay, PricePlan};
use super::store::Store;
use crate::calendar::MonthDay;

/// A supplier that is not asked counts so much of the use too little; common practice.
pub const FORECAST_ERROR: f64 = 0.1;

/// A store on each of the ordinary terms that its owner allows, those that it has already left out.
/// `lowest_on` is the day on which the market asks least, for a fill in summer.
///
/// A lead is that of a store of `known` with such orders, `own` first, else the usual one.
pub fn ordinary(own: &Store, known: &[Store], lowest_on: Option<MonthDay>) -> Vec<Store> {
    let automatic = Orders::Automatic { forecast_error: FORECAST_ERROR, guarantee: false };
    let summer = lowest_on.filter(|_| !own.contract.leased).map(|on| Orders::SummerFill { on });
    let orders = [Some(Orders::WillCall), Some(automatic), summer].into_iter().flatten();
    let is_own = |orders: &Orders| is_ordinary(&own.contract) && orders.is_like(own.contract.orders);
    orders.filter(|orders| !is_own(orders)).map(|orders| on_ordinary_terms(own, known, orders)).collect()
}

fn on_ordinary_terms(own: &Store, known: &[Store], orders: Orders) -> Store {
    let of_fuel = known.iter().filter(|store| store.fuel == own.fuel);
    let so_ordered = std::iter::once(own).chain(of_fuel).map(|store| &store.contract);
    let leads = so_ordered
        .filter(|contract| contract.orders.is_like(orders))
        .map(|contract| (contract.lead_days, contract.cold_lead_days))
        .next();
    let (lead_days, cold_lead_days) = leads.unwrap_or(orders.usual_lead_days());
    let price_day = match orders {
        Orders::Automatic { .. } => PriceDay::Delivery,
        Orders::WillCall | Orders::SummerFill { .. } => PriceDay::Order,
    };
    let fees = Fees { plan_per_kwh: 0.0, plan_a_year: 0.0, ..own.contract.fees };
    let contract = Contract {
        orders,
        lead_days,
        cold_lead_days,
        price: PricePlan::Market,
        price_day,
        fees,
        budget_plan: false,
        ..own.contract.clone()
    };
    Store { contract, ..own.clone() }
}

/// Whether the price of the day is paid.
pub fn is_ordinary(contract: &Contract) -> bool {
    contract.price == PricePlan::Market
}
