//! Words for what looks wrong with the weather.
//!
//! Start at [`words`].

use super::figures::{Measure, grouped};
use super::flag_hours::{
    bins_of_no_year, count, day, drop_out, filled_rows, floor_at_zero, hour, hour_of_day, kelvin_words,
    stretch_of_other_unit, stuck, stuck_daily, stuck_often, symbol, thrown_back, upside_down,
};
use crate::units::celsius_to_fahrenheit;
use crate::weather::labels::Labels;
use crate::weather::quality::{Bound, Cycle, Degree, Flag};
use chrono::NaiveDateTime;

/// A suspicion in words; each ends with what was done about it, which is nothing but where hours are missing.
pub fn words(flag: &Flag, measure: Measure) -> String {
    let done = match flag {
        Flag::Lacking { .. } => "The hours were filled from their neighbours",
        _ => "Nothing of it was changed",
    };
    format!("Check the weather file: {}. {done}.", suspicion(flag, measure))
}

/// What is wrong with the labels of rows, and what was made of them.
pub fn labels(labels: &Labels, measure: Measure) -> String {
    let time = |at: &NaiveDateTime| hour(*at);
    let told = match labels {
        Labels::Duplicated { at, times, apart } => format!(
            "{} with a label that is there before, first {}; the mean was taken{}",
            count(*times, "row"),
            time(at),
            apart.map_or_else(String::new, |(at, kelvin)| match kelvin > 0.0 {
                true => format!(
                    ", though they are up to {} apart, at {}: take out those that are wrong",
                    kelvin_words(kelvin, measure),
                    time(&at)
                ),
                false => ", and they are all alike".to_owned(),
            })
        ),
        Labels::Unsorted { at, times } => format!(
            "the rows go back in time {}, first at {}; they were put into order",
            if *times == 1 { "once".to_owned() } else { count(*times, "time") },
            time(at)
        ),
        Labels::DaylightSaving { skipped, doubled, times } => format!(
            "{} is missing{}: the labels follow a clock with daylight saving, so that all \
             summer is an hour late; hours must be in standard time all year. Nothing of it was changed. The way \
             out: have the source give the hours in standard time, or in UTC (then site.weather_clock = \
             \"utc\" with site.time_zone, or --clock utc with --time-zone), or each time with its offset, as in \
             2023-07-01T12:00-05:00",
            time(skipped),
            twice(doubled.as_ref(), *times)
        ),
    };
    format!("Check the weather file: {told}.")
}

fn twice(doubled: Option<&NaiveDateTime>, times: usize) -> String {
    let first = if times > 1 { format!(" (the first of {times})") } else { String::new() };
    match doubled {
        Some(doubled) => format!(" and {} is there twice{first}", hour(*doubled)),
        None => format!("{first}, where clocks are put forward, and none is there twice in autumn"),
    }
}

fn suspicion(flag: &Flag, measure: Measure) -> String {
    match flag {
        Flag::DropOut { at, hours, jump_k, times } => drop_out(*at, *hours, (*jump_k, *times), measure),
        Flag::Stuck { at, hours, temperature_c, times } => {
            stuck(*at, *hours, (*temperature_c, *times), measure)
        }
        Flag::StuckOften { at, times, hours } => stuck_often(*at, *times, *hours),
        Flag::StuckDaily { hour, hours, days } => stuck_daily(*hour, *hours, *days),
        Flag::UpsideDown { degree, at, days } => upside_down(*degree, *at, *days),
        Flag::ThrownBack { degree, at, until, times } => thrown_back(*degree, (*at, *until), *times),
        Flag::FloorAtZero { degree, at, visits, months } => floor_at_zero(*degree, *at, *visits, *months),
        Flag::StretchOfOtherUnit { at, hours, looks_like, written, jump_k, at_edge } => {
            stretch_of_other_unit((*at, *hours), (*looks_like, *written), *jump_k, *at_edge)
        }
        Flag::FilledRows { every, by } => filled_rows(*every, *by),
        Flag::BinsOfNoYear { hours } => bins_of_no_year(*hours),
        Flag::HourOfDay { hour, usual, by } => hour_of_day(*hour, *usual, *by),
        Flag::RepeatedDays { first, again, days } => format!(
            "{} {} an earlier one hour for hour, first {} that of {}",
            count(*days, "day"),
            if *days == 1 { "repeats" } else { "repeat" },
            day(*again),
            day(*first)
        ),
        Flag::RepeatedMonths { first, again, months } => format!(
            "{} {} of another year hour for hour, first {} that of {}, as when a file was copied; its winters \
             must not count twice",
            count(*months, "month"),
            if *months == 1 { "repeats that" } else { "repeat those" },
            again.format("%B %Y"),
            first.format("%B %Y")
        ),
        Flag::Lacking { first_year, missing, hours, times } => {
            lacking(*first_year, (*missing, *hours), *times)
        }
        Flag::OtherUnit { year, looks_like, warm_end_c } => other_unit(*year, *looks_like, *warm_end_c),
        Flag::MissingCode { code, degree, at, hours } => missing_code(*code, *degree, *at, *hours),
        Flag::MonthsApart { months, means_c } => months_apart(*months, *means_c, measure),
        Flag::WrongSeason { south, warmer_k } => wrong_season(*south, *warmer_k, measure),
        Flag::Impossible { at, temperature_c, limit_c, by, hours } => {
            impossible(*at, *temperature_c, *limit_c, *by, *hours, measure)
        }
        Flag::Smoothed { day_to_day_k, daily_spread_k } => format!(
            "the days hardly differ (from one to the next by {}, within a day by {}), as in climate normals or \
             averages, which have no cold spells; it needs the hours of one year",
            kelvin_words(*day_to_day_k, measure),
            kelvin_words(*daily_spread_k, measure)
        ),
        Flag::NoCycle { cycle_k, day_to_day_k } => no_cycle(*cycle_k, *day_to_day_k, measure),
        Flag::ClockShift { hours, by } => format!(
            "in summer the {} comes {} h {} than in winter, as when summer hours are labelled by the clock; hours \
             must be in standard time all year. Have the source give them in standard time or in UTC",
            if *by == Cycle::Sun { "sun" } else { "morning" },
            grouped(hours.abs(), 1),
            if *hours > 0.0 { "later" } else { "earlier" }
        ),
    }
}

fn no_cycle(cycle_k: f64, day_to_day_k: f64, measure: Measure) -> String {
    format!(
        "day and night are alike (the mean day goes up and down by {}) while the days differ (from one to the next by \
         {}), as in running means over a day, which have no cold nights, or in dew points: give the temperatures of \
         the hours as they were measured",
        kelvin_words(cycle_k, measure),
        kelvin_words(day_to_day_k, measure)
    )
}

fn lacking(first_year: i32, (missing, of): (usize, usize), times: usize) -> String {
    format!(
        "July {first_year} to June {} lacks {} of its {} hours, more than 5 %{}: no option is run on such a year, and \
         its coldest hour, which counts among the record's lows, may be among those that are missing",
        first_year.saturating_add(1),
        grouped(missing as f64, 0),
        grouped(of as f64, 0),
        if times > 1 { format!(" (the first of {times} such years)") } else { String::new() }
    )
}

/// Both units are named whatever the job's are: the question is which of them the file is in.
fn other_unit(year: Option<i32>, looks_like: Degree, warm_end_c: f64) -> String {
    let (read, meant, ask) = match looks_like {
        Degree::Celsius => ("\u{b0}F", "\u{b0}C", "is this degC? Then its name must end in _degC"),
        Degree::Fahrenheit => ("\u{b0}C", "\u{b0}F", "is this degF? Then its name must end in _degF"),
    };
    let number = match looks_like {
        Degree::Celsius => celsius_to_fahrenheit(warm_end_c),
        Degree::Fahrenheit => warm_end_c,
    };
    format!(
        "{} no place has, with 99 % of its hours below {} {read}; in {meant} the same numbers would be ordinary: {ask}",
        year.map_or_else(
            || "the column of temperatures, read in that unit, is a year that".to_owned(),
            |year| { format!("the temperatures of {year} are of a year that") }
        ),
        grouped(number, 0)
    )
}

fn missing_code(code: f64, degree: Degree, at: NaiveDateTime, hours: usize) -> String {
    let unit = symbol(degree);
    let code = grouped(code, usize::from(code.fract() != 0.0));
    format!(
        "{} of {code} {unit} beside far warmer ones, first {}: does {code} mean missing? Then leave those cells \
         empty, so that no hour is taken to be that cold",
        count(hours, "hour"),
        hour(at)
    )
}

fn months_apart(months: (u8, u8), means_c: (f64, f64), measure: Measure) -> String {
    format!(
        "the mean of {} is {}, that of {} {}: farther apart than the rest of the year makes likely. Are some \
         months in another unit, in another's place or without their minus signs? Look at the months in the file, and give all of them \
         in one unit and in their own place",
        month(months.0),
        measure.temperature_words(means_c.0),
        month(months.1),
        measure.temperature_words(means_c.1)
    )
}

fn wrong_season(south: Option<bool>, warmer_k: f64, measure: Measure) -> String {
    let (warm, cold) = match south {
        Some(true) => ("April to September", "October to March"),
        _ => ("October to March", "April to September"),
    };
    let (why, way_out) = match south {
        Some(true) => ("but the place is south of the equator", ""),
        Some(false) => ("but the place is north of the equator", ""),
        None => (
            "as only south of the equator",
            ". If the place is there, say its latitude in the file (# latitude: -36.8), or its clock: site.time_zone in the \
             job, --time-zone of `weather`",
        ),
    };
    format!(
        "{warm} is {} warmer than {cold}, {why}: are the months in another's place? Give each hour the date on \
         which it was measured{way_out}",
        kelvin_words(warmer_k, measure)
    )
}

fn month(number: u8) -> &'static str {
    chrono::Month::try_from(number).map_or("", |month| month.name())
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
