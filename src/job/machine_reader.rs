//! The `[[equipment]]` tables into their sections: `kind` first, then the keys of that kind.
//!
//! Must never know zones or options. Start at [`machine`].

use toml::de::DeValue;

use super::burner_reader::{boiler, furnace, resistance, stove, wall_heater};
use super::heat_pump_reader::{air_conditioner, ground_source, heat_pump, outdoor_unit};
use super::household_reader::{dryer, range, water_heater};
use super::machines::{EquipmentSection, MachineSection};
use super::names::Known;
use super::table::Table;
use super::typed::Typed;
use super::values::{text, word};
use super::wording::Fault;

#[derive(Clone, Copy)]
enum Kind {
    HeatPump,
    GroundSourceHeatPump,
    AirConditioner,
    Furnace,
    Boiler,
    WallHeater,
    WoodStove,
    PelletStove,
    Resistance,
    WaterHeater,
    Dryer,
    Range,
    OutdoorUnit,
}

const KINDS: &[(&str, Kind)] = &[
    ("heat_pump", Kind::HeatPump),
    ("ground_source_heat_pump", Kind::GroundSourceHeatPump),
    ("air_conditioner", Kind::AirConditioner),
    ("furnace", Kind::Furnace),
    ("boiler", Kind::Boiler),
    ("wall_heater", Kind::WallHeater),
    ("wood_stove", Kind::WoodStove),
    ("pellet_stove", Kind::PelletStove),
    ("resistance", Kind::Resistance),
    ("water_heater", Kind::WaterHeater),
    ("dryer", Kind::Dryer),
    ("range", Kind::Range),
    ("outdoor_unit", Kind::OutdoorUnit),
];

/// The kind, or what the trade calls it.
fn kind(value: &DeValue<'_>) -> Result<Kind, Fault> {
    word(KINDS)(value).map_err(|fault| {
        match value.as_str().and_then(trade_name).filter(|_| fault.help.is_none()) {
            Some(meant) => fault.help(format!("did you mean {meant}?")),
            None => fault,
        }
    })
}

fn trade_name(typed: &str) -> Option<&'static str> {
    let typed = typed.to_lowercase().replace(['-', '_'], " ");
    let names = [
        ("geothermal", "\"ground_source_heat_pump\""),
        ("furnace", "\"furnace\", or \"resistance\" where it is electric"),
        ("split", "\"heat_pump\" (ducted = false for wall units), or \"air_conditioner\""),
        ("heat pump", "\"heat_pump\""),
        ("strip", "\"resistance\""),
        ("baseboard", "\"resistance\" with ducted = false"),
        ("electric", "\"resistance\""),
        ("condition", "\"air_conditioner\""),
        ("central air", "\"air_conditioner\""),
        ("space heater", "\"wall_heater\""),
        ("pellet", "\"pellet_stove\""),
        ("wood", "\"wood_stove\""),
    ];
    let ac = (typed == "ac" || typed == "a/c").then_some("\"air_conditioner\"");
    ac.or_else(|| names.iter().find(|(name, _)| typed.contains(name)).map(|(_, kind)| *kind))
}

/// Reads one `[[equipment]]` table.
pub(super) fn machine(mut table: Table<'_>, known: &Known) -> Option<EquipmentSection> {
    let name = table.req("name", text);
    let Some(kind) = table.req("kind", kind) else {
        // Without its kind the other keys cannot be judged; a missing kind is still told.
        table.done_but_unknown();
        return None;
    };
    let section = match *kind {
        Kind::HeatPump => heat_pump(table, known).map(|pump| MachineSection::HeatPump(Box::new(pump))),
        Kind::GroundSourceHeatPump => {
            ground_source(table).map(|pump| MachineSection::HeatPump(Box::new(pump)))
        }
        Kind::AirConditioner => {
            air_conditioner(table).map(|cooler| MachineSection::AirConditioner(Box::new(cooler)))
        }
        Kind::Furnace => furnace(table, known).map(|furnace| MachineSection::Furnace(Box::new(furnace))),
        Kind::Boiler => boiler(table, known).map(|b| MachineSection::Boiler(Box::new(b))),
        Kind::WallHeater => wall_heater(table, known).map(|w| MachineSection::WallHeater(Box::new(w))),
        Kind::WoodStove => stove(table, known, false).map(|s| MachineSection::WoodStove(Box::new(s))),
        Kind::PelletStove => stove(table, known, true).map(|s| MachineSection::PelletStove(Box::new(s))),
        Kind::Resistance => resistance(table).map(MachineSection::Resistance),
        Kind::WaterHeater => water_heater(table, known).map(MachineSection::WaterHeater),
        Kind::Dryer => dryer(table, known).map(MachineSection::Dryer),
        Kind::Range => range(table, known).map(MachineSection::Range),
        Kind::OutdoorUnit => outdoor_unit(table).map(MachineSection::OutdoorUnit),
    };
    Some(EquipmentSection { name: name?, kind: Typed::new(section?, kind.span) })
}
