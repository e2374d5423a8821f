//! Two prices at once: over a field of both, which of two options costs less and by how much, with the
//! prices of today, of scenarios and of past winters in it.
//!
//! Start at [`price_map`].

use super::scenarios::ScenarioTable;
use super::tipping::{FACTORS, Tipping, mean_price, price_paid};
use super::two_options::TwoOptions;
use crate::comparison::{Comparison, Outcome};
use crate::fuel::FuelId;
use crate::job::Job;
use crate::problem::Problems;
use crate::weather::Weather;

/// Points a side where a cost is a sum, and where each has to be worked out.
const POINTS: (usize, usize) = (41, 17);
/// A field shows prices to at least so many times today's, and no further than so many.
const REACH: (f64, f64) = (2.2, 6.0);
/// A mark this close to today's prices is today's, as a share.
const TODAY: f64 = 0.005;

/// Which of two options costs less over a field of two prices.
#[derive(Debug, Clone, PartialEq)]
pub struct PriceMap {
    /// The two options' places.
    pub options: [usize; 2],
    /// The fuels of the two prices: across, and up.
    pub fuels: [FuelId; 2],
    /// Prices of a selling unit across, in the job's currency, rising.
    pub across: Vec<f64>,
    /// The same up.
    pub up: Vec<f64>,
    /// How much more the first option costs a year, a row for each price up, a column for each across.
    pub costs_more: Vec<Vec<f64>>,
    /// Prices with a name, today's first.
    pub marks: Vec<MapMark>,
}

/// Two prices with a name.
#[derive(Debug, Clone, PartialEq)]
pub struct MapMark {
    /// A scenario's or a past winter's name; nothing for today's prices.
    pub name: Option<String>,
    /// The price across and the price up.
    pub at: [f64; 2],
}

/// Works the field out; nothing where the two differ by no fuel beside electricity. `scenarios` are those
/// of the job.
///
/// # Errors
/// Everything a job can be refused for.
pub fn price_map(
    job: &Job,
    weather: &Weather,
    c: &Comparison,
    tipping: &Tipping,
    scenarios: &ScenarioTable,
) -> Result<Option<PriceMap>, Problems> {
    let [one, other] = tipping.prices.as_slice() else { return Ok(None) };
    let (fuels, today) = ([one.fuel, other.fuel], [one.today, other.today]);
    if today.iter().any(|price| !price.is_finite() || *price <= 0.0) {
        return Ok(None);
    }
    let marks = marks((job, c), tipping.options, fuels, today, scenarios);
    let two = TwoOptions::new(job, weather, c, tipping.options);
    let points = if two.are_sums() { POINTS.0 } else { POINTS.1 };
    let axis = |i: usize| {
        let found = tipping.prices.get(i).into_iter().flat_map(|price| &price.found);
        let wanted = found.map(|found| 1.25 * found.span().1);
        let marked = marks.iter().filter_map(|mark| Some(1.1 * mark.at.get(i)? / today.get(i)?));
        let reach = wanted.filter(|w| *w <= REACH.1).chain(marked).fold(REACH.0, f64::max).min(FACTORS.1);
        let step = (reach - FACTORS.0) / (points - 1) as f64;
        (0..points).map(|i| FACTORS.0 + step * i as f64).collect::<Vec<f64>>()
    };
    let (across, up) = (axis(0), axis(1));
    let row = |y: &f64| {
        let cell = |x: &f64| two.costs(&[(fuels[0], *x), (fuels[1], *y)]).map(|[a, b]| a - b);
        across.iter().map(cell).collect::<Result<Vec<f64>, Problems>>()
    };
    let costs_more = up.iter().map(row).collect::<Result<_, _>>()?;
    let prices = |factors: &[f64], today: f64| factors.iter().map(|factor| factor * today).collect();
    Ok(Some(PriceMap {
        options: tipping.options,
        fuels,
        across: prices(&across, today[0]),
        up: prices(&up, today[1]),
        costs_more,
        marks,
    }))
}

/// Today's prices, and those of each scenario that moves them.
fn marks(
    (job, c): (&Job, &Comparison),
    options: [usize; 2],
    fuels: [FuelId; 2],
    today: [f64; 2],
    scenarios: &ScenarioTable,
) -> Vec<MapMark> {
    let burner = |fuel: FuelId| {
        let uses = |i: &usize| c.options.get(*i).map_or(0.0, |option| option.ledger.quantity(fuel));
        options.into_iter().max_by(|a, b| uses(a).total_cmp(&uses(b)))
    };
    let paid = |options: &[Outcome], fuel| {
        let option = options.get(burner(fuel)?)?;
        price_paid(c, &option.ledger, &option.stored, fuel)
    };
    let mut marks = vec![MapMark { name: None, at: today }];
    for row in
        scenarios.rows.iter().filter(|row| row.name.as_ref().is_some_and(|name| moves_prices(job, name)))
    {
        let now = fuels.map(|fuel| mean_price(c, options, fuel));
        let [Some(x), Some(y)] = fuels.map(|fuel| paid(&row.found.options, fuel)) else { continue };
        let moved = |price: f64, now: Option<f64>| now.is_none_or(|now| (price / now - 1.0).abs() > TODAY);
        if moved(x, now[0]) || moved(y, now[1]) {
            marks.push(MapMark { name: row.name.clone(), at: [x, y] });
        }
    }
    marks.extend(past(c, fuels, today));
    marks
}

/// Whether a scenario sets prices; what is none of the job's own is a stress of prices.
fn moves_prices(job: &Job, name: &str) -> bool {
    let own = job.scenarios.iter().find(|scenario| scenario.name.value == name);
    own.is_none_or(|own| {
        !own.price.is_empty() || own.set.iter().any(|entry| entry.value.trim_start().starts_with("prices."))
    })
}

/// The winters gone by of which the job tells a price of one of the two fuels; the other's is today's where
/// it tells none.
fn past(c: &Comparison, fuels: [FuelId; 2], today: [f64; 2]) -> Vec<MapMark> {
    let told = fuels.map(|fuel| c.prices.of(fuel).map_or(&[][..], |price| &price.past));
    let mut marks: Vec<MapMark> = Vec::new();
    for (axis, (fuel, list)) in fuels.into_iter().zip(told).enumerate() {
        let unit = c.fuels.get(fuel).map_or(1.0, |fuel| fuel.kwh_per_unit);
        for (name, per_kwh) in list {
            let there = marks.iter().position(|mark| mark.name.as_ref() == Some(name));
            let place = there.unwrap_or_else(|| {
                marks.push(MapMark { name: Some(name.clone()), at: today });
                marks.len() - 1
            });
            if let Some(at) = marks.get_mut(place).and_then(|mark| mark.at.get_mut(axis)) {
                *at = per_kwh * unit;
            }
        }
    }
    marks
}
