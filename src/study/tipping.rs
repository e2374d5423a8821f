//! Break-even: at which price of a fuel two options cost the same a year, with how sure that is.
//!
//! The price moves as a factor on every price of the fuel's energy; fixed charges, fees and rents stay.
//! Start at [`tipping`].

use super::change::{Change, changed};
use super::crossing::{Crossing, crossings, crossings_and_sides};
use super::two_options::TwoOptions;
use crate::comparison::{Comparison, OptionResult, compare_alone};
use crate::fuel::FuelId;
use crate::job::{Job, path};
use crate::ledger::Ledger;
use crate::problem::{Problem, Problems, choices};
use crate::supply::Supplied;
use crate::units::Quantity;
use crate::weather::Weather;

/// The least and the greatest factor on a price that is looked at.
pub const FACTORS: (f64, f64) = (0.1, 10.0);
/// Points of the scan, each so many times the one before.
const SCAN: usize = 41;
/// An option that burns less than this share of what the other burns hangs on the fuel otherwise.
const OTHERWISE: f64 = 0.9;

/// Which options, and on which fuel's price; what is not said is chosen.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Asked {
    /// The first option's name.
    pub option: Option<String>,
    /// The second's.
    pub against: Option<String>,
    /// The fuel's id; electricity's price is looked at beside it.
    pub fuel: Option<String>,
}

/// At which prices two options cost the same.
#[derive(Debug, Clone, PartialEq)]
pub struct Tipping {
    /// The places of the two.
    pub options: [usize; 2],
    /// One a fuel whose price moves their difference, electricity last.
    pub prices: Vec<TippingPrice>,
    /// How far the design loads may be off, as a share.
    pub load_uncertainty: f64,
}

/// At which price of one fuel.
#[derive(Debug, Clone, PartialEq)]
pub struct TippingPrice {
    /// The fuel.
    pub fuel: FuelId,
    /// What a selling unit of it costs now, on the mean of what the option of the two burns that burns
    /// more of it; energy alone, in the job's currency.
    pub today: f64,
    /// Where the costs meet, as factors on today's prices, from low to high.
    pub found: Vec<Crossing>,
    /// Which of the two costs less below the first, between, and above the last; one more than
    /// `found`. Nothing where they cost the same.
    pub cheaper: Vec<Option<usize>>,
    /// Where they meet with the design load at the low end of what it may be.
    pub at_low_load: Vec<Crossing>,
    /// The same at the high end.
    pub at_high_load: Vec<Crossing>,
}

impl TippingPrice {
    /// The least and the greatest price of a selling unit at which the two may cost the same, over the
    /// loads; nothing unless they meet once at each.
    pub fn range(&self) -> Option<(f64, f64)> {
        let once = |list: &[Crossing]| match list {
            [one] => Some(one.span()),
            _ => None,
        };
        let ends = [&self.found, &self.at_low_load, &self.at_high_load].map(|list| once(list));
        let ends: Vec<(f64, f64)> = ends.into_iter().collect::<Option<_>>()?;
        let low = ends.iter().map(|(low, _)| *low).fold(f64::INFINITY, f64::min);
        let high = ends.iter().map(|(_, high)| *high).fold(f64::NEG_INFINITY, f64::max);
        Some((low * self.today, high * self.today))
    }
}

/// Finds the prices; `c` is `job` on `weather`. Nothing where there are no two options whose difference
/// a price moves and nobody asked for two.
///
/// # Errors
/// Names that do not exist, and everything a job can be refused for.
pub fn tipping(
    job: &Job,
    weather: &Weather,
    c: &Comparison,
    asked: &Asked,
) -> Result<Option<Tipping>, Problems> {
    let Some((options, fuels)) = chosen(job, c, asked).map_err(|problem| vec![problem])? else {
        return Ok(None);
    };
    let load_uncertainty = c.load_uncertainty;
    let mut prices = found(job, weather, c, options, &fuels)?;
    for sign in [-1.0, 1.0] {
        let other = at_load(job, 1.0 + sign * load_uncertainty)?;
        let there = compare_alone(&other, weather)?;
        let list = crossings_of(&TwoOptions::new(&other, weather, &there, options), &fuels)?;
        for (price, list) in prices.iter_mut().zip(list) {
            *(if sign < 0.0 { &mut price.at_low_load } else { &mut price.at_high_load }) = list;
        }
    }
    Ok(Some(Tipping { options, prices, load_uncertainty }))
}

fn found(
    job: &Job,
    weather: &Weather,
    c: &Comparison,
    options: [usize; 2],
    fuels: &[FuelId],
) -> Result<Vec<TippingPrice>, Problems> {
    let two = TwoOptions::new(job, weather, c, options);
    let price = |fuel: &FuelId| {
        let (found, sides) = crossings_and_sides(scan(), |factor| two.costs(&[(*fuel, factor)]))?;
        let cheaper = sides.into_iter().map(|side| match side {
            0 => None,
            side => Some(if side < 0 { options[0] } else { options[1] }),
        });
        let cheaper = cheaper.collect();
        let today = mean_price(c, options, *fuel).unwrap_or(f64::NAN);
        let (at_low_load, at_high_load) = (Vec::new(), Vec::new());
        Ok(TippingPrice { fuel: *fuel, today, found, cheaper, at_low_load, at_high_load })
    };
    fuels.iter().map(price).collect()
}

/// Where the two meet, for each fuel.
fn crossings_of(two: &TwoOptions<'_>, fuels: &[FuelId]) -> Result<Vec<Vec<Crossing>>, Problems> {
    let of = |fuel: &FuelId| crossings(&scan(), |factor| two.costs(&[(*fuel, factor)]));
    fuels.iter().map(of).collect()
}

/// Factors from the least to the greatest, each as many times the one before.
fn scan() -> Vec<f64> {
    let (low, high) = FACTORS;
    let step = |i: usize| low * (high / low).powf(i as f64 / (SCAN - 1) as f64);
    // The ends are the round numbers, whatever the powers round to.
    (0..SCAN).map(|i| if i + 1 == SCAN { high } else { step(i) }).collect()
}

/// The job with every design load so many times as large.
fn at_load(job: &Job, times: f64) -> Result<Job, Problems> {
    let zone = |zone: &crate::job::ZoneSection| Change::Set {
        key: path::join(&path::join("house.zone", &zone.name.value), "design_load"),
        value: format!("{:?} kW", zone.design_load.base() * times),
    };
    let changes: Vec<Change> = job.house.zone.iter().map(zone).collect();
    changed(job, "load", &changes)
}

/// What a selling unit of `fuel` costs the option of the two that uses more of it; energy alone. Where a contract
/// stands between the market and that option, the mean of the market's days: what is paid does not move with it.
pub fn mean_price(c: &Comparison, options: [usize; 2], fuel: FuelId) -> Option<f64> {
    let most = burns_most(c, options, fuel)?;
    let stored = most.stores.iter().map(|store| &store.supplied);
    let told = |s: &Supplied| match s.store.contract.is_at_market() {
        true => s.mean_price_over_levels,
        false => s.market.mean(),
    };
    let stored: Vec<_> = stored.map(|s| (s.store.fuel, told(s))).collect();
    price_paid(c, &most.ledger, &stored, fuel)
}

/// Whether [`mean_price`] is of the market and not of what is paid.
pub fn is_told_of_market(c: &Comparison, options: [usize; 2], fuel: FuelId) -> bool {
    let stores = burns_most(c, options, fuel).into_iter().flat_map(|option| &option.stores);
    let mut stores = stores.map(|store| &store.supplied.store).filter(|store| store.fuel == fuel);
    stores.any(|store| !store.contract.is_at_market())
}

fn burns_most(c: &Comparison, options: [usize; 2], fuel: FuelId) -> Option<&OptionResult> {
    let burners = options.into_iter().filter_map(|i| c.options.get(i));
    burners.max_by(|a, b| a.ledger.quantity(fuel).total_cmp(&b.ledger.quantity(fuel)))
}

/// What a selling unit of `fuel` costs on the mean of a year, `stored` being what a kWh from each store
/// does; energy alone, nothing where none is used.
pub fn price_paid(c: &Comparison, ledger: &Ledger, stored: &[(FuelId, f64)], fuel: FuelId) -> Option<f64> {
    if let Some((_, per_kwh)) = stored.iter().find(|(of, _)| *of == fuel) {
        return Some(per_kwh * c.fuels.get(fuel)?.kwh_per_unit);
    }
    let quantity = ledger.quantity(fuel);
    let amount = ledger.sum(|p| p.fuel == fuel && p.reason.is_energy());
    (quantity > 0.0).then(|| amount / quantity)
}

/// The two options as [`tipping`] takes them, or the two that cost least of those that do not go cold.
pub(super) fn two_options(job: &Job, c: &Comparison, asked: &Asked) -> Result<Option<[usize; 2]>, Problem> {
    if let Some((options, _)) = chosen(job, c, asked)? {
        return Ok(Some(options));
    }
    let named = asked.option.as_ref().or(asked.against.as_ref());
    let named = named.map(|name| place(job, c, name)).transpose()?;
    let mut others = ranked(c).into_iter().filter(|i| Some(*i) != named);
    let first = named.or_else(|| others.next());
    Ok(first.zip(others.next()).map(|(first, second)| [first, second]))
}

/// Two options, and fuels whose prices move their difference.
type Choice = ([usize; 2], Vec<FuelId>);

/// The two options and the fuels, as asked or chosen: of those that do not go cold, the one that
/// costs least and the next that burns another amount of some fuel.
fn chosen(job: &Job, c: &Comparison, asked: &Asked) -> Result<Option<Choice>, Problem> {
    let named = |name: &Option<String>| name.as_ref().map(|name| place(job, c, name)).transpose();
    let (first, second) = (named(&asked.option)?, named(&asked.against)?);
    let fuel = asked.fuel.as_ref().map(|id| fuel_named(job, c, id)).transpose()?;
    if let (Some(first), Some(second)) = (first, second)
        && first == second
    {
        return Err(Problem::new("an option always costs what it costs itself").help("name two options"));
    }
    let ranked = ranked(c);
    let first = first.or_else(|| ranked.iter().copied().find(|i| Some(*i) != second));
    let Some(first) = first else { return Ok(None) };
    let moves = |second: usize| moving_fuel(c, [first, second], fuel);
    let second = second.or_else(|| ranked.into_iter().find(|i| *i != first && moves(*i).is_some()));
    let Some(second) = second else { return Ok(None) };
    let electricity = [FuelId::ELECTRICITY].into_iter().filter(|_| fuel != Some(FuelId::ELECTRICITY));
    let fuels = fuel.or_else(|| moves(second)).into_iter().chain(electricity).collect();
    Ok(Some(([first, second], fuels)))
}

/// The places of the options that do not go cold, the one that costs least first.
fn ranked(c: &Comparison) -> Vec<usize> {
    let mut warm: Vec<_> = c.options.iter().enumerate().filter(|(_, option)| !option.goes_cold()).collect();
    warm.sort_by(|(_, a), (_, b)| a.yearly_cost().total_cmp(&b.yearly_cost()));
    warm.into_iter().map(|(place, _)| place).collect()
}

/// The fuel beside electricity of which the two burn amounts that differ most in money; `only` that one.
fn moving_fuel(c: &Comparison, options: [usize; 2], only: Option<FuelId>) -> Option<FuelId> {
    let [first, second] = options.map(|i| c.options.get(i));
    let (first, second) = (&first?.ledger, &second?.ledger);
    let amount = |fuel: FuelId| {
        let (one, other) = (first.quantity(fuel), second.quantity(fuel));
        let differ = one.min(other) < OTHERWISE * one.max(other);
        let of = |ledger: &Ledger| ledger.sum(|p| p.fuel == fuel);
        differ.then(|| (of(first) - of(second)).abs())
    };
    let fuels = c.fuels.iter().map(|(id, _)| id).filter(|id| only.is_none_or(|only| only == *id));
    let fuels = fuels.filter(|id| only.is_some() || *id != FuelId::ELECTRICITY);
    let amounts = fuels.filter_map(|id| Some((id, amount(id)?)));
    amounts.max_by(|a, b| a.1.total_cmp(&b.1)).map(|(id, _)| id)
}

fn place(job: &Job, c: &Comparison, name: &str) -> Result<usize, Problem> {
    c.options.iter().position(|option| option.design.name == name).ok_or_else(|| {
        let names = choices(c.options.iter().map(|option| option.design.name.as_str()));
        Problem::new(format!("there is no option '{name}'")).in_file(&job.file).allowed(names)
    })
}

fn fuel_named(job: &Job, c: &Comparison, id: &str) -> Result<FuelId, Problem> {
    c.fuels.find(id).filter(|fuel| c.prices.of(*fuel).is_some()).ok_or_else(|| {
        let ids: Vec<_> = job.prices.fuels.iter().map(|(id, _)| id.value.as_str()).collect();
        let problem = Problem::new(format!("the job has no price for '{id}'")).in_file(&job.file);
        problem.allowed(ids.join(", "))
    })
}
