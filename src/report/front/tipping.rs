//! The prices at which two options that keep warm cost the same, with what other loads make of them.
//!
//! Start at [`words`].

use super::unit_words;
use crate::comparison::Comparison;
use crate::report::figures::grouped;
use crate::report::tipping::sentences;
use crate::study::crossing::Crossing;
use crate::study::tipping::is_told_of_market;
use crate::study::{Tipping, TippingPrice};

/// Farther from today's price than this, a price is no help to anybody.
const WIDEST: (f64, f64) = (1.0 / 3.0, 3.0);

/// One sentence for the prices at which they meet once, another for each at which they meet otherwise.
pub(super) fn words(c: &Comparison, tipping: &Tipping) -> Vec<String> {
    let near = |p: &TippingPrice| -> Vec<Crossing> {
        let near = |one: &&Crossing| one.span().0 <= WIDEST.1 && one.span().1 >= WIDEST.0;
        p.found.iter().filter(near).cloned().collect()
    };
    let mut once = Vec::new();
    let mut otherwise = Vec::new();
    for (p, sentence) in tipping.prices.iter().zip(sentences(c, tipping)) {
        match near(p).as_slice() {
            [] => {}
            [one] if one.meets().is_some() => once.extend(one.meets().and_then(|pair| place(c, p, pair.at))),
            _ => otherwise.push(sentence),
        }
    }
    if once.is_empty() && otherwise.is_empty() {
        return stays(c, tipping).into_iter().collect();
    }
    let both = (!once.is_empty()).then(|| meet(c, tipping, &once));
    both.into_iter().chain(otherwise).collect()
}

fn meet(c: &Comparison, tipping: &Tipping, once: &[String]) -> String {
    let each = if once.len() > 1 { ", one price changed at a time" } else { "" };
    let share = grouped(100.0 * tipping.load_uncertainty, 0);
    let brackets = match tipping.prices.iter().any(|p| p.range().is_some()) {
        true => format!(
            " In brackets: its span if the house needs up to {share} % less or more heat than calculated."
        ),
        false => String::new(),
    };
    format!(
        "{} would cost the same with {}{each}; {}.{brackets}",
        pair(c, tipping),
        once.join(", or "),
        what_is_told(c, tipping)
    )
}

/// Of what the prices are, and what stays as it is.
fn what_is_told(c: &Comparison, tipping: &Tipping) -> String {
    let fuels = || tipping.prices.iter().map(|p| p.fuel);
    let name = |id| c.fuels.get(id).map_or("", |fuel| fuel.name.as_str());
    let mut words = "prices are averages over what is burned now".to_owned();
    let at_market: Vec<&str> =
        fuels().filter(|fuel| is_told_of_market(c, tipping.options, *fuel)).map(name).collect();
    if !at_market.is_empty() {
        words += &format!(", of {} the market\u{2019}s, not its contract\u{2019}s", at_market.join(" and "));
    }
    let more =
        |id| c.prices.of(id).is_some_and(|p| !p.riders.is_empty() || p.tax != 0.0 || p.demand_per_kw != 0.0);
    let more: Vec<&str> = fuels().filter(|fuel| more(*fuel)).map(name).collect();
    if !more.is_empty() {
        words += &format!(", of {} energy alone, without what comes on top", more.join(" and "));
    }
    words
}

/// A fuel at one price: `propane at about $1.61 a gallon ($1.46 to $1.75; now $2.54)`.
fn place(c: &Comparison, p: &TippingPrice, factor: f64) -> Option<String> {
    let fuel = c.fuels.get(p.fuel)?;
    let plain = |price: f64| unit_words::plain(&c.currency, price);
    let span = p.range().map(|(low, high)| {
        let [low, high] = [low, high].map(plain);
        format!("{low} to {high}; ")
    });
    Some(format!(
        "{} at about {} a {} ({}now {})",
        fuel.name,
        plain(p.today * factor),
        fuel.unit_word(),
        span.unwrap_or_else(|| "with other loads none or several; ".into()),
        plain(p.today)
    ))
}

fn stays(c: &Comparison, tipping: &Tipping) -> Option<String> {
    let fuels = tipping.prices.iter().filter_map(|p| c.fuels.get(p.fuel));
    let names: Vec<&str> = fuels.map(|fuel| fuel.name.as_str()).collect();
    (!names.is_empty()).then(|| {
        format!(
            "Between a third and three times today\u{2019}s price of {} the order of {} stays.",
            names.join(" or "),
            pair(c, tipping)
        )
    })
}

fn pair(c: &Comparison, tipping: &Tipping) -> String {
    let name = |option: usize| c.options.get(option).map_or("", |option| option.design.name.as_str());
    let [first, second] = tipping.options.map(name);
    format!("\u{201c}{first}\u{201d} and \u{201c}{second}\u{201d}")
}
