//! Words for the lines of bills and for remarks on prices.
//!
//! Start at [`line()`].

use super::figures::grouped;
use super::supply_words;
use crate::comparison::Comparison;
use crate::comparison::note::PriceNote;
use crate::ledger::{Posting, Reason};
use crate::prices::{FuelPrice, RiderCharge};

/// A remark on prices in words.
pub fn price_note(note: &PriceNote) -> String {
    match note {
        PriceNote::Interrupted { machine, hours } => format!(
            "{machine}: switched off by the interruptible heating rate in {} hours; whatever comes after it \
             carries them.",
            grouped(*hours as f64, 0)
        ),
        PriceNote::YearlyUseOfThisYear { fuel } => format!(
            "What the price of {fuel} adds by yearly use is taken at this year's own use, as if the year \
             before had been the same."
        ),
        PriceNote::HeatAloneOnTiers => {
            "The price of electricity depends on all that the house uses in a month, but the job does not say \
             what the house uses beside heating: heat is charged as if it were alone. Give [household] \
             base_electricity."
                .into()
        }
        PriceNote::Source { fuel, heating, source } => {
            let heating = if *heating { " (heating)" } else { "" };
            let unsaid = "the job does not say where it comes from (bill, quote or guess)";
            format!("Price of {fuel}{heating}: {}.", source.as_deref().unwrap_or(unsaid))
        }
    }
}

/// The bill and the line of it in one.
pub fn full_name(c: &Comparison, p: &Posting) -> String {
    format!("{}: {}", bill(c, p), line(c, p))
}

/// The bill that a posting is on.
pub fn bill(c: &Comparison, p: &Posting) -> String {
    let fuel = c.fuels.get(p.fuel).map_or("", |f| &f.name);
    if p.heating_meter { format!("{fuel} (heating)") } else { fuel.to_owned() }
}

/// The meter of a posting, as files name it.
pub fn meter(p: &Posting) -> &'static str {
    if p.heating_meter { "heating" } else { "main" }
}

/// The price that a posting is charged by.
fn price<'a>(c: &'a Comparison, p: &Posting) -> Option<&'a FuelPrice> {
    if p.heating_meter { c.prices.of_heating(p.fuel) } else { c.prices.of(p.fuel) }
}

/// Why a posting is there, as a line of a bill.
pub fn line(c: &Comparison, p: &Posting) -> String {
    match p.reason {
        Reason::FixedCharge => "fixed charge".into(),
        Reason::Rent => "rent of the tank".into(),
        Reason::Energy { rate, tier, spike } => energy(c, p, (rate, tier), spike),
        Reason::YearlyUse => "added by the year's use".into(),
        Reason::Demand => "largest hour of the month".into(),
        Reason::Rider(place) => {
            price(c, p).and_then(|price| price.riders.get(place)).map_or_else(String::new, |r| r.name.clone())
        }
        Reason::Tax => "tax".into(),
        Reason::Store(charge) => supply_words::charge(charge),
    }
}

fn energy(c: &Comparison, p: &Posting, (rate, tier): (usize, usize), spike: f64) -> String {
    let rate = price(c, p).and_then(|price| price.rates.get(rate));
    let mut words = rate.and_then(|r| r.name.clone()).unwrap_or_else(|| "used".into());
    if let (Some(rate), Some(fuel)) = (rate, c.fuels.get(p.fuel))
        && rate.tiers.len() > 1
    {
        let limit = |place: usize| rate.tiers.get(place).map_or(0.0, |t| t.up_to_kwh / fuel.kwh_per_unit);
        let shown = |value: f64| grouped(value, 0);
        let unit = &fuel.selling_unit;
        let (from, to) = (tier.checked_sub(1).map_or(0.0, limit), limit(tier));
        words += &match to.is_finite() {
            true => format!(", tier {}: {} to {} {unit}", tier + 1, shown(from), shown(to)),
            false => format!(", tier {}: above {} {unit}", tier + 1, shown(from)),
        };
    }
    if spike != 1.0 {
        words += &format!(", on days with the price times {spike}");
    }
    words
}

/// The unit of a posting's quantity: the currency where its price is a share of an amount.
pub fn unit(c: &Comparison, p: &Posting) -> String {
    let selling = || c.fuels.get(p.fuel).map_or_else(String::new, |f| f.selling_unit.clone());
    match p.reason {
        Reason::FixedCharge | Reason::Rent => "month".into(),
        Reason::Energy { .. } | Reason::YearlyUse => selling(),
        Reason::Demand => "kW".into(),
        Reason::Tax => c.currency.clone(),
        Reason::Store(charge) if charge.is_fuel() => selling(),
        Reason::Store(charge) => supply_words::unit(charge).into(),
        Reason::Rider(place) => match price(c, p).and_then(|price| price.riders.get(place)).map(|r| r.charge)
        {
            Some(RiderCharge::Share(_)) => c.currency.clone(),
            _ => selling(),
        },
    }
}
