//! Sizes of a store, and at which level each must be ordered for the risk that is put up with.
//!
//! Start at `rows`.

use super::{Drawn, Probability};
use crate::supply::Store;
use crate::supply::tank::Tank;
use crate::supply::vapour::Shape;

/// Levels that are tried, as shares of the capacity.
const LEVELS: [f64; 8] = [0.15, 0.20, 0.25, 0.30, 0.35, 0.40, 0.50, 0.60];
/// Listed sizes of propane tanks, US gallons of water.
const LISTED: [f64; 5] = [120.0, 250.0, 320.0, 500.0, 1000.0];
/// Of other stores, so many times the job's own.
const TIMES: [f64; 4] = [0.5, 1.0, 1.5, 2.0];

/// One size.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SizeForRisk {
    /// The place of the option.
    pub option: usize,
    /// What would fill it to the brim, kWh (HHV).
    pub capacity_kwh: f64,
    /// Whether it is the job's own.
    pub own: bool,
    /// Winters in which it runs dry where it is ordered at the job's own level.
    pub at_own_level: Probability,
    /// The lowest of the levels tried, a share of the capacity, that keeps within the risk, and its run-outs;
    /// nothing where none does.
    pub level: Option<(f64, Probability)>,
}

/// Sizes of an option's store on its own terms.
pub(super) fn rows(drawn: &Drawn<'_>, option: usize, stores: &[&Store]) -> Vec<SizeForRisk> {
    let place = drawn.own.varied(stores);
    let Some(own) = stores.get(place).copied() else { return Vec::new() };
    let gallon = drawn.first.fuels.get(own.fuel).map_or(1.0, |fuel| fuel.kwh_per_unit);
    let is_own = |kwh: f64| (kwh / own.tank.capacity_kwh - 1.0).abs() < 1e-6;
    let mut sizes: Vec<f64> = match own.tank.shape {
        Some(_) => LISTED.iter().map(|size| size * gallon).collect(),
        None => TIMES.iter().map(|times| times * own.tank.capacity_kwh).collect(),
    };
    if !sizes.iter().any(|kwh| is_own(*kwh)) {
        sizes.push(own.tank.capacity_kwh);
        sizes.sort_by(f64::total_cmp);
    }
    let with = |store: &Store| {
        let mut stores = stores.to_vec();
        if let Some(slot) = stores.get_mut(place) {
            *slot = store;
        }
        drawn.run_outs(&stores)
    };
    let own_level = own.tank.share(own.contract.reorder_kwh);
    let row = |capacity_kwh: f64| {
        let shape = own.tank.shape.map(|_| Shape::usual(capacity_kwh / gallon));
        let tank = Tank { capacity_kwh, shape, ..own.tank };
        (own.contract.minimum_drop_kwh <= tank.usable_kwh()).then(|| SizeForRisk {
            option,
            capacity_kwh,
            own: is_own(capacity_kwh),
            at_own_level: with(&ordered_at(own, tank, own_level)),
            level: lowest_level(own, tank, drawn.setting.risk, with),
        })
    };
    sizes.into_iter().filter_map(row).collect()
}

fn ordered_at(own: &Store, tank: Tank, level: f64) -> Store {
    let mut store = Store { tank, ..own.clone() };
    store.contract.reorder_kwh = level * tank.capacity_kwh;
    store
}

/// Ordering earlier is taken never to run dry more often, so that the levels are halved.
fn lowest_level(
    own: &Store,
    tank: Tank,
    risk: f64,
    with: impl Fn(&Store) -> Probability,
) -> Option<(f64, Probability)> {
    let levels: Vec<f64> =
        LEVELS.into_iter().filter(|level| *level > tank.reserve && *level < tank.fill_limit).collect();
    let (mut low, mut high, mut found) = (0, levels.len(), None);
    while low < high {
        let middle = usize::midpoint(low, high);
        let level = levels.get(middle).copied()?;
        let run_outs = with(&ordered_at(own, tank, level));
        match run_outs.share() <= risk {
            true => (high, found) = (middle, Some((level, run_outs))),
            false => low = middle + 1,
        }
    }
    found
}
