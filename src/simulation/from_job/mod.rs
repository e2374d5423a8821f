//! The job's `[[option]]` tables into designs, all problems together.
//!
//! Start at [`designs`].

mod controls;

use super::design::{OptionDesign, ZoneDesign};
use super::household::HouseholdDesign;
use super::household::from_job::household;
use super::kernel::MOST_HEATERS;
use crate::equipment::{HouseholdMachine, Machine};
use crate::fuel::FuelId;
use crate::job::{Job, OptionSection, OptionZoneSection, Typed};
use crate::load::{Mains, Zone};
use crate::problem::{Problem, Problems};
use crate::sources::Assumptions;
use controls::Controls;
pub use controls::defrost_minutes;

/// What designs need beside the job's own machines and zones.
pub struct Surroundings<'a> {
    /// Machines for hot water, drying and cooking.
    pub household: &'a [HouseholdMachine],
    /// How cold the water comes in at the place.
    pub mains: Mains,
    /// What a kWh of a fuel is worth on the mean of the year, in any unit.
    pub worth: &'a dyn Fn(FuelId) -> f64,
}

/// Builds every option's design; `zones` and `machines` are those of the same job, in its order.
///
/// # Errors
/// Heaters that cannot heat, coolers that cannot cool, changeovers that do not fit, machines that
/// serve two zones.
pub fn designs(
    job: &Job,
    zones: &[Zone],
    machines: &[Machine],
    surroundings: &Surroundings<'_>,
    assumptions: &mut Assumptions,
) -> Result<Vec<OptionDesign>, Problems> {
    let mut problems = Vec::new();
    let mut list = Vec::new();
    for option in &job.options {
        let found = zones.iter().map(|zone| {
            let section = option.zone.iter().find(|z| z.zone.value == zone.name);
            let section = section.ok_or_else(|| vec![missing_zone(job, option, zone)])?;
            zone_design(job, option, section, zone, machines, (surroundings, assumptions))
        });
        let (designs, wrong): (Vec<_>, Vec<_>) = found.partition(Result::is_ok);
        problems.extend(wrong.into_iter().filter_map(Result::err).flatten());
        problems.extend(served_twice(job, option));
        let mut zones_of: Vec<ZoneDesign> = designs.into_iter().flatten().collect();
        share_outdoor_units(&mut zones_of, machines);
        let built = household(job, option, surroundings.household, zones, surroundings.mains, assumptions);
        let household = built.unwrap_or_else(|found| {
            problems.extend(found);
            HouseholdDesign::default()
        });
        for (place, zone) in zones_of.iter_mut().enumerate() {
            if let Some(hot) = &household.hot_water {
                zone.heat_taken_kw = hot.mean_taken_kw(place);
                zone.most_heat_taken_kw = hot.most_taken_kw(place);
            }
        }
        list.push(OptionDesign { name: option.name.value.clone(), zones: zones_of, household });
    }
    if problems.is_empty() { Ok(list) } else { Err(problems) }
}

/// Tells each zone all the heads that hang on the outdoor units of its own.
fn share_outdoor_units(zones: &mut [ZoneDesign], machines: &[Machine]) {
    let unit = |i: &usize| machines.get(*i).and_then(|m| m.outdoor_unit);
    let on_one = |i: &usize| unit(i).is_some();
    let heating: Vec<usize> = zones.iter().flat_map(|z| &z.heaters).copied().filter(on_one).collect();
    let cooling: Vec<usize> = zones.iter().filter_map(|z| z.cooler).filter(on_one).collect();
    for zone in zones {
        let with = |all: &[usize], own: &[usize]| {
            let shared = |head: &&usize| own.iter().any(|own| unit(own) == unit(head));
            all.iter().filter(shared).copied().collect()
        };
        zone.heads = with(&heating, &zone.heaters);
        zone.cooling_heads = with(&cooling, zone.cooler.as_slice());
    }
}

fn missing_zone(job: &Job, option: &OptionSection, zone: &Zone) -> Problem {
    let what = format!("nothing serves the zone '{}'", zone.name);
    let problem = job.problem(&option.name.span, format!("option.{}", option.name.value), what);
    problem.help("Add an [[option.zone]] for it")
}

fn zone_design(
    job: &Job,
    option: &OptionSection,
    section: &OptionZoneSection,
    zone: &Zone,
    machines: &[Machine],
    (surroundings, assumptions): (&Surroundings<'_>, &mut Assumptions),
) -> Result<ZoneDesign, Problems> {
    let key = |k: &str| format!("option.{}.zone.{}.{k}", option.name.value, section.zone.value);
    let mut problems = Vec::new();
    let mut find = |name: &Typed<String>, k: &str, fits: fn(&Machine) -> bool, does: &str| {
        let found = machines.iter().position(|m| m.name == name.value);
        let fitting = found.filter(|i| machines.get(*i).is_some_and(fits));
        if fitting.is_none() {
            let what = format!("'{}' cannot {does}", name.value);
            problems
                .push(job.problem(&name.span, key(k), what).help(format!("Name a machine that can {does}")));
        }
        fitting
    };
    let heaters: Vec<usize> = section
        .heating
        .value
        .iter()
        .filter_map(|name| find(name, "heating", |m| m.heating.is_some(), "heat"))
        .collect();
    let cooler = section.cooling.as_ref().and_then(|n| find(n, "cooling", |m| m.cooling.is_some(), "cool"));
    problems.extend(cooling_without_need(job, section, zone, &key("cooling")));
    if section.heating.value.len() > MOST_HEATERS {
        let what = format!("{} heaters in one zone", section.heating.value.len());
        let problem = job.problem(&section.heating.span, key("heating"), what);
        problems.push(problem.allowed(format!("at most {MOST_HEATERS}")).help("Leave some out"));
    }
    let worth = surroundings.worth;
    let mut controls =
        Controls { job, section, heaters: &heaters, machines, key: &key, worth, assumptions, problems };
    let changeover = controls.changeover();
    let staged_recovery = controls.staged_recovery();
    let defrost_aux = controls.defrost_aux();
    let tempering = controls.tempering(defrost_aux);
    if !controls.problems.is_empty() {
        return Err(controls.problems);
    }
    let served = ZoneDesign { cooler, changeover, staged_recovery, defrost_aux, ..ZoneDesign::default() };
    Ok(ZoneDesign { heaters, tempering, ..served })
}

fn cooling_without_need(job: &Job, section: &OptionZoneSection, zone: &Zone, key: &str) -> Option<Problem> {
    let named = section.cooling.as_ref().filter(|_| zone.cooling.is_none())?;
    let what = format!("the zone '{}' has no cooling load", zone.name);
    let problem = job.problem(&named.span, key, what);
    Some(problem.help("Give the zone its four cooling_... keys, or take the cooling machine out"))
}

/// A machine that two zones of one option name would give its full output to each of them.
fn served_twice(job: &Job, option: &OptionSection) -> Problems {
    let mut seen: Vec<(&str, usize)> = Vec::new();
    let mut problems = Vec::new();
    for (z, zone) in option.zone.iter().enumerate() {
        for name in zone.heating.value.iter().chain(&zone.cooling) {
            let other = seen.iter().any(|(n, at)| *n == name.value && *at != z);
            if other {
                let what = format!("'{}' serves another zone of this option already", name.value);
                let key = format!("option.{}.zone.{}", option.name.value, zone.zone.value);
                let help = "Give each zone a machine of its own, under a name of its own";
                problems.push(job.problem(&name.span, key, what).help(help));
            }
            seen.push((&name.value, z));
        }
    }
    problems
}
