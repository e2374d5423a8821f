//! A machine as the rest of the program sees it: what it can do at an outdoor temperature, and when
//! it is off.
//!
//! Knows no hours, no house and no money. Start at [`Machine`].

use super::map::{MapRow, PerformanceMap};
use super::output::MachineHour;
use crate::fuel::FuelId;

/// Kelvin below its coldest row for which a map is still believed.
pub const EXTRAPOLATION_K: f64 = 5.0;

/// What kind of machine it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MachineKind {
    /// Heats from outdoor air, and may cool.
    HeatPump,
    /// Cools only.
    AirConditioner,
    /// Burns a fuel and blows warm air.
    Furnace,
    /// Electric resistance: strips, baseboard, electric furnace.
    Resistance,
}

/// A machine.
#[derive(Debug, Clone, PartialEq)]
pub struct Machine {
    /// The job's name for it.
    pub name: String,
    /// What kind it is.
    pub kind: MachineKind,
    /// The fuel of its main draw.
    pub fuel: FuelId,
    /// Whether its heat goes through the zone's ducts.
    pub ducted: bool,
    /// Electricity in every hour of the year without output, kW.
    pub standby_kw: f64,
    /// Stages of resistance heat, kW each; empty for other machines.
    pub stages_kw: Vec<f64>,
    /// How it heats, if it does.
    pub heating: Option<Heating>,
    /// How it cools, if it does.
    pub cooling: Option<Cooling>,
}

/// How a machine heats.
#[derive(Debug, Clone, PartialEq)]
pub struct Heating {
    /// Output and draw by outdoor temperature; one row where they do not depend on it.
    pub map: PerformanceMap,
    /// Loss of efficiency when it cycles, C_D, 0 to 0.5; 0 where it follows the load down.
    pub cycling_loss: f64,
    /// Off at or below this, °C.
    pub cut_out_c: Option<f64>,
    /// On again above this, °C; the cut-out where none is given.
    pub cut_on_c: Option<f64>,
    /// Off above this, °C (auxiliary lock-out).
    pub lockout_above_c: Option<f64>,
    /// Fan or blower that the map's power does not include, kW; its warmth is in the map's capacity.
    pub fan_kw: f64,
    /// Pan heater, kW, and the outdoor temperature, °C, below which it is on while running.
    pub pan_heater: Option<(f64, f64)>,
}

/// How a machine cools.
#[derive(Debug, Clone, PartialEq)]
pub struct Cooling {
    /// Total net capacity and power by outdoor temperature at 80/67 °F indoors.
    pub map: PerformanceMap,
    /// Loss of efficiency when it cycles, C_D, 0 to 0.5; 0 where it follows the load down.
    pub cycling_loss: f64,
    /// Share of the total that is sensible.
    pub sensible_heat_ratio: f64,
    /// Fan that the map's power does not include, kW; the map's net capacity has its warmth off.
    pub fan_kw: f64,
}

/// Why a machine does or does not heat at an outdoor temperature.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Presence {
    /// It can run.
    On,
    /// At or below its cut-out, or not yet above its cut-on.
    CutOut,
    /// Colder than its map by more than [`EXTRAPOLATION_K`]: counted as off.
    NoData,
    /// Warmer than its lock-out.
    LockedOut,
}

impl Heating {
    /// Whether it can run at `outdoor_c`, given whether it ran in the hour before.
    pub fn presence(&self, outdoor_c: f64, was_on: bool) -> Presence {
        let threshold = match (self.cut_out_c, self.cut_on_c) {
            (Some(_), Some(on)) if !was_on => Some(on),
            (out, _) => out,
        };
        if threshold.is_some_and(|t| outdoor_c <= t) {
            Presence::CutOut
        } else if outdoor_c < self.no_data_below_c() {
            Presence::NoData
        } else if self.lockout_above_c.is_some_and(|t| outdoor_c > t) {
            Presence::LockedOut
        } else {
            Presence::On
        }
    }

    /// The temperature (°C) below which there is no data and the machine counts as off.
    ///
    /// Minus infinity where the map does not depend on the outdoors (its one row stands there) or the
    /// maker's cut-out lies lower than the map reaches.
    pub fn no_data_below_c(&self) -> f64 {
        let reach = self.map.coldest_c() - EXTRAPOLATION_K;
        let told_by_cut_out = self.cut_out_c.is_some_and(|t| t < reach);
        // Tables in °F land on the edge with a rounding error; exactly 5 K is still on.
        if told_by_cut_out { f64::NEG_INFINITY } else { reach - 1e-9 }
    }

    /// Capacity and draw at `outdoor_c`, whether or not the machine is on there.
    pub fn row_at(&self, outdoor_c: f64) -> MapRow {
        let reach = self.map.coldest_c() - EXTRAPOLATION_K;
        self.map.line_at(outdoor_c.clamp(reach, self.map.warmest_c()))
    }

    /// What it can do in an hour at `outdoor_c` when it is on.
    pub fn hour_at(&self, outdoor_c: f64) -> MachineHour<f64> {
        let pan = self.pan_heater.filter(|(_, below)| outdoor_c < *below).map_or(0.0, |(kw, _)| kw);
        MachineHour::new(&self.row_at(outdoor_c), self.fan_kw + pan)
    }
}

impl Cooling {
    /// What it can do in an hour at `outdoor_c`; beyond the map the end's own row holds.
    pub fn hour_at(&self, outdoor_c: f64) -> MachineHour<f64> {
        MachineHour::new(&self.map.held_at(outdoor_c), self.fan_kw)
    }
}
