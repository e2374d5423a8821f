//! Why something is charged; worded elsewhere.
//!
//! Start at [`Reason`].

use super::charge::Charge;

/// Why a posting is there.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub enum Reason {
    /// Due whatever is used.
    FixedCharge,
    /// Rent of a tank.
    Rent,
    /// Energy used.
    Energy {
        /// The place of its rate among the fuel's.
        rate: usize,
        /// The place of its tier in the rate.
        tier: usize,
        /// What spikes multiplied the price by; 1 without one.
        spike: f64,
    },
    /// What is added to the price of energy by the year's use.
    YearlyUse,
    /// The largest hourly mean of the month.
    Demand,
    /// A charge on energy: its place among the fuel's riders.
    Rider(usize),
    /// Tax on everything else.
    Tax,
    /// What a store of a delivered fuel brings with it.
    Store(Charge),
}

impl Reason {
    /// Whether it stands for fuel that was used, once for each unit.
    pub fn is_energy(&self) -> bool {
        match self {
            Self::Energy { .. } => true,
            Self::Store(charge) => charge.is_fuel(),
            _ => false,
        }
    }
}
