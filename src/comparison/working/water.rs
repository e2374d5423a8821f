//! What a heat pump water heater inside takes from its zone in a moment.
//!
//! Start at [`WaterFacts::at`].

use crate::load::Zone;
use crate::simulation::household::HotWater;

/// A water heater that cools its zone: `taken = heat·(1 − 1/efficiency)`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WaterFacts {
    /// Hot water used, litres a day.
    pub litres_a_day: f64,
    /// How warm it leaves the heater, °C.
    pub hot_c: f64,
    /// How cold it comes in, °C; without a date, on the mean of the year.
    pub cold_c: f64,
    /// Heat put into it, kW.
    pub heat_kw: f64,
    /// Heat for each kW drawn.
    pub efficiency: f64,
    /// What of the heat is the room's, kW.
    pub taken_kw: f64,
    /// The zone's gains before that, kW.
    pub gains_kw: f64,
}

impl WaterFacts {
    /// At an outdoor temperature and with water that comes in so cold, both °C.
    pub(super) fn at(hot: &HotWater, zone: &Zone, (outdoor_c, cold_c): (f64, f64)) -> Self {
        let heat_kw = hot.heat_kw(cold_c);
        let cooling = zone.cooling.filter(|c| outdoor_c > c.balance_temperature_c);
        Self {
            litres_a_day: hot.litres_a_day,
            hot_c: hot.hot_c,
            cold_c,
            heat_kw,
            efficiency: hot.heater.efficiency,
            taken_kw: hot.heater.taken_kw(heat_kw),
            gains_kw: cooling.map_or(zone.gains_kw, |c| c.gains_kw),
        }
    }
}
