//! The prices of page one: who gave them, and what they are.
//!
//! Start at [`givers`] and [`words`].

use super::unit_words;
use crate::calendar::MonthDay;
use crate::comparison::{Comparison, GivenWhat};
use crate::fuel::{Fuel, FuelId};
use crate::prices::FuelPrice;
use crate::report::figures::grouped;
use crate::report::given::how;
use crate::report::supply_words::date;

/// Who gave each price: a bill, a quote, a guess, as the job says.
pub(super) fn givers(c: &Comparison) -> String {
    let mut groups: Vec<(String, Vec<String>)> = Vec::new();
    for given in &c.given {
        let Some(what) = short(c, given.what) else { continue };
        let source = match (given.how, &given.source) {
            (Some(_), Some(source)) => format!("{} ({source})", how(given.how)),
            (None, Some(source)) => source.clone(),
            (_, None) => how(given.how).to_owned(),
        };
        match groups.iter_mut().find(|(known, _)| *known == source) {
            Some((_, list)) if list.contains(&what) => {}
            Some((_, list)) => list.push(what),
            None => groups.push((source, vec![what])),
        }
    }
    let groups = groups.into_iter().map(|(source, what)| format!("{}: {source}", what.join(", ")));
    groups.collect::<Vec<_>>().join("; ")
}

/// What a price or cost is of, in a word; nothing for a fuel that no option pays for.
fn short(c: &Comparison, what: GivenWhat) -> Option<String> {
    match what {
        GivenWhat::Prices { fuel, .. } => pays(c, fuel).then(|| c.fuels.get(fuel).map(|f| f.name.clone()))?,
        GivenWhat::Parts { .. } => Some("installing".into()),
        GivenWhat::Incentives { .. } => Some("incentives".into()),
    }
}

fn pays(c: &Comparison, id: FuelId) -> bool {
    c.options.iter().any(|o| o.ledger.quantity(id) != 0.0)
}

/// The fuels that some option pays for, with their prices.
pub(super) fn used(c: &Comparison) -> impl Iterator<Item = (&Fuel, &FuelPrice)> {
    c.fuels.iter().filter(|(id, _)| pays(c, *id)).filter_map(|(id, fuel)| Some((fuel, c.prices.of(id)?)))
}

/// What each fuel costs.
pub(super) fn words(c: &Comparison) -> String {
    let one = |(fuel, price): (&Fuel, &FuelPrice)| {
        let list = || price.tier_prices().map(|per_kwh| unit_words::price(fuel, per_kwh));
        let unit = list().next().map_or("unit", |(_, unit)| unit);
        let low = list().map(|(p, _)| p).fold(f64::INFINITY, f64::min);
        let high = list().map(|(p, _)| p).fold(0.0, f64::max);
        let shown = |p: f64| unit_words::shown(&c.currency, p);
        let mut words = match low >= high {
            true => format!("{} {} a {unit}", fuel.name, shown(high)),
            false => {
                format!("{} {} to {} a {unit} by time of year or use", fuel.name, shown(low), shown(high))
            }
        };
        if price.fixed_per_month > 0.0 {
            words += &format!(" and {} a month", unit_words::whole(&c.currency, price.fixed_per_month));
        }
        for spike in &price.spikes {
            words += &format!(
                ", {} times that {}",
                grouped(spike.times, decimals(spike.times)),
                when(spike.first, spike.last)
            );
        }
        words
    };
    used(c).map(one).collect::<Vec<_>>().join("; ") + "."
}

fn decimals(times: f64) -> usize {
    if (times - times.round()).abs() < 1e-9 { 0 } else { 2 }
}

fn when(first: MonthDay, last: MonthDay) -> String {
    match (first, last) == (MonthDay::FIRST, MonthDay::LAST) {
        true => "all year".into(),
        false => format!("from {} to {}", date(first), date(last)),
    }
}
