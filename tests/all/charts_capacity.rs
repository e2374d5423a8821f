//! What the capacity chart draws of the demonstration's machines, and of changes of it.

use crate::demo_job::compared;
use winterledger::report::capacity_picture::capacity;
use winterledger::report::charts::{CapacityPanel, MachineCurve};
use winterledger::report::figures::Measure;

fn main_zone(changes: &[(&str, &str)]) -> (CapacityPanel, String) {
    let c = compared(changes);
    let chart = capacity(&c, Measure(c.units), "");
    let svg = chart.draw().unwrap();
    (chart.panels.into_iter().next().unwrap(), svg)
}

fn line<'a>(panel: &'a CapacityPanel, name: &str) -> &'a MachineCurve {
    panel.machines.iter().find(|m| m.name == name).unwrap()
}

#[test]
fn the_demo_chart_draws_its_lock_out_and_says_off_at_a_cut_out() {
    use winterledger::report::capacity_picture::capacity;
    use winterledger::report::figures::Measure;
    let c = compared(&[]);
    let chart = capacity(&c, Measure(c.units), "");
    // As typed in the job: lock-out 15 degF in the main zone, cut-outs at −17 and −18 degF.
    let marks = |zone: usize| {
        let all = chart.panels[zone].marks.iter().map(|m| format!("{} {:.0}", m.label, m.temperature));
        all.collect::<Vec<_>>()
    };
    assert_eq!(marks(0), ["design 0", "coldest planned -22", "compressor lock-out 15"]);
    assert_eq!(marks(1), ["design 0", "coldest planned -22"]);
    let svg = chart.draw().unwrap();
    assert!(svg.contains("off at \u{2212}17 °F") && svg.contains("off at \u{2212}18 °F"));
    // The most hours of a step are 773 (bins of the place, tests/all/commands_weather.rs); the axis ends round.
    let says = |words: &str| svg.lines().any(|line| line.trim() == words);
    assert!(says("1,000") && !says("773"), "a round end");
}

#[test]
fn between_cut_out_and_cut_on_the_line_is_dashed_and_says_so() {
    let (panel, svg) = main_zone(&[("equipment.main heat pump.cut_on", "-5 degF")]);
    let pump = line(&panel, "main heat pump");
    // As typed: off at −17 °F, on again above −5 °F.
    assert!((pump.on_again.unwrap() + 5.0).abs() < 1e-9 && (pump.greatest[0].0 + 17.0).abs() < 1e-9);
    assert!(svg.contains("off at \u{2212}17 °F, on again above \u{2212}5 °F"));
    let words = "on or off: off until it is warmer, once it was off";
    assert!(svg.contains(words) && !main_zone(&[]).1.contains(words));
}

#[test]
fn no_line_goes_below_a_lock_out_that_every_option_with_the_machine_has() {
    let pair = |option: &str| {
        let zone = format!("option.{option}.zone.main.");
        let both = "[\"main heat pump\", \"propane furnace\"]".to_owned();
        [(format!("{zone}heating"), both), (format!("{zone}compressor_lockout"), "20 degF".to_owned())]
    };
    let changes: Vec<_> = ["Heat pumps with strips", "Heat pumps alone"].into_iter().flat_map(pair).collect();
    let changes: Vec<_> = changes.iter().map(|(key, value)| (key.as_str(), value.as_str())).collect();
    let (panel, svg) = main_zone(&changes);
    // The third option with it keeps its own 15 °F; without the changes two have none, and it goes to its cut-out.
    assert!(
        (line(&panel, "main heat pump").greatest[0].0 - 15.0).abs() < 1e-9 && svg.contains("off below 15 °F")
    );
    assert!((line(&main_zone(&[]).0, "main heat pump").greatest[0].0 + 17.0).abs() < 1e-9);
}

#[test]
fn machines_whose_lines_are_the_same_are_one_line_that_names_both_and_their_options() {
    let alike = [
        ("equipment.oil furnace.input", "60000 Btu/h"),
        ("equipment.oil furnace.afue", "0.95"),
        ("equipment.oil furnace.blower", "400 W"),
        ("equipment.propane furnace.input", "60000 Btu/h"),
        ("equipment.propane furnace.afue", "0.95"),
        ("equipment.propane furnace.blower", "400 W"),
    ];
    let (panel, svg) = main_zone(&alike);
    let both = line(&panel, "propane furnace and oil furnace");
    assert_eq!(both.options, "in \u{201c}Propane furnace\u{201d}, \u{201c}Oil furnace\u{201d}");
    assert!(svg.contains("propane furnace and oil furnace"));
}
