//! Through the coldest night: what an option carries, what its strips ask of the panel, how warm its
//! air is, what a failure does to the rooms, and what is left when the power goes.
//!
//! Numbers and enums only: knows no money and no words. Start at [`ColdNight`].

pub mod basis;
pub mod carried;
pub mod first_machine;
pub mod strips;
pub mod supply_air;
pub mod heat_off;
pub mod failure;
pub mod power_out;
pub mod from_job;

pub use basis::Basis;
pub use carried::{Carried, carried, first_heater_balance_c, fuelling_lasts_h};

use crate::equipment::Machine;
use crate::load::Zone;
use crate::simulation::design::{OptionDesign, ZoneDesign};
use crate::simulation::plan::OptionPlan;
use failure::Failures;
use first_machine::FirstMachine;
use heat_off::HeatOff;
use power_out::PowerOut;
use strips::{Strips, StripsAt};
use supply_air::SupplyAir;

/// One option through the coldest night.
#[derive(Debug, Clone, PartialEq)]
pub struct ColdNight {
    /// Zone by zone, in the house's order.
    pub zones: Vec<ZoneColdNight>,
    /// What comes of each failure in the coldest days; nothing where the weather has no hours.
    pub failures: Option<Failures>,
    /// What is left when the power goes.
    pub power_out: PowerOut,
}

/// One zone of it.
#[derive(Debug, Clone, PartialEq)]
pub struct ZoneColdNight {
    /// What the first machine carries alone.
    pub first_machine: FirstMachine,
    /// All resistance heat that the zone has.
    pub installed: Strips,
    /// Strips for the design temperature; nothing where a second machine takes the first one's place.
    pub strips_at_design: Option<StripsAt>,
    /// Strips for the coldest night to plan for, if the job gives one; nothing as above.
    pub strips_at_extreme_low: Option<StripsAt>,
    /// Supply air of each ducted heater, in the zone's order.
    pub supply_air: Vec<SupplyAir>,
    /// How the room falls with all heat off at the design temperature.
    pub heat_off: HeatOff,
}

/// What the whole house shares.
#[derive(Debug, Clone, Copy)]
pub struct House<'a> {
    /// The zones.
    pub zones: &'a [Zone],
    /// The machines.
    pub machines: &'a [Machine],
    /// What the job says of it.
    pub basis: &'a Basis,
    /// The coldest night to plan for, °C.
    pub extreme_low_c: Option<f64>,
    /// Height above sea level, m; thin air is not counted without it.
    pub elevation_m: Option<f64>,
}

impl ColdNight {
    /// Computes it for `design`; `plan` is the same design on the hours of the weather, if it has hours.
    pub fn new(design: &OptionDesign, house: &House<'_>, plan: Option<&OptionPlan>) -> Self {
        let zones = house.zones.iter().zip(&design.zones);
        let failures = plan.and_then(|p| Failures::new(design, house.machines, p, house.basis.repair_days));
        Self {
            zones: zones.map(|(zone, d)| zone_cold_night(zone, d, house)).collect(),
            failures,
            power_out: PowerOut::new(design, house),
        }
    }

    /// What all zones add up to of one kind of strips.
    pub fn strips(&self, of: impl Fn(&ZoneColdNight) -> Strips) -> Strips {
        Strips { kw: self.zones.iter().map(|z| of(z).kw).sum() }
    }

    /// Circuits for one kind of strips in all zones, each zone with its own.
    pub fn circuits(&self, of: impl Fn(&ZoneColdNight) -> Strips) -> usize {
        self.zones.iter().map(|z| of(z).circuits()).sum()
    }
}

fn zone_cold_night(zone: &Zone, design: &ZoneDesign, house: &House<'_>) -> ZoneColdNight {
    let machines = house.machines;
    let alone = design.changeover.is_none();
    let strips_at = |outdoor_c| alone.then(|| StripsAt::new(zone, design, machines, outdoor_c));
    ZoneColdNight {
        first_machine: FirstMachine::new(zone, design, machines, house.extreme_low_c),
        installed: strips::installed(design, machines),
        strips_at_design: strips_at(zone.design_temperature_c),
        strips_at_extreme_low: house.extreme_low_c.and_then(strips_at),
        supply_air: supply_air::of_zone(zone, design, house),
        heat_off: HeatOff::new(zone),
    }
}
