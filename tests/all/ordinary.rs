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
fn ordinary_terms_keep_the_leads_that_the_job_has_for_them() {
    let leads = |tank: &str| {
        let c = on(&demo_job::text(), &format!("{FIXED}{tank}"));
        let contract = &furnace(&c).1.store.contract;
        (contract.orders, contract.lead_days, contract.cold_lead_days)
    };
    let (orders, lead, cold) = leads("lead_days = 5\ncold_lead_days = 21\n");
    let kept = match orders {
        Orders::WillCall => (5, 21),
        // Common practice, as DEVELOPERS.md has it.
        Orders::Automatic { .. } => (3, 10),
        Orders::SummerFill { .. } => (7, 30),
    };
    assert_eq!((lead, cold), kept);
    let other = "[[supply]]\nname = \"u\"\nfuel = \"propane\"\ncapacity = \"250 gal\"\norders = \"automatic\"\n\
                 lead_days = 6\ncold_lead_days = 9\n";
    let (orders, lead, cold) = leads(&format!("lead_days = 40\ncold_lead_days = 40\n\n{other}"));
    assert!(matches!(orders, Orders::Automatic { .. }), "{orders:?}");
    assert_eq!((lead, cold), (6, 9));
}

#[test]
fn a_year_in_twelve_parts_is_paid_so_and_costs_the_same() {
    let paid = |tank: &str| {
        let c = on(&demo_job::text(), &format!("{FIXED}{tank}"));
        let option = furnace(&c).0.clone();
        let store = option.stores[0].supplied.store.fuel;
        let of = |month: Option<u8>| option.ledger.sum(|p| p.fuel == store && p.month == month);
        ((1..=12).map(|month| of(Some(month))).collect::<Vec<f64>>(), option)
    };
    let ((whole, one), (parts, other)) = (paid(""), paid("budget_plan = true\n"));
    assert!(whole.iter().filter(|amount| **amount > 0.0).count() < 12, "{whole:?}");
    let cash = other.stores[0].supplied.cash;
    assert!(parts.iter().all(|amount| (amount - cash / 12.0).abs() < 1e-9), "{cash} {parts:?}");
    assert!((one.yearly_cost() - other.yearly_cost()).abs() < 1e-9);
}

#[test]
fn a_least_delivery_that_forbids_the_reorder_level_is_asked_about() {
    let asks = |tank: &str| {
        let c = on(&demo_job::text(), &format!("{FIXED}{tank}"));
        let mut notes = c.notes.iter();
        notes.any(|note| {
            note.asks() && matches!(note, Note::Store { what: StoreNote::NoRoomForDrop { .. }, .. })
        })
    };
    assert!(asks("reorder_level = 0.5\nminimum_drop = \"200 gal\"\n"));
    // 500 · 0.8 − 200 = 200 gallons, 40 %, is where it finds room.
    assert!(!asks("reorder_level = 0.4\nminimum_drop = \"200 gal\"\n"));
    assert!(!asks("reorder_level = 0.5\nminimum_drop = \"200 gal\"\nsmall_drop_fee = \"60 $/drop\"\n"));
}

#[test]
fn where_nothing_comes_by_truck_nothing_is_told() {
    let c = compare(&demo_job::job(&demo_job::text(), &[]), &chicago() as &Weather).unwrap();
    assert!(supply::ordinary(&c).is_none() && c.options.iter().all(|option| option.ordinary.is_none()));
}
