//! Who gave each price and each cost of a job, and how they know it.
//!
//! Start at [`given`].

use crate::fuel::{FuelId, Fuels};
use crate::job::{Job, OptionSection};
use crate::sources::HowKnown;

/// Something that the job gives, and what it says of where it comes from.
#[derive(Debug, Clone, PartialEq)]
pub struct Given {
    /// What is given.
    pub what: GivenWhat,
    /// How it is known, where the job says.
    pub how: Option<HowKnown>,
    /// In the job's own words, where it has any.
    pub source: Option<String>,
}

/// What is given.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum GivenWhat {
    /// The prices of a fuel, or its rate for heating.
    Prices {
        /// The fuel.
        fuel: FuelId,
        /// Whether it is the rate of its own for heating.
        heating: bool,
    },
    /// Parts of what an option costs to install.
    Parts {
        /// The option's place.
        option: usize,
        /// How many.
        count: usize,
        /// What they come to, in the job's currency.
        amount: f64,
    },
    /// Incentives of an option.
    Incentives {
        /// The option's place.
        option: usize,
        /// How many.
        count: usize,
        /// What they come to, in the job's currency.
        amount: f64,
    },
}

/// Everything that the job prices: fuels in its order, then options.
pub(super) fn given(job: &Job, fuels: &Fuels) -> Vec<Given> {
    let text = |typed: &Option<crate::job::Typed<String>>| typed.as_ref().map(|typed| typed.value.clone());
    let mut list = Vec::new();
    for (id, section) in &job.prices.fuels {
        let Some(fuel) = fuels.find(&id.value) else { continue };
        let heating = section.heating.as_ref().map(|heating| (true, &heating.value.rate));
        for (heating, rate) in std::iter::once((false, &section.rate)).chain(heating) {
            let how = rate.basis.as_deref().copied();
            list.push(Given { what: GivenWhat::Prices { fuel, heating }, how, source: text(&rate.source) });
        }
    }
    for (place, option) in job.options.iter().enumerate() {
        list.extend(of_option(place, option));
    }
    list
}

/// Parts and incentives, those of the same origin together.
fn of_option(place: usize, option: &OptionSection) -> Vec<Given> {
    let mut list: Vec<Given> = Vec::new();
    let mut add = |what: GivenWhat, how: Option<HowKnown>, source: Option<String>| {
        let same = |given: &&mut Given| {
            let kind = std::mem::discriminant(&given.what) == std::mem::discriminant(&what);
            kind && given.how == how && given.source == source
        };
        match list.iter_mut().find(same) {
            Some(there) => there.what = there.what.with(what),
            None => list.push(Given { what, how, source }),
        }
    };
    for part in &option.costs.cost {
        let what = GivenWhat::Parts { option: place, count: 1, amount: part.amount.value };
        add(what, part.basis.as_deref().copied(), part.source.as_ref().map(|s| s.value.clone()));
    }
    for help in &option.costs.incentive {
        let what = GivenWhat::Incentives { option: place, count: 1, amount: help.amount.value };
        let source = format!("{}, {}", help.source.value, help.date.value);
        add(what, help.basis.as_deref().copied(), Some(source));
    }
    list
}

impl GivenWhat {
    /// One more of the same kind.
    fn with(self, other: Self) -> Self {
        match (self, other) {
            (Self::Parts { option, count, amount }, Self::Parts { amount: more, .. }) => {
                Self::Parts { option, count: count + 1, amount: amount + more }
            }
            (Self::Incentives { option, count, amount }, Self::Incentives { amount: more, .. }) => {
                Self::Incentives { option, count: count + 1, amount: amount + more }
            }
            (one, _) => one,
        }
    }
}
