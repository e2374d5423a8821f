//! The job's `[[supply]]` tables into stores, all problems together.
//!
//! Start at [`stores`].

mod builder;
mod tank;
mod contract;

use super::store::{Store, Supplies};
use crate::equipment::Machine;
use crate::fuel::{FuelId, Fuels};
use crate::job::{Job, OptionSection};
use crate::problem::Problems;
use crate::simulation::design::OptionDesign;
use crate::sources::Assumptions;
use builder::Builder;

/// Builds every store, in the job's order.
///
/// # Errors
/// Amounts and prices by a unit that the fuel is not sold in, a store that cannot take the least
/// delivery, levels out of reach, tiers out of order.
pub fn stores(job: &Job, fuels: &Fuels, assumptions: &mut Assumptions) -> Result<Vec<Store>, Problems> {
    let mut problems = Vec::new();
    let mut stores = Vec::new();
    for section in &job.supplies {
        let found = fuels.find(&section.fuel.value).and_then(|id| Some((id, fuels.get(id)?)));
        // A fuel that is not known has been told with its price.
        let Some((id, fuel)) = found else { continue };
        let mut build = Builder::new(job, section, fuel, assumptions);
        let store = build.store(id);
        problems.extend(build.problems);
        stores.extend(store);
    }
    if problems.is_empty() { Ok(stores) } else { Err(problems) }
}

/// Which of the stores each option burns from; `designs` are the job's options in its order.
///
/// # Errors
/// An option that names two stores of one fuel, or one of a fuel that it does not burn.
pub fn supplies(
    job: &Job,
    stores: Vec<Store>,
    designs: &[OptionDesign],
    machines: &[Machine],
) -> Result<Supplies, Problems> {
    let mut problems = Vec::new();
    let mut by_option = Vec::new();
    for (section, design) in job.options.iter().zip(designs) {
        let places = of_option(job, section, &stores, &design.fuels(machines), &mut problems);
        by_option.push((design.name.clone(), places));
    }
    if problems.is_empty() { Ok(Supplies { stores, by_option }) } else { Err(problems) }
}

/// The stores that an option names, and the first of each fuel that it burns and names none of.
fn of_option(
    job: &Job,
    option: &OptionSection,
    stores: &[Store],
    burned: &[FuelId],
    problems: &mut Problems,
) -> Vec<usize> {
    let mut places: Vec<usize> = Vec::new();
    let key = format!("option.{}.supply", option.name.value);
    for name in &option.supply {
        let Some((place, store)) = stores.iter().enumerate().find(|(_, s)| s.name == name.value) else {
            continue;
        };
        let same = |p: &usize| stores.get(*p).is_some_and(|other| other.fuel == store.fuel);
        let (what, help) = if !burned.contains(&store.fuel) {
            ("nothing in this option burns the fuel of", "Take the name out of the list")
        } else if places.iter().any(same) {
            ("there is another store of the same fuel beside", "Name one store a fuel")
        } else {
            places.push(place);
            continue;
        };
        problems.push(job.problem(&name.span, &key, format!("{what} '{}'", name.value)).help(help));
    }
    for (place, store) in stores.iter().enumerate().filter(|(_, store)| burned.contains(&store.fuel)) {
        if places.iter().all(|p| stores.get(*p).is_none_or(|other| other.fuel != store.fuel)) {
            places.push(place);
        }
    }
    places.sort_unstable();
    places
}
