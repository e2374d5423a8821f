//! Tables of scenarios: which option costs least in each, and what every option costs in each.
//!
//! Start at [`tables`].

use super::figures::money;
use super::model::{Cell, Column, Table};
use crate::comparison::Outcome;
use crate::study::scenarios::Least;
use crate::study::{ScenarioRow, ScenarioTable};

/// What the tables are of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// Scenarios.
    Scenarios,
    /// The years of a record.
    Years,
}

/// How the tables are worded.
#[derive(Debug, Clone, Copy)]
pub struct Wording<'a> {
    /// What they are of.
    pub kind: Kind,
    /// The currency's sign.
    pub currency: &'a str,
    /// Years over which costs are counted, where the job says what options cost to install.
    pub years: Option<usize>,
}

impl Wording<'_> {
    fn amount(&self, value: f64) -> Cell {
        Cell::Number { value, shown: money(self.currency, value) }
    }

    fn first_column(&self) -> Column {
        match self.kind {
            Kind::Scenarios => Column::words("What if", "scenario"),
            Kind::Years => Column::words("Year", "year"),
        }
    }

    fn prefix(&self) -> &'static str {
        match self.kind {
            Kind::Scenarios => "scenarios",
            Kind::Years => "years",
        }
    }
}

/// The tables for people: which costs least a year, and over the years; then what each costs.
pub fn tables(table: &ScenarioTable, words: Wording<'_>) -> Vec<Table> {
    let mut list = vec![least_a_year(table, words)];
    list.extend(over_the_years(table, words));
    list.extend(blocks(table, words));
    list
}

fn name(row: &ScenarioRow) -> Cell {
    Cell::text(row.name.as_deref().unwrap_or("as it is"))
}

/// Which option costs least in a year of each scenario.
pub fn least_a_year(table: &ScenarioTable, words: Wording<'_>) -> Table {
    let heading = match words.kind {
        Kind::Scenarios => "What if: which option costs least a year then, and by how much?",
        Kind::Years => "Year by year: which option would have cost least, and by how much?",
    };
    let stress = "The job names no [[scenario]], so the prices of energy are stressed, each by itself and \
                  together: fuels twice as dear, electricity 30 % dearer.";
    Table {
        name: format!("{}_least_a_year", words.prefix()),
        heading: heading.into(),
        columns: columns(words, "A year", "yearly_cost"),
        rows: table.rows.iter().map(|row| least_row(row, row.least_a_year(), words)).collect(),
        remark: table.is_default_stress.then(|| stress.into()),
    }
}

/// Which option costs least over the years in each scenario; nothing without costs of installing.
fn over_the_years(table: &ScenarioTable, words: Wording<'_>) -> Option<Table> {
    let years = words.years.filter(|_| words.kind == Kind::Scenarios)?;
    Some(Table {
        name: format!("{}_least_over_years", words.prefix()),
        heading: format!("And over {years} years, with what it costs to install?"),
        columns: columns(words, "In all", "life_cycle_cost"),
        rows: table.rows.iter().map(|row| least_row(row, row.least_over_the_years(), words)).collect(),
        remark: Some("Every year is taken to be as the scenario has it.".into()),
    })
}

fn columns(words: Wording<'_>, head: &str, key: &str) -> Vec<Column> {
    vec![
        words.first_column(),
        Column::words("Least that keeps warm", "least_option"),
        Column::numbers(head, key),
        Column::words("Next, dearer", "next_option"),
        Column::numbers("by", "next_costs_more_by"),
    ]
}

fn least_row(row: &ScenarioRow, least: Option<Least>, words: Wording<'_>) -> Vec<Cell> {
    let option = |i: usize| row.found.options.get(i).map_or(Cell::Missing, |o| Cell::text(&o.name));
    let next = least.and_then(|least| least.next);
    vec![
        name(row),
        least.map_or(Cell::Missing, |least| option(least.option)),
        least.map_or(Cell::Missing, |least| words.amount(least.cost)),
        next.map_or(Cell::Missing, |(i, _)| option(i)),
        next.map_or(Cell::Missing, |(_, by)| words.amount(by)),
    ]
}

/// Scenarios side by side in one table, at most.
const ABREAST: usize = 5;

/// What every option costs a year in each scenario, some scenarios at a time.
fn blocks(table: &ScenarioTable, words: Wording<'_>) -> Vec<Table> {
    let chunks: Vec<&[ScenarioRow]> = match words.kind {
        Kind::Scenarios => table.rows.chunks(ABREAST).collect(),
        Kind::Years => return vec![spread(table, words)],
    };
    let block = |(i, rows): (usize, &&[ScenarioRow])| {
        let mut columns = vec![Column::words("A year", "option")];
        columns.extend(rows.iter().map(|row| {
            let head = row.name.as_deref().unwrap_or("as it is");
            Column::numbers(head, format!("yearly_cost_{}", head.replace([' ', ','], "_")))
        }));
        let options = rows.first().map_or(&[][..], |row| &row.found.options);
        let costs = options.iter().enumerate().map(|(o, option)| {
            let mut cells = vec![Cell::text(&option.name)];
            cells.extend(rows.iter().map(|row| cost(row.found.options.get(o), words)));
            cells
        });
        Table {
            name: format!("{}_side_by_side_{}", words.prefix(), i + 1),
            heading: if i == 0 { "What does each option cost a year then?".into() } else { String::new() },
            columns,
            rows: costs.collect(),
            remark: cold_remark(rows),
        }
    };
    chunks.iter().enumerate().map(block).collect()
}

/// What each option cost in the least and the dearest of the years, and on their mean.
fn spread(table: &ScenarioTable, words: Wording<'_>) -> Table {
    let options = table.rows.first().map_or(&[][..], |row| &row.found.options);
    let row = |(i, option): (usize, &Outcome)| {
        let of_year = table.rows.iter().filter_map(|row| row.found.options.get(i));
        let costs: Vec<f64> = of_year.clone().map(Outcome::yearly_cost).collect();
        let mean = costs.iter().sum::<f64>() / costs.len() as f64;
        let cold = of_year.filter(|option| option.goes_cold()).count();
        vec![
            Cell::text(&option.name),
            words.amount(costs.iter().copied().fold(f64::INFINITY, f64::min)),
            words.amount(mean),
            words.amount(costs.iter().copied().fold(f64::NEG_INFINITY, f64::max)),
            Cell::number(cold as f64, 0),
        ]
    };
    Table {
        name: "years_spread".into(),
        heading: format!("What would each option have cost in these {} years?", table.rows.len()),
        columns: vec![
            Column::words("Option", "option"),
            Column::numbers("Least a year", "least_yearly_cost"),
            Column::numbers("Mean", "mean_yearly_cost"),
            Column::numbers("Most", "greatest_yearly_cost"),
            Column::numbers("Years gone cold", "years_gone_cold"),
        ],
        rows: options.iter().enumerate().map(row).collect(),
        remark: Some("At the prices of this job in every year.".into()),
    }
}

fn cost(option: Option<&Outcome>, words: Wording<'_>) -> Cell {
    let Some(option) = option else { return Cell::Missing };
    let value = option.yearly_cost();
    match option.goes_cold() {
        false => words.amount(value),
        true => Cell::Number { value, shown: format!("{} COLD", money(words.currency, value)) },
    }
}

fn cold_remark(rows: &[ScenarioRow]) -> Option<String> {
    let any = rows.iter().flat_map(|row| &row.found.options).any(|option| option.goes_cold());
    any.then(|| "COLD: does not keep the house warm then.".into())
}

/// Every option in every scenario, for files.
pub fn long(table: &ScenarioTable, words: Wording<'_>) -> Table {
    let rows = table.rows.iter().flat_map(|row| {
        let least = row.least_a_year().map(|least| least.option);
        row.found.options.iter().enumerate().map(move |(i, option)| {
            vec![
                name(row),
                Cell::text(&option.name),
                words.amount(option.yearly_cost()),
                option.life_cycle_cost.map_or(Cell::Missing, |cost| words.amount(cost)),
                Cell::number(option.hours_not_kept_warm as f64, 0),
                Cell::text(if least == Some(i) { "least" } else { "" }),
            ]
        })
    });
    Table {
        name: words.prefix().into(),
        heading: "Every option in each".into(),
        columns: vec![
            words.first_column(),
            Column::words("Option", "option"),
            Column::numbers("A year", "yearly_cost"),
            Column::numbers("Over the years", "life_cycle_cost"),
            Column::numbers("Hours not warm", "hours_not_kept_warm"),
            Column::words("", "mark"),
        ],
        rows: rows.collect(),
        remark: None,
    }
}
