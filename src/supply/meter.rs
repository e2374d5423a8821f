//! Bills: the energy of each use, hour by hour, into the lines that a supplier would write.
//!
//! Uses stack in order: each is charged the bill through it less the bill before it, so that the
//! lines of all uses sum to the bill, whatever tiers and the largest hour do. Start at
//! [`accounts`] and [`Account::lines`].

use std::ops::Range;

use super::priced_hours::PricedHours;
use super::reason::Reason;
use crate::calendar::Stamp;
use crate::fuel::{Fuel, FuelId, Fuels};
use crate::prices::{FuelPrice, Meter, Prices, RiderCharge};
use crate::simulation::{EndUse, EnergyByHour};

/// One line of a bill.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BillLine {
    /// What it is for.
    pub end_use: EndUse,
    /// Why it is there.
    pub reason: Reason,
    /// How much: selling units of the fuel, months, kW, or currency where the price is a share.
    pub quantity: f64,
    /// The price of one.
    pub price: f64,
    /// What it comes to.
    pub amount: f64,
}

/// The fuels for which an option is somebody's customer. Everybody has electricity.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Customer {
    /// Fuels of its heaters.
    pub heating: Vec<FuelId>,
    /// Fuels of its other uses.
    pub household: Vec<FuelId>,
    /// Fuels that come from a store, so that bills hold no energy of them.
    pub stored: Vec<FuelId>,
}

/// One month of bills, or a year where there are no months.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BillMonth {
    /// 1 to 12; nothing where there are no months.
    pub month: Option<u8>,
    /// How many fixed charges are due.
    pub months: u8,
    spans: Vec<Range<usize>>,
}

/// The months of a run, January first, by the clock on the wall.
pub fn bill_months(stamps: &[Stamp]) -> Vec<BillMonth> {
    let mut months: Vec<BillMonth> =
        (1..=12).map(|m| BillMonth { month: Some(m), months: 1, spans: Vec::new() }).collect();
    let mut start = 0;
    for same in stamps.chunk_by(|a, b| a.month == b.month) {
        let span = start..start + same.len();
        start = span.end;
        let month = same.first().and_then(|s| months.get_mut(usize::from(s.month).checked_sub(1)?));
        if let Some(month) = month {
            month.spans.push(span);
        }
    }
    months
}

/// A year without months: one bill with twelve fixed charges.
pub fn one_bill() -> Vec<BillMonth> {
    vec![BillMonth { month: None, months: 12, spans: std::iter::once(0..1).collect() }]
}

/// What one supplier's meter or truck charges to one option.
#[derive(Debug, Clone, PartialEq)]
pub struct Account<'a> {
    /// The prices.
    pub price: &'a FuelPrice,
    fuel: &'a Fuel,
    uses: Vec<(EndUse, &'a [f64])>,
    hours: PricedHours<'a>,
    add_per_kwh: f64,
}

/// The accounts of an option whose `uses` (in stacking order) drew `energy`. Without stamps all energy
/// has the one price of its fuel.
pub fn accounts<'a>(
    energy: &'a EnergyByHour,
    stamps: Option<&[Stamp]>,
    prices: &'a Prices,
    fuels: &'a Fuels,
    customer: &Customer,
    uses: &[EndUse],
) -> Vec<Account<'a>> {
    let mut list = Vec::new();
    for (id, fuel) in fuels.iter() {
        let heats = customer.heating.contains(&id);
        let own_meter = prices.of_heating(id).filter(|_| heats && uses.iter().any(|u| u.is_heating()));
        let is_customer = id == FuelId::ELECTRICITY || heats || customer.household.contains(&id);
        for price in prices.of(id).into_iter().chain(own_meter).filter(|_| is_customer) {
            let billed = uses.iter().filter(|_| !customer.stored.contains(&id));
            let uses = billed.filter(|u| is_on(price, own_meter, **u));
            let uses: Vec<_> =
                uses.map(|u| (*u, energy.hours(id, *u))).filter(|(_, h)| !h.is_empty()).collect();
            let yearly: f64 = uses.iter().flat_map(|(_, hours)| hours.iter()).sum();
            let hours = PricedHours::new(price, stamps);
            list.push(Account { price, fuel, uses, hours, add_per_kwh: price.add_per_kwh(yearly) });
        }
    }
    list
}

/// Whether a use is charged at `price`, where heating has a meter of its own or none. Backup heat
/// that must run while the heating rate's machines are switched off is on the main meter.
fn is_on(price: &FuelPrice, own_meter: Option<&FuelPrice>, end_use: EndUse) -> bool {
    let on_own = own_meter.is_some_and(|heating| match &heating.meter {
        Meter::Heating { interrupted } if interrupted.is_empty() => end_use.is_heating(),
        Meter::Heating { .. } => end_use == EndUse::SpaceHeating,
        Meter::Main => false,
    });
    on_own == price.is_heating()
}

/// What one more kWh of a fuel for a use costs in an hour of a run, after what the run has used of the
/// month; nothing without such an hour or price. Where heating has a rate of its own, `heats` says
/// whether the option is on it.
pub fn marginal(
    energy: &EnergyByHour,
    stamps: &[Stamp],
    (prices, heats): (&Prices, bool),
    (fuel, end_use): (FuelId, EndUse),
    hour: usize,
) -> Option<f64> {
    let (own_meter, stamp) = (prices.of_heating(fuel).filter(|_| heats), *stamps.get(hour)?);
    let price = prices.of(fuel).into_iter().chain(own_meter).find(|p| is_on(p, own_meter, end_use))?;
    let before = stamps.get(..hour)?.iter().rev().take_while(|s| s.month == stamp.month).count();
    let uses = EndUse::DRAWING.into_iter().filter(|u| is_on(price, own_meter, *u));
    let of_month = uses.flat_map(|u| energy.hours(fuel, u).get(hour - before..hour).unwrap_or_default());
    Some(price.marginal(stamp, of_month.sum()))
}

impl Account<'_> {
    /// The lines of one month: what is due whatever is used, then use by use.
    pub fn lines(&self, month: &BillMonth) -> Vec<BillLine> {
        let mut lines = self.due(f64::from(month.months));
        let hours: usize = month.spans.iter().map(Range::len).sum();
        let mut before = vec![0.0; hours];
        for (end_use, series) in &self.uses {
            let of_month = month.spans.iter().flat_map(|span| series.get(span.clone()).unwrap_or_default());
            let own: Vec<f64> = of_month.copied().collect();
            let added = self.hours.added(&month.spans, &before, &own);
            let energy = self.energy_lines(*end_use, &added.kwh);
            if !energy.is_empty() {
                lines.extend(self.with_rest(*end_use, energy, added.peak_kw));
            }
            before.iter_mut().zip(&own).for_each(|(sum, kwh)| *sum += kwh);
        }
        lines
    }

    fn due(&self, months: f64) -> Vec<BillLine> {
        let line = |end_use, reason, price: f64| BillLine {
            end_use,
            reason,
            quantity: months,
            price,
            amount: months * price,
        };
        let charges = [
            line(EndUse::FixedCharge, Reason::FixedCharge, self.price.fixed_per_month),
            line(EndUse::Rent, Reason::Rent, self.price.rent_per_month),
        ];
        let charges = charges.into_iter().filter(|line| line.amount != 0.0);
        charges.flat_map(|line| [Some(line), self.tax(line.end_use, line.amount)]).flatten().collect()
    }

    /// What each price charges for the energy that one use adds.
    fn energy_lines(&self, end_use: EndUse, kwh: &[f64]) -> Vec<BillLine> {
        let per_unit = self.fuel.kwh_per_unit;
        let used = self.hours.charges().zip(kwh).filter(|(_, kwh)| **kwh != 0.0);
        let line = |(charge, kwh): (super::priced_hours::Charge, &f64)| BillLine {
            end_use,
            reason: Reason::Energy { rate: charge.rate, tier: charge.tier, spike: charge.spike },
            quantity: kwh / per_unit,
            price: charge.per_kwh * charge.spike * per_unit,
            amount: kwh * charge.per_kwh * charge.spike,
        };
        used.map(line).collect()
    }

    /// Adds what goes with energy: yearly use, demand, riders, tax.
    fn with_rest(&self, end_use: EndUse, mut lines: Vec<BillLine>, peak_kw: f64) -> Vec<BillLine> {
        let price = self.price;
        let line = |reason, quantity: f64, price: f64| {
            let amount = quantity * price;
            (amount != 0.0).then_some(BillLine { end_use, reason, quantity, price, amount })
        };
        let units: f64 = lines.iter().map(|l| l.quantity).sum();
        lines.extend(line(Reason::YearlyUse, units, self.add_per_kwh * self.fuel.kwh_per_unit));
        let energy: f64 = lines.iter().map(|l| l.amount).sum();
        lines.extend(line(Reason::Demand, peak_kw, price.demand_per_kw));
        for (place, rider) in price.riders.iter().enumerate() {
            let reason = Reason::Rider(place);
            lines.extend(match rider.charge {
                RiderCharge::PerKwh(per_kwh) => line(reason, units, per_kwh * self.fuel.kwh_per_unit),
                RiderCharge::Share(share) => line(reason, energy, share),
            });
        }
        let untaxed: f64 = lines.iter().map(|l| l.amount).sum();
        lines.extend(self.tax(end_use, untaxed));
        lines
    }

    fn tax(&self, end_use: EndUse, untaxed: f64) -> Option<BillLine> {
        let (price, amount) = (self.price.tax, untaxed * self.price.tax);
        let line = BillLine { end_use, reason: Reason::Tax, quantity: untaxed, price, amount };
        (amount != 0.0).then_some(line)
    }
}
