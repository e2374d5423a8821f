//! At which price two options cost the same, as JSON.
//!
//! Start at [`text`] and `document`.

use super::json_head::{JsonHead, written};
use super::tipping;
use crate::comparison::Comparison;
use crate::problem::Problem;
use crate::study::crossing::{Crossing, Pair};
use crate::study::{PriceMap, Tipping, TippingPrice};
use schemars::JsonSchema;
use serde::Serialize;

/// Prices at which two options cost the same a year.
#[derive(Serialize, JsonSchema)]
pub(super) struct TippingDocument<'a> {
    options: [&'a str; 2],
    load_uncertainty: f64,
    sentences: Vec<String>,
    prices: Vec<PriceDocument<'a>>,
}

/// Of one fuel; prices are of a selling unit.
#[derive(Serialize, JsonSchema)]
struct PriceDocument<'a> {
    fuel: &'a str,
    unit: &'a str,
    price_today: f64,
    found: Vec<FoundDocument>,
    /// Which costs less below the first, between, above the last.
    costs_less: Vec<Option<&'a str>>,
    /// Least and greatest over the loads, where there is one price at each.
    range: Option<(f64, f64)>,
    at_low_load: Vec<FoundDocument>,
    at_high_load: Vec<FoundDocument>,
}

/// One place at which they cost the same.
#[derive(Serialize, JsonSchema)]
struct FoundDocument {
    /// `same`, `jump` or `stretch`.
    kind: &'static str,
    /// One for `same`; else both ends.
    at: Vec<SettingDocument>,
}

#[derive(Serialize, JsonSchema)]
struct SettingDocument {
    /// Times today's prices.
    factor: f64,
    price: f64,
    yearly_costs: [f64; 2],
}

#[derive(Serialize)]
struct WholeDocument<'a> {
    #[serde(flatten)]
    head: JsonHead<'a>,
    tipping_price: TippingDocument<'a>,
    map: Option<MapDocument<'a>>,
}

#[derive(Serialize)]
struct MapDocument<'a> {
    across: (&'a str, &'a [f64]),
    up: (&'a str, &'a [f64]),
    first_costs_more_by: &'a [Vec<f64>],
    marks: Vec<MarkDocument<'a>>,
}

#[derive(Serialize)]
struct MarkDocument<'a> {
    name: Option<&'a str>,
    prices: [f64; 2],
}

/// What was found, as part of a document.
pub(super) fn document<'a>(c: &'a Comparison, tipping: &Tipping) -> TippingDocument<'a> {
    TippingDocument {
        options: tipping.options.map(|place| name(c, place)),
        load_uncertainty: tipping.load_uncertainty,
        sentences: tipping::sentences(c, tipping),
        prices: tipping.prices.iter().map(|price| of_price(c, price)).collect(),
    }
}

fn name(c: &Comparison, place: usize) -> &str {
    c.options.get(place).map_or("", |option| &option.design.name)
}

fn of_price<'a>(c: &'a Comparison, p: &TippingPrice) -> PriceDocument<'a> {
    let fuel = c.fuels.get(p.fuel);
    let list = |found: &[Crossing]| found.iter().map(|one| of_crossing(one, p.today)).collect();
    PriceDocument {
        fuel: fuel.map_or("", |fuel| &fuel.id),
        unit: fuel.map_or("", |fuel| &fuel.selling_unit),
        price_today: p.today,
        found: list(&p.found),
        costs_less: p.cheaper.iter().map(|option| option.map(|place| name(c, place))).collect(),
        range: p.range(),
        at_low_load: list(&p.at_low_load),
        at_high_load: list(&p.at_high_load),
    }
}

fn of_crossing(one: &Crossing, today: f64) -> FoundDocument {
    let setting =
        |pair: &Pair| SettingDocument { factor: pair.at, price: pair.at * today, yearly_costs: pair.costs };
    let (kind, at) = match one {
        Crossing::Same(pair) => ("same", vec![setting(pair)]),
        Crossing::Jump(from, to) => ("jump", vec![setting(from), setting(to)]),
        Crossing::Stretch(from, to) => ("stretch", vec![setting(from), setting(to)]),
    };
    FoundDocument { kind, at }
}

/// The whole document as indented JSON with a line end.
///
/// # Errors
/// A value that JSON cannot hold; that would be a defect.
pub fn text(c: &Comparison, tipping: &Tipping, map: Option<&PriceMap>) -> Result<String, Problem> {
    let id = |fuel| c.fuels.get(fuel).map_or("", |fuel| fuel.id.as_str());
    let document = WholeDocument {
        head: JsonHead::of(c),
        tipping_price: document(c, tipping),
        map: map.map(|map| MapDocument {
            across: (id(map.fuels[0]), &map.across),
            up: (id(map.fuels[1]), &map.up),
            first_costs_more_by: &map.costs_more,
            marks: map.marks.iter().map(|m| MarkDocument { name: m.name.as_deref(), prices: m.at }).collect(),
        }),
    };
    written(&document)
}
