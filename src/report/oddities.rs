//! What is seldom so and what hardly goes together, in words.
//!
//! Start at [`oddity`].

use super::figures::{MONTHS_IN_FULL, Measure, as_typed, grouped, signed, two_digits};
use crate::comparison::note::{Mismatch, Oddity};
use crate::weather::quality::Degree;

/// One oddity as a sentence that says what to look at.
pub fn oddity(found: &Oddity, measure: Measure) -> String {
    let degrees = |celsius: &f64| measure.temperature_words(*celsius);
    match found {
        Oddity::DefrostHeatNotCounted => "Not counted: heat from strips or furnace that tempers the air while a ducted heat pump defrosts, \
             because its defrost_aux is \"none\". It can cost more than the backup \
             heat shown; ask the maker."
            .into(),
        Oddity::NoFurnaceToTemper { machine, options } => {
            let options: Vec<String> = options.iter().map(|name| format!("\u{201c}{name}\u{201d}")).collect();
            format!(
                "PLEASE CHECK defrost_aux of {machine}: it is \"furnace\", but in {} no furnace stands behind it in \
                 the ducts, so nothing tempers the air while it defrosts, and no heat is counted for it. Write the \
                 power of strips that do, or \"none\".",
                options.join(", ")
            )
        }
        Oddity::OddPrice { fuel, per_unit, unit } => format!(
            "PLEASE CHECK the price of {fuel}: {} a {unit} is far from what it ordinarily costs. Is a digit \
             wrong, or the unit?",
            two_digits(*per_unit, 2)
        ),
        Oddity::OddMonthPrice { fuel, month, amount, median, unit } => format!(
            "PLEASE CHECK price_by_month of {fuel}: {} a {unit} in {}, where the other months lie around {}. Is a digit wrong?",
            as_typed(*amount),
            MONTHS_IN_FULL.get(*month).copied().unwrap_or_default(),
            two_digits(*median, 2)
        ),
        Oddity::LargeFee { fuel, key, per_month } => format!(
            "PLEASE CHECK {key} of {fuel}: {} a month is more than houses ordinarily pay. Is it the amount for a \
             year? Then its unit ends in /year.",
            grouped(*per_month, 2)
        ),
        Oddity::OddLoad { zone, kw_m2 } => format!(
            "PLEASE CHECK the design load{}: {} is far from what a floor area ordinarily needs. Is its unit right \
             (kW or kBtu/h), and the floor_area?",
            zone.as_ref().map_or_else(String::new, |zone| format!(" of {zone}")),
            measure.load_for_area(*kw_m2)
        ),
        Oddity::OddMap { machine, cold_c, warm_c, times } => format!(
            "PLEASE CHECK the capacities of {machine}: at {} it gives {} times what it gives at {}. Machines made for the \
             cold can hold their output; hardly one gives more than 1.1 times. Is the one in mild weather the rated \
             output, where the greatest is asked for?",
            degrees(cold_c),
            grouped(*times, 2),
            degrees(warm_c)
        ),
        Oddity::TemperedBeyondBank { machine, kw, bank, bank_kw } => format!(
            "PLEASE CHECK defrost_aux of {machine}: {} kW are to temper the air while it defrosts, but {bank} has only {} kW in all.",
            grouped(*kw, 2),
            grouped(*bank_kw, 2)
        ),
    }
}

/// One mismatch as a sentence that says what to look at.
pub fn mismatch(found: &Mismatch, measure: Measure) -> String {
    let degrees = |celsius: &f64| measure.temperature_words(*celsius);
    match found {
        Mismatch::OddBalance { zone, balance_c } => format!(
            "PLEASE CHECK balance_temperature of {zone}: no heat until it is colder than {} outdoors is \
             seldom so. It is where the house needs no heat, ordinarily 55 to 65 °F (13 to 18 °C), not where \
             the heat pump begins to lack.",
            degrees(balance_c)
        ),
        Mismatch::DesignOfAnotherPlace { zone, design_c, weather_c, fits } => format!(
            "PLEASE CHECK design_temperature of {zone}: {}, but in this weather it is colder than {} in 1 % of \
             the hours. Is the weather of another place{}?",
            degrees(design_c),
            degrees(weather_c),
            match fits {
                Some(Degree::Celsius) => ", or the number in °C",
                Some(Degree::Fahrenheit) => ", or the number in °F",
                None => "",
            }
        ),
        Mismatch::OtherTimeZone { zone, zone_h, weather_h } => format!(
            "PLEASE CHECK time_zone: standard time in {zone} is {} h from UTC, that of the weather file {} h. Set-backs \
             and prices by the hour go by the one, the weather by the other.",
            signed(*zone_h, halves(*zone_h)),
            signed(*weather_h, halves(*weather_h))
        ),
        Mismatch::WarmExtremeLow { extreme_low_c, coldest_c } => format!(
            "PLEASE CHECK extreme_low: {}, but this weather falls to {}, or its winters say so. Plan \
             for a colder night than that, or is a minus sign missing?",
            degrees(extreme_low_c),
            degrees(coldest_c)
        ),
        Mismatch::OddMonth(odd) => format!(
            "PLEASE CHECK monthly_{} of {}: {}, where its neighbours make about {} likely. Is it, or the month's mean in the other \
             list, a slip in typing?",
            if odd.high { "highs" } else { "lows" },
            month(odd.month),
            degrees(&odd.given_c),
            degrees(&odd.likely_c)
        ),
        Mismatch::FarFromStationHeight { site_m, station_m } => format!(
            "PLEASE CHECK elevation: the house stands at {}, the weather was measured at {}. Give site_offset, \
             about 3.5 °F colder for each 1,000 ft higher (6.4 K for 1,000 m).",
            measure.height_words(*site_m),
            measure.height_words(*station_m)
        ),
        Mismatch::ResistanceFirst { option, zone } => format!(
            "PLEASE CHECK “{option}”, {zone}: resistance heat comes before the heat pump, which then does \
             only what the resistance cannot. Name the heat pump first."
        ),
        Mismatch::LongSpike { fuel, spike, days } => format!(
            "PLEASE CHECK the spike “{spike}” of {fuel}: it holds for {days} days of the year. Do from and to \
             stand the right way round?"
        ),
    }
}

/// Decimals of hours from UTC.
fn halves(hours: f64) -> usize {
    if hours.fract() == 0.0 { 0 } else { 2 }
}

fn month(number: usize) -> &'static str {
    let month = u8::try_from(number).ok().and_then(|number| chrono::Month::try_from(number).ok());
    month.map_or("", |month| month.name())
}
