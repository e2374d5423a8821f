//! How fast and in how much room a long record is read: 23 years of hours as CSV, against the csv crate's
//! bare loop over the records of the same bytes, in the same run.
//!
//! `cargo bench --bench weather` prints the ratios first; the aims are at most 2 for reading, at most a
//! tenth of the reading for the quality pass, and memory that does not grow with the text. Start at
//! [`main`].

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::fmt::Write;
use std::hint::black_box;
use std::io::{Read as _, Write as _};
use std::time::Instant;

use chrono::{Duration, NaiveDate};
use flate2::{Compression, write::GzEncoder};
use peak_alloc::PeakAlloc;
use winterledger::weather::{OutdoorYear, ReadOptions, Weather, WeatherRecord, quality, read, read_many};

#[global_allocator]
static MEMORY: PeakAlloc = PeakAlloc;

const RUNS: usize = 100;
const ROWS: i64 = 201_624; // 1997 to 2019

fn main() {
    ratios();
    measured_ratio();
    divan::main();
}

/// Hours of a made-up climate with the columns that a re-analysis has.
fn text(rows: i64) -> String {
    let first = NaiveDate::from_ymd_opt(1997, 1, 1).unwrap().and_hms_opt(0, 30, 0).unwrap();
    let mut text = "# utc_offset_h: 1\ndatetime,pressure_Pa,dry_bulb_degC,u_10,v_10\n".to_owned();
    for hour in 0..rows {
        let day = hour as f64 / 24.0;
        let season = -(std::f64::consts::TAU * day / 365.25).cos();
        let wave = (day * 0.7).sin() + (day * 0.31).cos();
        let t = 10.0 + 9.0 * season + 4.0 * wave - 4.0 * (std::f64::consts::TAU * day).cos();
        let time = (first + Duration::hours(hour)).format("%Y-%m-%d %H:%M:%S");
        let pressure = 98_000.0 + 400.0 * wave;
        writeln!(text, "{time},{pressure:.1},{t:.2},{:.2},{:.2}", 3.0 * wave, -2.0 * season).unwrap();
    }
    text
}

fn record(text: &[u8]) -> WeatherRecord {
    match read("record.csv", text) {
        Ok(Weather::Record(record)) => *record,
        other => panic!("{other:?}"),
    }
}

/// The files of a measured record, unpacked.
fn measured_files() -> Vec<(String, Vec<u8>)> {
    let years = [1997, 2001, 2005, 2009, 2013, 2017];
    let unpacked = years.map(|year| {
        let name = format!("france-{year}.csv");
        let packed = std::fs::File::open(format!("tests/data/weather/{name}.gz")).unwrap();
        let mut text = Vec::new();
        flate2::read::GzDecoder::new(packed).read_to_end(&mut text).unwrap();
        (name, text)
    });
    unpacked.to_vec()
}

fn joined(files: &[(String, Vec<u8>)]) -> WeatherRecord {
    let files = files.iter().map(|(name, text)| (name.clone(), text.as_slice())).collect();
    match read_many(files, &ReadOptions::default()) {
        Ok(Weather::Record(record)) => *record,
        other => panic!("{other:?}"),
    }
}

/// The csv crate's cheapest loop: the record is used again, and its bytes are not even looked at.
fn bare_bytes(text: &[u8]) -> usize {
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text);
    let mut record = csv::ByteRecord::new();
    let mut cells = 0;
    while reader.read_byte_record(&mut record).unwrap() {
        cells += record.len();
    }
    cells
}

/// The csv crate's ordinary loop over records of text.
fn bare_records(text: &[u8]) -> usize {
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text);
    reader.records().map(|record| record.unwrap().len()).sum()
}

/// What a comparison judges: the year that is run in all ways, every other winter for its cold.
fn judged(record: &WeatherRecord) {
    let winters: Vec<OutdoorYear> =
        record.winters().into_iter().filter_map(|year| record.from_july(year)).collect();
    let cold = winters.iter().filter_map(quality::cold_flag).count();
    black_box((cold, winters.last().map(quality::flags)));
}

/// A piece of work and its name.
type Work<'a> = (&'static str, Box<dyn FnMut() + 'a>);

/// Milliseconds of each piece of work, run in turn: the least of so many rounds, as whatever else runs on
/// the machine only adds.
fn least_ms<const N: usize>(mut work: [Work<'_>; N]) -> [(&'static str, f64); N] {
    let mut millis = vec![Vec::new(); N];
    for _ in 0..RUNS {
        for ((_, once), millis) in work.iter_mut().zip(&mut millis) {
            let begin = Instant::now();
            once();
            millis.push(begin.elapsed().as_secs_f64() * 1e3);
        }
    }
    let mut millis = millis.into_iter();
    work.map(|(what, _)| {
        let mut own = millis.next().unwrap();
        own.sort_by(f64::total_cmp);
        (what, own[0])
    })
}

/// The most bytes held at once while reading beyond those held before, and those of the record.
fn room(text: &[u8]) -> (usize, usize) {
    let before = MEMORY.current_usage();
    MEMORY.reset_peak_usage();
    let record = black_box(record(text));
    let (peak, kept) = (MEMORY.peak_usage() - before, MEMORY.current_usage() - before);
    drop(record);
    (peak, kept)
}

fn ratios() {
    let text = text(ROWS).into_bytes();
    let mut packed = GzEncoder::new(Vec::new(), Compression::default());
    packed.write_all(&text).unwrap();
    let packed = packed.finish().unwrap();
    let whole = record(&text);
    let times = least_ms([
        ("csv crate, records of bytes", Box::new(|| _ = black_box(bare_bytes(black_box(&text))))),
        ("csv crate, records of text", Box::new(|| _ = black_box(bare_records(black_box(&text))))),
        ("reading", Box::new(|| drop(black_box(record(black_box(&text)))))),
        ("reading, gzipped", Box::new(|| drop(black_box(record(black_box(&packed)))))),
        ("quality pass", Box::new(|| judged(black_box(&whole)))),
    ]);
    let [(_, bytes_ms), (_, records_ms), (_, ours_ms), _, (_, quality_ms)] = times;
    println!("{ROWS} rows, {:.1} MB, the least of {RUNS} rounds", text.len() as f64 / 1e6);
    times.iter().for_each(|(what, ms)| println!("  {what:30} {ms:7.2} ms"));
    println!("  reading over records of text    {:6.2} times", ours_ms / records_ms);
    println!("  reading over records of bytes   {:6.2} times", ours_ms / bytes_ms);
    println!("  quality pass over reading       {:6.2} %", 100.0 * quality_ms / ours_ms);
    for (what, bytes) in [("text", &text), ("gzip", &packed)] {
        let (peak, kept) = room(bytes);
        let (peak, kept) = (peak as f64 / 1e6, kept as f64 / 1e6);
        println!(
            "  most memory while reading {what}  {peak:7.2} MB  {:.2} times the {kept:.2} MB kept",
            peak / kept
        );
    }
}

/// The same pass over a measured record, whose hours are rougher than made-up ones and leave it more to do.
fn measured_ratio() {
    let files = measured_files();
    let measured = joined(&files);
    let times = least_ms([
        ("reading, measured record", Box::new(|| drop(black_box(joined(black_box(&files)))))),
        ("quality pass, measured record", Box::new(|| judged(black_box(&measured)))),
    ]);
    times.iter().for_each(|(what, ms)| println!("  {what:30} {ms:7.2} ms"));
    println!("  quality pass over reading       {:6.2} %", 100.0 * times[1].1 / times[0].1);
}

#[divan::bench]
fn reading_a_record(bencher: divan::Bencher<'_, '_>) {
    let text = text(ROWS).into_bytes();
    bencher.counter(divan::counter::BytesCount::new(text.len())).bench_local(|| record(black_box(&text)));
}

#[divan::bench]
fn quality_pass(bencher: divan::Bencher<'_, '_>) {
    let record = record(text(ROWS).as_bytes());
    bencher.bench_local(|| judged(black_box(&record)));
}

#[divan::bench]
fn quality_pass_measured(bencher: divan::Bencher<'_, '_>) {
    let record = joined(&measured_files());
    bencher.bench_local(|| judged(black_box(&record)));
}
