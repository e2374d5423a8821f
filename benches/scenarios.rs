//! How long fifty scenarios of five options take beside the years alone that they stand on: 250 times one
//! option through the hours and its bills, in turn in the same run.
//!
//! `cargo bench --bench scenarios` prints the ratio of the two medians, aim at most 1.1 where everything
//! has to be worked out anew, and beside it what scenarios of prices alone take. Start at [`main`].

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::hint::black_box;
use std::time::Instant;

use winterledger::comparison::option::year_cost;
use winterledger::comparison::{Comparison, Reruns, RunWeather, compare};
use winterledger::job::{Job, reader};
use winterledger::study::change::{Change, Scenario};
use winterledger::weather::{Weather, places};

const ROUNDS: usize = 9;
const SCENARIOS: usize = 50;
const OPTIONS: usize = 5;

fn main() {
    let job = five_options();
    let weather = Weather::Year(Box::new(places::open("il-chicago").unwrap()));
    let first = compare(&job, &weather).unwrap();
    assert_eq!(first.options.len(), OPTIONS);
    let (anew, prices) = (loads(), prices());
    let mut times = [Vec::new(), Vec::new(), Vec::new()];
    for _ in 0..ROUNDS {
        times[0].push(seconds(|| years_alone(&first)));
        times[1].push(seconds(|| scenarios(&job, &first, &weather, &anew)));
        times[2].push(seconds(|| scenarios(&job, &first, &weather, &prices)));
    }
    let [alone, anew, prices] = times.map(median);
    println!("{SCENARIOS} scenarios of {OPTIONS} options, medians of {ROUNDS} rounds in turn");
    println!("  {} years alone          {:8.1} ms", SCENARIOS * OPTIONS, 1e3 * alone);
    println!(
        "  all worked out anew      {:8.1} ms, {:.3} times (aim: at most 1.1)",
        1e3 * anew,
        anew / alone
    );
    println!("  other prices alone       {:8.1} ms, {:.3} times", 1e3 * prices, prices / alone);
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

fn scenarios(job: &Job, first: &Comparison, weather: &Weather, list: &[Scenario]) {
    let reruns = Reruns::new(first, weather);
    for scenario in list {
        black_box(scenario.with(job, |changed| reruns.run(changed)).unwrap());
    }
}

fn years_alone(c: &Comparison) {
    let RunWeather::Year(year) = &c.weather else { panic!("hours are run") };
    let run = year.run(c.site.zone);
    let setting = c.setting();
    for _ in 0..SCENARIOS {
        for option in &c.options {
            black_box(year_cost(black_box(&option.design), &setting, &run));
        }
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
