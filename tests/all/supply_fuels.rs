//! Pellets, cord wood and oil from the same store as propane, with their own limits.
//!
//! The demonstration's house with other burners; all of it is invented. Start at [`burning`].

use crate::demo_job::{self, chicago};
use winterledger::comparison::note::StoreNote;
use winterledger::comparison::{Comparison, Note, OptionResult, compare};
use winterledger::report::build;
use winterledger::supply::tank::Placement;

const OIL: usize = 4;

const PELLET_STOVE: &str = "[[equipment]]\nname = \"burner\"\nkind = \"pellet_stove\"\nfuel = \"pellets\"\n\
                            input = \"60000 Btu/h\"\nefficiency = 0.8\n\n";
const WOOD_STOVE: &str = "[[equipment]]\nname = \"burner\"\nkind = \"wood_stove\"\nfuel = \"cord_wood\"\n\
                          input = \"60000 Btu/h\"\nefficiency = 0.7\n\n";

/// The demonstration whose fifth option burns another fuel from a store of its own text.
fn burning(burner: &str, price: &str, store: &str) -> Comparison {
    let text = demo_job::text().replace("heating = [\"oil furnace\"]", "heating = [\"burner\"]");
    let at = text.find("[[option]]").unwrap();
    let text = format!("{}{burner}{store}\n{}\n{price}\n", &text[..at], &text[at..]);
    compare(&demo_job::job(&text, &[]), &chicago()).unwrap()
}

fn option(c: &Comparison) -> &OptionResult {
    &c.options[OIL]
}

/// Whatever the fuel: what was bought is what was burned and what the store gained, and at a flat price the
/// year costs what is burned. `each` is the price of a unit of so many kWh.
fn balances(option: &OptionResult, each: f64, kwh: f64) {
    let supplied = &option.stores[0].supplied;
    let year = &supplied.year;
    assert!(year.burned_kwh > 1000.0, "{}", year.burned_kwh);
    let left = year.start_kwh + year.bought_kwh() - year.burned_kwh - year.end_kwh();
    assert!(left.abs() < 1e-9 * year.burned_kwh, "{left}");
    assert!((supplied.cost() / (each * year.burned_kwh / kwh) - 1.0).abs() < 1e-6, "{}", supplied.cost());
    let (low, high) = supplied.cost_range;
    assert!((high / low - 1.0).abs() < 1e-6);
}

/// Published: 16,500,000 Btu a short ton (EIA); 1 kWh is 3,412.1416 Btu.
const TON_KWH: f64 = 16_500_000.0 / 3_412.141_633_127_942;
/// Published: 20,000,000 Btu a cord (EIA).
const CORD_KWH: f64 = 20_000_000.0 / 3_412.141_633_127_942;

#[test]
fn pellets_fill_their_bin_to_the_brim_burn_to_the_last_and_need_no_vapour() {
    let store = "[[supply]]\nname = \"bin\"\nfuel = \"pellets\"\ncapacity = \"2 short ton\"\n\
                 orders = \"will_call\"\nreorder_level = 0.4\nlead_days = 5\n";
    let c = burning(PELLET_STOVE, "[prices.pellets]\nprice = \"320 $/short ton\"", store);
    let result = &option(&c).stores[0];
    let tank = result.supplied.store.tank;
    assert!((tank.full_kwh() - 2.0 * TON_KWH).abs() < 1e-9 && tank.reserve_kwh() == 0.0);
    assert_eq!((tank.placement, tank.shape), (Placement::Indoors, None));
    assert_eq!((result.gives_at_design_kw, result.supplied.year.vapour_hours), (None, 0));
    balances(option(&c), 320.0, TON_KWH);
    assert!(result.supplied.year.deliveries.len() > 1 && result.supplied.year.run_outs == 0);
}

#[test]
fn a_stack_of_wood_that_runs_out_leaves_the_house_cold_like_any_shortfall() {
    let wood = |size: &str| {
        let store = format!(
            "[[supply]]\nname = \"stack\"\nfuel = \"cord_wood\"\ncapacity = \"{size} cord\"\n\
             orders = \"will_call\"\nreorder_level = 0.3\nlead_days = 30\n"
        );
        burning(WOOD_STOVE, "[prices.cord_wood]\nprice = \"280 $/cord\"", &store)
    };
    let (large, small) = (wood("9"), wood("1"));
    balances(option(&large), 280.0, CORD_KWH);
    let (dry, ample) = (option(&small), option(&large));
    let year = &dry.stores[0].supplied.year;
    assert!(year.run_outs > 0 && year.dry_hours() > 24.0, "{year:?}");
    assert_eq!(ample.stores[0].supplied.year.run_outs, 0);
    assert!(dry.hours_not_kept_warm() > ample.hours_not_kept_warm() + 24);
    assert!(dry.lowest_room_c() < ample.lowest_room_c());
    let told = small.notes.iter().any(|note| {
        matches!(note, Note::Store { what: StoreNote::RanDry { times, .. }, .. } if *times == year.run_outs)
    });
    assert!(told, "{:?}", small.notes);
}

/// Oil in the open: how many hours of the year it may cloud in, as the notes say it.
fn clouds(fuel: &str, placement: &str) -> Option<usize> {
    let store = format!(
        "[[supply]]\nname = \"oil tank\"\nfuel = \"{fuel}\"\ncapacity = \"275 gal\"\n\
         orders = \"automatic\"\nplacement = \"{placement}\"\n"
    );
    let furnace = format!(
        "[[equipment]]\nname = \"burner\"\nkind = \"furnace\"\nfuel = \"{fuel}\"\ninput = \"70000 Btu/h\"\n\
         afue = 0.85\nblower = \"500 W\"\n\n"
    );
    let price = if fuel == "oil_no_2" { "" } else { "[prices.oil_no_1]\nprice = \"4.10 $/gal\"" };
    let c = burning(&furnace, price, &store);
    // Common practice, the program's defaults: filled to 95 %, 5 % dregs.
    let tank = c.options[OIL].stores[0].supplied.store.tank;
    assert_eq!((tank.fill_limit, tank.reserve, tank.shape), (0.95, 0.05, None));
    let found = c.notes.iter().find_map(|note| match note {
        Note::Store { what: StoreNote::MayCloud { hours }, .. } => Some(*hours),
        _ => None,
    });
    let told = build::report(&c).notes.iter().any(|note| note.contains("clouds at 15"));
    assert_eq!(told, found.is_some());
    found
}

#[test]
fn oil_no_2_in_the_open_may_cloud_and_no_other() {
    // Common practice: No. 2 oil clouds near 15 to 20 °F. Independent of the note: hours of the year below 20 °F.
    let winterledger::weather::Weather::Year(year) = chicago() else { panic!() };
    let cold = year.columns.dry_bulb_c.iter().filter(|t| **t * 1.8 + 32.0 < 20.0).count();
    assert!(cold > 100);
    assert_eq!(clouds("oil_no_2", "above_ground"), Some(cold));
    assert_eq!(clouds("oil_no_2", "indoors"), None);
    assert_eq!(clouds("oil_no_2", "buried"), None);
    assert_eq!(clouds("oil_no_1", "above_ground"), None);
}
