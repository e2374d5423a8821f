//! What an option's year comes to on ordinary terms for a fuel that comes by truck, beside those of the job.
//!
//! Start at `best_ordinary`.

use super::setting::Setting;
use super::store::OrdinaryTerms;
use super::winter::{OptionWinter, Terms};
use crate::simulation::design::OptionDesign;
use crate::supply::Store;
use crate::supply::ordinary::{is_ordinary, ordinary};
use crate::weather::OutdoorRun;

/// The best ordinary terms of an option: those of the least yearly cost among those on which no store runs
/// dry, else those on which it does least often. Nothing where no fuel comes by truck.
/// `own_cost` is what it costs on its own terms, in the job's currency.
pub(super) fn best_ordinary(
    design: &OptionDesign,
    setting: &Setting<'_>,
    run: &OutdoorRun,
    own_cost: f64,
) -> Option<OrdinaryTerms> {
    let own_stores = setting.supplies.of(&design.name);
    if own_stores.is_empty() {
        return None;
    }
    let winter = OptionWinter::in_setting(design, Setting { ..*setting }, run.clone());
    let place = winter.varied(&own_stores);
    let own = *own_stores.get(place)?;
    let on = |store: &Store, is_own: bool| {
        let mut stores = own_stores.clone();
        *stores.get_mut(place)? = store;
        let start: Vec<f64> = stores.iter().map(|store| store.start_kwh).collect();
        let markets = winter.markets(&stores, true);
        let terms = Terms { stores: &stores, markets: &markets, lead: None };
        let run_outs = winter.through(&terms, &start, false).run_outs;
        let yearly_cost = winter.typical(&stores);
        Some(OrdinaryTerms { store: store.clone(), is_own, yearly_cost, run_outs })
    };
    let others = ordinary(own, &setting.supplies.stores, winter.market_lowest_on(own));
    let own = is_ordinary(&own.contract).then(|| on(own, true)).flatten();
    let own = own.map(|own| OrdinaryTerms { yearly_cost: own_cost, ..own });
    let all = own.into_iter().chain(others.iter().filter_map(|store| on(store, false)));
    all.min_by(|a, b| a.run_outs.cmp(&b.run_outs).then(a.yearly_cost.total_cmp(&b.yearly_cost)))
}
