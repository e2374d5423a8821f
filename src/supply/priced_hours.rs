//! The hours of a run, each with its price, and what a use adds at each price in a month.
//!
//! Knows no use. Start at [`PricedHours`].

use std::ops::Range;

use crate::calendar::{MonthDay, Stamp};
use crate::prices::{FuelPrice, Rate};

/// Which price holds in each hour of a run.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct PricedHours<'a> {
    /// Rates together with what spikes multiply them by, each pair once.
    pairs: Vec<(usize, f64, &'a Rate)>,
    /// The first place of each pair among the charges; a pair has one for each tier.
    firsts: Vec<usize>,
    /// For each hour, the place of its pair.
    of_hour: Vec<u16>,
}

/// One price that energy can be charged at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Charge {
    /// The place of the rate among the fuel's.
    pub(super) rate: usize,
    /// The place of the tier in it.
    pub(super) tier: usize,
    /// What spikes multiply it by.
    pub(super) spike: f64,
    /// Price of one kWh before spikes.
    pub(super) per_kwh: f64,
}

/// What a use adds to a meter's reading of a month.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Added {
    /// Energy at each charge, kWh; below 0 where the use drives others into a later tier.
    pub(super) kwh: Vec<f64>,
    /// By how much it raises the largest hourly mean, kW.
    pub(super) peak_kw: f64,
}

impl<'a> PricedHours<'a> {
    /// The prices of the hours of `stamps`, or of a span without hours.
    pub(super) fn new(price: &'a FuelPrice, stamps: Option<&[Stamp]>) -> Self {
        let mut hours = Self { pairs: Vec::new(), firsts: Vec::new(), of_hour: Vec::new() };
        match stamps {
            Some(stamps) => hours.add_all(price, stamps),
            None => {
                let always = price.spikes.iter().filter(|spike| spike.is_all_year());
                let place = hours.place(price, 0, always.map(|spike| spike.times).product());
                hours.of_hour.push(place);
            }
        }
        let mut first = 0;
        for (_, _, rate) in &hours.pairs {
            hours.firsts.push(first);
            first += rate.tiers.len();
        }
        hours
    }

    fn add_all(&mut self, price: &'a FuelPrice, stamps: &[Stamp]) {
        self.of_hour.reserve(stamps.len());
        let mut last: Option<(MonthDay, u16)> = None;
        let by_day = price.is_by_day();
        for stamp in stamps {
            let today = MonthDay { month: stamp.month, day: stamp.day };
            let place = match last {
                Some((day, place)) if by_day && day == today => place,
                _ => self.place(price, price.rate_at(*stamp), price.spike_factor(*stamp)),
            };
            last = Some((today, place));
            self.of_hour.push(place);
        }
    }

    fn place(&mut self, price: &'a FuelPrice, rate: usize, spike: f64) -> u16 {
        let found = self.pairs.iter().position(|(r, s, _)| (*r, *s) == (rate, spike));
        let place = found.unwrap_or_else(|| {
            self.pairs.extend(price.rates.get(rate).map(|r| (rate, spike, r)));
            self.pairs.len().saturating_sub(1)
        });
        u16::try_from(place).unwrap_or(u16::MAX)
    }

    /// Every price that energy can be charged at.
    pub(super) fn charges(&self) -> impl Iterator<Item = Charge> + '_ {
        self.pairs.iter().flat_map(|(rate, spike, of)| {
            let charge = |(tier, t): (usize, &crate::prices::Tier)| Charge {
                rate: *rate,
                tier,
                spike: *spike,
                per_kwh: t.per_kwh,
            };
            of.tiers.iter().enumerate().map(charge)
        })
    }

    /// What a use of `own` adds to a meter through which `before` flows in the hours of `spans`, kWh.
    pub(super) fn added(&self, spans: &[Range<usize>], before: &[f64], own: &[f64]) -> Added {
        let charges = self.pairs.iter().map(|(_, _, rate)| rate.tiers.len()).sum();
        let mut kwh = vec![0.0; charges];
        let mut add = |charge: usize, more: f64| {
            if let Some(sum) = kwh.get_mut(charge) {
                *sum += more;
            }
        };
        let (mut date_before, mut date_now) = (0.0, 0.0);
        let (mut peak_before, mut peak_now) = (0.0_f64, 0.0_f64);
        let places = spans.iter().flat_map(|span| self.of_hour.get(span.clone()).unwrap_or_default());
        for (place, (before, own)) in places.zip(before.iter().zip(own)) {
            let place = usize::from(*place);
            let (Some((_, _, rate)), Some(first)) = (self.pairs.get(place), self.firsts.get(place)) else {
                continue;
            };
            let now = before + own;
            if rate.tiers.len() == 1 {
                add(*first, *own);
            } else {
                rate.parted(date_now, now).for_each(|(tier, part)| add(first + tier, part));
                rate.parted(date_before, *before).for_each(|(tier, part)| add(first + tier, -part));
            }
            (date_before, date_now) = (date_before + before, date_now + now);
            (peak_before, peak_now) = (peak_before.max(*before), peak_now.max(now));
        }
        Added { kwh, peak_kw: peak_now - peak_before }
    }
}
