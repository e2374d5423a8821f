//! Rows of a machine that stand at outdoor temperatures in the other unit: °C for °F or °F for °C.
//!
//! Only remarks; the bounds are this program's judgement. Start at `odd_outdoors`.

use super::slip::Slip;
use crate::job::{EquipmentSection, Job, MachineSection, MapSection, RowSection, UnitRowSection};
use crate::units::{Quantity, fahrenheit_to_celsius};
use crate::weather::quality::Degree;

/// Nobody heats a house when it is warmer outdoors, °C (86 °F): 47 °C is 47 °F by mistake.
const WARMEST_HEATING_C: f64 = 30.0;
/// Makers' tables of heating begin in milder weather, °F: 7 °F as the warmest is 7 °C by mistake.
const MILD_ROW_F: f64 = 30.0;
/// Makers' tables of cooling end in hotter weather, °F: 35 °F as the warmest is 35 °C by mistake.
const HOT_ROW_F: f64 = 60.0;
/// Makers' tables of cooling begin at 65 to 82 °F (from memory); houses are cooled when it is warmer outdoors than this,
/// °F: a judgement.
const COLDEST_COOLING_F: f64 = 50.0;
/// So that rounding in another unit is no question, K.
const ALIKE_K: f64 = 0.01;

/// Maps whose warmest row is one of the other unit, or whose coldest of cooling is one of winter: at most one question of heating and one of cooling a machine.
pub(super) fn odd_outdoors(job: &Job) -> Vec<Slip> {
    job.equipment.iter().flat_map(of_machine).collect()
}

fn of_machine(machine: &EquipmentSection) -> Vec<Slip> {
    let (heating, cooling) = match &machine.kind.value {
        MachineSection::HeatPump(s) if s.ground.is_none() => {
            (typed(&s.heating).and_then(span), s.cooling.as_ref().and_then(|rows| span(rows)))
        }
        MachineSection::AirConditioner(s) => (None, typed(&s.cooling).and_then(span)),
        MachineSection::OutdoorUnit(s) => {
            let unit = |rows: &[UnitRowSection]| ends(rows.iter().map(|row| row.outdoor.base()));
            (unit(&s.heating), s.cooling.as_ref().and_then(|rows| unit(rows)))
        }
        _ => (None, None),
    };
    let name = || machine.name.value.clone();
    let slip = |cooling, at_c, meant| Slip::RowsInOtherUnit { machine: name(), cooling, at_c, meant };
    let heating = heating.and_then(|(_, at_c)| Some(slip(false, at_c, unit_of_heating(at_c)?)));
    let cooling = cooling.and_then(|(coldest_c, warmest_c)| {
        if warmest_c < fahrenheit_to_celsius(HOT_ROW_F) {
            return Some(slip(true, warmest_c, Degree::Celsius));
        }
        let cold = coldest_c < fahrenheit_to_celsius(COLDEST_COOLING_F) - ALIKE_K;
        cold.then(|| Slip::ColdCoolingRow { machine: name(), at_c: coldest_c })
    });
    heating.into_iter().chain(cooling).collect()
}

fn unit_of_heating(at_c: f64) -> Option<Degree> {
    if at_c > WARMEST_HEATING_C {
        Some(Degree::Fahrenheit)
    } else {
        (at_c < fahrenheit_to_celsius(MILD_ROW_F)).then_some(Degree::Celsius)
    }
}

fn typed(map: &MapSection) -> Option<&[RowSection]> {
    if let MapSection::Rows(rows) = map { Some(&rows.value) } else { None }
}

fn span(rows: &[RowSection]) -> Option<(f64, f64)> {
    ends(rows.iter().map(|row| row.outdoor.base()))
}

/// The coldest and the warmest, °C.
fn ends(outdoors_c: impl Iterator<Item = f64> + Clone) -> Option<(f64, f64)> {
    Some((outdoors_c.clone().min_by(f64::total_cmp)?, outdoors_c.max_by(f64::total_cmp)?))
}
