//! A household's uses laid on the hours of a run.
//!
//! Start at [`HouseholdPlan::new`].

use std::ops::Range;

use super::design::{HotWater, HouseholdDesign};
use crate::calendar::Calendar;
use crate::fuel::FuelId;
use crate::simulation::EndUse;

/// A household's uses by hour; without any it costs nothing to run.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct HouseholdPlan {
    /// The draws, in stacking order.
    pub draws: Vec<PlannedDraw>,
    /// The zone whose air hot water cools and by how much in each hour, kW.
    pub taken_kw: Option<(usize, Vec<f64>)>,
}

/// One use by hour.
#[derive(Debug, Clone, PartialEq)]
pub struct PlannedDraw {
    /// The fuel.
    pub fuel: FuelId,
    /// What it is for.
    pub end_use: EndUse,
    kw: Vec<f64>,
}

impl PlannedDraw {
    /// Its draw in hour `i` of the run, kWh; 0 beyond its end.
    #[inline(always)]
    pub fn at(&self, i: usize) -> f64 {
        self.kw.get(i).copied().unwrap_or_default()
    }
}

impl HouseholdPlan {
    /// Lays the household's uses on the hours of `calendar`.
    pub fn new(design: &HouseholdDesign, calendar: &Calendar) -> Self {
        let hours = calendar.stamps().len();
        let mut draws: Vec<_> = design
            .steady
            .iter()
            .filter(|d| d.kw > 0.0)
            .map(|d| PlannedDraw { fuel: d.fuel, end_use: d.end_use, kw: vec![d.kw; hours] })
            .collect();
        let taken_kw = design.hot_water.as_ref().and_then(|hot| {
            let cold = by_hour(hot, calendar);
            let kw = cold.iter().map(|t| hot.draw_kw(*t)).collect();
            draws.push(PlannedDraw { fuel: hot.fuel, end_use: EndUse::HotWater, kw });
            Some((hot.zone?, cold.iter().map(|t| hot.heater.taken_kw(hot.heat_kw(*t))).collect()))
        });
        draws.sort_by_key(|d| d.end_use);
        Self { draws, taken_kw }
    }

    /// The hours `span` alone, counted from 0 again.
    #[must_use]
    pub fn part(&self, span: &Range<usize>) -> Self {
        let cut = |kw: &[f64]| kw.iter().skip(span.start).take(span.len()).copied().collect();
        let draws = self.draws.iter().map(|d| PlannedDraw { kw: cut(&d.kw), ..*d });
        Self { draws: draws.collect(), taken_kw: self.taken_kw.as_ref().map(|(zone, kw)| (*zone, cut(kw))) }
    }
}

/// The cold water's temperature by hour, °C.
fn by_hour(hot: &HotWater, calendar: &Calendar) -> Vec<f64> {
    calendar.stamps().iter().map(|s| hot.mains.on_day(s.day_of_year())).collect()
}
