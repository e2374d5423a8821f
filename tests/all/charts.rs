//! Holds the charts to what a printer would ask: nothing clipped, nothing overlapping, the same bytes twice.
//!
//! Where words really stand is asked of usvg, which sets the type for the PNG. Start at
//! [`words_of`].
use winterledger::report::charts::*;

fn bar(name: &str, parts: &[(&str, f64)], warning: Option<&str>) -> CostBar {
    CostBar {
        name: name.into(),
        segments: parts.iter().map(|(n, a)| ((*n).to_string(), *a)).collect(),
        total: parts.iter().map(|(_, a)| a).sum(),
        warning: warning.map(Into::into),
    }
}

fn cost(options: Vec<CostBar>) -> YearlyCostChart {
    YearlyCostChart {
        title: "What each way of heating costs in a year".into(),
        subtitle: "Quince Hollow, orchard house (invented); a typical year at Chicago O’Hare".into(),
        currency: "$".into(),
        options,
        foot: "An estimate, not a quote. Cooling, standby and fixed charges are included. Prices are invented for demonstration.".into(),
    }
}

fn demo() -> YearlyCostChart {
    cost(vec![
        bar("Heat pumps with strips", &[("space heating", 1_722.0), ("backup heat", 128.0), ("cooling", 196.0), ("standby", 24.0), ("fixed charge", 432.0)], None),
        bar("Heat pumps alone", &[("space heating", 1_690.0), ("cooling", 196.0), ("standby", 24.0), ("fixed charge", 432.0)], Some("goes cold: 212 h")),
        bar("Propane furnace", &[("space heating", 2_644.0), ("backup heat", 12.0), ("cooling", 214.0), ("standby", 9.0), ("fixed charge", 432.0), ("rent", 96.0), ("delivery", 45.0)], None),
        bar("Heat pump and propane", &[("space heating", 1_932.0), ("backup heat", 12.0), ("cooling", 196.0), ("standby", 24.0), ("fixed charge", 432.0), ("rent", 96.0)], None),
        bar("Oil furnace", &[("space heating", 3_012.0), ("backup heat", 12.0), ("cooling", 214.0), ("standby", 9.0), ("fixed charge", 432.0)], None),
        bar("Electric resistance", &[("space heating", 4_646.0), ("cooling", 214.0), ("fixed charge", 432.0)], None),
    ])
}

fn save(name: &str, svg: &str) {
    if let Ok(folder) = std::env::var("CHART_SAMPLES") {
        std::fs::write(format!("{folder}/{name}.svg"), svg).unwrap();
        for scale in [1.0, 2.0] {
            std::fs::write(format!("{folder}/{name}@{scale}.png"), png(svg, scale).unwrap()).unwrap();
        }
    }
}

#[test]
fn demo_cost() {
    save("cost-demo", &demo().draw().unwrap());
}
