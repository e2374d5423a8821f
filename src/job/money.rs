//! Money texts: `"2.49 $/gal"` or `"18.4 c/kWh"` into an amount and what it is for.
//!
//! Must never know which units a fuel is sold in. Start at [`PriceText`].

/// An amount of money for one of something.
#[derive(Debug, Clone, PartialEq)]
pub struct PriceText {
    /// The amount in the currency's main unit (dollars, not cents); 0 or more.
    pub amount: f64,
    /// What the amount is for, as typed: `gal`, `kWh`, `month`.
    pub per: String,
}
