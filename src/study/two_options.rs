//! What two options cost a year at other prices of energy, by the quickest way that is exact.
//!
//! By the levers where they are on; else by billing the energy of the first run anew; else, where other
//! prices make an option run otherwise, by running the job with those prices. Start at [`TwoOptions`].

use super::change::{Change, changed};
use super::levers::{Levers, OptionLevers, levers_of};
use crate::comparison::{Billing, Comparison, Reruns};
use crate::fuel::FuelId;
use crate::job::Job;
use crate::prices::{FuelPrice, Prices};
use crate::problem::Problems;
use crate::weather::Weather;

/// Factors on the prices of energy of some fuels; the others stay as they are.
pub type Factors<'a> = &'a [(FuelId, f64)];

/// Two options of a comparison.
pub struct TwoOptions<'a> {
    job: &'a Job,
    c: &'a Comparison,
    levers: Levers,
    billing: Billing<'a>,
    reruns: Reruns<'a>,
    options: [usize; 2],
}

impl<'a> TwoOptions<'a> {
    /// Two options of `c`, which is `job` on `weather`.
    pub fn new(job: &'a Job, weather: &'a Weather, c: &'a Comparison, options: [usize; 2]) -> Self {
        let (billing, reruns) = (Billing::new(c), Reruns::new(c, weather));
        Self { job, c, levers: levers_of(&billing, c, &options), billing, reruns, options }
    }

    /// Whether the levers of both are on, so that a cost is a sum.
    pub fn are_sums(&self) -> bool {
        let is_sum = |own: &OptionLevers| matches!(own, OptionLevers::On { held, .. } if held.is_empty());
        self.levers.options.iter().all(is_sum)
    }

    /// What the two cost a year.
    ///
    /// # Errors
    /// Prices that the job is refused for.
    pub fn costs(&self, at: Factors<'_>) -> Result<[f64; 2], Problems> {
        Ok([self.cost(0, at)?, self.cost(1, at)?])
    }

    /// What the first or the second costs.
    fn cost(&self, place: usize, at: Factors<'_>) -> Result<f64, Problems> {
        if let Some(cost) = self.by_levers(place, at) {
            return Ok(cost);
        }
        let Some(&option) = self.options.get(place) else { return Ok(f64::NAN) };
        if let Some(ledger) = self.billing.at(option, &self.prices(at)) {
            return Ok(ledger.total());
        }
        let fuels = at.iter().filter_map(|(fuel, factor)| Some((&self.c.fuels.get(*fuel)?.id, *factor)));
        let changes: Vec<Change> = fuels.map(|(id, factor)| Change::price(id, factor)).collect();
        let ledger = self.reruns.ledger(&changed(self.job, "price", &changes)?, option)?;
        Ok(ledger.map_or(f64::NAN, |ledger| ledger.total()))
    }

    fn by_levers(&self, place: usize, at: Factors<'_>) -> Option<f64> {
        let mut setting = self.levers.as_it_is();
        for (fuel, factor) in at {
            let lever = self.levers.fuels.iter().position(|lever| lever == fuel)?;
            *setting.fuels.get_mut(lever)? *= factor;
        }
        self.levers.cost(place, &setting)
    }

    fn prices(&self, at: Factors<'_>) -> Prices {
        let moved = |price: &FuelPrice| {
            let factors = at.iter().filter(|(fuel, _)| *fuel == price.fuel).map(|(_, factor)| factor);
            price.clone().times(factors.product())
        };
        Prices(self.c.prices.0.iter().map(moved).collect())
    }
}
