//! The job's `[prices]` into prices of one kWh, all problems together.
//!
//! Start at [`prices`].

use super::price_year::{FuelPrice, Prices, Spike};
use crate::fuel::{Fuel, FuelId, Fuels};
use crate::job::{FuelPriceSection, Job, PriceSection, PriceText, Typed};
use crate::problem::{Problem, Problems};

/// Builds the prices of every fuel the job names.
///
/// # Errors
/// Unknown fuels, and prices by a unit that the fuel is not sold in.
pub fn prices(job: &Job, fuels: &Fuels) -> Result<Prices, Problems> {
    let mut problems = Vec::new();
    let mut list = Vec::new();
    for (id, section) in &job.prices.fuels {
        match fuels.find(&id.value).and_then(|f| Some((f, fuels.get(f)?))) {
            Some((fuel, about)) => match fuel_price(job, fuel, about, section) {
                Ok(price) => list.push(price),
                Err(found) => problems.extend(found),
            },
            None => {
                let known: Vec<_> = fuels.iter().map(|(_, f)| f.id.as_str()).collect();
                let what = format!("there is no fuel '{}'", id.value);
                let problem = job.problem(&id.span, format!("prices.{}", id.value), what);
                problems.push(problem.allowed(known.join(", ")).help("Name one of these fuels"));
            }
        }
    }
    if problems.is_empty() { Ok(Prices(list)) } else { Err(problems) }
}

fn fuel_price(job: &Job, fuel: FuelId, about: &Fuel, s: &FuelPriceSection) -> Result<FuelPrice, Problems> {
    let key = format!("prices.{}", about.id);
    let by_month = match &s.price {
        PriceSection::Flat(price) => per_kwh(job, about, price, &key).map(|p| [p; 12]).map_err(|p| vec![p]),
        PriceSection::ByMonth(months) => {
            let mut amounts = [0.0; 12];
            let mut problems = Vec::new();
            for (slot, price) in amounts.iter_mut().zip(&months.value) {
                match per_kwh(job, about, price, &key) {
                    Ok(amount) => *slot = amount,
                    Err(problem) => problems.push(problem),
                }
            }
            if problems.is_empty() { Ok(amounts) } else { Err(problems) }
        }
    }?;
    let fixed_per_month = fixed(job, s.fixed.as_ref(), &key).map_err(|p| vec![p])?;
    let spikes = s.spike.iter().map(|spike| Spike {
        name: spike.name.value.clone(),
        first: spike.from.value,
        last: spike.to.value,
        times: spike.times.value,
    });
    let source = s.source.as_ref().map(|text| text.value.clone());
    Ok(FuelPrice { fuel, fixed_per_month, by_month, spikes: spikes.collect(), source })
}

fn per_kwh(job: &Job, fuel: &Fuel, price: &Typed<PriceText>, key: &str) -> Result<f64, Problem> {
    let per = price.value.per.as_str();
    let units = fuel.units_in(per).ok_or_else(|| {
        let what = format!("{} is not sold by the {per}", fuel.name);
        let problem = job.problem(&price.span, key, what);
        problem.allowed(format!("a price for each {}", fuel.selling_unit)).help("Give the price by that unit")
    })?;
    Ok(price.value.amount / (units * fuel.kwh_per_unit))
}

fn fixed(job: &Job, price: Option<&Typed<PriceText>>, key: &str) -> Result<f64, Problem> {
    let Some(price) = price else { return Ok(0.0) };
    match price.value.per.as_str() {
        "month" | "mo" => Ok(price.value.amount),
        "year" | "yr" => Ok(price.value.amount / 12.0),
        other => Err(job
            .problem(&price.span, format!("{key}.fixed"), format!("a fixed charge by the {other}"))
            .allowed("\"36 $/month\" or \"432 $/year\"")
            .help("Write the charge by the month or by the year")),
    }
}
