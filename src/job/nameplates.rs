//! The `nameplate` of a machine as typed; field names are the keys.
//!
//! Must never know what a machine does. Start at [`NameplateSection`].

use super::typed::Typed;
use crate::units::Power;

/// `nameplate = { ... }`: what a machine's label says, where its own table is not at hand.
#[derive(Debug, Clone, PartialEq)]
pub struct NameplateSection {
    /// Heating keys; a heat pump always has them.
    pub heating: Option<HeatingPlateSection>,
    /// Cooling keys; an air conditioner always has them.
    pub cooling: Option<CoolingPlateSection>,
    /// `turndown`: least output as a share of the greatest, 0.1 to 1; 1 is one speed.
    pub turndown: Typed<f64>,
}

/// What a label says of heating.
#[derive(Debug, Clone, PartialEq)]
pub struct HeatingPlateSection {
    /// `capacity_47`: greatest output at 47 °F outdoors, more than 0.
    pub capacity_47: Typed<Power>,
    /// `capacity_17`: at 17 °F.
    pub capacity_17: Typed<Power>,
    /// `capacity_5`: at 5 °F.
    pub capacity_5: Option<Typed<Power>>,
    /// `hspf2`: 3.5 to 20 Btu/Wh.
    pub hspf2: Typed<f64>,
}

/// What a label says of cooling.
#[derive(Debug, Clone, PartialEq)]
pub struct CoolingPlateSection {
    /// `cooling_capacity_95`: greatest total output at 95 °F outdoors, more than 0.
    pub cooling_capacity_95: Typed<Power>,
    /// `seer2`: 5 to 50 Btu/Wh.
    pub seer2: Typed<f64>,
}
