//! Inputs moved one at a time, against hand-worked differences and single runs of the same job.
//!
//! The houses and prices are invented. Start at the test names.

use crate::demo_job::{chicago, job, text, with_flat_propane};
use winterledger::comparison::compare;
use winterledger::job::{edit, reader};
use winterledger::study::sway;
use winterledger::study::tipping::Asked;

fn asked(option: &str, against: &str) -> Asked {
    Asked { option: Some(option.into()), against: Some(against.into()), fuel: None }
}

/// A flat price moves the difference by the gallons that the furnace burns times the change of price,
/// exactly: 2.20 a gallon at 0.5 and 1.75 times is 1.10 less and 1.65 more.
#[test]
fn an_input_that_a_cost_is_linear_in_is_exact() {
    let vary = "[[vary]]\nname = \"propane\"\nfuel = \"propane\"\nlow_times = 0.5\nhigh_times = 1.75\n";
    let (job, weather) = (job(&(with_flat_propane(&text()) + vary), &[]), chicago());
    let c = compare(&job, &weather).unwrap();
    let found = sway(&job, &weather, &c, &asked("Propane furnace", "Electric resistance")).unwrap().unwrap();
    assert!(!found.is_default);
    let [input] = found.inputs.as_slice() else { panic!("{found:?}") };
    let [furnace, other] = found.options.map(|i| &c.options[i]);
    let now = furnace.yearly_cost() - other.yearly_cost();
    let gallons = furnace.ledger.quantity(c.fuels.find("propane").unwrap());
    assert!(gallons > 100.0);
    assert!((input.low.difference() - (now - 1.10 * gallons)).abs() < 1e-9);
    assert!((input.high.difference() - (now + 1.65 * gallons)).abs() < 1e-9);
    assert!((input.span() - 2.75 * gallons).abs() < 1e-9);
}

#[test]
fn each_end_is_the_run_a_person_could_type_and_the_largest_span_comes_first() {
    let vary = "[[vary]]\nname = \"main\"\nkey = \"house.zone.main.design_load\"\nlow = \"30000 Btu/h\"\n\
                high = \"38000 Btu/h\"\nsource = \"invented\"\n\
                [[vary]]\nname = \"furnace\"\nkey = \"equipment.propane furnace.afue\"\nlow = \"0.80\"\n\
                high = \"0.96\"\n\
                [[vary]]\nname = \"nothing\"\nkey = \"site.extreme_low\"\nlow = \"-30 degF\"\nhigh = \"-20 degF\"\n";
    let (job, weather) = (job(&(text() + vary), &[]), chicago());
    let c = compare(&job, &weather).unwrap();
    let found = sway(&job, &weather, &c, &asked("Propane furnace", "Oil furnace")).unwrap().unwrap();
    let spans: Vec<f64> = found.inputs.iter().map(|input| input.span()).collect();
    assert!(spans.is_sorted_by(|a, b| a >= b), "{spans:?}");
    assert_eq!((found.inputs[2].name.as_str(), spans[2]), ("nothing", 0.0));
    let main = found.inputs.iter().find(|input| input.name == "main").unwrap();
    let typed = edit::set(&job.text, "house.zone.main.design_load", "38000 Btu/h").unwrap();
    let typed = compare(&reader::read("demo", typed).unwrap(), &weather).unwrap();
    assert_eq!(main.high.costs, found.options.map(|i| typed.options[i].yearly_cost()));
}

/// By default: the loads, the prices of the two fuels that they use, the weather; nobody asked for
/// two options, so those are the cheapest that keeps warm and the next that burns otherwise.
#[test]
fn without_inputs_of_its_own_a_job_gets_loads_prices_and_weather() {
    let (job, weather) = (job(&text(), &[]), chicago());
    let c = compare(&job, &weather).unwrap();
    let found = sway(&job, &weather, &c, &Asked::default()).unwrap().unwrap();
    assert!(found.is_default);
    let names = found.options.map(|i| c.options[i].design.name.as_str());
    assert_eq!(names, ["Heat pumps with strips", "Heat pump and propane"]);
    let mut inputs: Vec<&str> = found.inputs.iter().map(|input| input.name.as_str()).collect();
    inputs.sort_unstable();
    let expected = ["design loads", "price of electricity", "price of propane", "the year's weather"];
    assert_eq!(inputs, expected);
    // Neither of the two burns oil: its price is not moved.
}

#[test]
fn a_value_that_cannot_be_is_told_at_its_own_table() {
    let vary = "[[vary]]\nname = \"afue\"\nkey = \"equipment.propane furnace.afue\"\nlow = \"0.8\"\nhigh = \"1.2\"\n";
    let (job, weather) = (job(&(text() + vary), &[]), chicago());
    let c = compare(&job, &weather).unwrap();
    let told = sway(&job, &weather, &c, &Asked::default()).unwrap_err();
    assert_eq!(told[0].key.as_deref(), Some("vary.afue"));
    assert!(told[0].what.contains("equipment.propane furnace.afue"), "{told:?}");
}
