//! The name of a time zone into the zone, and its standard time.
//!
//! Start at [`named`].

use super::findings::shown;
use crate::problem::Problem;
use chrono::{NaiveDate, Offset, TimeZone};
use chrono_tz::Tz;

/// Names less alike (Jaro–Winkler, 0 to 1) than this are not suggested.
const ALIKE: f64 = 0.8;

/// The zone of that name.
///
/// ```
/// use winterledger::weather::zones::named;
/// assert!(named("America/Chicago").is_ok());
/// assert_eq!(named("Chicgo").unwrap_err().help.unwrap(), "Did you mean \"America/Chicago\"?");
/// ```
///
/// # Errors
/// A time zone that does not exist; the nearest name is suggested.
pub fn named(name: &str) -> Result<Tz, Problem> {
    name.parse().map_err(|_| {
        let problem = Problem::new(format!("there is no time zone {}", shown(name)));
        let problem = problem.allowed("a name of the time zone database");
        match nearest(name) {
            Some(near) => problem.help(format!("Did you mean \"{near}\"?")),
            None => problem.help("Write it as in \"America/Chicago\""),
        }
    })
}

fn nearest(name: &str) -> Option<&'static str> {
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

/// Hours from UTC when the clock is not put forward: the lesser of January's and July's.
pub fn standard_offset_h(zone: Tz, year: i32) -> Option<f64> {
    let at = |month| {
        let noon = NaiveDate::from_ymd_opt(year, month, 1)?.and_hms_opt(12, 0, 0)?;
        Some(zone.offset_from_utc_datetime(&noon).fix().local_minus_utc())
    };
    Some(f64::from(at(1)?.min(at(7)?)) / 3600.0)
}
