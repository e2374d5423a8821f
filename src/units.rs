//! Quantities and every conversion factor: text such as `"36000 Btu/h"` into SI numbers, and back.
//!
//! Inside the program everything is °C, K, kW, kWh, hours and metres; customary and selling units
//! exist only in text. This module must never know what a quantity is used for. Start reading at
//! [`Quantity`].

use std::fmt;

/// Btu (International Table) in one kWh. Exact: 1 Btu = 1055.05585262 J.
///
/// Source: NIST Special Publication 811 (2008), appendix B.8.
pub const BTU_PER_KWH: f64 = 3_600_000.0 / 1_055.055_852_62;

/// US gallons in one litre. Exact: 1 gal = 3.785411784 L. Source: NIST SP 811, appendix B.8.
pub const GALLONS_PER_LITRE: f64 = 1.0 / 3.785_411_784;
/// Kilograms in a ton of 2,000 lb. Exact by definition of the pound, 0.45359237 kg.
pub const KILOGRAMS_PER_SHORT_TON: f64 = 2000.0 * 0.453_592_37;

/// Metres in one foot, exact. Source: NIST SP 811, appendix B.8.
pub const METRES_PER_FOOT: f64 = 0.3048;

/// Cubic metres a second in one cubic foot a minute, exact: 0.3048³/60. Source: NIST SP 811, appendix B.8.
pub const CUBIC_METRES_PER_SECOND_PER_CFM: f64 = METRES_PER_FOOT * METRES_PER_FOOT * METRES_PER_FOOT / 60.0;

/// One ton of refrigeration in Btu/h. Common practice, and `checks` of the trade: 12,000 Btu/h.
pub const BTU_PER_HOUR_PER_TON: f64 = 12_000.0;

/// The units that people read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum UnitSystem {
    /// US customary: °F, Btu/h, ft.
    Us,
    /// SI: °C, kW, m.
    Si,
}

impl UnitSystem {
    /// A temperature (°C) as a job in these units writes it.
    ///
    /// ```
    /// use winterledger::units::UnitSystem;
    /// assert_eq!(UnitSystem::Us.temperature_text(25.0), "77 degF");
    /// assert_eq!(UnitSystem::Si.temperature_text(25.0), "25 degC");
    /// ```
    pub fn temperature_text(self, celsius: f64) -> String {
        match self {
            Self::Us => format!("{} degF", tenths(celsius_to_fahrenheit(celsius))),
            Self::Si => format!("{} degC", tenths(celsius)),
        }
    }

    /// A measure of a thing (m) as a job in these units writes it: to the inch or the centimetre.
    pub fn measure_text(self, metres: f64) -> String {
        match self {
            Self::Us => format!("{:.0} in", metres / METRES_PER_FOOT * 12.0),
            Self::Si => format!("{:.0} cm", metres * 100.0),
        }
    }

    /// An airflow (m³/s) as a job in these units writes it: to the cubic foot a minute or the litre a second.
    pub fn airflow_text(self, cubic_metres_per_second: f64) -> String {
        match self {
            Self::Us => format!("{:.0} cfm", cubic_metres_per_second / CUBIC_METRES_PER_SECOND_PER_CFM),
            Self::Si => format!("{:.0} L/s", cubic_metres_per_second * 1000.0),
        }
    }
}

/// To one decimal, which is left out where it is 0.
fn tenths(value: f64) -> f64 {
    (value * 10.0).round() / 10.0
}

/// Turns degrees Fahrenheit into degrees Celsius.
///
/// ```
/// assert_eq!(winterledger::units::fahrenheit_to_celsius(50.0), 10.0);
/// ```
pub fn fahrenheit_to_celsius(degrees_fahrenheit: f64) -> f64 {
    (degrees_fahrenheit - 32.0) / 1.8
}

/// Turns degrees Celsius into degrees Fahrenheit.
///
/// ```
/// assert_eq!(winterledger::units::celsius_to_fahrenheit(10.0), 50.0);
/// ```
pub fn celsius_to_fahrenheit(degrees_celsius: f64) -> f64 {
    degrees_celsius * 1.8 + 32.0
}

/// Turns Btu/h into kW (or Btu into kWh).
pub fn btu_to_kwh(btu: f64) -> f64 {
    btu / BTU_PER_KWH
}

/// Turns kW into Btu/h (or kWh into Btu).
pub fn kwh_to_btu(kwh: f64) -> f64 {
    kwh * BTU_PER_KWH
}

/// One way to write a quantity: `base = (written + shift) · factor`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    /// The unit as typed, for example `Btu/h`.
    pub name: &'static str,
    /// Base units in one of these.
    pub factor: f64,
    /// Added to the written number first; only temperatures have one.
    pub shift: f64,
}

const fn unit(name: &'static str, factor: f64) -> Unit {
    Unit { name, factor, shift: 0.0 }
}

const fn shifted(name: &'static str, factor: f64, shift: f64) -> Unit {
    Unit { name, factor, shift }
}

/// Why a text is not a quantity.
#[derive(Debug, Clone, PartialEq)]
pub enum UnitError {
    /// There is no number at the start of the text.
    NoNumber,
    /// The number is not finite, for example `1e999` or `nan`.
    NotFinite,
    /// There is a number but no unit after it.
    NoUnit {
        /// The units this quantity can be written in.
        accepted: Vec<&'static str>,
    },
    /// The unit is not one of this quantity's.
    WrongUnit {
        /// The unit that was found.
        found: String,
        /// The units this quantity can be written in.
        accepted: Vec<&'static str>,
    },
}

impl fmt::Display for UnitError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoNumber => write!(f, "no number at the start"),
            Self::NotFinite => write!(f, "not a finite number"),
            Self::NoUnit { accepted } => {
                write!(f, "the unit is missing; write it as one of: {}", accepted.join(", "))
            }
            Self::WrongUnit { found, accepted } => {
                write!(f, "unknown unit '{found}'; write it as one of: {}", accepted.join(", "))
            }
        }
    }
}

/// A physical quantity that can be read from text with its unit.
///
/// ```
/// use winterledger::units::{Power, Quantity};
/// let design_load = Power::parse("33,250 Btu/h").unwrap();
/// assert!((design_load.base() - 9.744613).abs() < 1e-6); // kW
/// ```
pub trait Quantity: Copy + Sized {
    /// What it is called in messages.
    const NAME: &'static str;
    /// Every unit it may be written in; the first is the base unit.
    const UNITS: &'static [Unit];

    /// From a number in the base unit.
    fn from_base(base: f64) -> Self;

    /// The number in the base unit.
    fn base(self) -> f64;

    /// Reads a number and a unit, for example `"10.5 kW"`.
    ///
    /// # Errors
    /// Says whether the number or the unit is at fault, and lists the accepted units.
    fn parse(text: &str) -> Result<Self, UnitError> {
        let (number, unit_text) = split_number(text)?;
        let accepted = || Self::UNITS.iter().map(|u| u.name).collect::<Vec<_>>();
        if unit_text.is_empty() {
            return Err(UnitError::NoUnit { accepted: accepted() });
        }
        // Most jobs spell units as they are listed here; that is quicker to see.
        let exact = Self::UNITS.iter().find(|u| u.name == unit_text);
        let wanted = || plain_unit(unit_text);
        let alike = |wanted: String| Self::UNITS.iter().find(|u| plain_unit(u.name) == wanted);
        match exact.or_else(|| alike(wanted())) {
            Some(u) => Ok(Self::from_base((number + u.shift) * u.factor)),
            None => Err(UnitError::WrongUnit { found: unit_text.to_owned(), accepted: accepted() }),
        }
    }

    /// The number in the unit of that name, or `None` if this quantity has no such unit.
    fn in_unit(self, name: &str) -> Option<f64> {
        let wanted = plain_unit(name);
        let found = Self::UNITS.iter().find(|u| plain_unit(u.name) == wanted)?;
        Some(self.base() / found.factor - found.shift)
    }
}

/// Minus sign, en dash, em dash, hyphens.
const DASHES: [char; 5] = ['\u{2212}', '\u{2013}', '\u{2014}', '\u{2010}', '\u{2011}'];

/// Splits `"36,000 Btu/h"` into the number and the rest.
///
/// Commas count as thousands separators only in the form `1,234,567`.
///
/// # Errors
/// [`UnitError::NoNumber`] or [`UnitError::NotFinite`].
pub fn split_number(text: &str) -> Result<(f64, &str), UnitError> {
    // The sign that is set in print, as this program itself does, or a dash of an office program; none has
    // another meaning before a number.
    let (minus, text) = match text.trim().strip_prefix(DASHES).map(str::trim_start) {
        Some(rest) if rest.starts_with(['+', '-']) => return Err(UnitError::NoNumber),
        Some(rest) => (true, rest),
        None => (false, text.trim()),
    };
    let end = number_end(text);
    let digits = text.get(..end).unwrap_or_default();
    let rest = text.get(end..).unwrap_or_default().trim();
    let plain = without_thousands(digits).ok_or(UnitError::NoNumber)?;
    let number: f64 = plain.parse().map_err(|_| UnitError::NoNumber)?;
    if !number.is_finite() {
        return Err(UnitError::NotFinite);
    }
    Ok((if minus { -number } else { number }, rest))
}

fn number_end(text: &str) -> usize {
    let bytes = text.as_bytes();
    let mut end = 0;
    while let Some(&b) = bytes.get(end) {
        let exponent = matches!(b, b'e' | b'E')
            && end > 0
            && matches!(bytes.get(end + 1), Some(b'0'..=b'9' | b'+' | b'-'));
        let sign = matches!(b, b'+' | b'-') && (end == 0 || matches!(bytes.get(end - 1), Some(b'e' | b'E')));
        if !(b.is_ascii_digit() || matches!(b, b'.' | b',') || exponent || sign) {
            break;
        }
        end += 1;
    }
    end
}

fn without_thousands(digits: &str) -> Option<String> {
    if !digits.contains(',') {
        return Some(digits.to_owned());
    }
    let whole = digits.split('.').next().unwrap_or_default();
    let mut groups = whole.trim_start_matches(['+', '-']).split(',');
    let first = groups.next().unwrap_or_default();
    let well_formed = (1..=3).contains(&first.len()) && groups.all(|g| g.len() == 3);
    let fraction_ok = !digits.get(whole.len()..).unwrap_or_default().contains(',');
    (well_formed && fraction_ok).then(|| digits.replace(',', ""))
}

/// Spelling that does not matter: case of `Btu`, the degree sign, spaces, `²`, `·`, `hr`, gallons and litres in full.
pub(crate) fn plain_unit(name: &str) -> String {
    name.trim()
        .replace(['\u{b0}', ' '], "")
        .replace('\u{b2}', "2")
        .replace(['\u{b7}', '*'], "/")
        .replace("deg", "")
        .to_ascii_lowercase()
        .replace("/hr", "/h")
        .replace("btuh", "btu/h")
        .replace("sqft", "ft2")
        .replace("gallons", "gal")
        .replace("gallon", "gal")
        .replace("litres", "l")
        .replace("litre", "l")
        .replace("liters", "l")
        .replace("liter", "l")
}

macro_rules! quantity {
    ($(#[$meta:meta])* $type:ident, $name:literal, [$($unit:expr),+ $(,)?]) => {
        $(#[$meta])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
        pub struct $type(f64);

        impl Quantity for $type {
            const NAME: &'static str = $name;
            const UNITS: &'static [Unit] = &[$($unit),+];

            fn from_base(base: f64) -> Self {
                Self(base)
            }

            fn base(self) -> f64 {
                self.0
            }
        }
    };
}

const BTU: f64 = 1.0 / BTU_PER_KWH;

quantity!(
    /// A temperature; base unit °C.
    Temperature, "temperature",
    [unit("degC", 1.0), shifted("degF", 1.0 / 1.8, -32.0), shifted("kelvin", 1.0, -273.15),
     unit("C", 1.0), shifted("F", 1.0 / 1.8, -32.0), shifted("K", 1.0, -273.15)]
);
quantity!(
    /// A difference of temperatures; base unit K.
    TemperatureDifference, "temperature difference",
    [unit("K", 1.0), unit("degF", 1.0 / 1.8), unit("degC", 1.0), unit("F", 1.0 / 1.8), unit("C", 1.0)]
);
quantity!(
    /// A rate of heat or of electricity; base unit kW.
    Power, "power",
    [unit("kW", 1.0), unit("W", 0.001), unit("Btu/h", BTU), unit("kBtu/h", 1000.0 * BTU),
     unit("MBH", 1000.0 * BTU), unit("ton", BTU_PER_HOUR_PER_TON * BTU)]
);
quantity!(
    /// An amount of heat, electricity or fuel energy; base unit kWh.
    Energy, "energy",
    [unit("kWh", 1.0), unit("MWh", 1000.0), unit("Btu", BTU), unit("kBtu", 1000.0 * BTU),
     unit("MMBtu", 1.0e6 * BTU), unit("therm", 1.0e5 * BTU), unit("MJ", 1.0 / 3.6)]
);
quantity!(
    /// Energy used through a year; base unit kWh a year.
    YearlyEnergy, "energy a year",
    [unit("kWh/year", 1.0), unit("kWh/month", 12.0), unit("MMBtu/year", 1.0e6 * BTU),
     unit("therm/year", 1.0e5 * BTU)]
);
quantity!(
    /// Water used in a day; base unit litres a day.
    WaterUse, "water use",
    [unit("L/day", 1.0), unit("gal/day", 1.0 / GALLONS_PER_LITRE)]
);
quantity!(
    /// Heat loss for each kelvin of difference; base unit kW/K.
    HeatLossRate, "heat loss rate",
    [unit("kW/K", 1.0), unit("W/K", 0.001), unit("Btu/h/degF", 1.8 * BTU)]
);
quantity!(
    /// Heat stored for each kelvin of change; base unit kWh/K.
    HeatCapacity, "heat capacity",
    [unit("kWh/K", 1.0), unit("Wh/K", 0.001), unit("kJ/K", 1.0 / 3600.0), unit("Btu/degF", 1.8 * BTU)]
);
quantity!(
    /// A height or distance; base unit m.
    Length, "length",
    [unit("m", 1.0), unit("ft", METRES_PER_FOOT)]
);
quantity!(
    /// A measure of a thing, such as a tank; base unit m.
    Measure, "measure",
    [unit("m", 1.0), unit("cm", 0.01), unit("in", METRES_PER_FOOT / 12.0), unit("ft", METRES_PER_FOOT)]
);
quantity!(
    /// A flow of air; base unit m³/s.
    Airflow, "airflow",
    [unit("m3/s", 1.0), unit("cfm", CUBIC_METRES_PER_SECOND_PER_CFM), unit("L/s", 0.001),
     unit("m3/h", 1.0 / 3600.0)]
);
quantity!(
    /// A span of years; base unit years.
    Years, "span of years",
    [unit("years", 1.0), unit("year", 1.0), unit("yr", 1.0)]
);
quantity!(
    /// An electric current; base unit A.
    Current, "electric current",
    [unit("A", 1.0), unit("amp", 1.0)]
);
quantity!(
    /// A floor area; base unit m².
    Area, "area",
    [unit("m2", 1.0), unit("ft2", METRES_PER_FOOT * METRES_PER_FOOT)]
);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_quantity_reads_the_spellings_that_people_use() {
        // Hand-worked: 33,250 / 3412.141633 = 9.744613 kW.
        for text in ["33250 Btu/h", "33,250 BTU/hr", "33.25 kBtu/h", "33.25MBH", "33250 btuh"] {
            let power = Power::parse(text).unwrap();
            assert!((power.base() - 9.744_613).abs() < 1e-5, "{text}: {power:?}");
        }
        // 50 US gallons of 3.785411784 L.
        for text in
            ["50 gal/day", "50 gallons/day", "50 Gallon/day", "189.2706 litres/day", "189.2706 Liters/day"]
        {
            assert!((WaterUse::parse(text).unwrap().base() - 189.2706).abs() < 1e-4, "{text}");
        }
        assert_eq!(Temperature::parse("50 \u{b0}F").unwrap().base(), 10.0);
        assert_eq!(Temperature::parse("-40 degF").unwrap().base(), -40.0);
    }

    #[test]
    fn what_is_wrong_with_a_quantity_is_told() {
        assert_eq!(Power::parse("kW"), Err(UnitError::NoNumber));
        assert_eq!(Power::parse("1e999 kW"), Err(UnitError::NotFinite));
        assert!(matches!(Power::parse("12"), Err(UnitError::NoUnit { .. })));
        assert!(matches!(Power::parse("12 degF"), Err(UnitError::WrongUnit { .. })));
        assert_eq!(Power::parse("1,23 kW"), Err(UnitError::NoNumber));
    }
}
