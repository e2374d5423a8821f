//! The chart of stores, held to what a printer would ask. All invented.
//!
//! Start at [`crowded`].

use crate::charts::fit_to_print;
use winterledger::report::charts::{ChartError, TankChart, TankPanel, png};

const MONTHS: [(usize, &str); 12] = [
    (0, "Jul"),
    (31, "Aug"),
    (62, "Sep"),
    (92, "Oct"),
    (123, "Nov"),
    (153, "Dec"),
    (184, "Jan"),
    (215, "Feb"),
    (243, "Mar"),
    (274, "Apr"),
    (304, "May"),
    (335, "Jun"),
];

fn chart(panels: Vec<TankPanel>) -> TankChart {
    TankChart {
        title: "Fuel in the store through the year".into(),
        subtitle: "Invented".into(),
        months: MONTHS.iter().map(|(day, name)| (*day, (*name).to_owned())).collect(),
        panels,
        foot: "A remark.".into(),
    }
}

/// A year that takes so much a day, filled every so many days; dry on some.
fn panel(name: &str, full: f64, a_day: f64, every: usize, dry: &[usize]) -> TankPanel {
    let mut panel = TankPanel {
        name: name.into(),
        unit: "gal".into(),
        start: full,
        levels: Vec::new(),
        full,
        reorder: full * 0.375,
        reserve: full / 16.0,
        deliveries: Vec::new(),
        dry: dry.to_vec(),
    };
    let mut level = full;
    for day in 0..365 {
        if day > 0 && day % every == 0 {
            panel.deliveries.push((day, level, full - level));
            level = full;
        }
        level = (level - a_day).max(panel.reserve);
        panel.levels.push(level);
    }
    panel
}

fn crowded() -> TankChart {
    let spells: Vec<usize> = (150..170).chain([172, 174, 180, 181, 300]).collect();
    chart(vec![
        panel(
            "Propane furnace behind a name that is much longer than any name ought to be: tank",
            96.0,
            9.0,
            9,
            &spells,
        ),
        panel("Oil furnace: a tank", 261.0, 3.0, 70, &[]),
        panel("Stove: wood", 4.0, 0.012, 200, &[364]),
    ])
}

#[test]
fn stores_with_many_deliveries_and_dry_days_are_fit_to_print() {
    let svg = crowded().draw().unwrap();
    fit_to_print("tank-crowded", &svg);
    for words in [
        "dry 20 days",
        "no fuel",
        "order at 98 gal",
        "reserve 6 gal",
        "+210",
        "dry on 25 days",
        "40 deliveries",
    ] {
        assert!(svg.contains(words), "{words}");
    }
    let one = chart(vec![panel("Heat pump and propane: 500 gallon tank", 400.0, 1.0, 300, &[])]);
    let svg = one.draw().unwrap();
    fit_to_print("tank-one", &svg);
    assert!(!svg.contains("no fuel"));
    assert_eq!(svg, one.draw().unwrap());
    assert!(png(&svg, 1.0).unwrap().len() > 10_000);
}

#[test]
fn stores_that_cannot_be_shown_are_refused() {
    let refused = |change: fn(&mut TankChart)| {
        let mut chart = crowded();
        change(&mut chart);
        chart.draw().unwrap_err()
    };
    assert_eq!(refused(|c| c.panels.clear()), ChartError::Empty);
    let bad = |error: ChartError| assert!(matches!(error, ChartError::BadValue(_)), "{error:?}");
    bad(refused(|c| c.panels[0].levels[3] = f64::NAN));
    bad(refused(|c| c.panels[0].levels[3] = -5.0));
    bad(refused(|c| c.panels[1].deliveries.push((400, 1.0, 1.0))));
    bad(refused(|c| c.panels[1].dry.push(365)));
    bad(refused(|c| c.panels[2].levels.truncate(300)));
    bad(refused(|c| c.months.swap(0, 1)));
}
