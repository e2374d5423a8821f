//! The figures behind the charts as tables, and what the report says in sentences: for files, so that
//! nothing is shown that cannot be read on.
//!
//! Start at [`behind_charts`].

use super::figures::{Measure, money};
use super::model::{Cell, Column, Report, Table};
use super::{capacity_picture, life_cycle_picture, wording};
use crate::comparison::Comparison;
use crate::sources::{Assumption, Source};

fn table(name: &str, heading: &str, columns: Vec<Column>, rows: Vec<Vec<Cell>>) -> Table {
    Table { name: name.into(), heading: heading.into(), columns, rows, remark: None }
}

/// One table a chart, under the chart's own name, where no other table has its figures.
pub fn behind_charts(c: &Comparison, measure: Measure) -> Vec<Table> {
    [Some(capacity(c, measure)), tank_level(c), spent(c)].into_iter().flatten().collect()
}

fn capacity(c: &Comparison, measure: Measure) -> Table {
    let mut rows = Vec::new();
    for panel in capacity_picture::capacity(c, measure, "").panels {
        let mut add = |line: &str, machine: &str, points: &[(f64, f64)]| {
            rows.extend(points.iter().map(|(temperature, power)| {
                let words = [panel.zone.as_str(), line, machine].map(Cell::text);
                words.into_iter().chain([Cell::number(*temperature, 1), Cell::number(*power, 2)]).collect()
            }));
        };
        add("need", "", &panel.load);
        for machine in &panel.machines {
            add("greatest", &machine.name, &machine.greatest);
            add("least", &machine.name, machine.least.as_deref().unwrap_or_default());
        }
    }
    let columns = vec![
        Column::words("Zone", "zone"),
        Column::words("Line", "line"),
        Column::words("Machine", "machine"),
        Column::numbers(format!("Outdoor {}", measure.degree()), format!("outdoor_{}", measure.degree_key())),
        Column::numbers(format!("Heat {}", measure.power_unit()), format!("heat_{}", measure.power_key())),
    ];
    table("capacity", "Heat needed and heat the machines can give", columns, rows)
}

fn tank_level(c: &Comparison) -> Option<Table> {
    let stores = c.options.iter().flat_map(|o| o.stores.iter().map(move |store| (o, store)));
    let rows = stores.flat_map(|(o, result)| {
        let (store, year) = (&result.supplied.store, &result.supplied.year);
        let fuel = c.fuels.get(store.fuel);
        let (units, unit) = fuel.map_or((1.0, "kWh"), |f| (f.kwh_per_unit, f.selling_unit.as_str()));
        let market = &result.supplied.market;
        let days = result.supplied.market.dates.iter().zip(&year.levels_kwh).enumerate();
        days.map(move |(day, (date, level))| {
            let words = [o.design.name.as_str(), &store.name, &date.to_string()].map(Cell::text);
            let price = Cell::number(market.price(day) * units, 4);
            let level = [Cell::number(level / units, 1), Cell::text(unit), price];
            words.into_iter().chain(level).collect()
        })
    });
    let rows: Vec<Vec<Cell>> = rows.collect();
    let columns = vec![
        Column::words("Option", "option"),
        Column::words("Store", "store"),
        Column::words("Month and day", "month_day"),
        Column::numbers("Level in the evening", "level_in_the_evening"),
        Column::words("Unit", "unit"),
        Column::numbers("Price of the day for one", "price_of_the_day"),
    ];
    (!rows.is_empty()).then(|| table("tank_level", "Fuel in the store through the year", columns, rows))
}

fn spent(c: &Comparison) -> Option<Table> {
    let lines = life_cycle_picture::spent(c, "")?.lines;
    let rows = lines.iter().flat_map(|line| {
        line.spent.iter().enumerate().map(|(year, spent)| {
            let spent = Cell::Number { value: *spent, shown: money(&c.currency, *spent) };
            vec![Cell::text(&line.name), Cell::number(year as f64, 0), spent]
        })
    });
    let columns = vec![
        Column::words("Option", "option"),
        Column::numbers("End of year", "end_of_year"),
        Column::numbers("Spent", "spent"),
    ];
    Some(table("spent_by_year", "Spent by the end of each year", columns, rows.collect()))
}

/// The defaults that stood in for what the job does not say, one a row.
pub fn assumptions(c: &Comparison) -> Table {
    let row = |a: &Assumption| {
        let kind = match a.source {
            Source::Job(_) => "job",
            Source::Published(_) => "published",
            Source::CommonPractice(_) => "common practice",
            Source::FromMemory(_) => "from memory",
            Source::Derived(_) => "derived",
        };
        [&a.key, &a.value, kind, &wording::source(&a.source)].map(Cell::text).into()
    };
    let columns = vec![
        Column::words("Key", "key"),
        Column::words("Value", "value"),
        Column::words("Kind of source", "kind_of_source"),
        Column::words("Source", "source"),
    ];
    let rows = c.assumptions.0.iter().map(row).collect();
    table("assumptions", "Assumed, since the job does not say", columns, rows)
}

/// Whatever a report says outside its tables, one sentence or paragraph a row.
pub fn remarks(report: &Report) -> Table {
    let foot = [report.foot.clone()];
    let under = report.tables.iter().chain(&report.appendices).filter_map(|table| {
        let remark = table.remark.as_ref()?;
        Some([format!("under {}", table.name), remark.clone()])
    });
    let lists: [(&str, &[String]); 5] = [
        ("about", &report.about),
        ("verdict", &report.verdict),
        ("note", &report.notes),
        ("caution", &report.cautions),
        ("foot", &foot),
    ];
    let said = lists.into_iter().flat_map(|(kind, list)| list.iter().map(|text| [kind.into(), text.clone()]));
    let rows = said.chain(under).map(|row| row.map(Cell::text).into());
    let columns = vec![Column::words("Kind", "kind"), Column::words("Text", "text")];
    table("remarks", "What the report says beside its tables", columns, rows.collect())
}
