//! Rows of a machine that stand at outdoor temperatures in the other unit: °C for °F or °F for °C.
//!
//! Only remarks; the bounds are this program's judgement. Start at `odd_outdoors`.

use super::slip::Slip;
use crate::job::{EquipmentSection, Job, MachineSection, MapSection, RowSection};
use crate::units::{Quantity, fahrenheit_to_celsius};
use crate::weather::quality::Degree;

/// Nobody heats a house when it is warmer outdoors, °C (86 °F): 47 °C is 47 °F by mistake.
const WARMEST_HEATING_C: f64 = 30.0;
/// Makers' tables of heating begin in milder weather, °F: 7 °F as the warmest is 7 °C by mistake.
const MILD_ROW_F: f64 = 30.0;
/// Makers' tables of cooling end in hotter weather, °F: 35 °F as the warmest is 35 °C by mistake.
const HOT_ROW_F: f64 = 60.0;

/// Maps whose warmest row is one of the other unit: at most one question of heating and one of cooling a machine.
pub(super) fn odd_outdoors(job: &Job) -> Vec<Slip> {
    job.equipment.iter().flat_map(of_machine).collect()
}

fn of_machine(machine: &EquipmentSection) -> Vec<Slip> {
    let (heating, cooling) = match &machine.kind.value {
        MachineSection::HeatPump(s) if s.ground.is_none() => (
            typed(&s.heating).and_then(|rows| warmest(rows, |row| row.outdoor.base())),
            s.cooling.as_ref().and_then(|rows| warmest(rows, |row| row.outdoor.base())),
        ),
        MachineSection::AirConditioner(s) => {
            (None, typed(&s.cooling).and_then(|rows| warmest(rows, |row| row.outdoor.base())))
        }
        MachineSection::OutdoorUnit(s) => (
            warmest(&s.heating, |row| row.outdoor.base()),
            s.cooling.as_ref().and_then(|rows| warmest(rows, |row| row.outdoor.base())),
        ),
        _ => (None, None),
    };
    let slip = |cooling, at_c, meant| {
        let machine = machine.name.value.clone();
        Slip::RowsInOtherUnit { machine, cooling, at_c, meant }
    };
    let heating = heating.and_then(|at_c| Some(slip(false, at_c, unit_of_heating(at_c)?)));
    let cold = |at_c: &f64| *at_c < fahrenheit_to_celsius(HOT_ROW_F);
    let cooling = cooling.filter(cold).map(|at_c| slip(true, at_c, Degree::Celsius));
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

fn warmest<R>(rows: &[R], outdoor_c: impl Fn(&R) -> f64) -> Option<f64> {
    rows.iter().map(outdoor_c).max_by(f64::total_cmp)
}
