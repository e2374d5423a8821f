//! The charts of price histories and of prices paid: what they say in words, what they refuse.
//!
//! All values are invented. Start at the test names.

use crate::charts::fit_to_print;
use winterledger::report::charts::{
    ChartError, HistoryChart, PriceDaysChart, PriceDaysPanel, PriceRange, png,
};

fn around(middle: f64) -> PriceRange {
    PriceRange { low: 0.9 * middle, middle, high: 1.2 * middle }
}

fn history() -> HistoryChart {
    let winter = |year: i32| {
        (0..26)
            .map(move |week| (f64::from(year) + 0.75 + f64::from(week) / 52.0, 2.2 + 0.02 * f64::from(week)))
    };
    HistoryChart {
        title: "t".into(),
        subtitle: "s".into(),
        unit: "$/gal".into(),
        winters: (2000..2012).map(|year| winter(year).collect()).collect(),
        rest: around(2.4),
        spikes: vec![(2005.0, 2.4)],
        season: ["Oct", "Nov"].map(|name| (name.to_owned(), around(2.3))).to_vec(),
        ahead: (0..26).map(|week| around(2.0 + 0.03 * f64::from(week))).collect(),
        ahead_months: vec![(0, "Oct".into()), (5, "Nov".into())],
        foot: "A model of the past is no forecast.".into(),
    }
}

#[test]
fn the_history_names_its_panels_its_unit_and_its_spikes() {
    let svg = history().draw().unwrap();
    fit_to_print("price-history", &svg);
    for words in ["What was paid, $/gal", "The months, at rest", "The winter that could follow", "\nspike\n"]
    {
        assert!(svg.contains(words), "{words}");
    }
    assert!(svg.contains("12 winters of prices, 1 spikes"));
    assert_eq!(svg, history().draw().unwrap());
    let calm = HistoryChart { spikes: Vec::new(), ..history() };
    assert!(!calm.draw().unwrap().contains("\nspike\n"));
    assert!(png(&svg, 1.0).unwrap().starts_with(b"\x89PNG"));
}

#[test]
fn a_history_without_prices_or_with_impossible_ones_is_refused() {
    assert_eq!(HistoryChart { winters: Vec::new(), ..history() }.draw(), Err(ChartError::Empty));
    let negative = HistoryChart { rest: PriceRange { low: -1.0, ..around(2.0) }, ..history() };
    assert!(negative.draw().is_err());
    let backwards = HistoryChart { winters: vec![vec![(2001.0, 2.0), (2000.0, 2.0)]], ..history() };
    assert!(backwards.draw().is_err());
}

fn days() -> PriceDaysChart {
    let panel = |name: &str, paid: Vec<(usize, f64)>| PriceDaysPanel {
        name: name.into(),
        unit: "$/gal".into(),
        market: (0..365).map(|day| if (200..240).contains(&day) { 5.2 } else { 2.4 }).collect(),
        mean_paid: (!paid.is_empty()).then_some(3.1),
        paid,
    };
    PriceDaysChart {
        title: "The price of the day, and the price paid".into(),
        subtitle: "s".into(),
        months: vec![(0, "Jul".into()), (31, "Aug".into()), (62, "Sep".into())],
        panels: vec![
            panel("furnace: tank", vec![(90, 2.4), (210, 2.4), (214, 5.2)]),
            panel("stove: tank", vec![]),
        ],
        foot: String::new(),
    }
}

#[test]
fn each_truck_is_marked_at_the_price_that_was_paid() {
    let svg = days().draw().unwrap();
    fit_to_print("prices-paid", &svg);
    for words in ["3.10 paid on the mean", "no delivery", "delivery, at the price paid", "\n2.40\n"] {
        assert!(svg.contains(words), "{words}");
    }
    assert!(svg.contains("price of the day 2.40 to 5.20 $/gal; paid 2.40, 2.40, 5.20."));
    assert_eq!(PriceDaysChart { panels: Vec::new(), ..days() }.draw(), Err(ChartError::Empty));
    let mut outside = days();
    outside.panels[0].paid.push((365, 2.0));
    assert!(outside.draw().is_err());
}
