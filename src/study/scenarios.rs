//! The same house under other prices, weather, walls or help: what each option costs then, and which
//! costs least.
//!
//! Start at [`scenarios`] and [`years`].

use super::change::{Change, Scenario};
use crate::comparison::note::Note;
use crate::comparison::{Comparison, Outcome, Rerun, Reruns};
use crate::job::Job;
use crate::problem::Problems;
use crate::weather::Weather;
use crate::weather::quality::winters_with_enough;

/// Where the job names no scenario: delivered fuels and gas at so many times their price.
///
/// Common practice: a price can double within eight weeks of winter.
pub const FUEL_STRESS: f64 = 2.0;
/// The same of electricity, which regulated rates let move less.
pub const ELECTRICITY_STRESS: f64 = 1.3;

/// Scenarios beside the job as it is.
#[derive(Debug, Clone, PartialEq)]
pub struct ScenarioTable {
    /// Whether the job names none, so that prices are stressed on both sides alike.
    pub is_default_stress: bool,
    /// The job as it is, where it stands beside them, then the scenarios in order.
    pub rows: Vec<ScenarioRow>,
}

/// One scenario.
#[derive(Debug, Clone, PartialEq)]
pub struct ScenarioRow {
    /// Its name; nothing for the job as it is.
    pub name: Option<String>,
    /// What it comes to.
    pub found: Rerun,
}

/// The option that costs least of those that do not go cold, and the next.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Least {
    /// The place of the option.
    pub option: usize,
    /// What it costs, in the job's currency.
    pub cost: f64,
    /// The place of the next, and how much more it costs; nothing where every other goes cold.
    pub next: Option<(usize, f64)>,
}

impl ScenarioRow {
    /// Which option costs least in a year.
    pub fn least_a_year(&self) -> Option<Least> {
        least(&self.found.options, |option| Some(option.yearly_cost()))
    }

    /// Which option costs least over the years, where the job says what they cost to install.
    pub fn least_over_the_years(&self) -> Option<Least> {
        least(&self.found.options, |option| option.life_cycle_cost)
    }
}

fn least(options: &[Outcome], cost: impl Fn(&Outcome) -> Option<f64>) -> Option<Least> {
    let warm = options.iter().enumerate().filter(|(_, option)| !option.goes_cold());
    let mut ranked: Vec<(usize, f64)> = warm.filter_map(|(i, option)| Some((i, cost(option)?))).collect();
    ranked.sort_by(|a, b| a.1.total_cmp(&b.1));
    let &(option, cost) = ranked.first()?;
    Some(Least { option, cost, next: ranked.get(1).map(|(next, its)| (*next, its - cost)) })
}

/// Runs the scenarios of the job, or stresses its prices where it names none.
///
/// `first` is the comparison of the job as it is, on the same weather.
///
/// # Errors
/// A scenario that sets what cannot be set, or makes a job that is refused.
pub fn scenarios(job: &Job, weather: &Weather, first: &Comparison) -> Result<ScenarioTable, Problems> {
    let named: Vec<Scenario> = job.scenarios.iter().map(Scenario::of_section).collect();
    let is_default_stress = named.is_empty();
    let list = if is_default_stress { stress(job, first) } else { named };
    let reruns = Reruns::new(first, weather);
    let mut rows = vec![ScenarioRow { name: None, found: reruns.run(job)? }];
    rows.extend(each(job, &reruns, &list)?);
    Ok(ScenarioTable { is_default_stress, rows })
}

/// What the jobs of the named scenarios are asked about that the job as it is, is not; `first` is its comparison.
///
/// # Errors
/// As [`scenarios`].
pub fn scenario_questions(job: &Job, weather: &Weather, first: &Comparison) -> Result<Vec<Note>, Problems> {
    let reruns = Reruns::new(first, weather);
    let mut notes = Vec::new();
    for mut scenario in job.scenarios.iter().map(Scenario::of_section) {
        // A price's factor is put in as a spike; one that holds all year is asked about only where it was typed so.
        scenario.changes.retain(|change| matches!(change, Change::Set { .. }));
        let asked = scenario.with(job, |changed| reruns.questions(changed))?;
        notes.extend(
            asked
                .into_iter()
                .map(|note| Note::OfScenario { scenario: scenario.name.clone(), note: Box::new(note) }),
        );
    }
    Ok(notes)
}

/// Runs the job on every complete winter's year of its record, but for those that lack too many hours;
/// nothing where the weather is no record.
///
/// # Errors
/// Everything a job can be refused for.
pub fn years(job: &Job, weather: &Weather, first: &Comparison) -> Result<Option<ScenarioTable>, Problems> {
    let Weather::Record(record) = weather else { return Ok(None) };
    let scenario = |year: &i32| Scenario {
        name: format!("July {year} to June {}", year.saturating_add(1)),
        changes: vec![Change::Set { key: "site.weather_year".into(), value: year.to_string() }],
    };
    let list: Vec<Scenario> = winters_with_enough(record).iter().map(scenario).collect();
    let rows = each(job, &Reruns::new(first, weather), &list)?;
    Ok(Some(ScenarioTable { is_default_stress: false, rows }))
}

fn each(job: &Job, reruns: &Reruns<'_>, list: &[Scenario]) -> Result<Vec<ScenarioRow>, Problems> {
    let row = |scenario: &Scenario| {
        let found = scenario.with(job, |changed| reruns.run(changed))?;
        Ok(ScenarioRow { name: Some(scenario.name.clone()), found })
    };
    list.iter().map(row).collect()
}

/// Each fuel of the job dearer by itself, side by side, then all at once.
fn stress(job: &Job, first: &Comparison) -> Vec<Scenario> {
    let mut list: Vec<Scenario> = Vec::new();
    for (id, fuel) in first.fuels.iter().filter(|(_, fuel)| job.prices.fuel(&fuel.id).is_some()) {
        let is_electricity = id == crate::fuel::FuelId::ELECTRICITY;
        let times = if is_electricity { ELECTRICITY_STRESS } else { FUEL_STRESS };
        let name = format!("{} \u{d7} {times}", fuel.name);
        list.push(Scenario { name, changes: vec![Change::price(&fuel.id, times)] });
    }
    // Fuels first: they are what a winter moves.
    if list.len() > 1 {
        list.rotate_left(1);
    }
    if list.len() > 1 {
        let all = list.iter().flat_map(|scenario| scenario.changes.clone()).collect();
        list.push(Scenario { name: "all of these at once".into(), changes: all });
    }
    list
}
