//! What must be in the walls before they close: the household's machines, stores by their fuel, inlets.
//!
//! Houses are invented. Start at the test names.

use crate::demo_job::{chicago, job};
use winterledger::comparison::compare_alone;
use winterledger::report::{build, walls};

/// What one option's row of that name says.
fn told(text: &str, changes: &[(&str, &str)], option: &str, what: &str) -> String {
    let c = compare_alone(&job(text, changes), &chicago()).unwrap();
    let rows = walls::table(&c).rows;
    let mut named = String::new();
    for row in &rows {
        if !row[0].shown().is_empty() {
            row[0].shown().clone_into(&mut named);
        }
        if named == option && row[1].shown() == what {
            return row[2].shown().to_owned();
        }
    }
    panic!("no row {what} of {option}")
}

const SMALL_TANK: &str = include_str!("../../data/small-tank.toml");

#[test]
fn propane_for_hot_water_drying_and_cooking_has_its_lines_caps_and_vents() {
    let gas = told(SMALL_TANK, &[], "Heat pump, small tank", "gas, oil, vent");
    let line = "gas line with valve, capped until it is set";
    for words in [
        format!("propane water heater: {line}, vent and air for burning"),
        format!("propane dryer: {line}, vent to the outdoors"),
        format!("propane range: {line}; a hood to the outdoors"),
    ] {
        assert!(gas.contains(&words), "{gas}");
    }
    assert!(!gas.contains("none needed"), "{gas}");
}

#[test]
fn electric_ones_have_circuits_with_the_amps_that_the_job_knows() {
    let input = ("equipment.\"electric water heater\".input", "4.5 kW");
    let option = "Heat pump, all electric";
    let circuits = told(SMALL_TANK, &[input], option, "circuits");
    // Hand-worked: 4,500 W / 240 V = 18.75 A, 23.44 with 125 %, each rounded up.
    let heater = "electric water heater: 1 circuit at 240 V for 19 A, 24 A with the margin";
    assert!(circuits.contains(heater), "{circuits}");
    assert!(circuits.contains("electric dryer: its own at 240 V; amps by its nameplate"), "{circuits}");
    assert!(circuits.contains("electric range: its own at 240 V; amps by its nameplate"), "{circuits}");
    assert!(!circuits.contains("where the panel is checked"), "no panel was checked: {circuits}");
    let bare = told(SMALL_TANK, &[("house.panel_spare", "100 A")], option, "circuits");
    assert!(bare.contains("electric water heater: its own at 240 V; amps by its nameplate"), "{bare}");
    let left_out = "not counted where the panel is checked, which knows strips and baseboards alone: ";
    assert!(
        bare.contains(&format!("{left_out}electric water heater, electric range, electric dryer")),
        "{bare}"
    );
    let gas = told(SMALL_TANK, &[], option, "gas, oil, vent");
    assert!(gas.starts_with("none needed") && gas.contains("electric dryer: vent"), "{gas}");
}

#[test]
fn wood_comes_through_no_hose_and_nothing_asks_for_an_inlet_of_no_kilowatts() {
    let wood = |option: &str, what: &str| told(crate::stoves::HOUSE, &[], option, what);
    let store = wood("Stove, base 9", "tank and truck");
    assert!(store.starts_with("a store for cord wood: dry and aired") && !store.contains("hose"), "{store}");
    // One stage of 9 kW at 659 ft, as in `stoves`.
    assert!(
        wood("Stove, base 9", "generator inlet").starts_with("inlet and transfer switch for 9.5 kW: strips")
    );
    assert!(wood("Stove alone", "generator inlet").starts_with("none for heat"));
}

/// The remark under a table of the comparison of `text`.
fn remark(text: &str, table: &str) -> String {
    let c = compare_alone(&job(text, &[]), &chicago()).unwrap();
    let tables = build::report(&c).tables;
    tables.iter().find(|t| t.name == table).unwrap().remark.clone().unwrap()
}

#[test]
fn what_the_watts_leave_out_and_what_cannot_fail_is_said() {
    let watts = remark(SMALL_TANK, "power_out");
    assert!(watts.contains("Hot water by electric water heater needs power too"), "{watts}");
    assert!(!watts.contains("need a blower"), "no strips stand first there: {watts}");
    // The demonstration's electric furnace is strips alone in ducts.
    let furnace = remark(&crate::demo_job::text(), "power_out");
    assert!(
        furnace.contains("Strips that run alone in their ducts need a blower")
            && !furnace.contains("Hot water by"),
        "{furnace}"
    );
    let fails = "A stove filled by hand has no part here that fails";
    assert!(remark(crate::stoves::HOUSE, "worst_failures").contains(fails));
    assert!(!remark(SMALL_TANK, "worst_failures").contains(fails));
}
