//! The `[[supply]]` tables as typed: a store of a delivered fuel and the terms on which it is filled;
//! field names are the keys.
//!
//! Must never know what a fuel holds or costs. Start at [`SupplySection`].

use super::money::{AmountText, PriceText};
use super::typed::Typed;
use crate::calendar::MonthDay;
use crate::units::Measure;

/// One `[[supply]]`.
#[derive(Debug, Clone, PartialEq)]
pub struct SupplySection {
    /// `name`: unique among the supplies.
    pub name: Typed<String>,
    /// `fuel`: a fuel's id; one that comes by truck.
    pub fuel: Typed<String>,
    /// The tank's own keys.
    pub tank: TankSection,
    /// `orders`.
    pub orders: Typed<OrdersWord>,
    /// `reorder_level`: share of the capacity, between `reserve` and `fill_limit`.
    pub reorder_level: Option<Typed<f64>>,
    /// `lead_days`: whole days from order to delivery, 1 to 90.
    pub lead_days: Option<Typed<f64>>,
    /// `cold_lead_days`: the same in the coldest ten days of an ordinary winter; not less than
    /// `lead_days`.
    pub cold_lead_days: Option<Typed<f64>>,
    /// `summer_fill_day`: always there with `orders = "summer_fill"`, and only then.
    pub summer_fill_day: Option<Typed<MonthDay>>,
    /// `forecast_error`: share of the use that the supplier counts too little, 0 to 0.5; only with
    /// `orders = "automatic"`.
    pub forecast_error: Option<Typed<f64>>,
    /// `run_out_guarantee`; only with `orders = "automatic"`.
    pub run_out_guarantee: Option<Typed<bool>>,
    /// The price's own keys.
    pub plan: PlanSection,
    /// The fees.
    pub fees: FeesSection,
}

/// Keys of what holds the fuel.
#[derive(Debug, Clone, PartialEq)]
pub struct TankSection {
    /// `capacity`: of a propane tank, its water capacity; more than 0.
    pub capacity: Typed<AmountText>,
    /// `fill_limit`: share of the capacity, 0.5 to 1.
    pub fill_limit: Option<Typed<f64>>,
    /// `reserve`: share of the capacity that cannot be used, 0 to 0.4.
    pub reserve: Option<Typed<f64>>,
    /// `start_level`: share of the capacity when the run begins, from `reserve` to `fill_limit`.
    pub start_level: Option<Typed<f64>>,
    /// `placement`.
    pub placement: Option<Typed<PlacementWord>>,
    /// `diameter` and `length`: both or none.
    pub measures: Option<(Typed<Measure>, Typed<Measure>)>,
    /// `owner`.
    pub owner: Option<Typed<OwnerWord>>,
}

/// Keys of the price.
#[derive(Debug, Clone, PartialEq)]
pub struct PlanSection {
    /// `price_plan`.
    pub price_plan: Option<Typed<PlanWord>>,
    /// `plan_price`: always there with a plan that has a price of its own, and only then.
    pub plan_price: Option<Typed<PriceText>>,
    /// `plan_amount`: always there with `price_plan = "pre_buy"`, and only then.
    pub plan_amount: Option<Typed<AmountText>>,
    /// `left_over`: always there with `price_plan = "pre_buy"`, and only then.
    pub left_over: Option<Typed<LeftOverWord>>,
    /// `plan_fee`: by the year or by the fuel's unit.
    pub plan_fee: Option<Typed<PriceText>>,
    /// `price_day`.
    pub price_day: Option<Typed<PriceDayWord>>,
    /// `last_year_use`: the use by which the price of the fuel is raised.
    pub last_year_use: Option<Typed<AmountText>>,
    /// `budget_plan`.
    pub budget_plan: Option<Typed<bool>>,
}

/// Keys of fees and of what goes with them.
#[derive(Debug, Clone, PartialEq)]
pub struct FeesSection {
    /// `minimum_drop`.
    pub minimum_drop: Option<Typed<AmountText>>,
    /// `small_drop_fee`, by the drop; only with `minimum_drop`.
    pub small_drop_fee: Option<Typed<PriceText>>,
    /// `delivery_fee`, by the drop.
    pub delivery_fee: Option<Typed<PriceText>>,
    /// `emergency_days`: whole days from order to delivery, 1 to 30.
    pub emergency_days: Option<Typed<f64>>,
    /// `emergency_fee`, by the drop; only with `emergency_days`.
    pub emergency_fee: Option<Typed<PriceText>>,
    /// `relight_days`: whole days from delivery to relighting after a run-out, 0 to 30.
    pub relight_days: Option<Typed<f64>>,
    /// `leak_test_fee`, by the test.
    pub leak_test_fee: Option<Typed<PriceText>>,
    /// `low_use_below` and `low_use_fee`, by the year: both or none.
    pub low_use: Option<(Typed<AmountText>, Typed<PriceText>)>,
    /// `rent`, by the year; only where the supplier owns the tank.
    pub rent: Option<Typed<PriceText>>,
    /// `set_and_pick_up_fee`, by the tank.
    pub set_and_pick_up_fee: Option<Typed<PriceText>>,
    /// `tank_years`: over which that fee is spread, 1 to 50; only with it.
    pub tank_years: Option<Typed<f64>>,
}

/// `orders`: who watches the level.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OrdersWord {
    /// The house looks at the gauge.
    WillCall,
    /// The supplier, by degree-days.
    Automatic,
    /// The house fills it on a day in summer, and looks at the gauge else.
    SummerFill,
}

/// `placement`: where the store stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PlacementWord {
    /// In the open air.
    AboveGround,
    /// In the ground.
    Buried,
    /// In the house.
    Indoors,
}

/// `owner`: whose the store is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OwnerWord {
    /// The house's.
    House,
    /// The supplier's, who alone fills it.
    Supplier,
}

/// `price_plan`: how the price is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PlanWord {
    /// The price of the day.
    Market,
    /// One price.
    Fixed,
    /// The price of the day up to a most.
    Cap,
    /// Some of it paid beforehand.
    PreBuy,
}

/// `left_over`: what becomes of pre-bought fuel that is not delivered.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LeftOverWord {
    /// Paid back.
    Refund,
    /// Kept for the next year.
    Carry,
    /// Gone.
    Lose,
}

/// `price_day`: which day's price holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PriceDayWord {
    /// The order's.
    Order,
    /// The delivery's.
    Delivery,
}
