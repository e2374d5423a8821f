//! Loads and machines out of proportion with one another, and rows with their neighbours: slips of a digit.
//!
//! Only remarks; the bounds are this program's judgement, wide enough that ordinary jobs are left alone.
//! Start at `out_of_proportion`.

use super::Parts;
use super::tenfold::OUTPUT;
use crate::equipment::map::PerformanceMap;
use crate::equipment::{Machine, MachineKind};
use crate::job::Job;
use crate::load::Zone;
use crate::simulation::design::OptionDesign;
use crate::units::{Quantity, btu_to_kwh};
use std::ops::RangeInclusive;

/// A burner that gives so many times the design load of all the zones it heats is a slip.
const TIMES_DESIGN_LOAD: f64 = 4.0;
/// Nobody buys a furnace or a boiler for less of its zone's design load: ANSI/ACCA 3 (Manual S) has them at 100 to 140 %
/// of it (from memory), and beside stoves and heat pumps one may be smaller.
const LEAST_OF_BURNER: f64 = 0.5;
/// A heat pump that gives so many times what its zones need by design, in heating and in cooling, is a slip: ANSI/ACCA 3
/// (Manual S) has it at 90 to 130 % of the cooling load, up to 15,000 Btu/h beyond it where heating counts more
/// (from memory), and kW typed for kBtu/h are 3.4 times as much.
const PUMP_TIMES_LOAD: f64 = 3.0;
/// Small heads serve small rooms, since none smaller are made: of less than so much, kW (20,000 Btu/h), nothing is asked.
const SMALL_HEAD_KW: f64 = 20_000.0 / 3412.14;
/// Nobody buys a heat pump for less of its smallest zone's design load: a digit is missing. The smallest head gives
/// about 6,000 Btu/h, which in a zone of 40,000 is just this.
const LEAST_OF_PUMP: f64 = 0.15;
/// A heat pump's greatest heating in mild weather over its greatest cooling: 0.9 to 1.5 (from memory).
const HEATING_OVER_COOLING: RangeInclusive<f64> = 0.4..=2.5;
/// Some option carries more of what a zone needs at its design temperature: people choose among machines of which one
/// at least ordinarily carries all. W typed for Btu/h make a load 3.4 times as large, of which machines that are twice
/// too large still carry 59 %.
const CARRIED: f64 = 0.75;
/// The strongest machine of a zone over the design loads of all zones that it heats (or cools, where that is more), in
/// every option: more, and it is the load that is odd. W typed as Btu/h make it 3.4 times too small; the smallest
/// furnaces sold give a tight house two to three times its load (from memory).
const STRONGEST: f64 = 3.0;
/// A cooling load counts as so many times the heating load at most, and as that where the job does not say it.
const COOLING_COUNTS: f64 = 2.5;
/// All machines of a zone together over its design load, in every option: less, and it is the load that is odd.
const ALL_TOGETHER: f64 = 0.3;
/// A cooler's sensible output over the sensible design load; small heads serve small rooms.
const COOLER: RangeInclusive<f64> = 0.25..=8.0;
/// Sensible cooling design load for each m² of floor, kW: 2.5 to 80 Btu/h for each ft².
const COOLING_KW_M2: RangeInclusive<f64> = 0.00789..=0.2524;
/// The same over the heating design load; 0.1 in the far north, 3 and more in the desert.
const COOLING_OVER_HEATING: RangeInclusive<f64> = 0.07..=8.0;
/// The greatest output of one row over that of the next colder one, less than [`NEAR_K`] away; from 17 to 47 °F
/// one speed gives about 1.6 times (from memory). What rises into the cold is asked about elsewhere.
const NEAR_ROWS: RangeInclusive<f64> = 0.0..=2.5;
/// The same further apart.
const FAR_ROWS: RangeInclusive<f64> = 0.0..=5.0;
/// 30 °F and a little.
const NEAR_K: f64 = 30.5 / 1.8;
/// The same of cooling, which gives less where it is hotter; a little more at most, where a machine is held back in
/// mild weather.
const COOLING_ROWS: RangeInclusive<f64> = 0.4..=1.25;

/// Of a cooler's total what is sensible: common practice.
const SENSIBLE: f64 = 0.75;

/// What is out of proportion.
#[derive(Debug, Clone, PartialEq)]
pub enum Disproportion {
    /// A burner that gives many times the design load of all that it heats.
    LargeForTheLoad {
        /// The machine's name.
        machine: String,
        /// How many times.
        times: f64,
    },
    /// A furnace or boiler that gives hardly any of its zone's design load.
    SmallForTheLoad {
        /// The machine's name.
        machine: String,
        /// The smallest zone that it heats.
        zone: String,
        /// What it gives of that zone's load.
        share: f64,
    },
    /// A heat pump that gives many times what its zones need.
    LargePump {
        /// The machine's name.
        machine: String,
        /// What it gives at most, kW.
        output_kw: f64,
        /// How many times the design load of its zones.
        times: f64,
    },
    /// A heat pump that gives hardly any of its zone's design load.
    SmallPump {
        /// The machine's name.
        machine: String,
        /// The smallest zone that it heats.
        zone: String,
        /// What it gives at most, kW.
        output_kw: f64,
        /// What that is of the zone's load.
        share: f64,
    },
    /// A heat pump that heats and cools with very different outputs.
    HeatsOtherThanCools {
        /// The machine's name.
        machine: String,
        /// What it heats with at most, kW.
        heating_kw: f64,
        /// What it cools with at most, kW.
        cooling_kw: f64,
    },
    /// A zone's design load that no option's machines are made for.
    LoadOfOtherMachines {
        /// The zone's name.
        zone: String,
        /// Its design load, kW.
        load_kw: f64,
        /// How many times that the machines give: the strongest of each option, or all together.
        times: f64,
    },
    /// A zone's design load that no option comes near to carrying.
    LoadThatNoneCarries {
        /// The zone's name.
        zone: String,
        /// Its design load, kW.
        load_kw: f64,
        /// The most that any option gives of what is needed at the design temperature.
        share: f64,
    },
    /// A cooling design load that goes with nothing else.
    OddCooling {
        /// The zone's name.
        zone: String,
        /// Its sensible cooling design load, kW.
        load_kw: f64,
        /// What it does not go with.
        against: CoolingAgainst,
    },
    /// Two rows of a map side by side whose greatest outputs are too far apart.
    OddRows {
        /// The machine's name.
        machine: String,
        /// The colder row's temperature, °C.
        cold_c: f64,
        /// The warmer row's, °C.
        warm_c: f64,
        /// Whether they are rows of `cooling`.
        cooling: bool,
    },
}

/// What a cooling design load does not go with.
#[derive(Debug, Clone, PartialEq)]
pub enum CoolingAgainst {
    /// The zone's floor: so many kW for each m².
    Floor(f64),
    /// The zone's heating design load: so many times that.
    Heating(f64),
    /// A cooler's sensible output.
    Cooler {
        /// The machine's name.
        machine: String,
        /// How many times the load it gives.
        times: f64,
    },
}

/// Everything that is out of proportion; `carried` is the most that any option gives of what each zone needs at its
/// design temperature. A load that its floor makes odd already (`asked_of_floor`) is not
/// asked about again.
pub(super) fn out_of_proportion(
    job: &Job,
    parts: &Parts,
    carried: &[Option<f64>],
    asked_of_floor: bool,
) -> Vec<Disproportion> {
    let mut found = Vec::new();
    let odd: Vec<Option<f64>> = (0..parts.zones.len()).map(|z| odd_load(parts, z)).collect();
    for (zone, times) in parts.zones.iter().zip(&odd).filter(|_| !asked_of_floor) {
        found.extend(times.map(|times| Disproportion::LoadOfOtherMachines {
            zone: zone.name.clone(),
            load_kw: zone.design_load_kw(),
            times,
        }));
    }
    let zones = odd.iter().enumerate().filter(|(_, odd)| !asked_of_floor && odd.is_none());
    found.extend(zones.filter_map(|(z, _)| load_that_none_carries(parts, carried, z)));
    if !asked_of_floor && found.is_empty() {
        found.extend((0..parts.machines.len()).filter_map(|i| large(parts, i)));
        found.extend((0..parts.machines.len()).filter_map(|i| small(parts, i)));
    }
    if !asked_of_floor && odd.iter().all(Option::is_none) {
        found.extend((0..parts.machines.len()).filter_map(|i| odd_pump(parts, i)));
    }
    let zones = odd.iter().enumerate();
    found.extend(zones.filter_map(|(z, odd)| odd_cooling(job, parts, z, odd.is_none())));
    for machine in &parts.machines {
        let heating = machine.heating.as_ref().and_then(|heating| odd_rows(&heating.map, false));
        let cooling = machine.cooling.as_ref().and_then(|cooling| odd_rows(&cooling.map, true));
        let both = heating.map(|rows| (rows, false)).into_iter().chain(cooling.map(|rows| (rows, true)));
        found.extend(both.map(|((cold_c, warm_c), cooling)| {
            let machine = machine.name.clone();
            Disproportion::OddRows { machine, cold_c, warm_c, cooling }
        }));
    }
    found
}

/// What a machine gives at most, kW.
fn greatest_kw(machine: &Machine) -> Option<f64> {
    Some(machine.heating.as_ref()?.map.rows().last()?.greatest.capacity_kw)
}

/// A heat pump out of proportion with the zones that it heats, else with its own cooling; what is no house's machine
/// at all is asked about elsewhere.
fn odd_pump(parts: &Parts, place: usize) -> Option<Disproportion> {
    let machine = parts.machines.get(place).filter(|m| m.kind == MachineKind::HeatPump)?;
    let ordinary = btu_to_kwh(OUTPUT.0)..=btu_to_kwh(OUTPUT.1);
    let output_kw = greatest_kw(machine).filter(|kw| ordinary.contains(kw))?;
    let name = || machine.name.clone();
    let heated = |z: &usize| {
        parts.designs.iter().any(|d| d.zones.get(*z).is_some_and(|zone| zone.heaters.contains(&place)))
    };
    let zones: Vec<&Zone> =
        (0..parts.zones.len()).filter(heated).filter_map(|z| parts.zones.get(z)).collect();
    let smallest = zones.iter().min_by(|a, b| a.design_load_kw().total_cmp(&b.design_load_kw()))?;
    let times = output_kw / zones.iter().map(|zone| largest_need_kw(zone)).sum::<f64>();
    let share = output_kw / smallest.design_load_kw();
    if times > PUMP_TIMES_LOAD && output_kw > SMALL_HEAD_KW {
        return Some(Disproportion::LargePump { machine: name(), output_kw, times });
    }
    if share < LEAST_OF_PUMP {
        let zone = smallest.name.clone();
        return Some(Disproportion::SmallPump { machine: name(), zone, output_kw, share });
    }
    let cooling_kw = machine.cooling.as_ref()?.map.rows().first()?.greatest.capacity_kw;
    let odd = !HEATING_OVER_COOLING.contains(&(output_kw / cooling_kw));
    odd.then(|| Disproportion::HeatsOtherThanCools { machine: name(), heating_kw: output_kw, cooling_kw })
}

/// The larger of a zone's design loads; its cooling one is sensible, of which a cooler gives about three quarters.
fn largest_need_kw(zone: &Zone) -> f64 {
    let cooling = zone.cooling.as_ref().map_or(0.0, |need| {
        need.loss_kw_k * (need.design_temperature_c - need.balance_temperature_c) / SENSIBLE
    });
    zone.design_load_kw().max(cooling)
}

/// How many times its design load every option's machines give to a zone, where that is far too much or little.
fn odd_load(parts: &Parts, z: usize) -> Option<f64> {
    let load_kw = parts.zones.get(z)?.design_load_kw();
    // What each machine gives, and how many times the loads of its zones that is.
    let outputs = |design: &OptionDesign| -> Vec<(f64, f64)> {
        let heaters = design.zones.get(z).map(|zone| zone.heaters.as_slice()).unwrap_or_default();
        let times = |i: &usize| {
            let kw = greatest_kw(parts.machines.get(*i)?)?;
            let cools = parts.machines.get(*i)?.cooling.is_some();
            Some((kw, kw / served_kw(parts, design, *i, |zone| made_for_kw(zone, cools))))
        };
        heaters.iter().filter_map(times).collect()
    };
    let options: Vec<Vec<(f64, f64)>> = parts.designs.iter().map(outputs).filter(|o| !o.is_empty()).collect();
    let strongest = options.iter().flat_map(|o| o.iter().map(|(_, times)| *times).max_by(f64::total_cmp));
    let least_strongest = strongest.min_by(f64::total_cmp)?;
    let together = options.iter().map(|o| o.iter().map(|(kw, _)| kw).sum::<f64>());
    let most_together = together.max_by(f64::total_cmp)? / load_kw;
    if least_strongest > STRONGEST {
        Some(least_strongest)
    } else {
        (most_together < ALL_TOGETHER).then_some(most_together)
    }
}

/// The sum over the zones that an option has a machine heat.
fn served_kw(parts: &Parts, design: &OptionDesign, machine: usize, kw: impl Fn(&Zone) -> f64) -> f64 {
    let zones = design.zones.iter().zip(&parts.zones);
    zones.filter(|(design, _)| design.heaters.contains(&machine)).map(|(_, zone)| kw(zone)).sum()
}

/// What a zone's machine is chosen for: its heating, or its cooling where that is more.
fn made_for_kw(zone: &Zone, cools: bool) -> f64 {
    let heating_kw = zone.design_load_kw();
    let need = zone.cooling.filter(|_| cools);
    let cooling_kw = need.map_or(f64::INFINITY, |need| {
        need.loss_kw_k * (need.design_temperature_c - need.balance_temperature_c)
    });
    let cooling_kw = cooling_kw.min(COOLING_COUNTS * heating_kw);
    if cools { heating_kw.max(cooling_kw) } else { heating_kw }
}

/// A load of which every option leaves a good part, each by machines of its own.
fn load_that_none_carries(parts: &Parts, carried: &[Option<f64>], z: usize) -> Option<Disproportion> {
    let share = (*carried.get(z)?).filter(|share| *share < CARRIED)?;
    let zone = parts.zones.get(z)?;
    let (zone, load_kw) = (zone.name.clone(), zone.design_load_kw());
    Some(Disproportion::LoadThatNoneCarries { zone, load_kw, share })
}

/// A burner that is far too large for all that any option gives it to heat.
fn large(parts: &Parts, i: usize) -> Option<Disproportion> {
    let machine = parts.machines.get(i)?;
    let served = parts.designs.iter().map(|design| served_kw(parts, design, i, Zone::design_load_kw));
    let load_kw = served.max_by(f64::total_cmp).filter(|kw| *kw > 0.0)?;
    let times = greatest_kw(machine).filter(|_| machine.burns())? / load_kw;
    (times > TIMES_DESIGN_LOAD)
        .then(|| Disproportion::LargeForTheLoad { machine: machine.name.clone(), times })
}

/// A furnace or boiler that could hardly begin to heat any of the zones that options give it.
fn small(parts: &Parts, i: usize) -> Option<Disproportion> {
    let machine = parts.machines.get(i)?;
    let central = matches!(machine.kind, MachineKind::Furnace | MachineKind::Boiler);
    let greatest_kw = greatest_kw(machine).filter(|_| central)?;
    let served = parts.designs.iter().flat_map(|design| design.zones.iter().zip(&parts.zones));
    let served = served.filter(|(design, _)| design.heaters.contains(&i)).map(|(_, zone)| zone);
    let zone = served.min_by(|a, b| a.design_load_kw().total_cmp(&b.design_load_kw()))?;
    let share = greatest_kw / zone.design_load_kw();
    (share < LEAST_OF_BURNER).then(|| Disproportion::SmallForTheLoad {
        machine: machine.name.clone(),
        zone: zone.name.clone(),
        share,
    })
}

/// One question at most about the cooling of a zone: against its coolers, its floor, its heating.
fn odd_cooling(job: &Job, parts: &Parts, z: usize, heating_is_well: bool) -> Option<Disproportion> {
    let (zone, typed) = (parts.zones.get(z)?, job.house.zone.get(z)?);
    let need = zone.cooling?;
    let load_kw = need.loss_kw_k * (need.design_temperature_c - need.balance_temperature_c);
    let coolers = parts.designs.iter().filter_map(|design| design.zones.get(z)?.cooler);
    let against_coolers = coolers.filter_map(|i| {
        let machine = parts.machines.get(i)?;
        let cooling = machine.cooling.as_ref()?;
        let capacity_kw = cooling.map.rows().first()?.greatest.capacity_kw;
        let times = capacity_kw * cooling.sensible_heat_ratio / load_kw;
        // A slip of the cooler's own is asked about by itself.
        let odd = capacity_kw >= btu_to_kwh(OUTPUT.0) && !COOLER.contains(&times);
        odd.then(|| CoolingAgainst::Cooler { machine: machine.name.clone(), times })
    });
    let house = job.house.floor_area.as_ref().filter(|_| parts.zones.len() == 1);
    let kw_m2 = typed.floor_area.as_ref().or(house).map(|area| load_kw / area.base());
    let against_floor = kw_m2.filter(|kw_m2| !COOLING_KW_M2.contains(kw_m2)).map(CoolingAgainst::Floor);
    let times = load_kw / zone.design_load_kw();
    let odd_beside = heating_is_well && !COOLING_OVER_HEATING.contains(&times);
    let against_heating = odd_beside.then_some(CoolingAgainst::Heating(times));
    let against = against_coolers.into_iter().next().or(against_floor).or(against_heating)?;
    Some(Disproportion::OddCooling { zone: zone.name.clone(), load_kw, against })
}

/// The temperatures (°C) of two rows side by side, cold and warm, whose greatest outputs are too far apart.
fn odd_rows(map: &PerformanceMap, cooling: bool) -> Option<(f64, f64)> {
    map.rows().windows(2).find_map(|pair| {
        let [cold, warm] = pair else { return None };
        let times = warm.greatest.capacity_kw / cold.greatest.capacity_kw;
        let ordinary = match (cooling, warm.outdoor_c - cold.outdoor_c > NEAR_K) {
            (true, _) => COOLING_ROWS,
            (false, false) => NEAR_ROWS,
            (false, true) => FAR_ROWS,
        };
        (!ordinary.contains(&times)).then_some((cold.outdoor_c, warm.outdoor_c))
    })
}
