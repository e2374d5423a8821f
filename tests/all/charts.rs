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

fn machine(name: &str, greatest: &[(f64, f64)], least: Option<&[(f64, f64)]>) -> MachineCurve {
    MachineCurve { name: name.into(), greatest: greatest.to_vec(), least: least.map(<[_]>::to_vec) }
}

/// Invented hours of a cold winter, 5-degree bins.
const HOURS: [(f64, f64); 19] = [
    (-17.5, 3.0), (-12.5, 9.0), (-7.5, 22.0), (-2.5, 51.0), (2.5, 96.0), (7.5, 151.0), (12.5, 218.0), (17.5, 301.0),
    (22.5, 428.0), (27.5, 602.0), (32.5, 815.0), (37.5, 742.0), (42.5, 611.0), (47.5, 560.0), (52.5, 588.0), (57.5, 640.0),
    (62.5, 690.0), (67.5, 720.0), (72.5, 660.0),
];

fn zone(name: &str, loss: f64, machines: Vec<MachineCurve>, balances: &[(&str, f64, f64)]) -> CapacityPanel {
    CapacityPanel {
        zone: name.into(),
        load: vec![(-22.0, loss * 84.0), (62.0, 0.0), (65.0, 0.0)],
        machines,
        balances: balances.iter().map(|(m, t, l)| Balance { machine: (*m).into(), temperature: *t, load: *l }).collect(),
        marks: vec![
            Mark { label: "coldest planned".into(), temperature: -22.0 },
            Mark { label: "design".into(), temperature: 0.0 },
        ],
        hours: HOURS.to_vec(),
    }
}

const MAIN: [(f64, f64); 8] = [(-17.0, 18.8), (-13.0, 20.5), (-5.0, 24.0), (5.0, 28.0), (17.0, 32.0), (35.0, 33.0), (47.0, 38.0), (65.0, 38.0)];
const LEAST: [(f64, f64); 7] = [(-13.0, 9.0), (-5.0, 9.5), (5.0, 10.0), (17.0, 10.0), (35.0, 10.0), (47.0, 10.5), (65.0, 10.5)];
const WING: [(f64, f64); 8] = [(-18.0, 6.8), (-13.0, 8.0), (-5.0, 9.5), (5.0, 11.0), (17.0, 13.0), (35.0, 13.5), (47.0, 15.5), (65.0, 15.5)];

fn main_zone() -> CapacityPanel {
    zone("Main part", 0.475, vec![
        machine("main heat pump", &MAIN, Some(&LEAST)),
        machine("propane furnace", &[(-22.0, 57.0), (65.0, 57.0)], None),
    ], &[("main heat pump", 2.9, 27.3)])
}

fn wing_zone() -> CapacityPanel {
    zone("Studio wing", 0.125, vec![machine("wing heat pump", &WING, None), machine("wing baseboard 2 kW", &[(-22.0, 6.8), (65.0, 6.8)], None)],
        &[("wing heat pump", -9.0, 8.8), ("wing baseboard 2 kW", 7.4, 6.8)])
}

fn crowded() -> CapacityPanel {
    let names = ["Heat pump A, two stages", "Heat pump B, variable speed with a long name that wraps", "Heat pump C", "Heat pump D", "Heat pump E"];
    let machines = names.iter().enumerate().map(|(i, name)| {
        let curve: Vec<_> = MAIN.iter().map(|(t, q)| (t + 0.4 * i as f64, q + 0.3 * i as f64)).collect();
        let least: Vec<_> = LEAST.iter().map(|(t, q)| (t + 0.4 * i as f64, q + 0.1 * i as f64)).collect();
        machine(name, &curve, Some(&least))
    }).collect();
    let balances: Vec<_> = names.iter().enumerate().map(|(i, n)| (*n, 2.9 - 0.4 * i as f64, 27.3 + 0.2 * i as f64)).collect();
    zone("Main part, five machines that are nearly alike", 0.475, machines, &balances)
}

fn capacity(panels: Vec<CapacityPanel>) -> CapacityChart {
    CapacityChart {
        title: "Does the heat carry the cold?".into(),
        subtitle: "Heat needed and heat that can be given, by outdoor temperature; hours of a typical year".into(),
        temperature_unit: "°F".into(),
        power_unit: "kBtu/h".into(),
        panels,
        foot: "Steady loads without sun; the furnace at full output.".into(),
    }
}

#[test]
fn demo_capacity() {
    save("capacity-demo", &capacity(vec![main_zone(), wing_zone()]).draw().unwrap());
    save("capacity-crowded", &capacity(vec![crowded()]).draw().unwrap());
}
