//! How much of the stored fuels an option burns: by hour, and by day and use.
//!
//! A [`Sink`] beside the sums; knows no store. Start at [`FuelUse`].

use crate::fuel::FuelId;
use crate::simulation::EndUse;
use crate::simulation::household::PlannedDraw;
use crate::simulation::record::{Sink, ZoneRecord};

/// Energy of a day by use, in the order of [`EndUse::DRAWING`], kWh.
pub type ByUse = [f64; EndUse::DRAWING.len()];

/// What was burned of some fuels.
#[derive(Debug, Clone, PartialEq)]
pub struct FuelUse {
    first_hour: usize,
    fuels: Vec<FuelId>,
    hours: Vec<Vec<f64>>,
    days: Vec<Vec<ByUse>>,
}

impl FuelUse {
    /// Nothing yet of the `fuels` in so many days that begin with an hour of the run; hours and days
    /// are then counted from there.
    pub fn new(fuels: Vec<FuelId>, first_hour: usize, days: usize) -> Self {
        Self {
            first_hour,
            hours: vec![vec![0.0; 24 * days]; fuels.len()],
            days: vec![vec![ByUse::default(); days]; fuels.len()],
            fuels,
        }
    }

    /// The fuel of that place on each day by use, kWh.
    pub fn by_use(&self, place: usize) -> &[ByUse] {
        self.days.get(place).map_or(&[], Vec::as_slice)
    }

    /// The fuel of that place on a day, kWh.
    pub fn day_kwh(&self, place: usize, day: usize) -> f64 {
        self.hours_of(place, day).iter().sum()
    }

    /// The greatest hour's draw of the fuel of that place on a day, kW.
    pub fn greatest_kw(&self, place: usize, day: usize) -> f64 {
        self.hours_of(place, day).iter().copied().fold(0.0, f64::max)
    }

    /// The fuel of that place in an hour, kWh.
    pub fn hour_kwh(&self, place: usize, hour: usize) -> f64 {
        self.hours.get(place).and_then(|hours| hours.get(hour)).copied().unwrap_or_default()
    }

    /// All of the fuel of that place, kWh.
    pub fn year_kwh(&self, place: usize) -> f64 {
        self.hours.get(place).map_or(0.0, |hours| hours.iter().sum())
    }

    fn hours_of(&self, place: usize, day: usize) -> &[f64] {
        self.hours.get(place).and_then(|hours| hours.get(24 * day..24 * day + 24)).unwrap_or_default()
    }

    #[inline(always)]
    fn add(&mut self, hour: usize, fuel: FuelId, end_use: EndUse, kwh: f64) {
        let hour = hour.saturating_sub(self.first_hour);
        for (place, _) in self.fuels.iter().enumerate().filter(|(_, own)| **own == fuel) {
            if let Some(sum) = self.hours.get_mut(place).and_then(|hours| hours.get_mut(hour)) {
                *sum += kwh;
            }
            let day = self.days.get_mut(place).and_then(|days| days.get_mut(hour / 24));
            if let Some(sum) = day.and_then(|uses| uses.get_mut(end_use.place())) {
                *sum += kwh;
            }
        }
    }
}

impl Sink for FuelUse {
    #[inline(always)]
    fn take(&mut self, record: &ZoneRecord<'_>) {
        for (heater, output) in record.plan.heaters.iter().zip(&record.outcome.heaters) {
            if output.draw > 0.0 {
                // What a pilot burns while its machine waits is standby.
                let end_use = if output.heat > 0.0 { heater.end_use } else { EndUse::Standby };
                self.add(record.hour, heater.fuel, end_use, output.draw);
            }
        }
    }

    #[inline(always)]
    fn take_household(&mut self, hour: usize, draw: &PlannedDraw, kwh: f64) {
        self.add(hour, draw.fuel, draw.end_use, kwh);
    }
}
