//! The `[[scenario]]` tables and `[draws]` into their sections.
//!
//! Must never judge what a scenario sets: that is done when it is run. Start at [`scenarios`].

use super::limits::from_to;
use super::names::{Known, Names};
use super::table::Table;
use super::values::{flag, month_day, number, text, whole};
use super::what_if::{DrawsSection, PriceChangeSection, ScenarioSection};
use super::wording::{Fault, quoted};

/// Reads every `[[scenario]]`; `None` if one cannot be used.
pub(super) fn scenarios(mut tables: Vec<Table<'_>>, known: &Known) -> Option<Vec<ScenarioSection>> {
    Names::of_tables(&mut tables, "scenarios");
    let read: Vec<_> = tables.into_iter().map(|table| scenario(table, known)).collect();
    read.into_iter().collect()
}

/// Reads `[draws]`.
pub(super) fn draws(mut table: Table<'_>) -> DrawsSection {
    let section = DrawsSection {
        winters: table.opt("winters", whole(from_to(100.0, 100_000.0))),
        seed: table.opt("seed", whole(from_to(0.0, 1_000_000.0))),
        risk: table.opt("risk", number(from_to(0.0001, 0.5))),
        independent: table.opt("independent", flag),
    };
    table.done();
    section
}

fn scenario(mut table: Table<'_>, known: &Known) -> Option<ScenarioSection> {
    let name = table.req("name", text);
    let prices: Vec<_> = table.tables("price", "fuel").into_iter().map(|t| price(t, known)).collect();
    let set = if table.has("set") { table.list("set", text) } else { None };
    if !table.has("price") && !table.has("set") {
        let fault = Fault::new("the scenario changes nothing");
        let help = "add price = [{ fuel = \"propane\", times = 2.0 }] or set = [\"KEY = VALUE\"]";
        table.bad_form("set", &table.span, fault.help(help));
    }
    let mut sound = table.has("set") == set.is_some();
    for entry in set.iter().flat_map(|list| list.iter()) {
        if ScenarioSection::key_and_value(entry).is_none() {
            let fault = Fault::new(format!("there is no '=' between key and value in {}", quoted(entry)));
            let help = "write \"house.zone.main.design_load = 28000 Btu/h\"";
            table.bad_value("set", &entry.span, fault.help(help));
            sound = false;
        }
    }
    table.done();
    let price = prices.into_iter().collect::<Option<_>>()?;
    let set = set.map(|list| list.value).unwrap_or_default();
    Some(ScenarioSection { name: name?, price, set }).filter(|_| sound)
}

fn price(mut table: Table<'_>, known: &Known) -> Option<PriceChangeSection> {
    let fuel = table.req("fuel", text);
    if let Some(fuel) = &fuel {
        known.fuel(&table, fuel);
    }
    let times = table.req("times", number(from_to(0.1, 20.0)));
    let (from, to) = (table.opt("from", month_day), table.opt("to", month_day));
    for (there, missing) in [("from", "to"), ("to", "from")] {
        if table.has(there) && !table.has(missing) {
            table.need(missing);
        }
    }
    table.done();
    let days = from.zip(to).map(|(from, to)| (from.value, to.value));
    Some(PriceChangeSection { fuel: fuel?, times: times?, days })
}
