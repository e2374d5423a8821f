//! The weather that a job names into the one year, or the bins, that its options are run on.
//!
//! Picks the twelve months out of a record and adds the site's offset. Start at `run_weather`.

use super::note::Note;
use crate::job::{Job, WeatherSection};
use crate::problem::Problem;
use crate::units::Quantity;
use crate::weather::extremes::{SEED, Winters};
use crate::weather::{BinTable, OutdoorYear, Weather, WeatherRecord, quality};

/// What the options are run on.
#[derive(Debug, Clone, PartialEq)]
pub enum RunWeather {
    /// Hours in order.
    Year(Box<OutdoorYear>),
    /// Hours by temperature only.
    Bins(BinTable),
}

impl RunWeather {
    /// The place's name.
    pub fn place(&self) -> &str {
        match self {
            Self::Year(year) => &year.place,
            Self::Bins(bins) => &bins.place,
        }
    }

    /// SHA-256 of the file, in hexadecimal.
    pub fn sha256(&self) -> &str {
        match self {
            Self::Year(year) => &year.sha256,
            Self::Bins(bins) => &bins.sha256,
        }
    }
}

/// What to run on, with the winters of the record it is out of, and what a reader must know of it.
pub(super) struct Chosen {
    pub(super) weather: RunWeather,
    pub(super) winters: Option<Winters>,
    pub(super) notes: Vec<Note>,
}

/// Chooses what to run on.
///
/// # Errors
/// A year that the record does not hold, or that is asked for where there is no record.
pub(super) fn run_weather(job: &Job, weather: &Weather) -> Result<Chosen, Problem> {
    let mut notes = Vec::new();
    let offset = job.site.site_offset.as_deref().map(|offset| offset.base());
    let (run, winters) = match weather {
        Weather::Record(record) => {
            let year = twelve_months(job, record, &mut notes)?;
            let winters = Winters::of(record, offset.unwrap_or_default(), SEED);
            (RunWeather::Year(Box::new(year)), Some(winters))
        }
        Weather::Year(year) => (RunWeather::Year(year.clone()), None),
        Weather::Bins(bins) => (RunWeather::Bins(bins.clone()), None),
    };
    if let (None, Some(asked)) = (&winters, &job.site.weather_year) {
        let what = "a year is asked for, but the weather is no record of several years";
        let problem = job.problem(&asked.span, "site.weather_year", what);
        return Err(problem.help("Take the key out, or name a weather file of several years"));
    }
    if let RunWeather::Year(year) = &run {
        notes.extend(year.remarks_to_tell().cloned().map(Note::Reading));
    }
    let Some(kelvin) = offset else { return Ok(Chosen { weather: run, winters, notes }) };
    notes.push(Note::SiteOffset { kelvin });
    let weather = match run {
        RunWeather::Year(year) => RunWeather::Year(Box::new(year.warmer_by(kelvin))),
        RunWeather::Bins(bins) => RunWeather::Bins(bins.warmer_by(kelvin)),
    };
    Ok(Chosen { weather, winters, notes })
}

/// The twelve months from July of the year that the job names, else the latest with enough hours.
fn twelve_months(job: &Job, record: &WeatherRecord, notes: &mut Vec<Note>) -> Result<OutdoorYear, Problem> {
    let enough = quality::winters_with_enough(record);
    let asked = job.site.weather_year.as_deref().copied();
    let latest = || enough.last().copied().or_else(|| record.winters().last().copied());
    let found = asked.or_else(latest).and_then(|year| Some((year, record.from_july(year)?)));
    let Some((first_year, year)) = found else { return Err(no_such_year(job, &record.winters())) };
    if let Some(problem) = quality::too_much_missing(&year) {
        return Err(too_much_missing(job, problem, &enough));
    }
    notes.push(Note::OneOfRecord { first_year, complete_years: enough.len(), asked: asked.is_some() });
    Ok(year)
}

fn no_such_year(job: &Job, winters: &[i32]) -> Problem {
    let asked = job.site.weather_year.as_ref();
    let what = match asked {
        Some(asked) => {
            format!("the record does not hold July {} to June {}", asked.value, asked.saturating_add(1))
        }
        None => "the record holds no twelve months from July to June".to_owned(),
    };
    let problem = job.problem(&asked.map_or(0..0, |asked| asked.span.clone()), "site.weather_year", what);
    match (winters.first(), winters.last()) {
        (Some(first), Some(last)) => problem.allowed(format!("{first} to {last}, the year of the July")),
        _ => problem,
    }
}

/// The refusal of a year that lacks too many hours, at what names it: the year of a record, else the file.
pub(super) fn too_much_missing(job: &Job, problem: Problem, enough: &[i32]) -> Problem {
    let placed = match (&job.site.weather_year, &job.site.weather) {
        (Some(year), _) => job.problem(&year.span, "site.weather_year", &problem.what),
        (None, WeatherSection::Files(files)) if !files.is_empty() => {
            let span = files.first().map_or(0..0, |file| file.span.clone());
            job.problem(&span, "site.weather_file", &problem.what)
        }
        _ => Problem::new(&problem.what).in_file(&job.file).at_key("site"),
    };
    let years = enough.iter().map(i32::to_string).collect::<Vec<_>>().join(", ");
    let help = match enough {
        [] => problem.help,
        _ => Some(format!("Take a year of the record with enough hours: {years}; or a station near by")),
    };
    Problem { allowed: problem.allowed, help, ..placed }
}
