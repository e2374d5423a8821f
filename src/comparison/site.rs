//! The place: elevation, clock and the coldest night to plan for.
//!
//! Start at [`Site`].

use crate::job::Job;
use crate::problem::{Problem, Problems};
use crate::units::Quantity;
use crate::weather::{OutdoorYear, Weather};
use chrono_tz::Tz;

/// The place of the house.
#[derive(Debug, Clone, PartialEq)]
pub struct Site {
    /// The job's name for it.
    pub name: String,
    /// Height above sea level, m; the job's, else the weather file's.
    pub elevation_m: Option<f64>,
    /// The clock people live by; the job's, else the weather file's.
    pub zone: Option<Tz>,
    /// The coldest outdoor temperature to plan for, °C, if the job gives one.
    pub extreme_low_c: Option<f64>,
}

/// Builds the site from the job and what the weather file says of the place.
///
/// # Errors
/// A time zone that does not exist.
pub fn site(job: &Job, weather: &Weather) -> Result<Site, Problems> {
    let year: Option<&OutdoorYear> = match weather {
        Weather::Year(year) => Some(year),
        Weather::Bins(_) => None,
    };
    let zone = match &job.site.time_zone {
        Some(name) => Some(name.value.parse().map_err(|_| vec![unknown_zone(job, &name.value)])?),
        None => year.and_then(|y| y.zone),
    };
    let own = job.site.elevation.as_deref().map(|e| e.base());
    Ok(Site {
        name: job.site.name.value.clone(),
        elevation_m: own.or(year.and_then(|y| y.elevation_m)),
        zone,
        extreme_low_c: job.site.extreme_low.as_deref().map(|t| t.base()),
    })
}

/// Names less alike than this are not suggested.
const ALIKE: f64 = 0.8;

fn unknown_zone(job: &Job, name: &str) -> Problem {
    // People type the town alone.
    let likeness = |zone: &str| {
        let town = zone.rsplit('/').next().unwrap_or(zone);
        strsim::jaro_winkler(zone, name).max(strsim::jaro_winkler(town, name))
    };
    let close = chrono_tz::TZ_VARIANTS
        .iter()
        .map(|z| (likeness(z.name()), z.name()))
        .filter(|(likeness, _)| *likeness > ALIKE)
        .max_by(|a, b| a.0.total_cmp(&b.0));
    let span = job.site.time_zone.as_ref().map_or(0..0, |z| z.span.clone());
    let problem = job.problem(&span, "site.time_zone", format!("there is no time zone '{name}'"));
    let problem = problem.allowed("a name of the time zone database");
    match close {
        Some((_, name)) => problem.help(format!("Did you mean \"{name}\"?")),
        None => problem.help("Write it as in \"America/Chicago\""),
    }
}
