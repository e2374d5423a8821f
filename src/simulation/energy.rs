//! Energy drawn by fuel, use and hour of a run.
//!
//! Knows no price. Start at [`EnergyByHour`].

use super::end_use::EndUse;
use crate::fuel::FuelId;

/// Energy drawn in kWh (HHV), by fuel, drawing use and hour. A use that draws nothing takes no room.
#[derive(Debug, Clone, PartialEq)]
pub struct EnergyByHour {
    hours: usize,
    series: Vec<Vec<f64>>,
}

impl EnergyByHour {
    /// Nothing yet, for so many fuels and hours.
    pub fn new(fuels: usize, hours: usize) -> Self {
        Self { hours, series: vec![Vec::new(); fuels * EndUse::DRAWING.len()] }
    }

    /// One span without hours, such as a year by bins: all of it stands in the first hour.
    pub fn in_one(fuels: usize, energy: &[(FuelId, EndUse, f64)]) -> Self {
        let mut all = Self::new(fuels, 1);
        energy.iter().for_each(|(fuel, end_use, kwh)| all.add(*fuel, *end_use, 0, *kwh));
        all
    }

    fn slot(fuel: FuelId, end_use: EndUse) -> usize {
        fuel.index() * EndUse::DRAWING.len() + end_use.place()
    }

    /// Adds to one hour.
    #[inline(always)]
    pub fn add(&mut self, fuel: FuelId, end_use: EndUse, hour: usize, kwh: f64) {
        if kwh == 0.0 {
            return;
        }
        let Some(series) = self.series.get_mut(Self::slot(fuel, end_use)) else { return };
        match series.get_mut(hour) {
            Some(sum) => *sum += kwh,
            None => begin(series, self.hours, hour, kwh),
        }
    }

    /// Adds what a pilot burns while its machine waits; few machines have one.
    #[cold]
    pub(super) fn add_waiting(&mut self, fuel: FuelId, hour: usize, kwh: f64) {
        self.add(fuel, EndUse::Standby, hour, kwh);
    }

    /// Energy of `fuel` for `end_use` in each hour of the run, kWh; empty if there is none.
    pub fn hours(&self, fuel: FuelId, end_use: EndUse) -> &[f64] {
        self.series.get(Self::slot(fuel, end_use)).map_or(&[], Vec::as_slice)
    }

    /// Energy of `fuel` for `end_use` in the year, kWh.
    pub fn year(&self, fuel: FuelId, end_use: EndUse) -> f64 {
        self.hours(fuel, end_use).iter().sum()
    }
}

#[cold]
fn begin(series: &mut Vec<f64>, hours: usize, hour: usize, kwh: f64) {
    if series.is_empty() && hour < hours {
        series.resize(hours, 0.0);
        if let Some(first) = series.get_mut(hour) {
            *first = kwh;
        }
    }
}
