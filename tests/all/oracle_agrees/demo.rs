//! The demonstration job's options through the whole year, typed once more by hand for the oracle.
//!
//! Only the outdoor temperatures come from the program; every other number is read off the job.
//! Start at the test.

use super::agree;
use crate::oracle::{
    Alternate, Cooling, CoolingMachine, Furnace, HeatPump, Level, Machine, Placed, Row, Shared, Zone,
};
use winterledger::comparison::compare;
use winterledger::job::reader;
use winterledger::simulation::plan::OptionPlan;
use winterledger::weather::{Weather, places};

/// kW of one kBtu/h, from the definition of the Btu, 1055.05585262 J.
const KBTUH: f64 = 1_055.055_852_62 / 3600.0;
const HOURS: usize = 8760;

fn f(degrees: f64) -> f64 {
    (degrees - 32.0) / 1.8
}

fn level(kbtuh: f64, cop: f64) -> Level {
    Level { capacity: kbtuh * KBTUH, power: kbtuh * KBTUH / cop }
}

/// °F, greatest kBtu/h and COP, least kBtu/h and COP.
fn two_levels(rows: &[(f64, f64, f64, f64, f64)]) -> Vec<Row> {
    let row = |&(t, most, cop, least, least_cop): &(f64, f64, f64, f64, f64)| Row {
        outdoor: f(t),
        least: Some(level(least, least_cop)),
        rated: None,
        greatest: level(most, cop),
    };
    rows.iter().map(row).collect()
}

fn one_level(rows: &[(f64, f64, f64)]) -> Vec<Row> {
    let row = |&(t, most, cop): &(f64, f64, f64)| Row {
        outdoor: f(t),
        least: None,
        rated: None,
        greatest: level(most, cop),
    };
    rows.iter().map(row).collect()
}

fn pump(rows: Vec<Row>, cut_out: Option<f64>, cycling_loss: f64, standby: f64) -> HeatPump {
    HeatPump { rows, steady_basis: false, cut_out, cut_on: None, cycling_loss, fan: 0.0, standby }
}

fn main_pump() -> HeatPump {
    let rows = two_levels(&[
        (-13.0, 20.5, 1.50, 9.0, 1.60),
        (-5.0, 24.0, 1.75, 9.5, 1.85),
        (5.0, 28.0, 2.00, 10.0, 2.15),
        (17.0, 32.0, 2.35, 10.0, 2.55),
        (35.0, 33.0, 2.60, 10.0, 2.95),
        (47.0, 38.0, 3.20, 10.5, 3.90),
    ]);
    pump(rows, Some(f(-17.0)), 0.25, 0.015)
}

fn wing_pump() -> HeatPump {
    let rows = one_level(&[
        (-13.0, 8.0, 1.60),
        (-5.0, 9.5, 1.85),
        (5.0, 11.0, 2.10),
        (17.0, 13.0, 2.45),
        (35.0, 13.5, 2.75),
        (47.0, 15.5, 3.40),
    ]);
    pump(rows, Some(f(-18.0)), 0.0, 0.008)
}

fn main_cooling() -> HeatPump {
    let rows = two_levels(&[(82.0, 34.0, 3.70, 9.5, 5.60), (95.0, 31.0, 2.90, 9.0, 4.30)]);
    pump(rows, None, 0.25, 0.015)
}

fn wing_cooling() -> HeatPump {
    pump(one_level(&[(82.0, 12.5, 4.10), (95.0, 11.5, 3.30)]), None, 0.0, 0.008)
}

fn air_conditioner() -> HeatPump {
    pump(one_level(&[(82.0, 32.0, 4.10), (95.0, 30.0, 3.30)]), None, 0.20, 0.0)
}

fn cools(pump: HeatPump, duct_efficiency: f64, is_the_lead: bool) -> CoolingMachine {
    CoolingMachine { pump, duct_efficiency, sensible_share: 0.75, unit: None, is_the_lead }
}

fn ducted(machine: Machine) -> Placed {
    Placed { machine, duct_efficiency: 0.95, form: None, unit: None }
}

fn ductless(machine: Machine) -> Placed {
    Placed { machine, duct_efficiency: 1.0, form: None, unit: None }
}

fn furnace(kbtuh: f64, afue: f64) -> Placed {
    // Chicago lies below 2,000 ft: no derating.
    ducted(Machine::Furnace(Furnace {
        input: kbtuh * KBTUH,
        afue,
        altitude_factor: 1.0,
        blower: 0.5,
        store: None,
        pilot: 0.0,
        daily: f64::INFINITY,
    }))
}

/// Design loads in Btu/h: heating at 0 °F and 70 °F indoors, cooling at 90 °F over 68 °F.
fn zone(design: f64, cooling: f64, lead: Placed, auxiliary: Vec<Placed>, cooler: CoolingMachine) -> Zone {
    let loss = design / 1000.0 * KBTUH / (70.0 / 1.8);
    let loss_c = cooling / 1000.0 * KBTUH / (22.0 / 1.8);
    // 2,600 ft² at 165 kJ/K for each m², by share of the design load.
    let floor = 2600.0 * 0.3048 * 0.3048 * design / 42_000.0;
    Zone {
        loss,
        gains: loss * 8.0 / 1.8,
        heat_capacity: 165.0 / 3600.0 * floor,
        set_points: vec![f(70.0); HOURS],
        vent: 25.0,
        cooling: Some(Cooling {
            loss: loss_c,
            gains: loss_c * 7.0 / 1.8,
            balance: f(68.0),
            set_point: f(75.0),
            machine: Some(cooler),
        }),
        lead,
        alternate: None,
        auxiliary,
        tempering: None,
    }
}

fn main_zone(lead: Placed, auxiliary: Vec<Placed>) -> Zone {
    let is_pump = matches!(lead.machine, Machine::HeatPump(_));
    let cooler = if is_pump { main_cooling() } else { air_conditioner() };
    zone(33_250.0, 21_000.0, lead, auxiliary, cools(cooler, 0.95, is_pump))
}

fn wing(baseboard: bool) -> Zone {
    let auxiliary = if baseboard { vec![ductless(Machine::Resistance(2.0))] } else { Vec::new() };
    let lead = ductless(Machine::HeatPump(wing_pump()));
    zone(8_750.0, 5_500.0, lead, auxiliary, cools(wing_cooling(), 1.0, true))
}

fn options() -> Vec<(&'static str, Vec<Zone>)> {
    let main = || ducted(Machine::HeatPump(main_pump()));
    let mut two_fuel = main_zone(main(), Vec::new());
    let placed = furnace(60.0, 0.95);
    two_fuel.alternate = Some(Alternate { placed, lock_out: f(15.0), whole_hour: false });
    let strips = vec![ducted(Machine::Resistance(15.0))];
    let mut resistance_wing = wing(false);
    resistance_wing.lead = ductless(Machine::Resistance(4.0));
    resistance_wing.cooling.as_mut().unwrap().machine = None;
    vec![
        ("Heat pumps with strips", vec![main_zone(main(), strips), wing(true)]),
        ("Heat pumps alone", vec![main_zone(main(), Vec::new()), wing(false)]),
        ("Propane furnace", vec![main_zone(furnace(60.0, 0.95), Vec::new()), wing(true)]),
        ("Heat pump and propane", vec![two_fuel, wing(true)]),
        ("Oil furnace", vec![main_zone(furnace(70.0, 0.85), Vec::new()), wing(true)]),
        (
            "Electric resistance",
            vec![main_zone(ducted(Machine::Resistance(20.0)), Vec::new()), resistance_wing],
        ),
    ]
}

#[test]
fn every_option_of_the_demonstration_job_agrees_with_the_oracle_through_the_year() {
    let text = include_str!("../../../data/demo.toml").to_owned();
    let job = reader::read("demo", text).unwrap();
    let year = places::open("il-chicago").unwrap();
    let run = year.run(year.zone);
    let comparison = compare(&job, &Weather::Year(Box::new(year))).unwrap();
    let options = options();
    assert_eq!(comparison.options.len(), options.len());
    for ((name, zones), ours) in options.iter().zip(&comparison.options) {
        assert_eq!(ours.design.name, *name);
        let plan = OptionPlan::new(&ours.design, &comparison.zones, &comparison.machines, &run);
        let theirs = agree(name, zones, &Shared::default(), &plan);
        for (theirs, ours) in theirs.comfort.iter().zip(&ours.zones) {
            let comfort = &ours.sums.comfort;
            assert_eq!(comfort.hours_not_kept_warm, theirs.hours_not_kept_warm as usize, "{name}");
        }
    }
}
