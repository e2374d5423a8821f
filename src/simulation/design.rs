//! An option as designed: which machines serve which zone, in what order and by what rule.
//!
//! Knows no weather. Start at [`OptionDesign`].

use super::household::HouseholdDesign;
use super::kernel::Worth;
use super::tempering::Tempering;
use crate::equipment::Machine;
use crate::fuel::FuelId;

/// One way to heat and cool the house.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct OptionDesign {
    /// The job's name for it.
    pub name: String,
    /// One design a zone, in the house's order of zones.
    pub zones: Vec<ZoneDesign>,
    /// What people use beside heating and cooling.
    pub household: HouseholdDesign,
}

impl OptionDesign {
    /// Every fuel that its heaters or its household use, some perhaps twice.
    pub fn fuels(&self, machines: &[Machine]) -> Vec<FuelId> {
        let heaters = self.zones.iter().flat_map(|zone| &zone.heaters);
        let heaters = heaters.filter_map(|i| machines.get(*i)).map(|machine| machine.fuel);
        heaters.chain(self.household.fuels()).collect()
    }
}

/// What serves one zone.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ZoneDesign {
    /// Heaters in order, as places in the list of machines.
    pub heaters: Vec<usize>,
    /// The cooler, as a place in the list of machines.
    pub cooler: Option<usize>,
    /// If given, the second heater takes turns with the first.
    pub changeover: Option<Changeover>,
    /// Whether backup heat is held back while the room recovers from a set-back.
    pub staged_recovery: bool,
    /// Strips that temper the air while the first heater defrosts.
    pub defrost_aux: Option<DefrostAux>,
    /// A furnace that does so instead.
    pub tempering: Option<Tempering>,
    /// Heat that a water heater takes from the zone's air on the mean of the year, kW.
    pub heat_taken_kw: f64,
    /// The same on the day of the year's coldest water.
    pub most_heat_taken_kw: f64,
    /// Heads in any zone of the option whose outdoor unit serves a head of this zone too, as places in
    /// the list of machines.
    pub heads: Vec<usize>,
    /// The same of heads that cool.
    pub cooling_heads: Vec<usize>,
}

/// How two heaters that never run at once share the year.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Changeover {
    /// Colder than this outdoors the first is locked out, °C; none means never.
    pub compressor_lockout_c: Option<f64>,
    /// Whether an hour that the first cannot carry goes wholly to the second.
    pub whole_hour: bool,
    /// If given, each hour goes to whichever heats for less: what a kWh is worth on the mean of the
    /// year, for where there are no hours.
    pub on_cost: Option<Worth<f64>>,
}

/// Strips that temper the air while a heat pump defrosts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DefrostAux {
    /// What they give and draw, kW.
    pub kw: f64,
    /// Minutes of it for each minute that the heat pump runs.
    pub share_of_running: f64,
    /// The strips, as a place among the zone's heaters, whose heat it is: while they temper they give so much
    /// less to the room beside. Nothing where it has strips of its own.
    pub bank: Option<usize>,
}

impl DefrostAux {
    /// Outdoors from here on up, frost is melted often, °C (25 °F).
    pub const FROM_C: f64 = -7.0 / 1.8;
    /// Warmer than this there is none, °C (42 °F).
    pub const TO_C: f64 = 10.0 / 1.8;
    /// A dew point further below the dry-bulb than this leaves the coil dry, K.
    pub const DRY_K: f64 = 5.0;

    /// Whether frost is melted often at `outdoor_c`; without a dew point the air counts as moist.
    ///
    /// ```
    /// use winterledger::simulation::design::DefrostAux;
    /// assert!(DefrostAux::is_frosty(0.0, Some(-2.0)) && DefrostAux::is_frosty(0.0, None));
    /// assert!(!DefrostAux::is_frosty(0.0, Some(-6.0))); // too dry for frost
    /// assert!(!DefrostAux::is_frosty(-5.0, None));
    /// ```
    pub fn is_frosty(outdoor_c: f64, dew_point_c: Option<f64>) -> bool {
        let cold = (Self::FROM_C - 1e-9..=Self::TO_C + 1e-9).contains(&outdoor_c);
        cold && dew_point_c.is_none_or(|dew| outdoor_c - dew <= Self::DRY_K)
    }

    /// Heat (kW) of it on the mean of an hour in which the heat pump runs and defrosts.
    pub fn running_kw(&self) -> f64 {
        self.kw * self.share_of_running
    }
}
