//! A machine as the rest of the program sees it: what it can do at an outdoor temperature, and when
//! it is off.
//!
//! Knows no hours, no house and no money. Start at [`Machine`].

use super::ground::GroundLoop;
use super::map::{MapRow, PerformanceMap};
use super::origin::Origin;
use super::output::MachineHour;
use crate::calendar::MonthDay;
use crate::fuel::FuelId;

/// Kelvin below its coldest row for which a map is still believed.
pub const EXTRAPOLATION_K: f64 = 5.0;

/// What kind of machine it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MachineKind {
    /// Heats from outdoor air or the ground, and may cool.
    HeatPump,
    /// Cools only.
    AirConditioner,
    /// Burns a fuel and blows warm air.
    Furnace,
    /// Burns a fuel and pumps warm water.
    Boiler,
    /// Burns a fuel in the room itself.
    WallHeater,
    /// Burns wood or coal laid in by hand, without electricity.
    WoodStove,
    /// Burns pellets that a motor feeds.
    PelletStove,
    /// Electric resistance: strips, baseboard, electric furnace.
    Resistance,
    /// The outdoor part that several heat pumps' heads share; it heats through them alone, and its
    /// map knows capacities only.
    OutdoorUnit,
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
    /// The most fuel that is laid in from one midnight to the next, kWh (HHV), if somebody must.
    pub daily_fuelling_kwh: Option<f64>,
    /// The ground loop by whose temperature its maps go, instead of the outdoors'.
    pub ground: Option<GroundLoop>,
    /// The outdoor unit that this head shares with others, as a place in the list of machines.
    pub outdoor_unit: Option<usize>,
    /// How it heats, if it does.
    pub heating: Option<Heating>,
    /// How it cools, if it does.
    pub cooling: Option<Cooling>,
    /// Where its figures come from.
    pub origin: Origin,
}

/// A flame that burns while its machine waits.
///
/// While the burner runs, the pilot is part of its flame; in hours in which the machine burns less
/// than the pilot does, the difference warms nobody.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pilot {
    /// Its draw of the machine's fuel, kW.
    pub kw: f64,
    /// First and last day on which it is lit, both included; all year where there are none. In the
    /// rest of the year somebody lights the burner by hand when heat is wanted.
    pub lit: Option<(MonthDay, MonthDay)>,
}

impl Pilot {
    /// Whether it is lit on `day`.
    pub fn lit_on(&self, day: MonthDay) -> bool {
        self.lit.is_none_or(|(from, to)| from.spans(to, day))
    }
}

impl Machine {
    /// A machine that neither heats nor cools yet: not ducted, nothing drawn while it waits.
    pub fn new(name: impl Into<String>, kind: MachineKind, fuel: FuelId) -> Self {
        Self {
            name: name.into(),
            kind,
            fuel,
            ducted: false,
            standby_kw: 0.0,
            stages_kw: Vec::new(),
            daily_fuelling_kwh: None,
            ground: None,
            outdoor_unit: None,
            heating: None,
            cooling: None,
            origin: Origin::default(),
        }
    }

    /// Whether it heats on when the power is out on `day`: a wall heater whose standing pilot is lit then does,
    /// and a stove that is filled by hand. Whatever has a blower, a pump, a motor or an electric igniter
    /// does not.
    pub fn heats_without_power(&self, day: MonthDay) -> bool {
        match self.kind {
            MachineKind::WallHeater => {
                let pilot = self.heating.as_ref().and_then(|h| h.pilot);
                pilot.is_some_and(|pilot| pilot.lit_on(day))
            }
            MachineKind::WoodStove => true,
            _ => false,
        }
    }

    /// The share of the greatest output of `hour` that it can give hour after hour: what a day's fuelling
    /// spread over the day allows, 0 to 1; 1 where nobody lays fuel in.
    ///
    /// ```
    /// use winterledger::equipment::output::MachineHour;
    /// use winterledger::equipment::{Machine, MachineKind};
    /// use winterledger::fuel::FuelId;
    /// let mut stove = Machine::new("stove", MachineKind::WoodStove, FuelId::ELECTRICITY);
    /// let full = MachineHour { least: 5.0, rated: 5.0, greatest: 5.0, power_least: 10.0, ..MachineHour::OFF };
    /// assert_eq!(stove.lasting_share(&full), 1.0);
    /// stove.daily_fuelling_kwh = Some(60.0); // hand-worked: 2.5 kW of fuel where 10 kW would burn
    /// assert_eq!(stove.lasting_share(&full), 0.25);
    /// ```
    pub fn lasting_share(&self, hour: &MachineHour<f64>) -> f64 {
        let cycling_loss = self.heating.as_ref().map_or(0.0, |h| h.cycling_loss);
        let drawn = hour.run(cycling_loss, hour.greatest).draw;
        match self.daily_fuelling_kwh {
            Some(kwh) if kwh < 24.0 * drawn => kwh / 24.0 / drawn,
            _ => 1.0,
        }
    }

    /// Whether a flame burns in it.
    pub fn burns(&self) -> bool {
        self.fuel != FuelId::ELECTRICITY
    }
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
    /// A pilot flame, if it has one.
    pub pilot: Option<Pilot>,
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
    /// Heating by this map alone: no cycling loss, never cut out or locked out, nothing beside it.
    pub fn of(map: PerformanceMap) -> Self {
        Self {
            map,
            cycling_loss: 0.0,
            cut_out_c: None,
            cut_on_c: None,
            lockout_above_c: None,
            fan_kw: 0.0,
            pan_heater: None,
            pilot: None,
        }
    }

    /// Whether it can run at `outdoor_c`, given whether it ran in the hour before.
    pub fn presence(&self, outdoor_c: f64, was_on: bool) -> Presence {
        let threshold = match (self.cut_out_c, self.cut_on_c) {
            (Some(_), Some(on)) if !was_on => Some(on),
            (out, _) => out,
        };
        // One temperature in °F and another way to it differ by a rounding error: at the cut-out it is off.
        if threshold.is_some_and(|t| outdoor_c <= t + 1e-9) {
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

    /// Capacity and draw at `outdoor_c`, whether or not the machine is on there: colder than its map on the
    /// line of its coldest rows, from [`EXTRAPOLATION_K`] on neither more nor more cheaply than there.
    pub fn row_at(&self, outdoor_c: f64) -> MapRow {
        let reach = self.map.coldest_c() - EXTRAPOLATION_K;
        let row = self.map.line_at(outdoor_c.min(self.map.warmest_c()));
        if outdoor_c < reach { row.no_better_than(&self.map.line_at(reach)) } else { row }
    }

    /// Where it is on by its cut-out alone, its map having ended: below which temperature, and from which, °C.
    pub fn guessed_between(&self) -> Option<(f64, f64)> {
        let reach = self.map.coldest_c() - EXTRAPOLATION_K;
        let cut_out_c = self.cut_out_c.filter(|t| self.map.rows().len() > 1 && *t < reach)?;
        Some((reach, cut_out_c))
    }

    /// What it can do in an hour at `outdoor_c` when it is on, its pilot lit.
    pub fn hour_at(&self, outdoor_c: f64) -> MachineHour<f64> {
        let pan = self.pan_heater.filter(|(_, below)| outdoor_c < *below).map_or(0.0, |(kw, _)| kw);
        let pilot = self.pilot.map_or(0.0, |p| p.kw);
        MachineHour { pilot, ..MachineHour::new(&self.row_at(outdoor_c), self.fan_kw + pan) }
    }
}

impl Cooling {
    /// Cooling by this map alone: all of it sensible, no cycling loss, nothing beside it.
    pub fn of(map: PerformanceMap) -> Self {
        Self { map, cycling_loss: 0.0, sensible_heat_ratio: 1.0, fan_kw: 0.0 }
    }

    /// What it can do in an hour at `outdoor_c`; beyond the map the end's own row holds.
    pub fn hour_at(&self, outdoor_c: f64) -> MachineHour<f64> {
        MachineHour::new(&self.map.held_at(outdoor_c), self.fan_kw)
    }
}
