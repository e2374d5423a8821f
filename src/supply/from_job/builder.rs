//! What reading one supply needs all the time: defaults that are noted, amounts in kWh, problems with
//! their place.
//!
//! Start at [`Builder`].

use crate::fuel::Fuel;
use crate::job::{AmountText, Job, PriceText, SupplySection, Typed};
use crate::problem::Problems;
use crate::sources::{Assumptions, Source};
use crate::supply::tank::Tank;

/// One supply while it is read.
pub(super) struct Builder<'a, 'b> {
    pub(super) job: &'a Job,
    pub(super) section: &'a SupplySection,
    pub(super) fuel: &'a Fuel,
    pub(super) assumptions: &'b mut Assumptions,
    pub(super) problems: Problems,
}

impl<'a, 'b> Builder<'a, 'b> {
    pub(super) fn new(
        job: &'a Job,
        section: &'a SupplySection,
        fuel: &'a Fuel,
        assumptions: &'b mut Assumptions,
    ) -> Self {
        Self { job, section, fuel, assumptions, problems: Vec::new() }
    }

    pub(super) fn key(&self, key: &str) -> String {
        format!("supply.{}.{key}", self.section.name.value)
    }

    pub(super) fn given<T>(
        &mut self,
        given: Option<T>,
        key: &str,
        default: T,
        written: &str,
        why: &str,
    ) -> T {
        let key = self.key(key);
        self.assumptions.or_default(given, key, default, written, || Source::CommonPractice(why.into()))
    }

    pub(super) fn optional_kwh(
        &mut self,
        amount: Option<&Typed<AmountText>>,
        key: &str,
    ) -> Option<Option<f64>> {
        match amount {
            Some(amount) => self.kwh(amount, key).map(Some),
            None => Some(None),
        }
    }

    pub(super) fn kwh(&mut self, amount: &Typed<AmountText>, key: &str) -> Option<f64> {
        let units = self.units(&amount.unit, &amount.span, key)?;
        Some(amount.amount * units * self.fuel.kwh_per_unit)
    }

    pub(super) fn per_kwh(&mut self, price: &Typed<PriceText>, key: &str) -> Option<f64> {
        let units = self.units(&price.per, &price.span, key)?;
        Some(price.amount / (units * self.fuel.kwh_per_unit))
    }

    pub(super) fn units(&mut self, unit: &str, span: &std::ops::Range<usize>, key: &str) -> Option<f64> {
        let units = self.job.units_in(self.fuel, unit, span, self.key(key));
        units.map_err(|problem| self.problems.push(problem)).ok()
    }

    /// A level, typed or assumed, must lie between what cannot be used and what is filled in.
    pub(super) fn within(&mut self, level: f64, key: &str, tank: &Tank) {
        let slack = 1e-9;
        if level < tank.reserve - slack || level > tank.fill_limit + slack {
            let typed = match key {
                "start_level" => self.section.tank.start_level.as_ref(),
                _ => self.section.reorder_level.as_ref(),
            };
            let span = typed.map_or(self.section.name.span.clone(), |level| level.span.clone());
            let what = format!("{key}, {level}, is a level that this store never has");
            let problem = self.job.problem(&span, self.key(key), what);
            let range = format!("{} to {}, from reserve to fill_limit", tank.reserve, tank.fill_limit);
            self.problems.push(problem.allowed(range).help("Give a level between the two"));
        }
    }

    pub(super) fn too_small(&mut self, tank: &Tank) {
        let Some(drop) = &self.section.fees.minimum_drop else { return };
        let usable = tank.usable_kwh() / self.fuel.kwh_per_unit;
        let unit = &self.fuel.selling_unit;
        let what = format!("the least delivery is more than this store can take, {usable:.0} {unit}");
        let problem = self.job.problem(&drop.span, self.key("minimum_drop"), what);
        let range = format!("up to {usable:.0} {unit}, what fits between reserve and fill_limit");
        self.problems.push(problem.allowed(range).help("Give a larger tank or a smaller least delivery"));
    }
}
