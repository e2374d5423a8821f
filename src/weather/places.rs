//! The catalogue of built-in places, and each place's typical year out of the program itself.
//!
//! Where the data come from stands in `data/weather/README.md` and in `NOTICE`. Start at
//! [`places`].

use super::held::Weather;
use super::read;
use super::year::OutdoorYear;
use crate::problem::Problem;

/// A place whose typical year is built in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Place {
    /// How a job names it, for example `il-chicago`.
    pub key: &'static str,
    /// The station's name.
    pub name: &'static str,
    /// The climate in a few words.
    pub climate: &'static str,
    file: &'static [u8],
}

macro_rules! place {
    ($key:literal, $name:literal, $climate:literal) => {
        Place {
            key: $key,
            name: $name,
            climate: $climate,
            file: include_bytes!(concat!("../../data/weather/", $key, ".csv.gz")),
        }
    };
}

static PLACES: [Place; 6] = [
    place!("ak-northway", "Northway, Alaska", "interior Alaska, extreme"),
    place!("az-tucson", "Tucson, Arizona", "hot and dry"),
    place!("co-golden", "Golden, Colorado", "cold, dry and high"),
    place!("il-chicago", "Chicago O'Hare, Illinois", "cold"),
    place!("nc-greensboro", "Greensboro, North Carolina", "mixed"),
    place!("nj-mcguire", "McGuire, New Jersey", "mixed to cold"),
];

/// All built-in places, by key.
pub fn places() -> &'static [Place] {
    &PLACES
}

/// The typical year of the built-in place of that key.
///
/// ```
/// let chicago = winterledger::weather::places::open("il-chicago").unwrap();
/// assert_eq!(chicago.utc_offset_h, Some(-6.0));
/// ```
///
/// # Errors
/// There is no such place; a near one is suggested.
pub fn open(key: &str) -> Result<OutdoorYear, Problem> {
    let place = PLACES.iter().find(|place| place.key == key).ok_or_else(|| unknown(key))?;
    match read::read(place.key, place.file) {
        // How our own files were read is no news.
        Ok(Weather::Year(year)) => Ok(OutdoorYear { reading: None, ..*year }),
        Ok(_) => Err(Problem::new("a built-in place holds no single year").in_file(key)),
        Err(problems) => {
            Err(problems.into_iter().next().unwrap_or_else(|| Problem::new("a built-in place can't be read")))
        }
    }
}

/// A key has few letters, so less likeness is asked for than of long names.
const ALIKE: f64 = 0.75;

fn unknown(key: &str) -> Problem {
    let keys: Vec<&str> = PLACES.iter().map(|place| place.key).collect();
    let likeness = |place: &Place| {
        let town = place.key.split_once('-').map_or(place.key, |(_, town)| town);
        let key = key.trim().to_lowercase();
        strsim::jaro_winkler(&key, place.key).max(strsim::jaro_winkler(&key, town))
    };
    let near = PLACES.iter().map(|place| (likeness(place), place.key)).max_by(|a, b| a.0.total_cmp(&b.0));
    let problem = Problem::new(format!("there is no built-in place {}", super::findings::shown(key)))
        .allowed(keys.join(", "));
    // A name with a dot or a slash is that of a file.
    if key.contains(['.', '/', '\\']) {
        let file = super::findings::shown(key);
        return problem.help(format!(
            "In a job a file is named by weather_file = \"{}\" instead",
            file.trim_matches('\'')
        ));
    }
    match near {
        Some((likeness, near)) if likeness > ALIKE => problem.help(format!("Did you mean '{near}'?")),
        _ => problem.help("Give a weather file instead; in a job, weather_file names it"),
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn a_misspelt_place_gets_a_suggestion_and_nonsense_does_not() {
        let help = |key| open(key).unwrap_err().help.unwrap();
        for key in ["il-chicgo", "chicago", "Chicago", "il_chicago"] {
            assert_eq!(help(key), "Did you mean 'il-chicago'?", "{key}");
        }
        for key in ["xyzzy", "nope", "here"] {
            assert!(help(key).starts_with("Give a weather file instead"), "{key}");
        }
        assert_eq!(help("my.epw"), "In a job a file is named by weather_file = \"my.epw\" instead");
    }
}
