//! A store of a fuel with its contract, and the market's price on each day of a run.
//!
//! Start at [`Store`].

use super::contract::Contract;
use super::tank::Tank;
use crate::calendar::{Calendar, MonthDay, Stamp};
use crate::fuel::FuelId;
use crate::prices::FuelPrice;

/// A store of a delivered fuel and the terms on which it is filled.
#[derive(Debug, Clone, PartialEq)]
pub struct Store {
    /// The job's name for it.
    pub name: String,
    /// The fuel.
    pub fuel: FuelId,
    /// What holds it.
    pub tank: Tank,
    /// Who fills it, when and at what price.
    pub contract: Contract,
    /// What is in it when the run begins, kWh (HHV).
    pub start_kwh: f64,
}

impl Store {
    /// The level at which an order goes out, kWh: what the contract says, less what a supplier who counts too
    /// little of the use has not seen of it, and low enough for the least delivery to find room, unless a
    /// smaller one can be paid for.
    pub fn ordered_at_kwh(&self) -> f64 {
        let (full_kwh, contract) = (self.tank.full_kwh(), &self.contract);
        // The supplier sees only so much of what has been used since it was full.
        let share_seen = 1.0 - contract.orders.forecast_error();
        let seen = full_kwh - (full_kwh - contract.reorder_kwh) / share_seen;
        self.room_for_drop_kwh().map_or(seen, |level| seen.min(level)).max(0.0)
    }

    /// At or below this level the least delivery finds room, kWh; nothing where the supplier comes for less.
    pub fn room_for_drop_kwh(&self) -> Option<f64> {
        let least = self.contract.fees.small_drop.is_none().then_some(self.contract.minimum_drop_kwh);
        least.map(|least| self.tank.full_kwh() - least)
    }
}

/// The stores of a job, and which of them each option burns from.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Supplies {
    /// The stores.
    pub stores: Vec<Store>,
    /// For an option's name, places in the list of stores; one a fuel.
    pub by_option: Vec<(String, Vec<usize>)>,
}

impl Supplies {
    /// The stores of the option of that name.
    pub fn of(&self, option: &str) -> Vec<&Store> {
        let places = self.by_option.iter().find(|(name, _)| name == option).map(|(_, places)| places);
        places.into_iter().flatten().filter_map(|place| self.stores.get(*place)).collect()
    }
}

/// The dates of a run's days by the clock at noon, and what the market asks on them.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct MarketDays {
    /// One date a day.
    pub dates: Vec<MonthDay>,
    /// The price of one kWh (HHV) on each day.
    pub per_kwh: Vec<f64>,
}

impl MarketDays {
    /// The days of `calendar` at `price`: riders, tax and what the use of `yearly_kwh` adds in it.
    pub fn of_run(calendar: &Calendar, price: &FuelPrice, yearly_kwh: f64) -> Self {
        let added = price.add_per_kwh(yearly_kwh) * (1.0 + price.tax);
        let per_kwh = noons(calendar).map(|noon| price.marginal(*noon, 0.0) + added).collect();
        Self { dates: Self::dates_of(calendar), per_kwh }
    }

    /// The dates of a run's days.
    pub fn dates_of(calendar: &Calendar) -> Vec<MonthDay> {
        noons(calendar).map(|noon| MonthDay { month: noon.month, day: noon.day }).collect()
    }

    /// The mean of the days; 0 without any.
    pub fn mean(&self) -> f64 {
        self.per_kwh.iter().sum::<f64>() / self.per_kwh.len().max(1) as f64
    }

    /// The price on a day; beyond the last day, the last day's.
    pub fn price(&self, day: usize) -> f64 {
        self.per_kwh.get(day).or(self.per_kwh.last()).copied().unwrap_or_default()
    }

    /// The month (1 to 12) of a day; beyond the last day, the last day's.
    pub fn month(&self, day: usize) -> u8 {
        self.dates.get(day).or(self.dates.last()).map_or(1, |date| date.month)
    }
}

/// A day's standard time may begin on another date of the clock; its noon never does.
fn noons(calendar: &Calendar) -> impl Iterator<Item = &Stamp> {
    calendar.stamps().iter().skip(12).step_by(24)
}
