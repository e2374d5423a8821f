//! Words for hours that no thermometer sent, and the pieces that all words for suspicions share.
//!
//! Start at [`drop_out`].

use super::figures::{Measure, grouped};
use crate::calendar::TYPICAL_YEAR;
use crate::weather::quality::{Cycle, Degree, Edge, Filling};
use chrono::{Datelike, NaiveDate, NaiveDateTime};

/// The jump, K, and how many there are.
pub(super) fn drop_out(
    at: NaiveDateTime,
    hours: usize,
    (jump_k, times): (f64, usize),
    measure: Measure,
) -> String {
    format!(
        "from {} the temperature {} by {} in one hour and comes back after {}{}, as when a sensor drops out or a \
         number stands for missing: leave such hours empty",
        hour(at),
        if jump_k < 0.0 { "falls" } else { "rises" },
        kelvin_words(jump_k.abs(), measure),
        count(hours, "hour"),
        more(times, "the largest")
    )
}

/// The temperature, °C, and how many such runs there are.
pub(super) fn stuck(at: NaiveDateTime, hours: usize, (c, times): (f64, usize), measure: Measure) -> String {
    format!(
        "from {} it is {} for {} on end{}, as when a sensor is stuck",
        hour(at),
        measure.temperature_words(c),
        count(hours, "hour"),
        more(times, "the longest")
    )
}

pub(super) fn stuck_often(at: NaiveDateTime, times: usize, hours: usize) -> String {
    format!(
        "{} stretches of half a day or more at one temperature come to {} together (the longest from {}), more than \
         weather brings: does the sensor stick, or were hours filled with the last value? Leave such hours empty",
        grouped(times as f64, 0),
        count(hours, "hour"),
        hour(at)
    )
}

pub(super) fn stuck_daily(hour: usize, hours: usize, days: usize) -> String {
    format!(
        "on {} the temperature at {hour:02}:00 has been the very same for {hours} hours or more: does the sensor stick, \
         or were hours filled with the last value? Leave such hours empty",
        count(days, "day")
    )
}

pub(super) fn upside_down(degree: Degree, at: NaiveDateTime, days: usize) -> String {
    format!(
        "{}, first {}, are warmer by night than by day and never below 0 {}: were minus signs lost? Take the file \
         again from its source; hours of hard frost would count as mild ones",
        count(days, "day"),
        day(at.date()),
        symbol(degree)
    )
}

pub(super) fn thrown_back(
    degree: Degree,
    (at, until): (NaiveDateTime, NaiveDateTime),
    times: usize,
) -> String {
    format!(
        "from {} to {} the temperature comes down to 0 {} {} and is thrown back there, where it would go on smoothly \
         below it: were minus signs lost? Take the file again from its source; hours of frost would count as mild ones",
        hour(at),
        hour(until),
        symbol(degree),
        count(times, "time"),
    )
}

pub(super) fn bins_of_no_year(hours: f64) -> String {
    format!(
        "its bins hold {} hours, not the 8,760 of a year: are they of a season, or are bins missing? All energy and cost \
         are of these hours alone",
        grouped(hours, 0)
    )
}

pub(super) fn floor_at_zero(
    degree: Degree,
    at: NaiveDateTime,
    visits: usize,
    months: Option<usize>,
) -> String {
    let where_ = match months {
        None => "in all the year".to_owned(),
        Some(1) => format!("in the whole of {}", at.format("%B")),
        Some(months) => format!("in {months} months, first {},", at.format("%B")),
    };
    format!(
        "{where_} no hour is below 0 {}, though the temperature comes down to it {} and turns there, first {}: were \
         minus signs lost, or values below 0 cut off? Take the file again from its source; hours of hard frost \
         would count as mild ones",
        symbol(degree),
        count(visits, "time"),
        hour(at)
    )
}

pub(super) fn stretch_of_other_unit(
    (at, hours): (NaiveDateTime, usize),
    (looks_like, written): (Degree, Degree),
    jump_k: f64,
    at_edge: Option<Edge>,
) -> String {
    let other = match written {
        Degree::Fahrenheit => Degree::Celsius,
        Degree::Celsius => Degree::Fahrenheit,
    };
    // Hours that look like what the column's name says were in it before they were put into it.
    let (look, way_out) = match looks_like == written {
        false => (
            format!("look like {} among {}", symbol(other), symbol(written)),
            format!("Write those hours in {}, as the column's name says", symbol(written)),
        ),
        true => (
            format!("look as if put from {} into {} twice", symbol(other), symbol(written)),
            "Take them again from the source".to_owned(),
        ),
    };
    let jump = match written {
        Degree::Celsius => jump_k,
        Degree::Fahrenheit => jump_k * 1.8,
    };
    let days = hours as f64 / 24.0;
    format!(
        "{} from {} on {look}: at their {} the temperature {} by {} {} in one hour, and it would go on smoothly {} \
         {}. {way_out}",
        if hours >= 48 { format!("{} days", grouped(days, 0)) } else { count(hours, "hour") },
        hour(at),
        if at_edge == Some(Edge::Beginning) { "end" } else { "beginning" },
        if jump < 0.0 { "falls" } else { "rises" },
        grouped(jump.abs(), 0),
        symbol(written),
        if at_edge.is_some() { "there" } else { "at both ends" },
        if looks_like == written { "once put back" } else { "in the other unit" }
    )
}

pub(super) fn filled_rows(every: usize, by: Filling) -> String {
    let how = match by {
        Filling::Repeated => format!("each value stands {every} times"),
        Filling::Line => {
            format!("between every {} hour and the next they lie on a straight line", ordinal(every))
        }
    };
    format!(
        "its hours were made of rows every {every} hours ({how}), so that highs and lows of the days are cut off: the \
         coldest hours were colder. Take a source that has every hour"
    )
}

fn ordinal(n: usize) -> String {
    match n {
        2 => "second".to_owned(),
        3 => "third".to_owned(),
        _ => format!("{n}th"),
    }
}

pub(super) fn hour_of_day(found: f64, usual: (f64, f64), by: Cycle) -> String {
    // To the quarter of an hour: the wave of a mean day says no more.
    let clock = |hours: f64| {
        let quarters = (hours.rem_euclid(24.0) * 4.0).round() % 96.0;
        format!("{:02}:{:02}", (quarters / 4.0).floor(), quarters % 4.0 * 15.0)
    };
    format!(
        "{} about {} standard time, where {} to {} would be right: are the hours in UTC, of another zone, or were \
         they shifted though they were local? Say the file's clock and the place's zone (site.weather_clock with \
         site.time_zone, or --clock with --time-zone)",
        match by {
            Cycle::Sun => "the sun stands in its middle",
            Cycle::Temperature => "the days are warmest",
            Cycle::Morning => "at the equinox the mornings warm up",
        },
        clock(found),
        clock(usual.0),
        clock(usual.1)
    )
}

pub(super) fn symbol(degree: Degree) -> &'static str {
    match degree {
        Degree::Celsius => "\u{b0}C",
        Degree::Fahrenheit => "\u{b0}F",
    }
}

pub(super) fn more(times: usize, largest: &str) -> String {
    if times > 1 { format!(" ({largest} of {times})") } else { String::new() }
}

pub(super) fn count(number: usize, what: &str) -> String {
    let plural = if number == 1 { "" } else { "s" };
    format!("{} {what}{plural}", grouped(number as f64, 0))
}

pub(super) fn kelvin_words(difference_k: f64, measure: Measure) -> String {
    let unit = measure.pick("\u{b0}F", "K");
    format!("{}\u{a0}{unit}", grouped(measure.difference(difference_k), 1))
}

pub(super) fn hour(at: NaiveDateTime) -> String {
    format!("{} {}", day(at.date()), at.format("%H:%M"))
}

/// Typical years have no number.
pub(super) fn day(at: NaiveDate) -> String {
    at.format(if at.year() == TYPICAL_YEAR { "%-d %B" } else { "%-d %B %Y" }).to_string()
}
