//! Options on a store through a whole year of hours: one run against another, fuel against level,
//! a dry store against the rooms.
//!
//! Start at [`on`].

use crate::demo_job::{self, chicago, plan_of, run_of};
use winterledger::comparison::paid::average_price;
use winterledger::comparison::working::{Moment, work_out};
use winterledger::comparison::{Comparison, OptionResult, StoreResult, compare};
use winterledger::fuel::FuelId;
use winterledger::ledger::Reason;
use winterledger::simulation::EndUse;
use winterledger::simulation::sums::YearSums;
use winterledger::supply::charge::Charge;
use winterledger::supply::cost::SupplyLine;
use winterledger::supply::days::{Ample, Days, DrivenYear};
use winterledger::supply::year::markets;
use winterledger::supply::{MarketDays, Store};

/// The furnace alone, and the furnace behind a heat pump.
const ON_PROPANE: [usize; 2] = [2, 3];

/// The demonstration as it is.
fn demonstration() -> Comparison {
    compare(&demo_job::job(&demo_job::with_tank(), &[]), &chicago()).unwrap()
}

/// The demonstration on a tank of its own text.
fn on(tank: &str) -> Comparison {
    on_of(&demo_job::text(), tank)
}

fn on_of(text: &str, tank: &str) -> Comparison {
    let at = text.find("[[option]]").unwrap();
    let text = format!("{}[[supply]]\n{tank}\n{}", &text[..at], &text[at..]);
    compare(&demo_job::job(&text, &[]), &chicago()).unwrap()
}

const PLAIN: &str = "name = \"t\"\nfuel = \"propane\"\ncapacity = \"500 gal\"\norders = \"will_call\"\n\
                     placement = \"buried\"\n";

/// The same with measures that no tank of its content has, so that little boils off.
const SLENDER: &str = "name = \"t\"\nfuel = \"propane\"\ncapacity = \"500 gal\"\norders = \"will_call\"\n\
                       placement = \"buried\"\ndiameter = \"16 in\"\nlength = \"40 in\"\n";

fn store(option: &OptionResult) -> &StoreResult {
    option.stores.first().unwrap()
}

#[test]
fn fuel_bought_is_fuel_burned_and_what_the_store_gained() {
    let c = demonstration();
    for option in ON_PROPANE.map(|i| &c.options[i]) {
        let year = &store(option).supplied.year;
        assert!(year.burned_kwh > 1000.0, "{}", year.burned_kwh);
        let left = year.start_kwh + year.bought_kwh() - year.burned_kwh - year.end_kwh();
        assert!(left.abs() < 1e-9 * year.burned_kwh, "{left}");
        // The ledger's fuel is what was burned, by the sums of the hours.
        let propane = store(option).supplied.store.fuel;
        let posted = option.ledger.quantity(propane) * c.fuels.get(propane).unwrap().kwh_per_unit;
        let burned: f64 = option.zones.iter().map(|z| burned(&c, option, z.sums.heater_draw_kwh)).sum();
        assert!((posted - year.burned_kwh).abs() < 1e-6, "{posted}");
        assert!((burned - year.burned_kwh).abs() < 1e-6, "{burned}");
    }
    assert!([0, 1, 4, 5].iter().all(|i| c.options[*i].stores.is_empty()));
}

/// The propane of the zone that has these draws.
fn burned(c: &Comparison, option: &OptionResult, draws: [f64; 6]) -> f64 {
    let design = option.design.zones.iter().zip(&option.zones).find(|(_, z)| z.sums.heater_draw_kwh == draws);
    let propane = c.fuels.find("propane").unwrap();
    let heaters = design.unwrap().0.heaters.iter().zip(draws);
    heaters.filter(|(i, _)| c.machines[**i].fuel == propane).map(|(_, kwh)| kwh).sum()
}

#[test]
fn at_a_flat_price_the_cost_does_not_depend_on_the_level_at_the_start() {
    let flat = demo_job::with_flat_propane(&demo_job::text());
    let c = on_of(&flat, PLAIN);
    for option in ON_PROPANE.map(|i| &c.options[i]) {
        let supplied = &store(option).supplied;
        let (low, high) = supplied.cost_range;
        assert!((high / low - 1.0).abs() < 1e-6, "{low} to {high}");
        // $2.20 a gallon of 26.80 kWh for what was burned.
        let gallons = supplied.year.burned_kwh / (91_452.0 * 1_055.055_852_62 / 3.6e6);
        assert!((supplied.cost() / (2.20 * gallons) - 1.0).abs() < 1e-6);
        // And so the whole option costs what it costs without a tank.
        let metered = compare(&demo_job::job(&flat, &[]), &chicago()).unwrap();
        let same = metered.options.iter().find(|o| o.design.name == option.design.name).unwrap();
        assert!((option.yearly_cost() / same.yearly_cost() - 1.0).abs() < 1e-6);
        assert!((option.heating_adds / same.heating_adds - 1.0).abs() < 1e-6);
    }
}

#[test]
fn a_spike_makes_the_cost_depend_on_the_level_at_the_start_and_the_range_is_told() {
    let c = on(PLAIN);
    let supplied = &store(&c.options[2]).supplied;
    let (low, high) = supplied.cost_range;
    assert!(high > 1.1 * low && low < supplied.cost() && supplied.cost() < high, "{low} to {high}");
    // The ledger's total is that mean, and cash is what deliveries cost.
    let posted = c.options[2].ledger.sum(|p| matches!(p.reason, Reason::Store(_)));
    assert!((posted - supplied.cost()).abs() < 1e-9);
    let delivered = c.options[2].ledger.sum(|p| p.reason == Reason::Store(Charge::Delivered));
    assert!((delivered - supplied.cash).abs() < 1e-9 && (delivered - supplied.year.paid()).abs() < 1e-9);
    assert!(c.options[2].ledger.sum(|p| p.end_use == EndUse::StockChange) != 0.0);
}

/// One option's year on a store, run both ways.
fn both_ways(c: &Comparison, option: usize) -> [(DrivenYear, YearSums); 2] {
    let run = run_of(c);
    let plan = plan_of(c, option, &run);
    let stores: Vec<&Store> = c.supplies.of(&c.options[option].design.name);
    let market = |store: &Store, yearly_kwh| {
        MarketDays::of_run(&run.calendar, c.prices.of(store.fuel).unwrap(), yearly_kwh)
    };
    let sums = || YearSums::new(&run.calendar, c.fuels.count(), c.zones.len());
    let start = [stores[0].start_kwh];
    let mut unbounded = sums();
    let ample = Ample::new(&plan, vec![stores[0].fuel], &mut unbounded);
    let markets = markets(&stores, ample.used(), market);
    let days = Days::new(&plan, &ample, &stores, &markets);
    let stands = days.ample_year(&start).map(|stores| DrivenYear { stores, used: ample.used().clone() });
    let quick = stands.map(|year| (year, unbounded)).unwrap_or_else(|| {
        let mut sink = sums();
        (days.limited_year(&start, false, &mut sink), sink)
    });
    let mut sink = sums();
    let full = days.limited_year(&start, true, &mut sink);
    [quick, (full, sink)]
}

#[test]
fn the_quick_way_through_a_year_is_the_full_way() {
    let ample = demonstration();
    // Runs dry in winter: a small tank and a truck that takes a month.
    let dry = on(&format!("{PLAIN}lead_days = 30\nrelight_days = 2\n").replace("500 gal", "250 gal"));
    // Gives too little vapour in the coldest hours.
    let open = on(&format!("{SLENDER}lead_days = 1\n").replace("buried", "above_ground"));
    for (c, runs_dry) in [(&ample, false), (&dry, true), (&open, false)] {
        for option in ON_PROPANE {
            let [quick, full] = both_ways(c, option);
            assert!(quick.0.stores == full.0.stores, "{option}: the stores differ");
            assert!(quick.1 == full.1, "{option}: the sums differ");
            let hours = full.0.stores[0].dry_hours();
            assert!(option == 3 || (hours > 50.0) == runs_dry, "{option}: {hours} dry hours");
        }
    }
}

#[test]
fn a_dry_tank_leaves_the_house_cold_or_the_heat_pump_to_carry_it() {
    let ample = on(PLAIN);
    let dry = on(&format!("{PLAIN}lead_days = 60\nreorder_level = 0.1\n").replace("500 gal", "120 gal"));
    let [alone, behind] = ON_PROPANE.map(|i| (&ample.options[i], &dry.options[i]));
    assert!(alone.0.hours_not_kept_warm() == 0 && behind.0.hours_not_kept_warm() == 0);
    assert!(alone.1.hours_not_kept_warm() > 500 && alone.1.lowest_room_c().unwrap() < 0.0);
    // Behind a heat pump the furnace is missed in the coldest hours only.
    let hours = behind.1.hours_not_kept_warm();
    assert!(hours > 0 && hours < alone.1.hours_not_kept_warm() / 4, "{hours}");
    let electric = |o: &OptionResult| o.ledger.quantity(FuelId::ELECTRICITY);
    assert!(electric(behind.1) > electric(behind.0) * 1.01, "the heat pump took nothing over");
    let year = &store(alone.1).supplied.year;
    assert!(year.run_outs >= 1 && year.dry_hours() > 500.0);
    let reserve = store(alone.1).supplied.store.tank.reserve_kwh();
    assert!(year.lowest_kwh() > reserve - 1e-6);
}

#[test]
fn a_small_tank_in_the_open_gives_too_little_vapour_in_the_cold_and_a_buried_one_does_not() {
    let tank = format!("{SLENDER}lead_days = 1\n");
    let buried = on(&tank);
    let open = on(&tank.replace("buried", "above_ground"));
    let hours = |c: &Comparison| store(&c.options[2]).supplied.year.vapour_hours;
    assert_eq!(hours(&buried), 0);
    // Hand-worked: 16·40·100·0.55 = 35,200 Btu/h at −9 °F when full; the furnace then wants
    // 475 Btu/h·°F · 71 °F / 0.95 / 0.95 = 37,400.
    assert!(hours(&open) > 5, "{}", hours(&open));
    assert!(open.options[2].lowest_room_c().unwrap() < buried.options[2].lowest_room_c().unwrap() - 0.2);
    // A furnace of 60,000 Btu/h on 500 gallons is never short in this year.
    assert_eq!(hours(&on(&PLAIN.replace("buried", "above_ground"))), 0);
}

#[test]
fn appliances_share_the_tank_and_the_hour_in_which_it_runs_dry() {
    let household = r#"
[household]
hot_water_use = "50 gal/day"
hot_water = "heater"
[[equipment]]
name = "heater"
kind = "water_heater"
form = "tank"
fuel = "propane"
efficiency = 0.64
"#;
    let at = demo_job::text().find("[[equipment]]").unwrap();
    let text = demo_job::text();
    let text = format!("{}{household}{}", &text[..at], &text[at..]);
    let ample = on_of(&text, &format!("{PLAIN}reorder_level = 0.7\n"));
    let used = |c: &Comparison, i: usize, end_use| {
        let of_use = c.options[i].ledger.postings.iter().filter(|p| p.end_use == end_use);
        of_use.filter(|p| p.reason == Reason::Store(Charge::Delivered)).map(|p| p.quantity).sum::<f64>()
    };
    // Every option heats water with propane now, so every option has the tank.
    assert!(ample.options.iter().all(|o| o.stores.len() == 1));
    assert!(used(&ample, 0, EndUse::HotWater) > 100.0 && used(&ample, 0, EndUse::SpaceHeating) == 0.0);
    assert!(used(&ample, 2, EndUse::HotWater) > 50.0 && used(&ample, 2, EndUse::SpaceHeating) > 100.0);
    let dry = on_of(&text, &format!("{PLAIN}lead_days = 60\n").replace("500 gal", "250 gal"));
    assert!(store(&dry.options[2]).supplied.year.dry_hours() > 100.0);
    let [quick, full] = both_ways(&dry, 2);
    assert!(quick.0.stores == full.0.stores && quick.1 == full.1);
    let burned = |c: &Comparison| store(&c.options[2]).supplied.year.burned_kwh;
    assert!(burned(&dry) < burned(&ample));
}

#[test]
fn an_option_may_name_a_tank_of_its_own() {
    let small = "[[supply]]\nname = \"small\"\nfuel = \"propane\"\ncapacity = \"120 gal\"\n\
                 orders = \"will_call\"\n\n";
    let text = demo_job::with_tank();
    let at = text.find("[[option]]").unwrap();
    let text = format!("{}{small}{}", &text[..at], &text[at..]);
    let name = "name = \"Heat pump and propane\"";
    let text = text.replace(name, &format!("{name}\nsupply = [\"small\"]"));
    let c = compare(&demo_job::job(&text, &[]), &chicago()).unwrap();
    let names = ON_PROPANE.map(|i| store(&c.options[i]).supplied.store.name.clone());
    assert_eq!(names, ["500 gallon tank".to_owned(), "small".to_owned()]);
}

#[test]
fn the_price_of_the_worksheet_and_of_an_hour_is_what_the_stored_fuel_is_charged_at() {
    let c = demonstration();
    let run = run_of(&c);
    let coldest = run.dry_bulb_c.iter().enumerate().min_by(|a, b| a.1.total_cmp(b.1)).unwrap().0;
    for option in ON_PROPANE.map(|i| &c.options[i]) {
        let supplied = &store(option).supplied;
        let fuel = supplied.store.fuel;
        let fees = |line: &&SupplyLine| matches!(line.end_use, EndUse::Delivery | EndUse::Rent);
        let fees: f64 = supplied.lines.iter().filter(fees).map(SupplyLine::amount).sum();
        // Hand-worked: the charge of the year, the change of stock and the starting levels in it, over what
        // was burned. It is not the price of this start's deliveries, or the test would prove nothing.
        let charged = (supplied.cost() - fees) / supplied.year.burned_kwh;
        let units = c.fuels.get(fuel).unwrap().kwh_per_unit;
        let price = average_price(option, &c, (fuel, EndUse::SpaceHeating)) / units;
        assert!((price / charged - 1.0).abs() < 1e-9, "{price} {charged}");
        assert!((price / supplied.mean_price - 1.0).abs() > 1e-3, "{price} {}", supplied.mean_price);
        let place = c.options.iter().position(|o| std::ptr::eq(o, option)).unwrap();
        let working = work_out(&c, place, 0, Moment::Hour(coldest)).unwrap();
        let line = working.cost.iter().find(|line| line.fuel == fuel).unwrap();
        assert!(line.on_the_mean && (line.price_per_kwh / charged - 1.0).abs() < 1e-9, "{line:?}");
    }
}
