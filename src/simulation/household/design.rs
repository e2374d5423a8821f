//! The household's uses of one option: how much of which fuel, and what hot water takes from a room.
//!
//! Knows no weather but the cold water's. Start at [`HouseholdDesign`].

use crate::equipment::{HouseholdMachine, WaterHeater};
use crate::fuel::FuelId;
use crate::load::Mains;
use crate::load::water::steady_kw;
use crate::simulation::EndUse;

/// What people use beside heating and cooling in one option; nothing by default.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct HouseholdDesign {
    /// Uses that are the same in every hour.
    pub steady: Vec<SteadyDraw>,
    /// Hot water, if the job counts it.
    pub hot_water: Option<HotWater>,
    /// The machines that do it all, as they are to be connected.
    pub machines: Vec<HouseholdMachine>,
}

/// A use that is the same in every hour of the year.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SteadyDraw {
    /// The fuel.
    pub fuel: FuelId,
    /// What it is for.
    pub end_use: EndUse,
    /// Its draw, kW (HHV).
    pub kw: f64,
}

/// Hot water, drawn evenly through the day.
#[derive(Debug, Clone, PartialEq)]
pub struct HotWater {
    /// The heater's fuel.
    pub fuel: FuelId,
    /// The heater.
    pub heater: WaterHeater,
    /// The place of the zone whose air it cools, if it does.
    pub zone: Option<usize>,
    /// Hot water used, litres a day.
    pub litres_a_day: f64,
    /// At which it leaves the heater, °C.
    pub hot_c: f64,
    /// How cold the water comes in.
    pub mains: Mains,
}

impl HotWater {
    /// Heat put into the water that is drawn, kW, where it comes in at `cold_c`.
    pub fn heat_kw(&self, cold_c: f64) -> f64 {
        steady_kw(self.litres_a_day, self.hot_c, cold_c)
    }

    /// Draw of the heater's fuel, kW, where the water comes in at `cold_c`.
    pub fn draw_kw(&self, cold_c: f64) -> f64 {
        self.heat_kw(cold_c) / self.heater.efficiency
    }

    /// Heat (kW) taken from the air of the zone of that place, on the mean of the year.
    pub fn mean_taken_kw(&self, zone: usize) -> f64 {
        self.taken_kw(zone, self.mains.mean())
    }

    /// The same on the day of the year's coldest water.
    pub fn most_taken_kw(&self, zone: usize) -> f64 {
        self.taken_kw(zone, self.mains.coldest())
    }

    fn taken_kw(&self, zone: usize, cold_c: f64) -> f64 {
        if self.zone == Some(zone) { self.heater.taken_kw(self.heat_kw(cold_c)) } else { 0.0 }
    }
}

impl HouseholdDesign {
    /// Every fuel that is used.
    pub fn fuels(&self) -> impl Iterator<Item = FuelId> + '_ {
        self.steady.iter().map(|d| d.fuel).chain(self.hot_water.iter().map(|h| h.fuel))
    }

    /// Energy used in so many hours on the mean of the year, kWh, by fuel and use.
    pub fn energy(&self, hours: f64) -> Vec<(FuelId, EndUse, f64)> {
        let steady = self.steady.iter().map(|d| (d.fuel, d.end_use, d.kw * hours));
        let hot = self.hot_water.iter();
        let hot = hot.map(|h| (h.fuel, EndUse::HotWater, h.draw_kw(h.mains.mean()) * hours));
        steady.chain(hot).collect()
    }
}
