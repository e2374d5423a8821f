//! The map of two prices and the chart of a swaying difference: what they say in words, what they refuse.
//!
//! All values are invented. Start at the test names.

use winterledger::report::charts::{ChartError, PriceAxis, PriceChart, PriceMark, SwayBar, SwayChart, png};

/// The first costs 100 more for each 1 up, 50 less for each 1 across.
fn map() -> PriceChart {
    let row = |y: u32| (0..5).map(|x| 100.0 * f64::from(y) - 50.0 * f64::from(x)).collect();
    PriceChart {
        title: "t".into(),
        subtitle: "s".into(),
        currency: "$".into(),
        options: ["pump".into(), "furnace".into()],
        places: [0, 1],
        across: PriceAxis { words: "propane, $ a gallon".into(), ends: (0.0, 4.0) },
        up: PriceAxis { words: "electricity, $ a kWh".into(), ends: (0.0, 0.4) },
        costs_more: (0..5).map(row).collect(),
        marks: vec![PriceMark { name: "today".into(), at: (2.0, 0.2) }],
        foot: String::new(),
    }
}

#[test]
fn the_map_names_its_prices_its_lines_and_its_sides_and_is_the_same_each_time() {
    let svg = map().draw().unwrap();
    for words in ["today", "the same", "pump costs less", "furnace costs less", "propane, $ a gallon", "$100"]
    {
        assert!(svg.contains(words), "{words}");
    }
    assert_eq!(svg, map().draw().unwrap());
    assert!(png(&svg, 1.0).unwrap().starts_with(b"\x89PNG"));
}

#[test]
fn a_map_without_a_field_or_with_a_mark_outside_is_refused() {
    assert_eq!(PriceChart { costs_more: vec![vec![1.0]], ..map() }.draw(), Err(ChartError::Empty));
    let outside = vec![PriceMark { name: "far".into(), at: (9.0, 0.2) }];
    assert_eq!(PriceChart { marks: outside, ..map() }.draw(), Err(ChartError::BadValue("far".into())));
    let endless = vec![vec![f64::INFINITY; 5]; 5];
    assert!(PriceChart { costs_more: endless, ..map() }.draw().is_err());
}

#[test]
fn a_sway_names_both_ends_of_each_input_and_where_it_is_now() {
    let bar = |name: &str, low: f64, high: f64| SwayBar {
        name: name.into(),
        low: ("less".into(), low),
        high: ("more".into(), high),
    };
    let chart = SwayChart {
        title: "t".into(),
        subtitle: "s".into(),
        currency: "$".into(),
        now: -120.0,
        bars: vec![bar("price", -250.0, 40.0), bar("load", -140.0, -130.0)],
        sides: ["one costs less".into(), "the other costs less".into()],
        foot: String::new(),
    };
    let svg = chart.draw().unwrap();
    for words in ["as it is \u{2212}$120", "price", "load", "less", "more", "the other costs less"] {
        assert!(svg.contains(words), "{words}");
    }
    assert!(svg.contains("price: \u{2212}$250 at less, $40 at more."));
    assert_eq!(SwayChart { bars: Vec::new(), ..chart.clone() }.draw(), Err(ChartError::Empty));
    assert!(SwayChart { now: f64::NAN, ..chart }.draw().is_err());
}
