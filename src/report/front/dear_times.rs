//! Page one: the dearest month, a winter of bad prices, and what is paid at once and each month.
//!
//! Start at [`band`].

use super::prices::used;
use super::rounding::{about, figure};
use crate::comparison::{Comparison, OptionResult};
use crate::fuel::FuelId;
use crate::prices::FuelPrice;
use crate::report::band::{Band, BandRow, Entry, Group};
use crate::report::charts::option_colour;
use crate::report::figures::MONTHS_IN_FULL;
use crate::report::life_cycle::left_out;
use crate::report::money::dearest_month;
use crate::study::Around;
use crate::study::scenarios::{ELECTRICITY_STRESS, FUEL_STRESS};
use crate::supply::contract::Contract;

/// The band.
pub(super) fn band(c: &Comparison, around: &Around) -> Band {
    let paying = c.life_cycles.is_some();
    let row = |(i, o): (usize, &OptionResult)| {
        let mut entries = vec![dearest(c, o)];
        entries.extend(around.fuels_dear.as_ref().map(|run| cost(c, run.options.get(i))));
        entries.push(cost(c, around.electricity_dear.options.get(i)));
        if paying {
            entries.extend(paid(c, i));
        }
        BandRow { option: o.design.name.clone(), colour: option_colour(i), entries }
    };
    let mut groups = vec![dear_group(c, around)];
    if paying {
        let heads = [("Installed".to_owned(), true), ("Loan and bills a month".into(), true)];
        groups.push(Group::new("What is paid?", heads));
    }
    Band {
        name: "dear_times".into(),
        groups,
        rows: c.options.iter().enumerate().map(row).collect(),
        strong: None,
        remark: Some(remark(c, around, paying)),
    }
}

fn dear_group(c: &Comparison, around: &Around) -> Group {
    let mut heads = vec![("Dearest month".to_owned(), true)];
    let burned: Vec<&str> =
        used(c).filter(|(fuel, _)| fuel.id != "electricity").map(|(f, _)| f.name.as_str()).collect();
    if around.fuels_dear.is_some() {
        let what = match burned.as_slice() {
            [one] => format!("A year with {one} doubling for January and February"),
            _ => "A year with fuels doubling for January and February".into(),
        };
        heads.push((what, true));
    }
    heads.push((format!("A year with electricity {:.0} % dearer", 100.0 * (ELECTRICITY_STRESS - 1.0)), true));
    Group::new("And when it is dear?", heads)
}

/// Of an option with a tank the most over how full it is in July, which decides when the truck comes.
fn dearest(c: &Comparison, o: &OptionResult) -> Entry {
    let up_to = if o.stores.is_empty() { "" } else { "up to " };
    o.dearest_month_over_levels().or_else(|| dearest_month(o)).map_or(Entry::Missing, |(month, amount)| {
        Entry::Figure {
            exact: amount,
            shown: format!(
                "{}, {up_to}{}",
                MONTHS_IN_FULL.get(month).copied().unwrap_or_default(),
                about(&c.currency, amount)
            ),
        }
    })
}

fn cost(c: &Comparison, outcome: Option<&crate::comparison::Outcome>) -> Entry {
    outcome.map_or(Entry::Missing, |outcome| figure(&c.currency, outcome.yearly_cost()))
}

fn paid(c: &Comparison, place: usize) -> [Entry; 2] {
    let lives = c.life_cycles.as_ref();
    let installed = lives.and_then(|lives| lives.project(place)).map(|project| project.installed());
    let monthly = lives.and_then(|lives| lives.options.get(place)?.as_ref());
    let monthly = monthly.map_or(Entry::Missing, |life| match figure(&c.currency, life.first_month()) {
        Entry::Figure { exact, shown } if life.loan_a_month > 0.0 => {
            let later = about(&c.currency, life.running_a_month);
            Entry::Figure { exact, shown: format!("{shown}, then {later}") }
        }
        without_loan => without_loan,
    });
    [installed.map_or(Entry::Missing, |amount| figure(&c.currency, amount)), monthly]
}

fn remark(c: &Comparison, around: &Around, paying: bool) -> String {
    let spiked = used(c).any(|(fuel, price)| fuel.id != "electricity" && !price.spikes.is_empty());
    let mut words = Vec::new();
    if c.options.iter().any(|o| !o.stores.is_empty()) {
        words.push("Up to: by how full the tank is in July.".to_owned());
    }
    if around.fuels_dear.is_some() {
        let on_top = if spiked { ", on top of what is dear already in the prices below" } else { "" };
        let stores = c.options.iter().flat_map(|o| &o.stores).map(|s| &s.supplied.store.contract);
        let contract = match stores.into_iter().all(Contract::is_at_market) {
            true => "",
            false => "; what a contract fixes or caps does not move",
        };
        words.push(format!("Doubling: {FUEL_STRESS:.0} times the prices below{on_top}{contract}."));
    }
    let more = |p: &FuelPrice| p.demand_per_kw != 0.0 || !p.riders.is_empty();
    if c.prices.of(FuelId::ELECTRICITY).is_some_and(more) {
        words.push("Electricity dearer: its energy alone; what comes on top of it stays.".into());
    }
    if paying {
        let given = c.life_cycles.iter().flat_map(|lives| lives.economics.projects.iter().flatten());
        let given = given.map(|project| project.given()).fold(0.0, f64::max);
        let grants = if given > 0.0 { ", grants not taken off" } else { "" };
        let lends = c.life_cycles.iter().flat_map(|lives| lives.options.iter().flatten());
        let lends = lends.into_iter().any(|life| life.loan_a_month > 0.0);
        let then = if lends { "; then: when the loan is paid" } else { "" };
        words.push(format!(
            "Installed: the whole job{grants}. A month: the loan, if any, bills and upkeep of the first year{then}."
        ));
        if c.life_cycles.as_ref().is_some_and(|lives| left_out(c, lives).is_some()) {
            words.push("\u{2013}: no cost of installing is given.".into());
        }
    }
    words.join(" ")
}
