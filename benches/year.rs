//! How long a year takes: one zone with its room, a heat pump from a map, and strips, on the hours of
//! Chicago; and the same loop in numba, in the same run, as a yardstick.
//!
//! `cargo bench` prints the ratio of the two medians first; the aim is at most 1.5. Start at [`main`].

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::hint::black_box;
use std::io::Write;
use std::process::{Command, Stdio};
use std::time::Instant;

use serde_json::{Value, json};
use winterledger::calendar::Calendar;
use winterledger::equipment::combustion::furnace_row;
use winterledger::equipment::map::{MapRow, PerformanceMap, Point};
use winterledger::equipment::{Heating, Machine, MachineKind};
use winterledger::fuel::FuelId;
use winterledger::load::{Schedule, Zone};
use winterledger::simulation::design::{OptionDesign, ZoneDesign};
use winterledger::simulation::hour_map::HourMap;
use winterledger::simulation::plan::OptionPlan;
use winterledger::simulation::record::{Sink, ZoneRecord};
use winterledger::simulation::sums::YearSums;
use winterledger::simulation::{FuelLimits, OptionState, advance};
use winterledger::units::{btu_to_kwh, fahrenheit_to_celsius};
use winterledger::weather::{OutdoorRun, places};

const RUNS: usize = 200;
const SET_POINT_C: f64 = 21.0;
const LOSS_KW_K: f64 = 0.25;
const GAINS_KW: f64 = 1.1;
const HEAT_CAPACITY_KWH_K: f64 = 8.0;
const VENT_C: f64 = 25.0;
const DUCTS: f64 = 0.95;
const CYCLING_LOSS: f64 = 0.25;
const STRIPS_KW: f64 = 15.0;
const CUT_OUT_F: f64 = -17.0;
/// °F, least kBtu/h and COP, greatest kBtu/h and COP.
const ROWS: [[f64; 5]; 6] = [
    [-13.0, 9.0, 1.60, 20.5, 1.50],
    [-5.0, 9.5, 1.85, 24.0, 1.75],
    [5.0, 10.0, 2.15, 28.0, 2.00],
    [17.0, 10.0, 2.55, 32.0, 2.35],
    [35.0, 10.0, 2.95, 33.0, 2.60],
    [47.0, 10.5, 3.90, 38.0, 3.20],
];

fn main() {
    ratio_to_numba();
    divan::main();
}

fn point(kbtuh: f64, cop: f64) -> Point {
    let capacity_kw = btu_to_kwh(1000.0 * kbtuh);
    Point { capacity_kw, power_kw: capacity_kw / cop }
}

fn row([t, least, least_cop, most, cop]: &[f64; 5]) -> MapRow {
    let greatest = point(*most, *cop);
    let outdoor_c = fahrenheit_to_celsius(*t);
    MapRow { outdoor_c, least: point(*least, *least_cop), rated: greatest, greatest }
}

fn machine(kind: MachineKind, rows: Vec<MapRow>, cut_out_c: Option<f64>) -> Machine {
    Machine {
        ducted: true,
        heating: Some(Heating {
            cycling_loss: if kind == MachineKind::HeatPump { CYCLING_LOSS } else { 0.0 },
            cut_out_c,
            ..Heating::of(PerformanceMap::new(rows).unwrap())
        }),
        ..Machine::new("", kind, FuelId::ELECTRICITY)
    }
}

fn heat_pump() -> Machine {
    let cut_out_c = Some(fahrenheit_to_celsius(CUT_OUT_F));
    machine(MachineKind::HeatPump, ROWS.iter().map(row).collect(), cut_out_c)
}

fn weather() -> OutdoorRun {
    let year = places::open("il-chicago").unwrap();
    year.run(year.zone)
}

fn plan(run: &OutdoorRun) -> OptionPlan {
    let zone = Zone {
        name: String::new(),
        loss_kw_k: LOSS_KW_K,
        gains_kw: GAINS_KW,
        heat_capacity_kwh_k: HEAT_CAPACITY_KWH_K,
        indoor_c: SET_POINT_C,
        design_temperature_c: -18.0,
        balance_temperature_c: SET_POINT_C - GAINS_KW / LOSS_KW_K,
        heating: Schedule { set_point_c: SET_POINT_C, set_backs: Vec::new() },
        vent_c: VENT_C,
        cooling: None,
        duct_efficiency: DUCTS,
        duct_line: None,
    };
    let strips = machine(MachineKind::Resistance, vec![furnace_row(STRIPS_KW, 1.0, 0.0, 1.0)], None);
    let design = ZoneDesign { heaters: vec![0, 1], ..ZoneDesign::default() };
    let design = OptionDesign { zones: vec![design], ..OptionDesign::default() };
    OptionPlan::new(&design, &[zone], &[heat_pump(), strips], run)
}

/// The five numbers that the yardstick keeps too.
#[derive(Default)]
struct Five {
    pump_kwh: f64,
    strip_kwh: f64,
    pump_heat_kwh: f64,
    lowest_c: f64,
    not_kept_warm: usize,
}

impl Sink for Five {
    #[inline(always)]
    fn take(&mut self, record: &ZoneRecord<'_>) {
        let [pump, strip, ..] = &record.outcome.heaters;
        self.pump_kwh += pump.draw;
        self.strip_kwh += strip.draw;
        self.pump_heat_kwh += pump.heat;
        self.lowest_c = self.lowest_c.min(record.outcome.end_c);
        self.not_kept_warm += usize::from(record.outcome.end_c < record.set_point_c - 1.0);
    }
}

fn year(plan: &OptionPlan) -> Five {
    let mut five = Five { lowest_c: SET_POINT_C, ..Five::default() };
    let mut state = OptionState::at_set_point(plan);
    advance(plan, 0..plan.outdoor_c.len(), &mut state, &mut FuelLimits::none(), &mut five);
    five
}

fn year_with_sums(plan: &OptionPlan, calendar: &Calendar) -> YearSums {
    let mut sums = YearSums::new(calendar, 1, 1);
    let mut state = OptionState::at_set_point(plan);
    advance(plan, 0..plan.outdoor_c.len(), &mut state, &mut FuelLimits::none(), &mut sums);
    sums
}

#[divan::bench]
fn year_keeping_five_numbers(bencher: divan::Bencher<'_, '_>) {
    let plan = plan(&weather());
    bencher.bench_local(|| year(black_box(&plan)));
}

#[divan::bench]
fn year_keeping_sums(bencher: divan::Bencher<'_, '_>) {
    let run = weather();
    let plan = plan(&run);
    bencher.bench_local(|| year_with_sums(black_box(&plan), &run.calendar));
}

#[divan::bench]
fn hour_map_of_a_heat_pump(bencher: divan::Bencher<'_, '_>) {
    let (run, pump) = (weather(), heat_pump());
    let heating = pump.heating.as_ref().unwrap();
    bencher.bench_local(|| HourMap::heating(black_box(heating), &run.dry_bulb_c));
}

/// Microseconds, the median of so many runs.
fn median_us(mut once: impl FnMut()) -> f64 {
    for _ in 0..20 {
        once();
    }
    let mut micros: Vec<f64> = (0..RUNS)
        .map(|_| {
            let begin = Instant::now();
            once();
            begin.elapsed().as_secs_f64() * 1e6
        })
        .collect();
    micros.sort_by(f64::total_cmp);
    micros[RUNS / 2]
}

/// Runs the yardstick on the same case; nothing where the Python environment is not there.
fn numba(run: &OutdoorRun) -> Option<Value> {
    let rows = ROWS.iter().map(row).map(|r| {
        json!({"t": r.outdoor_c, "q_least": r.least.capacity_kw, "p_least": r.least.power_kw,
               "q_greatest": r.greatest.capacity_kw, "p_greatest": r.greatest.power_kw})
    });
    let case = json!({
        "dry_bulb_c": run.dry_bulb_c.to_vec(), "loss": LOSS_KW_K, "gains": GAINS_KW,
        "heat_capacity": HEAT_CAPACITY_KWH_K, "set_point": SET_POINT_C, "vent": VENT_C,
        "duct_efficiency": DUCTS, "cycling_loss": CYCLING_LOSS, "strips_kw": STRIPS_KW,
        "cutout_c": fahrenheit_to_celsius(CUT_OUT_F), "rows": rows.collect::<Value>(),
    });
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut child = Command::new(root.join("target/venv/bin/python"))
        .arg(root.join("tests/python/kernel_numba.py"))
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .ok()?;
    child.stdin.take()?.write_all(case.to_string().as_bytes()).ok()?;
    serde_json::from_slice(&child.wait_with_output().ok()?.stdout).ok()
}

/// Prints both medians and their ratio. What numba computes anew each hour from the map's rows, ours
/// has made into an hour map once a machine and weather; so both sums are shown.
fn ratio_to_numba() {
    let run = weather();
    let plan = plan(&run);
    let pump = heat_pump();
    let heating = pump.heating.as_ref().unwrap();
    let Some(theirs) = numba(&run) else {
        println!("no ratio to numba: run tests/run once, it makes target/venv");
        return;
    };
    let five = year(&plan);
    for (key, ours) in [
        ("heat_pump_kwh", five.pump_kwh),
        ("strip_kwh", five.strip_kwh),
        ("heat_pump_heat_kwh", five.pump_heat_kwh * DUCTS),
        ("lowest_room_c", five.lowest_c),
        ("hours_not_kept_warm", five.not_kept_warm as f64),
    ] {
        let theirs = theirs[key].as_f64().unwrap();
        let same = (ours - theirs).abs() <= 1e-9 * theirs.abs();
        assert!(same, "{key}: {ours} {theirs}: not the same computation");
    }
    let year_us = median_us(|| {
        black_box(year(black_box(&plan)));
    });
    let map_us = median_us(|| {
        black_box(HourMap::heating(black_box(heating), &run.dry_bulb_c));
    });
    let sums_us = median_us(|| {
        black_box(year_with_sums(black_box(&plan), &run.calendar));
    });
    let numba_us = theirs["median_us"].as_f64().unwrap();
    println!("one year of one zone, medians of {RUNS} runs ({})", theirs["versions"]);
    println!("  numba                          {numba_us:7.1} us");
    println!("  ours, hour map made            {year_us:7.1} us  ratio {:.2}", year_us / numba_us);
    let both = year_us + map_us;
    println!("  ours, and the making           {both:7.1} us  ratio {:.2}", both / numba_us);
    println!("  ours with a year's sums        {sums_us:7.1} us  ratio {:.2}", sums_us / numba_us);
}
