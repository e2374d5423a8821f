//! What the coldest night needs to know of the house beside zones and machines.
//!
//! Start at [`Basis`].

use crate::calendar::MonthDay;
use crate::equipment::{Machine, MachineKind};
use crate::load::Zone;
use crate::simulation::design::ZoneDesign;

/// What the job says, or what stands in for it.
#[derive(Debug, Clone, PartialEq)]
pub struct Basis {
    /// Whole days until a failed machine is mended, 1 or more.
    pub repair_days: usize,
    /// Current that the electric panel can still carry, A; nothing where the job does not say.
    pub panel_spare_a: Option<f64>,
    /// A day of the coldest part of the year, by which a pilot is lit or out.
    pub midwinter: MonthDay,
    /// Air at full output, one entry a machine in the job's order.
    pub airflows: Vec<Airflow>,
}

/// The air that a machine moves at full output, m³/s; nothing for a machine without ducts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Airflow {
    /// The machine's own, as typed.
    pub typed_m3_s: Option<f64>,
    /// What an ordinary machine of its kind and size moves.
    pub ordinary_m3_s: Option<f64>,
}

/// The air of one heater in one zone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlowOf {
    /// m³/s.
    pub m3_s: f64,
    /// The machine whose ordinary air it is, as a place in the list, where the job says nothing of it.
    pub assumed_of: Option<usize>,
}

impl Basis {
    /// Air through the ducts while the heater at `place` of a zone runs: its own as typed, else that of the zone's
    /// ducts, else of strips that of the first machine before them, whose blower moves their air too, else an ordinary
    /// machine's. Nothing for a machine without ducts.
    pub fn airflow(
        &self,
        zone: &Zone,
        design: &ZoneDesign,
        place: usize,
        machines: &[Machine],
    ) -> Option<FlowOf> {
        let i = *design.heaters.get(place)?;
        let machine = machines.get(i).filter(|machine| machine.ducted)?;
        let flow = self.airflows.get(i)?;
        let of_ducts = zone.duct_line.and_then(|line| line.ducts).map(|ducts| ducts.airflow_m3_s);
        if let Some(m3_s) = flow.typed_m3_s.or(of_ducts) {
            return Some(FlowOf { m3_s, assumed_of: None });
        }
        let before = (0..place).filter(|_| machine.kind == MachineKind::Resistance);
        let blower = before.filter_map(|before| self.airflow(zone, design, before, machines)).next();
        blower.or_else(|| Some(FlowOf { m3_s: flow.ordinary_m3_s?, assumed_of: Some(i) }))
    }
}
