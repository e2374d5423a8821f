//! The weather that a job names into the one year, or the bins, that its options are run on.
//!
//! Picks the twelve months out of a record and adds the site's offset. Start at `run_weather`.

use super::note::Note;
use crate::job::Job;
use crate::problem::Problem;
use crate::units::Quantity;
use crate::weather::extremes::{SEED, Winters};
use crate::weather::{BinTable, OutdoorYear, Weather, WeatherRecord};

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
    if let RunWeather::Year(year) = &run
        && let Some(reading) = &year.reading
    {
        notes.extend(reading.remarks.iter().cloned().map(Note::Reading));
    }
    let Some(kelvin) = offset else { return Ok(Chosen { weather: run, winters, notes }) };
    notes.push(Note::SiteOffset { kelvin });
    let weather = match run {
        RunWeather::Year(year) => RunWeather::Year(Box::new(year.warmer_by(kelvin))),
        RunWeather::Bins(bins) => RunWeather::Bins(bins.warmer_by(kelvin)),
    };
    Ok(Chosen { weather, winters, notes })
}

/// The twelve months from July of the year that the job names, else the latest that are complete.
fn twelve_months(job: &Job, record: &WeatherRecord, notes: &mut Vec<Note>) -> Result<OutdoorYear, Problem> {
    let winters = record.winters();
    let asked = job.site.weather_year.as_deref().copied();
    let span = job.site.weather_year.as_ref().map_or(0..0, |asked| asked.span.clone());
    let year = asked.or(winters.last().copied()).and_then(|year| Some((year, record.from_july(year)?)));
    let Some((first_year, year)) = year else {
        let (first, last) = (winters.first(), winters.last());
        let what = match asked {
            Some(asked) => {
                format!("the record does not hold July {asked} to June {}", asked.saturating_add(1))
            }
            None => "the record holds no twelve months from July to June".to_owned(),
        };
        let problem = job.problem(&span, "site.weather_year", what);
        return Err(match (first, last) {
            (Some(first), Some(last)) => problem.allowed(format!("{first} to {last}, the year of the July")),
            _ => problem,
        });
    };
    notes.push(Note::OneOfRecord { first_year, complete_years: winters.len(), asked: asked.is_some() });
    Ok(year)
}
