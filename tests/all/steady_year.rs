//! Whole years on the steady line against other programs: numpy and pandas now, and one that was run
//! outside the project once.
//!
//! Start at the tests.

use crate::demo_job::{STEADY, compared};
use crate::python;
use serde_json::{Value, json};
use winterledger::comparison::Comparison;
use winterledger::ledger::{Posting, Reason};
use winterledger::simulation::EndUse;

/// kW of one kBtu/h, from the definition of the Btu, 1055.05585262 J.
const KBTUH: f64 = 1_055.055_852_62 / 3600.0;

fn f(degrees: f64) -> f64 {
    (degrees - 32.0) / 1.8
}

/// The main heat pump of the demonstration: °F, kBtu/h and COP.
const GREATEST: [[f64; 3]; 6] = [
    [-13.0, 20.5, 1.50],
    [-5.0, 24.0, 1.75],
    [5.0, 28.0, 2.00],
    [17.0, 32.0, 2.35],
    [35.0, 33.0, 2.60],
    [47.0, 38.0, 3.20],
];
const LEAST: [[f64; 3]; 6] = [
    [-13.0, 9.0, 1.60],
    [-5.0, 9.5, 1.85],
    [5.0, 10.0, 2.15],
    [17.0, 10.0, 2.55],
    [35.0, 10.0, 2.95],
    [47.0, 10.5, 3.90],
];

fn rows(of: [[f64; 3]; 6]) -> Value {
    of.iter().map(|[t, kbtuh, cop]| json!([f(*t), kbtuh * KBTUH, cop])).collect()
}

#[test]
fn the_steady_year_of_the_main_heat_pump_is_that_of_numpy_and_pandas() {
    let question = json!({
        "what": "steady_year",
        "file": "data/weather/il-chicago.csv.gz",
        "loss_kw_per_k": 33.25 * KBTUH / (70.0 / 1.8),
        "balance_c": f(62.0),
        "duct_efficiency": 0.95,
        "cutout_c": f(-17.0),
        "degradation": 0.25,
        "greatest": rows(GREATEST),
        "least": rows(LEAST),
    });
    let theirs = python::run("weather_reference.py", &question.to_string());
    let c = compared(&STEADY);
    let main = &c.options[0].zones[0];
    let heat = main.sums.heater_heat_kwh;
    let draw = main.sums.heater_draw_kwh;
    let versions = &theirs["versions"];
    for (key, ours) in [
        ("need_kwh", main.sums.need_kwh),
        ("heat_kwh", heat[0] + heat[1]),
        ("heat_pump_heat_kwh", heat[0]),
        ("heat_pump_kwh", draw[0]),
        ("strip_kwh", draw[1]),
    ] {
        let theirs = theirs[key].as_f64().unwrap();
        let off = ours / theirs - 1.0;
        assert!(off.abs() < 1e-9 && theirs > 100.0, "{key}: ours {ours}, theirs {theirs}, {versions}");
    }
}

/// Of one option: space heat and backup, in the fuel's selling unit.
fn space_heat(c: &Comparison, option: usize, fuel: &str) -> f64 {
    let fuel = c.fuels.find(fuel).unwrap();
    let heats = |p: &&Posting| {
        let end_use = matches!(p.end_use, EndUse::SpaceHeating | EndUse::BackupHeat);
        end_use && p.fuel == fuel && p.reason != Reason::FixedCharge
    };
    c.options[option].ledger.postings.iter().filter(heats).map(|p| p.quantity).sum()
}

/// Origin of the expected numbers: an independent run of the same house and machines outside the
/// project, once, on the steady line without cooling; printed to 10 kWh and to the gallon.
const PUMPS_KWH: f64 = 9560.0;
const FURNACE_KWH: f64 = 2300.0;
const FURNACE_GAL: f64 = 773.0;
const TWO_FUEL_KWH: f64 = 7870.0;
const TWO_FUEL_GAL: f64 = 129.0;
const RESISTANCE_KWH: f64 = 25_250.0;
const WITHIN: f64 = 0.01;

/// The two options with every zone on heat pumps are met less closely: the job gives the wing's heat
/// pump no least output, so ours holds its greatest output's COP at every load (1,913 kWh a year, and
/// numpy says the same). About 1,770 would bring both options, and the furnace's, to the other run's
/// figures: it must have had that machine better at part load, but its rows are not known. Without
/// the wing, which drops out of differences between options, 1 % holds.
const WITHIN_WITH_THE_WING: f64 = 0.021;

fn near(what: &str, ours: f64, theirs: f64) {
    assert!((ours / theirs - 1.0).abs() < WITHIN, "{what}: ours {ours}, independent {theirs}");
}

#[test]
fn an_independent_run_of_the_demonstration_is_met_within_one_percent() {
    let c = compared(&STEADY);
    let electricity = |option| space_heat(&c, option, "electricity");
    near("resistance, kWh", electricity(5), RESISTANCE_KWH);
    near("furnace, gal", space_heat(&c, 2, "propane"), FURNACE_GAL);
    near("two-fuel, gal", space_heat(&c, 3, "propane"), TWO_FUEL_GAL);
    // The wing is the same in both and drops out.
    near("heat pumps less two-fuel, kWh", electricity(0) - electricity(3), PUMPS_KWH - TWO_FUEL_KWH);
    near("heat pumps less furnace, kWh", electricity(0) - electricity(2), PUMPS_KWH - FURNACE_KWH);
    for (option, theirs) in [(0, PUMPS_KWH), (3, TWO_FUEL_KWH)] {
        let over = electricity(option) / theirs - 1.0;
        assert!((0.0..WITHIN_WITH_THE_WING).contains(&over), "{option}: {over}");
    }
}

/// A furnace of which 60,000 Btu/h reach the rooms: through 0.95 of ducts and 0.95 of AFUE.
const INPUT_FOR_60_000_IN_THE_ROOMS: &str = "66482 Btu/h";

#[test]
fn the_furnaces_electricity_is_met_where_its_60_000_reach_the_rooms() {
    // Ours takes 60,000 Btu/h as the burner's input, as a nameplate has it: the blower then runs
    // longer and draws 587 instead of 531 kWh. Taken as heat in the rooms, both of the other run's
    // figures come out, the propane to the gallon.
    let mut changes = STEADY.to_vec();
    changes.push(("equipment.\"propane furnace\".input", INPUT_FOR_60_000_IN_THE_ROOMS));
    let c = compared(&changes);
    let pumps_less_furnace = space_heat(&c, 0, "electricity") - space_heat(&c, 2, "electricity");
    near("heat pumps less furnace, kWh", pumps_less_furnace, PUMPS_KWH - FURNACE_KWH);
    assert_eq!(space_heat(&c, 2, "propane").round(), FURNACE_GAL);
}
