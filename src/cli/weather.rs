//! `weather`: the figures of built-in places and weather files side by side, with tables and charts.
//!
//! Start at [`run`].

use super::arguments::{Clock, Format, Gaps, PrintedUnits, Weather as Arguments};
use super::input::unreadable;
use super::{Failure, output};
use crate::problem::{Problem, Problems};
use crate::report::charts::png;
use crate::report::csv_text::csv;
use crate::report::figures::Measure;
use crate::report::files::ReadyFile;
use crate::report::weather_picture::chart;
use crate::report::weather_summary::{Asked, report};
use crate::report::{Cell, Column, Report, Table, terminal};
use crate::units::UnitSystem;
use crate::weather::extremes::{SEED, Winters};
use crate::weather::places::{open, places};
use crate::weather::quality::{too_much_missing, winters_with_enough};
use crate::weather::zones::named;
use crate::weather::{FileClock, GapRule, Layout, ReadOptions, Weather, read_many, read_with};
use chrono_tz::Tz;
use std::fs::File;
use std::path::Path;

/// Runs the command.
pub(crate) fn run(arguments: &Arguments) -> Result<(), Failure> {
    if arguments.sources.is_empty() {
        return output::result(&terminal::render(&catalogue(), output::columns()));
    }
    let measure = Measure(match arguments.units {
        PrintedUnits::Us => UnitSystem::Us,
        PrintedUnits::Si => UnitSystem::Si,
    });
    let options = options(arguments)?;
    let read = match arguments.as_one {
        true => vec![as_one(&arguments.sources, &options).map_err(|found| Failure::Given(found, None))?],
        false => opened(&arguments.sources, &options)?,
    };
    let asked: Vec<Asked<'_>> = read.iter().map(|one| one.asked(options.zone)).collect();
    let summary = report(&asked, measure);
    if let Some(folder) = &arguments.out {
        let files = files(&summary, &asked, measure).map_err(Failure::Ours)?;
        output::write(folder, &files, None)?;
    }
    output::result(&terminal::render(&summary, output::columns()))
}

fn options(arguments: &Arguments) -> Result<ReadOptions, Problem> {
    Ok(ReadOptions {
        layout: arguments.format.map(|format| match format {
            Format::Tmy3 => Layout::Tmy3,
            Format::Tmy2 => Layout::Tmy2,
            Format::Epw => Layout::Epw,
            Format::IsdLite => Layout::IsdLite,
            Format::Nsrdb => Layout::Nsrdb,
            Format::Pvgis => Layout::Pvgis,
            Format::PlainCsv => Layout::PlainCsv,
            Format::DatedCsv => Layout::DatedCsv,
            Format::Bins => Layout::BinCsv,
        }),
        gaps: match arguments.gaps {
            Gaps::Line => GapRule::Line,
            Gaps::NeighbouringDays => GapRule::NeighbouringDays,
        },
        clock: arguments.clock.map(|clock| match clock {
            Clock::Utc => FileClock::Utc,
            Clock::Standard => FileClock::Standard,
        }),
        zone: arguments.time_zone.as_deref().map(named).transpose()?,
    })
}

/// All files as one record, or the one year that they make together.
fn as_one(sources: &[String], options: &ReadOptions) -> Result<Opened, Problems> {
    let open = |source: &String| match File::open(source) {
        Ok(file) => Ok((source.clone(), file)),
        Err(_) if places().iter().any(|place| place.key == source) => {
            let problem =
                Problem::new(format!("'{source}' is a built-in place, and --as-one takes files only"));
            Err(vec![
                problem.help("Name the files of one place, or leave --as-one out to see places side by side"),
            ])
        }
        Err(error) => Err(vec![not_there(source, &error)]),
    };
    let files = sources.iter().map(open).collect::<Result<Vec<_>, Problems>>()?;
    let short = |source: &String| file_name(source);
    let name = match (sources.first().map(short), sources.last().map(short)) {
        (Some(first), Some(last)) if sources.len() > 1 => format!("{first} to {last}"),
        (name, _) => name.unwrap_or_default(),
    };
    Ok(Opened::new(name, enough(read_many(files, options)?)?))
}

fn file_name(source: &str) -> String {
    Path::new(source)
        .file_name()
        .map_or_else(|| source.to_owned(), |name| name.to_string_lossy().into_owned())
}

fn catalogue() -> Report {
    let row = |p: &crate::weather::places::Place| {
        vec![Cell::text(p.key), Cell::text(p.name), Cell::text(p.climate)]
    };
    Report {
        title: "Built-in weather".into(),
        about: Vec::new(),
        verdict: vec!["A typical year each; a job names one in site.weather.".into()],
        tipping_price: None,
        tables: vec![Table {
            name: "places".into(),
            heading: "Places".into(),
            columns: vec![
                Column::words("Name", "name"),
                Column::words("Station", "station"),
                Column::words("Climate", "climate"),
            ],
            rows: places().iter().map(row).collect(),
            remark: None,
        }],
        appendices: Vec::new(),
        notes: Vec::new(),
        assumptions: Vec::new(),
        cautions: Vec::new(),
        foot: "winterledger weather il-chicago my-county.epw sets a place and a file side by side".into(),
    }
}

/// One source, opened.
struct Opened {
    name: String,
    weather: Weather,
    winters: Option<Winters>,
}

impl Opened {
    /// Of a record its winters, and the year of the latest with enough hours, as a comparison takes it.
    fn new(name: String, weather: Weather) -> Self {
        let Weather::Record(record) = &weather else { return Self { name, weather, winters: None } };
        let winters = Some(Winters::of(record, 0.0, SEED));
        let latest = winters_with_enough(record).last().copied().or_else(|| record.winters().last().copied());
        let latest = latest.and_then(|year| record.from_july(year));
        Self { name, weather: latest.map_or(weather, |year| Weather::Year(Box::new(year))), winters }
    }

    fn asked(&self, zone: Option<Tz>) -> Asked<'_> {
        Asked { name: &self.name, weather: &self.weather, winters: self.winters.as_ref(), zone }
    }
}

/// Every source, or the problems of all that cannot be read.
fn opened(sources: &[String], options: &ReadOptions) -> Result<Vec<Opened>, Failure> {
    let mut problems = Problems::new();
    let mut found: Vec<Opened> = Vec::new();
    for source in sources {
        match one(source, options) {
            // Twice the same would make two columns and files of one name.
            Ok(Opened { name, .. }) if found.iter().any(|other| other.name == name) => {
                problems
                    .push(Problem::new(format!("'{name}' comes twice")).help("Name each place or file once"));
            }
            Ok(read) => found.push(read),
            Err(own) => problems.extend(own),
        }
    }
    if problems.is_empty() { Ok(found) } else { Err(Failure::Given(problems, None)) }
}

fn one(source: &str, options: &ReadOptions) -> Result<Opened, Problems> {
    if places().iter().any(|place| place.key == source) {
        let year = open(source).map_err(|problem| vec![problem])?;
        return Ok(Opened::new(source.to_owned(), Weather::Year(Box::new(year))));
    }
    let file = File::open(source).map_err(|e| vec![not_there(source, &e)])?;
    Ok(Opened::new(file_name(source), enough(read_with(source, file, options)?)?))
}

/// The weather, unless it is a year of which too much is missing: nobody could compare on it.
fn enough(weather: Weather) -> Result<Weather, Problems> {
    let lacking = match &weather {
        Weather::Year(year) => too_much_missing(year),
        Weather::Record(_) | Weather::Bins(_) => None,
    };
    lacking.map_or(Ok(weather), |problem| Err(vec![problem]))
}

fn not_there(source: &str, error: &std::io::Error) -> Problem {
    let file_meant = source.contains(['/', '\\', '.']) || error.kind() != std::io::ErrorKind::NotFound;
    match open(source) {
        Err(problem) if !file_meant => Problem {
            what: format!("'{source}' is neither a built-in place nor a file that is there"),
            ..problem
        },
        _ => Problem::new(unreadable(&format!("the weather file '{source}'"), error))
            .help("Name a weather file or a built-in place; `winterledger weather` lists the places"),
    }
}

fn files(summary: &Report, asked: &[Asked<'_>], measure: Measure) -> Result<Vec<ReadyFile>, Problem> {
    let mut files = vec![ReadyFile {
        name: "weather.txt".into(),
        bytes: terminal::render(summary, output::COLUMNS).into_bytes(),
    }];
    // The months of each source are for people; the one table of all is for files.
    let tables = summary.tables.iter().filter(|table| table.name != "months").chain(&summary.appendices);
    for table in tables {
        let text = csv(table).map_err(|e| Problem::new(format!("{}.csv: {e}", table.name)))?;
        files.push(ReadyFile { name: format!("{}.csv", table.name), bytes: text.into_bytes() });
    }
    for one in asked {
        let Some(drawn) = chart(one.weather, one.winters, measure) else { continue };
        let failed = |e| Problem::new(format!("the chart of '{}' cannot be drawn: {e}", one.name));
        let svg = drawn.map_err(failed)?;
        let name = plain(one.name);
        files.push(ReadyFile { name: format!("{name}.png"), bytes: png(&svg, 2.0).map_err(failed)? });
        files.push(ReadyFile { name: format!("{name}.svg"), bytes: svg.into_bytes() });
    }
    Ok(files)
}

/// A name that any disk takes.
fn plain(name: &str) -> String {
    name.chars().map(|c| if c.is_alphanumeric() || matches!(c, '-' | '_') { c } else { '_' }).collect()
}
