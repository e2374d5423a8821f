//! The stores of delivered fuels as JSON.
//!
//! Start at [`document`].

use super::supply_words;
use crate::comparison::{Comparison, OrdinaryTerms, StoreResult};
use schemars::JsonSchema;
use serde::Serialize;

#[derive(Serialize, JsonSchema)]
pub(super) struct StoreDocument<'a> {
    name: &'a str,
    fuel: &'a str,
    /// The unit of all amounts and prices here.
    unit: &'a str,
    terms: String,
    capacity: f64,
    full: f64,
    reserve: f64,
    reorder_level: f64,
    /// The level at which an order goes out: less than `reorder_level` where the supplier counts too little of
    /// the use, or the least delivery finds no room before.
    ordered_at: f64,
    lead_days: usize,
    level_at_start: f64,
    level_at_end: f64,
    lowest_level: f64,
    /// In the store at the end of each day.
    levels: Vec<f64>,
    burned: f64,
    bought: f64,
    /// A unit of the fuel alone, over the levels the store may begin at.
    mean_price_paid: f64,
    /// A unit of the fuel alone in the deliveries listed here, from the job's own starting level.
    mean_price_of_deliveries: f64,
    cost_of_burned: f64,
    cost_range_over_starting_levels: (f64, f64),
    cash: f64,
    run_outs: usize,
    dry_hours: f64,
    hours_short_of_vapour: usize,
    days_at_design_from_full: Option<f64>,
    days_at_design_from_reorder: Option<f64>,
    deliveries: Vec<DeliveryDocument>,
}

/// The best of the ordinary terms, at the price of the day, for the option's fuel that comes by truck.
#[derive(Serialize, JsonSchema)]
pub(super) struct OrdinaryDocument<'a> {
    store: &'a str,
    terms: String,
    /// Whether they are the job's own.
    as_in_job: bool,
    /// What the whole option costs on them.
    yearly_cost: f64,
    run_outs: usize,
}

/// What ordinary terms come to.
pub(super) fn ordinary(found: &OrdinaryTerms) -> OrdinaryDocument<'_> {
    OrdinaryDocument {
        store: &found.store.name,
        terms: supply_words::terms(&found.store.contract),
        as_in_job: found.is_own,
        yearly_cost: found.yearly_cost,
        run_outs: found.run_outs,
    }
}

#[derive(Serialize, JsonSchema)]
struct DeliveryDocument {
    ordered_on: Option<String>,
    delivered_on: Option<String>,
    amount: f64,
    price: f64,
    level_before: f64,
    emergency: bool,
    leak_test: bool,
}

/// What came of one store.
pub(super) fn document<'a>(c: &'a Comparison, result: &'a StoreResult) -> StoreDocument<'a> {
    let supplied = &result.supplied;
    let (store, year) = (&supplied.store, &supplied.year);
    let fuel = c.fuels.get(store.fuel);
    let units = fuel.map_or(1.0, |fuel| fuel.kwh_per_unit);
    let date =
        |day: usize| result.supplied.market.dates.get(day).map(|d| format!("{:02}-{:02}", d.month, d.day));
    let deliveries = year.deliveries.iter().map(|d| DeliveryDocument {
        ordered_on: date(d.ordered_on),
        delivered_on: date(d.day),
        amount: d.kwh / units,
        price: d.amount / d.kwh * units,
        level_before: d.before_kwh / units,
        emergency: d.emergency,
        leak_test: d.leak_test,
    });
    StoreDocument {
        name: &store.name,
        fuel: fuel.map_or("", |fuel| &fuel.id),
        unit: fuel.map_or("kWh", |fuel| &fuel.selling_unit),
        terms: supply_words::terms(&store.contract),
        capacity: store.tank.capacity_kwh / units,
        full: store.tank.full_kwh() / units,
        reserve: store.tank.reserve_kwh() / units,
        reorder_level: store.contract.reorder_kwh / units,
        ordered_at: store.ordered_at_kwh() / units,
        lead_days: store.contract.lead_days,
        level_at_start: year.start_kwh / units,
        level_at_end: year.end_kwh() / units,
        lowest_level: year.lowest_kwh() / units,
        levels: year.levels_kwh.iter().map(|level| level / units).collect(),
        burned: year.burned_kwh / units,
        bought: year.bought_kwh() / units,
        mean_price_paid: supplied.mean_price_over_levels * units,
        mean_price_of_deliveries: supplied.mean_price * units,
        cost_of_burned: supplied.cost(),
        cost_range_over_starting_levels: supplied.cost_range,
        cash: supplied.cash,
        run_outs: year.run_outs,
        dry_hours: year.dry_hours(),
        hours_short_of_vapour: year.vapour_hours,
        days_at_design_from_full: result.days_from_full,
        days_at_design_from_reorder: result.days_from_reorder,
        deliveries: deliveries.collect(),
    }
}
