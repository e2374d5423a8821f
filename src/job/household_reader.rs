//! `[household]` and the machines for hot water, drying and cooking into their sections.
//!
//! Must never know what a use costs. Start at [`household`].

use super::household::{
    DryerSection, HouseholdMachines, HouseholdSection, Location, RangeSection, WaterHeaterForm,
    WaterHeaterSection,
};
use super::limits::{Limits, above_zero, from_to};
use super::map_reader::CAPACITY;
use super::names::Known;
use super::table::Table;
use super::typed::Typed;
use super::values::{number, quantity, text, word};
use super::wording::{Fault, quoted};
use crate::units::Quantity;

/// Hot and cold water, °C: 32 to 185 °F.
const WATER: Limits = from_to(0.0, 85.0);
const FORMS: &[(&str, WaterHeaterForm)] = &[
    ("tank", WaterHeaterForm::Tank),
    ("tankless", WaterHeaterForm::Tankless),
    ("heat_pump", WaterHeaterForm::HeatPump),
];
const LOCATIONS: &[(&str, Location)] = &[("inside", Location::Inside), ("outside", Location::Outside)];

/// Reads `[household]`.
pub(super) fn household(mut table: Table<'_>, known: &Known) -> HouseholdSection {
    let section = HouseholdSection {
        base_electricity: table.opt("base_electricity", quantity(from_to(0.0, 200_000.0))),
        hot_water_use: table.opt("hot_water_use", quantity(from_to(0.0, 10_000.0))),
        hot_water_temperature: table.opt("hot_water_temperature", quantity(WATER)),
        mains_temperature: table.opt("mains_temperature", quantity(WATER)),
        dryer_loads_a_week: table.opt("dryer_loads_a_week", number(from_to(0.0, 100.0))),
        cooking: table.opt("cooking", quantity(from_to(0.0, 20_000.0))),
        machines: household_machines(&mut table, known),
    };
    if let (Some(hot), Some(mains)) = (&section.hot_water_temperature, &section.mains_temperature)
        && hot.value.base() <= mains.value.base()
    {
        let (typed, cold) = (table.typed(&hot.span), table.typed(&mains.span));
        let fault = Fault::new(format!("hot water of {typed} is not warmer than the mains, {cold}"));
        table.bad_form("hot_water_temperature", &hot.span, fault.help("see whether the two are exchanged"));
    }
    for (machine, amount) in
        [("hot_water", "hot_water_use"), ("dryer", "dryer_loads_a_week"), ("range", "cooking")]
    {
        if table.has(machine) && !table.has(amount) {
            table.need(amount);
        }
    }
    table.done();
    section
}

/// The three keys that name a household's machines, of `[household]` or of an option.
pub(super) fn household_machines(table: &mut Table<'_>, known: &Known) -> HouseholdMachines {
    let mut named = |key: &'static str, kind: &str, sort: &str| {
        let machine = table.opt(key, text)?;
        if let Some(fault) = known.machines.fault(&machine, "machine") {
            table.bad_form(key, &machine.span, fault);
        } else if known.machines.kind(&machine).is_some_and(|found| found != kind) {
            let fault = Fault::new(format!("{} is not {sort}", quoted(&machine)));
            let help = format!("name a machine of kind = \"{kind}\"");
            table.bad_form(key, &machine.span, fault.help(help));
        }
        Some(machine)
    };
    HouseholdMachines {
        hot_water: named("hot_water", "water_heater", "a water heater"),
        dryer: named("dryer", "dryer", "a dryer"),
        range: named("range", "range", "a range"),
    }
}

/// Reads the keys of a water heater.
pub(super) fn water_heater(mut table: Table<'_>, known: &Known) -> Option<WaterHeaterSection> {
    let form = table.req("form", word(FORMS));
    let heat_pump = form.as_deref() == Some(&WaterHeaterForm::HeatPump);
    let fuel = table.opt("fuel", text);
    if form.is_some() && !heat_pump && !table.has("fuel") {
        table.need("fuel");
    }
    let range = if heat_pump { from_to(1.0, 6.0) } else { from_to(0.3, 1.0) };
    let efficiency = match form.is_some() {
        true => table.req("efficiency", number(range)),
        // Which range holds depends on the form, which is told already.
        false => table.opt("efficiency", number(from_to(0.3, 6.0))),
    };
    let input = table.opt("input", quantity(CAPACITY));
    let location = table.opt("location", word(LOCATIONS));
    let zone = table.opt("zone", text);
    if heat_pump && !table.has("location") {
        table.need("location");
    }
    if let Some(fault) = zone.as_ref().and_then(|zone| known.zones.fault(zone, "zone of the house")) {
        table.bad_form("zone", &zone.as_ref()?.span, fault);
    }
    if let Some(fuel) = &fuel {
        burnt_here(&table, fuel, heat_pump, known);
    }
    table.done();
    Some(WaterHeaterSection { form: form?, fuel, efficiency: efficiency?, input, location, zone })
}

fn burnt_here(table: &Table<'_>, fuel: &Typed<String>, heat_pump: bool, known: &Known) {
    if heat_pump && fuel.value != "electricity" {
        let fault = Fault::new(format!("a heat pump does not run on {}", quoted(fuel)));
        table.bad_form(
            "fuel",
            &fuel.span,
            fault.help("take this key out, or correct form: \"heat_pump\" is electric"),
        );
    } else {
        known.fuel(table, fuel);
    }
}

/// Reads the keys of a dryer.
pub(super) fn dryer(mut table: Table<'_>, known: &Known) -> Option<DryerSection> {
    let fuel = table.req("fuel", text);
    let energy_per_load = table.req("energy_per_load", quantity(above_zero(50.0)));
    let electricity_per_load = table.opt("electricity_per_load", quantity(from_to(0.0, 10.0)));
    if let Some(fuel) = &fuel {
        known.fuel(&table, fuel);
    }
    table.done();
    Some(DryerSection { fuel: fuel?, energy_per_load: energy_per_load?, electricity_per_load })
}

/// Reads the keys of a range.
pub(super) fn range(mut table: Table<'_>, known: &Known) -> Option<RangeSection> {
    let fuel = table.req("fuel", text);
    let efficiency = table.req("efficiency", number(from_to(0.1, 1.0)));
    if let Some(fuel) = &fuel {
        known.fuel(&table, fuel);
    }
    table.done();
    Some(RangeSection { fuel: fuel?, efficiency: efficiency? })
}
