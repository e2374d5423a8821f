//! Prices at which two options cost the same: hand-worked houses of three temperatures, cases with two
//! such prices, one and none, jumps, and the whole engine run again at the price that was found.
//!
//! The houses and prices are invented but where a figure says where it comes from. Start at the test
//! names.

use crate::demo_job::{chicago, job, text, with_flat_propane, with_tank};
use winterledger::comparison::{Comparison, Reruns, compare};
use winterledger::job::{Job, reader};
use winterledger::study::change::{Change, Scenario};
use winterledger::study::crossing::Crossing;
use winterledger::study::tipping::{Asked, Tipping, TippingPrice};
use winterledger::study::{price_map, scenarios, tipping};
use winterledger::weather::{Bin, BinTable, Weather};

/// Loads of 3, 5 and 8 kW: 0.2 kW/K below 20 °C.
fn three_temperatures() -> Weather {
    let bin = |temperature_c, hours| Bin { temperature_c, hours };
    Weather::Bins(BinTable {
        place: "three temperatures".into(),
        bins: vec![bin(5.0, 2000.0), bin(-5.0, 1500.0), bin(-20.0, 500.0)],
        ..winterledger::comparison::compare(&job(&text(), &[]), &chicago()).unwrap().bins
    })
}

/// COP 3.5, 2.5 and 1.8 there; an AFUE of 0.95, no blower; electricity at 0.15, propane at `propane`.
fn three_cops(propane: &str, options: &str) -> Job {
    let text = format!(
        "format = 1
[job]
title = \"three temperatures\"
[site]
name = \"hand-worked\"
weather_file = \"bins.csv\"
extreme_low = \"-20 degC\"
[house]
floor_area = \"100 m2\"
[[house.zone]]
name = \"main\"
design_load = \"8 kW\"
design_temperature = \"-20 degC\"
indoor = \"20 degC\"
balance_temperature = \"20 degC\"
design_load_includes_ducts = false
heat_capacity = \"0 kWh/K\"
[[equipment]]
name = \"pump\"
kind = \"heat_pump\"
ducted = false
speed = \"variable\"
capacity_basis = \"with_defrost\"
power_includes_indoor_fan = true
standby = \"0 W\"
heating = [
  {{ outdoor = \"-20 degC\", greatest = \"10 kW\", greatest_cop = 1.8 }},
  {{ outdoor = \"-5 degC\", greatest = \"10 kW\", greatest_cop = 2.5 }},
  {{ outdoor = \"5 degC\", greatest = \"10 kW\", greatest_cop = 3.5 }},
]
[[equipment]]
name = \"furnace\"
kind = \"furnace\"
fuel = \"propane\"
ducted = false
input = \"12 kW\"
afue = 0.95
blower = \"0 W\"
standby = \"0 W\"
{options}
[prices.electricity]
price = \"0.15 $/kWh\"
[prices.propane]
price = \"{propane}\"
"
    );
    reader::read("three.toml", text).unwrap_or_else(|p| panic!("{p:?}"))
}

fn option(name: &str, heating: &str, more: &str) -> String {
    format!(
        "[[option]]\nname = \"{name}\"\n[[option.zone]]\nzone = \"main\"\nheating = [{heating}]\n{more}\n"
    )
}

fn three_options() -> String {
    [
        option("pump", "\"pump\"", ""),
        option("furnace", "\"furnace\"", ""),
        option("both", "\"pump\", \"furnace\"", "changeover = \"cost\""),
    ]
    .concat()
}

fn asked(option: &str, against: &str, fuel: &str) -> Asked {
    let name = |name: &str| Some(name.to_owned());
    Asked { option: name(option), against: name(against), fuel: name(fuel) }
}

fn found(job: &Job, weather: &Weather, asked: &Asked) -> (Comparison, Tipping) {
    let c = compare(job, weather).unwrap();
    let found = tipping(job, weather, &c, asked).unwrap().unwrap();
    (c, found)
}

fn of<'a>(c: &Comparison, tipping: &'a Tipping, fuel: &str) -> &'a TippingPrice {
    tipping.prices.iter().find(|p| Some(p.fuel) == c.fuels.find(fuel)).unwrap()
}

/// The prices at which they cost the same, of a selling unit.
fn prices(p: &TippingPrice) -> Vec<f64> {
    p.found.iter().map(|one| one.span().0 * p.today).collect()
}

/// Hand-worked: heat 6,000 + 7,500 + 4,000 kWh; by the pump (6,000/3.5 + 7,500/2.5 + 4,000/1.8) · 0.15 =
/// 1,040.47619; a gallon gives 26.8019 · 0.95 kWh of heat, so 17,500 kWh cost as much at 1.51385 a gallon.
/// At 2.50 a gallon the furnace costs 1,718.27; the pump as much at 0.247713 a kWh.
#[test]
fn a_furnace_equals_a_pump_at_the_hand_worked_prices() {
    let weather = three_temperatures();
    let job = three_cops("2.50 $/gal", &three_options());
    let (c, found) = found(&job, &weather, &asked("pump", "furnace", "propane"));
    assert!((c.options[0].yearly_cost() - 1040.47619).abs() < 1e-5, "{}", c.options[0].yearly_cost());
    let propane = of(&c, &found, "propane");
    let [at] = prices(propane)[..] else { panic!("{propane:?}") };
    assert!((at - 1.51385).abs() < 1e-5, "{at}");
    assert_eq!(propane.cheaper, [Some(1), Some(0)]);
    let [at] = prices(of(&c, &found, "electricity"))[..] else { panic!() };
    assert!((at - 0.247713).abs() < 1e-6, "{at}");
    // Everything is in proportion to the load: another load has the same price.
    let (low, high) = propane.range().unwrap();
    assert!((low - 1.51385).abs() < 1e-5 && (high - 1.51385).abs() < 1e-5, "{low} {high}");
}

/// Hand-worked: on cost each temperature goes to propane below 0.15 · 26.8019 · 0.95 / COP a gallon: at
/// 1.091220, 1.527708 and 2.121817. Up to the first the two-fuel house costs what the furnace does, from
/// the last what the pump does; a hundredth of the currency is 0.00003 a gallon there.
#[test]
fn two_fuels_on_cost_are_level_with_each_one_as_far_as_it_runs_alone() {
    let weather = three_temperatures();
    let job = three_cops("1.50 $/gal", &three_options());
    let (c, with_furnace) = found(&job, &weather, &asked("both", "furnace", "propane"));
    let propane = of(&c, &with_furnace, "propane");
    let [Crossing::Stretch(from, to)] = propane.found[..] else { panic!("{:?}", propane.found) };
    assert_eq!(from.at, 0.1);
    assert!((to.at * propane.today - 1.091220).abs() < 4e-5, "{}", to.at * propane.today);
    assert_eq!(propane.cheaper, [None, Some(2)]);
    let (c, with_pump) = found(&job, &weather, &asked("both", "pump", "propane"));
    let propane = of(&c, &with_pump, "propane");
    let [Crossing::Stretch(from, to)] = propane.found[..] else { panic!("{:?}", propane.found) };
    assert!((from.at * propane.today - 2.121817).abs() < 8e-5, "{}", from.at * propane.today);
    assert_eq!((to.at, &propane.cheaper[..]), (10.0, &[Some(2), None][..]));
}

/// Hand-worked, with G = 26.8019 · 0.95 kWh of heat a gallon and the price p: two fuels on cost come to
/// Σ min(heat · p / G, heat · 0.15 / COP), concave. Below 5 °C by furnace only and above by pump only
/// (compressor lock-out 0 °C) come to 6,000 · 0.15 / 3.5 + 11,500 p / G = 257.142857 + 11,500 p / G.
/// At p below 1.091220 the first is 17,500 p / G, less than the second until 6,000 p / G = 257.142857, at
/// which both have the same p = 1.091220: from there to 1.527708 both run alike and cost the same; above,
/// the first costs less. One stretch, no crossing.
#[test]
fn a_lockout_that_is_right_for_some_prices_is_level_over_those() {
    let weather = three_temperatures();
    let locked = option("locked", "\"pump\", \"furnace\"", "compressor_lockout = \"0 degC\"");
    let job = three_cops("1.30 $/gal", &(three_options() + &locked));
    let (c, found) = found(&job, &weather, &asked("both", "locked", "propane"));
    let propane = of(&c, &found, "propane");
    let [Crossing::Stretch(from, to)] = propane.found[..] else { panic!("{:?}", propane.found) };
    assert!((from.at * propane.today - 1.091220).abs() < 4e-5, "{}", from.at * propane.today);
    assert!((to.at * propane.today - 1.527708).abs() < 4e-5, "{}", to.at * propane.today);
    assert_eq!(propane.cheaper, [Some(2), Some(2)]); // below the stretch and above it
}

/// Hand-worked, electricity at 0.15 and propane at p a gallon, G = 25.461805: two fuels on cost with a pump
/// whose COP is a fifth worse (2.8, 2, 1.44) against the lock-out of the case before with the good pump:
/// 257.142857 + 11,500 p / G. On cost it is 17,500 p / G up to p = 1.364025: they meet where
/// 6,000 p / G = 257.142857, p = 1.091220. Then all by the worse pump up from 2.652271: (6,000/2.8 +
/// 7,500/2 + 4,000/1.44) · 0.15 = 1,300.595238, which the other reaches at p = 2.310290 (too early), so
/// between 1.909635 (5 °C below by pump) and 2.652271: 321.428571 + 562.5 + 4,000 p / G =
/// 257.142857 + 11,500 p / G at 7,500 p / G = 626.785714, p = 2.127888.
#[test]
fn two_prices_are_both_found() {
    let weather = three_temperatures();
    let locked = option("locked", "\"pump\", \"furnace\"", "compressor_lockout = \"0 degC\"");
    let worse = option("worse", "\"worse pump\", \"furnace\"", "changeover = \"cost\"");
    let whole = three_cops("1.30 $/gal", &locked);
    let text = &whole.text;
    let (from, to) =
        (text.find("[[equipment]]").unwrap(), text.find("[[equipment]]\nname = \"furnace\"").unwrap());
    let pump = text[from..to].replace("\"pump\"", "\"worse pump\"");
    let pump = pump.replace("_cop = 1.8", "_cop = 1.44").replace("_cop = 2.5", "_cop = 2.0");
    let pump = pump.replace("_cop = 3.5", "_cop = 2.8");
    let job = three_cops("1.30 $/gal", &[pump, locked, worse].concat());
    let (c, found) = found(&job, &weather, &asked("worse", "locked", "propane"));
    let propane = of(&c, &found, "propane");
    let [first, second] = prices(propane)[..] else { panic!("{propane:?}") };
    assert!((first - 1.091220).abs() < 1e-5, "{first}");
    assert!((second - 2.127888).abs() < 1e-5, "{second}");
    assert_eq!(propane.cheaper, [Some(1), Some(0), Some(1)]);
}

/// Hand-worked: where the furnace's fuel is the other's too and it needs more of it, no price makes up
/// for it: an AFUE of 0.8 beside one of 0.95.
#[test]
fn where_one_needs_more_of_the_same_there_is_no_such_price() {
    let weather = three_temperatures();
    let text = three_cops("1.30 $/gal", &three_options()).text;
    let from = text.find("[[equipment]]\nname = \"furnace\"").unwrap();
    let to = text.find("[[option]]").unwrap();
    let old = text[from..to].replace("\"furnace\"\nkind", "\"old furnace\"\nkind").replace("0.95", "0.8");
    let job =
        three_cops("1.30 $/gal", &[old, three_options(), option("old", "\"old furnace\"", "")].concat());
    let (c, found) = found(&job, &weather, &asked("old", "furnace", "propane"));
    let propane = of(&c, &found, "propane");
    assert_eq!((propane.found.len(), &propane.cheaper[..]), (0, &[Some(1)][..]));
    assert_eq!(propane.range(), None);
}

/// The price that was found, typed as a scenario, and everything worked out again.
fn whole_engine_agrees(job: &Job, weather: &Weather, asked: &Asked) {
    let (c, found) = found(job, weather, asked);
    let full = Reruns::new(&c, weather).in_full();
    let mut checked = 0;
    for price in &found.prices {
        let id = &c.fuels.get(price.fuel).unwrap().id;
        for one in &price.found {
            let Crossing::Same(pair) = one else { panic!("{one:?}") };
            let changes = vec![Change::price(id, pair.at)];
            let there =
                Scenario { name: "x".into(), changes }.with(job, |changed| full.run(changed)).unwrap();
            let [first, second] = found.options.map(|i| there.options[i].yearly_cost());
            assert!((first - second).abs() < 0.005, "{id}: {first} {second}");
            assert!((first - pair.costs[0]).abs() < 0.005, "{id}: {first} {:?}", pair.costs);
            checked += 1;
        }
    }
    assert!(checked >= 1, "{found:?}");
}

#[test]
fn at_the_price_that_was_found_the_whole_engine_says_the_same_to_the_cent() {
    let weather = chicago();
    let demo = job(&text(), &[]);
    whole_engine_agrees(&demo, &weather, &Asked::default());
    whole_engine_agrees(&demo, &weather, &asked("Heat pumps with strips", "Propane furnace", "propane"));
    whole_engine_agrees(&job(&with_tank(), &[]), &weather, &Asked::default());
    let rule = "sharing = \"in_time\"                       # or \"whole_hour\"";
    let on_cost = job(&text().replace(rule, "changeover = \"cost\""), &[]);
    whole_engine_agrees(&on_cost, &weather, &asked("Oil furnace", "Heat pump and propane", "oil_no_2"));
    let tiers = "tier = [{ up_to = \"500 kWh\", price = \"0.15 $/kWh\" }, { price = \"0.2 $/kWh\" }]";
    let tiers = job(&text().replace("price = \"0.184 $/kWh\"", tiers), &[]);
    whole_engine_agrees(&tiers, &weather, &asked("Electric resistance", "Oil furnace", "oil_no_2"));
}

/// By the levers: a flat price moves a cost in proportion, so the price is today's less the difference
/// over the gallons by which the two differ.
#[test]
fn with_one_flat_price_it_is_todays_less_the_difference_over_the_gallons() {
    let (job, weather) = (job(&with_flat_propane(&text()), &[]), chicago());
    let (c, found) = found(&job, &weather, &Asked::default());
    let [first, second] = found.options.map(|i| &c.options[i]);
    let propane = c.fuels.find("propane").unwrap();
    let gallons = second.ledger.quantity(propane) - first.ledger.quantity(propane);
    let expected = 2.20 - (second.yearly_cost() - first.yearly_cost()) / gallons;
    let [at] = prices(of(&c, &found, "propane"))[..] else { panic!() };
    assert!((at - expected).abs() < 1e-9, "{at} {expected}");
    assert!((of(&c, &found, "propane").today - 2.20).abs() < 1e-12);
}

#[test]
fn the_map_has_the_same_price_where_its_line_crosses_todays_and_marks_what_scenarios_pay() {
    let (job, weather) = (job(&with_flat_propane(&text()), &[]), chicago());
    let (c, found) = found(&job, &weather, &Asked::default());
    let table = scenarios(&job, &weather, &c).unwrap();
    let map = price_map(&job, &weather, &c, &found, &table).unwrap().unwrap();
    let [today, electricity] = map.marks[0].at;
    assert_eq!(map.marks[0].name, None);
    assert!((today - 2.20).abs() < 1e-9 && (electricity - 0.184).abs() < 1e-9);
    // "propane × 2", "electricity + 30 %" and both of the demonstration.
    let named = |name: &str| map.marks.iter().find(|m| m.name.as_deref() == Some(name)).unwrap().at;
    let near = |a: [f64; 2], b: [f64; 2]| a.iter().zip(b).all(|(a, b)| (a - b).abs() < 1e-9);
    assert!(near(named("propane \u{d7} 2"), [4.40, 0.184]));
    assert!(near(named("electricity + 30 %"), [2.20, 0.2392]));
    assert!(near(named("both"), [4.40, 0.2392]));
    // The field is a plane where costs are sums: its value at a grid point is that of the scenario run.
    let (row, column) = (map.up.len() - 1, map.across.len() - 1);
    let full = Reruns::new(&c, &weather).in_full();
    let changes = vec![
        Change::price("propane", map.across[column] / today),
        Change::price("electricity", map.up[row] / electricity),
    ];
    let there = Scenario { name: "x".into(), changes }.with(&job, |changed| full.run(changed)).unwrap();
    let [first, second] = map.options.map(|i| there.options[i].yearly_cost());
    assert!((first - second - map.costs_more[row][column]).abs() < 0.005);
}

/// Typed in the job: a winter with both prices, and one with propane's alone.
#[test]
fn winters_gone_by_stand_in_the_map_at_their_own_prices() {
    let past = "price = \"2.20 $/gal\"\npast = [{ name = \"2013/14\", price = \"3.60 $/gal\" }, \
                { name = \"2017/18\", price = \"2.45 $/gal\" }]";
    let whole = with_flat_propane(&text()).replace("price = \"2.20 $/gal\"", past);
    let electricity = "price = \"0.184 $/kWh\"";
    let whole = whole.replace(
        electricity,
        &format!("{electricity}\npast = [{{ name = \"2013/14\", price = \"12.5 c/kWh\" }}]"),
    );
    let (job, weather) = (job(&whole, &[]), chicago());
    let (c, found) = found(&job, &weather, &Asked::default());
    let table = scenarios(&job, &weather, &c).unwrap();
    let map = price_map(&job, &weather, &c, &found, &table).unwrap().unwrap();
    let named = |name: &str| map.marks.iter().find(|m| m.name.as_deref() == Some(name)).unwrap().at;
    let near = |a: [f64; 2], b: [f64; 2]| a.iter().zip(b).all(|(a, b)| (a - b).abs() < 1e-9);
    assert!(near(named("2013/14"), [3.60, 0.125]), "{:?}", named("2013/14"));
    assert!(near(named("2017/18"), [2.45, 0.184]));
}

#[test]
fn names_that_do_not_exist_are_told_with_those_that_do() {
    let (job, weather) = (job(&text(), &[]), chicago());
    let c = compare(&job, &weather).unwrap();
    let refused = |asked: Asked| tipping(&job, &weather, &c, &asked).unwrap_err()[0].clone();
    let told = refused(asked("no such", "Oil furnace", "propane"));
    assert!(told.allowed.unwrap().contains("Propane furnace"));
    let told = refused(asked("Propane furnace", "Oil furnace", "peat"));
    assert!(told.allowed.unwrap().contains("propane"));
    assert!(refused(asked("Oil furnace", "Oil furnace", "propane")).help.unwrap().contains("two options"));
}
