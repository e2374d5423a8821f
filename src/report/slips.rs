//! Numbers that are seldom so, in words.
//!
//! Start at [`slip`].

use super::figures::{Measure, grouped};
use crate::comparison::slip::Slip;
use crate::comparison::tenfold::Tenfold;
use crate::units::{UnitSystem, kwh_to_btu};
use crate::weather::quality::Degree;

/// One slip as a sentence that says what to look at.
pub fn slip(found: &Slip, measure: Measure) -> String {
    let degrees = |celsius: &f64| measure.temperature_words(*celsius);
    match found {
        Slip::SetBackWarmer { zone, set_point_c, ordinary_c } => format!(
            "PLEASE CHECK set_back of {zone}: {} is warmer than its ordinary set point of {}. Did you mean it \
             the other way round?",
            degrees(set_point_c),
            degrees(ordinary_c)
        ),
        Slip::SetBackCold { zone, set_point_c } => format!(
            "PLEASE CHECK set_back of {zone}: {} is colder than people ordinarily let a lived-in room become. Is \
             the unit right?",
            degrees(set_point_c)
        ),
        Slip::LargeSiteOffset { kelvin } => format!(
            "PLEASE CHECK site_offset: {} is added to every outdoor hour. It is the house's difference from the \
             weather station, about 3.5 °F colder for each 1,000 ft higher (6.4 K for 1,000 m), not a temperature.",
            measure.difference_words(*kelvin)
        ),
        Slip::MoreFloorThanHouse { zones_m2, house_m2 } => format!(
            "PLEASE CHECK floor_area: the zones have {} together, the house {}. Give the house all of its heated \
             floor.",
            measure.area_words(*zones_m2),
            measure.area_words(*house_m2)
        ),
        Slip::HighLabel { machine, key, label, most, one_speed } => format!(
            "PLEASE CHECK {key} of {machine}: {} is better than any label known here, at most {} {}. Is it another \
             rating, or another machine's?",
            grouped(*label, 1),
            grouped(*most, 0),
            if *one_speed { "with one speed" } else { "of machines that turn down" }
        ),
        Slip::RowsInOtherUnit { machine, cooling, at_c, meant } => {
            rows_in_other_unit(machine, *cooling, &degrees(at_c), *meant)
        }
        Slip::PropaneOverfull { store, fill_limit } => format!(
            "PLEASE CHECK fill_limit of {store}: {} %. Propane tanks are filled to 80 % at most (NFPA 58).",
            grouped(100.0 * fill_limit, 0)
        ),
        Slip::HighSpike { fuel, spike, times } => format!(
            "PLEASE CHECK the spike “{spike}” of {fuel}: {} times the ordinary price. 2 doubles it.",
            grouped(*times, 1)
        ),
        Slip::WarmLockout { option, zone, lockout_c } => format!(
            "PLEASE CHECK compressor_lockout of “{option}”, {zone}: the heat pump stays off whenever it is colder \
             than {} outdoors, when it would heat well. Is the unit right?",
            degrees(lockout_c)
        ),
        Slip::WarmCutOut { .. } | Slip::FiguresBelowCutOut { .. } | Slip::ColdCoolingRow { .. } => {
            off_or_cold(found, measure)
        }
    }
}

fn off_or_cold(found: &Slip, measure: Measure) -> String {
    let degrees = |celsius: &f64| measure.temperature_words(*celsius);
    match found {
        Slip::FiguresBelowCutOut { machine, at_c, coldest_c } => format!(
            "PLEASE CHECK cut_out of {machine}: it would be off at {} and colder, but its figures go down to {}, and makers \
             give none where a machine is off. Is a minus sign missing, or the unit wrong?",
            degrees(at_c),
            degrees(coldest_c)
        ),
        Slip::ColdCoolingRow { machine, at_c } => format!(
            "PLEASE CHECK the cooling rows of {machine}: one stands at {}, colder than it is when a house is cooled. Is a \
             digit wrong, or is it in °C?",
            degrees(at_c)
        ),
        Slip::WarmCutOut { key, machine, at_c } => format!(
            "PLEASE CHECK {key} of {machine}: it would be off whenever it is not warmer than {} outdoors. Makers \
             stop theirs between about \u{2212}30 and 35 °F (\u{2212}35 and 2 °C). Is the sign or the unit wrong?",
            degrees(at_c)
        ),
        _ => String::new(),
    }
}

fn rows_in_other_unit(machine: &str, cooling: bool, at: &str, meant: Degree) -> String {
    let (rows, hardly) = match (cooling, meant) {
        (false, Degree::Fahrenheit) => ("heating", "warmer than any hour in which a house is heated"),
        (false, Degree::Celsius) => ("heating", "so the map says nothing of mild weather"),
        (true, _) => ("cooling", "colder than any hour in which a house is cooled"),
    };
    let unit = if meant == Degree::Celsius { "°C" } else { "°F" };
    format!(
        "PLEASE CHECK the {rows} rows of {machine}: the warmest stands at {at}, {hardly}. Are they in {unit}?"
    )
}

/// One power that such a machine hardly has, with what may have been meant.
pub fn tenfold(found: &Tenfold, measure: Measure) -> String {
    let words = |kw: f64| if found.draw { watts(kw, 3) } else { heat(kw, measure) };
    let (low, high) = found.ordinary_kw;
    // What is ordinary is rough: 67 W, not 66.8 W.
    let bound = |kw: f64| if found.draw { watts(kw, 2) } else { words(kw) };
    let ordinary = if low > 0.0 {
        format!("{} to {}", bound(low), bound(high))
    } else {
        format!("up to {}", bound(high))
    };
    let meant = found.meant_kw().map_or_else(
        || {
            format!(
                "Are its digits and its unit right ({})?",
                if found.draw { "W or kW" } else { "Btu/h, kBtu/h or kW" }
            )
        },
        |kw| format!("Is it {}?", words(kw)),
    );
    format!(
        "PLEASE CHECK {} of {}: {}, where such machines ordinarily have {ordinary}. {meant}",
        found.key,
        found.machine,
        words(found.kw)
    )
}

/// Heat in the unit that a label has it in.
pub(super) fn heat(kw: f64, measure: Measure) -> String {
    match measure.0 {
        UnitSystem::Us => format!("{} Btu/h", significant(kwh_to_btu(kw), 3)),
        UnitSystem::Si => watts(kw, 3),
    }
}

fn watts(kw: f64, digits: i32) -> String {
    match kw < 1.0 {
        true => format!("{} W", significant(1000.0 * kw, digits)),
        false => format!("{} kW", significant(kw, digits)),
    }
}

fn significant(x: f64, digits: i32) -> String {
    let last = x.abs().log10().floor() as i32 - (digits - 1);
    let step = 10f64.powi(last);
    let text = grouped((x / step).round() * step, (-last).max(0) as usize);
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}
