//! Why a store of a delivered fuel costs something; worded elsewhere.
//!
//! Start at [`Charge`].

/// Why something is due.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub enum Charge {
    /// Fuel delivered.
    Delivered,
    /// Fuel taken out of the store (or, below 0, put into it), at the mean price paid.
    StockChange,
    /// For a delivery.
    Drop,
    /// For a delivery of less than the least amount.
    SmallDrop,
    /// For an emergency delivery.
    Emergency,
    /// For the leak test after a run-out.
    LeakTest,
    /// For a year of little use.
    LowUse,
    /// For the price plan.
    PricePlan,
    /// Pre-bought fuel that nobody came to need.
    PreBoughtLost,
    /// For the tank.
    Rent,
    /// Setting the tank and fetching it, spread over so many years.
    SetAndPickUp(f64),
    /// What the mean over so many levels at the start of the year is apart from this one's.
    StartingLevels(usize),
}

impl Charge {
    /// Whether its quantity is fuel.
    pub fn is_fuel(self) -> bool {
        matches!(self, Self::Delivered | Self::StockChange)
    }
}
