//! An option laid on the hours of a run at the prices of a job: machines that a supplier switches off,
//! and what a kWh is worth where heaters take turns by cost.
//!
//! Start at [`laid`].

use super::setting::Setting;
use crate::calendar::Stamp;
use crate::fuel::FuelId;
use crate::prices::{FuelPrice, Prices};
use crate::simulation::design::OptionDesign;
use crate::simulation::plan::OptionPlan;
use crate::simulation::sums::YearSums;
use crate::simulation::{EndUse, FuelLimits, OptionState, advance};
use crate::supply::meter::marginal;
use crate::weather::OutdoorRun;

/// An option laid on the hours of a run: its fuels weighed at the prices of each hour (a stored one at
/// what its contract asks on that day), its machines off where the heating rate switches them off.
/// Hour maps are used where the setting has them made already.
pub fn laid(setting: &Setting<'_>, design: &OptionDesign, run: &OutdoorRun) -> OptionPlan {
    let mut plan = OptionPlan::with_maps(design, (setting.zones, setting.machines), run, setting.maps);
    let prices = setting.prices;
    let stamps = run.calendar.stamps();
    if let Some(heating) = prices.of_heating(FuelId::ELECTRICITY) {
        let off: Vec<bool> = stamps.iter().map(|s| heating.is_interrupted(*s)).collect();
        if off.contains(&true) {
            plan.interrupt(FuelId::ELECTRICITY, &off);
        }
    }
    let stores = setting.supplies.of(&design.name);
    let worth = |fuel: FuelId, market: f64| {
        let store = stores.iter().find(|store| store.fuel == fuel);
        store.map_or(market, |store| store.contract.per_kwh(market))
    };
    let first = |fuel, stamp: &Stamp| Some(worth(fuel, of_heat(prices, fuel)?.marginal(*stamp, 0.0)));
    plan.weigh(|fuel, i| stamps.get(i).and_then(|stamp| first(fuel, stamp)).unwrap_or_default());
    if plan.takes_turns_by_cost() && prices.0.iter().any(FuelPrice::has_tiers) {
        weigh_by_use(&mut plan, prices, worth, run);
    }
    plan
}

/// The price of heating with `fuel`.
pub(super) fn of_heat(prices: &Prices, fuel: FuelId) -> Option<&FuelPrice> {
    prices.of_heating(fuel).or(prices.of(fuel))
}

/// Weighs each hour after what the option has used of the month before it: what it costs then decides
/// who runs, and who runs decides what the next hour costs.
fn weigh_by_use(
    plan: &mut OptionPlan,
    prices: &Prices,
    stored: impl Fn(FuelId, f64) -> f64,
    run: &OutdoorRun,
) {
    let fuels = 1 + prices.0.iter().map(|p| p.fuel.index()).max().unwrap_or_default();
    let mut sums = YearSums::new(&run.calendar, fuels, plan.zones.len());
    let mut state = OptionState::at_set_point(plan);
    for hour in 0..plan.outdoor_c.len() {
        let of = |fuel| (fuel, EndUse::SpaceHeating);
        let worth = |fuel| marginal(&sums.energy, run.calendar.stamps(), (prices, true), of(fuel), hour);
        plan.weigh_hour(hour, |fuel| worth(fuel).map_or(0.0, |market| stored(fuel, market)));
        advance(plan, hour..hour + 1, &mut state, &mut FuelLimits::none(), &mut sums);
    }
}
