//! How a store's yearly cost hangs on the market's price of each day, where no contract says what the
//! fuel costs.
//!
//! When the truck comes hangs on levels and days, never on prices, so the cost is a sum of prices. Start
//! at [`AtMarket`].

use super::book::StoreYear;
use super::contract::{PriceDay, PricePlan};
use super::cost::SupplyLine;
use super::store::Store;

/// A store's yearly cost as a sum of the prices of days.
#[derive(Debug, Clone, PartialEq)]
pub struct AtMarket {
    /// kWh (HHV) that are charged at the price of each day, the change of stock in them.
    pub kwh_by_day: Vec<f64>,
    /// Fees and rent, which hang on no price of fuel, in the job's currency.
    pub beside: f64,
}

impl AtMarket {
    /// One year of a store and its lines; nothing where a contract says what the fuel costs.
    ///
    /// The change of stock is valued at the mean price paid, so it adds to each delivery in proportion;
    /// without a delivery it is valued at the last day's price.
    pub(super) fn of(store: &Store, year: &StoreYear, lines: &[SupplyLine]) -> Option<Self> {
        let contract = &store.contract;
        if contract.price != PricePlan::Market {
            return None;
        }
        let (bought, change) = (year.bought_kwh(), year.start_kwh - year.end_kwh());
        let mut kwh_by_day = vec![0.0; year.levels_kwh.len()];
        let mut add = |day: usize, kwh: f64| {
            let last = kwh_by_day.len().saturating_sub(1);
            if let Some(sum) = kwh_by_day.get_mut(day.min(last)) {
                *sum += kwh;
            }
        };
        for delivery in &year.deliveries {
            let day = match contract.price_day {
                PriceDay::Order => delivery.ordered_on,
                PriceDay::Delivery => delivery.day,
            };
            add(day, delivery.kwh * (1.0 + change / bought));
        }
        if bought <= 0.0 {
            add(usize::MAX, change);
        }
        let fees = lines.iter().filter(|line| !line.charge.is_fuel()).map(SupplyLine::amount);
        let by_kwh = contract.fees.plan_per_kwh * kwh_by_day.iter().sum::<f64>();
        Some(Self { kwh_by_day, beside: fees.sum::<f64>() + by_kwh })
    }

    /// The mean of several; nothing of none.
    pub(super) fn mean(list: &[Self]) -> Option<Self> {
        let share = 1.0 / list.len() as f64;
        let days = list.first()?.kwh_by_day.len();
        let of_day = |day: usize| list.iter().filter_map(|one| one.kwh_by_day.get(day)).sum::<f64>() * share;
        Some(Self {
            kwh_by_day: (0..days).map(of_day).collect(),
            beside: list.iter().map(|one| one.beside).sum::<f64>() * share,
        })
    }
}
