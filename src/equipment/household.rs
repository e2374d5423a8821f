//! Machines for hot water, drying and cooking: a day's or a load's heat into energy of their fuel.
//!
//! Knows neither hours nor how much anyone uses. Start at [`HouseholdMachine`].

use crate::fuel::FuelId;

/// A machine that is there for the people, not for the rooms.
#[derive(Debug, Clone, PartialEq)]
pub struct HouseholdMachine {
    /// The job's name for it.
    pub name: String,
    /// The fuel of its main draw.
    pub fuel: FuelId,
    /// What it does.
    pub kind: HouseholdKind,
}

/// What a household machine does.
#[derive(Debug, Clone, PartialEq)]
pub enum HouseholdKind {
    /// Heats water.
    WaterHeater(WaterHeater),
    /// Dries clothes.
    Dryer {
        /// Energy of its fuel for one load, kWh (HHV).
        load_kwh: f64,
        /// Electricity beside a burner for one load, kWh.
        side_kwh: f64,
    },
    /// Cooks.
    Range {
        /// Heat that reaches the food over energy drawn, above 0 to 1.
        efficiency: f64,
    },
}

/// What a water heater is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WaterForm {
    /// A tank with a burner or elements.
    Tank,
    /// It heats the water as it flows.
    Tankless,
    /// A tank with a heat pump of its own.
    HeatPump,
}

/// How a water heater works.
#[derive(Debug, Clone, PartialEq)]
pub struct WaterHeater {
    /// What it is.
    pub form: WaterForm,
    /// Heat in the water that is drawn over energy taken, standing losses counted: the uniform energy
    /// factor of its label; of a heat pump above 1.
    pub efficiency: f64,
    /// What it burns or draws at most, kW, if the job says.
    pub input_kw: Option<f64>,
    /// The zone whose air it cools, if it is a heat pump inside.
    pub cools_zone: Option<String>,
}

impl WaterHeater {
    /// Heat (kW) taken from the room's air while it puts `heat_kw` into water: `(1 − 1/COP)` of it, the
    /// efficiency standing for the COP; 0 for all but a heat pump inside.
    ///
    /// ```
    /// use winterledger::equipment::household::{WaterForm, WaterHeater};
    /// let (form, cools_zone) = (WaterForm::HeatPump, Some("main".into()));
    /// let inside = WaterHeater { form, efficiency: 4.0, input_kw: None, cools_zone };
    /// assert_eq!(inside.taken_kw(0.4), 0.4 * 0.75); // hand-worked: 1 − 1/4
    /// assert_eq!(WaterHeater { cools_zone: None, ..inside }.taken_kw(0.4), 0.0);
    /// ```
    pub fn taken_kw(&self, heat_kw: f64) -> f64 {
        if self.cools_zone.is_some() { heat_kw * (1.0 - 1.0 / self.efficiency) } else { 0.0 }
    }
}
