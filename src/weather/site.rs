//! What a file says of its place, and what it may say.
//!
//! Must never know a layout. Start at [`Site`].

use super::findings::Findings;
use super::spot::Spot;
use super::writing::{check_range, number};
use chrono_tz::Tz;

/// What a file says of its place.
#[derive(Debug, Clone)]
pub(super) struct Site {
    /// The place's name.
    pub(super) place: String,
    /// Degrees north.
    pub(super) latitude: Option<f64>,
    /// Degrees east.
    pub(super) longitude: Option<f64>,
    /// Height above sea level, m.
    pub(super) elevation_m: Option<f64>,
    /// Standard time less UTC, hours.
    pub(super) utc_offset_h: Option<f64>,
    /// The time zone, where the file names one.
    pub(super) zone: Option<Tz>,
}

/// The name for a place whose file gives none: that of the file, without its folders.
pub(super) fn named_after(file: &str) -> String {
    file.rsplit(['/', '\\']).next().unwrap_or(file).to_owned()
}

/// Allowed latitudes, degrees north.
pub(super) const LATITUDE: (f64, f64) = (-90.0, 90.0);
/// Allowed longitudes, degrees east.
pub(super) const LONGITUDE: (f64, f64) = (-180.0, 180.0);
/// Allowed heights, m: from the lowest shore to the highest summit.
pub(super) const ELEVATION: (f64, f64) = (-450.0, 8900.0);
/// Allowed offsets of standard time from UTC, hours.
pub(super) const UTC_OFFSET: (f64, f64) = (-12.0, 14.0);

/// A number of the header that says where a place is; `None` if the cell is empty.
///
/// `at` is the key and the place for the message.
pub(super) fn site_number(
    cell: &str,
    at: (&str, &Spot<'_>),
    range: (f64, f64),
    unit: &str,
    findings: &mut Findings,
) -> Option<f64> {
    let read = number(cell)
        .and_then(|number| number.map_or(Ok(None), |n| check_range(cell, n, range, unit).map(|()| Some(n))));
    read.unwrap_or_else(|problem| {
        findings.add(at.1.mark(problem).at_key(at.0));
        None
    })
}
