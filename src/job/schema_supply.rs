//! The JSON Schema of the `[[supply]]` tables.
//!
//! Must never know machines or options. Start at [`Supply`].

// The fields are read by the schema's derivation, never by the program.
#![allow(dead_code)]

use super::schema_values::{Amount, Day, Line, Measure, Money};
use schemars::JsonSchema;

/// A store of a fuel that comes by truck, and the terms on which it is filled.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(extend("dependentRequired" = {
    "diameter": ["length"], "length": ["diameter"], "small_drop_fee": ["minimum_drop"],
    "emergency_fee": ["emergency_days"], "low_use_below": ["low_use_fee"], "low_use_fee": ["low_use_below"],
    "tank_years": ["set_and_pick_up_fee"]
}))]
pub(super) struct Supply {
    /// Its name, used by the options.
    name: Line,
    /// A fuel that has a price; not electricity or natural gas.
    fuel: Line,
    /// What would fill it to the brim: of a propane tank, its water capacity.
    capacity: Amount,
    /// Share of the capacity to which it is filled; 0.8 for propane without it.
    #[schemars(range(min = 0.5, max = 1.0))]
    fill_limit: Option<f64>,
    /// Share of the capacity that cannot be used.
    #[schemars(range(min = 0.0, max = 0.4))]
    reserve: Option<f64>,
    /// Share of the capacity when the year begins; full without it.
    #[schemars(range(min = 0.0, max = 1.0))]
    start_level: Option<f64>,
    /// Where it stands; a propane tank above ground gives little in the cold.
    placement: Option<Placement>,
    /// Outer diameter of a propane tank; that of the nearest listed size without it.
    diameter: Option<Measure>,
    /// Overall length of a propane tank.
    length: Option<Measure>,
    /// Whose it is; only its owner fills a supplier's tank.
    owner: Option<Owner>,
    /// Who watches the level and orders.
    orders: Orders,
    /// Share of the capacity at which an order is placed.
    #[schemars(range(min = 0.0, max = 1.0))]
    reorder_level: Option<f64>,
    /// Days from order to delivery.
    #[schemars(range(min = 1, max = 90))]
    lead_days: Option<u32>,
    /// The same in the coldest ten days of an ordinary winter; for drawn winters.
    #[schemars(range(min = 1, max = 90))]
    cold_lead_days: Option<u32>,
    /// The day of the summer's order, with orders = "summer_fill".
    summer_fill_day: Option<Day>,
    /// Share of the use that the supplier counts too little, with orders = "automatic".
    #[schemars(range(min = 0.0, max = 0.5))]
    forecast_error: Option<f64>,
    /// Whether the supplier pays for what a run-out brings, with orders = "automatic".
    run_out_guarantee: Option<bool>,
    /// How the price is made; market without it.
    price_plan: Option<PricePlan>,
    /// The fixed price, the most of a cap, or the price of pre-bought fuel.
    plan_price: Option<Money>,
    /// How much is bought beforehand.
    plan_amount: Option<Amount>,
    /// What becomes of pre-bought fuel that is not delivered within the year.
    left_over: Option<LeftOver>,
    /// For the plan: by the year, or by the fuel's unit on top of the price.
    plan_fee: Option<Money>,
    /// Which day's price holds.
    price_day: Option<PriceDay>,
    /// Used in the year before, for a price that is raised by yearly use; this year's own without it.
    last_year_use: Option<Amount>,
    /// Whether the year is paid in twelve equal parts.
    budget_plan: Option<bool>,
    /// The least that is delivered.
    minimum_drop: Option<Amount>,
    /// For less than that; without it, less is refused.
    small_drop_fee: Option<Money>,
    /// For each delivery.
    delivery_fee: Option<Money>,
    /// Days to an emergency delivery after a run-out; without it, the ordinary one is waited for.
    #[schemars(range(min = 1, max = 30))]
    emergency_days: Option<u32>,
    /// For an emergency delivery.
    emergency_fee: Option<Money>,
    /// Days from the delivery after a run-out to the leak test and relighting.
    #[schemars(range(min = 0, max = 30))]
    relight_days: Option<u32>,
    /// For the leak test after a run-out.
    leak_test_fee: Option<Money>,
    /// A year of less use than this costs low_use_fee.
    low_use_below: Option<Amount>,
    /// For a year of little use.
    low_use_fee: Option<Money>,
    /// For the tank, a year, with owner = "supplier".
    rent: Option<Money>,
    /// For setting the tank and fetching it again, once.
    set_and_pick_up_fee: Option<Money>,
    /// Years over which that is spread.
    #[schemars(range(min = 1.0, max = 50.0))]
    tank_years: Option<f64>,
}

#[derive(JsonSchema)]
#[serde(rename_all = "snake_case")]
enum Placement {
    AboveGround,
    Buried,
    Indoors,
}

#[derive(JsonSchema)]
#[serde(rename_all = "snake_case")]
enum Owner {
    House,
    Supplier,
}

#[derive(JsonSchema)]
#[serde(rename_all = "snake_case")]
enum Orders {
    WillCall,
    Automatic,
    SummerFill,
}

#[derive(JsonSchema)]
#[serde(rename_all = "snake_case")]
enum PricePlan {
    Market,
    Fixed,
    Cap,
    PreBuy,
}

#[derive(JsonSchema)]
#[serde(rename_all = "snake_case")]
enum LeftOver {
    Refund,
    Carry,
    Lose,
}

#[derive(JsonSchema)]
#[serde(rename_all = "snake_case")]
enum PriceDay {
    Order,
    Delivery,
}
