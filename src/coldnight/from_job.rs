//! What the job says of panel, repair and airflow, every default noted.
//!
//! Start at [`basis`].

use super::basis::{Airflow as MachineAir, Basis};
use crate::calendar::MonthDay;
use crate::equipment::{Machine, MachineKind};
use crate::job::{Job, MachineSection, Typed};
use crate::load::Zone;
use crate::load::air::kw_per_m3_s_k;
use crate::simulation::design::OptionDesign;
use crate::sources::{Assumptions, Source};
use crate::units::{
    Airflow, BTU_PER_HOUR_PER_TON, CUBIC_METRES_PER_SECOND_PER_CFM, Quantity, UnitSystem, kwh_to_btu,
};
use std::collections::BTreeSet;

/// Days until a failed machine is mended where the job gives none.
pub const DEFAULT_REPAIR_DAYS: f64 = 5.0;
/// Airflow for each ton of rated cooling, cfm; common practice.
const CFM_PER_TON: f64 = 400.0;
/// How much a burner or an electric furnace warms its air, K (50 °F); common practice: plates allow
/// about 40 to 70 °F.
const BURNER_RISE_K: f64 = 50.0 / 1.8;

/// Builds the basis; `zones`, `machines` and `designs` are those of the same job, in its order.
pub fn basis(
    job: &Job,
    zones: &[Zone],
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
    let panel_spare_a = job.house.panel_spare.as_deref().map(|a| a.base());
    let airflows = machines.iter().map(|machine| MachineAir {
        typed_m3_s: typed_airflow(job, machine),
        ordinary_m3_s: ordinary_airflow(machine),
    });
    let airflows = airflows.collect();
    let basis = Basis { repair_days: days as usize, panel_spare_a, midwinter, airflows };
    note_ordinary(&basis, zones, machines, designs, units, assumptions);
    basis
}

/// Notes each ordinary airflow that some zone of some option takes.
fn note_ordinary(
    basis: &Basis,
    zones: &[Zone],
    machines: &[Machine],
    designs: &[OptionDesign],
    units: UnitSystem,
    assumptions: &mut Assumptions,
) {
    let all = designs.iter().flat_map(|design| zones.iter().zip(&design.zones));
    let flows = all.flat_map(|(zone, design)| {
        (0..design.heaters.len()).filter_map(move |place| basis.airflow(zone, design, place, machines))
    });
    let taken: BTreeSet<usize> = flows.filter_map(|flow| flow.assumed_of).collect();
    for (machine, airflow) in taken.into_iter().filter_map(|i| machines.get(i).zip(basis.airflows.get(i))) {
        if let Some(airflow) = airflow.ordinary_m3_s {
            let key = format!("equipment.{}.airflow", machine.name);
            assumptions.note(key, units.airflow_text(airflow), Source::CommonPractice(why(machine, units)));
        }
    }
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

/// The airflow of an ordinary machine of this kind and size, m³/s; nothing without ducts or heat.
fn ordinary_airflow(machine: &Machine) -> Option<f64> {
    let heating = machine.heating.as_ref().filter(|_| machine.ducted)?;
    if machine.kind != MachineKind::HeatPump {
        return Some(heating.hour_at(0.0).greatest / (kw_per_m3_s_k(None) * BURNER_RISE_K));
    }
    let rated = machine.cooling.as_ref().map(|c| c.hour_at(RATED_COOLING_C));
    let kw = rated.map_or_else(|| heating.hour_at(RATED_HEATING_C).rated, |c| c.rated);
    let cfm = kwh_to_btu(kw) / BTU_PER_HOUR_PER_TON * CFM_PER_TON;
    Some(cfm * CUBIC_METRES_PER_SECOND_PER_CFM)
}

/// The trade rule that it is taken from.
fn why(machine: &Machine, units: UnitSystem) -> String {
    if machine.kind == MachineKind::HeatPump {
        return format!("{CFM_PER_TON} cfm a ton of rated output, for supply air alone");
    }
    let rise = match units {
        UnitSystem::Us => format!("{:.0} \u{b0}F", BURNER_RISE_K * 1.8),
        UnitSystem::Si => format!("{BURNER_RISE_K:.0} K"),
    };
    format!("a rise of {rise} at full output and sea level, for supply air alone")
}

/// 95 °F, where cooling is rated, °C.
const RATED_COOLING_C: f64 = 35.0;
/// 47 °F, where heating is rated, °C.
const RATED_HEATING_C: f64 = 15.0 / 1.8;
