//! Words for prices and lines.
//!
//! Start at [`price_of`].

use crate::calendar::MonthDay;
use crate::comparison::Comparison;
use crate::fuel::FuelId;
use crate::prices::{FuelPrice, Rate, RiderCharge};
use crate::report::money::capital;
use crate::report::supply_words;
use crate::report::wording::{self, MONTHS};
use crate::study::price_lines::{Line, LineOf, PriceOf, Priced};

/// A fuel and its meter.
pub(super) fn fuel(c: &Comparison, id: FuelId, heating_meter: bool) -> String {
    let name = capital(c.fuels.get(id).map_or("", |fuel| &fuel.name));
    if heating_meter { format!("{name} (heating)") } else { name }
}

fn selling_unit(c: &Comparison, id: FuelId) -> &str {
    c.fuels.get(id).map_or("", |fuel| &fuel.selling_unit)
}

fn of<'a>(c: &'a Comparison, priced: &Priced) -> Option<&'a FuelPrice> {
    if priced.heating_meter { c.prices.of_heating(priced.fuel) } else { c.prices.of(priced.fuel) }
}

/// What a price is of.
pub(super) fn price_of(c: &Comparison, priced: &Priced) -> String {
    let price = of(c, priced);
    match priced.of {
        PriceOf::Fixed => Some("fixed charge".into()),
        PriceOf::Rent => Some("rent of the tank".into()),
        PriceOf::Rate(place) => price.and_then(|price| price.rates.get(place)).map(rate),
        PriceOf::Spike(place) => price.and_then(|price| price.spikes.get(place)).map(|spike| {
            let date = supply_words::date;
            format!("{}, {} to {}", spike.name, date(spike.first), date(spike.last))
        }),
        PriceOf::Rider(place) => price.and_then(|price| price.riders.get(place)).map(|r| r.name.clone()),
        PriceOf::Tax => Some("tax".into()),
    }
    .unwrap_or_default()
}

fn rate(rate: &Rate) -> String {
    let tiers = if rate.tiers.len() > 1 { ", first tier" } else { "" };
    let named = match (&rate.name, rate.days) {
        (Some(name), _) => name.clone(),
        (None, Some((first, last))) => days(first, last),
        (None, None) => "energy".into(),
    };
    named + tiers
}

fn days(first: MonthDay, last: MonthDay) -> String {
    let month = MONTHS.get(usize::from(first.month).wrapping_sub(1)).copied().unwrap_or_default();
    match (first.month == last.month, first.day, last.day) {
        (true, 1, 31) => month.to_owned(),
        _ => format!("{} to {}", supply_words::date(first), supply_words::date(last)),
    }
}

/// The unit of a price.
pub(super) fn price_unit(c: &Comparison, priced: &Priced) -> String {
    let by_unit = || format!("{}/{}", c.currency, selling_unit(c, priced.fuel));
    match priced.of {
        PriceOf::Fixed | PriceOf::Rent => format!("{}/month", c.currency),
        PriceOf::Rate(_) => by_unit(),
        PriceOf::Spike(_) => "times the price".into(),
        PriceOf::Rider(_) if is_share(c, priced) => "of the energy's cost".into(),
        PriceOf::Rider(_) => by_unit(),
        PriceOf::Tax => "of all on the bill".into(),
    }
}

/// Whether a price is a share.
pub(super) fn is_share(c: &Comparison, priced: &Priced) -> bool {
    match priced.of {
        PriceOf::Tax => true,
        PriceOf::Rider(place) => {
            let rider = of(c, priced).and_then(|price| price.riders.get(place));
            rider.is_some_and(|rider| matches!(rider.charge, RiderCharge::Share(_)))
        }
        _ => false,
    }
}

/// Who says so: bill, quote or guess.
pub(super) fn said_by(c: &Comparison, priced: &Priced) -> String {
    of(c, priced).and_then(|price| price.source.clone()).unwrap_or_else(|| "not said in the job".into())
}

/// What a line is for.
pub(super) fn line_for(line: &Line) -> &'static str {
    match line.what {
        LineOf::Due(end_use) | LineOf::Energy(end_use) => wording::end_use(end_use),
        LineOf::FromStore => "all uses, from the tank",
        LineOf::Rider | LineOf::RiderShare => "charge on energy",
        LineOf::Tax => "tax",
        LineOf::StoreFees => "fees and rent of the tank",
    }
}

/// The unit of a line's quantity.
pub(super) fn line_unit<'a>(c: &'a Comparison, line: &Line) -> &'a str {
    match line.what {
        LineOf::Due(_) => "months",
        LineOf::Energy(_) | LineOf::FromStore | LineOf::Rider => selling_unit(c, line.fuel),
        LineOf::RiderShare | LineOf::Tax | LineOf::StoreFees => &c.currency,
    }
}

/// Why an option follows no price.
pub(super) fn no_longer(why: crate::study::levers::WhyOff) -> String {
    format!("follows no price here: {}", crate::report::levers::why_off(why))
}
