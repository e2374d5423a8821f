//! What is out of proportion, in words.
//!
//! Start at [`disproportion`].

use super::figures::{Measure, grouped};
use super::slips::heat;
use crate::comparison::proportion::{CoolingAgainst, Disproportion};

/// One disproportion as a sentence that says what to look at.
pub fn disproportion(found: &Disproportion, measure: Measure) -> String {
    let degrees = |celsius: &f64| measure.temperature_words(*celsius);
    match found {
        Disproportion::LargeForTheLoad { machine, times } => format!(
            "PLEASE CHECK {machine}: it gives {} times the design load of all that it heats. Is a digit of its input or of \
             that load wrong, or the unit of one (Btu/h, kBtu/h, W or kW)?",
            grouped(*times, 1)
        ),
        Disproportion::SmallForTheLoad { machine, zone, share } => format!(
            "PLEASE CHECK {machine}: it gives only {} % of the design load of {zone}. Is a digit of its input missing, \
             or its unit wrong (Btu/h, kBtu/h or kW)?",
            grouped(100.0 * share, 0)
        ),
        Disproportion::LargePump { machine, output_kw, times } => format!(
            "PLEASE CHECK {machine}: it gives {} at most, {} times what its zones need by design. Heat pumps are ordinarily \
             bought for 1 to 2 times that. Are kW typed for kBtu/h, or is the load too small?",
            heat(*output_kw, measure),
            grouped(*times, 1)
        ),
        Disproportion::SmallPump { machine, zone, output_kw, share } => format!(
            "PLEASE CHECK {machine}: it gives {} at most, {} % of the design load of {zone}. Is a digit missing, or the \
             unit wrong (Btu/h, kBtu/h or kW)?",
            heat(*output_kw, measure),
            grouped(100.0 * share, 0)
        ),
        Disproportion::HeatsOtherThanCools { machine, heating_kw, cooling_kw } => format!(
            "PLEASE CHECK {machine}: it heats with {} at most, but cools with {}. Ordinarily the one is 0.9 to 1.5 times \
             the other: is a digit of one wrong, or its unit (Btu/h, kBtu/h or kW)?",
            heat(*heating_kw, measure),
            heat(*cooling_kw, measure)
        ),
        Disproportion::LoadOfOtherMachines { zone, load_kw, times } => format!(
            "PLEASE CHECK design_load of {zone}: {}, but in every option {} {} times that. Is the load right, with its \
             unit (Btu/h, kBtu/h, W or kW), or the machines?",
            heat(*load_kw, measure),
            if *times > 1.0 { "some machine there gives" } else { "all machines there together give only" },
            grouped(*times, if *times > 1.0 { 0 } else { 2 })
        ),
        Disproportion::LoadThatNoneCarries { zone, load_kw, share } => format!(
            "PLEASE CHECK design_load of {zone}: {}, but no option gives more than {} % of what is needed at the design \
             temperature. Is the load right, with its unit (Btu/h, kBtu/h, W or kW)?",
            heat(*load_kw, measure),
            grouped((100.0 * share).floor(), 0)
        ),
        Disproportion::OddCooling { zone, load_kw, against } => odd_cooling(zone, *load_kw, against, measure),
        Disproportion::OddRows { machine, cold_c, warm_c, cooling } => format!(
            "PLEASE CHECK the {} rows of {machine} at {} and {}: their greatest outputs are too far apart. Is a digit or \
             the unit of one wrong?",
            if *cooling { "cooling" } else { "heating" },
            degrees(cold_c),
            degrees(warm_c)
        ),
    }
}

fn odd_cooling(zone: &str, load_kw: f64, against: &CoolingAgainst, measure: Measure) -> String {
    let beside = match against {
        CoolingAgainst::Floor(kw_m2) => {
            format!("{} is far from what a floor ordinarily needs", measure.load_for_area(*kw_m2))
        }
        CoolingAgainst::Heating(times) => {
            format!(
                "that is {} times its heating design load",
                grouped(*times, if *times < 1.0 { 2 } else { 0 })
            )
        }
        CoolingAgainst::Cooler { machine, times } => {
            format!("{machine} gives {} times that", grouped(*times, if *times < 1.0 { 2 } else { 0 }))
        }
    };
    format!(
        "PLEASE CHECK cooling_design_load of {zone}: {}, and {beside}. Is a digit wrong, or the unit (Btu/h, kBtu/h \
         or kW)? It is sensible heat alone.",
        heat(load_kw, measure)
    )
}
