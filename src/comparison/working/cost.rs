//! What a moment's energy costs, fuel by fuel and use by use.
//!
//! Start at [`cost_of_hour`].

use crate::comparison::paid::{average_price, is_stored};
use crate::comparison::{Comparison, OptionResult};
use crate::fuel::FuelId;
use crate::simulation::bins::BinRow;
use crate::simulation::plan::OptionPlan;
use crate::simulation::record::{Sink, ZoneRecord};
use crate::simulation::sums::YearSums;
use crate::simulation::{EndUse, EnergyByHour, FuelLimits, OptionState, advance};
use crate::supply::meter::marginal;
use crate::weather::OutdoorRun;

/// What one fuel costs for one use in the moment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CostLine {
    /// The fuel.
    pub fuel: FuelId,
    /// The use.
    pub end_use: EndUse,
    /// How much, kWh (HHV).
    pub kwh: f64,
    /// What one more kWh costs in that hour, riders and tax included; without a date, or from a store,
    /// what the option paid on the mean of the year, as in the bin worksheet.
    pub price_per_kwh: f64,
    /// Whether it is that mean.
    pub on_the_mean: bool,
}

/// What the moment drew of each fuel for each use, at `price` a kWh, which also says whether it is the mean
/// of the year's.
fn lines(
    c: &Comparison,
    kwh: impl Fn(FuelId, EndUse) -> f64,
    price: impl Fn(FuelId, EndUse) -> Option<(f64, bool)>,
) -> Vec<CostLine> {
    let uses = c.fuels.iter().flat_map(|(fuel, _)| EndUse::DRAWING.map(|end_use| (fuel, end_use)));
    let drawn =
        uses.map(|(fuel, end_use)| (fuel, end_use, kwh(fuel, end_use))).filter(|(_, _, kwh)| *kwh > 0.0);
    drawn
        .filter_map(|(fuel, end_use, kwh)| {
            let (price_per_kwh, on_the_mean) = price(fuel, end_use)?;
            Some(CostLine { fuel, end_use, kwh, price_per_kwh, on_the_mean })
        })
        .collect()
}

pub(super) fn cost_of_bin(c: &Comparison, option: &OptionResult, row: &BinRow) -> Vec<CostLine> {
    let energy = EnergyByHour::in_one(c.fuels.count(), &row.energy);
    lines(c, |fuel, end_use| energy.year(fuel, end_use), |fuel, end_use| mean_price(c, option, fuel, end_use))
}

/// What the option paid for a kWh on the mean of the year.
fn mean_price(c: &Comparison, option: &OptionResult, fuel: FuelId, end_use: EndUse) -> Option<(f64, bool)> {
    let per_unit = average_price(option, c, (fuel, end_use));
    c.fuels.get(fuel).map(|f| (per_unit / f.kwh_per_unit, true))
}

/// What the zone's hour drew, at what one more kWh costs after all that the option used of the month. A
/// fuel from a store was bought on other days, so it has the mean price of the year.
pub(super) fn cost_of_hour(
    c: &Comparison,
    option: &OptionResult,
    (plan, run): (&OptionPlan, &OutdoorRun),
    (zone, hour): (usize, usize),
) -> Vec<CostLine> {
    let sums = || YearSums::new(&run.calendar, c.fuels.count(), c.zones.len());
    let (mut before, mut own) = (sums(), OneZone { zone, sums: sums() });
    let mut state = OptionState::at_set_point(plan);
    advance(plan, 0..hour, &mut state, &mut FuelLimits::none(), &mut before);
    advance(plan, hour..hour + 1, &mut state, &mut FuelLimits::none(), &mut own);
    let heaters = option.design.zones.iter().flat_map(|zone| &zone.heaters);
    let heats: Vec<FuelId> = heaters.filter_map(|i| c.machines.get(*i)).map(|m| m.fuel).collect();
    let price = |fuel, end_use| {
        if is_stored(option, fuel) {
            return mean_price(c, option, fuel, end_use);
        }
        let prices = (&c.prices, heats.contains(&fuel));
        let now = marginal(&before.energy, run.calendar.stamps(), prices, (fuel, end_use), hour);
        now.map(|per_kwh| (per_kwh, false))
    };
    lines(c, |fuel, end_use| own.sums.energy.year(fuel, end_use), price)
}

/// Keeps what one zone draws, and nothing else.
struct OneZone {
    zone: usize,
    sums: YearSums,
}

impl Sink for OneZone {
    fn take(&mut self, record: &ZoneRecord<'_>) {
        if record.zone == self.zone {
            self.sums.take(record);
        }
    }
}
