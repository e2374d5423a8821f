//! What one machine, or several together, may not go beyond: a day's fuelling, an outdoor unit.
//!
//! Start at [`Bound`].

use std::ops::Range;

use super::hour_map::HourMap;

/// What one machine, or several together, may not go beyond.
#[derive(Debug, Clone, PartialEq)]
pub struct Bound {
    /// The machines: zone, and place among its heaters; its cooler is at [`super::kernel::MOST_HEATERS`].
    pub machines: Vec<(usize, usize)>,
    /// How they are bound.
    pub by: BoundBy,
}

impl Bound {
    /// The hours of that span alone, counted from 0 again.
    pub(super) fn part(&self, span: &Range<usize>) -> Self {
        let by = match &self.by {
            BoundBy::OutdoorUnit(hours) => BoundBy::OutdoorUnit(hours.part(span.clone())),
            by @ BoundBy::DailyFuelling(_) => by.clone(),
        };
        Self { machines: self.machines.clone(), by }
    }

    /// What there is to use from a midnight on, kWh.
    pub fn at_midnight_kwh(&self) -> f64 {
        match self.by {
            BoundBy::DailyFuelling(kwh) => kwh,
            BoundBy::OutdoorUnit(_) => f64::INFINITY,
        }
    }
}

/// How machines are bound.
#[derive(Debug, Clone, PartialEq)]
pub enum BoundBy {
    /// By the fuel laid in at each midnight, kWh.
    DailyFuelling(f64),
    /// By what heat, or what cooling, the outdoor unit can give to all its heads together, hour by hour.
    OutdoorUnit(HourMap),
}
