//! One drawn winter: which weather year, how full the store is on 1 July, how long trucks take, what the
//! market asks.
//!
//! Every number is keyed by seed, draw, factor and date, so that another option, store or order changes no
//! other number, and all options share them. Start at [`Circumstances`].

use super::DrawSetting;
use super::years::Pool;
use crate::chance::Chance;
use crate::fuel::FuelId;
use crate::prices::FuelPrice;
use crate::supply::queue::lead_days;
use crate::supply::{MarketDays, Store};

/// What a number is drawn for; part of its key.
const DEMAND: u64 = 1;
const QUEUE: u64 = 2;
const PRICE: u64 = 3;
const START: u64 = 4;
const TRUCK: u64 = 5;
/// The fuel's index is added.
const PATH: u64 = 100;

/// Which weather year drives what: places in the pool.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DrawnYears {
    /// How much is burned.
    pub demand: usize,
    /// How long trucks take.
    pub queue: usize,
    /// What fuel costs.
    pub price: usize,
}

impl DrawnYears {
    /// Of a draw among `count` years; one and the same unless `independent`.
    pub fn of(seed: u64, draw: u64, count: usize, independent: bool) -> Self {
        let year = |factor| {
            let share = Chance::keyed(seed, draw, factor, 0).share();
            ((share * count as f64) as usize).min(count.saturating_sub(1))
        };
        let demand = year(DEMAND);
        match independent {
            true => Self { demand, queue: year(QUEUE), price: year(PRICE) },
            false => Self { demand, queue: demand, price: demand },
        }
    }
}

/// One drawn winter.
pub struct Circumstances<'a> {
    seed: u64,
    draw: u64,
    pool: &'a Pool,
    /// Its weather years.
    pub years: DrawnYears,
}

impl<'a> Circumstances<'a> {
    /// The winter of that number.
    pub fn new(setting: DrawSetting, draw: usize, pool: &'a Pool) -> Self {
        let (seed, draw) = (setting.seed, draw as u64);
        let years = DrawnYears::of(seed, draw, pool.years.len(), setting.independent);
        Self { seed, draw, pool, years }
    }

    /// The levels of stores on 1 July, kWh: anything from the reserve to full.
    pub fn start(&self, stores: &[&Store]) -> Vec<f64> {
        let share = Chance::keyed(self.seed, self.draw, START, 0).share();
        stores.iter().map(|store| store.tank.reserve_kwh() + share * store.tank.usable_kwh()).collect()
    }

    /// Days from an order on that day to its delivery.
    pub fn lead_days(&self, stores: &[&Store], place: usize, day: usize) -> usize {
        let Some(contract) = stores.get(place).map(|store| &store.contract) else { return 1 };
        let degree_days = self.pool.years.get(self.years.queue).and_then(|year| year.trailing.get(day));
        let strain = self.pool.strain.at(degree_days.copied().unwrap_or_default());
        let normal = Chance::keyed(self.seed, self.draw, TRUCK, day as u64).normal();
        lead_days((contract.lead_days, contract.cold_lead_days), strain, normal)
    }

    /// A market with the chance of this winter in its prices, where the job says how they move.
    pub fn priced(&self, market: &MarketDays, fuel: FuelId, price: Option<&FuelPrice>) -> MarketDays {
        let moves = price.and_then(|price| price.moves.as_ref());
        let year = self.pool.years.get(self.years.price);
        let (Some(moves), Some(year)) = (moves, year) else { return market.clone() };
        let mut chance = Chance::keyed(self.seed, self.draw, PATH + fuel.index() as u64, 0);
        let factors = moves.path(market.per_kwh.len(), year.winter, &mut chance);
        let per_kwh = market.per_kwh.iter().zip(factors).map(|(price, factor)| price * factor).collect();
        MarketDays { dates: market.dates.clone(), per_kwh }
    }
}
