//! Numbers as people read them: separators, signs, and the units the job asks for.
//!
//! Start at [`Measure`].

use crate::units::{
    CUBIC_METRES_PER_SECOND_PER_CFM, GALLONS_PER_LITRE, METRES_PER_FOOT, UnitSystem, celsius_to_fahrenheit,
    fahrenheit_to_celsius, kwh_to_btu,
};

/// Month names in full, January first.
pub const MONTHS_IN_FULL: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];

/// Month names, January first.
pub const MONTHS: [&str; 12] =
    ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/// A name in quotation marks.
pub fn quoted(name: &str) -> String {
    format!("\u{201c}{name}\u{201d}")
}

/// Words one after the other, the last with `and`: `a, b and c`.
pub fn named_together(words: &[String]) -> String {
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [before @ .., last] => format!("{} and {last}", before.join(", ")),
    }
}

/// Options that cost about the same, least first, and what they cost: both of two amounts, the ends of more.
///
/// ```
/// use winterledger::report::figures::too_close;
/// let three = [("a", "$100".to_owned()), ("b", "$101".to_owned()), ("c", "$104".to_owned())];
/// assert_eq!(too_close(&three), ("“a”, “b” and “c”".into(), "$100 to $104".into()));
/// assert_eq!(too_close(&three[..2]).1, "$100 and $101");
/// ```
pub fn too_close(options: &[(&str, String)]) -> (String, String) {
    let names: Vec<String> = options.iter().map(|(name, _)| quoted(name)).collect();
    let amounts = match options {
        [] => String::new(),
        [(_, one)] => one.clone(),
        [(_, low), (_, high)] => format!("{low} and {high}"),
        [(_, low), .., (_, high)] => format!("{low} to {high}"),
    };
    (named_together(&names), amounts)
}

/// As [`grouped`], with a plus sign before what is above 0.
pub fn signed(value: f64, decimals: usize) -> String {
    let sign = if value > 0.0 { "+" } else { "" };
    format!("{sign}{}", grouped(value, decimals))
}

/// An amount with the decimals that it was typed with.
///
/// ```
/// use winterledger::report::figures::as_typed;
/// assert_eq!((as_typed(0.269), as_typed(0.171 * 0.01), as_typed(15000.0)), ("0.269".into(), "0.00171".into(), "15,000".into()));
/// ```
pub fn as_typed(value: f64) -> String {
    // Cents were divided by 100, which leaves more digits than were typed.
    let shown = format!("{:.8}", value.abs());
    let decimals = shown.trim_end_matches('0').split_once('.').map_or(0, |(_, decimals)| decimals.len());
    grouped(value, decimals)
}

/// As [`grouped`], with more decimals where a small number would show fewer than two of its digits.
///
/// ```
/// use winterledger::report::figures::two_digits;
/// assert_eq!(two_digits(0.00171, 2), "0.0017");
/// assert_eq!(two_digits(171.0, 0), "171");
/// ```
pub fn two_digits(value: f64, decimals: usize) -> String {
    let needed = if value == 0.0 { 0.0 } else { 1.0 - value.abs().log10().floor() };
    grouped(value, decimals.max(needed as usize))
}

/// A number with thousands separators and a true minus sign.
///
/// ```
/// use winterledger::report::figures::grouped;
/// assert_eq!(grouped(-12345.678, 1), "−12,345.7");
/// assert_eq!(grouped(-0.2, 0), "0");
/// ```
pub fn grouped(value: f64, decimals: usize) -> String {
    let plain = format!("{:.*}", decimals, value.abs());
    let (whole, fraction) = plain.split_once('.').map_or((plain.as_str(), None), |(w, f)| (w, Some(f)));
    let mut out = String::new();
    for (i, digit) in whole.chars().enumerate() {
        if i > 0 && (whole.len() - i).is_multiple_of(3) {
            out.push(',');
        }
        out.push(digit);
    }
    if let Some(fraction) = fraction {
        out.push('.');
        out.push_str(fraction);
    }
    let is_zero = plain.chars().all(|c| matches!(c, '0' | '.'));
    if value < 0.0 && !is_zero { format!("\u{2212}{out}") } else { out }
}

/// Money to the whole unit: `$3,410`.
pub fn money(currency: &str, amount: f64) -> String {
    let shown = grouped(amount, 0);
    match shown.strip_prefix('\u{2212}') {
        Some(positive) => format!("\u{2212}{currency}{positive}"),
        None => format!("{currency}{shown}"),
    }
}

/// Money to the hundredth, as on a bill: `$120.44`.
pub fn money_exact(currency: &str, amount: f64) -> String {
    let shown = grouped(amount, 2);
    match shown.strip_prefix('\u{2212}') {
        Some(positive) => format!("\u{2212}{currency}{positive}"),
        None => format!("{currency}{shown}"),
    }
}

/// How quantities are shown: US customary or SI.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Measure(pub UnitSystem);

impl Measure {
    /// The sign of a temperature: `°F` or `°C`.
    pub fn degree(self) -> &'static str {
        self.pick("\u{b0}F", "\u{b0}C")
    }

    /// A temperature's unit in a file's key: `degF` or `degC`.
    pub fn degree_key(self) -> &'static str {
        self.pick("degF", "degC")
    }

    /// A temperature in the shown unit.
    pub fn temperature(self, celsius: f64) -> f64 {
        match self.0 {
            UnitSystem::Us => celsius_to_fahrenheit(celsius),
            UnitSystem::Si => celsius,
        }
    }

    /// A difference of temperatures in the shown unit.
    pub fn difference(self, kelvin: f64) -> f64 {
        match self.0 {
            UnitSystem::Us => kelvin * 1.8,
            UnitSystem::Si => kelvin,
        }
    }

    /// A difference of temperatures in words, with its sign: `-3.5 °F`.
    pub fn difference_words(self, kelvin: f64) -> String {
        format!("{} {}", signed(self.difference(kelvin), 1), self.degree())
    }

    /// A temperature in words: `−9 °F`.
    pub fn temperature_words(self, celsius: f64) -> String {
        // A no-break space keeps the figure and its unit on one line.
        format!("{}\u{a0}{}", grouped(self.temperature(celsius), 0), self.degree())
    }

    /// A whole temperature in °F in words of the shown unit: `45 °F`, `7 °C`.
    pub fn fahrenheit_words(self, fahrenheit: f64) -> String {
        self.temperature_words(fahrenheit_to_celsius(fahrenheit))
    }

    /// The same in a file's key: `45degF`, `7_2degC`.
    pub fn fahrenheit_key(self, fahrenheit: f64) -> String {
        let shown = match self.0 {
            UnitSystem::Us => format!("{fahrenheit:.0}"),
            UnitSystem::Si => format!("{:.1}", fahrenheit_to_celsius(fahrenheit)),
        };
        format!("{}{}", shown.replace('-', "minus_").replace('.', "_"), self.degree_key())
    }

    /// The unit of heat flow: `kBtu/h` or `kW`.
    pub fn power_unit(self) -> &'static str {
        self.pick("kBtu/h", "kW")
    }

    /// The unit of heat flow in a file's key.
    pub fn power_key(self) -> &'static str {
        self.pick("kBtuh", "kW")
    }

    /// A heat flow in the shown unit.
    pub fn power(self, kw: f64) -> f64 {
        match self.0 {
            UnitSystem::Us => kwh_to_btu(kw) / 1000.0,
            UnitSystem::Si => kw,
        }
    }

    /// An area (m²) in ft² or m², with the unit.
    pub fn area_words(self, m2: f64) -> String {
        match self.0 {
            UnitSystem::Us => {
                format!("{} ft\u{b2}", grouped(m2 / (METRES_PER_FOOT * METRES_PER_FOOT), 0))
            }
            UnitSystem::Si => format!("{} m\u{b2}", grouped(m2, 0)),
        }
    }

    /// A load for each area of floor in words.
    pub fn load_for_area(self, kw_per_m2: f64) -> String {
        let square_foot = METRES_PER_FOOT * METRES_PER_FOOT;
        match self.0 {
            UnitSystem::Us => {
                format!("{} Btu/h for each ft\u{b2}", two_digits(kwh_to_btu(kw_per_m2 * square_foot), 0))
            }
            UnitSystem::Si => format!("{} W for each m\u{b2}", two_digits(kw_per_m2 * 1000.0, 0)),
        }
    }

    /// Kilowatt-hours from so much of a liquid fuel, in words; given for a US gallon.
    pub fn kwh_from_gallon_words(self, kwh: f64) -> String {
        match self.0 {
            UnitSystem::Us => format!("{} kWh a gallon", grouped(kwh, 1)),
            UnitSystem::Si => format!("{} kWh a litre", grouped(kwh * GALLONS_PER_LITRE, 1)),
        }
    }

    /// A height in words.
    pub fn height_words(self, metres: f64) -> String {
        match self.0 {
            UnitSystem::Us => format!("{} ft", grouped(metres / METRES_PER_FOOT, 0)),
            UnitSystem::Si => format!("{} m", grouped(metres, 0)),
        }
    }

    /// An airflow in the shown unit.
    pub fn airflow(self, m3_s: f64) -> f64 {
        match self.0 {
            UnitSystem::Us => m3_s / CUBIC_METRES_PER_SECOND_PER_CFM,
            UnitSystem::Si => 1000.0 * m3_s,
        }
    }

    /// The value of one of two words by the unit system.
    pub fn pick<'a>(self, us: &'a str, si: &'a str) -> &'a str {
        match self.0 {
            UnitSystem::Us => us,
            UnitSystem::Si => si,
        }
    }
}
