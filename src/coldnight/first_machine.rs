//! What a zone's first machine carries alone as it gets colder.
//!
//! Start at [`FirstMachine`].

use super::carried::carried;
use crate::equipment::{Machine, MachineKind};
use crate::load::Zone;
use crate::simulation::design::ZoneDesign;
use crate::units::fahrenheit_to_celsius;

/// Outdoor temperatures at which shares are told, °F; the usual rating points and one below.
pub const SHARES_AT_F: [f64; 4] = [47.0, 17.0, 5.0, -5.0];

/// The first machine of a zone, by itself.
#[derive(Debug, Clone, PartialEq)]
pub struct FirstMachine {
    /// Its share of the design load at [`SHARES_AT_F`], in that order.
    pub shares: [ShareAt; 4],
    /// Its share of the design load at the design temperature.
    pub at_design: ShareAt,
    /// Its share of the design load on the coldest night to plan for, if the job gives one.
    pub at_extreme_low: Option<ShareAt>,
    /// Greatest capacity at 17 °F over that at 47 °F, by the rows of an air-source heat pump.
    pub retention_17f: Option<f64>,
    /// Greatest capacity at 5 °F over that at 47 °F; heat pumps only.
    pub retention_5f: Option<f64>,
}

/// The greatest heat a machine brings into the room at one outdoor temperature, against the design load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShareAt {
    /// Outdoor temperature, °C.
    pub outdoor_c: f64,
    /// Greatest heat in the room, kW.
    pub capacity_kw: f64,
    /// That over the design load (heat loss at the design temperature, gains not deducted); above 1
    /// where it is more.
    pub of_design_load: f64,
}

impl FirstMachine {
    /// Of `zone` as `design` serves it.
    pub fn new(zone: &Zone, design: &ZoneDesign, machines: &[Machine], extreme_low_c: Option<f64>) -> Self {
        let at = |outdoor_c| share_at(zone, design, machines, outdoor_c);
        let shares = SHARES_AT_F.map(|f| at(fahrenheit_to_celsius(f)));
        // The machine's own, whatever keeps it off: a cut-out or a lock-out lowers its shares, not this.
        let first = design.heaters.first().and_then(|i| machines.get(*i));
        let pump = first.filter(|m| m.kind == MachineKind::HeatPump && m.ground.is_none());
        let capacity_kw = |f: f64| {
            let (pump, outdoor_c) = (pump?, fahrenheit_to_celsius(f));
            let own_kw = pump.heating.as_ref()?.row_at(outdoor_c).greatest.capacity_kw;
            Some(own_kw * left_by_unit(pump, design, machines, outdoor_c))
        };
        let retains = |f: f64| capacity_kw(f).zip(capacity_kw(47.0)).map(|(cold, mild)| cold / mild);
        Self {
            shares,
            at_design: at(zone.design_temperature_c),
            at_extreme_low: extreme_low_c.map(at),
            retention_17f: retains(17.0),
            retention_5f: retains(5.0),
        }
    }
}

/// The share of what a head can give that its outdoor unit leaves it while all its heads ask for all they can, 0 to
/// 1, whatever keeps them off; 1 for a machine without such a unit, and where what the unit can give is not known.
pub fn left_by_unit(machine: &Machine, design: &ZoneDesign, machines: &[Machine], outdoor_c: f64) -> f64 {
    let greatest_kw = |machine: &Machine| {
        machine.heating.as_ref().map(|heating| heating.row_at(outdoor_c).greatest.capacity_kw)
    };
    let unit = machine.outdoor_unit.and_then(|i| machines.get(i));
    let heads = design.heads.iter().filter_map(|i| machines.get(*i));
    let heads_kw: f64 =
        heads.filter(|head| head.outdoor_unit == machine.outdoor_unit).filter_map(greatest_kw).sum();
    match unit.and_then(greatest_kw) {
        Some(unit_kw) if heads_kw > unit_kw => unit_kw / heads_kw,
        _ => 1.0,
    }
}

fn share_at(zone: &Zone, design: &ZoneDesign, machines: &[Machine], outdoor_c: f64) -> ShareAt {
    let capacity_kw = carried(zone, design, machines, outdoor_c).first_capacity_kw;
    ShareAt { outdoor_c, capacity_kw, of_design_load: capacity_kw / zone.design_load_kw() }
}
