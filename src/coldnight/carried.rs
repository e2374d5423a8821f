//! Whether an option carries a zone at an outdoor temperature, and where its first heater stops
//! sufficing.
//!
//! Steady, at the ordinary set point. Start at [`carried`].

use crate::equipment::Machine;
use crate::load::Zone;
use crate::simulation::bins::{cold_row, steady_hour};
use crate::simulation::design::ZoneDesign;

/// What a zone needs and gets at one outdoor temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Carried {
    /// Outdoor temperature, °C.
    pub outdoor_c: f64,
    /// Heat wanted in the room, kW.
    pub need_kw: f64,
    /// Heat that all heaters together bring into the room, at most the need, kW.
    pub heat_kw: f64,
    /// What the first heater could bring into the room at most, kW; a day's fuelling is spread over the day.
    pub first_capacity_kw: f64,
}

impl Carried {
    /// Share of the need that is met, 0 to 1; 1 where nothing is needed, or where no more than
    /// rounding is lacking.
    pub fn share(&self) -> f64 {
        if self.heat_kw < self.need_kw * (1.0 - 1e-9) { self.heat_kw / self.need_kw } else { 1.0 }
    }
}

/// What a zone needs and gets at `outdoor_c`; a machine between its cut-out and its cut-on counts as off.
pub fn carried(zone: &Zone, design: &ZoneDesign, machines: &[Machine], outdoor_c: f64) -> Carried {
    let row = cold_row(zone, design, machines, outdoor_c);
    Carried {
        outdoor_c,
        need_kw: row.need_kw,
        heat_kw: row.heat_kw,
        first_capacity_kw: row.capacity_in_room_kw,
    }
}

/// Hours that a day's fuelling lasts at `outdoor_c` if it burns as heat is wanted instead of spread over the
/// day, the shortest of the zone's; nothing where it lasts the day, or the others carry the zone without it.
pub fn fuelling_lasts_h(
    zone: &Zone,
    design: &ZoneDesign,
    machines: &[Machine],
    outdoor_c: f64,
) -> Option<f64> {
    let fuelled = || design.heaters.iter().filter_map(|i| machines.get(*i)?.daily_fuelling_kwh);
    fuelled().next()?;
    let changed = |change: fn(&Machine) -> Machine| {
        let machines: Vec<Machine> = machines.iter().map(change).collect();
        steady_hour(zone, design, &machines, outdoor_c)
    };
    let ample = changed(|m| Machine { daily_fuelling_kwh: None, ..m.clone() });
    let out = changed(|m| match m.daily_fuelling_kwh {
        Some(_) => Machine { heating: None, ..m.clone() },
        None => m.clone(),
    });
    let places = design.heaters.iter().zip(&ample.heaters);
    let hours = places.filter_map(|(i, output)| Some(machines.get(*i)?.daily_fuelling_kwh? / output.draw));
    let carried_without = out.heat >= out.need * (1.0 - 1e-9);
    hours.min_by(f64::total_cmp).filter(|hours| *hours < 24.0 && !carried_without)
}

/// The coldest outdoor temperature (°C) down to which the first heater alone carries the zone, or
/// nothing if it carries it to `coldest_c`.
///
/// Searched from the zone's balance temperature downwards in steps of 0.1 K, then halved to 0.001 K,
/// so that a machine that is off in between is found.
pub fn first_heater_balance_c(
    zone: &Zone,
    design: &ZoneDesign,
    machines: &[Machine],
    coldest_c: f64,
) -> Option<f64> {
    let short = |t: f64| {
        let at = carried(zone, design, machines, t);
        at.first_capacity_kw < at.need_kw
    };
    let steps = ((zone.balance_temperature_c - coldest_c) / 0.1).ceil().max(0.0) as usize;
    let at = |i: usize| zone.balance_temperature_c - 0.1 * i as f64;
    let first_short = (1..=steps).find(|i| short(at(*i)))?;
    let (mut enough, mut too_cold) = (at(first_short - 1), at(first_short));
    while enough - too_cold > 1e-3 {
        let middle = (enough + too_cold) / 2.0;
        if short(middle) { too_cold = middle } else { enough = middle }
    }
    Some(enough)
}
