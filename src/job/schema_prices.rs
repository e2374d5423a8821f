//! The JSON Schema of the prices of one fuel.
//!
//! Beside `price_reader` and `rate_reader`. Start at [`FuelPrice`].

// The fields are read by the schema's derivation, never by the program.
#![allow(dead_code)]

use super::schema_values::{Amount, Clock, Day, HowKnown, Line, Money};
use schemars::JsonSchema;

/// The prices of one fuel; at most one of price, price_by_month, price_by_season and tier, which hold where no season
/// and no period does.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(extend("anyOf" = [
    {"required": ["price"]}, {"required": ["price_by_month"]}, {"required": ["price_by_season"]},
    {"required": ["tier"]}, {"required": ["period"]}, {"required": ["season"]}
]))]
pub(super) struct FuelPrice {
    /// Due whatever is used, such as "36 $/month" or "432 $/year".
    fixed: Option<Money>,
    /// The same in every month.
    price: Option<Money>,
    /// One for each month.
    price_by_month: Option<Months>,
    /// The price of summer and the winter's peak, in between in even steps.
    price_by_season: Option<SummerAndPeak>,
    /// Prices by how much has been used in the month, for fuels with a meter; limits rise, the last entry
    /// has none.
    #[schemars(length(min = 1))]
    tier: Option<Vec<Tier>>,
    /// Hours of the week with prices of their own, for fuels with a meter; they do not overlap.
    period: Option<Vec<Period>>,
    /// Spans of days with prices of their own; they do not overlap.
    season: Option<Vec<Season>>,
    /// Whether prices below 0 are meant.
    negative_prices: Option<bool>,
    /// For each kW of the month's largest hour, such as "8.50 $/kW"; electricity only.
    demand: Option<Money>,
    /// Named charges on energy.
    rider: Option<Vec<Rider>>,
    /// Share of everything on the bill that is added, such as 0.05.
    #[schemars(range(min = 0.0, max = 0.5))]
    tax: Option<f64>,
    /// Days that count as weekend, such as "07-04".
    #[schemars(length(min = 1))]
    holidays: Option<Vec<Day>>,
    /// Of the tank, such as "95 $/year"; for fuels that come by truck.
    rent: Option<Money>,
    /// What is added to the price by how much is used in a year, for fuels that come by truck; limits
    /// rise, the last entry has none.
    #[schemars(length(min = 1))]
    by_yearly_use: Option<Vec<YearlyUse>>,
    /// A rate of its own for heating, for options that heat with electricity; riders, tax and holidays
    /// are those above.
    heating: Option<HeatingRate>,
    /// Where the prices come from: a bill, a quote, a guess.
    source: Option<Line>,
    /// How they are known.
    basis: Option<HowKnown>,
    /// Named times at which the price is higher (or lower).
    spike: Option<Vec<Spike>>,
    /// Mean prices of winters gone by, shown in the map of two prices.
    past: Option<Vec<Past>>,
    /// How the price departs from all this by chance, in drawn winters; spikes above are then left out.
    moves: Option<Moves>,
}

/// What is known, or believed, of how a price moves by chance.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(extend("dependentRequired" = {
    "half_life_from": ["half_life_to"], "half_life_to": ["half_life_from"],
    "spike_winters": ["of_winters"], "of_winters": ["spike_winters"]
}, "not" = { "required": ["level_spread", "volatility"] }))]
struct Moves {
    /// Standard deviation of the logarithm of its slow level.
    #[schemars(range(min = 0.0, max = 1.0))]
    level_spread: Option<f64>,
    /// In its place: of the level's change in a year, were there nothing to bring it back.
    #[schemars(range(min = 0.0, max = 2.0))]
    volatility: Option<f64>,
    /// Years in which half of a departure is gone: not fewer than this.
    #[schemars(range(min = 0.1, max = 50.0))]
    half_life_from: Option<f64>,
    /// And not more than this.
    #[schemars(range(min = 0.1, max = 50.0))]
    half_life_to: Option<f64>,
    /// Winters with a spike,
    #[schemars(range(min = 0, max = 200))]
    spike_winters: Option<u32>,
    /// among so many winters that were looked at.
    #[schemars(range(min = 0, max = 200))]
    of_winters: Option<u32>,
    /// Mean of the logarithm of a spike's factor on the price.
    #[schemars(range(min = 0.0, max = 2.0))]
    spike_size: Option<f64>,
    /// Weeks in which half of a spike is gone.
    #[schemars(range(min = 0.5, max = 26.0))]
    spike_half_life: Option<f64>,
}

/// A rate of its own for heating.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
struct HeatingRate {
    /// Due whatever is used, such as "5 $/month".
    fixed: Option<Money>,
    /// The same in every month.
    price: Option<Money>,
    /// One for each month.
    price_by_month: Option<Months>,
    /// The price of summer and the winter's peak, in between in even steps.
    price_by_season: Option<SummerAndPeak>,
    /// Prices by how much has been used in the month.
    #[schemars(length(min = 1))]
    tier: Option<Vec<Tier>>,
    /// Hours of the week with prices of their own.
    period: Option<Vec<Period>>,
    /// Spans of days with prices of their own.
    season: Option<Vec<Season>>,
    /// Hours in which the supplier switches the machines off; backup heat is then on the other meter.
    interrupted: Option<Vec<ClockSpan>>,
    /// Where the prices come from.
    source: Option<Line>,
    /// How they are known.
    basis: Option<HowKnown>,
}

/// A span of days with prices of its own; exactly one of price and tier, unless periods cover the week.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
struct Season {
    /// What it is called.
    name: Line,
    /// First day.
    from: Day,
    /// Last day, included; before `from` in the year, it crosses the new year.
    to: Day,
    /// In hours that no period covers.
    price: Option<Money>,
    /// Prices by how much has been used in the month.
    #[schemars(length(min = 1))]
    tier: Option<Vec<Tier>>,
    /// Hours of the week with prices of their own.
    period: Option<Vec<Period>>,
}

/// Hours of the week with a price of their own; exactly one of price and tier.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(extend("oneOf" = [{"required": ["price"]}, {"required": ["tier"]}]))]
struct Period {
    /// What it is called.
    name: Line,
    /// The hour at which it begins, by the clock on the wall.
    from: Clock,
    /// The hour at which it ends; at or before `from`, it crosses midnight.
    to: Clock,
    /// The days; all without it.
    days: Option<Days>,
    /// The price.
    price: Option<Money>,
    /// Prices by how much has been used in the month.
    #[schemars(length(min = 1))]
    tier: Option<Vec<Tier>>,
}

/// Hours of the week.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
struct ClockSpan {
    /// The hour at which it begins, by the clock on the wall.
    from: Clock,
    /// The hour at which it ends; at or before `from`, it crosses midnight.
    to: Clock,
    /// The days; all without it.
    days: Option<Days>,
}

#[derive(JsonSchema)]
#[serde(rename_all = "snake_case")]
enum Days {
    All,
    Weekdays,
    Weekends,
}

/// A price up to a month's use.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
struct Tier {
    /// The month's use at which it ends, counted from 0; none for the last.
    up_to: Option<Amount>,
    /// The price.
    price: Money,
}

/// A charge on energy; exactly one of price and share.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(extend("oneOf" = [{"required": ["price"]}, {"required": ["share"]}]))]
struct Rider {
    /// What the bill calls it.
    name: Line,
    /// For each unit used.
    price: Option<Money>,
    /// Of the energy charges, such as 0.03.
    #[schemars(range(min = -1.0, max = 1.0))]
    share: Option<f64>,
}

/// What is added to the price up to a year's use.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
struct YearlyUse {
    /// The year's use up to which it holds; none for the last.
    up_to: Option<Amount>,
    /// What is added.
    add: Money,
}

/// Twelve prices by the same unit.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
struct Months {
    jan: Money,
    feb: Money,
    mar: Money,
    apr: Money,
    may: Money,
    jun: Money,
    jul: Money,
    aug: Money,
    sep: Money,
    oct: Money,
    nov: Money,
    dec: Money,
}

/// Two prices by the same unit; the months between them rise and fall evenly.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
struct SummerAndPeak {
    /// From May to September.
    summer: Money,
    /// In January, not below `summer`.
    winter_peak: Money,
}

/// The mean price of a winter gone by.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
struct Past {
    /// Of the winter, the same with each fuel.
    name: Line,
    /// Of energy, on its mean.
    price: Money,
}

/// A time at which the price is higher (or lower).
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
struct Spike {
    /// What it is called.
    name: Line,
    /// First day.
    from: Day,
    /// Last day, included; before `from` in the year, it crosses the new year.
    to: Day,
    /// Factor on the price.
    #[schemars(range(min = 0.1, max = 20.0))]
    times: f64,
}
