//! The `[[scenario]]` and `[[vary]]` tables and `[draws]` into their sections.
//!
//! Must never judge what a scenario sets: that is done when it is run. Start at [`scenarios`].

use super::limits::from_to;
use super::names::{Known, Names};
use super::table::Table;
use super::values::{flag, month_day, number, text, whole};
use super::what_if::{DrawsSection, PriceChangeSection, ScenarioSection, VarySection, VaryWhat};
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

/// Reads every `[[vary]]`; `None` if one cannot be used.
pub(super) fn inputs(mut tables: Vec<Table<'_>>, known: &Known) -> Option<Vec<VarySection>> {
    Names::of_tables(&mut tables, "inputs");
    let read: Vec<_> = tables.into_iter().map(|table| input(table, known)).collect();
    read.into_iter().collect()
}

fn input(mut table: Table<'_>, known: &Known) -> Option<VarySection> {
    let name = table.req("name", text);
    let which = table.one_of("key", "fuel");
    let (key, low, high) = (table.opt("key", text), table.opt("low", text), table.opt("high", text));
    let fuel = table.opt("fuel", text);
    fuel.iter().for_each(|fuel| known.fuel(&table, fuel));
    let times = || number(from_to(0.1, 20.0));
    let (low_times, high_times) = (table.opt("low_times", times()), table.opt("high_times", times()));
    let source = table.opt("source", text);
    let own_ends = ["low", "high"].into_iter().zip(["low_times", "high_times"]);
    for (value, times) in own_ends.filter(|_| which.is_some()) {
        let (asked, strange) = if which == Some("key") { (value, times) } else { (times, value) };
        if !table.has(asked) {
            table.need(asked);
        }
        if table.has(strange) {
            let fault = Fault::new(format!("{strange} does not go with {}", which.unwrap_or_default()));
            table.bad_form(strange, &table.span, fault.help(format!("write {asked} instead")));
        }
    }
    table.done();
    let of_key = key.zip(low.zip(high)).map(|(key, (low, high))| VaryWhat::Key { key, low, high });
    let of_fuel = fuel.zip(low_times.zip(high_times));
    let of_fuel =
        of_fuel.map(|(fuel, (low_times, high_times))| VaryWhat::Price { fuel, low_times, high_times });
    Some(VarySection { name: name?, what: if which == Some("key") { of_key? } else { of_fuel? }, source })
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
