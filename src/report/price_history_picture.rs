//! A price history and its fit into the plain values that a chart draws.
//!
//! Start at [`chart`].

use super::charts::{HistoryChart, PriceRange};
use super::figures::MONTHS;
use crate::prices::history::examined::Examined;
use crate::prices::history::{MONTHS as WINTER_MONTHS, PricePoint};
use chrono::{Datelike, NaiveDate};

/// Standard deviations between which 90 % of a normal distribution lies.
const NINETY: f64 = 1.645;

/// No line is drawn across more days than these without prices: first Mondays are five weeks apart at most.
const HOLE_DAYS: i64 = 35;

/// The chart of a history that is called `name`.
pub fn chart(e: &Examined, name: &str) -> HistoryChart {
    let first = e.history.points.first().map(|point| point.date);
    let start = first.map_or(0.0, year_of);
    let at_rest = |middle: f64, half: f64| PriceRange {
        low: (middle - half).exp(),
        middle: middle.exp(),
        high: (middle + half).exp(),
    };
    let level = e.fit.level;
    let season = WINTER_MONTHS.iter().zip(&e.fit.season).filter_map(|(month, season)| {
        let name = MONTHS.get(*month as usize - 1).copied()?.to_owned();
        let season = (*season)?;
        let price = |log: f64| (level.mean + log).exp();
        let range =
            PriceRange { low: price(season.low), middle: price(season.value), high: price(season.high) };
        Some((name, range))
    });
    let spikes = e.fit.spikes.iter().flatten().filter_map(|spike| {
        let time = start + spike.years;
        let near = |point: &&PricePoint| (year_of(point.date) - time).abs();
        let point = e.history.points.iter().min_by(|a, b| near(a).total_cmp(&near(b)))?;
        Some((year_of(point.date), point.price))
    });
    let weeks = e.weeks_ahead().into_iter();
    let dates = e.ahead.dates.iter().enumerate();
    let month_begins = dates.filter(|(week, date)| {
        let before = week.checked_sub(1).and_then(|before| e.ahead.dates.get(before));
        before.is_none_or(|before| before.month() != date.month())
    });
    let month_name =
        |date: &NaiveDate| MONTHS.get(date.month0() as usize).copied().unwrap_or_default().to_owned();
    HistoryChart {
        title: format!("Prices of past winters: {name}"),
        subtitle: format!(
            "{} winters; what could follow is drawn from the model fitted to them",
            e.fit.winters
        ),
        unit: e.history.unit.clone(),
        winters: winters(e),
        rest: at_rest(level.mean, NINETY * level.spread),
        spikes: spikes.collect(),
        season: season.collect(),
        ahead: weeks.map(|[low, middle, high]| PriceRange { low, middle, high }).collect(),
        ahead_months: month_begins
            .filter(|(_, date)| WINTER_MONTHS.contains(&date.month()))
            .map(|(week, date)| (week, month_name(date)))
            .collect(),
        foot: "A model of the past is no forecast. Summers are not in these prices and not in the model."
            .into(),
    }
}

fn year_of(date: NaiveDate) -> f64 {
    f64::from(date.year()) + f64::from(date.ordinal0()) / 365.25
}

fn winters(e: &Examined) -> Vec<Vec<(f64, f64)>> {
    let winter = |date: NaiveDate| date.year() - i32::from(date.month() < 7);
    let in_winter = e.history.points.iter().filter(|point| WINTER_MONTHS.contains(&point.date.month()));
    let points: Vec<&PricePoint> = in_winter.collect();
    let line = |a: &&PricePoint, b: &&PricePoint| {
        winter(a.date) == winter(b.date) && (b.date - a.date).num_days() <= HOLE_DAYS
    };
    let drawn = |line: &[&PricePoint]| line.iter().map(|point| (year_of(point.date), point.price)).collect();
    points.chunk_by(line).map(drawn).collect()
}
