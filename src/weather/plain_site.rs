//! The leading comments of a plain hourly file into its place, offset from UTC and time zone.
//!
//! Must never know the rows. Start at [`read`].

use super::comments::Parts;
use super::findings::Findings;
use super::site::{ELEVATION, LATITUDE, LONGITUDE, Site, UTC_OFFSET, named_after, site_number};
use super::spot::Spot;
use super::year::YearKind;
use super::zones::{named, standard_offset_h};
use crate::calendar::TYPICAL_YEAR;
use crate::problem::Problem;

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
    let zone = parts.get("time_zone", findings).and_then(|(spot, name)| {
        let told = |problem: Problem| findings.add(spot.mark(problem).at_key("time_zone"));
        let zone = named(name).map_err(told).ok();
        zone.map(|zone| (spot, zone))
    });
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
