//! What a job says of its weather file into [`ReadOptions`], and its time zone.
//!
//! Start at [`options`].

use super::options::{FileClock, GapRule, Layout, ReadOptions};
use crate::job::{Job, WeatherClock, WeatherFormat, WeatherGaps};
use crate::problem::Problem;
use chrono_tz::Tz;

/// What is said beside the weather file.
///
/// # Errors
/// A time zone that does not exist.
pub fn options(job: &Job) -> Result<ReadOptions, Problem> {
    let site = &job.site;
    Ok(ReadOptions {
        layout: site.weather_format.as_deref().map(|format| layout(*format)),
        gaps: match site.weather_gaps.as_deref() {
            Some(WeatherGaps::NeighbouringDays) => GapRule::NeighbouringDays,
            Some(WeatherGaps::Line) | None => GapRule::Line,
        },
        clock: site.weather_clock.as_deref().map(|clock| match clock {
            WeatherClock::Utc => FileClock::Utc,
            WeatherClock::Standard => FileClock::Standard,
        }),
        zone: time_zone(job)?,
    })
}

fn layout(format: WeatherFormat) -> Layout {
    match format {
        WeatherFormat::Tmy3 => Layout::Tmy3,
        WeatherFormat::Tmy2 => Layout::Tmy2,
        WeatherFormat::Epw => Layout::Epw,
        WeatherFormat::IsdLite => Layout::IsdLite,
        WeatherFormat::Nsrdb => Layout::Nsrdb,
        WeatherFormat::Pvgis => Layout::Pvgis,
        WeatherFormat::PlainCsv => Layout::PlainCsv,
        WeatherFormat::DatedCsv => Layout::DatedCsv,
        WeatherFormat::Bins => Layout::BinCsv,
    }
}

/// The clock people live by, if the job names one.
///
/// # Errors
/// A time zone that does not exist; the nearest name is suggested.
pub fn time_zone(job: &Job) -> Result<Option<Tz>, Problem> {
    let Some(name) = &job.site.time_zone else { return Ok(None) };
    name.value.parse().map(Some).map_err(|_| {
        let what = format!("there is no time zone '{}'", name.value);
        let problem = job.problem(&name.span, "site.time_zone", what);
        let problem = problem.allowed("a name of the time zone database");
        match nearest_zone(&name.value) {
            Some(near) => problem.help(format!("Did you mean \"{near}\"?")),
            None => problem.help("Write it as in \"America/Chicago\""),
        }
    })
}

/// Names less alike than this are not suggested.
const ALIKE: f64 = 0.8;

fn nearest_zone(name: &str) -> Option<&'static str> {
    // People type the town alone.
    let likeness = |zone: &str| {
        let town = zone.rsplit('/').next().unwrap_or(zone);
        strsim::jaro_winkler(zone, name).max(strsim::jaro_winkler(town, name))
    };
    chrono_tz::TZ_VARIANTS
        .iter()
        .map(|zone| (likeness(zone.name()), zone.name()))
        .filter(|(likeness, _)| *likeness > ALIKE)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, name)| name)
}
