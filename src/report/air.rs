//! What each option sends into the air: a table.
//!
//! Start at [`table`].

use super::figures::{grouped, money};
use super::model::{Cell, Column, Table};
use crate::comparison::{Comparison, OptionAir, OptionResult};

/// What a year of each option sends into the air, and what a tonne less costs.
pub fn table(c: &Comparison) -> Table {
    let years = c.life_cycles.as_ref().map(|lives| lives.economics.terms.years);
    let amount = |value: Option<f64>| {
        value.map_or(Cell::Missing, |value| Cell::Number { value, shown: money(&c.currency, value) })
    };
    let row = |(option, air): (&OptionResult, &OptionAir)| {
        vec![
            Cell::text(&option.design.name),
            Cell::maybe(air.emissions.co2_kg, 0),
            Cell::number(air.emissions.co2e_kg, 0),
            Cell::number(air.emissions.electricity_co2e_kg, 0),
            Cell::number(air.emissions.biogenic_co2_kg, 0),
            Cell::maybe(air.avoided_t, 2),
            amount(air.bills_per_t),
            amount(air.whole_per_t),
        ]
    };
    let mut columns = vec![
        Column::words("Option", "option"),
        Column::numbers("CO2 kg", "co2_kg"),
        Column::numbers("CO2e kg", "co2e_kg"),
        Column::numbers("from electricity", "electricity_co2e_kg"),
        Column::numbers("Of wood, apart, kg", "biogenic_co2_kg"),
        Column::numbers("Avoided a year, t", "avoided_t"),
        Column::numbers("A tonne costs in bills", "bills_per_t"),
        Column::numbers("with all that is spent", "whole_per_t"),
    ];
    let mut rows: Vec<Vec<Cell>> = c.options.iter().zip(&c.air.options).map(row).collect();
    let wood = c.air.options.iter().any(|air| air.emissions.biogenic_co2_kg > 0.0);
    for (place, shown) in [(7, years.is_some()), (4, wood)] {
        if !shown {
            columns.remove(place);
            rows.iter_mut().for_each(|row| drop(row.remove(place)));
        }
    }
    Table {
        name: "air".into(),
        heading: "What does a year send into the air?".into(),
        columns,
        rows,
        remark: Some(remark(c, years, wood)),
    }
}

fn remark(c: &Comparison, years: Option<usize>, wood: bool) -> String {
    let base = c.options.get(c.air.base).map_or("", |option| option.design.name.as_str());
    let mut remark =
        format!("Avoided: against \u{201c}{base}\u{201d}, CO2e. Below 0, a tonne less saves money. ");
    if let Some(years) = years {
        remark += &format!("All that is spent: over {years} years, in money of today. ");
    }
    let loss = grouped(100.0 * c.air.grid.loss, 1);
    remark += &match &c.air.grid.region {
        Some((id, name)) => format!(
            "Electricity: the average of the grid region {id} ({name}) in 2022 (EPA eGRID2022), {loss} % lost on the \
             way. "
        ),
        None => format!("Electricity: the job\u{2019}s own figure, {loss} % lost on the way. "),
    };
    remark += "An average is not what one kWh more or less causes (the marginal rate), which can be much higher or \
               lower. Fuels: burning alone, 40 CFR 98 Tables C-1 and C-2, with 28 and 265 for methane and nitrous \
               oxide; leaks of fuel and refrigerant and what happens before the house are not counted.";
    if wood {
        remark += " CO2 of wood grew a short while ago and stands apart.";
    }
    let unknown: Vec<&str> = c
        .fuels
        .iter()
        .filter(|(id, _)| c.air.options.iter().any(|air| air.emissions.unknown.contains(id)))
        .map(|(_, fuel)| fuel.name.as_str())
        .collect();
    if !unknown.is_empty() {
        remark += &format!(" No figure is at hand for {}: it is not counted.", unknown.join(", "));
    }
    remark
}
