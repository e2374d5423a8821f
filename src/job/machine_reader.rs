//! The `[[equipment]]` tables into their sections: `kind` first, then the keys of that kind.
//!
//! Must never know zones or options. Start at [`machine`].

use super::burner_reader::{boiler, furnace, resistance, stove, wall_heater};
use super::heat_pump_reader::{air_conditioner, ground_source, heat_pump, outdoor_unit};
use super::household_reader::{dryer, range, water_heater};
use super::machines::{EquipmentSection, MachineSection};
use super::names::Known;
use super::table::Table;
use super::typed::Typed;
use super::values::{text, word};

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

/// Reads one `[[equipment]]` table.
pub(super) fn machine(mut table: Table<'_>, known: &Known) -> Option<EquipmentSection> {
    let name = table.req("name", text);
    let Some(kind) = table.req("kind", word(KINDS)) else {
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
