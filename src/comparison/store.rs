//! The stores of an option, through its year and in design cold.
//!
//! Start at [`StoreResult`].

use super::setting::Setting;
use crate::fuel::FuelId;
use crate::simulation::bins::bin_rows;
use crate::simulation::design::OptionDesign;
use crate::simulation::frost::FrostShares;
use crate::supply::{Store, Supplied};
use crate::weather::Bin;

/// What came of one store of an option.
#[derive(Debug, Clone, PartialEq)]
pub struct StoreResult {
    /// The store through the year.
    pub supplied: Supplied,
    /// Days of the design temperature that it lasts from full; nothing where none is burned then.
    pub days_from_full: Option<f64>,
    /// The same from the level at which it is ordered.
    pub days_from_reorder: Option<f64>,
    /// What everything that burns from it asks at once, kW (HHV): burners at full, other uses at their
    /// mean.
    pub connected_kw: f64,
    /// What it gives at the level at which it is ordered and the design temperature, kW; nothing where
    /// that has no limit.
    pub gives_at_design_kw: Option<f64>,
}

/// The best of the ordinary terms, at the price of the day, for an option's propane, or for its first fuel
/// that comes by truck.
#[derive(Debug, Clone, PartialEq)]
pub struct OrdinaryTerms {
    /// The store on them.
    pub store: Store,
    /// Whether they are the job's own.
    pub is_own: bool,
    /// What the option costs in a year on them, in the job's currency.
    pub yearly_cost: f64,
    /// How often a store runs dry in this year.
    pub run_outs: usize,
}

impl StoreResult {
    /// Puts what came of a store beside what design cold asks of it.
    pub(super) fn new(supplied: Supplied, design: &OptionDesign, s: &Setting<'_>) -> Self {
        let (tank, ordered_at_kwh) = (supplied.store.tank, supplied.store.ordered_at_kwh());
        let a_day = design_day_kwh(supplied.store.fuel, design, s);
        let fuel = supplied.store.fuel;
        let coldest_c = s.zones.iter().map(|z| z.design_temperature_c).fold(f64::INFINITY, f64::min);
        let gives_kw = tank.greatest_kw(ordered_at_kwh, coldest_c);
        let days = |kwh: f64| (a_day > 0.0).then(|| kwh.max(0.0) / a_day);
        Self {
            days_from_full: days(tank.usable_kwh()),
            days_from_reorder: days(ordered_at_kwh - tank.reserve_kwh()),
            connected_kw: connected_kw(fuel, design, s),
            gives_at_design_kw: gives_kw.is_finite().then_some(gives_kw),
            supplied,
        }
    }
}

fn connected_kw(fuel: FuelId, design: &OptionDesign, s: &Setting<'_>) -> f64 {
    let zones = s.zones.iter().zip(&design.zones);
    let heaters = zones.flat_map(|(zone, d)| d.heaters.iter().map(|i| (*i, zone.design_temperature_c)));
    let burners = heaters.filter_map(|(i, outdoor_c)| {
        let machine = s.machines.get(i).filter(|machine| machine.fuel == fuel)?;
        Some(machine.heating.as_ref()?.row_at(outdoor_c).greatest.power_kw)
    });
    let hot = design.household.hot_water.iter().filter(|hot| hot.fuel == fuel);
    let hot = hot.map(|hot| hot.heater.input_kw.unwrap_or_else(|| hot.draw_kw(hot.mains.mean())));
    let steady = design.household.steady.iter().filter(|draw| draw.fuel == fuel).map(|draw| draw.kw);
    burners.chain(hot).chain(steady).sum()
}

/// What a day at the design temperature burns of a fuel, kWh: steady need, and the household's mean.
fn design_day_kwh(fuel: FuelId, design: &OptionDesign, s: &Setting<'_>) -> f64 {
    let zones = s.zones.iter().zip(&design.zones);
    let heating = zones.flat_map(|(zone, d)| {
        let bin = Bin { temperature_c: zone.design_temperature_c, hours: 24.0 };
        bin_rows(zone, d, s.machines, &[bin], FrostShares::default())
    });
    let heating: Vec<_> = heating.flat_map(|row| row.energy).collect();
    let uses = heating.into_iter().chain(design.household.energy(24.0));
    uses.filter(|(own, _, _)| *own == fuel).map(|(_, _, kwh)| kwh).sum()
}
