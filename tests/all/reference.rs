//! Published and hand-worked numbers, `tests/reference/*.csv`, against the program.
//!
//! Each row: case, inputs, expected, tolerance, origin, source, note. Start at the tests.

use std::collections::BTreeMap;
use std::path::Path;

use crate::outside::Outside;
use winterledger::calendar::{Calendar, Stamp};
use winterledger::equipment::combustion::{altitude_factor, furnace_row};
use winterledger::equipment::map::{MapRow, PerformanceMap, Point};
use winterledger::equipment::output::MachineHour;
use winterledger::equipment::{Heating, Machine, MachineKind};
use winterledger::fuel::{Fuel, FuelId, Fuels};
use winterledger::load::room::mean_temperature;
use winterledger::load::{RoomHour, Schedule, SetBack, Zone};
use winterledger::prices::FuelPrice;
use winterledger::series::Hourly;
use winterledger::simulation::bins::{BinRow, bin_rows};
use winterledger::simulation::design::{OptionDesign, ZoneDesign};
use winterledger::simulation::frost::FrostShares;
use winterledger::simulation::plan::OptionPlan;
use winterledger::simulation::sums::YearSums;
use winterledger::simulation::{EndUse, FuelLimits, OptionState, advance};
use winterledger::units::{METRES_PER_FOOT, btu_to_kwh, fahrenheit_to_celsius as f, kwh_to_btu};
use winterledger::weather::{Bin, OutdoorRun};

/// One row of a table of expected values.
pub(crate) struct Reference {
    pub(crate) case: String,
    inputs: BTreeMap<String, String>,
    expected: f64,
    tolerance: f64,
    origin: String,
    source: String,
}

impl Reference {
    pub(crate) fn input(&self, name: &str) -> f64 {
        self.inputs[name].parse().unwrap_or_else(|e| panic!("{}: {name}: {e}", self.case))
    }

    pub(crate) fn holds(&self, ours: f64) {
        let inputs: Vec<String> = self.inputs.iter().map(|(key, value)| format!("{key}={value}")).collect();
        let what = [self.case.clone(), inputs.join("; ")].join(if inputs.is_empty() { "" } else { ": " });
        let (value, tolerance) = (self.expected, self.tolerance);
        Outside { what, origin: &self.origin, source: &self.source, value, tolerance }.holds(ours);
    }
}

fn folder() -> std::path::PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference")
}

pub(crate) fn references(file: &str) -> Vec<Reference> {
    let reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_path(folder().join(file));
    let row = |row: csv::StringRecord| {
        let [case, inputs, expected, tolerance, origin, source, _note] =
            std::array::from_fn(|i| row.get(i).unwrap().trim());
        let origins = ["published", "from memory", "hand-worked", "independent tool", "common practice"];
        assert!(origins.contains(&origin) && !source.is_empty(), "{case}: no origin");
        let pairs = inputs.split(';').filter_map(|pair| pair.split_once('='));
        Reference {
            case: case.to_owned(),
            inputs: pairs.map(|(k, v)| (k.trim().to_owned(), v.trim().to_owned())).collect(),
            expected: expected.parse().unwrap(),
            tolerance: tolerance.parse().unwrap(),
            origin: origin.to_owned(),
            source: source.to_owned(),
        }
    };
    let mut rows: Vec<Reference> = reader.unwrap().records().map(|r| row(r.unwrap())).collect();
    for place in 1..rows.len() {
        if rows[place].source == "the same" {
            rows[place].source = rows[place - 1].source.clone();
        }
    }
    rows
}

/// The only row of that name.
fn named<'a>(references: &'a [Reference], case: &str) -> &'a Reference {
    let mut found = references.iter().filter(|r| r.case == case);
    found.next().filter(|_| found.next().is_none()).unwrap_or_else(|| panic!("not one row {case}"))
}

fn zone(loss_kw_k: f64, set_point_c: f64, gains_kw: f64, heat_capacity_kwh_k: f64) -> Zone {
    Zone {
        name: String::new(),
        loss_kw_k,
        gains_kw,
        heat_capacity_kwh_k,
        indoor_c: set_point_c,
        design_temperature_c: -20.0,
        balance_temperature_c: set_point_c - gains_kw / loss_kw_k,
        heating: Schedule { set_point_c, set_backs: Vec::new() },
        vent_c: 25.0,
        cooling: None,
        duct_efficiency: 1.0,
        duct_line: None,
    }
}

fn machine(kind: MachineKind, fuel: FuelId, map: Vec<MapRow>, cycling_loss: f64) -> Machine {
    Machine {
        heating: Some(Heating { cycling_loss, ..Heating::of(PerformanceMap::new(map).unwrap()) }),
        ..Machine::new("", kind, fuel)
    }
}

fn resistance(kw: f64) -> Machine {
    machine(MachineKind::Resistance, FuelId::ELECTRICITY, vec![furnace_row(kw, 1.0, 0.0, 1.0)], 0.0)
}

fn serve(heaters: usize) -> ZoneDesign {
    ZoneDesign { heaters: (0..heaters).collect(), ..ZoneDesign::default() }
}

/// kW/K of so many Btu/h·°F.
fn loss(btuh_degf: f64) -> f64 {
    btu_to_kwh(btuh_degf) * 1.8
}

fn of_use(row: &BinRow, wanted: EndUse) -> f64 {
    row.energy.iter().filter(|(_, end_use, _)| *end_use == wanted).map(|(_, _, kwh)| kwh).sum()
}

/// The bin method's example as remembered, one speed: so many Btu/h·°F below a balance temperature.
fn bin_example(loss_btuh_degf: f64, balance_degf: f64) -> (Vec<Reference>, Vec<BinRow>) {
    let references = references("bin_method.csv");
    let pump: Vec<&Reference> = references.iter().filter(|r| r.inputs["energy"] == "heat_pump").collect();
    let row = |r: &&Reference| {
        let capacity_kw = btu_to_kwh(1000.0 * r.input("capacity_kBtuh"));
        let point = Point { capacity_kw, power_kw: r.input("input_kW") };
        MapRow { outdoor_c: f(r.input("bin_degF")), least: point, rated: point, greatest: point }
    };
    let map = pump.iter().map(row).collect();
    let machines = [machine(MachineKind::HeatPump, FuelId::ELECTRICITY, map, 0.25), resistance(20.0)];
    let gains_kw = btu_to_kwh(loss_btuh_degf * (70.0 - balance_degf));
    let zone = zone(loss(loss_btuh_degf), f(70.0), gains_kw, 0.0);
    let bin = |r: &&Reference| Bin { temperature_c: f(r.input("bin_degF")), hours: r.input("hours") };
    let bins: Vec<Bin> = pump.iter().map(bin).collect();
    let rows = bin_rows(&zone, &serve(2), &machines, &bins, FrostShares::default());
    (references, rows)
}

#[test]
fn every_column_of_the_remembered_bin_example_comes_out() {
    // From memory: the columns were worked with 755 Btu/h·°F and 64.3 °F.
    let (references, rows) = bin_example(755.0, 64.3);
    assert_eq!((references.len(), rows.len()), (18, 12));
    for reference in &references {
        let at = f(reference.input("bin_degF"));
        let row = rows.iter().find(|row| row.outdoor_c == at).unwrap();
        let backup = reference.inputs["energy"] == "backup";
        reference.holds(of_use(row, if backup { EndUse::BackupHeat } else { EndUse::SpaceHeating }));
    }
}

#[test]
fn the_remembered_bin_example_comes_to_its_total() {
    // The total with what they were rounded from: 40,000 Btu/h over 53 °F, gains 4,280 Btu/h.
    let loss_btuh_degf = 40_000.0 / 53.0;
    let (_, rows) = bin_example(loss_btuh_degf, 70.0 - 4280.0 / loss_btuh_degf);
    let totals = references_totals();
    let kwh: f64 = rows.iter().flat_map(|row| &row.energy).map(|(_, _, kwh)| kwh).sum();
    named(&totals, "bin example total kWh").holds(kwh);
    let heat: f64 = rows.iter().map(|row| row.heat_kw * row.hours).sum();
    named(&totals, "bin example seasonal COP").holds(heat / kwh);
}

fn references_totals() -> Vec<Reference> {
    references("totals.csv")
}

/// MMBtu of need and of fuel of a burner of `efficiency` through one bin.
fn burner(zone: &Zone, efficiency: f64, outdoor_c: f64, hours: f64) -> (f64, f64) {
    let propane = Fuels::built_in().unwrap().find("propane").unwrap();
    let burner = machine(MachineKind::Furnace, propane, vec![furnace_row(40.0, efficiency, 0.0, 1.0)], 0.0);
    let rows = bin_rows(
        zone,
        &serve(1),
        &[burner],
        &[Bin { temperature_c: outdoor_c, hours }],
        FrostShares::default(),
    );
    let mmbtu = |kwh: f64| kwh_to_btu(kwh) / 1.0e6;
    (mmbtu(rows[0].heat_kw * hours), mmbtu(of_use(&rows[0], EndUse::SpaceHeating)))
}

#[test]
fn the_degree_day_case_is_exact() {
    let totals = references_totals();
    let load = named(&totals, "degree-day load in MMBtu");
    let zone = zone(loss(load.input("loss_Btuh_degF")), f(load.input("balance_degF")), 0.0, 0.0);
    let hours = 24.0 * load.input("days");
    let (need, fuel) = burner(&zone, load.input("efficiency"), f(load.input("outdoor_degF")), hours);
    load.holds(need);
    named(&totals, "degree-day fuel in MMBtu").holds(fuel);
}

#[test]
fn the_furnace_of_the_test_procedure_burns_its_yearly_energy() {
    let totals = references_totals();
    let energy = named(&totals, "furnace energy in MMBtu");
    // Any line that needs the load at one outdoor temperature: here over 55 °F.
    let zone = zone(loss(1000.0 * energy.input("load_kBtuh") / 55.0), f(65.0), 0.0, 0.0);
    let (_, fuel) = burner(&zone, energy.input("efficiency"), f(10.0), energy.input("hours"));
    energy.holds(fuel);
    let fuels = Fuels::built_in().unwrap();
    let propane = fuels.get(fuels.find("propane").unwrap()).unwrap();
    named(&totals, "furnace propane in gal").holds(btu_to_kwh(fuel * 1.0e6) / propane.kwh_per_unit);
}

/// What the hand-worked cases took for one kWh, Btu.
const WORKED_BTU_PER_KWH: f64 = 3412.0;
const NOON: Stamp = Stamp { month: 1, day: 15, hour: 12, weekday: 0 };

fn flat(fuel: FuelId, about: &Fuel, per_unit: f64) -> FuelPrice {
    FuelPrice::flat(fuel, per_unit / about.kwh_per_unit)
}

/// The price of one kWh of heat from a machine that gives `efficiency` for each kWh it draws.
fn heat_price(id: &str, per_unit: f64, efficiency: f64) -> f64 {
    let fuels = Fuels::built_in().unwrap();
    let fuel = fuels.find(id).unwrap();
    let price = flat(fuel, fuels.get(fuel).unwrap(), per_unit);
    let row = furnace_row(1.0, efficiency, 0.0, 1.0);
    let output = MachineHour::new(&row, 0.0).run(0.0, efficiency);
    price.marginal(NOON, 0.0) * output.draw / output.heat
}

#[test]
fn a_million_btu_of_heat_costs_what_the_hand_says() {
    let rows = references("delivered_cost.csv");
    assert_eq!(rows.len(), 5);
    for row in &rows {
        let fuel = row.inputs["fuel"].as_str();
        let per_kwh = heat_price(fuel, row.input("price"), row.input("efficiency"));
        // A fuel sold by its Btu needs no kWh; electricity was worked with a rounder one.
        let kwh = if fuel == "electricity" { 1.0e6 / WORKED_BTU_PER_KWH } else { btu_to_kwh(1.0e6) };
        row.holds(per_kwh * kwh);
    }
}

#[test]
fn electricity_breaks_even_with_propane_where_the_hand_says() {
    // Hand-worked: 28.776 $/MMBtu at COP 2.5 and 3,412 Btu/kWh: 0.24546 $/kWh.
    let propane = heat_price("propane", 2.50, 0.95) * btu_to_kwh(WORKED_BTU_PER_KWH);
    let break_even = propane / heat_price("electricity", 1.0, 2.5);
    assert!((break_even - 0.24546).abs() < 5e-6, "{break_even}");
}

#[test]
fn the_european_bins_come_to_their_published_hours() {
    let mut reader =
        csv::ReaderBuilder::new().comment(Some(b'#')).from_path(folder().join("european_bins.csv")).unwrap();
    let table: Vec<Vec<f64>> =
        reader.records().map(|r| r.unwrap().iter().map(|v| v.parse().unwrap()).collect()).collect();
    // Loss 1 kW/K below 16 °C: the need over that at design is the equivalent hours.
    let zone = zone(1.0, 16.0, 0.0, 0.0);
    for (column, row) in references("european_hours.csv").iter().enumerate() {
        let bins: Vec<Bin> =
            table.iter().map(|r| Bin { temperature_c: r[0], hours: r[column + 1] }).collect();
        assert_eq!(bins.iter().map(|b| b.hours).sum::<f64>(), row.input("hours"), "{}", row.case);
        let rows = bin_rows(&zone, &serve(1), &[resistance(100.0)], &bins, FrostShares::default());
        let heat: f64 = rows.iter().map(|r| r.heat_kw * r.hours).sum();
        row.holds(heat / zone.steady_need_kw(row.input("design_degC")));
    }
}

#[test]
fn the_worked_room_and_the_altitude_factors_come_out() {
    let rows = references("room.csv");
    let heat = named(&rows, "heat to end the hour at 20 °C in kW");
    let capacity = heat.input("capacity");
    let (loss, gains) = (heat.input("loss"), heat.input("gains"));
    let decay = zone(loss, 20.0, gains, capacity).decay(loss);
    let room = RoomHour::new(loss, gains, decay, heat.input("outdoor"));
    let start = heat.input("start");
    let ours = room.heat_to_end_at(start, 20.0);
    heat.holds(ours);
    named(&rows, "mean temperature in °C").holds(mean_temperature(&room, capacity, start, ours));
    let factors: Vec<_> = rows.iter().filter(|r| r.case == "altitude factor").collect();
    assert_eq!(factors.len(), 3);
    for factor in factors {
        factor.holds(altitude_factor(factor.input("elevation_ft") * METRES_PER_FOOT));
    }
}

/// Keeps the room's temperature at the end of every hour.
struct Rooms(Vec<f64>, YearSums);

impl winterledger::simulation::record::Sink for Rooms {
    fn take(&mut self, record: &winterledger::simulation::record::ZoneRecord<'_>) {
        self.0.push(record.outcome.end_c);
        self.1.take(record);
    }
}

#[test]
fn a_set_back_that_the_machine_cannot_recover_from_counts_as_cold() {
    // Loss 0.25 kW/K, 4 kWh/K, gains 1 kW, −15 °C all year, 8.2 kW; 18 °C from 22 to 6 h, else 21 °C.
    let mut zone = zone(0.25, 21.0, 1.0, 4.0);
    zone.heating.set_backs = vec![SetBack { from_minute: 1320, to_minute: 360, set_point_c: 18.0 }];
    let run = OutdoorRun {
        calendar: Calendar::of_one_year(2023, 8760, 0.0, None),
        dry_bulb_c: Hourly::new(vec![-15.0; 8760]).unwrap(),
        dew_point_c: None,
    };
    let design = OptionDesign { zones: vec![serve(1)], ..OptionDesign::default() };
    let plan = OptionPlan::new(&design, &[zone], &[resistance(8.2)], &run);
    let mut state = OptionState::at_set_point(&plan);
    let mut sink = Rooms(Vec::new(), YearSums::new(&run.calendar, 1, 1));
    let advance_to = |days: std::ops::Range<usize>, state: &mut OptionState, sink: &mut Rooms| {
        advance(&plan, days.start * 24..days.end * 24, state, &mut FuelLimits::none(), sink);
        let comfort = &sink.1.zones[0].comfort;
        (comfort.recovery_hours as f64, comfort.hours_not_kept_warm as f64)
    };
    let before = advance_to(0..2, &mut state, &mut sink);
    let third = advance_to(2..3, &mut state, &mut sink);
    let rows = references("room.csv");
    let warmest = sink.0[48..72].iter().copied().fold(f64::NEG_INFINITY, f64::max);
    named(&rows, "set-back trap: highest room on the third day in °C").holds(warmest);
    named(&rows, "set-back trap: recovery hours a day").holds(third.0 - before.0);
    named(&rows, "set-back trap: hours not kept warm a day").holds(third.1 - before.1);
    let year = advance_to(3..365, &mut state, &mut sink);
    named(&rows, "set-back trap: hours not kept warm a day").holds((year.1 - third.1) / 362.0);
}
