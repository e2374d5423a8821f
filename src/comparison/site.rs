//! The place: elevation, clock and the coldest night to plan for.
//!
//! Start at [`Site`].

use super::run_weather::RunWeather;
use crate::job::Job;
use crate::problem::Problems;
use crate::units::Quantity;
use crate::weather::OutdoorYear;
use crate::weather::from_job::time_zone;
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
pub fn site(job: &Job, weather: &RunWeather) -> Result<Site, Problems> {
    let year: Option<&OutdoorYear> = match weather {
        RunWeather::Year(year) => Some(year),
        RunWeather::Bins(_) => None,
    };
    let zone = time_zone(job).map_err(|problem| vec![problem])?.or(year.and_then(|y| y.zone));
    let own = job.site.elevation.as_deref().map(|e| e.base());
    Ok(Site {
        name: job.site.name.value.clone(),
        elevation_m: own.or(year.and_then(|y| y.elevation_m)),
        zone,
        extreme_low_c: job.site.extreme_low.as_deref().map(|t| t.base()),
    })
}
