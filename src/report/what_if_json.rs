//! Scenarios as JSON.
//!
//! Start at [`scenarios`].

use super::json_head::{JsonHead, written};
use super::levers::{self, LeversDocument};
use crate::comparison::{Comparison, Outcome};
use crate::problem::Problem;
use crate::study::scenarios::Least;
use crate::study::{Levers, ScenarioRow, ScenarioTable};
use serde::Serialize;

#[derive(Serialize)]
struct ScenariosDocument<'a> {
    #[serde(flatten)]
    head: JsonHead<'a>,
    is_default_stress: bool,
    scenarios: Vec<RowDocument<'a>>,
    years: Option<Vec<RowDocument<'a>>>,
    levers: LeversDocument<'a>,
}

#[derive(Serialize)]
struct RowDocument<'a> {
    name: Option<&'a str>,
    least_a_year: Option<LeastDocument<'a>>,
    least_over_years: Option<LeastDocument<'a>>,
    options: Vec<OptionDocument<'a>>,
}

#[derive(Serialize)]
struct LeastDocument<'a> {
    option: &'a str,
    cost: f64,
    next: Option<&'a str>,
    next_costs_more_by: Option<f64>,
}

#[derive(Serialize)]
struct OptionDocument<'a> {
    name: &'a str,
    yearly_cost: f64,
    life_cycle_cost: Option<f64>,
    hours_not_kept_warm: usize,
    #[serde(rename = "lowest_room_degC")]
    lowest_room_c: Option<f64>,
}

/// The scenarios of a job, the years of its record where it has one, and how its costs hang on prices, as
/// indented JSON.
///
/// # Errors
/// A value that JSON cannot hold; that would be a defect.
pub fn scenarios<'a>(
    c: &'a Comparison,
    table: &'a ScenarioTable,
    years: Option<&'a ScenarioTable>,
    levers: &'a Levers,
) -> Result<String, Problem> {
    let document = ScenariosDocument {
        head: JsonHead::of(c),
        is_default_stress: table.is_default_stress,
        scenarios: table.rows.iter().map(row).collect(),
        years: years.map(|table| table.rows.iter().map(row).collect()),
        levers: levers::document(c, levers),
    };
    written(&document)
}

fn row(row: &ScenarioRow) -> RowDocument<'_> {
    let name = |i: usize| row.found.options.get(i).map_or("", |option| option.name.as_str());
    let least = |least: Least| LeastDocument {
        option: name(least.option),
        cost: least.cost,
        next: least.next.map(|(i, _)| name(i)),
        next_costs_more_by: least.next.map(|(_, by)| by),
    };
    RowDocument {
        name: row.name.as_deref(),
        least_a_year: row.least_a_year().map(least),
        least_over_years: row.least_over_the_years().map(least),
        options: row.found.options.iter().map(option).collect(),
    }
}

fn option(option: &Outcome) -> OptionDocument<'_> {
    OptionDocument {
        name: &option.name,
        yearly_cost: option.yearly_cost(),
        life_cycle_cost: option.life_cycle_cost,
        hours_not_kept_warm: option.hours_not_kept_warm,
        lowest_room_c: option.lowest_room_c,
    }
}
