//! Water heaters, dryers and ranges of the job into household machines.
//!
//! Start at [`household_machines`].

use crate::equipment::household::{HouseholdKind, HouseholdMachine, WaterForm, WaterHeater};
use crate::fuel::{FuelId, Fuels};
use crate::job::{Job, Location, MachineSection, Typed, WaterHeaterForm, WaterHeaterSection, ZoneSection};
use crate::problem::{Problem, Problems};
use crate::sources::{Assumptions, Source};
use crate::units::Quantity;

/// Builds every water heater, dryer and range of the job, in its order.
///
/// # Errors
/// Fuels that do not exist.
pub fn household_machines(
    job: &Job,
    fuels: &Fuels,
    assumptions: &mut Assumptions,
) -> Result<Vec<HouseholdMachine>, Problems> {
    let mut problems = Vec::new();
    let mut list = Vec::new();
    for section in &job.equipment {
        let name = section.name.value.as_str();
        let (fuel, kind) = match &section.kind.value {
            MachineSection::WaterHeater(s) => {
                let kind = HouseholdKind::WaterHeater(water_heater(job, name, s, assumptions));
                (s.fuel.as_ref(), kind)
            }
            MachineSection::Dryer(s) => {
                let side_kwh = s.electricity_per_load.as_deref().map_or(0.0, |e| e.base());
                (Some(&s.fuel), HouseholdKind::Dryer { load_kwh: s.energy_per_load.base(), side_kwh })
            }
            MachineSection::Range(s) => {
                (Some(&s.fuel), HouseholdKind::Range { efficiency: s.efficiency.value })
            }
            _ => continue,
        };
        match fuel_of(job, name, fuel, fuels) {
            Ok(fuel) => list.push(HouseholdMachine { name: name.to_owned(), fuel, kind }),
            Err(problem) => problems.push(problem),
        }
    }
    if problems.is_empty() { Ok(list) } else { Err(problems) }
}

fn fuel_of(job: &Job, name: &str, typed: Option<&Typed<String>>, fuels: &Fuels) -> Result<FuelId, Problem> {
    let Some(typed) = typed else { return Ok(FuelId::ELECTRICITY) };
    job.fuel(typed, format!("equipment.{name}.fuel"), fuels).map(|(id, _)| id)
}

fn water_heater(job: &Job, name: &str, s: &WaterHeaterSection, assumptions: &mut Assumptions) -> WaterHeater {
    let heat_pump = s.form.value == WaterHeaterForm::HeatPump;
    let inside = s.location.as_deref() == Some(&Location::Inside);
    let cools_zone = (heat_pump && inside).then(|| zone_of(&job.house.zone, name, s, assumptions)).flatten();
    let form = match s.form.value {
        WaterHeaterForm::Tank => WaterForm::Tank,
        WaterHeaterForm::Tankless => WaterForm::Tankless,
        WaterHeaterForm::HeatPump => WaterForm::HeatPump,
    };
    let input_kw = s.input.as_deref().map(|p| p.base());
    WaterHeater { form, efficiency: s.efficiency.value, input_kw, cools_zone }
}

fn zone_of(
    zones: &[ZoneSection],
    name: &str,
    s: &WaterHeaterSection,
    assumptions: &mut Assumptions,
) -> Option<String> {
    let first = zones.first()?.name.value.clone();
    if s.zone.is_none() && zones.len() > 1 {
        let source = Source::CommonPractice("the first zone of the house, where none is named".into());
        assumptions.note(format!("equipment.{name}.zone"), first.clone(), source);
    }
    Some(s.zone.as_ref().map_or(first, |zone| zone.value.clone()))
}
