//! How long ten thousand tanks take through a winter's year by day steps, and ten thousand price paths of
//! 20 years by months; and the same in numpy, in the same run, as a yardstick.
//!
//! `cargo bench --bench winters` prints the ratios first; the aim is 1 s each on one core. Start at [`main`].

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::hint::black_box;
use std::io::Write;
use std::process::{Command, Stdio};
use std::time::Instant;

use serde_json::{Value, json};
use winterledger::chance::Chance;
use winterledger::fuel::Fuels;
use winterledger::prices::moves::LevelStep;
use winterledger::supply::book::{Book, through_days};
use winterledger::supply::contract::{Contract, Fees, Orders, PriceDay, PricePlan};
use winterledger::supply::tank::{Placement, Tank};
use winterledger::supply::{MarketDays, Store};

const RUNS: usize = 10;
const WINTERS: usize = 10_000;
const DAYS: usize = 365;
const PATHS: usize = 10_000;
const MONTHS: usize = 240;
const HALF_LIFE: f64 = 1.5;
const SPREAD: f64 = 0.22;
const PRICE: f64 = 2.4;

fn main() {
    ratios_to_numpy();
    divan::main();
}

fn store() -> Store {
    let tank = Tank {
        capacity_kwh: 500.0,
        fill_limit: 0.8,
        reserve: 0.05,
        placement: Placement::Buried,
        shape: None,
    };
    let contract = Contract {
        orders: Orders::WillCall,
        reorder_kwh: 150.0,
        lead_days: 7,
        cold_lead_days: 20,
        cold_lead_stated: true,
        leased: false,
        price: PricePlan::Market,
        price_day: PriceDay::Order,
        fees: Fees::default(),
        minimum_drop_kwh: 0.0,
        emergency_days: None,
        relight_days: 0,
        last_year_kwh: None,
        budget_plan: false,
    };
    let fuel = Fuels::built_in().unwrap().find("propane").unwrap();
    Store { name: "tank".into(), fuel, tank, contract, start_kwh: 400.0 }
}

/// A year's days from July on: most in the middle.
fn wanted() -> Vec<f64> {
    let day = |day: usize| (0.5 - 0.5 * (day as f64 / DAYS as f64 * std::f64::consts::TAU).cos()).powi(2);
    (0..DAYS).map(|i| 0.3 + 9.0 * day(i)).collect()
}

#[derive(Debug, Default, Clone, Copy)]
struct Sums {
    burned: f64,
    bought: f64,
    run_outs: usize,
}

/// All winters; `lead` gives the days from an order by winter and day.
fn tanks(store: &Store, wanted: &[f64], lead: impl Fn(usize, usize) -> usize) -> Sums {
    let market = MarketDays::default();
    let mut sums = Sums::default();
    for winter in 0..WINTERS {
        let factor = 0.7 + 0.6 * ((winter * 48_271) % 65_537) as f64 / 65_537.0;
        let book = Book::new(store, &market, store.start_kwh);
        let year = through_days(book, DAYS, |day| wanted[day] * factor, |day| lead(winter, day));
        sums.burned += year.burned_kwh;
        sums.bought += year.bought_kwh();
        sums.run_outs += year.run_outs;
    }
    sums
}

/// The same for numpy: no chance in it, so that both must agree.
fn by_rule(winter: usize, day: usize) -> usize {
    if (winter * 7919 + day * 104_729).is_multiple_of(10) { 20 } else { 7 }
}

fn by_chance(winter: usize, day: usize) -> usize {
    if Chance::keyed(1, winter as u64, 5, day as u64).share() < 0.1 { 20 } else { 7 }
}

/// Every price of every path, into one list.
fn paths(prices: &mut Vec<f64>) {
    prices.clear();
    let step = LevelStep::new(HALF_LIFE, 1.0 / 12.0, SPREAD);
    for path in 0..PATHS as u64 {
        let mut chance = Chance::keyed(1, path, 100, 0);
        let mut level = 0.0;
        for _ in 0..MONTHS {
            level = step.next(level, chance.normal());
            prices.push(PRICE * level.exp());
        }
    }
}

#[divan::bench(sample_count = 10)]
fn tank_winters(bencher: divan::Bencher<'_, '_>) {
    let (store, wanted) = (store(), wanted());
    bencher.bench_local(|| tanks(black_box(&store), &wanted, by_chance));
}

#[divan::bench(sample_count = 10)]
fn price_paths(bencher: divan::Bencher<'_, '_>) {
    let mut prices = Vec::with_capacity(PATHS * MONTHS);
    bencher.bench_local(|| paths(black_box(&mut prices)));
}

/// Seconds, the least of so many runs.
fn least_s(mut once: impl FnMut()) -> f64 {
    let time = |_| {
        let begin = Instant::now();
        once();
        begin.elapsed().as_secs_f64()
    };
    (0..RUNS).map(time).fold(f64::INFINITY, f64::min)
}

/// Runs the yardstick on the same case; nothing where the Python environment is not there.
fn numpy(store: &Store, wanted: &[f64]) -> Option<Value> {
    let case = json!({
        "winters": WINTERS, "days": DAYS, "wanted": wanted, "runs": RUNS,
        "full": store.tank.full_kwh(), "reserve": store.tank.reserve_kwh(), "reorder": store.contract.reorder_kwh,
        "paths": PATHS, "months": MONTHS, "half_life": HALF_LIFE, "spread": SPREAD, "price": PRICE,
    });
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut child = Command::new(root.join("target/venv/bin/python"))
        .arg(root.join("tests/python/winters_numpy.py"))
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .ok()?;
    child.stdin.take()?.write_all(case.to_string().as_bytes()).ok()?;
    serde_json::from_slice(&child.wait_with_output().ok()?.stdout).ok()
}

/// Prints the least times and their ratios, after both have come to the same.
fn ratios_to_numpy() {
    let (store, wanted) = (store(), wanted());
    let Some(theirs) = numpy(&store, &wanted) else {
        println!("no ratio to numpy: run tests/run once, it makes target/venv");
        return;
    };
    let sums = tanks(&store, &wanted, by_rule);
    for (key, ours) in [("burned", sums.burned), ("bought", sums.bought), ("run_outs", sums.run_outs as f64)]
    {
        let theirs = theirs["tank"][key].as_f64().unwrap();
        assert!(
            (ours - theirs).abs() <= 1e-9 * theirs.abs(),
            "{key}: {ours} {theirs}: not the same computation"
        );
    }
    let mut prices = Vec::with_capacity(PATHS * MONTHS);
    paths(&mut prices);
    let last = || prices.iter().skip(MONTHS - 1).step_by(MONTHS).map(|price| (price / PRICE).ln());
    let mean = last().sum::<f64>() / PATHS as f64;
    let spread = (last().map(|l| (l - mean).powi(2)).sum::<f64>() / (PATHS as f64 - 1.0)).sqrt();
    // Two standard deviations of 10,000 each: 1 % of the spread is one standard error of their ratio.
    assert!((spread / theirs["last_spread"].as_f64().unwrap() - 1.0).abs() < 0.05, "{spread} {theirs}");

    let rule_s = least_s(|| {
        black_box(tanks(black_box(&store), &wanted, by_rule));
    });
    let chance_s = least_s(|| {
        black_box(tanks(black_box(&store), &wanted, by_chance));
    });
    let path_s = least_s(|| paths(black_box(&mut prices)));
    let (tank_numpy, path_numpy) = (theirs["tank_s"].as_f64().unwrap(), theirs["path_s"].as_f64().unwrap());
    println!("least of {RUNS} runs on one core (numpy {})", theirs["numpy"]);
    println!("10,000 tank-winters of 365 days (aim: 1 s)");
    println!("  numpy, all winters at once     {tank_numpy:7.3} s");
    println!("  ours, lead by the same rule    {rule_s:7.3} s  ratio {:.2}", rule_s / tank_numpy);
    println!("  ours, lead drawn by its key    {chance_s:7.3} s  ratio {:.2}", chance_s / tank_numpy);
    println!("10,000 price paths of 240 months (aim: 1 s)");
    println!("  numpy                          {path_numpy:7.3} s");
    println!("  ours, each path by its key     {path_s:7.3} s  ratio {:.2}", path_s / path_numpy);
}
