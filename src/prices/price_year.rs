//! A year of prices: flat or by month, with named spikes by the day, and a fixed charge a month.
//!
//! Knows nothing of use. Start at [`FuelPrice`].

use crate::calendar::{MonthDay, Stamp};
use crate::fuel::FuelId;

/// The price of one fuel through the year. Amounts are in the job's currency.
#[derive(Debug, Clone, PartialEq)]
pub struct FuelPrice {
    /// The fuel.
    pub fuel: FuelId,
    /// Due each month whatever is used.
    pub fixed_per_month: f64,
    /// Price of one kWh (HHV), January to December, before spikes.
    pub by_month: [f64; 12],
    /// Days on which the price is multiplied.
    pub spikes: Vec<Spike>,
    /// What the job says of where the price comes from.
    pub source: Option<String>,
}

/// A named span of days on which a price is multiplied.
#[derive(Debug, Clone, PartialEq)]
pub struct Spike {
    /// The job's name for it.
    pub name: String,
    /// First day.
    pub first: MonthDay,
    /// Last day, included.
    pub last: MonthDay,
    /// The factor, above 0.
    pub times: f64,
}

/// The price on one day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PriceOfDay {
    /// Price of one kWh (HHV) before spikes.
    pub base_per_kwh: f64,
    /// Product of the spikes that hold on the day; 1 without one.
    pub spike_factor: f64,
}

impl PriceOfDay {
    /// What one kWh costs.
    pub fn per_kwh(&self) -> f64 {
        self.base_per_kwh * self.spike_factor
    }
}

impl FuelPrice {
    /// The price on the day of `stamp` by the clock on the wall; several spikes multiply.
    pub fn on(&self, stamp: Stamp) -> PriceOfDay {
        let month = usize::from(stamp.month).saturating_sub(1);
        PriceOfDay {
            base_per_kwh: self.by_month.get(month).copied().unwrap_or_default(),
            spike_factor: self
                .spikes
                .iter()
                .filter(|s| s.first.through(s.last, stamp))
                .map(|s| s.times)
                .product(),
        }
    }

    /// What one more kWh costs in the hour of `stamp`.
    pub fn marginal(&self, stamp: Stamp) -> f64 {
        self.on(stamp).per_kwh()
    }

    /// The one price of all the year, or `None` if it varies.
    pub fn flat(&self) -> Option<f64> {
        let first = *self.by_month.first()?;
        (self.spikes.is_empty() && self.by_month.iter().all(|p| *p == first)).then_some(first)
    }
}

/// The prices of all fuels of a job.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Prices(pub Vec<FuelPrice>);

impl Prices {
    /// The price of `fuel`, if the job gives one.
    pub fn of(&self, fuel: FuelId) -> Option<&FuelPrice> {
        self.0.iter().find(|p| p.fuel == fuel)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_spike_holds_from_its_first_to_its_last_day_and_several_multiply() {
        let day = |month, day| MonthDay { month, day };
        let spike = |first, last, times| Spike { name: "cold".into(), first, last, times };
        let price = FuelPrice {
            fuel: FuelId::ELECTRICITY,
            fixed_per_month: 0.0,
            by_month: [0.1; 12],
            spikes: vec![spike(day(1, 10), day(2, 28), 2.0), spike(day(2, 28), day(3, 1), 1.5)],
            source: None,
        };
        let at = |month, day| price.marginal(Stamp { month, day, hour: 12, weekday: 0 });
        // Hand-worked.
        assert_eq!((at(1, 9), at(1, 10), at(3, 1), at(3, 2)), (0.1, 0.2, 0.1 * 1.5, 0.1));
        assert!((at(2, 28) - 0.3).abs() < 1e-15);
        assert_eq!(price.flat(), None);
    }
}
