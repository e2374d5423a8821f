//! A store's year into lines of cost: deliveries by the uses that drew what they replace, fees, and
//! the change of stock, so that what is summed up is the cost of the fuel burned.
//!
//! Knows no option. Start at [`lines`].

use super::book::{Delivery, StoreYear};
use super::charge::Charge;
use super::contract::{LeftOver, PricePlan};
use super::fuel_use::ByUse;
use super::store::{MarketDays, Store};
use crate::simulation::EndUse;

/// One line of what a store costs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SupplyLine {
    /// The month in which it is paid, 1 to 12; nothing for what is not paid, but counted.
    pub month: Option<u8>,
    /// What it is for.
    pub end_use: EndUse,
    /// How much: kWh (HHV) of fuel, else a count.
    pub quantity: f64,
    /// The price of one.
    pub price: f64,
    /// Why it is due.
    pub charge: Charge,
}

impl SupplyLine {
    /// What it comes to.
    pub fn amount(&self) -> f64 {
        self.quantity * self.price
    }
}

/// The mean price paid for a kWh of fuel, fees of delivery left out; without a delivery, what it would
/// cost on the last day.
pub fn mean_price(store: &Store, year: &StoreYear, market: &MarketDays) -> f64 {
    let bought = year.bought_kwh();
    if bought > 0.0 {
        return year.paid() / bought;
    }
    let contract = &store.contract;
    let last = market.price(year.levels_kwh.len());
    match contract.price {
        PricePlan::PreBuy { per_kwh, .. } => per_kwh + contract.fees.plan_per_kwh,
        _ => contract.per_kwh(last),
    }
}

/// Every line of the year, those of the contract first; `used` is what was burned each day by use,
/// `mean_price` values the change of stock.
pub fn lines(
    store: &Store,
    year: &StoreYear,
    market: &MarketDays,
    used: &[ByUse],
    mean_price: f64,
) -> Vec<SupplyLine> {
    let fees = &store.contract.fees;
    let (first, last) = (Some(market.month(0)), Some(market.month(usize::MAX)));
    let once = |month, end_use, price, charge| SupplyLine { month, end_use, quantity: 1.0, price, charge };
    let mut lines = vec![once(first, EndUse::Rent, fees.rent, Charge::Rent)];
    let (set, years) = fees.set_and_pick_up;
    lines.push(once(first, EndUse::Rent, set / years.max(1.0), Charge::SetAndPickUp(years)));
    lines.push(once(first, EndUse::Delivery, fees.plan_a_year, Charge::PricePlan));
    let mut since = 0;
    for delivery in &year.deliveries {
        let shares = shares(used, since..delivery.day);
        lines.extend(of_delivery(store, delivery, market.month(delivery.day), &shares));
        since = delivery.day;
    }
    if let Some((_, fee)) = fees.low_use.filter(|(least, _)| year.burned_kwh < *least) {
        lines.push(once(last, EndUse::Delivery, fee, Charge::LowUse));
    }
    if let PricePlan::PreBuy { per_kwh, left_over: LeftOver::Lose, .. } = store.contract.price {
        let lost = year.left_over_kwh * per_kwh;
        lines.push(once(last, EndUse::Delivery, lost, Charge::PreBoughtLost));
    }
    lines.push(SupplyLine {
        month: None,
        end_use: EndUse::StockChange,
        quantity: year.start_kwh - year.end_kwh(),
        price: mean_price,
        charge: Charge::StockChange,
    });
    lines.retain(|line| line.amount() != 0.0);
    lines
}

fn of_delivery(store: &Store, delivery: &Delivery, month: u8, shares: &ByUse) -> Vec<SupplyLine> {
    let (fees, month) = (&store.contract.fees, Some(month));
    let price = delivery.amount / delivery.kwh;
    let uses = EndUse::DRAWING.into_iter().zip(shares);
    let fuel = uses.map(|(end_use, share)| SupplyLine {
        month,
        end_use,
        quantity: delivery.kwh * share,
        price,
        charge: Charge::Delivered,
    });
    let free = store.contract.guaranteed();
    let asked = [
        (true, fees.drop, Charge::Drop),
        (delivery.small, fees.small_drop.unwrap_or_default(), Charge::SmallDrop),
        (delivery.emergency && !free, fees.emergency, Charge::Emergency),
        (delivery.leak_test && !free, fees.leak_test, Charge::LeakTest),
    ];
    let asked = asked.into_iter().filter(|(due, _, _)| *due);
    let fee =
        |(_, price, charge)| SupplyLine { month, end_use: EndUse::Delivery, quantity: 1.0, price, charge };
    fuel.chain(asked.map(fee)).collect()
}

/// The share of each use in what was burned on the days, from what was burned in all the year where
/// nothing was; all of it space heating where nothing was ever burned.
fn shares(used: &[ByUse], days: std::ops::Range<usize>) -> ByUse {
    let sum = |days: &[ByUse]| {
        let mut sum = ByUse::default();
        for day in days {
            sum.iter_mut().zip(day).for_each(|(sum, kwh)| *sum += kwh);
        }
        sum
    };
    for part in [used.get(days).unwrap_or_default(), used] {
        let by_use = sum(part);
        let all: f64 = by_use.iter().sum();
        if all > 0.0 {
            return by_use.map(|kwh| kwh / all);
        }
    }
    let mut heating = ByUse::default();
    if let Some(share) = heating.get_mut(EndUse::SpaceHeating.place()) {
        *share = 1.0;
    }
    heating
}
