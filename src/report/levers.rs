//! How yearly costs hang on prices, as a table for files and as JSON.
//!
//! Start at [`table`] and `document`.

use super::figures::money;
use super::model::{Cell, Column, Table};
use crate::comparison::Comparison;
use crate::fuel::FuelId;
use crate::study::levers::{Term, WhyOff};
use crate::study::{Levers, OptionLevers};
use serde::Serialize;

/// Why an option's levers are off.
pub fn why_off(why: WhyOff) -> &'static str {
    match why {
        WhyOff::ChangesOverOnCost => "it changes over on cost, so that at other prices it runs otherwise",
        WhyOff::Tiers => "a fuel's price goes by how much is used, so that no one price can be moved",
        WhyOff::Demand => "a fuel is charged by the largest hour too, which no price of energy moves",
        WhyOff::Contract => "a contract says what a stored fuel costs, not the price of the day",
        WhyOff::ManySpikes => "a fuel has more price spikes than are parted",
    }
}

fn fuel(c: &Comparison, id: FuelId) -> &str {
    c.fuels.get(id).map_or("", |fuel| &fuel.id)
}

/// Every coefficient: the cost is the sum of the amounts, each times the factor of its fuel and the times
/// of its spikes.
pub fn table(c: &Comparison, levers: &Levers) -> Table {
    let amount = |value: f64| Cell::Number { value, shown: money(&c.currency, value) };
    let mut rows = Vec::new();
    for (option, own) in c.options.iter().zip(&levers.options) {
        let name = || Cell::text(&option.design.name);
        match own {
            OptionLevers::Off(why) => {
                rows.push(vec![name(), Cell::text("off"), Cell::text(why_off(*why)), Cell::Missing]);
            }
            OptionLevers::On { constant, terms, held } => {
                rows.extend(held.iter().map(|(id, why)| {
                    vec![name(), Cell::text(fuel(c, *id)), Cell::text(why_off(*why)), Cell::Missing]
                }));
                rows.push(vec![name(), Cell::Missing, Cell::Missing, amount(*constant)]);
                rows.extend(terms.iter().map(|term| {
                    let moved = levers.fuels.get(term.fuel).map_or("", |id| fuel(c, *id));
                    vec![name(), Cell::text(moved), Cell::text(spikes(levers, term)), amount(term.amount)]
                }));
            }
        }
    }
    Table {
        name: "levers".into(),
        heading: "How yearly costs hang on prices".into(),
        columns: vec![
            Column::words("Option", "option"),
            Column::words("Times the factor of", "times_factor_of_fuel"),
            Column::words("and of the spikes", "times_factors_of_spikes"),
            Column::numbers("Amount", "amount"),
        ],
        rows,
        remark: None,
    }
}

fn spikes(levers: &Levers, term: &Term) -> String {
    let names = term.spikes.iter().filter_map(|place| levers.spikes.get(*place));
    names.map(|spike| spike.name.as_str()).collect::<Vec<_>>().join("; ")
}

/// The levers as JSON.
#[derive(Serialize)]
pub(super) struct LeversDocument<'a> {
    fuels: Vec<&'a str>,
    spikes: Vec<SpikeDocument<'a>>,
    options: Vec<OptionDocument<'a>>,
}

#[derive(Serialize)]
struct SpikeDocument<'a> {
    fuel: &'a str,
    name: &'a str,
    times: f64,
}

#[derive(Serialize)]
struct OptionDocument<'a> {
    name: &'a str,
    off: Option<&'static str>,
    /// Fuels whose factors and spikes do not move it.
    held: Vec<&'a str>,
    constant: Option<f64>,
    terms: Vec<TermDocument>,
}

#[derive(Serialize)]
struct TermDocument {
    fuel: usize,
    spikes: Vec<usize>,
    amount: f64,
}

/// The levers of a comparison; places count from 0 in its own lists.
pub(super) fn document<'a>(c: &'a Comparison, levers: &'a Levers) -> LeversDocument<'a> {
    let spike = |s: &'a crate::study::levers::SpikeLever| SpikeDocument {
        fuel: fuel(c, s.fuel),
        name: &s.name,
        times: s.times,
    };
    let term = |t: &Term| TermDocument { fuel: t.fuel, spikes: t.spikes.clone(), amount: t.amount };
    let options = c.options.iter().zip(&levers.options).map(|(option, own)| {
        let (off, constant, terms) = match own {
            OptionLevers::Off(why) => (Some(why_off(*why)), None, Vec::new()),
            OptionLevers::On { constant, terms, .. } => {
                (None, Some(*constant), terms.iter().map(term).collect())
            }
        };
        let held = match own {
            OptionLevers::On { held, .. } => held.iter().map(|(id, _)| fuel(c, *id)).collect(),
            OptionLevers::Off(_) => Vec::new(),
        };
        OptionDocument { name: &option.design.name, off, held, constant, terms }
    });
    LeversDocument {
        fuels: levers.fuels.iter().map(|id| fuel(c, *id)).collect(),
        spikes: levers.spikes.iter().map(spike).collect(),
        options: options.collect(),
    }
}
