//! The prices of a fuel through the year: what energy costs at an hour, and what is due beside it.
//!
//! Knows nothing of use. Start at [`FuelPrice`].

use super::moves::Moves;
use super::rate::{ClockHours, Rate};
use crate::calendar::{Calendar, MonthDay, Stamp, TYPICAL_YEAR};
use crate::fuel::FuelId;

/// The prices of one fuel, or of one meter of it, through the year. Amounts are in the job's currency.
#[derive(Debug, Clone, PartialEq)]
pub struct FuelPrice {
    /// The fuel.
    pub fuel: FuelId,
    /// Which uses of it are charged so.
    pub meter: Meter,
    /// Due each month whatever is used.
    pub fixed_per_month: f64,
    /// Rent of the tank for each month.
    pub rent_per_month: f64,
    /// Prices of energy; in each hour the first that holds. They cover every hour of the year.
    pub rates: Vec<Rate>,
    /// Days on which the price of energy is multiplied.
    pub spikes: Vec<Spike>,
    /// Days that count as weekend.
    pub holidays: Vec<MonthDay>,
    /// What is added to the price of one kWh by the year's use; limits rise, the last is infinite.
    pub by_yearly_use: Vec<YearlyUse>,
    /// For each kW of the largest hourly mean of a month.
    pub demand_per_kw: f64,
    /// Named charges on energy.
    pub riders: Vec<Rider>,
    /// Share of everything else that is added as tax.
    pub tax: f64,
    /// Mean prices of one kWh in winters gone by, each with its name.
    pub past: Vec<(String, f64)>,
    /// What the job says of where the price comes from.
    pub source: Option<String>,
    /// How it departs from all this by chance, where the job says so.
    pub moves: Option<Moves>,
}

/// Which uses of a fuel a price is for.
#[derive(Debug, Clone, PartialEq)]
pub enum Meter {
    /// All that no meter of its own charges.
    Main,
    /// Heating, in options that heat with the fuel.
    Heating {
        /// Hours in which the machines on it are switched off; backup heat is on the main meter then.
        interrupted: Vec<ClockHours>,
    },
}

/// What is added to a price where a year's use stays within a limit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct YearlyUse {
    /// The year's use up to which it holds, kWh; infinity for the last.
    pub up_to_kwh: f64,
    /// What is added to the price of one kWh.
    pub add_per_kwh: f64,
}

/// A named charge on energy.
#[derive(Debug, Clone, PartialEq)]
pub struct Rider {
    /// The job's name for it.
    pub name: String,
    /// What it comes to.
    pub charge: RiderCharge,
}

/// What a rider charges.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum RiderCharge {
    /// So much for each kWh.
    PerKwh(f64),
    /// A share of what the energy costs.
    Share(f64),
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

impl Spike {
    /// Whether it holds on every day.
    pub fn is_all_year(&self) -> bool {
        (self.first, self.last) == (MonthDay::FIRST, MonthDay::LAST)
    }
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
    /// One price all year and nothing beside it.
    pub fn flat(fuel: FuelId, per_kwh: f64) -> Self {
        Self {
            fuel,
            meter: Meter::Main,
            fixed_per_month: 0.0,
            rent_per_month: 0.0,
            rates: vec![Rate::flat(per_kwh)],
            spikes: Vec::new(),
            holidays: Vec::new(),
            by_yearly_use: Vec::new(),
            demand_per_kw: 0.0,
            riders: Vec::new(),
            tax: 0.0,
            past: Vec::new(),
            source: None,
            moves: None,
        }
    }

    /// The place of the rate that holds in the hour of `stamp` by the clock on the wall.
    pub fn rate_at(&self, stamp: Stamp) -> usize {
        let is_weekend = self.is_weekend(stamp);
        self.rates.iter().position(|rate| rate.holds(stamp, is_weekend)).unwrap_or_default()
    }

    /// Whether the day of `stamp` is a Saturday, a Sunday or a holiday.
    pub fn is_weekend(&self, stamp: Stamp) -> bool {
        let today = MonthDay { month: stamp.month, day: stamp.day };
        stamp.weekday >= 5 || self.holidays.contains(&today)
    }

    /// Whether machines on this meter are switched off in the hour of `stamp`.
    pub fn is_interrupted(&self, stamp: Stamp) -> bool {
        let Meter::Heating { interrupted } = &self.meter else { return false };
        let is_weekend = self.is_weekend(stamp);
        interrupted.iter().any(|hours| hours.hold(stamp, is_weekend))
    }

    /// The places of the spikes that hold on the day of `stamp`, in order.
    pub fn spikes_at(&self, stamp: Stamp) -> impl Iterator<Item = usize> {
        let holds = move |(_, spike): &(usize, &Spike)| spike.first.through(spike.last, stamp);
        self.spikes.iter().enumerate().filter(holds).map(|(place, _)| place)
    }

    /// The product of the spikes that hold on the day of `stamp`; 1 without one.
    pub fn spike_factor(&self, stamp: Stamp) -> f64 {
        let holds = self.spikes_at(stamp).filter_map(|place| self.spikes.get(place));
        holds.map(|spike| spike.times).product()
    }

    /// Whether it is that of a meter for heating alone.
    pub fn is_heating(&self) -> bool {
        self.meter != Meter::Main
    }

    /// Whether energy costs the same in all hours of a day.
    pub fn is_by_day(&self) -> bool {
        self.rates.iter().all(|rate| rate.hours.is_none())
    }

    /// The price of energy on the day of `stamp`, for a fuel whose price is by the day.
    pub fn on(&self, stamp: Stamp) -> PriceOfDay {
        let rate = self.rates.get(self.rate_at(stamp));
        PriceOfDay {
            base_per_kwh: rate.map_or(0.0, |rate| rate.per_kwh(0.0)),
            spike_factor: self.spike_factor(stamp),
        }
    }

    /// What one more kWh costs in the hour of `stamp` when so many have been used in the month: energy,
    /// riders and tax. Demand and what the year's use adds are no part of it.
    pub fn marginal(&self, stamp: Stamp, month_to_date_kwh: f64) -> f64 {
        let rate = self.rates.get(self.rate_at(stamp));
        let energy = rate.map_or(0.0, |rate| rate.per_kwh(month_to_date_kwh)) * self.spike_factor(stamp);
        let riders = self.riders.iter().map(|rider| match rider.charge {
            RiderCharge::PerKwh(price) => price,
            RiderCharge::Share(share) => share * energy,
        });
        (energy + riders.sum::<f64>()) * (1.0 + self.tax)
    }

    /// What is added to the price of one kWh where so many are used in a year.
    pub fn add_per_kwh(&self, yearly_kwh: f64) -> f64 {
        let step = self.by_yearly_use.iter().find(|step| yearly_kwh <= step.up_to_kwh);
        step.or(self.by_yearly_use.last()).map_or(0.0, |step| step.add_per_kwh)
    }

    /// Whether what a use is charged depends on what else is used: tiers or demand.
    pub fn depends_on_use(&self) -> bool {
        self.demand_per_kw != 0.0 || self.has_tiers()
    }

    /// Whether the price of energy depends on the month's use.
    pub fn has_tiers(&self) -> bool {
        self.rates.iter().any(|rate| rate.tiers.len() > 1)
    }

    /// The same, but all energy costs so many times as much.
    #[must_use]
    pub fn times(mut self, factor: f64) -> Self {
        let name = String::new();
        self.spikes.push(Spike { name, first: MonthDay::FIRST, last: MonthDay::LAST, times: factor });
        self
    }

    /// The same without its spikes.
    #[must_use]
    pub fn without_spikes(mut self) -> Self {
        self.spikes.clear();
        self
    }

    /// The one price of energy of all the year, or `None` if it depends on day, hour or the month's use.
    pub fn one_price(&self) -> Option<f64> {
        let [rate] = self.rates.as_slice() else { return None };
        let [tier] = rate.tiers.as_slice() else { return None };
        let all_year = self.spikes.iter().all(Spike::is_all_year);
        let always = all_year && self.demand_per_kw == 0.0 && !self.is_heating();
        let times: f64 = self.spikes.iter().map(|spike| spike.times).product();
        always.then_some(tier.per_kwh * times)
    }

    /// Every price that energy can have, spikes left out.
    pub fn tier_prices(&self) -> impl Iterator<Item = f64> + '_ {
        self.rates.iter().flat_map(|rate| &rate.tiers).map(|tier| tier.per_kwh)
    }

    /// As [`Self::mean_marginal`], riders and tax left out.
    pub fn mean_energy(&self) -> f64 {
        Self { riders: Vec::new(), tax: 0.0, ..self.clone() }.mean_marginal()
    }

    /// What one more kWh costs on the mean of the hours of a year, first tier, spikes of some days left out.
    pub fn mean_marginal(&self) -> f64 {
        let mut plain = self.clone();
        plain.spikes.retain(Spike::is_all_year);
        let year = Calendar::of_one_year(TYPICAL_YEAR, 8760, 0.0, None);
        let sum: f64 = year.stamps().iter().map(|stamp| plain.marginal(*stamp, 0.0)).sum();
        sum / 8760.0
    }
}

/// The prices of all fuels of a job.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Prices(pub Vec<FuelPrice>);

impl Prices {
    /// The price of `fuel` on its main meter, if the job gives one.
    pub fn of(&self, fuel: FuelId) -> Option<&FuelPrice> {
        self.0.iter().find(|p| p.fuel == fuel && !p.is_heating())
    }

    /// The price of heating with `fuel`, if the job gives it a meter of its own.
    pub fn of_heating(&self, fuel: FuelId) -> Option<&FuelPrice> {
        self.0.iter().find(|p| p.fuel == fuel && p.is_heating())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_spike_holds_from_its_first_to_its_last_day_and_several_multiply() {
        let day = |month, day| MonthDay { month, day };
        let spike = |first, last, times| Spike { name: "cold".into(), first, last, times };
        let spikes = vec![spike(day(1, 10), day(2, 28), 2.0), spike(day(2, 28), day(3, 1), 1.5)];
        let price = FuelPrice { spikes, ..FuelPrice::flat(FuelId::ELECTRICITY, 0.1) };
        let at = |month, day| price.marginal(Stamp { month, day, hour: 12, weekday: 0 }, 0.0);
        // Hand-worked.
        assert_eq!((at(1, 9), at(1, 10), at(3, 1), at(3, 2)), (0.1, 0.2, 0.1 * 1.5, 0.1));
        assert!((at(2, 28) - 0.3).abs() < 1e-15);
        assert_eq!(price.one_price(), None);
    }

    #[test]
    fn one_more_unit_costs_its_riders_and_its_tax() {
        let rider = |charge| Rider { name: "r".into(), charge };
        let riders = vec![rider(RiderCharge::PerKwh(0.01)), rider(RiderCharge::Share(0.03))];
        let price = FuelPrice { riders, tax: 0.05, ..FuelPrice::flat(FuelId::ELECTRICITY, 0.2) };
        let noon = Stamp { month: 1, day: 1, hour: 12, weekday: 0 };
        // Hand-worked: (0.2 + 0.01 + 0.006) × 1.05.
        assert!((price.marginal(noon, 0.0) - 0.2268).abs() < 1e-15);
    }
}
