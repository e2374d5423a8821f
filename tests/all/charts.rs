//! Holds the charts to what a printer would ask: nothing clipped, nothing overlapping, the same bytes twice.
//!
//! Where words really stand is asked of usvg, which sets the type for the PNG. Every option, zone, machine and amount
//! here is invented. To look at the pictures, run with `CHART_SAMPLES` naming a folder. Start at `fit_to_print`.

// A test that cannot go on should stop.
#![allow(clippy::unwrap_used)]

use std::sync::Arc;

use resvg::usvg::{Group, Node, Options, Rect, Tree, fontdb};
use winterledger::report::charts::*;

fn bar(name: &str, parts: &[(&str, f64)], warning: Option<&str>) -> CostBar {
    CostBar {
        name: name.into(),
        segments: parts.iter().map(|(n, a)| ((*n).to_string(), *a)).collect(),
        total: parts.iter().map(|(_, a)| a).sum(),
        warning: warning.map(Into::into),
    }
}

fn cost(options: Vec<CostBar>) -> CostChart {
    CostChart {
        title: "What each way of heating costs in a year".into(),
        subtitle: "Quince Hollow, orchard house (invented); a typical year at Chicago O’Hare".into(),
        currency: "$".into(),
        spoken: "Yearly cost of each option, one bar an option.".into(),
        options,
        foot: "An estimate, not a quote. Cooling, standby and fixed charges are included. Prices are invented for demonstration.".into(),
    }
}

/// Amounts of the common uses, in this order; 0 leaves a use out.
const USES: [&str; 7] =
    ["space heating", "backup heat", "cooling", "standby", "fixed charge", "rent", "delivery"];

fn demo() -> CostChart {
    let option = |name, amounts: [f64; 7], warning| {
        let parts: Vec<_> = USES.into_iter().zip(amounts).filter(|(_, amount)| *amount > 0.0).collect();
        bar(name, &parts, warning)
    };
    let cold = Some("goes cold: 212 h");
    cost(vec![
        option("Heat pumps with strips", [1_722.0, 128.0, 196.0, 24.0, 432.0, 0.0, 0.0], None),
        option("Heat pumps alone", [1_690.0, 0.0, 196.0, 24.0, 432.0, 0.0, 0.0], cold),
        option("Propane furnace", [2_644.0, 12.0, 214.0, 9.0, 432.0, 96.0, 45.0], None),
        option("Heat pump and propane", [1_932.0, 12.0, 196.0, 24.0, 432.0, 96.0, 0.0], None),
        option("Oil furnace", [3_012.0, 12.0, 214.0, 9.0, 432.0, 0.0, 0.0], None),
        option("Electric resistance", [4_646.0, 0.0, 214.0, 0.0, 432.0, 0.0, 0.0], None),
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

/// Ink box of every text of a finished chart, in its pixels, with the words.
fn words_of(group: &Group, found: &mut Vec<(String, Rect)>) {
    for node in group.children() {
        match node {
            Node::Group(inner) => words_of(inner, found),
            Node::Text(text) => {
                let words: String = text.chunks().iter().map(|chunk| chunk.text()).collect();
                let ink = text.flattened().bounding_box().transform(text.abs_transform()).unwrap();
                found.push((words, ink));
            }
            _ => {}
        }
    }
}

fn read(svg: &str) -> Tree {
    let mut known = fontdb::Database::new();
    known.load_font_data(fonts::REGULAR.to_vec());
    known.load_font_data(fonts::SEMI_BOLD.to_vec());
    let options = Options { fontdb: Arc::new(known), ..Options::default() };
    Tree::from_str(svg, &options).unwrap()
}

/// Every word inside the sheet with 4 pixels to spare, and a clear pixel between any two.
pub(crate) fn fit_to_print(name: &str, svg: &str) {
    save(name, svg);
    let tree = read(svg);
    assert_eq!(tree.size().width(), 960.0);
    let mut words = Vec::new();
    words_of(tree.root(), &mut words);
    assert!(words.len() > 5, "{name} has words");
    for (place, (text, ink)) in words.iter().enumerate() {
        assert!(ink.width() > 0.5 && ink.height() > 0.5, "{name}: “{text}” is not drawn");
        let inside = ink.left() > 4.0
            && ink.top() > 4.0
            && ink.right() < tree.size().width() - 4.0
            && ink.bottom() < tree.size().height() - 4.0;
        assert!(inside, "{name}: “{text}” is clipped: {ink:?}");
        for (other, its) in &words[place + 1..] {
            let apart = ink.right() + 1.0 <= its.left()
                || its.right() + 1.0 <= ink.left()
                || ink.bottom() + 1.0 <= its.top()
                || its.bottom() + 1.0 <= ink.top();
            assert!(apart, "{name}: “{text}” {ink:?} overlaps “{other}” {its:?}");
        }
    }
}

#[test]
fn the_demo_cost_chart_is_fit_to_print_and_tells_all() {
    let svg = demo().draw().unwrap();
    fit_to_print("cost-demo", &svg);
    for words in [
        "Heat pumps alone",
        "goes cold: 212 h",
        "$2,342",
        "space heating",
        "hatched: not warm in every hour",
        "<desc>",
    ] {
        assert!(svg.contains(words), "{words}");
    }
}

#[test]
fn eight_options_with_names_of_sixty_letters_fit() {
    let name = "Cold-climate heat pump, oil boiler kept as the spare, wing 8";
    assert_eq!(name.chars().count(), 60);
    let wide = "WWWWW MMMMM WWWWW MMMMM WWWWW MMMMM WWWWW MMMMM WWWWW MMMMMM";
    assert_eq!(wide.chars().count(), 60);
    let unbroken = "W".repeat(60);
    let names = [name, wide, unbroken.as_str(), name, name, name, name, "Short"];
    let options = names.iter().enumerate().map(|(i, name)| {
        let parts =
            [("space heating", 900.0 + 700.0 * i as f64), ("backup heat", 100.0), ("fixed charge", 432.0)];
        bar(name, &parts, (i % 2 == 0).then_some("goes cold: 1,212 h, and below 45 °F for 96 h"))
    });
    let svg = cost(options.collect()).draw().unwrap();
    fit_to_print("cost-eight", &svg);
    assert!(!svg.contains("wing 8…"), "a common name of 60 letters is shown in full");
}

#[test]
fn one_option_no_cost_and_huge_cost_fit() {
    fit_to_print(
        "cost-one",
        &cost(vec![bar("Electric resistance", &[("space heating", 4_646.0), ("cooling", 214.0)], None)])
            .draw()
            .unwrap(),
    );
    fit_to_print(
        "cost-zero",
        &cost(vec![
            bar("Nothing", &[], None),
            bar("Free", &[("space heating", 0.0)], Some("goes cold: 8,760 h")),
        ])
        .draw()
        .unwrap(),
    );
    let huge = [
        bar("Huge", &[("space heating", 9e6), ("backup heat", 1e6)], None),
        bar("Small", &[("space heating", 900.0)], None),
    ];
    let svg = cost(huge.to_vec()).draw().unwrap();
    fit_to_print("cost-huge", &svg);
    assert!(svg.contains("$10,000,000"));
    fit_to_print("cost-most", &cost(vec![bar("Most", &[("space heating", 1e12)], None)]).draw().unwrap());
}

#[test]
fn thirteen_end_uses_and_more_fit() {
    let uses = [
        "base",
        "hot water",
        "cooking",
        "drying",
        "standby",
        "cooling",
        "space heating",
        "backup heat",
        "fixed charge",
        "delivery",
        "rent",
        "stock change",
        "upkeep",
        "melting snow",
    ];
    let parts: Vec<(&str, f64)> =
        uses.iter().enumerate().map(|(i, name)| (*name, 120.0 + 40.0 * i as f64)).collect();
    fit_to_print(
        "cost-uses",
        &cost(vec![bar("Everything", &parts, None), bar("Some", &parts[3..9], Some("goes cold: 3 h"))])
            .draw()
            .unwrap(),
    );
}

#[test]
fn what_cannot_be_shown_honestly_is_refused() {
    assert_eq!(cost(vec![]).draw(), Err(ChartError::Empty));
    for amount in [-1e13, f64::NAN, f64::INFINITY, 1e13] {
        let refused = cost(vec![bar("x", &[("cooling", amount)], None)]).draw();
        assert!(matches!(refused, Err(ChartError::BadValue(_))), "{amount}: {refused:?}");
    }
    let mut wrong = bar("Sum", &[("cooling", 100.0)], None);
    wrong.total = 102.0;
    assert_eq!(cost(vec![wrong]).draw(), Err(ChartError::PartsDiffer("Sum".into())));

    assert_eq!(capacity(vec![]).draw(), Err(ChartError::Empty));
    let with = |change: fn(&mut CapacityPanel)| {
        let mut panel = main_zone();
        change(&mut panel);
        capacity(vec![panel]).draw()
    };
    assert_eq!(with(|p| p.load.truncate(1)), Err(ChartError::Empty));
    assert_eq!(with(|p| p.machines[0].greatest.clear()), Err(ChartError::Empty));
    let bad: [fn(&mut CapacityPanel); 5] = [
        |p| p.load.reverse(),
        |p| p.load[0].1 = f64::NAN,
        |p| p.hours[3].1 = -1.0,
        |p| p.balances[0].temperature = f64::INFINITY,
        |p| p.marks[0].temperature = 1e300,
    ];
    assert!(bad.into_iter().all(|change| matches!(with(change), Err(ChartError::BadValue(_)))));
}

#[test]
fn marks_that_xml_forbids_or_claims_do_no_harm() {
    let svg = cost(vec![bar("<b>\u{0}&\"tag\"", &[("space <heating>", 10.0)], Some("cold & \u{1}dark"))])
        .draw()
        .unwrap();
    fit_to_print("cost-marks", &svg);
}

#[test]
fn svg_and_png_are_the_same_bytes_twice() {
    let (a, b) = (demo().draw().unwrap(), demo().draw().unwrap());
    assert!(a == b && png(&a, 2.0).unwrap() == png(&b, 2.0).unwrap());
    let chart = capacity(vec![main_zone(), wing_zone()]);
    let (a, b) = (chart.draw().unwrap(), chart.draw().unwrap());
    assert!(a == b && png(&a, 1.0).unwrap() == png(&b, 1.0).unwrap());
}

fn machine(name: &str, greatest: &[(f64, f64)], least: Option<&[(f64, f64)]>) -> MachineCurve {
    MachineCurve {
        options: String::new(),
        on_again: None,
        name: name.into(),
        option: 0,
        greatest: greatest.to_vec(),
        least: least.map(<[_]>::to_vec),
        off_at_end: false,
    }
}

/// Invented hours of a cold winter, 5-degree bins.
const HOURS: [(f64, f64); 19] = [
    (-17.5, 3.0),
    (-12.5, 9.0),
    (-7.5, 22.0),
    (-2.5, 51.0),
    (2.5, 96.0),
    (7.5, 151.0),
    (12.5, 218.0),
    (17.5, 301.0),
    (22.5, 428.0),
    (27.5, 602.0),
    (32.5, 815.0),
    (37.5, 742.0),
    (42.5, 611.0),
    (47.5, 560.0),
    (52.5, 588.0),
    (57.5, 640.0),
    (62.5, 690.0),
    (67.5, 720.0),
    (72.5, 660.0),
];

fn zone(name: &str, loss: f64, machines: Vec<MachineCurve>, balances: &[(&str, f64, f64)]) -> CapacityPanel {
    CapacityPanel {
        zone: name.into(),
        load: vec![(-22.0, loss * 84.0), (62.0, 0.0), (65.0, 0.0)],
        machines,
        balances: balances
            .iter()
            .map(|(m, t, l)| Balance { machine: (*m).into(), temperature: *t, load: *l })
            .collect(),
        marks: vec![
            Mark { label: "coldest planned".into(), temperature: -22.0 },
            Mark { label: "design".into(), temperature: 0.0 },
        ],
        hours: HOURS.to_vec(),
    }
}

const MAIN: [(f64, f64); 8] = [
    (-17.0, 18.8),
    (-13.0, 20.5),
    (-5.0, 24.0),
    (5.0, 28.0),
    (17.0, 32.0),
    (35.0, 33.0),
    (47.0, 38.0),
    (65.0, 38.0),
];
const LEAST: [(f64, f64); 7] =
    [(-13.0, 9.0), (-5.0, 9.5), (5.0, 10.0), (17.0, 10.0), (35.0, 10.0), (47.0, 10.5), (65.0, 10.5)];
const WING: [(f64, f64); 8] = [
    (-18.0, 6.8),
    (-13.0, 8.0),
    (-5.0, 9.5),
    (5.0, 11.0),
    (17.0, 13.0),
    (35.0, 13.5),
    (47.0, 15.5),
    (65.0, 15.5),
];

fn main_zone() -> CapacityPanel {
    zone(
        "Main part",
        0.475,
        vec![
            machine("main heat pump", &MAIN, Some(&LEAST)),
            machine("propane furnace", &[(-22.0, 57.0), (65.0, 57.0)], None),
        ],
        &[("main heat pump", 2.9, 27.3)],
    )
}

fn wing_zone() -> CapacityPanel {
    zone(
        "Studio wing",
        0.125,
        vec![
            machine("wing heat pump", &WING, None),
            machine("wing baseboard 2 kW", &[(-22.0, 6.8), (65.0, 6.8)], None),
        ],
        &[("wing heat pump", -9.0, 8.8), ("wing baseboard 2 kW", 7.4, 6.8)],
    )
}

fn crowded() -> CapacityPanel {
    let names = [
        "Heat pump A, two stages",
        "Heat pump B, variable speed with a long name that wraps",
        "Heat pump C",
        "Heat pump D",
        "Heat pump E",
    ];
    let machines = names
        .iter()
        .enumerate()
        .map(|(i, name)| {
            let curve: Vec<_> = MAIN.iter().map(|(t, q)| (t + 0.4 * i as f64, q + 0.3 * i as f64)).collect();
            let least: Vec<_> = LEAST.iter().map(|(t, q)| (t + 0.4 * i as f64, q + 0.1 * i as f64)).collect();
            machine(name, &curve, Some(&least))
        })
        .collect();
    let balances: Vec<_> =
        names.iter().enumerate().map(|(i, n)| (*n, 2.9 - 0.4 * i as f64, 27.3 + 0.2 * i as f64)).collect();
    zone("Main part, five machines that are nearly alike", 0.475, machines, &balances)
}

fn capacity(panels: Vec<CapacityPanel>) -> CapacityChart {
    CapacityChart {
        title: "Does the heat carry the cold?".into(),
        subtitle: "Heat needed and heat that can be given, by outdoor temperature; hours of a typical year"
            .into(),
        temperature_unit: "°F".into(),
        power_unit: "kBtu/h".into(),
        panels,
        foot: "Steady loads without sun; the furnace at full output.".into(),
    }
}

#[test]
fn capacity_panels_are_fit_to_print() {
    let svg = capacity(vec![main_zone()]).draw().unwrap();
    fit_to_print("capacity-one", &svg);
    for words in ["balance 3 °F", "off below \u{2212}17 °F", "heat needed", "design 0 °F", "main heat pump"]
    {
        assert!(svg.contains(words), "{words}");
    }
    fit_to_print("capacity-two", &capacity(vec![main_zone(), wing_zone()]).draw().unwrap());
    fit_to_print("capacity-three", &capacity(vec![main_zone(), wing_zone(), crowded()]).draw().unwrap());
}

#[test]
fn hours_colder_than_every_line_are_not_hidden() {
    let mut panel = main_zone();
    panel.hours.insert(0, (-27.5, 1.0));
    panel.hours.insert(1, (-22.5, 2.0));
    let bars = |panel: CapacityPanel| capacity(vec![panel]).draw().unwrap().matches("#A9B4C2").count();
    // Hand-counted: 17 of the 19 bins end at or below 65 °F; two colder ones come on top.
    assert_eq!((bars(main_zone()), bars(panel.clone())), (17, 19));
    let svg = capacity(vec![panel]).draw().unwrap();
    fit_to_print("capacity-cold", &svg);
    // The furnace is drawn as far as the load is, which does not make it off where the drawing ends.
    assert_eq!(svg.matches("off below").count(), 1);
}

#[test]
fn five_machines_that_are_nearly_alike_keep_their_words_apart() {
    let svg = capacity(vec![crowded()]).draw().unwrap();
    fit_to_print("capacity-crowded", &svg);
    assert_eq!(svg.matches("off below").count(), 5);
    let mut long = crowded();
    long.zone = "A zone with a name that goes on ".repeat(8);
    for (i, machine) in long.machines.iter_mut().enumerate() {
        machine.name = format!("{i} {}", "W".repeat(58));
    }
    long.marks.push(Mark { label: "coldest night in thirty years".into(), temperature: -21.0 });
    long.marks.push(Mark { label: "design again".into(), temperature: 0.5 });
    fit_to_print("capacity-long", &capacity(vec![long]).draw().unwrap());
}

#[test]
fn si_units_small_loads_and_bare_panels_fit() {
    let celsius = |t: f64| (t - 32.0) / 1.8;
    let mut panel = wing_zone();
    let lines = panel.machines.iter_mut().map(|m| &mut m.greatest).chain([&mut panel.load]);
    lines.flatten().for_each(|point| *point = (celsius(point.0), point.1 * 0.02));
    panel.balances.iter_mut().for_each(|b| (b.temperature, b.load) = (celsius(b.temperature), b.load * 0.02));
    panel.marks.iter_mut().for_each(|m| m.temperature = celsius(m.temperature));
    panel.hours = (-30..20).map(|t| (f64::from(t) + 0.5, f64::from(200 - t * t / 5))).collect();
    let mut chart = capacity(vec![panel]);
    (chart.temperature_unit, chart.power_unit) = ("°C".into(), "kW".into());
    fit_to_print("capacity-si", &chart.draw().unwrap());
    let bare =
        CapacityPanel { machines: vec![], balances: vec![], marks: vec![], hours: vec![], ..main_zone() };
    fit_to_print("capacity-bare", &capacity(vec![bare]).draw().unwrap());
}

fn spent(lines: Vec<SpentLine>) -> SpentChart {
    SpentChart {
        title: "What will have been spent by the end of each year".into(),
        subtitle: "Quince Hollow, orchard house (invented)".into(),
        currency: "$".into(),
        lines,
        foot: "In money of today. Amounts are invented for demonstration.".into(),
    }
}

fn line(name: &str, first: f64, yearly: f64, is_base: bool, crossings: &[(f64, f64)]) -> SpentLine {
    let spent = (0..=20).map(|year| first + yearly * f64::from(year)).collect();
    SpentLine { name: name.into(), option: 0, spent, is_base, crossings: crossings.to_vec() }
}

#[test]
fn the_chart_of_what_has_been_spent_is_fit_to_print_and_marks_where_lines_meet() {
    // Hand-worked: 6,000 more, 800 a year less: level after 7.5 years at 16,000 + 7.5 · 3,600 = 43,000.
    let chart = spent(vec![
        line("Propane furnace", 16_000.0, 3600.0, true, &[]),
        line("Heat pumps with strips", 22_000.0, 2800.0, false, &[(7.5, 43_000.0)]),
        line("Electric resistance", 12_000.0, 5000.0, false, &[(4_000.0 / 1400.0, 26_285.7)]),
    ]);
    let svg = chart.draw().unwrap();
    fit_to_print("spent", &svg);
    for words in
        ["7.5 years", "2.9 years", "Propane furnace", "$88,000", "as much spent as on that", "<desc>"]
    {
        assert!(svg.contains(words), "{words}");
    }
    let one = spent(vec![line("alone", 0.0, 1.0, true, &[])]).draw().unwrap();
    fit_to_print("spent-one", &one);
}

#[test]
fn a_chart_of_what_has_been_spent_refuses_what_it_cannot_show() {
    assert_eq!(spent(vec![]).draw(), Err(ChartError::Empty));
    let short = SpentLine { spent: vec![1.0], ..line("a", 0.0, 1.0, true, &[]) };
    assert_eq!(spent(vec![short.clone()]).draw(), Err(ChartError::Empty));
    let refused = |lines| matches!(spent(lines).draw(), Err(ChartError::BadValue(_)));
    assert!(refused(vec![line("a", 0.0, 1.0, true, &[]), short]));
    assert!(refused(vec![line("a", f64::NAN, 1.0, true, &[])]));
    assert!(refused(vec![line("a", 2e9, 1.0, true, &[])]));
    assert!(refused(vec![line("a", 0.0, 1.0, true, &[(21.0, 5.0)])]));
}
