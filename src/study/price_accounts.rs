//! A comparison into the prices and quantities that its options' costs are sums of.
//!
//! Knows no format. Start at [`price_lines`].

use super::levers::why_off;
use super::price_lines::{Line, LineOf, OptionLines, PriceLines, PriceOf, Priced};
use crate::calendar::{MonthDay, Stamp};
use crate::comparison::{Comparison, OptionResult, RunWeather};
use crate::fuel::FuelId;
use crate::ledger::{Posting, Reason};
use crate::prices::{FuelPrice, RiderCharge};
use crate::simulation::EndUse;
use std::collections::BTreeMap;

/// Finds every price of a comparison and what each option takes at it.
pub fn price_lines(c: &Comparison) -> PriceLines {
    let mut all = PriceLines { prices: Vec::new(), options: Vec::new() };
    all.prices = c.prices.0.iter().flat_map(|price| priced(c, price)).collect();
    let stamps: Option<Vec<Stamp>> = match &c.weather {
        RunWeather::Year(year) => Some(year.run(c.site.zone).calendar.stamps().to_vec()),
        RunWeather::Bins(_) => None,
    };
    let hours: Vec<Vec<Charged>> = c.prices.0.iter().map(|p| charged_hours(p, stamps.as_deref())).collect();
    let of_option = |(place, option): (usize, &OptionResult)| match why_off(c, place) {
        Some(why) => {
            let by_fuel = c.fuels.iter().map(|(id, _)| (id, option.ledger.sum(|p| p.fuel == id)));
            OptionLines::Off(why, by_fuel.filter(|(_, amount)| *amount != 0.0).collect())
        }
        None => {
            let accounts = c.prices.0.iter().zip(&hours);
            let lines = |(price, hours): (_, &'_ Vec<Charged>)| {
                Account { c, all: &all, option, price, hours }.lines()
            };
            OptionLines::On(accounts.flat_map(lines).collect())
        }
    };
    let options = c.options.iter().enumerate().map(of_option).collect();
    PriceLines { options, ..all }
}

fn priced(c: &Comparison, price: &FuelPrice) -> Vec<Priced> {
    let units = kwh_per_unit(c, price.fuel);
    let one = |of, value| Priced { fuel: price.fuel, heating_meter: price.is_heating(), of, value };
    let due = [one(PriceOf::Fixed, price.fixed_per_month), one(PriceOf::Rent, price.rent_per_month)];
    let mut list: Vec<Priced> = due.into_iter().filter(|due| due.value != 0.0).collect();
    let rates = price.rates.iter().enumerate();
    list.extend(rates.map(|(place, rate)| one(PriceOf::Rate(place), rate.per_kwh(0.0) * units)));
    if !price.is_heating() {
        let spikes = price.spikes.iter().enumerate();
        list.extend(spikes.map(|(place, spike)| one(PriceOf::Spike(place), spike.times)));
        let riders = price.riders.iter().enumerate();
        list.extend(riders.map(|(place, rider)| match rider.charge {
            RiderCharge::PerKwh(per_kwh) => one(PriceOf::Rider(place), per_kwh * units),
            RiderCharge::Share(share) => one(PriceOf::Rider(place), share),
        }));
        list.extend((price.tax != 0.0).then(|| one(PriceOf::Tax, price.tax)));
    }
    list
}

fn kwh_per_unit(c: &Comparison, fuel: FuelId) -> f64 {
    c.fuels.get(fuel).map_or(1.0, |fuel| fuel.kwh_per_unit)
}

/// The place of a rate, and those of the spikes that hold beside it.
type Charged = (usize, Vec<usize>);

fn charged(price: &FuelPrice, stamp: Stamp) -> Charged {
    (price.rate_at(stamp), price.spikes_at(stamp).collect())
}

/// What energy is charged at in each hour of a run, or in a span without hours.
fn charged_hours(price: &FuelPrice, stamps: Option<&[Stamp]>) -> Vec<Charged> {
    match stamps {
        Some(stamps) => stamps.iter().map(|stamp| charged(price, *stamp)).collect(),
        None => {
            let always = price.spikes.iter().enumerate().filter(|(_, spike)| spike.is_all_year());
            vec![(0, always.map(|(place, _)| place).collect())]
        }
    }
}

/// One option as the customer of one meter or truck.
struct Account<'a> {
    c: &'a Comparison,
    all: &'a PriceLines,
    option: &'a OptionResult,
    price: &'a FuelPrice,
    hours: &'a [Charged],
}

impl Account<'_> {
    fn line(&self, what: LineOf, quantity: f64, of: PriceOf) -> Line {
        Line {
            fuel: self.price.fuel,
            heating_meter: self.price.is_heating(),
            what,
            quantity,
            price: self.all.place(self.price, of),
            spikes: Vec::new(),
        }
    }

    fn lines(&self) -> Vec<Line> {
        let mut lines = self.due();
        let heating_meter = self.price.is_heating();
        let is_own = |p: &Posting| p.fuel == self.price.fuel && p.heating_meter == heating_meter;
        let pays = |end_use: EndUse| {
            let energy = |p: &Posting| matches!(p.reason, Reason::Energy { .. }) && p.end_use == end_use;
            self.option.ledger.postings.iter().any(|p| is_own(p) && energy(p))
        };
        for end_use in EndUse::DRAWING.into_iter().filter(|end_use| pays(*end_use)) {
            let kwh = self.option.energy.hours(self.price.fuel, end_use);
            lines.extend(self.energy(LineOf::Energy(end_use), self.hours.iter().zip(kwh)));
        }
        let stores = self.option.stores.iter().filter(|store| {
            let fuel = store.supplied.store.fuel;
            fuel == self.price.fuel && !self.price.is_heating()
        });
        let markets = stores.filter_map(|store| Some((store, store.supplied.at_market.as_ref()?)));
        let mut fees = 0.0;
        for (store, market) in markets {
            let noon = |d: &MonthDay| Stamp { month: d.month, day: d.day, hour: 12, weekday: 0 };
            let days: Vec<Charged> =
                store.supplied.market.dates.iter().map(|date| charged(self.price, noon(date))).collect();
            lines.extend(self.energy(LineOf::FromStore, days.iter().zip(&market.kwh_by_day)));
            fees += market.beside;
        }
        self.riders_and_tax(&mut lines);
        if fees != 0.0 {
            lines.push(Line { price: None, ..self.line(LineOf::StoreFees, fees, PriceOf::Rent) });
        }
        lines
    }

    fn due(&self) -> Vec<Line> {
        let heating_meter = self.price.is_heating();
        let months = |reason: Reason| -> f64 {
            let of = |p: &&Posting| {
                (p.fuel, p.heating_meter, p.reason) == (self.price.fuel, heating_meter, reason)
            };
            self.option.ledger.postings.iter().filter(of).map(|p| p.quantity).sum()
        };
        let charges = [
            self.line(LineOf::Due(EndUse::FixedCharge), months(Reason::FixedCharge), PriceOf::Fixed),
            self.line(LineOf::Due(EndUse::Rent), months(Reason::Rent), PriceOf::Rent),
        ];
        charges.into_iter().filter(|line| line.quantity != 0.0).collect()
    }

    /// Energy, parted by rate and spikes.
    fn energy<'b>(
        &self,
        what: LineOf,
        hours: impl Iterator<Item = (&'b Charged, &'b f64)>,
    ) -> impl Iterator<Item = Line> {
        let mut sums: BTreeMap<&Charged, f64> = BTreeMap::new();
        for (charged, kwh) in hours {
            *sums.entry(charged).or_default() += kwh;
        }
        let units = kwh_per_unit(self.c, self.price.fuel);
        let line = |((rate, spikes), kwh): (&Charged, f64)| {
            let places = spikes.iter().filter_map(|place| self.all.place(self.price, PriceOf::Spike(*place)));
            Line { spikes: places.collect(), ..self.line(what, kwh / units, PriceOf::Rate(*rate)) }
        };
        sums.into_iter().filter(|(_, kwh)| *kwh != 0.0).map(line).collect::<Vec<_>>().into_iter()
    }

    fn riders_and_tax(&self, lines: &mut Vec<Line>) {
        let units: f64 = lines.iter().filter(|l| l.what.is_energy()).map(|l| l.quantity).sum();
        if units != 0.0 {
            for (place, rider) in self.price.riders.iter().enumerate() {
                lines.push(match rider.charge {
                    RiderCharge::PerKwh(_) => self.line(LineOf::Rider, units, PriceOf::Rider(place)),
                    RiderCharge::Share(_) => self.line(LineOf::RiderShare, 0.0, PriceOf::Rider(place)),
                });
            }
        }
        if self.price.tax != 0.0 && !lines.is_empty() {
            lines.push(self.line(LineOf::Tax, 0.0, PriceOf::Tax));
        }
    }
}
