//! A cell into a number in the program's units, or into a problem.
//!
//! Holds what each quantity may be and which numbers mean *missing*; must never know a layout's
//! order of columns. Start at [`Column`].

use super::findings::{Findings, shown};
use crate::problem::Problem;
use crate::units::fahrenheit_to_celsius;

/// What a column holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Field {
    /// Dry-bulb temperature, °C.
    DryBulb,
    /// Dew point, °C.
    DewPoint,
    /// Relative humidity, 0 to 1.
    Humidity,
    /// Station pressure, Pa.
    Pressure,
    /// Global horizontal irradiance, W/m².
    Global,
    /// Direct normal irradiance, W/m².
    Direct,
    /// Diffuse horizontal irradiance, W/m².
    Diffuse,
    /// Wind speed, m/s.
    Wind,
}

/// How the numbers of a column are written.
#[derive(Debug, Clone, Copy)]
pub(super) struct Writing {
    /// The unit in messages.
    unit: &'static str,
    /// The least and the greatest number allowed, in that unit.
    range: (f64, f64),
    /// Numbers that mean *missing*.
    missing: &'static [f64],
    /// From that unit into the program's.
    into_base: fn(f64) -> f64,
}

fn same(x: f64) -> f64 {
    x
}

/// °C. 99.9 is the missing code of several layouts, and no outdoor air is that hot.
pub(super) const CELSIUS: Writing = Writing {
    unit: "°C",
    range: (-90.0, 60.0),
    missing: &[99.9, 999.0, 999.9, 9999.0, -999.0, -9999.0, -9900.0],
    into_base: same,
};

/// °F, the same range; here 99.9 is a hot day and not a code.
pub(super) const FAHRENHEIT: Writing = Writing {
    unit: "°F",
    range: (-130.0, 140.0),
    missing: &[999.0, 999.9, 9999.0, -999.0, -9999.0, -9900.0],
    into_base: fahrenheit_to_celsius,
};

/// Kelvin, the same range.
pub(super) const KELVIN: Writing = Writing {
    unit: "K",
    range: (183.15, 333.15),
    missing: &[999.0, 9999.0, -999.0, -9999.0, -9900.0],
    into_base: |x| x - 273.15,
};

/// Percent. Layouts allow instruments that read to 110; above 100 counts as saturated.
pub(super) const PERCENT: Writing = Writing {
    unit: "%",
    range: (0.0, 110.0),
    missing: &[999.0, 9999.0, -999.0, -9999.0, -9900.0],
    into_base: |x| (x / 100.0).min(1.0),
};

/// Pascal, from below the thinnest air anyone lives in to above the densest.
pub(super) const PASCAL: Writing = Writing {
    unit: "Pa",
    range: (30_000.0, 120_000.0),
    missing: &[999_999.0, 9999.0, -999.0, -9999.0, -9900.0],
    into_base: same,
};

/// Millibar, the same range.
pub(super) const MILLIBAR: Writing = Writing {
    unit: "mbar",
    range: (300.0, 1200.0),
    missing: &[9999.0, -999.0, -9999.0, -9900.0],
    into_base: |x| x * 100.0,
};

/// W/m²; the sun above the atmosphere gives about 1,400.
pub(super) const IRRADIANCE: Writing = Writing {
    unit: "W/m²",
    range: (0.0, 2000.0),
    missing: &[9999.0, 99_999.0, -999.0, -9999.0, -9900.0],
    into_base: same,
};

/// m/s; the greatest gust on record is 113.
pub(super) const WIND: Writing = Writing {
    unit: "m/s",
    range: (0.0, 120.0),
    missing: &[99.9, 999.0, 999.9, 9999.0, -999.0, -9999.0, -9900.0],
    into_base: same,
};

/// Tenths of °C, as fixed-width layouts write them.
pub(super) const TENTHS_CELSIUS: Writing = Writing {
    unit: "tenths of °C",
    range: (-900.0, 600.0),
    missing: &[9999.0, -9999.0],
    into_base: |x| x / 10.0,
};

/// Tenths of m/s; 999 stands for missing in one layout and is no wind on record.
pub(super) const TENTHS_WIND: Writing = Writing {
    unit: "tenths of m/s",
    range: (0.0, 1200.0),
    missing: &[999.0, 9999.0, -9999.0],
    into_base: |x| x / 10.0,
};

/// Temperatures whose column does not say the unit; settled when all of them are known.
pub(super) const UNIT_UNSAID: Writing = Writing {
    unit: "in any unit of temperature",
    range: (-130.0, 333.15),
    missing: &[999.0, 999.9, 9999.0, -999.0, -9999.0, -9900.0],
    into_base: same,
};

/// The coldest air there is, in kelvin: numbers above it are no °C and no °F.
pub(super) const COLDEST_KELVIN: f64 = 183.15;
/// 0 °C in kelvin.
pub(super) const ZERO_CELSIUS_K: f64 = 273.15;

/// One column of a file.
#[derive(Debug, Clone)]
pub(super) struct Column {
    /// Where it stands in a row, from 0.
    pub(super) position: usize,
    /// Its name in messages.
    pub(super) title: String,
    /// What it holds.
    pub(super) field: Field,
    /// How its numbers are written.
    pub(super) writing: Writing,
}

impl Column {
    /// The cell's value in the program's units; `None` if it is missing or was found wrong.
    pub(super) fn value(&self, cell: &str, line: usize, findings: &mut Findings) -> Option<f64> {
        match self.writing.value(cell) {
            Ok(value) => value,
            Err(problem) => {
                findings.add(problem.at_line(line).at_key(self.title.clone()));
                None
            }
        }
    }
}

impl Writing {
    /// Whether two are the same way of writing; the unit tells them apart.
    pub(super) fn is(&self, other: &Self) -> bool {
        self.unit == other.unit
    }

    /// The text as a number in the program's units; `None` for an empty cell or a missing code.
    ///
    /// # Errors
    /// No number, not finite, out of range.
    pub(super) fn value(&self, cell: &str) -> Result<Option<f64>, Problem> {
        let Some(number) = number(cell)? else { return Ok(None) };
        if self.missing.contains(&number) {
            return Ok(None);
        }
        check_range(cell, number, self.range, self.unit)?;
        Ok(Some((self.into_base)(number)))
    }
}

/// The text as a finite number; `None` if it is blank.
///
/// # Errors
/// No number, or not finite.
pub(super) fn number(cell: &str) -> Result<Option<f64>, Problem> {
    let cell = cell.trim();
    if cell.is_empty() {
        return Ok(None);
    }
    match cell.parse::<f64>() {
        Ok(number) if number.is_finite() => Ok(Some(number)),
        _ => Err(Problem::new(format!("found {}, which is no number", shown(cell)))
            .allowed("a number, or an empty cell where the value is missing")),
    }
}

/// Checks that `number`, written as `cell`, lies in the range, both ends included.
///
/// # Errors
/// Names the range.
pub(super) fn check_range(cell: &str, number: f64, range: (f64, f64), unit: &str) -> Result<(), Problem> {
    if (range.0..=range.1).contains(&number) {
        return Ok(());
    }
    let allowed = format!("{} to {} {unit}", range.0, range.1);
    Err(Problem::new(format!("found {}, which is out of range", shown(cell))).allowed(allowed.trim_end()))
}

/// A number of the header that says where a place is; `None` if the cell is empty.
///
/// `at` is the key and the line for the message.
pub(super) fn site_number(
    cell: &str,
    at: (&str, usize),
    range: (f64, f64),
    unit: &str,
    findings: &mut Findings,
) -> Option<f64> {
    let read = number(cell)
        .and_then(|number| number.map_or(Ok(None), |n| check_range(cell, n, range, unit).map(|()| Some(n))));
    read.unwrap_or_else(|problem| {
        findings.add(problem.at_key(at.0).at_line(at.1));
        None
    })
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn missing_codes_are_missing_and_never_numbers() {
        for code in ["9999", "99.9", "-9999", "-9900", "", "  ", "9999.0", "-9.9e3"] {
            assert_eq!(CELSIUS.value(code).unwrap(), None, "{code}");
        }
        // 99.9 °F is a hot afternoon: 67.9/1.8 = 37.7222 °C, hand-worked.
        let hot = FAHRENHEIT.value("99.9").unwrap().unwrap();
        assert!((hot - 37.722_222_222).abs() < 1e-8);
        assert!((PERCENT.value("99.9").unwrap().unwrap() - 0.999).abs() < 1e-12);
        assert_eq!(IRRADIANCE.value("99.9").unwrap(), Some(99.9));
    }

    #[test]
    fn a_number_that_cannot_be_is_refused() {
        for text in ["nan", "inf", "-inf", "1e999", "x", "1 2", "1,5"] {
            assert!(CELSIUS.value(text).unwrap_err().what.ends_with("is no number"), "{text}");
        }
        for text in ["1e308", "-90.01", "60.01", "-273.15"] {
            assert!(CELSIUS.value(text).unwrap_err().what.ends_with("is out of range"), "{text}");
        }
        assert_eq!(CELSIUS.value("-90").unwrap(), Some(-90.0));
        assert_eq!(FAHRENHEIT.value("-130").unwrap(), Some(-90.0));
        assert_eq!(KELVIN.value("273.15").unwrap(), Some(0.0));
        assert_eq!(PERCENT.value("104").unwrap(), Some(1.0));
        assert_eq!(MILLIBAR.value("926").unwrap(), Some(92_600.0));
    }
}
