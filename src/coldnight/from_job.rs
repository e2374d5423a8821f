//! What the job says of panel, repair and airflow, every default noted.
//!
//! Start at [`basis`].

use super::basis::Basis;
use crate::calendar::MonthDay;
use crate::equipment::{Machine, MachineKind};
use crate::job::{Job, MachineSection, Typed};
use crate::load::air::kw_per_m3_s_k;
use crate::simulation::design::OptionDesign;
use crate::sources::{Assumptions, Source};
use crate::units::{
    Airflow, BTU_PER_HOUR_PER_TON, CUBIC_METRES_PER_SECOND_PER_CFM, Quantity, UnitSystem, kwh_to_btu,
};

/// Days until a failed machine is mended where the job gives none.
pub const DEFAULT_REPAIR_DAYS: f64 = 5.0;
/// Airflow for each ton of rated cooling, cfm; common practice.
const CFM_PER_TON: f64 = 400.0;
/// How much a burner or an electric furnace warms its air, K (50 °F); common practice: plates allow
/// about 40 to 70 °F.
const BURNER_RISE_K: f64 = 50.0 / 1.8;

/// Builds the basis; `machines` and `designs` are those of the same job, in its order.
pub fn basis(
    job: &Job,
    machines: &[Machine],
    designs: &[OptionDesign],
    midwinter: MonthDay,
    assumptions: &mut Assumptions,
) -> Basis {
    let units = job.job.units.system();
    let given = job.house.repair_days.as_deref().copied();
    let days = assumptions.or_default(given, "house.repair_days", DEFAULT_REPAIR_DAYS, "5", || {
        Source::CommonPractice("days until a failed machine is mended in a cold spell".into())
    });
    let mut flows: Vec<Option<f64>> = machines.iter().map(|m| typed_airflow(job, m)).collect();
    for (flow, machine) in flows.iter_mut().zip(machines) {
        if flow.is_none() && machine.kind != MachineKind::Resistance {
            *flow = ordinary_airflow(machine, units, assumptions);
        }
    }
    for (i, machine) in machines.iter().enumerate() {
        let strips = machine.kind == MachineKind::Resistance && machine.ducted;
        if strips && flows.get(i).copied().flatten().is_none() {
            let shared = before(designs, i).into_iter().find_map(|other| flows.get(other).copied().flatten());
            let flow = shared.or_else(|| ordinary_airflow(machine, units, assumptions));
            if let Some(slot) = flows.get_mut(i) {
                *slot = flow;
            }
        }
    }
    let panel_spare_a = job.house.panel_spare.as_deref().map(|a| a.base());
    Basis { repair_days: days as usize, panel_spare_a, airflow_m3_s: flows, midwinter }
}

fn typed_airflow(job: &Job, machine: &Machine) -> Option<f64> {
    let of = |airflow: &Option<Typed<Airflow>>| airflow.as_deref().map(|a| a.base());
    match &job.machine(&machine.name)?.kind.value {
        MachineSection::HeatPump(s) => of(&s.airflow),
        MachineSection::Furnace(s) => of(&s.airflow),
        MachineSection::Resistance(s) => of(&s.airflow),
        _ => None,
    }
}

/// Machines that stand before `strips` in a zone, whose blower moves its air too.
fn before(designs: &[OptionDesign], strips: usize) -> Vec<usize> {
    let zones = designs.iter().flat_map(|d| &d.zones);
    let ahead = zones.filter_map(|z| {
        let place = z.heaters.iter().position(|i| *i == strips)?;
        Some(z.heaters.iter().take(place).copied().collect::<Vec<_>>())
    });
    ahead.flatten().collect()
}

/// The airflow of an ordinary machine of this kind and size, m³/s; nothing without ducts or heat.
fn ordinary_airflow(machine: &Machine, units: UnitSystem, assumptions: &mut Assumptions) -> Option<f64> {
    let heating = machine.heating.as_ref().filter(|_| machine.ducted)?;
    let (airflow, why) = if machine.kind == MachineKind::HeatPump {
        let rated = machine.cooling.as_ref().map(|c| c.hour_at(RATED_COOLING_C));
        let kw = rated.map_or_else(|| heating.hour_at(RATED_HEATING_C).rated, |c| c.rated);
        let cfm = kwh_to_btu(kw) / BTU_PER_HOUR_PER_TON * CFM_PER_TON;
        let why = format!("{CFM_PER_TON} cfm a ton of rated output, for supply air alone");
        (cfm * CUBIC_METRES_PER_SECOND_PER_CFM, why)
    } else {
        let airflow = heating.hour_at(0.0).greatest / (kw_per_m3_s_k(None) * BURNER_RISE_K);
        let rise = match units {
            UnitSystem::Us => format!("{:.0} \u{b0}F", BURNER_RISE_K * 1.8),
            UnitSystem::Si => format!("{BURNER_RISE_K:.0} K"),
        };
        (airflow, format!("a rise of {rise} at full output and sea level, for supply air alone"))
    };
    let key = format!("equipment.{}.airflow", machine.name);
    assumptions.note(key, units.airflow_text(airflow), Source::CommonPractice(why));
    Some(airflow)
}

/// 95 °F, where cooling is rated, °C.
const RATED_COOLING_C: f64 = 35.0;
/// 47 °F, where heating is rated, °C.
const RATED_HEATING_C: f64 = 15.0 / 1.8;
