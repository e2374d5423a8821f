//! An option as designed: which machines serve which zone, in what order and by what rule.
//!
//! Knows no weather. Start at [`OptionDesign`].

use super::household::HouseholdDesign;

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

/// What serves one zone.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ZoneDesign {
    /// Heaters in order, as places in the list of machines.
    pub heaters: Vec<usize>,
    /// The cooler, as a place in the list of machines.
    pub cooler: Option<usize>,
    /// If given, the second heater takes turns with the first.
    pub changeover: Option<Changeover>,
    /// Heat that a water heater takes from the zone's air on the mean of the year, kW.
    pub heat_taken_kw: f64,
}

/// How two heaters that never run at once share the year.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Changeover {
    /// Colder than this outdoors the first is locked out, °C; none means never.
    pub compressor_lockout_c: Option<f64>,
    /// Whether an hour that the first cannot carry goes wholly to the second.
    pub whole_hour: bool,
}
