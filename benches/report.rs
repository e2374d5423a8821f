//! How long the demonstration's whole report set takes, against its comparison, in the same run.
//!
//! `cargo bench --bench report` prints the ratio first; the aim is at most 20. The comparison is the library's
//! `compare` alone, which is the stricter measure: the command `compare` runs the scenarios and the tipping price
//! too for what it prints. Start at [`main`].

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::hint::black_box;
use std::time::Instant;

use winterledger::comparison::{Comparison, compare};
use winterledger::job::{Job, reader};
use winterledger::report::build;
use winterledger::report::files::{self, ReadyFile};
use winterledger::report::front::front;
use winterledger::report::sheet::Sheet;
use winterledger::report::studied::Studied;
use winterledger::study;
use winterledger::study::tipping::Asked;
use winterledger::weather::{Weather, places};

const DEMO: &str = include_str!("../data/demo.toml");
const RUNS: usize = 20;

fn main() {
    ratio();
    divan::main();
}

fn opened() -> (Job, Weather) {
    let job = reader::read("demo", DEMO.to_owned()).unwrap_or_else(|p| panic!("{p:?}"));
    (job, Weather::Year(Box::new(places::open("il-chicago").unwrap())))
}

/// Everything that `compare --out` writes, in memory: what it runs beside the comparison included.
fn whole_set(job: &Job, weather: &Weather, c: &Comparison) -> Vec<ReadyFile> {
    let around = study::around(job, weather, c).unwrap_or_else(|p| panic!("{p:?}"));
    let asked = Asked::default();
    let scenarios = study::scenarios(job, weather, c).unwrap_or_else(|p| panic!("{p:?}"));
    let tipping = study::tipping(job, weather, c, &asked).unwrap_or_else(|p| panic!("{p:?}"));
    let map =
        tipping.as_ref().and_then(|found| study::price_map(job, weather, c, found, &scenarios).unwrap());
    let sway = study::sway(job, weather, c, &asked).unwrap_or_else(|p| panic!("{p:?}"));
    let winters = study::draws_as_in_job(job, weather, c);
    let studied = Studied { tipping, map, sway, winters };
    let levers = study::levers(c);
    let sheet = Sheet { front: front(c, &around, &studied), logo: None, levers };
    let mut report = build::report(c);
    report.appendices.extend(studied.tables(c));
    files::ready_files(c, &report, &sheet, &studied).unwrap()
}

fn ms(work: impl FnOnce()) -> f64 {
    let start = Instant::now();
    work();
    1000.0 * start.elapsed().as_secs_f64()
}

/// In turn, so that what else the machine does falls on both alike.
fn ratio() {
    let (job, weather) = opened();
    let c = compare(&job, &weather).unwrap();
    let round = |_| {
        let comparing = ms(|| drop(black_box(compare(black_box(&job), &weather).unwrap())));
        (comparing, ms(|| drop(black_box(whole_set(&job, &weather, black_box(&c))))))
    };
    let rounds: Vec<(f64, f64)> = (0..RUNS).map(round).collect();
    let least = |of: fn(&(f64, f64)) -> f64| rounds.iter().map(of).fold(f64::INFINITY, f64::min);
    let (comparing, reporting) = (least(|r| r.0), least(|r| r.1));
    let mut ratios: Vec<f64> = rounds.iter().map(|(comparing, reporting)| reporting / comparing).collect();
    ratios.sort_by(f64::total_cmp);
    let pdf = whole_set(&job, &weather, &c).into_iter().find(|file| file.name == "comparison.pdf").unwrap();
    println!("the demonstration, the least of {RUNS} rounds in turn");
    println!("  comparing                       {comparing:7.1} ms");
    println!("  its whole report set            {reporting:7.1} ms, {:.1} times", reporting / comparing);
    println!("  the same, the median of rounds           {:.1} times", ratios[RUNS / 2]);
    println!("  its PDF                         {:7.0} kB", pdf.bytes.len() as f64 / 1000.0);
}

#[divan::bench(sample_count = 10)]
fn report_set(bencher: divan::Bencher<'_, '_>) {
    let (job, weather) = opened();
    let c = compare(&job, &weather).unwrap();
    bencher.bench_local(|| whole_set(&job, &weather, black_box(&c)));
}
