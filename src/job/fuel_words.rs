//! The fuel that a job names and the units it is sold by, or what the job should say instead.
//!
//! Knows the table of fuels and the place of a word in the job; never a price or an amount. Start at
//! [`Job::fuel`].

use super::sections::Job;
use super::typed::Typed;
use super::wording::closest;
use crate::fuel::{Fuel, FuelId, Fuels, meant_by};
use crate::problem::Problem;
use std::ops::Range;

impl Job {
    /// The fuel of that name.
    ///
    /// # Errors
    /// There is none; the message lists those that are, and says which was meant where one is alike.
    pub fn fuel<'f>(
        &self,
        named: &Typed<String>,
        key: impl Into<String>,
        fuels: &'f Fuels,
    ) -> Result<(FuelId, &'f Fuel), Problem> {
        fuels.find(named).and_then(|id| Some((id, fuels.get(id)?))).ok_or_else(|| {
            let known: Vec<_> = fuels.iter().map(|(_, fuel)| fuel.id.as_str()).collect();
            let near = meant_by(named).or_else(|| closest(named, known.iter().copied()));
            let help =
                near.map_or("Name one of these fuels".to_owned(), |near| format!("Did you mean {near}?"));
            let problem = self.problem(&named.span, key, format!("there is no fuel '{}'", named.value));
            problem.allowed(known.join(", ")).help(help)
        })
    }

    /// Selling units of the fuel in one `unit`.
    ///
    /// # Errors
    /// The fuel is not sold by it; the message says by what it is.
    pub fn units_in(
        &self,
        fuel: &Fuel,
        unit: &str,
        span: &Range<usize>,
        key: impl Into<String>,
    ) -> Result<f64, Problem> {
        fuel.units_in(unit).ok_or_else(|| {
            let what = format!("{} is not sold by the {unit}", fuel.name);
            self.problem(span, key, what).help(fuel.unit_help(unit))
        })
    }
}
