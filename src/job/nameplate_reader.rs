//! The `nameplate` of a machine and the label keys beside a typed map, into their sections.
//!
//! Must never know what the figures mean for heat. Start at [`nameplate`].

use super::limits::{Limits, from_to};
use super::map_reader::{CAPACITY, rising_into_the_cold};
use super::nameplates::{CoolingPlateSection, HeatingPlateSection, NameplateSection};
use super::table::Table;
use super::typed::Typed;
use super::values::{number, number_or, quantity};
use super::wording::Fault;
use crate::units::{Power, Quantity};

/// Under 3.5 Btu/Wh is a strip; no machine comes near 20.
const HSPF2: Limits = from_to(3.5, 20.0);
const HSPF2_HELP: &str =
    "HSPF2 is in Btu/Wh: a label that tells a number without a unit, such as a SCOP, tells another rating";
const SEER2: Limits = from_to(5.0, 50.0);

/// Reads `nameplate`, which is there; `heats` tells a heat pump from an air conditioner.
pub(super) fn nameplate(table: &mut Table<'_>, heats: bool) -> Option<Typed<NameplateSection>> {
    let span = table.value("nameplate")?.span();
    let mut plate = table.table("nameplate")?;
    let heating = if heats { heating(&mut plate).map(Some) } else { Some(None) };
    let cools = !heats || plate.has("cooling_capacity_95") || plate.has("seer2");
    let cooling = if cools { cooling(&mut plate).map(Some) } else { Some(None) };
    if !cools {
        // Asked for all the same, so that the keys count as known.
        plate.value("cooling_capacity_95");
        plate.value("seer2");
    }
    let turndown = plate.req("turndown", number(from_to(0.1, 1.0)));
    if let (Some(Some(heating)), Some(turndown)) = (&heating, &turndown) {
        one_speed_falls(&plate, heating, turndown.value);
    }
    plate.done();
    once(table, heats);
    Some(Typed::new(NameplateSection { heating: heating?, cooling: cooling?, turndown: turndown? }, span))
}

fn heating(plate: &mut Table<'_>) -> Option<HeatingPlateSection> {
    let capacity_47 = plate.req("capacity_47", quantity::<Power>(CAPACITY));
    let capacity_17 = plate.req("capacity_17", quantity::<Power>(CAPACITY));
    let capacity_5 = plate.opt("capacity_5", quantity::<Power>(CAPACITY));
    let hspf2 = plate.req("hspf2", number_or(HSPF2, HSPF2_HELP));
    rising_into_the_cold(plate, "capacity_17", capacity_47.as_ref(), capacity_17.as_ref(), "at 17 degF");
    rising_into_the_cold(plate, "capacity_5", capacity_17.as_ref(), capacity_5.as_ref(), "at 5 degF");
    Some(HeatingPlateSection {
        capacity_47: capacity_47?,
        capacity_17: capacity_17?,
        capacity_5,
        hspf2: hspf2?,
    })
}

/// A compressor of one speed cannot turn up for the cold.
fn one_speed_falls(plate: &Table<'_>, heating: &HeatingPlateSection, turndown: f64) {
    let colder = [Some(&heating.capacity_17), heating.capacity_5.as_ref()];
    let pairs = [("capacity_17", &heating.capacity_47), ("capacity_5", &heating.capacity_17)];
    for ((key, warmer), colder) in pairs.into_iter().zip(colder) {
        let Some(colder) = colder.filter(|c| turndown >= 1.0 && c.base() > warmer.base()) else { continue };
        let (more, less) = (plate.typed(&colder.span), plate.typed(&warmer.span));
        let fault = Fault::new(format!("{more} is more than {less} where it is warmer"));
        let fault = fault.allowed("with turndown = 1, one speed, no more than where it is warmer");
        let help =
            "a compressor of one speed gives less in the cold: see which is a slip, or give its turndown";
        plate.bad_form(key, &colder.span, fault.help(help));
    }
}

fn cooling(plate: &mut Table<'_>) -> Option<CoolingPlateSection> {
    let cooling_capacity_95 = plate.req("cooling_capacity_95", quantity::<Power>(CAPACITY));
    let seer2 = plate.req("seer2", number(SEER2));
    Some(CoolingPlateSection { cooling_capacity_95: cooling_capacity_95?, seer2: seer2? })
}

/// A nameplate says all that these keys say.
fn once(table: &mut Table<'_>, heats: bool) {
    for (key, only_heating, why) in [
        ("cooling", true, "a nameplate has its own cooling keys"),
        ("capacity_basis", true, "a nameplate's capacities pay for defrosting"),
        ("power_includes_indoor_fan", false, "a label's efficiency includes the indoor fan"),
        ("label_hspf2", true, "a nameplate has its own hspf2"),
        ("label_seer2", false, "a nameplate has its own seer2"),
    ] {
        if only_heating && !heats {
            continue;
        }
        if let Some(value) = table.value(key) {
            let fault = Fault::new(format!("{why}, so this key cannot stand beside it"));
            table.bad_form(key, &value.span(), fault.help("take this key out"));
        }
    }
}

/// The keys `label_hspf2` and `label_seer2`, to be held against a map.
pub(super) fn label(table: &mut Table<'_>, heats: bool) -> (Option<Typed<f64>>, Option<Typed<f64>>) {
    let hspf2 = if heats { table.opt("label_hspf2", number(HSPF2)) } else { None };
    (hspf2, table.opt("label_seer2", number(SEER2)))
}
