//! A month's bill of one fuel: every use charged at the price of its days.
//!
//! Start at [`month_lines`].

use crate::calendar::Stamp;
use crate::prices::{FuelPrice, PriceOfDay};
use crate::simulation::EndUse;
use crate::simulation::sums::EnergyByDay;

/// One line of a bill: a use at one price.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BillLine {
    /// What the fuel was used for.
    pub end_use: EndUse,
    /// Fuel used, kWh (HHV).
    pub kwh: f64,
    /// The price it was charged at.
    pub price: PriceOfDay,
}

impl BillLine {
    /// What the line costs.
    pub fn amount(&self) -> f64 {
        self.kwh * self.price.per_kwh()
    }
}

/// The lines of one month (1 to 12), uses in stacking order, days of one price together.
///
/// A price that depends on the day alone charges a use the same whatever was used before it, so the
/// bill through a use less the bill before it is the use's own charge.
pub fn month_lines(price: &FuelPrice, energy: &EnergyByDay, month: u8) -> Vec<BillLine> {
    let mut lines = Vec::new();
    for end_use in EndUse::DRAWING {
        let mut of_use: Vec<BillLine> = Vec::new();
        let days = energy.days_of_month(price.fuel, end_use, month);
        for (day, kwh) in (1_u8..).zip(days).filter(|(_, kwh)| **kwh != 0.0) {
            let today = price.on(Stamp { month, day, hour: 0, weekday: 0 });
            match of_use.iter_mut().find(|line| line.price == today) {
                Some(line) => line.kwh += kwh,
                None => of_use.push(BillLine { end_use, kwh: *kwh, price: today }),
            }
        }
        lines.extend(of_use);
    }
    lines
}
