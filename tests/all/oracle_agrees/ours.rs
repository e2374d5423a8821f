//! The oracle's zones, machines and outdoor units as the program takes them.
//!
//! Start at [`ours_zone`].

use super::random::Clock;
use super::stored;
use crate::oracle::{CoolingMachine, HeatPump, Level, Machine, OutdoorUnit, Placed, Row, Zone};
use winterledger::equipment::combustion::furnace_row;
use winterledger::equipment::map::{MapRow, PerformanceMap, Point};
use winterledger::equipment::{self as ours, MachineKind};
use winterledger::fuel::{FuelId, Fuels};
use winterledger::load::{self, CoolingNeed, DuctLine, Schedule, SetBack};
use winterledger::simulation::design::{Changeover, DefrostAux, ZoneDesign};
use winterledger::simulation::tempering::Tempering as OursTempering;

fn ours_point(level: Level) -> Point {
    Point { capacity_kw: level.capacity, power_kw: level.power }
}

fn ours_map(pump: &HeatPump, fan_warmth: f64) -> PerformanceMap {
    let row = |row: &Row| {
        let greatest = ours_point(row.greatest);
        MapRow {
            outdoor_c: row.outdoor,
            least: row.least.map_or(greatest, ours_point),
            rated: row.rated.map_or(greatest, ours_point),
            greatest,
        }
    };
    let map = PerformanceMap::new(pump.rows.iter().map(row).collect()).unwrap();
    let map = if pump.steady_basis { map.charged_for_frost() } else { map };
    map.map_rows(|r| r.with_fan_warmth(fan_warmth))
}

fn ours_cooling(machine: &CoolingMachine) -> ours::Cooling {
    ours::Cooling {
        map: ours_map(&machine.pump, 0.0),
        cycling_loss: machine.pump.cycling_loss,
        sensible_heat_ratio: machine.sensible_share,
        fan_kw: machine.pump.fan,
    }
}

fn ours_machine(placed: &Placed, zone_ducts: f64) -> ours::Machine {
    let always = |row| ours::Heating::of(PerformanceMap::new(vec![row]).unwrap());
    let (kind, fuel, heating, standby_kw) = match &placed.machine {
        Machine::HeatPump(pump) => {
            let heating = ours::Heating {
                map: ours_map(pump, pump.fan),
                cycling_loss: pump.cycling_loss,
                cut_out_c: pump.cut_out,
                cut_on_c: pump.cut_on,
                fan_kw: pump.fan,
                ..always(furnace_row(1.0, 1.0, 0.0, 1.0))
            };
            (MachineKind::HeatPump, FuelId::ELECTRICITY, heating, pump.standby)
        }
        Machine::Furnace(f) => {
            let natural_gas = Fuels::built_in().unwrap().find("natural_gas").unwrap();
            let row = furnace_row(f.input * f.altitude_factor, f.afue, f.blower, 1.0);
            let pilot = (f.pilot > 0.0).then_some(ours::Pilot { kw: f.pilot, lit: None });
            let heating = ours::Heating { fan_kw: f.blower, pilot, ..always(row) };
            (MachineKind::Furnace, f.store.map_or(natural_gas, stored), heating, 0.0)
        }
        Machine::Resistance(kw) => {
            (MachineKind::Resistance, FuelId::ELECTRICITY, always(furnace_row(*kw, 1.0, 0.0, 1.0)), 0.0)
        }
    };
    ours::Machine {
        ducted: placed.duct_efficiency == zone_ducts,
        standby_kw,
        heating: Some(heating),
        outdoor_unit: placed.unit,
        daily_fuelling_kwh: match &placed.machine {
            Machine::Furnace(f) => Some(f.daily).filter(|kwh| kwh.is_finite()),
            _ => None,
        },
        ..ours::Machine::new("", kind, fuel)
    }
}

/// One zone as the program takes it; its machines go onto the list.
pub(super) fn ours_zone(
    zone: &Zone,
    clock: &Clock,
    machines: &mut Vec<ours::Machine>,
) -> (load::Zone, ZoneDesign) {
    let first = machines.len();
    machines.extend(zone.machines().iter().map(|m| ours_machine(m, clock.duct_efficiency)));
    let heaters = (first..machines.len()).collect();
    let cooling_machine = zone.cooling.as_ref().and_then(|c| c.machine.as_ref());
    let cooler = cooling_machine.map(|machine| {
        let cooling = Some(ours_cooling(machine));
        if machine.is_the_lead {
            machines[first].cooling = cooling;
            return first;
        }
        let mut own = machines[first].clone();
        own.kind = MachineKind::AirConditioner;
        own.standby_kw = machine.pump.standby;
        (own.heating, own.cooling, own.outdoor_unit) = (None, cooling, machine.unit);
        machines.push(own);
        machines.len() - 1
    });
    let set_back = |&(from, to, set_point_c): &(u32, u32, f64)| SetBack {
        from_minute: from * 60,
        to_minute: to * 60,
        set_point_c,
    };
    let ours = load::Zone {
        name: String::new(),
        loss_kw_k: zone.loss,
        gains_kw: zone.gains,
        heat_capacity_kwh_k: zone.heat_capacity,
        indoor_c: clock.set_point,
        design_temperature_c: -20.0,
        balance_temperature_c: clock.set_point - zone.gains / zone.loss,
        heating: Schedule {
            set_point_c: clock.set_point,
            set_backs: clock.set_backs.iter().map(set_back).collect(),
        },
        vent_c: zone.vent,
        cooling: zone.cooling.as_ref().map(|c| CoolingNeed {
            loss_kw_k: c.loss,
            gains_kw: c.gains,
            balance_temperature_c: c.balance,
            set_point_c: c.set_point,
            design_temperature_c: 35.0,
        }),
        duct_efficiency: clock.duct_efficiency,
        duct_line: clock.form.map(|form| DuctLine {
            kept: form.kept,
            lost_kw_k: form.lost_each_kelvin,
            room_c: form.room,
            ambient_c: form.around,
            ducts: None,
        }),
    };
    let changeover = ours_changeover(zone);
    let (defrost_aux, tempering) = ours_tempering(zone);
    (ours, ZoneDesign { heaters, cooler, changeover, defrost_aux, tempering, ..ZoneDesign::default() })
}

fn ours_changeover(zone: &Zone) -> Option<Changeover> {
    zone.alternate.as_ref().map(|alternate| Changeover {
        compressor_lockout_c: Some(alternate.lock_out).filter(|t| t.is_finite()),
        whole_hour: alternate.whole_hour,
        on_cost: None,
    })
}

fn ours_tempering(zone: &Zone) -> (Option<DefrostAux>, Option<OursTempering>) {
    let Some(tempering) = &zone.tempering else { return (None, None) };
    let share_of_running = tempering.minutes / tempering.of_minutes;
    if let Some(kw) = tempering.strips {
        let bank = tempering.bank.map(|i| 1 + usize::from(zone.alternate.is_some()) + i);
        return (Some(DefrostAux { kw, share_of_running, bank }), None);
    }
    let alternate = zone.alternate.as_ref().filter(|a| matches!(a.placed.machine, Machine::Furnace(_)));
    let beside = || Some(1 + usize::from(zone.alternate.is_some()) + tempering.bank?);
    let Some(place) = alternate.map(|_| 1).or_else(beside) else { return (None, None) };
    let Machine::Furnace(furnace) = &zone.machines()[place].machine else { return (None, None) };
    let by_furnace = OursTempering {
        place,
        share_of_running,
        heat_kw: furnace.full() * share_of_running,
        draw_kw: furnace.burning() * share_of_running,
        side_kw: furnace.blower * share_of_running,
    };
    (None, Some(by_furnace))
}

/// The unit as the first of the program's machines, where the heads look for it.
pub(super) fn ours_unit(unit: &OutdoorUnit) -> ours::Machine {
    ours::Machine {
        heating: Some(ours::Heating {
            cut_out_c: unit.heating.cut_out,
            cut_on_c: unit.heating.cut_on,
            ..ours::Heating::of(ours_map(&unit.heating, 0.0))
        }),
        cooling: unit.cooling.as_ref().map(|rows| ours::Cooling::of(ours_map(rows, 0.0))),
        ..ours::Machine::new("", MachineKind::OutdoorUnit, FuelId::ELECTRICITY)
    }
}
