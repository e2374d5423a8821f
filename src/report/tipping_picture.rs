//! A field of two prices into the plain values that a chart draws.
//!
//! Start at [`price_map`].

use super::charts::{PriceAxis, PriceChart, PriceMark};
use super::tipping::{fuel_name, unit_word};
use crate::comparison::Comparison;
use crate::fuel::FuelId;
use crate::study::PriceMap;
use crate::study::price_map::MapMark;

/// Which of two options costs less at which two prices.
pub fn price_map(c: &Comparison, map: &PriceMap, about: &str) -> PriceChart {
    let name = |place: usize| c.options.get(place).map_or("", |option| option.design.name.as_str());
    let [first, second] = map.options.map(|place| format!("\u{201c}{}\u{201d}", name(place)));
    let axis = |id: FuelId, prices: &[f64]| PriceAxis {
        words: format!("{}, {} a {}", fuel_name(c, id), c.currency, unit_word(c, id)),
        ends: prices.first().copied().zip(prices.last().copied()).unwrap_or_default(),
    };
    let (across, up) = (axis(map.fuels[0], &map.across), axis(map.fuels[1], &map.up));
    let within = |mark: &&MapMark| {
        let inside = |at: f64, (low, high): (f64, f64)| (low..=high).contains(&at);
        inside(mark.at[0], across.ends) && inside(mark.at[1], up.ends)
    };
    let mark = |mark: &MapMark| PriceMark {
        name: mark.name.clone().unwrap_or_else(|| "today".into()),
        at: (mark.at[0], mark.at[1]),
    };
    PriceChart {
        title: format!("At which prices do {first} and {second} cost the same?"),
        subtitle: about.to_owned(),
        currency: c.currency.clone(),
        options: [first, second],
        places: map.options,
        marks: map.marks.iter().filter(within).map(mark).collect(),
        across,
        up,
        costs_more: map.costs_more.clone(),
        foot: "Mean prices of what is burned, energy alone, or of the market\u{2019}s days where a contract stands \
               between; fixed charges, fees and rents stay. An estimate, not a quote; local codes and a licensed \
               contractor decide."
            .into(),
    }
}
