//! Words for what looks wrong with the weather.
//!
//! Start at [`words`].

use super::figures::{Measure, grouped};
use crate::calendar::TYPICAL_YEAR;
use crate::weather::labels::Labels;
use crate::weather::quality::{Bound, Cycle, Flag};
use chrono::{Datelike, NaiveDate, NaiveDateTime};

/// A suspicion in words; each ends with what was done about it: nothing.
pub fn words(flag: &Flag, measure: Measure) -> String {
    format!("Check the weather file: {}. Nothing of it was changed.", suspicion(flag, measure))
}

/// What is wrong with the labels of rows, and what was made of them.
pub fn labels(labels: &Labels) -> String {
    let time = |at: &NaiveDateTime| hour(*at);
    let told = match labels {
        Labels::Duplicated { at, times } => format!(
            "{} with a label that is there before, first {}; the mean was taken",
            count(*times, "row"),
            time(at)
        ),
        Labels::Unsorted { at, times } => format!(
            "the rows go back in time {}, first at {}; they were put into order",
            count(*times, "time"),
            time(at)
        ),
        Labels::DaylightSaving { skipped, doubled, times } => format!(
            "{} is missing and {} is there twice{}: the labels follow a clock with daylight saving, so that all \
             summer is an hour late; hours must be in standard time all year. Nothing of it was changed",
            time(skipped),
            time(doubled),
            if *times > 1 { format!(" (the first of {times})") } else { String::new() }
        ),
    };
    format!("Check the weather file: {told}.")
}

fn suspicion(flag: &Flag, measure: Measure) -> String {
    match flag {
        Flag::DropOut { at, hours, jump_k, times } => format!(
            "from {} the temperature {} by {} in one hour and comes back after {}{}, as when a sensor drops out",
            hour(*at),
            if *jump_k < 0.0 { "falls" } else { "rises" },
            kelvin(jump_k.abs(), measure),
            count(*hours, "hour"),
            more(*times, "the largest")
        ),
        Flag::Stuck { at, hours, temperature_c, times } => format!(
            "from {} it is {} for {} on end{}, as when a sensor is stuck",
            hour(*at),
            measure.temperature_words(*temperature_c),
            count(*hours, "hour"),
            more(*times, "the longest")
        ),
        Flag::RepeatedDays { first, again, days } => format!(
            "{} {} an earlier one hour for hour, first {} that of {}",
            count(*days, "day"),
            if *days == 1 { "repeats" } else { "repeat" },
            day(*again),
            day(*first)
        ),
        Flag::Impossible { at, temperature_c, limit_c, by, hours } => {
            impossible(*at, *temperature_c, *limit_c, *by, *hours, measure)
        }
        Flag::Smoothed { day_to_day_k, daily_spread_k } => format!(
            "the days hardly differ (from one to the next by {}, within a day by {}), as in climate normals or \
             averages, which have no cold spells; it needs the hours of one year",
            kelvin(*day_to_day_k, measure),
            kelvin(*daily_spread_k, measure)
        ),
        Flag::ClockShift { hours, by } => format!(
            "in summer the {} comes {} h {} than in winter, as when summer hours are labelled by the clock; hours \
             must be in standard time all year",
            match by {
                Cycle::Sun => "sun",
                Cycle::Temperature => "morning",
            },
            grouped(hours.abs(), 1),
            if *hours > 0.0 { "later" } else { "earlier" }
        ),
    }
}

fn impossible(at: NaiveDateTime, c: f64, limit_c: f64, by: Bound, hours: usize, measure: Measure) -> String {
    let beyond = if c < limit_c { "colder" } else { "warmer" };
    let why = match by {
        Bound::Latitude => "this latitude and height have ever had",
        Bound::OwnYear => "the rest of this year makes likely",
    };
    format!(
        "{} is {}, {beyond} than {why} ({}); {} {} beyond that",
        hour(at),
        measure.temperature_words(c),
        measure.temperature_words(limit_c),
        count(hours, "hour"),
        if hours == 1 { "lies" } else { "lie" }
    )
}

fn more(times: usize, largest: &str) -> String {
    if times > 1 { format!(" ({largest} of {times})") } else { String::new() }
}

fn count(number: usize, what: &str) -> String {
    let plural = if number == 1 { "" } else { "s" };
    format!("{} {what}{plural}", grouped(number as f64, 0))
}

fn kelvin(difference_k: f64, measure: Measure) -> String {
    let unit = measure.pick("\u{b0}F", "K");
    format!("{}\u{a0}{unit}", grouped(measure.difference(difference_k), 1))
}

fn hour(at: NaiveDateTime) -> String {
    format!("{} {}", day(at.date()), at.format("%H:%M"))
}

/// Typical years have no number.
fn day(at: NaiveDate) -> String {
    at.format(if at.year() == TYPICAL_YEAR { "%-d %B" } else { "%-d %B %Y" }).to_string()
}
