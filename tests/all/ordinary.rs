//! What fuel that comes by truck would cost at the price of the day, beside the terms of the job.

use crate::demo_job::{self, chicago};
use winterledger::comparison::note::{Note, StoreNote};
use winterledger::comparison::{Comparison, OptionResult, OrdinaryTerms, compare};
use winterledger::report::{figures::Measure, supply, supply_words};
use winterledger::supply::contract::Orders;
use winterledger::weather::Weather;

/// A tank at a fixed price 40 cents above the flat price of the market, $2.20.
const FIXED: &str = "name = \"t\"\nfuel = \"propane\"\ncapacity = \"500 gal\"\norders = \"will_call\"\n\
                     placement = \"buried\"\nprice_plan = \"fixed\"\nplan_price = \"2.60 $/gal\"\n";

fn on(text: &str, tank: &str) -> Comparison {
    let at = text.find("[[option]]").unwrap();
    let text = format!("{}[[supply]]\n{tank}\n{}", &text[..at], &text[at..]);
    compare(&demo_job::job(&text, &[]), &chicago()).unwrap()
}

fn furnace(c: &Comparison) -> (&OptionResult, &OrdinaryTerms) {
    let option = c.options.iter().find(|option| option.design.name == "Propane furnace").unwrap();
    (option, option.ordinary.as_ref().unwrap())
}

fn told(c: &Comparison) -> Vec<(f64, String)> {
    let of = |note: &Note| match note {
        Note::Store { option, store, what } => match what {
            StoreNote::PricePlan { costs_more, .. } if option == "Propane furnace" => {
                Some((*costs_more, supply_words::note(option, store, what, Measure(c.units), &c.currency)))
            }
            _ => None,
        },
        _ => None,
    };
    c.notes.iter().filter_map(of).collect()
}

#[test]
fn a_fixed_price_is_told_beside_the_price_of_the_day() {
    let c = on(&demo_job::with_flat_propane(&demo_job::text()), FIXED);
    let (option, ordinary) = furnace(&c);
    // Hand-worked: 40 cents on each gallon that is burned; a flat price asks the same on any ordinary terms.
    let gallons = option.ledger.quantity(ordinary.store.fuel);
    let more = option.yearly_cost() - ordinary.yearly_cost;
    assert!(gallons > 500.0 && (more / (0.40 * gallons) - 1.0).abs() < 1e-6, "{more} {gallons}");
    assert!(!ordinary.is_own && ordinary.run_outs == 0);
    let [(costs_more, words)] = &told(&c)[..] else { panic!("{:?}", c.notes) };
    assert!((costs_more - more).abs() < 1e-9);
    let about = (more / 10.0).round() * 10.0;
    assert!(words.contains(&format!("costs about ${about:.0} more than the best ordinary terms")), "{words}");
    // One row an option with a store, the demonstration's two.
    assert_eq!(supply::ordinary(&c).unwrap().rows.len(), 2);
    assert!(c.options.iter().all(|option| option.ordinary.is_some() != option.stores.is_empty()));
}

#[test]
fn the_best_ordinary_terms_cost_what_a_job_that_types_them_costs() {
    let c = on(&demo_job::text(), FIXED);
    let (_, ordinary) = furnace(&c);
    let typed = match ordinary.store.contract.orders {
        Orders::WillCall => "orders = \"will_call\"",
        Orders::Automatic { .. } => "orders = \"automatic\"",
        Orders::SummerFill { on } => {
            &format!("orders = \"summer_fill\"\nsummer_fill_day = \"{:02}-{:02}\"", on.month, on.day)
        }
    };
    let plan = "price_plan = \"fixed\"\nplan_price = \"2.60 $/gal\"\n";
    let tank = FIXED.replace("orders = \"will_call\"", typed).replace(plan, "");
    let there = on(&demo_job::text(), &tank);
    let (option, again) = furnace(&there);
    assert!((option.yearly_cost() - ordinary.yearly_cost).abs() < 1e-6, "{typed}");
    // There it is among the ordinary terms itself, and still the best; nothing of a plan is told.
    assert!((again.yearly_cost - ordinary.yearly_cost).abs() < 1e-6 && again.is_own);
    assert!(told(&there).is_empty());
}

#[test]
fn no_other_ordinary_terms_cost_less_unless_they_run_dry() {
    let c = on(&demo_job::text(), FIXED);
    let (_, ordinary) = furnace(&c);
    let plan = "price_plan = \"fixed\"\nplan_price = \"2.60 $/gal\"\n";
    for orders in ["will_call", "automatic"] {
        let tank = FIXED.replace("will_call", orders).replace(plan, "");
        let there = on(&demo_job::text(), &tank);
        let (option, _) = furnace(&there);
        let dry: usize = option.stores.iter().map(|store| store.supplied.year.run_outs).sum();
        assert!(option.yearly_cost() >= ordinary.yearly_cost - 1e-6 || dry > ordinary.run_outs, "{orders}");
    }
}

#[test]
fn where_nothing_comes_by_truck_nothing_is_told() {
    let c = compare(&demo_job::job(&demo_job::text(), &[]), &chicago() as &Weather).unwrap();
    assert!(supply::ordinary(&c).is_none() && c.options.iter().all(|option| option.ordinary.is_none()));
}
