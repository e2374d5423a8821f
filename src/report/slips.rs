//! Numbers that are seldom so, in words.
//!
//! Start at [`slip`].

use super::figures::{Measure, grouped};
use crate::comparison::slip::Slip;

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
        Slip::MoreFloorThanHouse { zones_m2, house_m2 } => format!(
            "PLEASE CHECK floor_area: the zones have {} together, the house {}. Give the house all of its heated \
             floor.",
            measure.area_words(*zones_m2),
            measure.area_words(*house_m2)
        ),
        Slip::HighHspf2 { machine, hspf2 } => format!(
            "PLEASE CHECK hspf2 of {machine}: {} is better than any label known here. Is it the SEER2?",
            grouped(*hspf2, 1)
        ),
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
    }
}
