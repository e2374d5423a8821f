//! `[household]` and the machines for hot water, drying and cooking as typed; field names are the keys.
//!
//! Must never know how much fuel any of it takes. Start at [`HouseholdSection`].

use super::typed::Typed;
use crate::units::{Energy, Power, Temperature, WaterUse, YearlyEnergy};

/// `[household]`: what people use beside heating and cooling; every key may be left out.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct HouseholdSection {
    /// `base_electricity`: lights, refrigeration and all else that no other key counts.
    pub base_electricity: Option<Typed<YearlyEnergy>>,
    /// `hot_water_use`: always there when `hot_water` is.
    pub hot_water_use: Option<Typed<WaterUse>>,
    /// `hot_water_temperature`: at which it leaves the heater.
    pub hot_water_temperature: Option<Typed<Temperature>>,
    /// `mains_temperature`: of the cold water, all year.
    pub mains_temperature: Option<Typed<Temperature>>,
    /// `dryer_loads_a_week`: always there when `dryer` is.
    pub dryer_loads_a_week: Option<Typed<f64>>,
    /// `cooking`: heat that reaches the food; always there when `range` is.
    pub cooking: Option<Typed<YearlyEnergy>>,
    /// `hot_water`, `dryer` and `range`: the machines of every option that names no other.
    pub machines: HouseholdMachines,
}

/// Names of the machines for hot water, drying and cooking.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct HouseholdMachines {
    /// `hot_water`: a water heater.
    pub hot_water: Option<Typed<String>>,
    /// `dryer`: a dryer.
    pub dryer: Option<Typed<String>>,
    /// `range`: a range.
    pub range: Option<Typed<String>>,
}

/// Keys of a water heater.
#[derive(Debug, Clone, PartialEq)]
pub struct WaterHeaterSection {
    /// `form`.
    pub form: Typed<WaterHeaterForm>,
    /// `fuel`: a fuel's id; electricity where none is typed, which only a heat pump may leave out.
    pub fuel: Option<Typed<String>>,
    /// `efficiency`: heat in the water over energy drawn; 0.3 to 1, of a heat pump 1 to 6.
    pub efficiency: Typed<f64>,
    /// `input`: what it burns or draws at most.
    pub input: Option<Typed<Power>>,
    /// `location`; always there for a heat pump.
    pub location: Option<Typed<Location>>,
    /// `zone`: the zone whose air a heat pump cools.
    pub zone: Option<Typed<String>>,
}

/// `form` of a water heater.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WaterHeaterForm {
    /// A tank with a burner or elements.
    Tank,
    /// It heats the water as it flows.
    Tankless,
    /// A tank with a heat pump of its own.
    HeatPump,
}

/// `location` of a water heater.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Location {
    /// In the heated space.
    Inside,
    /// Outdoors, in a garage or an unheated cellar.
    Outside,
}

/// Keys of a clothes dryer.
#[derive(Debug, Clone, PartialEq)]
pub struct DryerSection {
    /// `fuel`: a fuel's id.
    pub fuel: Typed<String>,
    /// `energy_per_load`: of its fuel, more than 0.
    pub energy_per_load: Typed<Energy>,
    /// `electricity_per_load`: drum and fan beside a burner, 0 or more.
    pub electricity_per_load: Option<Typed<Energy>>,
}

/// Keys of a kitchen range.
#[derive(Debug, Clone, PartialEq)]
pub struct RangeSection {
    /// `fuel`: a fuel's id.
    pub fuel: Typed<String>,
    /// `efficiency`: heat that reaches the food over energy drawn, 0.1 to 1.
    pub efficiency: Typed<f64>,
}
