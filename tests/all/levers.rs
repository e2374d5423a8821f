//! Prices moved by levers against the whole engine at the same prices.
//!
//! Start at the random settings.

use crate::demo_job::{chicago, compared, job, text, with_tank};
use crate::oracle_agrees::dice::Dice;
use winterledger::calendar::Stamp;
use winterledger::comparison::{Comparison, compare};
use winterledger::study::levers::WhyOff;
use winterledger::study::{OptionLevers, levers};

const MONTHS: [&str; 12] =
    ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];

/// The demonstration with a second spike that shares 20 to 28 February with the first.
pub(crate) fn two_spikes(text: &str) -> String {
    let spike =
        "[[prices.propane.spike]]\nname = \"late snow\"\nfrom = \"02-20\"\nto = \"03-15\"\ntimes = 1.25\n";
    text.replace("[prices.oil_no_2]", &format!("{spike}\n[prices.oil_no_2]"))
}

/// Every price typed anew, as a person would do it.
pub(crate) fn typed(text: &str, electricity: f64, propane: f64, [snap, snow]: [f64; 2]) -> Comparison {
    let plain = compared(&[]);
    let fuel = |id: &str| plain.fuels.get(plain.fuels.find(id).unwrap()).unwrap();
    let of = |id: &str| plain.prices.of(plain.fuels.find(id).unwrap()).unwrap();
    let unit = fuel("propane").kwh_per_unit;
    let mut changes: Vec<(String, String)> = Vec::new();
    for (month, name) in (1..).zip(MONTHS) {
        let noon = Stamp { month, day: 15, hour: 12, weekday: 0 };
        let per_kwh = of("propane").on(noon).base_per_kwh;
        let key = format!("prices.propane.price_by_month.{name}");
        changes.push((key, format!("{:.17} $/gal", per_kwh * unit * propane)));
    }
    changes.push(("prices.electricity.price".into(), format!("{:.17} $/kWh", 0.184 * electricity)));
    changes.push(("prices.propane.spike.January cold snap.times".into(), format!("{snap:?}")));
    changes.push(("prices.propane.spike.late snow.times".into(), format!("{snow:?}")));
    let changes: Vec<(&str, &str)> = changes.iter().map(|(k, v)| (k.as_str(), v.as_str())).collect();
    compare(&job(text, &changes), &chicago()).unwrap()
}

/// Settings drawn from `seed`, so many, each told by the levers and by the whole engine.
fn agree_to_the_cent(text: &str, seed: u64, rounds: usize) {
    let c = compare(&job(text, &[]), &chicago()).unwrap();
    let levers = levers(&c);
    let place = |id: &str| levers.fuels.iter().position(|f| Some(*f) == c.fuels.find(id)).unwrap();
    let mut dice = Dice::new(seed);
    for round in 0..rounds {
        let (electricity, propane) = (dice.real(0.2, 4.0), dice.real(0.2, 5.0));
        let times = [dice.real(0.5, 5.0), dice.real(0.5, 3.0)];
        let mut at = levers.as_it_is();
        at.fuels[place("electricity")] = electricity;
        at.fuels[place("propane")] = propane;
        at.spikes = times.to_vec();
        let whole = typed(text, electricity, propane, times);
        for (i, option) in whole.options.iter().enumerate() {
            let (quick, full) = (levers.cost(i, &at).unwrap(), option.yearly_cost());
            assert!((quick - full).abs() < 0.005, "{round} {}: {quick} {full}", option.design.name);
        }
    }
}

#[test]
fn fifty_random_settings_cost_what_the_whole_engine_says_to_the_cent() {
    agree_to_the_cent(&two_spikes(&text()), 2026, 50);
}

#[test]
fn so_do_fifty_where_propane_comes_from_a_tank_at_the_price_of_the_day() {
    agree_to_the_cent(&two_spikes(&with_tank()), 2027, 50);
}

#[test]
fn as_it_is_the_levers_give_the_costs_of_the_comparison() {
    as_it_is(&compared(&[]));
    as_it_is(&compare(&job(&with_tank(), &[]), &chicago()).unwrap());
}

fn as_it_is(c: &Comparison) {
    let levers = levers(c);
    let spikes: Vec<_> = levers.spikes.iter().map(|s| (s.name.as_str(), s.times)).collect();
    assert_eq!(spikes, [("January cold snap", 2.0)]); // typed in the demonstration
    for (i, option) in c.options.iter().enumerate() {
        let cost = levers.cost(i, &levers.as_it_is()).unwrap();
        assert!((cost - option.yearly_cost()).abs() < 1e-9, "{}", option.design.name);
        let OptionLevers::On { constant, terms, .. } = &levers.options[i] else { panic!() };
        // Typed: 36 a month; with the tank, 96 a year of rent and 8 for each drop, of which the year's
        // cost is the mean over 20 levels.
        if option.stores.is_empty() {
            assert_eq!(*constant, 432.0, "{}", option.design.name);
        } else {
            let drops = (constant - 432.0 - 96.0) / 8.0 * 20.0;
            assert!(drops > 0.0 && (drops - drops.round()).abs() < 1e-6, "{}: {drops}", option.design.name);
        }
        let burns_propane =
            ["Propane furnace", "Heat pump and propane"].contains(&option.design.name.as_str());
        let propane = levers.fuels.iter().position(|f| Some(*f) == c.fuels.find("propane"));
        assert_eq!(terms.iter().any(|t| Some(t.fuel) == propane), burns_propane);
    }
}

#[test]
fn an_option_that_changes_over_on_cost_has_its_levers_off() {
    let rule = "sharing = \"in_time\"                       # or \"whole_hour\"";
    let c = compare(&job(&text().replace(rule, "changeover = \"cost\""), &[]), &chicago()).unwrap();
    let levers = levers(&c);
    for (i, option) in c.options.iter().enumerate() {
        let is_off = levers.options[i] == OptionLevers::Off(WhyOff::ChangesOverOnCost);
        assert_eq!(is_off, option.design.name == "Heat pump and propane");
        assert_eq!(levers.cost(i, &levers.as_it_is()).is_none(), is_off);
    }
}

#[test]
fn tiers_demand_and_a_contracts_price_have_the_levers_off_and_the_price_of_the_day_has_them_on() {
    let electricity = "price = \"0.184 $/kWh\"";
    assert!(text().contains(electricity));
    let tiers = "tier = [{ up_to = \"500 kWh\", price = \"0.15 $/kWh\" }, { price = \"0.2 $/kWh\" }]";
    let demand = format!("{electricity}\ndemand = \"9 $/kW\"");
    let tank = "minimum_drop = \"100 gal\"";
    assert!(with_tank().contains(tank));
    let fixed = format!("{tank}\nprice_plan = \"fixed\"\nplan_price = \"2.19 $/gal\"");
    let off = |text: String| -> Vec<Option<WhyOff>> {
        let c = compare(&job(&text, &[]), &chicago()).unwrap();
        let why = |own: &OptionLevers| match own {
            OptionLevers::Off(why) => Some(*why),
            OptionLevers::On { held, .. } => held.first().map(|(_, why)| *why),
        };
        levers(&c).options.iter().map(why).collect()
    };
    let all = |why| vec![Some(why); compared(&[]).options.len()];
    assert_eq!(off(text().replace(electricity, tiers)), all(WhyOff::Tiers));
    assert_eq!(off(text().replace(electricity, &demand)), all(WhyOff::Demand));
    let with = compare(&job(&with_tank(), &[]), &chicago()).unwrap();
    let from_the_tank: Vec<bool> = with.options.iter().map(|o| !o.stores.is_empty()).collect();
    assert_eq!(from_the_tank.iter().filter(|stored| **stored).count(), 2);
    let wanted: Vec<_> = from_the_tank.iter().map(|stored| stored.then_some(WhyOff::Contract)).collect();
    assert_eq!(off(with_tank().replace(tank, &fixed)), wanted);
    assert_eq!(off(with_tank()), vec![None; from_the_tank.len()]);
}

/// By the whole engine at that price of electricity: a contract for propane holds propane's lever alone.
#[test]
fn what_a_contract_holds_stays_and_all_other_prices_move_the_option_to_the_cent() {
    let tank = "minimum_drop = \"100 gal\"";
    let text =
        with_tank().replace(tank, &format!("{tank}\nprice_plan = \"cap\"\nplan_price = \"2.00 $/gal\""));
    let c = compare(&job(&text, &[]), &chicago()).unwrap();
    let levers = levers(&c);
    let place = |id: &str| levers.fuels.iter().position(|f| Some(*f) == c.fuels.find(id)).unwrap();
    let mut at = levers.as_it_is();
    at.fuels[place("electricity")] = 1.25;
    let whole = compare(&job(&text, &[("prices.electricity.price", "0.23 $/kWh")]), &chicago()).unwrap();
    for (i, option) in whole.options.iter().enumerate() {
        let (quick, full) = (levers.cost(i, &at).unwrap(), option.yearly_cost());
        assert!((quick - full).abs() < 0.005, "{}: {quick} {full}", option.design.name);
    }
    at.fuels[place("propane")] = 1.1;
    for (i, option) in c.options.iter().enumerate() {
        assert_eq!(levers.cost(i, &at).is_none(), !option.stores.is_empty(), "{}", option.design.name);
    }
}
