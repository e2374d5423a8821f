//! How long fifty scenarios of five options take beside the years alone that they stand on: 250 times one
//! option through the hours and its bills, five before each scenario, in the same run.
//!
//! `cargo bench --bench scenarios` prints the median of the rounds' ratios, aim at most 1.1 where everything
//! has to be worked out anew; beside it what scenarios of prices alone take, and the same years with the hour
//! maps made before, which no comparison by itself has. Start at [`main`].

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::hint::black_box;
use std::time::Instant;

use winterledger::comparison::option::year_cost;
use winterledger::comparison::setting::Setting;
use winterledger::comparison::{Comparison, Reruns, RunWeather, compare};
use winterledger::job::{Job, reader};
use winterledger::simulation::hour_map::HourMaps;
use winterledger::study::change::{Change, Scenario};
use winterledger::weather::{OutdoorRun, Weather, places};

const ROUNDS: usize = 9;
const SCENARIOS: usize = 50;
const OPTIONS: usize = 5;
/// Places among the times of a round.
const ALONE: usize = 0;
const ANEW: usize = 1;
const PRICES: usize = 2;
const MAPPED: usize = 3;

fn main() {
    let job = five_options();
    let weather = Weather::Year(Box::new(places::open("il-chicago").unwrap()));
    let first = compare(&job, &weather).unwrap();
    assert_eq!(first.options.len(), OPTIONS);
    let (anew, prices) = (loads(), prices());
    let rounds: Vec<[f64; 4]> =
        (0..ROUNDS).map(|_| round((&job, &first, &weather), [&anew, &prices])).collect();
    let times = |of: usize| 1e3 * median(rounds.iter().map(|round| round[of]).collect());
    let ratio = |of: usize, to: usize| median(rounds.iter().map(|round| round[of] / round[to]).collect());
    println!("{SCENARIOS} scenarios of {OPTIONS} options, medians of {ROUNDS} rounds in turn");
    println!("  {} years alone          {:8.1} ms", SCENARIOS * OPTIONS, times(ALONE));
    println!(
        "  all worked out anew      {:8.1} ms, {:.3} times (aim: at most 1.1)",
        times(ANEW),
        ratio(ANEW, ALONE)
    );
    println!("  other prices alone       {:8.1} ms, {:.3} times", times(PRICES), ratio(PRICES, ALONE));
    println!(
        "  years, maps made before  {:8.1} ms, {:.3} times as long all worked out anew",
        times(MAPPED),
        ratio(ANEW, MAPPED)
    );
}

/// Seconds of one round: what is measured is done scenario by scenario in turn, so that what else the machine
/// does falls on all alike.
fn round((job, first, weather): (&Job, &Comparison, &Weather), [anew, prices]: [&[Scenario]; 2]) -> [f64; 4] {
    let RunWeather::Year(year) = &first.weather else { panic!("hours are run") };
    let (run, maps) = (year.run(first.site.zone), HourMaps::default());
    let setting = first.setting();
    let mapped = Setting { maps: Some(&maps), ..first.setting() };
    let (anew_runs, price_runs) = (Reruns::new(first, weather), Reruns::new(first, weather));
    let mut times = [0.0; 4];
    for (anew, prices) in anew.iter().zip(prices) {
        times[ALONE] += seconds(|| years_alone(first, &setting, &run));
        times[ANEW] += seconds(|| drop(black_box(anew.with(job, |changed| anew_runs.run(changed)).unwrap())));
        times[MAPPED] += seconds(|| years_alone(first, &mapped, &run));
        times[PRICES] +=
            seconds(|| drop(black_box(prices.with(job, |changed| price_runs.run(changed)).unwrap())));
    }
    times
}

/// The demonstration without its tank and its last option.
fn five_options() -> Job {
    let text = include_str!("../data/demo.toml");
    let (tank, options) = (text.find("[[supply]]").unwrap(), text.find("[[option]]").unwrap());
    let last = text.find("[[option]]\nname = \"Electric resistance\"").unwrap();
    let scenarios = text.find("[[scenario]]").unwrap();
    let text = format!("{}{}{}", &text[..tank], &text[options..last], &text[scenarios..]);
    reader::read("demo", text).unwrap()
}

/// Scenarios that leave no option's energy as it was.
fn loads() -> Vec<Scenario> {
    let load = |i: usize| {
        let value = format!("{} Btu/h", 30_000 + 100 * i);
        let set = Change::Set { key: "house.zone.main.design_load".into(), value };
        Scenario { name: format!("load {i}"), changes: vec![set] }
    };
    (0..SCENARIOS).map(load).collect()
}

/// Scenarios that change prices alone.
fn prices() -> Vec<Scenario> {
    let price = |i: usize| Scenario {
        name: format!("price {i}"),
        changes: vec![Change::price("propane", 1.0 + 0.02 * i as f64)],
    };
    (0..SCENARIOS).map(price).collect()
}

fn years_alone(c: &Comparison, setting: &Setting<'_>, run: &OutdoorRun) {
    for option in &c.options {
        black_box(year_cost(black_box(&option.design), setting, run));
    }
}

fn seconds(once: impl FnOnce()) -> f64 {
    let begin = Instant::now();
    once();
    begin.elapsed().as_secs_f64()
}

fn median(mut list: Vec<f64>) -> f64 {
    list.sort_by(f64::total_cmp);
    list[list.len() / 2]
}
