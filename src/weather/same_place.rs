//! Two files of a list into whether they are of one place, as far as they say where they are from.
//!
//! Must never know their hours. Start at [`same_place`].

use super::dated::Dated;
use super::reading::Remark;
use super::site::named_after;
use crate::problem::Problem;

/// Places of one record may lie so far apart, degrees of latitude (11 km): rounding, or a station moved
/// across its airfield. This program's own choice.
const FARTHEST: f64 = 0.1;
/// And so far in height, m; likewise.
const HIGHEST: f64 = 100.0;

/// What to say of a file that is put behind others: nothing, that it names another station, or that it
/// cannot belong to them.
///
/// # Errors
/// Another place, height or standard time.
pub(super) fn same_place(whole: &Dated, part: &Dated) -> Result<Option<Remark>, Problem> {
    if let Some(what) = apart(whole, part) {
        let problem = Problem::new(format!("{what}, so it is of another place"));
        return Err(problem.help("Name the files of one place only; several places are several jobs"));
    }
    let names = |of: fn(&Dated) -> Option<String>| of(whole).zip(of(part));
    let differ =
        [names(|d| d.station.clone()), names(given_name)].into_iter().flatten().find(|(a, b)| a != b);
    Ok(differ.map(|(first_of, of)| Remark::OtherStation {
        file: part.file.clone(),
        of,
        first_file: whole.file.clone(),
        first_of,
    }))
}

/// The place's name, unless it is that of the file.
fn given_name(dated: &Dated) -> Option<String> {
    Some(dated.site.place.clone()).filter(|place| *place != named_after(&dated.file))
}

fn apart(whole: &Dated, part: &Dated) -> Option<String> {
    let (first, other, file) = (&whole.site, &part.site, &whole.file);
    let both = |a: Option<f64>, b: Option<f64>| a.zip(b);
    if let (Some((lat, other_lat)), Some((lon, other_lon))) =
        (both(first.latitude, other.latitude), both(first.longitude, other.longitude))
    {
        let east = (lon - other_lon).abs() * lat.to_radians().cos();
        if (lat - other_lat).abs() > FARTHEST || east > FARTHEST {
            let at = |lat: f64, lon: f64| {
                format!("{}, {}", side(lat, "north", "south"), side(lon, "east", "west"))
            };
            return Some(format!("it lies at {}, {file} at {}", at(other_lat, other_lon), at(lat, lon)));
        }
    }
    let height = both(first.elevation_m, other.elevation_m).filter(|(a, b)| (a - b).abs() > HIGHEST);
    if let Some((a, b)) = height {
        return Some(format!("it lies {b:.0} m high, {file} {a:.0} m"));
    }
    let clock = both(first.utc_offset_h, other.utc_offset_h).filter(|(a, b)| a != b);
    clock.map(|(a, b)| format!("its standard time is {b} h from UTC, that of {file} {a} h"))
}

/// Degrees to one side of a line or the other.
fn side(degrees: f64, positive: &str, negative: &str) -> String {
    format!("{:.2}\u{b0} {}", degrees.abs(), if degrees < 0.0 { negative } else { positive })
}
