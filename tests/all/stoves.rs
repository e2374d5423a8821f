//! A stove that is given so much fuel a day, wherever a report tells what it carries: one rule, a day's fuel
//! spread over the day, against figures worked by hand.
//!
//! The house is invented. Start at the test names.

use crate::sheet::{Made, made};
use std::sync::LazyLock;
use winterledger::comparison::Comparison;
use winterledger::comparison::working::{Moment, work_out};
use winterledger::report::capacity_picture;
use winterledger::report::figures::Measure;
use winterledger::report::working::lines;
use winterledger::units::fahrenheit_to_celsius;

/// 36 kBtu/h at 0 °F, nothing needed at 62 °F: 36/70 kBtu/h for each °F below that. 400 kBtu a day at 0.70 are
/// 280/24 = 11.667 kBtu/h, of 45·0.7 = 31.5 at full fire; the baseboard gives 9 kW = 30.709 kBtu/h.
pub(crate) const HOUSE: &str = r#"
format = 1
[job]
title = "Stoves (invented)"
[site]
name = "Invented place"
weather = "il-chicago"
extreme_low = "-20 degF"
[house]
floor_area = "2200 ft2"
[[house.zone]]
name = "main"
design_load = "36 kBtu/h"
design_temperature = "0 degF"
indoor = "70 degF"
balance_temperature = "62 degF"
design_load_includes_ducts = false
[[equipment]]
name = "wood stove"
kind = "wood_stove"
fuel = "cord_wood"
input = "45 kBtu/h"
efficiency = 0.70
daily_fuelling = "400 kBtu"
[[equipment]]
name = "base 9"
kind = "resistance"
ducted = false
stages = ["9 kW"]
[[equipment]]
name = "base 15"
kind = "resistance"
ducted = false
stages = ["15 kW"]
[[option]]
name = "Stove, base 9"
[[option.zone]]
zone = "main"
heating = ["wood stove", "base 9"]
[[option]]
name = "Stove, base 15"
[[option.zone]]
zone = "main"
heating = ["wood stove", "base 15"]
[[option]]
name = "Stove alone"
[[option.zone]]
zone = "main"
heating = ["wood stove"]
[prices.electricity]
price = "0.155 $/kWh"
[prices.cord_wood]
price = "280 $/cord"
"#;

const BTU_PER_KWH: f64 = 3_412.141_633;

fn house() -> &'static Made {
    static MADE: LazyLock<Made> = LazyLock::new(|| made(HOUSE));
    &MADE
}

fn near(ours: f64, expected: f64) {
    assert!((ours - expected).abs() <= 1e-6 * expected.abs().max(1.0), "{ours}, expected {expected}");
}

#[test]
fn what_a_stove_carries_alone_is_its_days_fuel_spread_over_the_day_in_every_table() {
    let c = &house().c;
    let lasting_kw = 280_000.0 / 24.0 / BTU_PER_KWH;
    for option in &c.options {
        let (zone, night) = (&option.zones[0], &option.cold_night.zones[0]);
        // It carries 36/70·(62 − t) kBtu/h down to 62 − 11.667·70/36 °F = 39.315 °F, not to 1 °F at full fire.
        let balance_f = 62.0 - 280.0 / 24.0 * 70.0 / 36.0;
        let found = zone.first_heater_balance_c.unwrap();
        assert!((found - fahrenheit_to_celsius(balance_f)).abs() < 2e-3, "{found}");
        near(zone.at_design.first_capacity_kw, lasting_kw);
        near(night.first_machine.at_design.of_design_load, 280.0 / 24.0 / 36.0);
        near(night.first_machine.shares[0].of_design_load, 280.0 / 24.0 / 36.0);
        // Load sizers leave gains out: 36 − 11.667 kBtu/h are left for strips.
        near(night.strips_at_design.unwrap().shortfall.kw, (36_000.0 - 280_000.0 / 24.0) / BTU_PER_KWH);
        let row = zone.bins.iter().find(|row| row.need_kw > lasting_kw).unwrap();
        near(row.capacity_kw, lasting_kw);
        near(row.first_heat_kw, lasting_kw);
    }
}

#[test]
fn the_chart_draws_the_stove_and_its_balance_by_the_same_rule() {
    let chart = capacity_picture::capacity(&house().c, Measure(house().c.units), "");
    let panel = &chart.panels[0];
    // kBtu/h, hand-worked above.
    assert!(panel.machines[0].greatest.iter().all(|(_, kbtu)| (kbtu - 280.0 / 24.0).abs() < 1e-6));
    assert!((panel.balances[0].temperature - 39.315).abs() < 5e-3, "{:?}", panel.balances);
    assert!(chart.foot.contains("spread over the day"), "{}", chart.foot);
}

fn worked(c: &Comparison) -> String {
    lines(&work_out(c, 2, 0, Moment::Outdoor(fahrenheit_to_celsius(0.0))).unwrap(), c).join("\n")
}

#[test]
fn the_working_of_a_steady_hour_says_that_the_day_is_spread() {
    // 11.667 of 31.5 kBtu/h.
    let told = worked(&house().c);
    assert!(
        told.contains("spread over the day, for an hour: 4.8845 kWh / 13.1882 kWh = 0.3704 of that"),
        "{told}"
    );
}

#[test]
fn page_one_calls_no_night_warm_that_hangs_on_how_the_fire_is_fed() {
    let c = &house().c;
    // At −20 °F 82·36/70 = 42.171 kBtu/h are needed. Spread, 11.667 + 30.709 carry it; burned as wanted, 31.5 kBtu/h
    // take 45 of fuel, and 400 last 8.889 hours. 15 kW = 51.182 kBtu/h carry it without the stove.
    let lasts: Vec<Option<f64>> = c.options.iter().map(|o| o.zones[0].fuelling_lasts_h).collect();
    near(lasts[0].unwrap(), 400.0 / 45.0);
    assert_eq!(lasts[1], None);
    let told: Vec<&str> =
        house().sheet.front.bands[0].rows.iter().map(|row| row.entries[2].shown()).collect();
    assert!(told[0].starts_with("only if the day\u{2019}s fuel is spread over the day"), "{}", told[0]);
    assert!(told[0].ends_with("lasts 8\u{a0}hours"), "{}", told[0]);
    assert_eq!(told[1], "kept warm");
    // 11.667/42.171 = 0.2767.
    assert_eq!(told[2], "gets 27\u{a0}% of the heat it needs");
    let verdict = house().report.verdict.join(" ");
    assert!(
        verdict.contains("\u{201c}Stove, base 9\u{201d} only if the day\u{2019}s fuel is spread"),
        "{verdict}"
    );
}

#[test]
fn without_power_a_stove_heats_only_as_far_as_it_is_fed() {
    let c = &house().c;
    // 11.667 of the 31.886 kBtu/h needed at 0 °F.
    let share = 280.0 / 24.0 / (62.0 * 36.0 / 70.0);
    for option in &c.options {
        near(option.cold_night.power_out.without_power.unwrap(), share);
    }
    let table = house().report.tables.iter().find(|t| t.name == "power_out").unwrap();
    assert!(table.rows.iter().all(|row| row[1].shown() == "36\u{a0}% of need"));
    let told: Vec<&str> =
        house().sheet.front.bands[2].rows.iter().map(|row| row.entries[0].shown()).collect();
    // The baseboards run at all they have: 31.886 − 11.667 = 20.219 kBtu/h = 5.93 kW are wanted, one stage is 9,
    // which a plate of 9/(1 − 0.035·0.659) = 9.21 gives at 659 ft; the next half.
    assert_eq!(
        told[0],
        "36\u{a0}% of the house\u{2019}s heat without power; a generator of 9.5\u{a0}kW carries all"
    );
    assert_eq!(told[2], "36\u{a0}% of the heat that the house needs, without power");
}
