//! What the coldest night needs to know of the house beside zones and machines.
//!
//! Start at [`Basis`].

use crate::calendar::MonthDay;

/// What the job says, or what stands in for it.
#[derive(Debug, Clone, PartialEq)]
pub struct Basis {
    /// Whole days until a failed machine is mended, 1 or more.
    pub repair_days: usize,
    /// Current that the electric panel can still carry, A; nothing where the job does not say.
    pub panel_spare_a: Option<f64>,
    /// Air through the ducts at full output, m³/s, one entry a machine in the job's order; nothing
    /// for a machine without ducts.
    pub airflow_m3_s: Vec<Option<f64>>,
    /// A day of the coldest part of the year, by which a pilot is lit or out.
    pub midwinter: MonthDay,
}
