//! A changed job run again for what its options cost and whether they keep warm, and nothing else.
//!
//! Where a change leaves an option's energy as it was (another price, another incentive), the energy of
//! the first run is billed anew instead of being worked out again. Start at [`Reruns`].

use super::life_cycle::worths;
use super::note::Note;
use super::notes::of_job;
use super::option::{Cost, OptionResult, billed, bought, cost, energy_hangs_on_prices, steadily, worst};
use super::recovery::Warmth;
use super::run_weather::RunWeather;
use super::setting::Setting;
use super::stocked::Stocked;
use super::{Comparison, Parts, chosen, needs_flat_prices, parts};
use crate::fuel::FuelId;
use crate::job::Job;
use crate::ledger::Ledger;
use crate::prices::{Meter, Prices};
use crate::problem::Problems;
use crate::simulation::design::OptionDesign;
use crate::simulation::hour_map::HourMaps;
use crate::simulation::sums::ZoneSums;
use crate::weather::{BinTable, OutdoorRun, Weather};
use std::cell::OnceCell;

/// What a changed job comes to.
#[derive(Debug, Clone, PartialEq)]
pub struct Rerun {
    /// One an option, in the job's order.
    pub options: Vec<Outcome>,
    /// Options whose energy was taken from the first run.
    pub reused: usize,
}

/// What one option comes to.
#[derive(Debug, Clone, PartialEq)]
pub struct Outcome {
    /// The option's name.
    pub name: String,
    /// Every posting of the year.
    pub ledger: Ledger,
    /// What a kWh of each fuel that comes from a store costs on the mean, in the job's currency.
    pub stored: Vec<(FuelId, f64)>,
    /// Hours of the year in which a zone was not kept warm; the worst zone's.
    pub hours_not_kept_warm: usize,
    /// Whether that is for want of heat, or for set-backs alone.
    pub warmth: Warmth,
    /// The lowest room temperature of any zone, °C, where rooms have one.
    pub lowest_room_c: Option<f64>,
    /// What it costs over the years; nothing where the job gives no cost of installing.
    pub life_cycle_cost: Option<f64>,
}

impl Outcome {
    /// What it costs in a year, in the job's currency.
    pub fn yearly_cost(&self) -> f64 {
        self.ledger.total()
    }

    /// Whether it lacks heat; an option that is only slow to recover from a set-back does not.
    pub fn goes_cold(&self) -> bool {
        self.warmth.lacks_heat()
    }
}

/// Bills the options of a comparison at other prices.
pub struct Billing<'a> {
    c: &'a Comparison,
    run: Option<OutdoorRun>,
    stocked: Vec<OnceCell<Stocked>>,
}

impl<'a> Billing<'a> {
    /// The options of `c`.
    pub fn new(c: &'a Comparison) -> Self {
        Self { c, run: run_of(&c.weather, c.site.zone), stocked: one_each(c) }
    }

    /// What the option at that place costs in a year at other prices that ask the same machines to be
    /// off; nothing where it would then draw other energy. What comes from a store is bought again.
    pub fn at(&self, option: usize, prices: &Prices) -> Option<Ledger> {
        let place = option;
        let option = self.c.options.get(place).filter(|option| !energy_hangs_on_prices(&option.design))?;
        let (own, run) = (self.c.setting(), self.run.as_ref());
        let stocked = self.stocked.get(place).zip(run).filter(|_| !option.stores.is_empty());
        let setting = Setting { prices, ..self.c.setting() };
        Some(match stocked {
            None => billed(&option.energy, &option.design, &setting, run),
            Some((cell, run)) => {
                let stocked = cell.get_or_init(|| Stocked::new(&option.design, &own, run));
                bought(stocked, &option.design, &setting, run).0
            }
        })
    }
}

/// Runs changed jobs beside a comparison of the job as it is.
pub struct Reruns<'a> {
    first: &'a Comparison,
    weather: &'a Weather,
    /// Whether the first comparison ran on `weather` just as it is.
    as_given: bool,
    run: Option<OutdoorRun>,
    maps: HourMaps,
    stocked: Vec<OnceCell<Stocked>>,
    reuse: bool,
}

impl<'a> Reruns<'a> {
    /// Changed jobs are run on `weather`, beside their `first` comparison, which ran on it too.
    pub fn new(first: &'a Comparison, weather: &'a Weather) -> Self {
        let run = run_of(&first.weather, first.site.zone);
        let as_given = matches!((weather, &first.weather),
            (Weather::Year(given), RunWeather::Year(own)) if given == own);
        let (maps, stocked) = (HourMaps::default(), one_each(first));
        Self { first, weather, as_given, run, maps, stocked, reuse: true }
    }

    /// The same, but everything is worked out again whatever the change.
    pub fn in_full(self) -> Self {
        Self { reuse: false, ..self }
    }

    /// Runs a changed job.
    ///
    /// # Errors
    /// Everything a job can be refused for.
    pub fn run(&self, job: &Job) -> Result<Rerun, Problems> {
        self.with(job, |anew| {
            let mut reused = 0;
            let outcome = |(i, design): (usize, &OptionDesign)| {
                let Some((option, bills)) = self.billed_anew(i, design, anew) else {
                    let Cost { ledger, zones, stored, run_outs } = cost(design, &anew.setting, anew.run);
                    let zones: Vec<&ZoneSums> = zones.iter().collect();
                    let hours = worst(zones.iter().copied());
                    let without = anew.run.and_then(|run| steadily(hours, design, &anew.setting, run));
                    let warmth = Warmth::of(hours, run_outs, without.as_ref());
                    return outcome(design, (ledger, stored), &zones, warmth);
                };
                reused += 1;
                let zones: Vec<&ZoneSums> = option.zones.iter().map(|zone| &zone.sums).collect();
                outcome(design, bills, &zones, option.warmth())
            };
            let options: Vec<Outcome> = anew.parts.designs.iter().enumerate().map(outcome).collect();
            Rerun { options: over_the_years(anew.parts, options), reused }
        })
    }

    /// The postings of one option of a changed job; nothing where there is no option at that place.
    ///
    /// # Errors
    /// Everything a job can be refused for.
    pub fn ledger(&self, job: &Job, option: usize) -> Result<Option<Ledger>, Problems> {
        Ok(self.ledgers(job, &[option])?.into_iter().flatten().next())
    }

    /// The same of several options, in the order in which they are named.
    ///
    /// # Errors
    /// Everything a job can be refused for.
    pub fn ledgers(&self, job: &Job, options: &[usize]) -> Result<Vec<Option<Ledger>>, Problems> {
        self.with(job, |anew| {
            let ledger = |option: &usize| {
                let design = anew.parts.designs.get(*option)?;
                let billed = self.billed_anew(*option, design, anew).map(|(_, (ledger, _))| ledger);
                Some(billed.unwrap_or_else(|| cost(design, &anew.setting, anew.run).ledger))
            };
            options.iter().map(ledger).collect()
        })
    }

    /// Whether a changed job could be run; its hours are not worked out.
    ///
    /// # Errors
    /// Everything a job can be refused for.
    pub fn accepts(&self, job: &Job) -> Result<(), Problems> {
        self.with(job, |_| ())
    }

    /// What a changed job's own figures are asked about that those of the first are not; no hour is worked out.
    ///
    /// # Errors
    /// Everything a job can be refused for.
    pub fn questions(&self, job: &Job) -> Result<Vec<Note>, Problems> {
        let found = self.with(job, |anew| of_job(job, anew.parts, anew.weather))?;
        Ok(found.into_iter().filter(|note| note.asks() && !self.first.notes.contains(note)).collect())
    }

    /// Builds what the options of a changed job are run with, and does something with it.
    fn with<T>(&self, job: &Job, then: impl FnOnce(&Anew<'_>) -> T) -> Result<T, Problems> {
        let as_given = self.as_given && job.site.site_offset.is_none() && job.site.weather_year.is_none();
        let (own, parts) = if as_given {
            (None, parts(job, &self.first.weather, None)?)
        } else {
            let (weather, parts, _) = chosen(job, self.weather)?;
            (Some(weather), parts)
        };
        let weather = own.as_ref().unwrap_or(&self.first.weather);
        let same_weather =
            (as_given || *weather == self.first.weather) && parts.site.zone == self.first.site.zone;
        let own_run = if same_weather { None } else { run_of(weather, parts.site.zone) };
        let run = if same_weather { self.run.as_ref() } else { own_run.as_ref() };
        let bins = match weather {
            RunWeather::Bins(bins) => {
                needs_flat_prices(job, &parts)?;
                bins.clone()
            }
            // Hours alone are asked here: bins would only serve the coldest night.
            RunWeather::Year(_) => BinTable { bins: Vec::new(), ..self.first.bins.clone() },
        };
        let setting = Setting { maps: Some(&self.maps), ..parts.setting(&bins, self.first.frost) };
        Ok(then(&Anew { setting, parts: &parts, run, weather, same_weather }))
    }

    /// The option of the first run, its new postings and what a kWh from each store costs, where its energy
    /// stands.
    fn billed_anew(
        &self,
        place: usize,
        design: &OptionDesign,
        anew: &Anew<'_>,
    ) -> Option<(&OptionResult, Bills)> {
        let option = self.first.options.get(place)?;
        if !self.stands(option, design, anew.parts, anew.same_weather) {
            return None;
        }
        let bills = match (anew.run, self.stocked.get(place)) {
            (Some(run), Some(cell)) if !option.stores.is_empty() => {
                let first = || Stocked::new(design, &self.first.setting(), run);
                bought(cell.get_or_init(first), design, &anew.setting, run)
            }
            _ => (billed(&option.energy, design, &anew.setting, anew.run), Vec::new()),
        };
        Some((option, bills))
    }

    /// Whether the energy of the first run is that of the changed job too.
    fn stands(
        &self,
        option: &OptionResult,
        design: &OptionDesign,
        parts: &Parts,
        same_weather: bool,
    ) -> bool {
        let machines = || design.zones.iter().flat_map(|zone| zone.heaters.iter().chain(&zone.cooler));
        self.reuse
            && same_weather
            && option.design == *design
            && parts.supplies.of(&design.name) == self.first.supplies.of(&design.name)
            && parts.zones == self.first.zones
            && machines().all(|i| parts.machines.get(*i) == self.first.machines.get(*i))
            && (parts.prices == self.first.prices
                || !energy_hangs_on_prices(design) && same_interruptions(&parts.prices, &self.first.prices))
    }
}

/// Postings, and what a kWh of each fuel that comes from a store costs on the mean.
type Bills = (Ledger, Vec<(FuelId, f64)>);

/// Room for the hours of each option of a comparison.
fn one_each(c: &Comparison) -> Vec<OnceCell<Stocked>> {
    c.options.iter().map(|_| OnceCell::new()).collect()
}

/// What the options of a changed job are run with.
struct Anew<'a> {
    parts: &'a Parts,
    setting: Setting<'a>,
    run: Option<&'a OutdoorRun>,
    weather: &'a RunWeather,
    same_weather: bool,
}

/// Whether the same machines are off in the same hours.
fn same_interruptions(one: &Prices, other: &Prices) -> bool {
    let of = |prices: &'_ Prices| {
        let price = prices.of_heating(FuelId::ELECTRICITY).filter(
            |price| matches!(&price.meter, Meter::Heating { interrupted } if !interrupted.is_empty()),
        );
        price.map(|price| (price.meter.clone(), price.holidays.clone()))
    };
    of(one) == of(other)
}

fn run_of(weather: &RunWeather, zone: Option<chrono_tz::Tz>) -> Option<OutdoorRun> {
    match weather {
        RunWeather::Year(year) => Some(year.run(zone)),
        RunWeather::Bins(_) => None,
    }
}

fn outcome(design: &OptionDesign, (ledger, stored): Bills, zones: &[&ZoneSums], warmth: Warmth) -> Outcome {
    let rooms = zones.iter().filter_map(|zone| zone.comfort.room.as_ref());
    Outcome {
        name: design.name.clone(),
        ledger,
        stored,
        hours_not_kept_warm: worst(zones.iter().copied()),
        warmth,
        lowest_room_c: rooms.map(|room| room.lowest_c).min_by(f64::total_cmp),
        life_cycle_cost: None,
    }
}

/// What the options cost over the years, where the job says what they cost to install.
fn over_the_years(parts: &Parts, mut options: Vec<Outcome>) -> Vec<Outcome> {
    let Some(economics) = &parts.economics else { return options };
    let ledgers: Vec<&Ledger> = options.iter().map(|option| &option.ledger).collect();
    let worths = worths(economics, &ledgers, &parts.fuels, economics.count_incentives);
    let totals: Vec<_> = worths.iter().map(|worth| worth.as_ref().map(|w| w.life.total())).collect();
    for (option, total) in options.iter_mut().zip(totals) {
        option.life_cycle_cost = total;
    }
    options
}
