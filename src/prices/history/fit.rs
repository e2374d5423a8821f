//! A price history into season, volatility, level and spikes, each with what the data leave open.
//!
//! `ln P = season + level + spike + rounding`. What months without prices, few winters and rare spikes
//! cannot say is left for the job to say. Start at [`fit`].

use super::regress::{Regressed, Row, regress, regress_at};
use super::spikes::{FoundSpike, found, left_of_spike, shows_them};
use super::{LogPoint, LogWinter, PriceHistory};
use crate::weather::statistics::percentile;
use statrs::distribution::{ChiSquared, ContinuousCDF, StudentsT};

/// Fewer winters than this are not fitted.
pub const LEAST_WINTERS: usize = 8;
/// A logarithm that moves less does not move.
const LEAST_SPREAD: f64 = 1e-9;
/// Season out, spikes out, and again: a step of the season at the turn of a month is no spike.
const PASSES: usize = 2;

/// A number and where it lies with 90 %.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate {
    /// The number.
    pub value: f64,
    /// The lower end.
    pub low: f64,
    /// The upper end.
    pub high: f64,
}

/// What is asked of the job, since no history tells it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Asked {
    /// Within these years half of a departure is gone.
    pub half_life_years: (f64, f64),
    /// Weeks in which half of a spike is gone.
    pub spike_half_life_weeks: f64,
}

/// What the slow level does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Level {
    /// Years in which half of a departure is gone.
    pub half_life_years: f64,
    /// Where it comes to rest, as logarithm of the price on the mean of the months.
    pub mean: f64,
    /// Standard deviation at rest.
    pub spread: f64,
}

impl Level {
    /// Standard deviation of the logarithm's change in a year, were there nothing to bring it back.
    pub fn volatility(&self) -> f64 {
        self.spread * (2.0 * std::f64::consts::LN_2 / self.half_life_years).sqrt()
    }
}

/// A fitted history.
#[derive(Debug, Clone, PartialEq)]
pub struct Fit {
    /// Winters that it is fitted to.
    pub winters: usize,
    /// Of each month of the winter: the logarithm of its price over the mean of all of them; nothing for a
    /// month that fewer than [`LEAST_WINTERS`] winters have.
    pub season: [Option<Estimate>; 6],
    /// Standard deviation of the logarithm's change in a year, were there nothing to bring it back.
    pub volatility: Estimate,
    /// The level.
    pub level: Level,
    /// The level on the last day, as departure from where it rests.
    pub last_departure: f64,
    /// Of these, winters whose prices follow each other closely enough to show a spike.
    pub watched: usize,
    /// Spikes that were found; nothing where monthly means, or prices too far apart, hide them.
    pub spikes: Option<Vec<FoundSpike>>,
}

impl Fit {
    /// Mean size of the spikes that were found.
    pub fn spike_size(&self) -> Option<f64> {
        let spikes = self.spikes.as_ref().filter(|spikes| !spikes.is_empty())?;
        Some(spikes.iter().map(|spike| spike.size).sum::<f64>() / spikes.len() as f64)
    }
}

/// Why a history is not fitted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoFit {
    /// So many winters are too few: prices of so few say nothing about the next.
    FewWinters(usize),
    /// Prices that cannot tell months and spikes apart, such as the same price everywhere.
    NothingMoves,
}

/// Fits a history, deflated already.
///
/// # Errors
/// Fewer than [`LEAST_WINTERS`] winters with every month that counts; prices that do not move.
pub fn fit(history: &PriceHistory, asked: Asked) -> Result<Fit, NoFit> {
    let mut winters = history.winters();
    let months = observed(&winters);
    for winter in &mut winters {
        winter.points.retain(|point| months.contains(&point.month));
    }
    winters.retain(|winter| months.iter().all(|month| winter.points.iter().any(|p| p.month == *month)));
    if months.is_empty() || winters.len() < LEAST_WINTERS {
        return Err(NoFit::FewWinters(winters.len()));
    }
    fit_winters(history, asked, &winters, &months).ok_or(NoFit::NothingMoves)
}

/// Winters that are not fitted, by the year in which they began, with the places of the months that they lack.
pub fn left_out(history: &PriceHistory) -> Vec<(i32, Vec<usize>)> {
    let winters = history.winters();
    let months = observed(&winters);
    let lacks = |winter: &LogWinter| {
        let has = |month: &usize| winter.points.iter().any(|point| point.month == *month);
        let lacking: Vec<usize> = months.iter().copied().filter(|month| !has(month)).collect();
        (!lacking.is_empty()).then_some((winter.first_year, lacking))
    };
    winters.iter().filter_map(lacks).collect()
}

fn fit_winters(history: &PriceHistory, asked: Asked, winters: &[LogWinter], months: &[usize]) -> Option<Fit> {
    let mut spikes: Option<Vec<FoundSpike>> = None;
    let watched = if history.monthly_means { 0 } else { winters.iter().filter(|w| shows_them(w)).count() };
    if watched > 0 {
        let middle = (asked.half_life_years.0 * asked.half_life_years.1).sqrt();
        let mut flat = winters.to_vec();
        for _ in 0..PASSES {
            let out = found(&flat, asked.spike_half_life_weeks);
            let rough = regress_at(&rows(winters, months, &out, asked, history), middle)?;
            flat = without_season(winters, months, &rough);
        }
        spikes = Some(found(&flat, asked.spike_half_life_weeks));
    }
    let out = spikes.as_deref().unwrap_or_default();
    let rows = rows(winters, months, out, asked, history);
    let regressed = regress(&rows, asked.half_life_years)?;
    let sized =
        |(i, spike): (usize, &FoundSpike)| FoundSpike { size: regressed.effect(months.len() + i), ..*spike };
    let spikes = spikes.as_ref().map(|found| found.iter().enumerate().map(sized).collect());
    let fit = told(history, &regressed, &rows, months)?;
    Some(Fit { winters: winters.len(), watched, spikes, ..fit })
}

/// All but the counts of winters and the spikes.
fn told(history: &PriceHistory, regressed: &Regressed, rows: &[Row], months: &[usize]) -> Option<Fit> {
    let share = 1.0 / months.len() as f64;
    let mean = regressed.weighted(&vec![share; months.len()]).0;
    let t = StudentsT::new(0.0, 1.0, regressed.freedom).ok()?.inverse_cdf(0.95);
    let season = std::array::from_fn(|month| {
        let own = months.iter().position(|observed| *observed == month)?;
        let weights: Vec<f64> = (0..months.len()).map(|i| f64::from(u8::from(i == own)) - share).collect();
        let (value, error) = regressed.weighted(&weights);
        Some(Estimate { value, low: value - t * error, high: value + t * error })
    });
    let spread = (regressed.spread.powi(2) - rounding(history)? * regressed.of_rounding).max(0.0).sqrt();
    if spread < LEAST_SPREAD {
        return None;
    }
    let level = Level { half_life_years: regressed.half_life_years, mean, spread };
    let volatility = of_variance(level.volatility(), regressed.freedom)?;
    let of_effects = |row: &Row| regressed.weighted(&row.effects).0;
    let last_departure = rows.last().map(|row| row.log - of_effects(row)).unwrap_or_default();
    Some(Fit { winters: 0, watched: 0, season, volatility, level, last_departure, spikes: None })
}

/// The variance that rounding gives to the logarithm of a price: a uniform error of a step wide.
fn rounding(history: &PriceHistory) -> Option<f64> {
    let prices: Vec<f64> = history.points.iter().map(|point| point.price).collect();
    Some((history.rounded_to / percentile(&prices, 0.5)?).powi(2) / 12.0)
}

/// A standard deviation by its degrees of freedom: chi-squared.
fn of_variance(value: f64, freedom: f64) -> Option<Estimate> {
    let chi = ChiSquared::new(freedom).ok()?;
    let at = |share: f64| value * (freedom / chi.inverse_cdf(share)).sqrt();
    Some(Estimate { value, low: at(0.95), high: at(0.05) })
}

/// Places of the months that enough winters have.
fn observed(winters: &[LogWinter]) -> Vec<usize> {
    let has = |winter: &&LogWinter, month: usize| winter.points.iter().any(|point| point.month == month);
    (0..6).filter(|month| winters.iter().filter(|w| has(w, *month)).count() >= LEAST_WINTERS).collect()
}

/// A row for each price: its month, then each spike.
fn rows(
    winters: &[LogWinter],
    months: &[usize],
    spikes: &[FoundSpike],
    asked: Asked,
    history: &PriceHistory,
) -> Vec<Row> {
    let over_years = if history.monthly_means { 1.0 / 12.0 } else { 0.0 };
    let row = |first_year: i32, point: &LogPoint| {
        let of_spike = |spike: &FoundSpike| match spike.first_year == first_year {
            true => left_of_spike(point.years - spike.years, asked.spike_half_life_weeks),
            false => 0.0,
        };
        let month = months.iter().map(|month| f64::from(u8::from(*month == point.month)));
        let effects = month.chain(spikes.iter().map(of_spike)).collect();
        Row { years: point.years, over_years, log: point.log, effects }
    };
    winters.iter().flat_map(|winter| winter.points.iter().map(move |p| row(winter.first_year, p))).collect()
}

fn without_season(winters: &[LogWinter], months: &[usize], regressed: &Regressed) -> Vec<LogWinter> {
    let mut flat = winters.to_vec();
    for point in flat.iter_mut().flat_map(|winter| &mut winter.points) {
        let place = months.iter().position(|month| *month == point.month);
        point.log -= place.map_or(0.0, |place| regressed.effect(place));
    }
    flat
}
