//! The `[[option]]` tables into their sections.
//!
//! Must never know what a machine does. Start at [`option`].

use std::collections::BTreeSet;

use super::choices::{ChangeoverRule, OptionSection, OptionZoneSection, Sharing};
use super::costs_reader::option_costs;
use super::house_reader::OUTDOORS;
use super::household_reader::household_machines;
use super::names::Known;
use super::table::Table;
use super::typed::Typed;
use super::values::{flag, quantity, text, word};
use super::wording::{Fault, quoted};

/// Reads one `[[option]]` with its zones.
pub(super) fn option(mut table: Table<'_>, known: &Known) -> Option<OptionSection> {
    let name = table.req("name", text);
    let household = household_machines(&mut table, known);
    let supply = table.list("supply", text);
    for supply in supply.iter().flat_map(|list| list.iter()) {
        if let Some(fault) = known.supplies.fault(supply, "supply") {
            table.bad_form("supply", &supply.span, fault);
        }
    }
    let costs = option_costs(&mut table, known);
    let tables = table.tables("zone", "zone");
    let named: Vec<_> = tables.iter().filter_map(|zone| zone.raw_text("zone")).collect();
    all_zones(&table, &named, tables.len(), known);
    let zone: Vec<_> = tables.into_iter().map(|zone| option_zone(zone, known)).collect();
    table.done();
    Some(OptionSection {
        name: name?,
        household,
        supply: supply.map(|list| list.value).unwrap_or_default(),
        costs: costs?,
        zone: zone.into_iter().collect::<Option<_>>()?,
    })
}

/// Every zone of the house stands in the option, once.
fn all_zones(table: &Table<'_>, named: &[Typed<String>], count: usize, known: &Known) {
    let mut seen = BTreeSet::new();
    for zone in named {
        if !seen.insert(zone.value.as_str()) {
            let fault = Fault::new(format!("the zone {} comes twice in this option", quoted(zone)));
            table.bad_form("zone", &zone.span, fault.help("put all its machines into one [[option.zone]]"));
        }
    }
    // A table without a readable name may be the one that seems to be missing.
    let strangers = named.iter().any(|zone| known.zones.kind(zone).is_none());
    if named.len() < count || strangers {
        return;
    }
    for zone in known.zones.list.iter().filter(|zone| !seen.contains(zone.as_str())) {
        let fault = Fault::new(format!("the zone {} is missing from this option", quoted(zone)));
        table.bad_form("zone", &table.span, fault.help("add an [[option.zone]] that says how it is heated"));
    }
}

fn option_zone(mut table: Table<'_>, known: &Known) -> Option<OptionZoneSection> {
    let zone = table.req("zone", text);
    if let Some(fault) = zone.as_ref().and_then(|zone| known.zones.fault(zone, "zone of the house")) {
        table.bad_form("zone", &zone.as_ref()?.span, fault);
    }
    if !table.has("heating") {
        table.need("heating");
    }
    let heating = table.list("heating", text);
    for machine in heating.iter().flat_map(|list| list.iter()) {
        machine_for(&table, "heating", machine, known);
    }
    if let Some(list) = &heating {
        once(&table, list);
    }
    let cooling = table.opt("cooling", text);
    if let Some(machine) = &cooling {
        machine_for(&table, "cooling", machine, known);
    }
    let compressor_lockout = table.opt("compressor_lockout", quantity(OUTDOORS));
    let words = word(&[("in_time", Sharing::InTime), ("whole_hour", Sharing::WholeHour)]);
    let sharing = table.opt("sharing", words);
    let rules = word(&[("temperature", ChangeoverRule::Temperature), ("cost", ChangeoverRule::Cost)]);
    let changeover = table.opt("changeover", rules);
    if let (Some(ChangeoverRule::Cost), Some(sharing)) = (changeover.as_deref(), &sharing) {
        let fault = Fault::new(
            "with changeover = \"cost\", hours that the cheaper machine cannot carry are always shared in time",
        );
        table.bad_form(
            "sharing",
            &sharing.span,
            fault.help("take sharing out, or write changeover = \"temperature\""),
        );
    }
    let staged_recovery = table.opt("staged_recovery", flag);
    table.done();
    Some(OptionZoneSection {
        zone: zone?,
        heating: heating?,
        cooling,
        compressor_lockout,
        sharing,
        changeover,
        staged_recovery,
    })
}

/// The machine is known and can do what it is named for.
fn machine_for(table: &Table<'_>, key: &str, machine: &Typed<String>, known: &Known) {
    if let Some(fault) = known.machines.fault(machine, "machine") {
        let several = known.machines.several(machine).filter(|_| key == "heating");
        let fault = match several {
            Some(names) => Fault::new(format!("{} holds several machines", quoted(machine)))
                .help(format!("put each into quotation marks of its own: [{names}]")),
            None => fault,
        };
        table.bad_form(key, &machine.span, fault);
        return;
    }
    if known.machines.kind(machine) == Some("outdoor_unit") {
        let fault = Fault::new(format!(
            "{} is an outdoor unit, which serves rooms through its heads",
            quoted(machine)
        ));
        table.bad_form(key, &machine.span, fault.help("name the heads, each in its zone"));
        return;
    }
    let (sort, verb) = match (key, known.machines.kind(machine)) {
        ("heating", Some("air_conditioner")) => ("an air conditioner", "heat"),
        (_, Some("water_heater")) => ("a water heater", if key == "heating" { "heat rooms" } else { "cool" }),
        (_, Some("dryer")) => ("a dryer", if key == "heating" { "heat rooms" } else { "cool" }),
        (_, Some("range")) => ("a range", if key == "heating" { "heat rooms" } else { "cool" }),
        ("cooling", Some("furnace")) => ("a furnace", "cool"),
        ("cooling", Some("boiler")) => ("a boiler", "cool"),
        ("cooling", Some("wall_heater")) => ("a wall heater", "cool"),
        ("cooling", Some("wood_stove" | "pellet_stove")) => ("a stove", "cool"),
        ("cooling", Some("resistance")) => ("resistance heat", "cool"),
        _ => return,
    };
    let fault = Fault::new(format!("{} is {sort} and cannot {verb}", quoted(machine)));
    table.bad_form(key, &machine.span, fault.help(format!("name a machine that can {verb}")));
}

fn once(table: &Table<'_>, list: &[Typed<String>]) {
    let mut seen = BTreeSet::new();
    for machine in list.iter().filter(|machine| !seen.insert(machine.value.as_str())) {
        let fault = Fault::new(format!("{} comes twice in this list", quoted(machine)));
        table.bad_form("heating", &machine.span, fault.help("name each machine once, in the order of use"));
    }
}
