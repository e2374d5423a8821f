//! Tens of thousands of damaged inputs for the job reader, the job editor and every weather layout:
//! each is read or refused with a message, none ends in a panic, and all of them within a minute.
//!
//! The damage is drawn from a fixed seed, so that a failure comes again. Start at [`watched`].

use crate::weather_text::{EPW_HEAD, TMY3_HEAD, epw_row, gzip, tenths, tmy3_row};
use std::io::Read;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::mpsc;
use std::time::{Duration, Instant};
use winterledger::cli::messages::render;
use winterledger::comparison::compare;
use winterledger::job::edit::set;
use winterledger::job::reader::from_bytes;
use winterledger::problem::Problem;
use winterledger::report::weather_figures::figures;
use winterledger::weather::quality::flags;
use winterledger::weather::{Weather, read};

/// What the targets of cargo-fuzz do, which this program does not build.
#[path = "../fuzz/checks.rs"]
mod checks;

const DEMO: &str = include_str!("../../data/demo.toml");
const STARTER: &str = include_str!("../../data/starter.toml");
const ALL_KEYS: &str = include_str!("job_keys.toml");

const JOBS: usize = 15_000;
const WEATHER: usize = 20_000;
const EDITS: usize = 5_000;

/// Numbers from a seed: the 64-bit xorshift of G. Marsaglia (2003), shifts 13, 7, 17 from memory.
struct Chance(u64);

impl Chance {
    fn next(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0
    }

    fn below(&mut self, limit: usize) -> usize {
        (self.next() % limit.max(1) as u64) as usize
    }

    fn of<'a, T>(&mut self, list: &'a [T]) -> &'a T {
        &list[self.below(list.len())]
    }
}

/// What people, disks and hostile hands put where a value should be.
const STRANGE: [&str; 28] = [
    "1e308",
    "-1e308",
    "1e999",
    "nan",
    "-inf",
    "9999999999999999999999",
    "0",
    "-0.0",
    "1e-320",
    "",
    " ",
    "\"",
    "'''",
    "\u{0}",
    "\u{feff}",
    "°",
    "\u{202e}",
    "[[[[[[[[[[[[[[[[",
    "{{{{{{{{{{{{{{{{",
    "]]",
    "}",
    "=",
    "#",
    ",,,,,,,",
    ";",
    "\r",
    "\n\n",
    "\\",
];

/// Damages a text in one of many ways.
fn damaged(text: &[u8], chance: &mut Chance) -> Vec<u8> {
    let mut bytes = text.to_vec();
    let rounds = 1 + chance.below(3);
    for _ in 0..rounds {
        let at = chance.below(bytes.len());
        match chance.below(9) {
            0 => flip(&mut bytes, at, chance),
            1 => bytes.truncate(at),
            2 => {
                let end = (at + chance.below(60)).min(bytes.len());
                bytes.drain(at..end);
            }
            3 => {
                let strange = chance.of(&STRANGE).bytes();
                bytes.splice(at..at, strange);
            }
            4 => number(&mut bytes, at, chance),
            5 => swapped_columns(&mut bytes, at, chance),
            6 => line_moved(&mut bytes, at, chance),
            7 => {
                let deep = if chance.below(2) == 0 { b'[' } else { b'{' };
                bytes.splice(at..at, std::iter::repeat_n(deep, 1 + chance.below(400)));
            }
            _ => {
                let byte = chance.next() as u8;
                bytes.splice(at..at, std::iter::repeat_n(byte, 1 + chance.below(30)));
            }
        }
    }
    bytes
}

fn flip(bytes: &mut [u8], at: usize, chance: &mut Chance) {
    for _ in 0..=chance.below(4) {
        let at = (at + chance.below(9)).min(bytes.len().saturating_sub(1));
        if let Some(byte) = bytes.get_mut(at) {
            *byte ^= 1 << chance.below(8);
        }
    }
}

/// Puts something strange in the place of the next run of digits.
fn number(bytes: &mut Vec<u8>, at: usize, chance: &mut Chance) {
    let start = bytes.iter().skip(at).position(u8::is_ascii_digit).map_or(bytes.len(), |i| at + i);
    let length = bytes.iter().skip(start).take_while(|b| b.is_ascii_digit() || **b == b'.').count();
    bytes.splice(start..start + length, chance.of(&STRANGE).bytes());
}

/// Swaps two cells of the line at `at`.
fn swapped_columns(bytes: &mut Vec<u8>, at: usize, chance: &mut Chance) {
    let (start, end) = line_at(bytes, at);
    let line = bytes[start..end].to_vec();
    let mut cells: Vec<&[u8]> = line.split(|b| *b == b',').collect();
    let (a, b) = (chance.below(cells.len()), chance.below(cells.len()));
    cells.swap(a, b);
    bytes.splice(start..end, cells.join(&b','));
}

/// Moves the line at `at` elsewhere, or doubles it.
fn line_moved(bytes: &mut Vec<u8>, at: usize, chance: &mut Chance) {
    let (start, end) = line_at(bytes, at);
    let mut line = bytes[start..end].to_vec();
    line.push(b'\n');
    if chance.below(2) == 0 {
        bytes.drain(start..end);
    }
    let to = chance.below(bytes.len());
    let (to, _) = line_at(bytes, to);
    bytes.splice(to..to, line);
}

fn line_at(bytes: &[u8], at: usize) -> (usize, usize) {
    let at = at.min(bytes.len());
    let start = bytes[..at].iter().rposition(|b| *b == b'\n').map_or(0, |i| i + 1);
    let end = bytes[at..].iter().position(|b| *b == b'\n').map_or(bytes.len(), |i| at + i);
    (start, end)
}

/// Runs `check` on damaged copies of `originals`; gives how many were read and how many refused.
fn trial(
    sort: &str,
    originals: &[Vec<u8>],
    count: usize,
    check: impl Fn(&[u8], &mut Chance) -> bool,
) -> (usize, usize) {
    let mut chance = Chance(0x5EED_0000_C01D_0001 ^ count as u64);
    let mut taken = 0;
    for n in 0..count {
        let bytes = damaged(&originals[n % originals.len()], &mut chance);
        let done = catch_unwind(AssertUnwindSafe(|| check(&bytes, &mut chance)));
        taken +=
            usize::from(done.unwrap_or_else(|_| panic!("{sort} {n}: {:?}", String::from_utf8_lossy(&bytes))));
    }
    (taken, count - taken)
}

/// A refusal has something to say, and its places lie in the text.
fn worded(problems: &[Problem], text: &[u8], message: bool) {
    assert!(!problems.is_empty() && problems.iter().all(|p| !p.what.trim().is_empty()));
    for problem in problems {
        if let Some(span) = &problem.span {
            let length = problem.excerpt.as_ref().map_or(text.len(), String::len);
            assert!(span.start <= span.end && span.end <= length, "{problem}");
        }
    }
    if message {
        let shown = render(problems, std::str::from_utf8(text).ok(), false);
        assert!(shown.starts_with("error"), "{shown}");
    }
}

fn job(bytes: &[u8], chance: &mut Chance) -> bool {
    match from_bytes("x.toml", bytes) {
        Err(problems) => {
            worded(&problems, bytes, chance.below(8) == 0);
            false
        }
        Ok(job) => {
            // Bins are quick: what was read is also built and run now and then.
            if chance.below(4) == 0 {
                let bins = b"outdoor_degF,hours\n97,10\n62,700\n32,700\n2,50\n-28,3\n".as_slice();
                let weather = read("bins.csv", bins).unwrap();
                if let Err(problems) = compare(&job, &weather) {
                    worded(&problems, bytes, true);
                }
            }
            true
        }
    }
}

fn weather(bytes: &[u8], chance: &mut Chance) -> bool {
    let packed = (chance.below(10) == 0).then(|| {
        let mut packed = gzip(&String::from_utf8_lossy(bytes));
        let at = chance.below(packed.len());
        flip(&mut packed, at, chance);
        packed
    });
    match read("x.csv", packed.as_deref().unwrap_or(bytes)) {
        Err(problems) => {
            worded(&problems, bytes, chance.below(8) == 0);
            false
        }
        Ok(Weather::Bins(table)) => {
            assert!(table.bins.iter().all(|b| b.temperature_c.is_finite() && b.hours >= 0.0), "{table:?}");
            true
        }
        Ok(Weather::Year(year)) => {
            assert!(year.columns.dry_bulb_c.iter().all(|t| (-90.0..=60.0).contains(t)));
            // What is said of a year must stand whatever was done to it.
            flags(&year);
            assert!(figures(&year).is_some());
            true
        }
        Ok(Weather::Record(record)) => {
            assert!(record.columns.dry_bulb_c.iter().all(|t| (-90.0..=60.0).contains(t)));
            true
        }
    }
}

fn edit(bytes: &[u8], chance: &mut Chance) -> bool {
    let text = String::from_utf8_lossy(bytes);
    let paths = [
        "site.extreme_low",
        "house.zone.main.design_load",
        "equipment.main heat pump.heating.3.greatest_cop",
        "option.4.zone.main.heating",
        "prices.propane.price_by_month.jan",
        "job.new_key",
        "a.b.c",
        "equipment.9",
        "",
        "..",
    ];
    let value = if chance.below(2) == 0 { "\"1 kW\"" } else { chance.of(&STRANGE) };
    let path: &str = paths[chance.below(paths.len())];
    match set(&text, path, value) {
        Err(problem) => {
            assert!(!problem.what.is_empty());
            false
        }
        Ok(changed) => {
            assert!(!changed.is_empty());
            true
        }
    }
}

fn rows(head: &str, row: impl Fn(usize, String) -> String, count: usize) -> Vec<u8> {
    let body: String = (0..count).map(|h| row(h, format!("{}", tenths(h) as f64 / 10.0)) + "\n").collect();
    format!("{head}{body}").into_bytes()
}

/// 200 rows of each layout: what begins well and stops far too soon.
fn weather_files() -> Vec<Vec<u8>> {
    let plain = |head: &str| rows(head, |_, cell| cell, 200);
    let stamped = |h: usize, cell: String| format!("2023-01-{:02} {:02}:00,{cell},0.5", 1 + h / 24, h % 24);
    vec![
        rows(TMY3_HEAD, |h, _| tmy3_row(h, &cell(h)), 200),
        rows(EPW_HEAD, |h, _| epw_row(h, &cell(h)), 200),
        plain("# place: Old Mill\n# utc_offset_h: -5\ndry_bulb_degC\n"),
        plain("dry_bulb_degF\n"),
        rows("time,dry_bulb_K,relative_humidity\n", stamped, 200),
        rows("hour;dry_bulb_degC\n", |h, cell| format!("{h};{}", cell.replace('.', ",")), 200),
        rows("outdoor_degF,hours\n", |h, _| format!("{},{}", 102 - 5 * h as i64, 1 + h * 7 % 50), 30),
        rows("outdoor_degC,hours\n", |h, _| format!("{},{}.5", 40 - h as i64, h * 7 % 50), 30),
        rows("", |h, cell| format!("{h} {cell}"), 50),
    ]
}

fn cell(h: usize) -> String {
    format!("{}", tenths(h) as f64 / 10.0)
}

/// Runs `work` beside a clock: more than a minute for all of it is a failure of its own.
fn watched(work: impl FnOnce() + Send + 'static) {
    let (done, waiting) = mpsc::channel();
    let worker = std::thread::spawn(move || {
        work();
        let _ = done.send(());
    });
    let waited = waiting.recv_timeout(Duration::from_secs(60));
    assert_ne!(
        waited,
        Err(mpsc::RecvTimeoutError::Timeout),
        "more than 60 s: some input is read without end"
    );
    worker.join().unwrap();
}

#[test]
fn forty_thousand_damaged_inputs_are_read_or_refused() {
    watched(|| {
        let start = Instant::now();
        let jobs: Vec<Vec<u8>> = [ALL_KEYS, STARTER, DEMO].map(|text| text.as_bytes().to_vec()).into();
        let read_jobs = trial("job", &jobs, JOBS, job);
        let read_weather = trial("weather", &weather_files(), WEATHER, weather);
        let read_edits = trial("edit", &jobs, EDITS, edit);
        println!(
            "read and refused: jobs {read_jobs:?}, weather {read_weather:?}, edits {read_edits:?}, {:?}",
            start.elapsed()
        );
        const { assert!(JOBS + WEATHER + EDITS >= 20_000) };
        // Were nearly all of one kind, the damage would be too small or too great to try anything.
        for (taken, refused) in [read_jobs, read_edits] {
            assert!(taken * 20 > refused && refused * 20 > taken);
        }
        assert!(read_weather.0 > 100, "bins survive some damage");
    });
}

#[test]
fn whole_years_with_damage_are_read_or_refused() {
    watched(|| {
        let years = [
            rows("dry_bulb_degF\n", |_, cell| cell, 8760),
            rows(EPW_HEAD, |h, _| epw_row(h, &cell(h)), 8760),
        ];
        let (taken, refused) = trial("year", &years, 60, weather);
        assert!(taken > 3 && refused > 3, "{taken} read, {refused} refused");
    });
}

#[test]
fn every_seed_of_the_fuzzer_is_read_or_refused() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fuzz/seeds");
    let all = |target: &str, check: &dyn Fn(&[u8])| {
        let seeds: Vec<_> = std::fs::read_dir(folder.join(target)).unwrap().collect();
        assert!(seeds.len() > 1, "{target}");
        seeds.into_iter().for_each(|seed| check(&std::fs::read(seed.unwrap().path()).unwrap()));
    };
    all("job", &checks::job);
    all("weather", &checks::weather);
    all("edit", &checks::edit);
}

/// One line without end, made as it is read, and a count of what was taken of it.
struct Endless {
    left: u64,
    taken: u64,
}

impl Read for Endless {
    fn read(&mut self, buffer: &mut [u8]) -> std::io::Result<usize> {
        let n = buffer.len().min(usize::try_from(self.left).unwrap_or(usize::MAX));
        buffer[..n].fill(b'7');
        self.left -= n as u64;
        self.taken += n as u64;
        Ok(n)
    }
}

#[test]
fn a_line_of_a_hundred_megabytes_is_refused_while_it_comes() {
    let mut line = Endless { left: 100_000_000, taken: 0 };
    let problems = read("long.csv", b"dry_bulb_degC\n".chain(&mut line)).unwrap_err();
    assert_eq!((problems[0].what.as_str(), problems[0].line), ("the line is too long", Some(2)));
    assert!(line.taken < 1_000_000, "{} bytes were taken", line.taken);
}

#[test]
fn a_job_of_a_hundred_megabytes_is_refused_while_it_comes() {
    // A file with a hole: its 100 MB take no room on the disk.
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("long.toml");
    std::fs::File::create(&path).unwrap().set_len(100_000_000).unwrap();
    let start = Instant::now();
    let output = crate::commands_start::winterledger().arg("check").arg(&path).output().unwrap();
    assert_eq!(output.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&output.stderr).contains("up to 4 MB"));
    assert!(start.elapsed() < Duration::from_secs(10));
}

#[test]
fn nesting_without_end_is_refused() {
    watched(|| {
        for (open, close) in [("[", "]"), ("{a=", "}")] {
            let text = format!("a = {}{}", open.repeat(200_000), close.repeat(200_000));
            worded(&from_bytes("deep.toml", text.as_bytes()).unwrap_err(), text.as_bytes(), true);
            assert!(set(&text, "a", "1").is_err() || set(&text, "b", "1").is_err());
        }
    });
}
