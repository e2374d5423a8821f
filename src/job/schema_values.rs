//! The JSON Schema of single values: quantities with their units, amounts of money, times and days.
//!
//! Patterns know the spellings that the readers take; ranges are the readers' to judge. Start at
//! [`Temperature`].

// The fields are read by the schema's derivation, never by the program.
#![allow(dead_code)]

use crate::units::{self, Quantity};
use schemars::JsonSchema;

/// Which signs a number may have.
enum Sign {
    Either,
    Plus,
}

/// The spellings of a quantity that [`Quantity::parse`] takes, as a pattern: its units are the one list.
fn spelt<Q: Quantity>(sign: Sign) -> String {
    let sign = match sign {
        // The minus of print and the dashes of office programs may stand apart.
        Sign::Either => r"([+-]|[\u2212\u2013\u2014\u2010\u2011]\s*)?",
        Sign::Plus => r"\+?",
    };
    let number = r"(([0-9]{1,3}(,[0-9]{3})+|[0-9]+)(\.[0-9]*)?|\.[0-9]+)([eE][+-]?[0-9]+)?";
    let mut units: Vec<String> = Q::UNITS.iter().map(|unit| unit_spelt(unit.name)).collect();
    units.sort();
    units.dedup();
    format!(r"^\s*{sign}{number}\s*({})\s*$", units.join("|"))
}

/// A unit in any case, with the other ways of writing a degree, a square, a division and an hour.
fn unit_spelt(name: &str) -> String {
    let letter = |c: char| match c {
        '/' => " ?[/\u{b7}*] ?".to_owned(),
        '2' => "[2\u{b2}]".to_owned(),
        c if c.is_ascii_alphabetic() => format!("[{}{}]", c.to_ascii_uppercase(), c.to_ascii_lowercase()),
        c => c.to_string(),
    };
    let any_case = |text: &str| text.chars().map(letter).collect::<String>();
    let plain = name.replace("deg", "");
    let before_degree = plain.strip_suffix(['F', 'C']).filter(|left| left.is_empty() || left.ends_with('/'));
    if let Some(left) = before_degree {
        let degree = any_case(plain.get(left.len()..).unwrap_or_default());
        return format!("{}(deg|\u{b0})? ?{degree}", any_case(left));
    }
    match plain.strip_suffix("/h") {
        Some(heat) if heat.ends_with("Btu") => format!("{}( ?[/\u{b7}*] ?[Hh][Rr]?|[Hh])", any_case(heat)),
        Some(_) => format!("{}[Rr]?", any_case(&plain)),
        None if plain == "ft2" => format!("{}|[Ss][Qq] ?[Ff][Tt]", any_case("ft2")),
        None => any_case(&plain),
    }
}

/// A line of text.
#[derive(JsonSchema)]
#[serde(transparent)]
pub(super) struct Line(#[schemars(length(min = 1, max = 500))] String);

/// A temperature, such as "70 degF" or "21 degC".
#[derive(JsonSchema)]
#[serde(transparent)]
pub(super) struct Temperature(#[schemars(regex(pattern = spelt::<units::Temperature>(Sign::Either)))] String);

/// A difference of temperatures, such as "-3.5 degF" or "-2 K".
#[derive(JsonSchema)]
#[serde(transparent)]
pub(super) struct TemperatureDifference(
    #[schemars(regex(pattern = spelt::<units::TemperatureDifference>(Sign::Either)))] String,
);

/// A rate of heat or electricity, such as "36000 Btu/h", "36 kBtu/h" or "10.5 kW".
#[derive(JsonSchema)]
#[serde(transparent)]
pub(super) struct Power(#[schemars(regex(pattern = spelt::<units::Power>(Sign::Plus)))] String);

/// An amount of energy, such as "2.6 kWh".
#[derive(JsonSchema)]
#[serde(transparent)]
pub(super) struct Energy(#[schemars(regex(pattern = spelt::<units::Energy>(Sign::Plus)))] String);

/// Energy used through a year, such as "6000 kWh/year" or "500 kWh/month".
#[derive(JsonSchema)]
#[serde(transparent)]
pub(super) struct YearlyEnergy(#[schemars(regex(pattern = spelt::<units::YearlyEnergy>(Sign::Plus)))] String);

/// Water used in a day, such as "50 gal/day" or "190 L/day".
#[derive(JsonSchema)]
#[serde(transparent)]
pub(super) struct WaterUse(#[schemars(regex(pattern = spelt::<units::WaterUse>(Sign::Plus)))] String);

/// A flow of air, such as "1200 cfm" or "0.5 m3/s".
#[derive(JsonSchema)]
#[serde(transparent)]
pub(super) struct Airflow(#[schemars(regex(pattern = spelt::<units::Airflow>(Sign::Plus)))] String);

/// An electric current, such as "60 A".
#[derive(JsonSchema)]
#[serde(transparent)]
pub(super) struct Current(#[schemars(regex(pattern = spelt::<units::Current>(Sign::Plus)))] String);

/// A floor area, such as "2600 ft2" or "240 m2".
#[derive(JsonSchema)]
#[serde(transparent)]
pub(super) struct Area(#[schemars(regex(pattern = spelt::<units::Area>(Sign::Plus)))] String);

/// A measure of a thing, such as "37 in" or "94 cm".
#[derive(JsonSchema)]
#[serde(transparent)]
pub(super) struct Measure(#[schemars(regex(pattern = spelt::<units::Measure>(Sign::Plus)))] String);

/// A height, such as "1150 ft" or "350 m".
#[derive(JsonSchema)]
#[serde(transparent)]
pub(super) struct Height(#[schemars(regex(pattern = spelt::<units::Length>(Sign::Either)))] String);

/// Heat stored for each degree, such as "6 kWh/K" or "11400 Btu/degF".
#[derive(JsonSchema)]
#[serde(transparent)]
pub(super) struct HeatCapacity(#[schemars(regex(pattern = spelt::<units::HeatCapacity>(Sign::Plus)))] String);

/// A time on the wall clock, such as "22:00" or "10 pm".
#[derive(JsonSchema)]
#[serde(transparent)]
pub(super) struct Clock(
    #[schemars(regex(
        pattern = r"^\s*(([01]?[0-9]|2[0-3]):[0-5][0-9]|(0?[1-9]|1[0-2])(:[0-5][0-9])?\s*[AaPp][Mm])\s*$"
    ))]
    String,
);

/// A day of the calendar, such as "2026-03-15"; with its month by name, "15 March 2026" too.
#[derive(JsonSchema)]
#[serde(transparent)]
pub(super) struct CalendarDay(#[schemars(regex(pattern = day_spelt()))] String);

fn day_spelt() -> String {
    let (month, day) = ("[A-Za-z]{3,9}", "[0-9]{1,2}(st|nd|rd|th)?");
    format!(
        r"^\s*([0-9]{{4}}-[0-9]{{2}}-[0-9]{{2}}|({day}[-. ]+{month}|{month}[-. ]+{day})[-., ]+[0-9]{{4}})\s*$"
    )
}

/// A day of the year, month first: "01-10".
#[derive(JsonSchema)]
#[serde(transparent)]
pub(super) struct Day(#[schemars(regex(pattern = r"^\s*[0-9]{1,2}-[0-9]{1,2}\s*$"))] String);

/// An amount and what it is for, such as "2.49 $/gal" or "18.4 c/kWh".
#[derive(JsonSchema)]
#[serde(transparent)]
pub(super) struct Money(#[schemars(regex(pattern = r"^[^/]*[0-9][^/]*/.+$"))] String);

/// An amount of a fuel, such as "500 kWh" or "300 gal".
#[derive(JsonSchema)]
#[serde(transparent)]
pub(super) struct Amount(
    #[schemars(regex(pattern = r"^\s*\+?[0-9.,]+([eE][+-]?[0-9]+)?\s*[^0-9\s].*$"))] String,
);
/// An amount of money, such as "14500 $".
#[derive(JsonSchema)]
#[serde(transparent)]
pub(super) struct Sum(#[schemars(regex(pattern = r"^[^/]*[0-9][^/]*$"))] String);

/// A span of whole years, such as "15 years".
#[derive(JsonSchema)]
#[serde(transparent)]
pub(super) struct Span(#[schemars(regex(pattern = spelt::<units::Years>(Sign::Plus)))] String);

/// A month or a day of the calendar, such as "2026-03" or "2026-03-15".
#[derive(JsonSchema)]
#[serde(transparent)]
pub(super) struct CalendarDate(#[schemars(regex(pattern = r"^\s*[0-9]{4}-[0-9]{2}(-[0-9]{2})?\s*$"))] String);

/// How a price or a cost is known.
#[derive(JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(super) enum HowKnown {
    /// It was paid.
    Bill,
    /// Somebody offered it.
    Quote,
    /// It stands in print.
    Published,
    /// Somebody guessed.
    Guess,
}
