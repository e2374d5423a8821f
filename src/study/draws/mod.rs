//! Winters drawn by chance: one weather year drives how much is burned, how long the truck takes and what
//! fuel costs; what each option then costs, and whether it runs dry.
//!
//! This is one winter at a time, never a mean over the years of a life. Start at [`draws`].

pub mod spread;
pub mod years;
pub mod circumstances;
pub mod policies;
pub mod sizes;

pub use policies::{PolicyRow, PolicyTerms};
pub use sizes::SizeForRisk;
pub use spread::{Probability, Spread};
pub use years::YearsBasis;

use crate::comparison::winter::{OptionWinter, Terms, WinterCost};
use crate::comparison::{Comparison, OptionResult, RunWeather};
use crate::fuel::FuelId;
use crate::job::{DrawsSection, Job};
use crate::problem::{Problem, Problems};
use crate::supply::{MarketDays, Store};
use crate::units::Quantity;
use crate::weather::Weather;
use circumstances::Circumstances;
use rayon::prelude::{IndexedParallelIterator, IntoParallelRefIterator, ParallelIterator};
use years::Pool;

/// How winters are drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DrawSetting {
    /// How many.
    pub winters: usize,
    /// Which of many equally good rows of chance.
    pub seed: u64,
    /// The probability of a run-out in a winter that is put up with.
    pub risk: f64,
    /// Whether queue and price go by winters of their own.
    pub independent: bool,
}

impl DrawSetting {
    /// What the job says; else 2,000 winters of the first seed, coupled, at a risk of 1 in 100.
    pub fn of_section(section: &DrawsSection) -> Self {
        let number =
            |typed: &Option<crate::job::Typed<f64>>, or: f64| typed.as_ref().map_or(or, |typed| typed.value);
        Self {
            winters: number(&section.winters, 2000.0) as usize,
            seed: number(&section.seed, 1.0) as u64,
            risk: number(&section.risk, 0.01),
            independent: section.independent.as_deref() == Some(&true),
        }
    }
}

/// What came of the drawn winters.
#[derive(Debug, Clone, PartialEq)]
pub struct WinterDraws {
    /// How they were drawn.
    pub setting: DrawSetting,
    /// Out of which weather years.
    pub basis: YearsBasis,
    /// Fuels that come by truck and whose price moves only as the job's own year says.
    pub still: Vec<FuelId>,
    /// One an option, in the job's order.
    pub options: Vec<OptionDraws>,
    /// Every option with a store on several terms, its own first.
    pub policies: Vec<PolicyRow>,
    /// Sizes of the store, and where each must be ordered for the chosen risk.
    pub sizes: Vec<SizeForRisk>,
}

/// One option through the drawn winters, on the terms of the job.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OptionDraws {
    /// What it costs in the job's own year.
    pub typical: f64,
    /// What it costs in the drawn winters.
    pub cost: Spread,
    /// Winters in which a store ran dry; nothing where there is none.
    pub run_outs: Option<Probability>,
    /// Mean hours a winter in which fuel was lacking.
    pub dry_hours: f64,
    /// Mean hours a winter in which a zone was not kept warm, for whatever reason.
    pub cold_hours: f64,
    /// Winters with a dry or vapour-limited hour, which were worked out hour by hour.
    pub in_full: usize,
}

/// Draws the winters of a job. `first` is its comparison on the same weather.
///
/// # Errors
/// Weather without days, such as bins; a record without a whole winter.
pub fn draws(job: &Job, weather: &Weather, first: &Comparison) -> Result<WinterDraws, Problems> {
    drawn(job, weather, first, true)
}

/// The same on the job's own terms alone, without other terms and sizes; nothing where no option has a
/// store, or the weather has no winters to draw from.
pub fn draws_as_in_job(job: &Job, weather: &Weather, first: &Comparison) -> Option<WinterDraws> {
    let stored = first.options.iter().any(|option| !option.stores.is_empty());
    stored.then(|| drawn(job, weather, first, false).ok()).flatten()
}

fn drawn(
    job: &Job,
    weather: &Weather,
    first: &Comparison,
    with_other_terms: bool,
) -> Result<WinterDraws, Problems> {
    let setting = DrawSetting::of_section(&job.draws);
    let RunWeather::Year(own_year) = &first.weather else {
        let what = "winters can only be drawn where the weather has days; bins have none";
        let problem = Problem::new(what).in_file(&job.file).at_key("site.weather_file");
        return Err(vec![problem.help("Name an hourly weather file or a built-in place")]);
    };
    let offset = job.site.site_offset.as_deref().map(|offset| offset.base());
    let pool = Pool::new(weather, own_year, offset.unwrap_or_default(), first.site.zone)?;
    let of_option = |(place, option): (usize, &OptionResult)| {
        let years = pool.years.iter().filter_map(|year| OptionWinter::new(first, place, &year.year));
        let own = OptionWinter::new(first, place, own_year)?;
        let drawn = Drawn { first, setting, pool: &pool, winters: years.collect(), own };
        let stores = first.supplies.of(&option.design.name);
        let costs = drawn.costs(&stores, false);
        let draws = option_draws(option.yearly_cost(), &costs, !stores.is_empty());
        if !with_other_terms || stores.is_empty() {
            return Some((draws, Vec::new(), Vec::new()));
        }
        Some((draws, policies::rows(&drawn, place, &stores, &costs), sizes::rows(&drawn, place, &stores)))
    };
    // No option knows another, and each comes back in its place: as many at once as the machine has cores.
    let all: Vec<_> = first.options.par_iter().enumerate().filter_map(of_option).collect();
    let (mut options, mut policies, mut size_rows) = (Vec::new(), Vec::new(), Vec::new());
    for (draws, own_policies, own_sizes) in all {
        options.push(draws);
        policies.extend(own_policies);
        size_rows.extend(own_sizes);
    }
    let stored = first.supplies.stores.iter().map(|store| store.fuel);
    let still = |fuel: &FuelId| first.prices.of(*fuel).is_some_and(|price| price.moves.is_none());
    let mut still: Vec<FuelId> = stored.filter(still).collect();
    still.dedup();
    Ok(WinterDraws { setting, basis: pool.basis, still, options, policies, sizes: size_rows })
}

fn option_draws(typical: f64, costs: &[WinterCost], has_store: bool) -> OptionDraws {
    let count = costs.len().max(1) as f64;
    let dry = |cost: &&WinterCost| cost.run_outs > 0;
    OptionDraws {
        typical,
        cost: Spread::of(costs.iter().map(|cost| cost.cost)),
        run_outs: has_store.then(|| Probability::of(costs.iter().map(|cost| cost.run_outs > 0))),
        dry_hours: costs.iter().map(|cost| cost.dry_hours).sum::<f64>() / count,
        cold_hours: costs.iter().map(|cost| cost.cold_hours as f64).sum::<f64>() / count,
        in_full: costs.iter().filter(|cost| dry(cost) || cost.vapour_hours > 0).count(),
    }
}

/// One option through every weather year, ready to be filled on any terms.
pub struct Drawn<'a> {
    /// The comparison of the job as it is.
    pub first: &'a Comparison,
    /// How winters are drawn.
    pub setting: DrawSetting,
    /// The weather years.
    pub pool: &'a Pool,
    /// The option through each of them.
    pub winters: Vec<OptionWinter<'a>>,
    /// The option through the job's own year.
    pub own: OptionWinter<'a>,
}

impl Drawn<'_> {
    /// What each drawn winter comes to with these stores; with `in_full` all of it hour by hour, which
    /// changes nothing.
    pub fn costs(&self, stores: &[&Store], in_full: bool) -> Vec<WinterCost> {
        let markets = self.winters.iter().map(|winter| winter.markets(stores, !self.moves(stores)));
        let markets: Vec<Vec<MarketDays>> = markets.collect();
        let draws = 0..self.setting.winters;
        let cost = |draw: usize| {
            let here = Circumstances::new(self.setting, draw, self.pool);
            let winter = self.winters.get(here.years.demand)?;
            let base = markets.get(here.years.demand)?;
            let priced: Vec<MarketDays> = base
                .iter()
                .zip(stores)
                .map(|(market, store)| here.priced(market, store.fuel, self.first.prices.of(store.fuel)))
                .collect();
            let lead = |place: usize, day: usize| here.lead_days(stores, place, day);
            let terms = Terms { stores, markets: &priced, lead: Some(&lead) };
            Some(winter.through(&terms, &here.start(stores), in_full))
        };
        draws.filter_map(cost).collect()
    }

    /// In how many drawn winters a store runs dry with these stores.
    pub fn run_outs(&self, stores: &[&Store]) -> Probability {
        let dates = |year: &years::PoolYear| MarketDays { dates: year.dates.clone(), per_kwh: Vec::new() };
        let markets: Vec<Vec<MarketDays>> =
            self.pool.years.iter().map(|year| vec![dates(year); stores.len()]).collect();
        let dry = |draw: usize| {
            let here = Circumstances::new(self.setting, draw, self.pool);
            let winter = self.winters.get(here.years.demand)?;
            let lead = |place: usize, day: usize| here.lead_days(stores, place, day);
            let markets = markets.get(here.years.demand)?;
            let terms = Terms { stores, markets, lead: Some(&lead) };
            Some(winter.runs_out(&terms, &here.start(stores)))
        };
        Probability::of((0..self.setting.winters).filter_map(dry))
    }

    /// Whether the price of one of these stores' fuels moves by chance; named spikes are then left out.
    fn moves(&self, stores: &[&Store]) -> bool {
        stores.iter().any(|store| self.first.prices.of(store.fuel).is_some_and(|p| p.moves.is_some()))
    }
}
