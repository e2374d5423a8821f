//! What energy and money are spent on, in the order in which uses share a bill.
//!
//! Start at [`EndUse`].

use serde::Serialize;

/// What a use of fuel, or a charge, is for. The order is the order in which uses stack on a bill.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum EndUse {
    /// Lights, refrigeration and all electricity that no other use counts.
    Base,
    /// Hot water.
    HotWater,
    /// Cooking.
    Cooking,
    /// Drying clothes.
    Drying,
    /// Machines that wait.
    Standby,
    /// Cooling.
    Cooling,
    /// Heat from the machines that are there to give it.
    SpaceHeating,
    /// Resistance heat that adds what another machine lacks.
    BackupHeat,
    /// Due whatever is used.
    FixedCharge,
    /// Rent of a tank.
    Rent,
    /// Bringing a fuel to the house, the fuel itself left out.
    Delivery,
    /// Fuel that a year took out of the store, or put into it.
    StockChange,
}

impl EndUse {
    /// Uses that draw energy, in stacking order.
    pub const DRAWING: [Self; 8] = [
        Self::Base,
        Self::HotWater,
        Self::Cooking,
        Self::Drying,
        Self::Standby,
        Self::Cooling,
        Self::SpaceHeating,
        Self::BackupHeat,
    ];

    /// Whether it is heat for the rooms.
    pub fn is_heating(self) -> bool {
        matches!(self, Self::SpaceHeating | Self::BackupHeat)
    }

    /// The place in the stacking order, from 0.
    pub fn place(self) -> usize {
        self as usize
    }
}
