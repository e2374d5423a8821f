//! One option through one other weather year: worked out once with ample fuel, then filled from whatever
//! stores, on whatever terms, as often as wanted.
//!
//! Start at [`OptionWinter`].

use super::Comparison;
use super::laid::laid;
use super::option::bills_of;
use super::setting::Setting;
use crate::calendar::MonthDay;
use crate::fuel::FuelId;
use crate::simulation::design::OptionDesign;
use crate::simulation::plan::OptionPlan;
use crate::simulation::sums::YearSums;
use crate::supply::book::StoreYear;
use crate::supply::cost::{SupplyLine, lines, mean_price};
use crate::supply::days::{Ample, Days, Lead};
use crate::supply::fuel_use::FuelUse;
use crate::supply::year::starts;
use crate::supply::{MarketDays, Store};
use crate::weather::{OutdoorRun, OutdoorYear};

/// An option through a weather year, its fuels that come by truck left to be bought.
pub struct OptionWinter<'a> {
    design: &'a OptionDesign,
    setting: Setting<'a>,
    run: OutdoorRun,
    plan: OptionPlan,
    ample: Ample,
    ample_bills: f64,
    ample_cold_hours: usize,
}

/// What a winter comes to.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct WinterCost {
    /// What the year from July to June costs: bills, and stored fuel that is burned.
    pub cost: f64,
    /// Times that a store ran dry.
    pub run_outs: usize,
    /// Hours in which fuel was lacking.
    pub dry_hours: f64,
    /// Hours in which less boiled off than was wanted.
    pub vapour_hours: usize,
    /// Hours in which a zone was not kept warm; the worst zone's.
    pub cold_hours: usize,
}

/// What stores are filled on.
pub struct Terms<'a> {
    /// The stores, one for each fuel in [`OptionWinter::stored`], in its order.
    pub stores: &'a [&'a Store],
    /// The market's days, one a store.
    pub markets: &'a [MarketDays],
    /// Days from order to delivery by store and day of order; the contract's own without it.
    pub lead: Option<Lead<'a>>,
}

impl<'a> OptionWinter<'a> {
    /// Runs the option at that place of a comparison through `year` with ample fuel; nothing where there is
    /// no such option.
    ///
    /// Where heaters take turns by cost, they go by the prices of the job.
    pub fn new(c: &'a Comparison, option: usize, year: &OutdoorYear) -> Option<Self> {
        let design = &c.options.get(option)?.design;
        Some(Self::in_setting(design, c.setting(), year.run(c.site.zone)))
    }

    /// The same through the hours of a run.
    pub(super) fn in_setting(design: &'a OptionDesign, setting: Setting<'a>, run: OutdoorRun) -> Self {
        let plan = laid(&setting, design, &run);
        let fuels = stored(&setting, design);
        let mut sums = sums(&run, &setting);
        let ample = Ample::new(&plan, fuels, &mut sums);
        let ample_bills = bills_of(&sums.energy, &run, design, &setting);
        let ample_cold_hours = cold_hours(&sums);
        Self { design, setting, run, plan, ample, ample_bills, ample_cold_hours }
    }

    /// The fuels that come from a store.
    pub fn stored(&self) -> Vec<FuelId> {
        stored(&self.setting, self.design)
    }

    /// The dates of the year's days.
    pub fn dates(&self) -> Vec<MonthDay> {
        MarketDays::dates_of(&self.run.calendar)
    }

    /// The market of each of `stores` at the job's prices, with its spikes or without.
    pub fn markets(&self, stores: &[&Store], spikes: bool) -> Vec<MarketDays> {
        crate::supply::year::markets(stores, self.ample.used(), |store, yearly_kwh| {
            let price = self.setting.prices.of(store.fuel).cloned();
            let price = price.map(|price| if spikes { price } else { price.without_spikes() });
            price.map_or_else(MarketDays::default, |p| MarketDays::of_run(&self.run.calendar, &p, yearly_kwh))
        })
    }

    /// The year from these levels (kWh): by the run with ample fuel where it stands, else hour by hour; with
    /// `in_full` always hour by hour, which changes nothing.
    pub fn through(&self, terms: &Terms<'_>, start_kwh: &[f64], in_full: bool) -> WinterCost {
        let days = self.days(terms);
        let quick = if in_full { None } else { days.ample_year(start_kwh) };
        if let Some(stores) = quick {
            let bought = bought(terms, &stores, self.ample.used());
            return outcome(&stores, self.ample_bills + bought, self.ample_cold_hours);
        }
        let mut sums = sums(&self.run, &self.setting);
        let year = days.limited_year(start_kwh, in_full, &mut sums);
        let bills = bills_of(&sums.energy, &self.run, self.design, &self.setting);
        outcome(&year.stores, bills + bought(terms, &year.stores, &year.used), cold_hours(&sums))
    }

    /// What the year comes to with these stores, at the job's prices and the contracts' own leads, on the mean
    /// of the levels at its start.
    pub fn typical(&self, stores: &[&Store]) -> f64 {
        let markets = self.markets(stores, true);
        let terms = Terms { stores, markets: &markets, lead: None };
        let starts = starts(stores);
        let costs = starts.iter().map(|start| self.through(&terms, start, false).cost);
        costs.sum::<f64>() / starts.len().max(1) as f64
    }

    /// The place of the store whose terms are varied: that of propane, else the first.
    pub fn varied(&self, stores: &[&Store]) -> usize {
        let propane = self.setting.fuels.find("propane");
        stores.iter().position(|store| Some(store.fuel) == propane).unwrap_or_default()
    }

    /// The day on which the market of a store asks least.
    pub fn market_lowest_on(&self, store: &Store) -> Option<MonthDay> {
        let markets = self.markets(&[store], false);
        let market = markets.first()?;
        let days = market.per_kwh.iter().zip(&market.dates);
        days.min_by(|a, b| a.0.total_cmp(b.0)).map(|(_, date)| *date)
    }

    /// Whether a store runs dry from these levels (kWh).
    pub fn runs_out(&self, terms: &Terms<'_>, start_kwh: &[f64]) -> bool {
        self.days(terms).runs_out(start_kwh)
    }

    fn days<'t>(&'t self, terms: &'t Terms<'_>) -> Days<'t> {
        let days = Days::new(&self.plan, &self.ample, terms.stores, terms.markets);
        match terms.lead {
            Some(lead) => days.with_lead(lead),
            None => days,
        }
    }
}

fn stored(setting: &Setting<'_>, design: &OptionDesign) -> Vec<FuelId> {
    setting.supplies.of(&design.name).iter().map(|store| store.fuel).collect()
}

fn sums(run: &OutdoorRun, setting: &Setting<'_>) -> YearSums {
    YearSums::new(&run.calendar, setting.fuels.count(), setting.zones.len())
}

fn cold_hours(sums: &YearSums) -> usize {
    sums.zones.iter().map(|zone| zone.comfort.hours_not_kept_warm).max().unwrap_or_default()
}

/// What the stores' fuel, fees and rent cost, the change of stock included.
fn bought(terms: &Terms<'_>, years: &[StoreYear], used: &FuelUse) -> f64 {
    let stores = terms.stores.iter().zip(terms.markets).zip(years).enumerate();
    let costs = stores.map(|(place, ((store, market), year))| {
        let price = mean_price(store, year, market);
        lines(store, year, market, used.by_use(place), price).iter().map(SupplyLine::amount).sum::<f64>()
    });
    costs.sum()
}

fn outcome(stores: &[StoreYear], cost: f64, cold_hours: usize) -> WinterCost {
    WinterCost {
        cost,
        run_outs: stores.iter().map(|store| store.run_outs).sum(),
        dry_hours: stores.iter().map(StoreYear::dry_hours).sum(),
        vapour_hours: stores.iter().map(|store| store.vapour_hours).sum(),
        cold_hours,
    }
}
