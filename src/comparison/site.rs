//! The place: elevation, clock and the coldest night to plan for.
//!
//! Start at [`Site`].

use super::run_weather::RunWeather;
use crate::job::Job;
use crate::problem::Problems;
use crate::sources::{Assumptions, Source};
use crate::units::Quantity;
use crate::weather::OutdoorYear;
use crate::weather::extremes::Winters;
use crate::weather::from_job::time_zone;
use chrono_tz::Tz;

/// The cold to plan for comes once in so many years: about as long as a machine is kept.
pub const PLANNED_YEARS: u32 = 20;

/// The place of the house.
#[derive(Debug, Clone, PartialEq)]
pub struct Site {
    /// The job's name for it.
    pub name: String,
    /// Height above sea level, m; the job's, else the weather file's.
    pub elevation_m: Option<f64>,
    /// The clock people live by; the job's, else the weather file's.
    pub zone: Option<Tz>,
    /// The coldest outdoor temperature to plan for, °C: the job's, else the record's low of
    /// [`PLANNED_YEARS`], if there is one.
    pub extreme_low_c: Option<f64>,
}

/// Builds the site from the job and what the weather file says of the place.
///
/// # Errors
/// A time zone that does not exist.
pub fn site(
    job: &Job,
    weather: &RunWeather,
    winters: Option<&Winters>,
    assumptions: &mut Assumptions,
) -> Result<Site, Problems> {
    let year: Option<&OutdoorYear> = match weather {
        RunWeather::Year(year) => Some(year),
        RunWeather::Bins(_) => None,
    };
    let zone = time_zone(job).map_err(|problem| vec![problem])?.or(year.and_then(|y| y.zone));
    let own = job.site.elevation.as_deref().map(|e| e.base());
    let extreme_low_c = job.site.extreme_low.as_deref().map(|t| t.base()).or_else(|| {
        let (winters, low) = (winters?, winters?.low(PLANNED_YEARS)?);
        let source = format!("{PLANNED_YEARS}-year low of the weather's {} winters", winters.minima.len());
        let written = job.job.units.system().temperature_text(low.low_c);
        assumptions.note("site.extreme_low", written, Source::Derived(source));
        Some(low.low_c)
    });
    Ok(Site {
        name: job.site.name.value.clone(),
        elevation_m: own.or(year.and_then(|y| y.elevation_m)),
        zone,
        extreme_low_c,
    })
}
