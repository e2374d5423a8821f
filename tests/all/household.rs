//! Hot water, drying, cooking and base electricity: amounts worked by hand, fuels by option, and
//! what a water heater takes from its room.
//!
//! Start at [`with_household`].

use crate::demo_job::{STEADY, chicago, compared, job, plan_of, run_of, text};
use winterledger::comparison::{Comparison, OptionResult, RunWeather, compare};
use winterledger::fuel::FuelId;
use winterledger::ledger::Reason;
use winterledger::simulation::household::PlannedDraw;
use winterledger::simulation::record::{Sink, Trace, ZoneRecord};
use winterledger::simulation::state::FuelLimit;
use winterledger::simulation::{EndUse, FuelLimits, OptionState, advance};
use winterledger::weather::Weather;

const MACHINES: &str = r#"
[household]
base_electricity = "6000 kWh/year"
hot_water_use = "50 gal/day"
hot_water_temperature = "120 degF"
mains_temperature = "60 degF"
dryer_loads_a_week = 5
cooking = "250 kWh/year"
hot_water = "tank"
dryer = "dryer"
range = "electric range"

[[equipment]]
name = "tank"
kind = "water_heater"
form = "tank"
fuel = "propane"
efficiency = 0.64

[[equipment]]
name = "inside"
kind = "water_heater"
form = "heat_pump"
efficiency = 4
location = "inside"
zone = "studio wing"

[[equipment]]
name = "dryer"
kind = "dryer"
fuel = "propane"
energy_per_load = "2.6 kWh"
electricity_per_load = "0.2 kWh"

[[equipment]]
name = "electric range"
kind = "range"
fuel = "electricity"
efficiency = 0.8

[[equipment]]
name = "propane range"
kind = "range"
fuel = "propane"
efficiency = 0.4

"#;

/// The demonstration job with a household.
fn with_household() -> String {
    let text = text();
    let at = text.find("[[equipment]]").unwrap();
    format!("{}{MACHINES}{}", &text[..at], &text[at..])
}

fn compared_with(changes: &[(&str, &str)]) -> Comparison {
    compare(&job(&with_household(), changes), &chicago()).unwrap()
}

fn used(c: &Comparison, option: &OptionResult, fuel: &str, end_use: EndUse) -> f64 {
    let fuel = c.fuels.find(fuel).unwrap();
    let of_use = option.ledger.postings.iter();
    of_use
        .filter(|p| p.fuel == fuel && p.end_use == end_use && p.reason != Reason::FixedCharge)
        .map(|p| p.quantity)
        .sum()
}

fn close(found: f64, expected: f64, share: f64) {
    assert!((found / expected - 1.0).abs() < share, "{found} is not {expected}");
}

#[test]
fn a_household_uses_what_a_pocket_calculator_says() {
    let c = compared_with(&[]);
    for option in &c.options {
        // Hand-worked. Hot water: 50 gal × 8.33 lb × 60 °F × 365 d / 0.64 / 91,452 Btu = 155.84 gal;
        // 8.33 is the common round figure, so the last digit is not held.
        close(used(&c, option, "propane", EndUse::HotWater), 155.84, 1e-3);
        close(used(&c, option, "electricity", EndUse::Base), 6000.0, 1e-9);
        // 5 loads a week × 8760/168 weeks: 677.857 kWh of propane at 26.8019 kWh/gal, 52.1429 kWh.
        close(used(&c, option, "propane", EndUse::Drying), 677.857 / 26.8019, 1e-5);
        close(used(&c, option, "electricity", EndUse::Drying), 52.1429, 1e-5);
        close(used(&c, option, "electricity", EndUse::Cooking), 250.0 / 0.8, 1e-9);
    }
}

#[test]
fn heating_costs_the_same_with_a_household_that_takes_nothing_from_the_rooms() {
    let (with, without) = (compared_with(&[]), compared(&[]));
    let heating = |o: &OptionResult| {
        o.ledger.sum(|p| matches!(p.end_use, EndUse::SpaceHeating | EndUse::BackupHeat | EndUse::Cooling))
    };
    for (a, b) in with.options.iter().zip(&without.options) {
        assert_eq!(heating(a), heating(b), "{}", a.design.name);
    }
}

#[test]
fn an_option_may_keep_its_range_on_propane_and_then_owes_its_fixed_charge() {
    let electric = [
        ("household.hot_water", "inside"),
        ("equipment.dryer.fuel", "electricity"),
        ("prices.propane.fixed", "5 $/month"),
    ];
    let option = "option.Heat pumps alone.range";
    let keeps = [&electric[..], &[(option, "propane range")]].concat();
    let (all_electric, keeps) = (compared_with(&electric), compared_with(&keeps));
    let of = |c: &Comparison| {
        let option = c.options.iter().find(|o| o.design.name == "Heat pumps alone").unwrap().clone();
        let propane = c.fuels.find("propane").unwrap();
        let fixed = |p: &winterledger::ledger::Posting| p.fuel == propane && p.reason == Reason::FixedCharge;
        (used(c, &option, "propane", EndUse::Cooking), option.ledger.sum(fixed))
    };
    assert_eq!(of(&all_electric), (0.0, 0.0));
    // Hand-worked: 250 kWh / 0.4 / 26.8019 kWh/gal = 23.319 gal; twelve times $5.
    let (gallons, fixed) = of(&keeps);
    close(gallons, 23.319, 1e-4);
    assert!((fixed - 60.0).abs() < 1e-9);
    let other = |c: &Comparison| c.options[0].yearly_cost();
    assert_eq!(other(&all_electric), other(&keeps), "another option must not change");
}

#[test]
fn a_heat_pump_water_heater_inside_takes_its_heat_from_its_room() {
    let changes = [&STEADY[..], &[("household.hot_water", "inside")]].concat();
    let inside = compared_with(&changes);
    let tank = compared_with(&STEADY);
    // Hand-worked: 50·8.33·60/24/3412.142 = 0.30516 kW into the water, three quarters from the room.
    let outcomes = |c: &Comparison| {
        let plan = plan_of(c, 0, &run_of(c));
        let mut trace = Trace::default();
        let mut state = OptionState::at_set_point(&plan);
        advance(&plan, 0..plan.outdoor_c.len(), &mut state, &mut FuelLimits::none(), &mut trace);
        trace.outcomes
    };
    let mut cold_hours = 0;
    for (i, (with, without)) in outcomes(&inside).iter().zip(&outcomes(&tank)).enumerate() {
        if without.need > 0.5 {
            let taken = if i % 2 == 1 { 0.75 * 0.30516 } else { 0.0 };
            assert!((with.need - without.need - taken).abs() < 1e-4, "zone {}: {with:?}", i % 2);
            cold_hours += 1;
        }
    }
    assert!(cold_hours > 5000);
    close(used(&inside, &inside.options[0], "electricity", EndUse::HotWater), 0.30516 / 4.0 * 8760.0, 1e-3);
    // With mains that follow the place the coldest night has the year's coldest water: the published form at the
    // trough of its wave, and 0.30516 kW into the water for each 60 °F.
    let seasonal = |water: &str| {
        let text = with_household().replace("mains_temperature = \"60 degF\"\n", "");
        compare(&job(&text, &[("household.hot_water", water)]), &chicago()).unwrap()
    };
    let (warm, cold) = (seasonal("tank"), seasonal("inside"));
    let RunWeather::Year(year) = &cold.weather else { panic!("hours") };
    let (mean_c, range_k) = year.mean_and_monthly_range();
    let mean_f = mean_c * 1.8 + 32.0;
    let coldest_f = mean_f + 6.0 - (0.4 + 0.01 * (mean_f - 44.0)) * 1.8 * range_k / 2.0;
    let taken = 0.75 * 0.30516 * (120.0 - coldest_f) / 60.0;
    let at_design = |c: &Comparison| c.options[0].zones[1].at_design.need_kw;
    assert!((at_design(&cold) - at_design(&warm) - taken).abs() < 1e-4, "{taken}");
    // The bins count it too.
    let needs = |c: &Comparison| c.options[0].zones[1].at_design.need_kw;
    assert!((needs(&inside) - needs(&tank) - 0.75 * 0.30516).abs() < 1e-4);
}

#[test]
fn by_bins_a_household_uses_as_much_as_by_hours() {
    let changes = [("prices.propane.price_by_month.jan", "2.69 $/gal")];
    let flat = crate::demo_job::with_flat_propane(&with_household());
    let seasonal = flat.replace("mains_temperature = \"60 degF\"\n", "");
    for text in [flat, seasonal] {
        let hours = compare(&job(&text, &[]), &chicago()).unwrap();
        let bins = compare(&job(&text, &[]), &Weather::Bins(hours.bins.clone())).unwrap();
        for (a, b) in hours.options.iter().zip(&bins.options) {
            for (fuel, end_use) in [("propane", EndUse::HotWater), ("electricity", EndUse::Base)] {
                close(used(&bins, b, fuel, end_use), used(&hours, a, fuel, end_use), 0.01);
            }
        }
    }
    assert_eq!(changes.len(), 1);
}

/// Every draw of propane by hour: household first, then the heaters.
struct Propane {
    fuel: FuelId,
    by_hour: Vec<(f64, f64)>,
}

impl Sink for Propane {
    fn take(&mut self, record: &ZoneRecord<'_>) {
        for (heater, output) in record.plan.heaters.iter().zip(&record.outcome.heaters) {
            if heater.fuel == self.fuel {
                self.by_hour.last_mut().unwrap().1 += output.draw;
            }
        }
    }

    fn take_household(&mut self, hour: usize, draw: &PlannedDraw, kwh: f64) {
        if self.by_hour.len() <= hour {
            self.by_hour.push((0.0, 0.0));
        }
        if draw.fuel == self.fuel {
            self.by_hour[hour].0 += kwh;
        }
    }
}

#[test]
fn in_the_hour_the_store_runs_dry_all_its_draws_shrink_by_one_share() {
    let c = compared_with(&[]);
    let option = c.options.iter().position(|o| o.design.name == "Propane furnace").unwrap();
    let plan = plan_of(&c, option, &run_of(&c));
    let fuel = c.fuels.find("propane").unwrap();
    let run = |mut limits: FuelLimits| {
        let mut sink = Propane { fuel, by_hour: Vec::new() };
        let mut state = OptionState::at_set_point(&plan);
        // To the end of January.
        advance(&plan, 0..215 * 24, &mut state, &mut limits, &mut sink);
        sink.by_hour
    };
    let ample = run(FuelLimits::none());
    let left_kwh = 5000.0;
    let limited = run(FuelLimits::of(vec![FuelLimit { fuel, left_kwh, greatest_kw: f64::INFINITY }]));
    let burned: f64 = limited.iter().map(|(a, b)| a + b).sum();
    assert!((burned - left_kwh).abs() < 1e-9 * left_kwh, "{burned}");
    let dry = (0..limited.len()).find(|i| limited[*i] != ample[*i]).unwrap();
    let share = |i: usize| (limited[i].0 / ample[i].0, limited[i].1 / ample[i].1);
    assert!(share(dry).0 < 1.0 && (share(dry).0 - share(dry).1).abs() < 1e-9, "{:?}", share(dry));
    assert_eq!(limited[dry + 1], (0.0, 0.0));
}
