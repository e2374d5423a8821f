//! The winter after a history, drawn many times: parameters are drawn with it, not the path alone.
//!
//! Says nothing about summers. Start at [`winters_ahead`].

use super::PriceHistory;
use super::fit::{Asked, Fit};
use super::spikes::left_of_spike;
use crate::chance::Chance;
use crate::prices::moves::{LevelSize, LevelStep, probability};
use chrono::{Datelike, Days, NaiveDate};

/// Weeks from 1 October to the end of March.
pub const WEEKS: usize = 26;
/// The week in which December begins, and the weeks in which a spike may begin.
const SPIKE_WEEKS: (f64, f64) = (9.0, 13.0);

/// Drawn winters of one price.
#[derive(Debug, Clone, PartialEq)]
pub struct WintersAhead {
    /// A day of each week; its month is that of the season.
    pub dates: Vec<NaiveDate>,
    /// Each winter's prices, one a week, in money of the history's last day.
    pub paths: Vec<Vec<f64>>,
}

/// So many winters after the history's last day, beginning at the level of that day. Season, resting level
/// and volatility are those of one of `again` each time, the half-life is anything within the bounds asked
/// for, the probability of a spike anything that the count allows.
pub fn winters_ahead(
    history: &PriceHistory,
    fitted: &Fit,
    again: &[Fit],
    asked: Asked,
    (count, seed): (u64, u64),
) -> Option<WintersAhead> {
    let last = history.points.last()?.date;
    let year = last.year() + i32::from(last.month() >= 10);
    let first = NaiveDate::from_ymd_opt(year, 10, 1)?;
    let dates: Vec<NaiveDate> =
        (0..WEEKS as u64).filter_map(|week| first.checked_add_days(Days::new(7 * week))).collect();
    let years = (first - last).num_days() as f64 / 365.25;
    let path = |draw: u64| {
        let of = again.get((draw % again.len().max(1) as u64) as usize).unwrap_or(fitted);
        drawn(of, fitted, asked, (&dates, years), &mut Chance::keyed(seed, draw, 3, 0))
    };
    Some(WintersAhead { paths: (0..count).map(path).collect(), dates })
}

fn drawn(
    of: &Fit,
    fitted: &Fit,
    asked: Asked,
    (dates, until_first): (&[NaiveDate], f64),
    chance: &mut Chance,
) -> Vec<f64> {
    let (low, high) = asked.half_life_years;
    let half_life = low * (high / low).powf(chance.share());
    // The volatility is what the data know; the spread at rest goes with the half-life.
    let spread = LevelSize::InAYear(of.volatility.value).at_rest(half_life);
    let found = fitted.spikes.as_ref().map_or(0, Vec::len) as f64;
    let comes = chance.share() < probability((found, fitted.watched as f64), chance.share());
    let size = -of.spike_size().or(fitted.spike_size()).unwrap_or_default() * chance.share().ln();
    let began = SPIKE_WEEKS.0 + SPIKE_WEEKS.1 * chance.share();
    let mut level = fitted.last_departure;
    let mut years = until_first;
    let mut prices = Vec::with_capacity(dates.len());
    for (week, date) in dates.iter().enumerate() {
        level = LevelStep::new(half_life, years, spread).next(level, chance.normal());
        years = 7.0 / 365.25;
        let month = super::MONTHS.iter().position(|month| *month == date.month());
        let season = month.and_then(|month| *of.season.get(month)?).map_or(0.0, |month| month.value);
        let since = (week as f64 - began) * 7.0 / 365.25;
        let spike = if comes { size * left_of_spike(since, asked.spike_half_life_weeks) } else { 0.0 };
        prices.push((of.level.mean + season + level + spike).exp());
    }
    prices
}
