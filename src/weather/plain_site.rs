//! The leading comments of a plain hourly file into its place, offset from UTC and time zone.
//!
//! Must never know the rows. Start at [`read`].

use super::cells::site_number;
use super::comments::{Parts, nearest};
use super::findings::{Findings, shown};
use super::hours::{ELEVATION, LATITUDE, LONGITUDE, Site, UTC_OFFSET, named_after};
use super::lines::Spot;
use super::year::YearKind;
use crate::calendar::TYPICAL_YEAR;
use crate::problem::Problem;
use chrono::{NaiveDate, Offset, TimeZone};
use chrono_tz::Tz;

const KEYS: [&str; 7] =
    ["place", "latitude", "longitude", "elevation_m", "utc_offset_h", "time_zone", "year"];

/// Reads the place. A time zone without an offset gives the offset too.
pub(super) fn read(file: &str, parts: &Parts<'_>, kind: YearKind, findings: &mut Findings) -> Site {
    parts.check_spelling(&KEYS, findings);
    let mut number = |key: &str, range, unit| {
        let (spot, value) = parts.get(key, findings)?;
        site_number(value, (key, &spot), range, unit, findings)
    };
    let latitude = number("latitude", LATITUDE, "°");
    let longitude = number("longitude", LONGITUDE, "°");
    let elevation_m = number("elevation_m", ELEVATION, "m");
    let utc_offset_h = number("utc_offset_h", UTC_OFFSET, "h");
    let place = parts.get("place", findings).map(|(_, value)| value).filter(|value| !value.is_empty());
    let zone = parts.get("time_zone", findings).and_then(|(spot, name)| zone(spot, name, findings));
    let year = match kind {
        YearKind::Typical | YearKind::Synthetic { .. } => TYPICAL_YEAR,
        YearKind::Actual(year) | YearKind::FromJuly(year) => year,
    };
    let of_zone = zone.as_ref().and_then(|(spot, zone)| Some((spot, standard_offset_h(*zone, year)?)));
    if let (Some((spot, of_zone)), Some(given)) = (of_zone, utc_offset_h) {
        check_offset(spot, of_zone, given, findings);
    }
    Site {
        place: place.map_or_else(|| named_after(file), str::to_owned),
        latitude,
        longitude,
        elevation_m,
        utc_offset_h: utc_offset_h.or(of_zone.map(|(_, offset)| offset)),
        zone: zone.map(|(_, zone)| zone),
    }
}

fn zone<'a>(spot: Spot<'a>, name: &str, findings: &mut Findings) -> Option<(Spot<'a>, Tz)> {
    if let Ok(zone) = name.parse::<Tz>() {
        return Some((spot, zone));
    }
    let names: Vec<&str> = chrono_tz::TZ_VARIANTS.iter().map(|zone| zone.name()).collect();
    let problem = Problem::new(format!("found {}, which is no time zone", shown(name)))
        .at_key("time_zone")
        .allowed("a name of the time zone database, such as America/Chicago");
    let problem = match nearest(name, &names) {
        Some(meant) => problem.help(format!("Did you mean '{meant}'?")),
        None => problem,
    };
    findings.add(spot.mark(problem));
    None
}

/// Hours from UTC when the clock is not put forward: the lesser of January's and July's.
pub(super) fn standard_offset_h(zone: Tz, year: i32) -> Option<f64> {
    let at = |month| {
        let noon = NaiveDate::from_ymd_opt(year, month, 1)?.and_hms_opt(12, 0, 0)?;
        Some(zone.offset_from_utc_datetime(&noon).fix().local_minus_utc())
    };
    Some(f64::from(at(1)?.min(at(7)?)) / 3600.0)
}

fn check_offset(spot: &Spot<'_>, of_zone: f64, given: f64, findings: &mut Findings) {
    if (of_zone - given).abs() > 1.0e-9 {
        let what = format!("the zone's standard time is {of_zone} h from UTC, utc_offset_h says {given}");
        let help = "Correct one of the two; the hours must be in that standard time all year";
        findings.add(spot.mark(Problem::new(what)).at_key("time_zone").help(help));
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn standard_time_is_that_of_the_winter_on_both_halves_of_the_earth() {
        // Published: the time zone database.
        assert_eq!(standard_offset_h(chrono_tz::America::Chicago, 2023), Some(-6.0));
        assert_eq!(standard_offset_h(chrono_tz::America::Phoenix, 2023), Some(-7.0));
        assert_eq!(standard_offset_h(chrono_tz::Australia::Sydney, 2023), Some(10.0));
        assert_eq!(standard_offset_h(chrono_tz::Europe::Dublin, 2023), Some(0.0));
    }
}
