//! An option's stores through a year: what came of them, what they cost, and what they would have cost
//! from other levels at the start.
//!
//! Start at [`AmpleYear`].

use super::at_market::AtMarket;
use super::book::StoreYear;
use super::charge::Charge;
use super::contract::{LeftOver, PricePlan};
use super::cost::{SupplyLine, lines, mean_price};
use super::days::{Ample, Days, DrivenYear};
use super::fuel_use::{ByUse, FuelUse};
use super::store::{MarketDays, Store};
use crate::simulation::EndUse;
use crate::simulation::plan::OptionPlan;
use crate::simulation::record::{Nothing, Sink};
use std::borrow::Cow;

/// Levels at the start over which the yearly cost is averaged, from the reserve to the fill limit.
pub const STARTING_LEVELS: usize = 20;

/// One store of an option through a year.
#[derive(Debug, Clone, PartialEq)]
pub struct Supplied {
    /// The store.
    pub store: Store,
    /// Its days.
    pub year: StoreYear,
    /// What the market asks on them.
    pub market: MarketDays,
    /// What it costs; the sum is the mean over the starting levels.
    pub lines: Vec<SupplyLine>,
    /// The mean price paid for a kWh of fuel, fees left out.
    pub mean_price: f64,
    /// The mean of that over the starting levels.
    pub mean_price_over_levels: f64,
    /// What is paid within the year, the change of stock left out.
    pub cash: f64,
    /// Share of what was burned that heated rooms; 0 where nothing was.
    pub heating_share: f64,
    /// What is paid from January to December, for each of the starting levels.
    pub paid_over_levels: Vec<[f64; 12]>,
    /// The least and the greatest yearly cost over the starting levels.
    pub cost_range: (f64, f64),
    /// The mean over the starting levels as a sum of the prices of days; nothing where a contract says
    /// what the fuel costs.
    pub at_market: Option<AtMarket>,
}

impl Supplied {
    /// What is paid in a month, from 0, where the year begins at the level of that place; in equal parts on a
    /// budget plan.
    pub fn paid_in(&self, level: usize, month: usize) -> f64 {
        let paid = self.paid_over_levels.get(level).copied().unwrap_or_default();
        match self.store.contract.budget_plan {
            true => paid.iter().sum::<f64>() / 12.0,
            false => paid.get(month).copied().unwrap_or_default(),
        }
    }

    /// What its fuel, fees and rent cost in the year, in the job's currency.
    pub fn cost(&self) -> f64 {
        self.lines.iter().map(SupplyLine::amount).sum()
    }

    /// What the household's share of the fuel costs, fees and rent left out.
    pub fn household_share(&self) -> f64 {
        let is_fee = |line: &&SupplyLine| matches!(line.end_use, EndUse::Delivery | EndUse::Rent);
        let fees: f64 = self.lines.iter().filter(is_fee).map(SupplyLine::amount).sum();
        (self.cost() - fees) * (1.0 - self.heating_share)
    }

    /// What of it heating adds: its share of the fuel; fees and rent too where nothing else burns any.
    pub fn heating_adds(&self) -> f64 {
        let is_fee = |line: &&SupplyLine| matches!(line.end_use, EndUse::Delivery | EndUse::Rent);
        let fees: f64 = self.lines.iter().filter(is_fee).map(SupplyLine::amount).sum();
        let fees_of_heating = if self.heating_share == 1.0 { fees } else { 0.0 };
        (self.cost() - fees) * self.heating_share + fees_of_heating
    }
}

/// An option's year with ample fuel, whatever is in its stores and whatever the fuel costs: other prices
/// need not run its hours again.
#[derive(Debug, Clone, PartialEq)]
pub struct AmpleYear<S> {
    ample: Ample,
    sink: S,
}

impl<S: Sink> AmpleYear<S> {
    /// Runs the hours of `plan`, counting what the `stores` hold and handing them to `sink`.
    pub fn run(plan: &OptionPlan, stores: &[&Store], mut sink: S) -> Self {
        let ample = Ample::new(plan, stores.iter().map(|store| store.fuel).collect(), &mut sink);
        Self { ample, sink }
    }

    /// The sink of the hours with ample fuel.
    pub fn sink(&self) -> &S {
        &self.sink
    }

    /// The sink of the hours with ample fuel, to keep.
    pub fn into_sink(self) -> S {
        self.sink
    }

    /// The same year of `plan` on the stores, `market` pricing the days of each by its use in a year (kWh);
    /// gives the stores, and a new sink where the hours came to be others than with ample fuel.
    pub fn on(
        &self,
        plan: &OptionPlan,
        stores: &[&Store],
        market: impl Fn(&Store, f64) -> MarketDays,
        new_sink: impl Fn() -> S,
    ) -> (Vec<Supplied>, Option<S>) {
        let (ample, mut sink) = (&self.ample, None);
        let markets = markets(stores, ample.used(), market);
        let days = Days::new(plan, ample, stores, &markets);
        let stands = |start: &[f64]| Some((days.ample_year(start)?, Cow::Borrowed(ample.used())));
        let limited = |DrivenYear { stores, used }| (stores, Cow::Owned(used));
        let start: Vec<f64> = stores.iter().map(|store| store.start_kwh).collect();
        let (years, used) = stands(&start)
            .unwrap_or_else(|| limited(days.limited_year(&start, false, sink.insert(new_sink()))));
        let from = |start: Vec<f64>| {
            stands(&start).unwrap_or_else(|| limited(days.limited_year(&start, false, &mut Nothing)))
        };
        let others: Vec<(Vec<StoreYear>, Cow<'_, FuelUse>)> = starts(stores).into_iter().map(from).collect();
        let supplied = stores.iter().zip(&markets).zip(years).enumerate();
        let supplied = supplied.map(|(place, ((store, market), own))| {
            let valued = Valued { store, market, place };
            let others = others.iter().filter_map(|(years, used)| Some((years.get(place)?, used)));
            let others: Vec<OtherYear> = others.map(|(year, used)| valued.other(year, used)).collect();
            valued.supplied(own, &used, &others)
        });
        (supplied.collect(), sink)
    }
}

/// The market's days, one a store, at the use that its contract or else the year itself has.
pub fn markets(
    stores: &[&Store],
    used: &FuelUse,
    market: impl Fn(&Store, f64) -> MarketDays,
) -> Vec<MarketDays> {
    let yearly = |place, store: &Store| store.contract.last_year_kwh.unwrap_or_else(|| used.year_kwh(place));
    stores.iter().enumerate().map(|(i, store)| market(store, yearly(i, store))).collect()
}

/// The levels of all stores at the start, kWh, over which a year is averaged.
pub fn starts(stores: &[&Store]) -> Vec<Vec<f64>> {
    let level = |level: usize| {
        let levels = stores.iter().map(|store| store.tank.levels(STARTING_LEVELS).get(level).copied());
        levels.map(Option::unwrap_or_default).collect()
    };
    (0..STARTING_LEVELS).map(level).collect()
}

/// What is paid from January to December.
fn paid_by_month(lines: &[SupplyLine]) -> [f64; 12] {
    let mut paid = [0.0; 12];
    for line in lines {
        let month = line.month.and_then(|month| paid.get_mut(usize::from(month).checked_sub(1)?));
        if let Some(month) = month {
            *month += line.amount();
        }
    }
    paid
}

fn heating_share(used: &[ByUse]) -> f64 {
    let sum = |which: fn(EndUse) -> bool| -> f64 {
        let uses = EndUse::DRAWING.iter().filter(|u| which(**u));
        uses.map(|u| used.iter().filter_map(|day| day.get(u.place())).sum::<f64>()).sum()
    };
    let all = sum(|_| true);
    if all > 0.0 { sum(EndUse::is_heating) / all } else { 0.0 }
}

/// What values a store's years.
struct Valued<'a> {
    store: &'a Store,
    market: &'a MarketDays,
    place: usize,
}

/// The year from another level at the start.
struct OtherYear {
    cost: f64,
    mean_price: f64,
    paid: [f64; 12],
    at_market: Option<AtMarket>,
}

impl Valued<'_> {
    fn mean_price(&self, year: &StoreYear) -> f64 {
        mean_price(self.store, year, self.market)
    }

    fn lines(&self, year: &StoreYear, used: &FuelUse) -> Vec<SupplyLine> {
        lines(self.store, year, self.market, used.by_use(self.place), self.mean_price(year))
    }

    fn other(&self, year: &StoreYear, used: &FuelUse) -> OtherYear {
        let lines = self.lines(year, used);
        OtherYear {
            cost: lines.iter().map(SupplyLine::amount).sum(),
            mean_price: self.mean_price(year),
            paid: paid_by_month(&lines),
            at_market: AtMarket::of(self.store, year, &lines),
        }
    }

    /// `others` are the year from each starting level.
    fn supplied(&self, year: StoreYear, used: &FuelUse, others: &[OtherYear]) -> Supplied {
        let mut lines = self.lines(&year, used);
        let sum = |lines: &[SupplyLine]| lines.iter().map(SupplyLine::amount).sum::<f64>();
        let own = sum(&lines);
        let stock: Vec<_> = lines.iter().filter(|l| l.charge == Charge::StockChange).copied().collect();
        let mean =
            |of: fn(&OtherYear) -> f64| others.iter().map(of).sum::<f64>() / others.len().max(1) as f64;
        lines.push(SupplyLine {
            month: None,
            end_use: EndUse::StockChange,
            quantity: 1.0,
            price: mean(|other| other.cost) - own,
            charge: Charge::StartingLevels(others.len()),
        });
        let costs = others.iter().map(|other| other.cost);
        // What is carried into the next year was paid for in this one.
        let carried = match self.store.contract.price {
            PricePlan::PreBuy { per_kwh, left_over: LeftOver::Carry, .. } => year.left_over_kwh * per_kwh,
            _ => 0.0,
        };
        Supplied {
            store: self.store.clone(),
            market: self.market.clone(),
            mean_price: self.mean_price(&year),
            mean_price_over_levels: mean(|other| other.mean_price),
            year,
            lines,
            cash: own - sum(&stock) + carried,
            heating_share: heating_share(used.by_use(self.place)),
            cost_range: costs.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), cost| {
                (low.min(cost), high.max(cost))
            }),
            paid_over_levels: others.iter().map(|other| other.paid).collect(),
            at_market: AtMarket::mean(&others.iter().filter_map(|o| o.at_market.clone()).collect::<Vec<_>>()),
        }
    }
}
