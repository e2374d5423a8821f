//! Cut-outs at which hardly any maker stops a heat pump: in mild weather, or where its own figures go on.
//!
//! Only remarks; each bound says where it comes from. Start at `odd_cut_outs`.

use super::slip::Slip;
use crate::job::{EquipmentSection, HeatPumpSection, Job, MachineSection, MapSection, Typed};
use crate::units::{Quantity, Temperature, fahrenheit_to_celsius};

/// Machines for cold places stop far below, ordinary ones at 0 to 35 °F (from memory).
const WARM_CUT_OUT_F: f64 = 35.0;
/// It comes on again so much warmer at most, °F: a judgement.
const CUT_ON_ABOVE_F: f64 = 10.0;
/// Nobody publishes figures of a machine that is off, but ratings ask for those at 17 and 47 °F, and a cut-out is told on
/// the safe side of the coldest row. From so much colder than the cut-out a figure is asked about, °F: a judgement.
const FIGURES_BELOW_F: f64 = 5.0;
/// Where a label's figures stand, °F (the keys' own names).
const PLATE_F: (f64, f64) = (5.0, 17.0);
/// So that rounding in another unit is no question, K.
const ALIKE_K: f64 = 0.01;

/// At most one question a machine, in the job's order.
pub(super) fn odd_cut_outs(job: &Job) -> Vec<Slip> {
    job.equipment.iter().filter_map(odd_cut_out).collect()
}

fn odd_cut_out(machine: &EquipmentSection) -> Option<Slip> {
    let (cut_out, cut_on, coldest_c) = match &machine.kind.value {
        MachineSection::HeatPump(pump) if pump.ground.is_none() => {
            (pump.cut_out.as_ref(), pump.cut_on.as_ref(), coldest_figure(pump))
        }
        MachineSection::OutdoorUnit(unit) => {
            (unit.cut_out.as_ref(), None, coldest(unit.heating.value.iter().map(|row| row.outdoor.base())))
        }
        _ => return None,
    };
    let name = || machine.name.value.clone();
    let warm = |key, typed: Option<&Typed<Temperature>>, bound_f| {
        let at_c = typed?.value.base();
        let warm = at_c > fahrenheit_to_celsius(bound_f) - ALIKE_K;
        warm.then(|| Slip::WarmCutOut { key, machine: name(), at_c })
    };
    let figures = || {
        let (at_c, coldest_c) = (cut_out?.value.base(), coldest_c?);
        let below = at_c - coldest_c > FIGURES_BELOW_F / 1.8 - ALIKE_K;
        below.then(|| Slip::FiguresBelowCutOut { machine: name(), at_c, coldest_c })
    };
    warm("cut_out", cut_out, WARM_CUT_OUT_F)
        .or_else(|| warm("cut_on", cut_on, WARM_CUT_OUT_F + CUT_ON_ABOVE_F))
        .or_else(figures)
}

/// Where the coldest figure stands that was typed for this machine; a generic table's rows are nobody's.
fn coldest_figure(pump: &HeatPumpSection) -> Option<f64> {
    match &pump.heating {
        MapSection::Rows(rows) => coldest(rows.value.iter().map(|row| row.outdoor.base())),
        MapSection::Nameplate(plate) => {
            let plate = plate.value.heating.as_ref()?;
            let at_f = if plate.capacity_5.is_some() { PLATE_F.0 } else { PLATE_F.1 };
            Some(fahrenheit_to_celsius(at_f))
        }
        MapSection::Table(_) => None,
    }
}

fn coldest(outdoors_c: impl Iterator<Item = f64>) -> Option<f64> {
    outdoors_c.min_by(f64::total_cmp)
}
