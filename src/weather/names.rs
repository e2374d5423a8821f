//! Column names of other people's CSV files into what they hold and the unit they say.
//!
//! Must never know a row. Start at [`temperature`] and [`dates`].

use super::cells::Field;
use super::writing::{CELSIUS, FAHRENHEIT, KELVIN, UNIT_UNSAID, Writing};

/// The names of date and time that are known, as a message tells them.
pub(super) const DATE_WORDS: &str = "date and time in one column named datetime, timestamp, time, date, dt or \
     valid, in two named date and time, or in columns named year, month, day and hour";
/// The names of the outdoor temperature that are known, as a message tells them.
pub(super) const TEMPERATURE_WORDS: &str = "a temperature named temp, temperature, air_temp, dry_bulb, \
     outdoor_temp, tmp or t2m that ends in its unit, such as temp_degF, tempC or tmpf";

/// Words of a temperature outdoors, in small letters without blanks; German, French and Spanish weather
/// offices write the last ones.
const DRY_BULB: [&str; 33] = [
    "drybulb",
    "drybulbtemp",
    "drybulbtemperature",
    "temp",
    "temp2m",
    "t2m",
    "2mtemperature",
    "temperature",
    "temperature2m",
    "airtemp",
    "airtemperature",
    "outdoortemp",
    "outdoortemperature",
    "outdoor",
    "outdoorairtemp",
    "outdoorairtemperature",
    "tempout",
    "tdry",
    "tmp",
    "tair",
    "ambienttemp",
    "ambienttemperature",
    "oat",
    "outsidetemp",
    "outsideairtemp",
    "outsideairtemperature",
    "outsidetemperature",
    "hourlydrybulbtemperature",
    "lufttemperatur",
    "außentemperatur",
    "temperatur",
    "température",
    "temperatura",
];
/// Signs of a temperature outdoors that are one only beside a unit.
const DRY_BULB_SIGNS: [&str; 3] = ["t", "ta", "tdb"];
const DEW_POINT: [&str; 11] = [
    "dewpoint",
    "dewpointtemp",
    "dewpointtemperature",
    "dewpoint2m",
    "dewpointtemperature2m",
    "d2m",
    "tdew",
    "dwp",
    "dewp",
    "hourlydewpointtemperature",
    "taupunkt",
];

/// Where the date and time of a row stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum DateColumns {
    /// In one column.
    One(usize),
    /// Date and time in two.
    Two(usize, usize),
    /// Year, month, day, hour, and the minute where there is one.
    Parts([usize; 4], Option<usize>),
    /// The same without the year.
    NoYear([usize; 3], Option<usize>),
}

impl DateColumns {
    /// Their places, in order.
    pub(super) fn positions(self) -> Vec<usize> {
        match self {
            Self::One(one) => vec![one],
            Self::Two(date, time) => vec![date, time],
            Self::Parts(parts, minute) => parts.into_iter().chain(minute).collect(),
            Self::NoYear(parts, minute) => parts.into_iter().chain(minute).collect(),
        }
    }
}

/// A date column, and whether its name says UTC.
pub(super) fn dates<S: AsRef<str>>(names: &[S]) -> Option<(DateColumns, bool)> {
    let plain: Vec<(String, bool)> = names.iter().map(|name| without_clock(name.as_ref())).collect();
    let find = |wanted: &[&str]| plain.iter().position(|(name, _)| wanted.contains(&name.as_str()));
    let utc = |i: usize| plain.get(i).is_some_and(|(_, utc)| *utc);
    let minute = find(&["minute", "min"]);
    let parts = [find(&["year", "yr"]), find(&["month", "mo"]), find(&["day"]), find(&HOUR)];
    if let [Some(year), Some(month), Some(day), Some(hour)] = parts {
        let columns = DateColumns::Parts([year, month, day, hour], minute);
        return Some((columns, [year, month, day, hour].into_iter().any(utc)));
    }
    let time = find(&TIME).or_else(|| find(&HOUR));
    if let (Some(date), Some(time)) = (find(&["date", "datum", "fecha"]), time) {
        return Some((DateColumns::Two(date, time), utc(date) || utc(time)));
    }
    if let Some(one) = find(&WHEN) {
        return Some((DateColumns::One(one), utc(one)));
    }
    let [_, Some(month), Some(day), Some(hour)] = parts else { return None };
    Some((DateColumns::NoYear([month, day, hour], minute), [month, day, hour].into_iter().any(utc)))
}

/// Words of a column that holds the time beside a date.
const TIME: [&str; 6] = ["time", "hhmm", "uhrzeit", "zeit", "timeofday", "hrmn"];
/// Words of a column that holds the hour beside a date; one that names its end runs to 24, which shows it.
const HOUR: [&str; 9] = ["hour", "hr", "he", "hourending", "hourend", "hourofday", "hora", "heure", "stunde"];

/// Words of a column that holds date and time together.
const WHEN: [&str; 15] = [
    "datetime",
    "datum",
    "timestamp",
    "time",
    "date",
    "dateandtime",
    "datehour",
    "valid",
    "validtime",
    "dt",
    "observationtime",
    "zeit",
    "zeitstempel",
    "zeitpunkt",
    "datumzeit",
];

/// A name in small letters and digits only, without words for the clock; and whether it said UTC.
fn without_clock(name: &str) -> (String, bool) {
    let name = name.trim().to_lowercase();
    let utc = ["utc", "gmt", "zulu"].iter().any(|word| name.contains(word));
    let plain: String = name.chars().filter(char::is_ascii_alphanumeric).collect();
    (["utc", "gmt", "zulu", "lst", "local"].iter().fold(plain, |name, word| name.replace(word, "")), utc)
}

/// Whether a column of that name says which station a row is of.
pub(super) fn is_station(name: &str) -> bool {
    let (plain, _) = without_clock(name);
    ["station", "stationid", "stationnumber", "stid", "usaf", "wban", "icao"].contains(&plain.as_str())
}

/// What a column of temperatures holds, by its name, and how it is written.
pub(super) fn temperature(name: &str) -> Option<(Field, Writing)> {
    let lower = name.trim().to_lowercase();
    let words: Vec<&str> = lower.split(|c: char| !(c.is_alphanumeric() || c == '°')).collect();
    let (units, stem): (Vec<&str>, Vec<&str>) =
        words.into_iter().filter(|w| !w.is_empty() && !DEGREE.contains(w)).partition(|w| unit(w).is_some());
    let (stem, unit) = match (stem.concat(), units.first().copied().and_then(unit)) {
        // `tempC`, `temp_airF`: the unit is the last letter.
        (stem, None) if DRY_BULB.iter().all(|known| *known != stem) => last_letter(&stem)?,
        (stem, unit) => (stem, unit),
    };
    let field = match stem.as_str() {
        stem if DRY_BULB.contains(&stem) => Field::DryBulb,
        stem if DRY_BULB_SIGNS.contains(&stem) && unit.is_some() => Field::DryBulb,
        stem if DEW_POINT.contains(&stem) => Field::DewPoint,
        _ => return None,
    };
    Some((field, unit.unwrap_or(UNIT_UNSAID)))
}

/// Whether a name of a temperature says °F.
pub(super) fn is_fahrenheit(name: &str) -> bool {
    temperature(name).is_some_and(|(_, writing)| writing.is(&FAHRENHEIT))
}

/// Words that stand before a unit, as in deg C.
const DEGREE: [&str; 3] = ["deg", "degrees", "°"];

/// The unit of temperature that a cell says and nothing else, as in (°C).
pub(super) fn unit_alone(cell: &str) -> Option<Writing> {
    let lower = cell.to_lowercase();
    let words = lower.split(|c: char| !(c.is_alphanumeric() || c == '°'));
    let mut words = words.filter(|word| !word.is_empty() && !DEGREE.contains(word));
    words.next().and_then(unit).filter(|_| words.next().is_none())
}

fn unit(word: &str) -> Option<Writing> {
    match word {
        "c" | "°c" | "degc" | "celsius" | "deg°c" => Some(CELSIUS),
        "f" | "°f" | "degf" | "fahrenheit" => Some(FAHRENHEIT),
        "k" | "degk" | "kelvin" => Some(KELVIN),
        _ => None,
    }
}

fn last_letter(stem: &str) -> Option<(String, Option<Writing>)> {
    let (at, last) = stem.char_indices().next_back()?;
    let shorter = stem.get(..at)?.to_owned();
    let known = DRY_BULB.contains(&shorter.as_str()) || DEW_POINT.contains(&shorter.as_str());
    match unit(last.to_string().as_str()).filter(|_| known) {
        Some(unit) => Some((shorter, Some(unit))),
        None => Some((stem.to_owned(), None)),
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn names_of_temperatures_say_what_they_hold_and_their_unit() {
        let is = |name: &str, field: Field, base: f64| {
            let (found, writing) = temperature(name).unwrap_or_else(|| panic!("{name}"));
            // 50 is 50 °C, 10 °F less 32 and so on: the number tells the unit.
            assert_eq!(found, field, "{name}");
            let value = writing.value("280").or_else(|_| writing.value("50")).unwrap().unwrap();
            assert!((value - base).abs() < 1e-9, "{name}: {value}");
        };
        for name in [
            "temp_C",
            "Temperature (°C)",
            "tempC",
            "air_temperature_degC",
            "temperature_2m (°C)",
            "temp_c",
            "Lufttemperatur (°C)",
            "Température (°C)",
            "Air temperature [deg C]",
            "T (°C)",
            "Ta_C",
            "Temp Out °C",
            "Outdoor air temperature, deg C",
        ] {
            is(name, Field::DryBulb, 50.0);
        }
        for name in [
            "temp_F",
            "Temperature (F)",
            "tempF",
            "tmpf",
            "Dry-bulb temperature [degF]",
            "OAT (F)",
            "Outside Air Temp [degF]",
            "T_db_F",
        ] {
            is(name, Field::DryBulb, 10.0);
        }
        for name in ["t2m_K", "temp_2m (kelvin)"] {
            is(name, Field::DryBulb, 280.0 - 273.15);
        }
        is("temp_2m", Field::DryBulb, 280.0);
        is("dew_point_2m (°C)", Field::DewPoint, 50.0);
        is("dwpf", Field::DewPoint, 10.0);
        for name in [
            "",
            "humidity",
            "wind_c",
            "soil_temperature_0_7cm",
            "wet_bulb_degC",
            "Temp In °C",
            "f",
            "°",
            "t",
            "T deg",
        ] {
            assert!(temperature(name).is_none(), "{name}");
        }
    }

    #[test]
    fn a_unit_alone_is_told_from_other_words() {
        let is = |cell: &str, wanted: &Writing| unit_alone(cell).is_some_and(|unit| unit.is(wanted));
        assert!(is("°C", &CELSIUS) && is("[deg C]", &CELSIUS) && is("F", &FAHRENHEIT) && is("(K)", &KELVIN));
        assert!(["", "°", "m/s", "C or F", "local"].iter().all(|cell| unit_alone(cell).is_none()));
    }

    #[test]
    fn date_columns_are_found_with_their_clock() {
        assert_eq!(dates(&["x", "datetime_utc"]), Some((DateColumns::One(1), true)));
        assert_eq!(dates(&["time(UTC)", "T2m"]), Some((DateColumns::One(0), true)));
        assert_eq!(dates(&["Date", "Time (LST)", "T"]), Some((DateColumns::Two(0, 1), false)));
        let parts = DateColumns::Parts([0, 1, 2, 3], Some(4));
        assert_eq!(dates(&["Year", "Month", "Day", "Hour", "Minute"]), Some((parts, false)));
        assert_eq!(dates(&["valid", "tmpf"]), Some((DateColumns::One(0), false)));
        assert_eq!(dates(&["Zeit", "Lufttemperatur (°C)"]), Some((DateColumns::One(0), false)));
        assert_eq!(dates(&["Datum", "Uhrzeit", "x"]), Some((DateColumns::Two(0, 1), false)));
        assert_eq!(dates(&["Datum", "Temperatur_C"]), Some((DateColumns::One(0), false)));
        assert_eq!(dates(&["local_time", "x"]), Some((DateColumns::One(0), false)));
        for name in ["Hr", "HE", "Hour Ending", "Heure", "Hora", "HrMn", "Stunde", "Time of day"] {
            assert_eq!(dates(&["Date", name, "x"]), Some((DateColumns::Two(0, 1), false)), "{name}");
        }
        let no_year = DateColumns::NoYear([0, 1, 2], None);
        assert_eq!(dates(&["Month", "Day", "Hour (LST)", "x"]), Some((no_year, false)));
        assert_eq!(dates(&["Date", "Month", "Day", "Hour"]), Some((DateColumns::Two(0, 3), false)));
        assert_eq!(dates(&["hour", "dry_bulb_degC"]), None);
    }
}
