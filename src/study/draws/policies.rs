//! The same store on several terms: as in the job, on the job's other terms for the fuel, and the ordinary
//! ones at the price of the day.
//!
//! Prices of plans that nobody has quoted are not made up: only terms at the market's price are added.
//! Start at `rows`.

use super::{Drawn, Probability, Spread};
use crate::comparison::winter::WinterCost;
use crate::supply::Store;
use crate::supply::ordinary::{is_ordinary, ordinary};

/// An option's store on some terms.
#[derive(Debug, Clone, PartialEq)]
pub struct PolicyRow {
    /// The place of the option.
    pub option: usize,
    /// Where the terms come from.
    pub terms: PolicyTerms,
    /// The store.
    pub store: Store,
    /// What the option costs in the job's own year.
    pub typical: f64,
    /// What it costs in the drawn winters.
    pub cost: Spread,
    /// Winters in which it runs dry.
    pub run_outs: Probability,
    /// Mean hours a winter in which fuel is lacking.
    pub dry_hours: f64,
    /// Mean hours a winter in which a zone is not kept warm.
    pub cold_hours: f64,
    /// Whether of the ordinary terms this is the best: within the risk that is put up with, the least P50
    /// cost; where none is within it, the least probability of a run-out.
    pub best_ordinary: bool,
}

/// Where terms come from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PolicyTerms {
    /// The option's own.
    Own,
    /// Another `[[supply]]` of the job.
    OfJob,
    /// Ordinary terms on the option's own store.
    Ordinary,
}

/// An option's stores on several terms; `costs` are those on its own.
pub(super) fn rows(
    drawn: &Drawn<'_>,
    option: usize,
    stores: &[&Store],
    costs: &[WinterCost],
) -> Vec<PolicyRow> {
    let place = drawn.own.varied(stores);
    let Some(own) = stores.get(place).copied() else { return Vec::new() };
    let row = |terms, store: &Store, costs: &[WinterCost], typical| {
        let count = costs.len().max(1) as f64;
        PolicyRow {
            option,
            terms,
            store: store.clone(),
            typical,
            cost: Spread::of(costs.iter().map(|cost| cost.cost)),
            run_outs: Probability::of(costs.iter().map(|cost| cost.run_outs > 0)),
            dry_hours: costs.iter().map(|cost| cost.dry_hours).sum::<f64>() / count,
            cold_hours: costs.iter().map(|cost| cost.cold_hours as f64).sum::<f64>() / count,
            best_ordinary: false,
        }
    };
    let mut rows = vec![row(PolicyTerms::Own, own, costs, drawn.own.typical(stores))];
    let of_job = drawn.first.supplies.stores.iter().filter(|store| store.fuel == own.fuel && *store != own);
    let of_job = of_job.map(|store| (PolicyTerms::OfJob, store.clone()));
    let ordinary = ordinary(own, &drawn.first.supplies.stores, drawn.own.market_lowest_on(own))
        .into_iter()
        .map(|s| (PolicyTerms::Ordinary, s));
    for (terms, store) in of_job.chain(ordinary) {
        let mut stores = stores.to_vec();
        if let Some(slot) = stores.get_mut(place) {
            *slot = &store;
        }
        rows.push(row(terms, &store, &drawn.costs(&stores, false), drawn.own.typical(&stores)));
    }
    mark_best(&mut rows, drawn.setting.risk);
    rows
}

fn mark_best(rows: &mut [PolicyRow], risk: f64) {
    let key = |row: &PolicyRow| match row.run_outs.share() {
        within if within <= risk => (0.0, row.cost.p50),
        beyond => (beyond, row.cost.p50),
    };
    let ordinary = rows.iter().enumerate().filter(|(_, row)| is_ordinary(&row.store.contract));
    let best = ordinary.min_by(|a, b| {
        let ((a, a_cost), (b, b_cost)) = (key(a.1), key(b.1));
        a.total_cmp(&b).then(a_cost.total_cmp(&b_cost))
    });
    if let Some(place) = best.map(|(place, _)| place)
        && let Some(row) = rows.get_mut(place)
    {
        row.best_ordinary = true;
    }
}
