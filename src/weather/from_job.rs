//! What a job says of its weather file into [`ReadOptions`], and its time zone.
//!
//! Start at [`options`].

use super::options::{FileClock, GapRule, Layout, ReadOptions};
use super::zones;
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
    zones::named(&name.value).map(Some).map_err(|found| {
        let placed = job.problem(&name.span, "site.time_zone", found.what);
        Problem { allowed: found.allowed, help: found.help, ..placed }
    })
}
