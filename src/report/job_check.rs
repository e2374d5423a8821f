//! What a job gives, what its weather gives, and every default in between, for people and as JSON.
//!
//! Computes nothing: the comparison has been run. Start at [`report`].

use super::build::weather_words;
use super::figures::{Measure, grouped};
use super::json_head::written;
use super::model::{Cell, Column, Report, Table};
use super::wording;
use super::{past_use, ratings};
use crate::comparison::note::Note;
use crate::comparison::{Comparison, RunWeather};
use crate::problem::Problem;
use crate::sources::Assumption;
use crate::weather::OutdoorYear;
use serde::Serialize;

/// Words what was read and what is assumed, for the job without errors in `file`; `to_replace` are its lines
/// that still say REPLACE ME.
pub fn report(file: &str, c: &Comparison, to_replace: &[usize]) -> Report {
    let measure = Measure(c.units);
    let (asking, telling): (Vec<_>, Vec<_>) = c.notes.iter().partition(|note| note.asks());
    let worded = |note: &&Note| wording::note(note, measure, &c.currency);
    let to_look_at = asking.len() + to_replace.len();
    Report {
        title: match to_look_at {
            0 => format!("No problems in {file}"),
            1 => format!("No errors in {file}, but 1 place to look at"),
            many => format!("No errors in {file}, but {many} places to look at"),
        },
        about: vec![c.title.clone(), c.site.name.clone()],
        verdict: [Some(contents(c)), replace_words(to_replace), asking_words(asking.len())]
            .into_iter()
            .flatten()
            .collect(),
        tipping_price: None,
        tables: std::iter::once(weather(c, measure))
            .chain(past_use::table(c))
            .chain(ratings::table(c))
            .collect(),
        appendices: Vec::new(),
        notes: asking.iter().chain(&telling).map(worded).collect(),
        assumptions: wording::assumptions(&c.assumptions.0),
        cautions: Vec::new(),
        foot: format!(
            "winterledger {}; job {}",
            env!("CARGO_PKG_VERSION"),
            c.job_sha256.get(..12).unwrap_or("")
        ),
    }
}

fn replace_words(lines: &[usize]) -> Option<String> {
    let first = lines.first()?;
    Some(match lines.len() {
        1 => format!(
            "Line {first} still says REPLACE ME: its value is invented. Put the house's own in, and take the \
             words out."
        ),
        many => {
            let lines: Vec<String> = lines.iter().map(usize::to_string).collect();
            format!(
                "{many} lines still say REPLACE ME, so their values are invented: {}. Put the house's own in, and \
                 take the words out as you go.",
                lines.join(", ")
            )
        }
    })
}

fn asking_words(notes: usize) -> Option<String> {
    match notes {
        0 => None,
        1 => Some("The first of the notes below asks you to check something.".into()),
        many => Some(format!("The first {many} of the notes below ask you to check something.")),
    }
}

fn contents(c: &Comparison) -> String {
    let count = |n: usize, one: &str| format!("{n} {one}{}", if n == 1 { "" } else { "s" });
    format!(
        "It has {}, {}, {} and prices of {}.",
        count(c.zones.len(), "zone"),
        count(c.machines.len(), "machine"),
        count(c.options.len(), "option"),
        count(c.prices.0.len(), "fuel")
    )
}

fn weather(c: &Comparison, measure: Measure) -> Table {
    let rows = match &c.weather {
        RunWeather::Year(year) => year_rows(c, year, measure),
        RunWeather::Bins(bins) => vec![
            ("weather", weather_words(c, measure)),
            ("hours", grouped(bins.bins.iter().map(|b| b.hours).sum(), 0)),
            ("file", short(&bins.sha256)),
        ],
    };
    Table {
        name: "weather_read".into(),
        heading: "What is read from the weather".into(),
        columns: vec![Column::words("What", "what"), Column::words("Read", "read")],
        rows: rows.into_iter().map(|(what, read)| vec![Cell::text(what), Cell::text(read)]).collect(),
        remark: None,
    }
}

fn year_rows(c: &Comparison, year: &OutdoorYear, measure: Measure) -> Vec<(&'static str, String)> {
    let unknown = || "not known".to_owned();
    let filled = match year.filled_hours {
        0 => "none missing".to_owned(),
        1 => "1 of them filled from its neighbours".to_owned(),
        n => format!("{} of them filled from their neighbours", grouped(n as f64, 0)),
    };
    let degrees = |d: Option<f64>, positive: &str, negative: &str| {
        d.map_or_else(unknown, |d| {
            format!("{:.2}\u{b0} {}", d.abs(), if d < 0.0 { negative } else { positive })
        })
    };
    let place = format!("{}, {}", degrees(year.latitude, "N", "S"), degrees(year.longitude, "E", "W"));
    vec![
        ("weather", weather_words(c, measure)),
        ("hours", format!("{}, {filled}", grouped(year.columns.dry_bulb_c.len() as f64, 0))),
        ("place", place),
        ("elevation", elevation(c.site.elevation_m, year.elevation_m, measure)),
        ("clock", clock(c, year)),
        ("columns", columns(year)),
        ("file", short(&year.sha256)),
    ]
}

/// The height that holds, and the weather station's where the job gives another.
fn elevation(site_m: Option<f64>, station_m: Option<f64>, measure: Measure) -> String {
    let words = |m: f64| measure.height_words(m);
    match (site_m.or(station_m), station_m) {
        (None, _) => "not known".to_owned(),
        (Some(held_m), Some(station_m)) if held_m == station_m => words(held_m),
        (Some(held_m), Some(station_m)) => {
            format!("{}, the job\u{2019}s; the station\u{2019}s {}", words(held_m), words(station_m))
        }
        (Some(held_m), None) => format!("{}, the job\u{2019}s", words(held_m)),
    }
}

fn clock(c: &Comparison, year: &OutdoorYear) -> String {
    let zone = c.site.zone.or(year.zone).map(|zone| zone.name());
    match (year.offset_in(c.site.zone), zone) {
        (Some(hours), Some(zone)) => format!("standard time is {} h from UTC; {zone}", grouped(hours, 0)),
        (Some(hours), None) => {
            format!("standard time is {} h from UTC; no daylight saving", grouped(hours, 0))
        }
        (None, _) => "not known: standard time all year".into(),
    }
}

fn columns(year: &OutdoorYear) -> String {
    let columns = [
        ("dry-bulb", true),
        ("dew point", year.columns.dew_point_c.is_some()),
        ("humidity", year.columns.relative_humidity.is_some()),
        ("pressure", year.columns.pressure_pa.is_some()),
        ("global sun", year.columns.global_w_m2.is_some()),
        ("direct sun", year.columns.direct_w_m2.is_some()),
        ("diffuse sun", year.columns.diffuse_w_m2.is_some()),
        ("wind", year.columns.wind_m_s.is_some()),
    ];
    let there: Vec<_> = columns.iter().filter(|(_, there)| *there).map(|(name, _)| *name).collect();
    there.join(", ")
}

fn short(hash: &str) -> String {
    format!("SHA-256 begins with {}", hash.get(..12).unwrap_or(hash))
}

#[derive(Serialize)]
struct Document<'a> {
    schema_version: u32,
    program_version: &'static str,
    file: &'a str,
    problems: Vec<ProblemDocument<'a>>,
    lines_to_replace: &'a [usize],
    weather: Option<String>,
    notes: Vec<String>,
    assumptions: &'a [Assumption],
}

#[derive(Serialize)]
struct ProblemDocument<'a> {
    file: Option<&'a str>,
    line: Option<usize>,
    key: Option<&'a str>,
    first_byte: Option<usize>,
    end_byte: Option<usize>,
    what: &'a str,
    allowed: Option<&'a str>,
    help: Option<&'a str>,
    more_like_it: usize,
}

/// The problems of the job in `file`, or what a job without any takes for granted, as JSON.
///
/// # Errors
/// A value that JSON cannot hold; that would be a defect.
pub fn json(
    file: &str,
    found: Result<&Comparison, &[Problem]>,
    lines_to_replace: &[usize],
) -> Result<String, Problem> {
    let (sound, problems) = match found {
        Ok(sound) => (Some(sound), [].as_slice()),
        Err(problems) => (None, problems),
    };
    let notes = |c: &Comparison| {
        c.notes.iter().map(|note| wording::note(note, Measure(c.units), &c.currency)).collect()
    };
    let document = Document {
        schema_version: super::model::SCHEMA_VERSION,
        program_version: env!("CARGO_PKG_VERSION"),
        file,
        problems: problems.iter().map(problem).collect(),
        lines_to_replace,
        weather: sound.map(|c| weather_words(c, Measure(c.units))),
        notes: sound.map_or_else(Vec::new, notes),
        assumptions: sound.map_or(&[], |c| &c.assumptions.0),
    };
    written(&document)
}

fn problem(p: &Problem) -> ProblemDocument<'_> {
    // A span in a line of its own says nothing of the whole text.
    let span = p.span.as_ref().filter(|_| p.excerpt.is_none());
    ProblemDocument {
        file: p.file.as_deref(),
        line: p.line,
        key: p.key.as_deref(),
        first_byte: span.map(|span| span.start),
        end_byte: span.map(|span| span.end),
        what: &p.what,
        allowed: p.allowed.as_deref(),
        help: p.help.as_deref(),
        more_like_it: p.more,
    }
}
