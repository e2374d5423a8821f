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
use crate::supply::contract::PricePlan;

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
        GivenWhat::Prices { fuel, heating } => {
            let name = &c.fuels.get(fuel).filter(|_| pays(c, fuel))?.name;
            Some(if heating { format!("{name} for heating") } else { name.clone() })
        }
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

/// What each fuel costs, its rate for heating too.
pub(super) fn words(c: &Comparison) -> String {
    let list = used(c).flat_map(|(fuel, price)| {
        let heating = c.prices.of_heating(price.fuel).filter(|_| heats_on_own_rate(c, price.fuel));
        let heating = heating.map(|own| format!("{} for heating {}", fuel.name, one(c, fuel, own)));
        std::iter::once(format!("{} {}", fuel.name, one(c, fuel, price))).chain(heating)
    });
    list.chain(contracts(c)).collect::<Vec<_>>().join("; ") + "."
}

/// What is paid for fuel in a store where a contract stands between it and the price of the day.
fn contracts(c: &Comparison) -> impl Iterator<Item = String> {
    let stores = c.options.iter().flat_map(|o| &o.stores).map(|result| &result.supplied.store);
    let mut told: Vec<String> = Vec::new();
    for store in stores.filter(|store| !store.contract.is_at_market()) {
        let Some(fuel) = c.fuels.get(store.fuel) else { continue };
        let price = |per_kwh: f64| unit_words::shown(&c.currency, unit_words::price(fuel, per_kwh).0);
        let plan = match store.contract.price {
            PricePlan::Market => "that price".to_owned(),
            PricePlan::Fixed(fixed) => format!("{} all year", price(fixed)),
            PricePlan::Cap(most) => format!("that price, {} at most", price(most)),
            PricePlan::PreBuy { per_kwh, .. } => {
                format!("{} for what is bought ahead, else that price", price(per_kwh))
            }
        };
        let fee = store.contract.fees.plan_per_kwh;
        let fee = if fee > 0.0 { format!(", {} on top", price(fee)) } else { String::new() };
        let words = format!("{} by the contract of \u{201c}{}\u{201d}: {plan}{fee}", fuel.name, store.name);
        if !told.contains(&words) {
            told.push(words);
        }
    }
    told.into_iter()
}

fn heats_on_own_rate(c: &Comparison, id: FuelId) -> bool {
    c.options.iter().any(|o| o.ledger.postings.iter().any(|p| p.fuel == id && p.heating_meter))
}

fn one(c: &Comparison, fuel: &Fuel, price: &FuelPrice) -> String {
    let mut words = energy(c, fuel, price);
    if price.fixed_per_month > 0.0 {
        words += &format!(" and {} a month", unit_words::whole(&c.currency, price.fixed_per_month));
    }
    let on_top = [
        (price.demand_per_kw != 0.0, "a demand charge"),
        (!price.riders.is_empty(), "charges by kWh or percent"),
        (price.tax != 0.0, "tax"),
    ];
    let on_top: Vec<&str> = on_top.into_iter().filter(|(there, _)| *there).map(|(_, word)| word).collect();
    if !on_top.is_empty() {
        words += &format!(", {} on top", on_top.join(" and "));
    }
    for spike in &price.spikes {
        let times = grouped(spike.times, decimals(spike.times));
        words += &format!(", {times} times that {}", when(spike.first, spike.last));
    }
    words
}

/// The least and the greatest price of energy, with what the year's use of the options adds.
fn energy(c: &Comparison, fuel: &Fuel, price: &FuelPrice) -> String {
    let used = c.options.iter().map(|o| o.ledger.quantity(price.fuel)).filter(|quantity| *quantity > 0.0);
    let added = || used.clone().map(|quantity| price.add_per_kwh(quantity * fuel.kwh_per_unit));
    let least = added().reduce(f64::min).unwrap_or_default();
    let most = added().reduce(f64::max).unwrap_or_default();
    let low = price.tier_prices().fold(f64::INFINITY, f64::min) + least;
    let high = price.tier_prices().fold(0.0, f64::max) + most;
    let shown = |per_kwh: f64| unit_words::shown(&c.currency, unit_words::price(fuel, per_kwh).0);
    match low >= high {
        true => format!("{} a {}", shown(high), fuel.unit_word()),
        false => {
            let by = [
                (!price.is_by_day(), "time of day"),
                (price.rates.iter().any(|rate| rate.days.is_some()), "time of year"),
                (price.has_tiers() || !price.by_yearly_use.is_empty(), "use"),
            ];
            let by: Vec<&str> = by.into_iter().filter(|(holds, _)| *holds).map(|(_, by)| by).collect();
            let by = if by.is_empty() { "use".to_owned() } else { by.join(" and ") };
            format!("{} to {} a {} by {by}", shown(low), shown(high), fuel.unit_word())
        }
    }
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
