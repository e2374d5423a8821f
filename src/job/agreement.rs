//! What the sections of a job say of each other, where one of them would make no sense beside another.
//!
//! Must never know formulas. Start at [`cut_outs`].

use super::choices::OptionSection;
use super::machines::{EquipmentSection, HeatPumpSection, MachineSection};
use super::path::join;
use super::sections::HouseSection;
use super::table::Table;
use super::wording::{Fault, quoted};
use crate::units::Quantity;

/// A heat pump that is off in all the weather in which its zone needs heat is told, once.
pub(super) fn cut_outs<'a>(
    root: &Table<'_>,
    house: &HouseSection,
    equipment: impl Iterator<Item = &'a EquipmentSection>,
    options: impl Iterator<Item = &'a OptionSection> + Clone,
) {
    let pumps = equipment.filter_map(|machine| match &machine.kind.value {
        MachineSection::HeatPump(pump) if pump.cut_out.is_some() => Some((machine.name.value.as_str(), pump)),
        _ => None,
    });
    for (name, pump) in pumps {
        let served = options
            .clone()
            .flat_map(|option| &option.zone)
            .filter(|zone| zone.heating.value.iter().any(|machine| machine.value == name));
        let zones = served.filter_map(|s| house.zone.iter().find(|zone| zone.name.value == s.zone.value));
        if let Some(fault) = zones
            .filter_map(|zone| {
                let balance = &zone.balance_temperature;
                off_above(root, pump, balance.base()).map(|cut_out| {
                    let what = format!(
                        "the cut-out, {cut_out}, is not below the balance temperature of {}, {}",
                        quoted(&zone.name),
                        root.typed(&balance.span)
                    );
                    Fault::new(what)
                        .help("it would never heat there: see which of the two is wrong, and correct it")
                })
            })
            .next()
        {
            let span = pump.cut_out.as_ref().map(|t| t.span.clone()).unwrap_or_default();
            root.found.push(&root.found.form, &span, &join(&join("equipment", name), "cut_out"), fault);
        }
    }
}

/// The cut-out as typed, if the machine is off at `balance_c` and colder.
fn off_above(root: &Table<'_>, pump: &HeatPumpSection, balance_c: f64) -> Option<String> {
    let cut_out = pump.cut_out.as_ref().filter(|t| t.base() >= balance_c)?;
    Some(root.typed(&cut_out.span))
}
