//! An option as designed: which machines serve which zone, in what order and by what rule.
//!
//! Knows no weather. Start at [`OptionDesign`].

/// One way to heat and cool the house.
#[derive(Debug, Clone, PartialEq)]
pub struct OptionDesign {
    /// The job's name for it.
    pub name: String,
    /// One design a zone, in the house's order of zones.
    pub zones: Vec<ZoneDesign>,
}

/// What serves one zone.
#[derive(Debug, Clone, PartialEq)]
pub struct ZoneDesign {
    /// Heaters in order, as places in the list of machines.
    pub heaters: Vec<usize>,
    /// The cooler, as a place in the list of machines.
    pub cooler: Option<usize>,
    /// If given, the second heater takes turns with the first.
    pub changeover: Option<Changeover>,
}

/// How two heaters that never run at once share the year.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Changeover {
    /// Colder than this outdoors the first is locked out, °C; none means never.
    pub compressor_lockout_c: Option<f64>,
    /// Whether an hour that the first cannot carry goes wholly to the second.
    pub whole_hour: bool,
}
