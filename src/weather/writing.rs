//! A cell into a number in the program's units, or into a problem.
//!
//! Holds what each quantity may be and which numbers mean *missing*; must never know columns. Start at
//! [`Writing`].

use super::findings::shown;
use crate::problem::Problem;
use crate::units::fahrenheit_to_celsius;

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

/// Tenths of °C with a comma and a sign of their quality behind them, as in −0083,5. Published: NCEI, Federal Climate
/// Complex Data Documentation for Integrated Surface Data; 3 and 7 there mark erroneous values.
pub(super) const FLAGGED_TENTHS_CELSIUS: Writing =
    Writing { unit: "flagged tenths of °C", ..TENTHS_CELSIUS };

/// Whether a cell is such a number: a sign, four digits, a comma, one more.
pub(super) fn is_flagged(cell: &str) -> bool {
    matches!(cell.trim().as_bytes(), [b'+' | b'-', tenths @ .., b',', flag]
        if tenths.len() == 4 && tenths.iter().all(u8::is_ascii_digit) && flag.is_ascii_alphanumeric())
}

/// Tenths of m/s; 999 stands for missing in one layout and is no wind on record.
pub(super) const TENTHS_WIND: Writing = Writing {
    unit: "tenths of m/s",
    range: (0.0, 1200.0),
    missing: &[999.0, 9999.0, -9999.0],
    into_base: |x| x / 10.0,
};

/// Words that mean *missing*, in small letters, as spreadsheets and weather offices write them. *NaN* is none:
/// it is what a calculation leaves that went wrong, so it is refused and asked about.
const MISSING_WORDS: [&str; 10] = ["na", "n/a", "#n/a", "m", "null", "none", "missing", "-", "--", "---"];

/// No number that means *missing* is smaller than this.
const LEAST_CODE: f64 = 99.0;

/// Temperatures whose column does not say the unit; settled when all of them are known.
pub(super) const UNIT_UNSAID: Writing = Writing {
    unit: "in any unit of temperature",
    range: (-130.0, 333.15),
    missing: &[999.0, 999.9, 9999.0, -999.0, -9999.0, -9900.0],
    into_base: same,
};

impl Writing {
    /// Whether two are the same way of writing; the unit tells them apart.
    pub(super) fn is(&self, other: &Self) -> bool {
        self.unit == other.unit
    }

    fn covers(&self, number: f64) -> bool {
        (self.range.0..=self.range.1).contains(&number)
    }

    /// What [`Self::value`] gives for a short plain decimal that is in range and no code; else nothing.
    #[inline]
    pub(super) fn short(&self, cell: &str) -> Option<f64> {
        let number = short(cell.as_bytes())?;
        let code = number.abs() >= LEAST_CODE && self.missing.contains(&number);
        let plain = (self.range.0..=self.range.1).contains(&number) && !code;
        plain.then(|| (self.into_base)(number))
    }

    /// The text as a number in the program's units; `None` for an empty cell or a missing code.
    ///
    /// # Errors
    /// No number, not finite, out of range.
    pub(super) fn value(&self, cell: &str) -> Result<Option<f64>, Problem> {
        if MISSING_WORDS.iter().any(|word| cell.trim().eq_ignore_ascii_case(word)) {
            return Ok(None);
        }
        let cell = match cell.split_once(',') {
            Some((_, "3" | "7")) if self.is(&FLAGGED_TENTHS_CELSIUS) => return Ok(None),
            Some((tenths, _)) if self.is(&FLAGGED_TENTHS_CELSIUS) => tenths,
            _ => cell,
        };
        let Some(number) = number(cell)? else { return Ok(None) };
        if self.missing.contains(&number) {
            return Ok(None);
        }
        let checked = check_range(cell, number, self.range, self.unit);
        checked.map_err(|problem| match self.meant(cell, number) {
            Some(help) => problem.help(help),
            None => problem,
        })?;
        Ok(Some((self.into_base)(number)))
    }
}

impl Writing {
    /// What a number that is out of range may be instead.
    fn meant(&self, cell: &str, number: f64) -> Option<String> {
        let of_degrees = self.is(&CELSIUS) || self.is(&FAHRENHEIT);
        let fahrenheit = self.is(&CELSIUS) && number > 0.0 && FAHRENHEIT.covers(number);
        let kelvin = of_degrees && KELVIN.covers(number);
        let tenths = of_degrees && self.covers(number / 10.0) && !cell.contains('.');
        let meant = [
            (
                fahrenheit,
                "is this degF? A CSV column says so by a name that ends in _degF, other layouts have °C",
            ),
            (kelvin, "is this kelvin? A CSV column says so by a name that ends in _K"),
            (tenths, "are these tenths of a degree? Then write them with their decimal point"),
        ];
        let meant: Vec<&str> = meant.into_iter().filter(|(fits, _)| *fits).map(|(_, words)| words).collect();
        (!meant.is_empty()).then(|| format!("It was read as {}: {}", self.unit, meant.join(". Or ")))
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
    // The minus sign and the dash of typesetters, which some programs write for the hyphen.
    let typeset = cell.strip_prefix(['\u{2212}', '\u{2013}']).map(|digits| format!("-{digits}"));
    match typeset.as_deref().unwrap_or(cell).parse::<f64>() {
        Ok(number) if number.is_finite() => Ok(Some(number)),
        _ => {
            let problem = Problem::new(format!("found {}, which is no number", shown(cell)))
                .allowed("a number with a decimal point, or an empty cell where the value is missing");
            Err(match cell {
                _ if cell.contains(',') => problem.help(DECIMAL_COMMAS),
                _ if cell.eq_ignore_ascii_case("nan") => problem.help(NOT_A_NUMBER),
                _ if !cell.bytes().any(|byte| byte.is_ascii_digit()) => problem.help(A_WORD),
                _ if negative_otherwise(cell) => problem.help(MINUS_IN_FRONT),
                _ => match behind_number(cell) {
                    Some(letters) if is_unit(letters) => problem.help(UNIT_IN_CELL),
                    Some(_) => problem.help(LETTERS_IN_CELL),
                    None => problem,
                },
            })
        }
    }
}

/// What stands behind a number that begins the cell, where it is letters, an asterisk, % or a sign of degrees.
fn behind_number(cell: &str) -> Option<&str> {
    let number =
        cell.trim_end_matches(|c: char| c.is_alphabetic() || matches!(c, '\u{b0}' | '%' | ' ' | '*'));
    cell.get(number.len()..).filter(|rest| !rest.is_empty() && number.parse::<f64>().is_ok())
}

/// Whether letters behind a number are a unit.
fn is_unit(letters: &str) -> bool {
    let letters = letters.trim().trim_start_matches(['\u{b0}', ' ']).to_lowercase();
    ["", "%", "c", "f", "k", "degc", "degf", "deg c", "deg f"].contains(&letters.as_str())
}

/// Whether a cell is a negative number as bookkeepers write it: (12.2) or 12.2-.
fn negative_otherwise(cell: &str) -> bool {
    let bracketed = cell.strip_prefix('(').and_then(|rest| rest.strip_suffix(')'));
    bracketed.or_else(|| cell.strip_suffix('-')).is_some_and(|number| number.parse::<f64>().is_ok())
}

/// The way out for (12.2) and 12.2-.
const MINUS_IN_FRONT: &str = "Is this a negative number? Write it with a minus sign in front, such as -12.2";

/// The way out for `72s`.
const LETTERS_IN_CELL: &str = "Take what stands behind the numbers out of the cells; where it marks a doubtful value, \
     leave the cell empty";

/// The way out for numbers such as 3,5.
pub(super) const DECIMAL_COMMAS: &str = "Are these decimal commas? Save the file with semicolons between the cells, or \
     with decimal points; if they part thousands, take them out";

/// The way out for a word.
const A_WORD: &str = "Is the value missing here? Then leave the cell empty";

/// The way out for `70 F`.
const UNIT_IN_CELL: &str =
    "Take the unit out of the cells, and let the column's name end in it, such as temp_degF";

/// The way out for NaN.
const NOT_A_NUMBER: &str = "Is the value missing here? Then leave the cell empty, or write NA. NaN may as well be \
     what a calculation left that went wrong";

/// Powers of ten that a 64-bit number holds without error, as it does whole numbers of fifteen digits.
const POWERS: [f64; 16] =
    [1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15];

/// A plain decimal of at most fifteen places, at one look: records have very many of them. Both sides of
/// the division are without error, so that it rounds as reading the text does.
#[inline]
fn short(text: &[u8]) -> Option<f64> {
    let (negative, digits) = match text {
        [b'-', digits @ ..] => (true, digits),
        digits => (false, digits),
    };
    let (mut whole, mut decimals, mut point) = (0_u64, 0, false);
    for byte in digits {
        match byte {
            b'0'..=b'9' => {
                whole = whole.wrapping_mul(10).wrapping_add(u64::from(byte - b'0'));
                decimals += usize::from(point);
            }
            b'.' if !point => point = true,
            _ => return None,
        }
    }
    let any = digits.len() > usize::from(point) && digits.len() < POWERS.len();
    let value = whole as f64 / POWERS.get(decimals).filter(|_| any)?;
    Some(if negative { -value } else { value })
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

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn missing_codes_are_missing_and_never_numbers() {
        for code in [
            "M", "null", "NA", "N/A", "-", "---", " None ", "9999", "99.9", "-9999", "-9900", "", "  ",
            "9999.0", "-9.9e3",
        ] {
            assert_eq!(CELSIUS.value(code).unwrap(), None, "{code}");
        }
        // 99.9 °F is a hot afternoon: 67.9/1.8 = 37.7222 °C, hand-worked.
        let hot = FAHRENHEIT.value("99.9").unwrap().unwrap();
        assert!((hot - 37.722_222_222).abs() < 1e-8);
        assert!((PERCENT.value("99.9").unwrap().unwrap() - 0.999).abs() < 1e-12);
        assert_eq!(IRRADIANCE.value("99.9").unwrap(), Some(99.9));
    }

    #[test]
    fn short_decimals_are_read_to_the_last_bit() {
        let mut state = 0x1234_5678_9ABC_DEF1_u64;
        for i in 0..200_000 {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            let digits = (state >> 11) % 10_u64.pow(1 + i % 15);
            let sign = if i % 2 == 0 { "-" } else { "" };
            let mut text = format!("{sign}{digits}");
            text.insert(text.len() - (i as usize % text.len()).min(text.len() - sign.len()), '.');
            let wanted: f64 = text.parse().unwrap();
            let found = short(text.as_bytes()).or_else(|| text.parse().ok()).unwrap();
            assert_eq!(found.to_bits(), wanted.to_bits(), "{text}");
        }
        for text in ["", "-", ".", "-.", "1.2.3", "1e3", "+1", " 1", "1 ", "1234567890123456", "--1"] {
            assert_eq!(short(text.as_bytes()), None, "{text}");
        }
        assert_eq!((short(b"-0.5"), short(b"123456789012345")), (Some(-0.5), Some(123_456_789_012_345.0)));
    }

    #[test]
    fn tenths_with_a_sign_of_quality_are_numbers_or_missing() {
        let value = |cell: &str| FLAGGED_TENTHS_CELSIUS.value(cell).unwrap();
        assert_eq!([value("-0083,5"), value("+0211,1")], [Some(-8.3), Some(21.1)]);
        assert_eq!([value("+9999,9"), value("+0211,3"), value("-0083,7")], [None; 3]);
        assert!(is_flagged("-0083,5") && is_flagged("+9999,9"));
        assert!(["-8,3", "0083,5", "+0083", "+0083,12", "-00a3,5"].iter().all(|cell| !is_flagged(cell)));
    }

    #[test]
    fn what_was_meant_by_signs_around_a_number_is_told() {
        let help = |cell: &str| CELSIUS.value(cell).unwrap_err().help.unwrap();
        assert_eq!([help("(12.2)"), help("12.2-")], [MINUS_IN_FRONT; 2]);
        assert_eq!([help("12.2 \u{b0}F"), help("12.2\u{b0}"), help("12.2 deg C")], [UNIT_IN_CELL; 3]);
        assert_eq!([help("72s"), help("72*"), help("-3.5 E")], [LETTERS_IN_CELL; 3]);
    }

    #[test]
    fn a_number_that_cannot_be_is_refused() {
        for text in ["inf", "-inf", "1e999", "x", "1 2", "1,5"] {
            assert!(CELSIUS.value(text).unwrap_err().what.ends_with("is no number"), "{text}");
        }
        for text in ["1e308", "-90.01", "60.01", "-273.15"] {
            assert!(CELSIUS.value(text).unwrap_err().what.ends_with("is out of range"), "{text}");
        }
        let asked = |writing: Writing, text: &str| writing.value(text).unwrap_err().help;
        let words = |writing, text| {
            let help = asked(writing, text).unwrap_or_default();
            ["degF", "kelvin", "tenths"].map(|word| help.contains(word))
        };
        assert_eq!(words(CELSIUS, "72.5"), [true, false, false]);
        assert_eq!(words(CELSIUS, "72"), [true, false, true]);
        assert_eq!(words(CELSIUS, "275.9"), [false, true, false]);
        assert_eq!(
            (words(CELSIUS, "-124"), words(FAHRENHEIT, "281")),
            ([false, false, true], [false, true, true])
        );
        assert_eq!((asked(CELSIUS, "-124.0"), asked(FAHRENHEIT, "1500")), (None, None));
        assert_eq!(asked(CELSIUS, "3,5").as_deref(), Some(DECIMAL_COMMAS));
        assert!(["NaN", "nan"].iter().all(|nan| asked(CELSIUS, nan).as_deref() == Some(NOT_A_NUMBER)));
        assert_eq!(CELSIUS.value("-90").unwrap(), Some(-90.0));
        assert_eq!(CELSIUS.value("\u{2212}4.4").unwrap(), Some(-4.4));
        assert_eq!(CELSIUS.value("\u{2013}4.4").unwrap(), Some(-4.4));
        assert!(CELSIUS.value("\u{2212}-4.4").is_err() && CELSIUS.value("4\u{2212}4").is_err());
        assert_eq!(FAHRENHEIT.value("-130").unwrap(), Some(-90.0));
        assert_eq!(KELVIN.value("273.15").unwrap(), Some(0.0));
        assert_eq!(PERCENT.value("104").unwrap(), Some(1.0));
        assert_eq!(MILLIBAR.value("926").unwrap(), Some(92_600.0));
    }
}
