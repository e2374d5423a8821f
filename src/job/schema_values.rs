//! The JSON Schema of single values: quantities with their units, amounts of money, times and days.
//!
//! Patterns know the spellings that the readers take; ranges are the readers' to judge. Start at
//! [`Temperature`].

// The fields are read by the schema's derivation, never by the program.
#![allow(dead_code)]

use schemars::JsonSchema;

/// A line of text.
#[derive(JsonSchema)]
#[serde(transparent)]
pub(super) struct Line(#[schemars(length(min = 1, max = 500))] String);

/// A temperature, such as "70 degF" or "21 degC".
#[derive(JsonSchema)]
#[serde(transparent)]
pub(super) struct Temperature(
    #[schemars(regex(
        pattern = r"^\s*[+-]?[0-9.,]+([eE][+-]?[0-9]+)?\s*((deg|°)?\s*[FCfc]|[Kk]|kelvin)\s*$"
    ))]
    String,
);

/// A difference of temperatures, such as "-3.5 degF" or "-2 K".
#[derive(JsonSchema)]
#[serde(transparent)]
pub(super) struct TemperatureDifference(
    #[schemars(regex(pattern = r"^\s*[+-]?[0-9.,]+([eE][+-]?[0-9]+)?\s*((deg|°)?\s*[FCfc]|[Kk])\s*$"))]
    String,
);

/// A rate of heat or electricity, such as "36000 Btu/h", "36 kBtu/h" or "10.5 kW".
#[derive(JsonSchema)]
#[serde(transparent)]
pub(super) struct Power(
    #[schemars(regex(
        pattern = r"^\s*\+?[0-9.,]+([eE][+-]?[0-9]+)?\s*([kK]?[wW]|[kK]?(BTU|Btu|btu)(/hr?|h)|(MBH|mbh)|[Tt]on)\s*$"
    ))]
    String,
);

/// An amount of energy, such as "2.6 kWh".
#[derive(JsonSchema)]
#[serde(transparent)]
pub(super) struct Energy(
    #[schemars(regex(
        pattern = r"^\s*\+?[0-9.,]+([eE][+-]?[0-9]+)?\s*([kM]?Wh|[kKM]{0,2}(BTU|Btu|btu)|therm|MJ)\s*$"
    ))]
    String,
);

/// Energy used through a year, such as "6000 kWh/year" or "500 kWh/month".
#[derive(JsonSchema)]
#[serde(transparent)]
pub(super) struct YearlyEnergy(
    #[schemars(regex(
        pattern = r"^\s*\+?[0-9.,]+([eE][+-]?[0-9]+)?\s*(kWh/(year|month)|(MMBtu|therm)/year)\s*$"
    ))]
    String,
);

/// Water used in a day, such as "50 gal/day" or "190 L/day".
#[derive(JsonSchema)]
#[serde(transparent)]
pub(super) struct WaterUse(
    #[schemars(regex(pattern = r"^\s*\+?[0-9.,]+([eE][+-]?[0-9]+)?\s*(L|l|gal)/day\s*$"))] String,
);

/// A flow of air, such as "1200 cfm" or "0.5 m3/s".
#[derive(JsonSchema)]
#[serde(transparent)]
pub(super) struct Airflow(
    #[schemars(regex(pattern = r"^\s*\+?[0-9.,]+([eE][+-]?[0-9]+)?\s*((m3|L)/s|m3/h|[Cc][Ff][Mm])\s*$"))]
    String,
);

/// An electric current, such as "60 A".
#[derive(JsonSchema)]
#[serde(transparent)]
pub(super) struct Current(
    #[schemars(regex(pattern = r"^\s*\+?[0-9.,]+([eE][+-]?[0-9]+)?\s*(A|a|amp)\s*$"))] String,
);

/// A floor area, such as "2600 ft2" or "240 m2".
#[derive(JsonSchema)]
#[serde(transparent)]
pub(super) struct Area(
    #[schemars(regex(pattern = r"^\s*\+?[0-9.,]+([eE][+-]?[0-9]+)?\s*(m2|m²|ft2|ft²|sq ?ft)\s*$"))] String,
);

/// A measure of a thing, such as "37 in" or "94 cm".
#[derive(JsonSchema)]
#[serde(transparent)]
pub(super) struct Measure(
    #[schemars(regex(pattern = r"^\s*\+?[0-9.,]+([eE][+-]?[0-9]+)?\s*(m|cm|in|ft)\s*$"))] String,
);

/// A height, such as "1150 ft" or "350 m".
#[derive(JsonSchema)]
#[serde(transparent)]
pub(super) struct Height(
    #[schemars(regex(pattern = r"^\s*[+-]?[0-9.,]+([eE][+-]?[0-9]+)?\s*(m|ft)\s*$"))] String,
);

/// Heat stored for each degree, such as "6 kWh/K" or "11400 Btu/degF".
#[derive(JsonSchema)]
#[serde(transparent)]
pub(super) struct HeatCapacity(
    #[schemars(regex(
        pattern = r"^\s*\+?[0-9.,]+([eE][+-]?[0-9]+)?\s*(k?Wh/K|kJ/K|[Bb][Tt][Uu]/(deg|°)?F)\s*$"
    ))]
    String,
);

/// A time on the wall clock, such as "22:00".
#[derive(JsonSchema)]
#[serde(transparent)]
pub(super) struct Clock(#[schemars(regex(pattern = r"^\s*([01]?[0-9]|2[0-3]):[0-5][0-9]\s*$"))] String);

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
pub(super) struct Span(
    #[schemars(regex(pattern = r"^\s*\+?[0-9.,]+([eE][+-]?[0-9]+)?\s*([Yy]ears?|[Yy]r)\s*$"))] String,
);

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
