//! The `[[equipment]]` tables into their sections: `kind` first, then the keys of that kind.
//!
//! Must never know zones or options. Start at [`machine`].

use toml::de::DeValue;

use super::burner_reader::{ALTITUDE, FAN, STANDBY, boiler, goes_with, stove, wall_heater};
use super::house_reader::{OUTDOORS, rise};
use super::household_reader::{dryer, range, water_heater};
use super::limits::{Limits, above_zero, from_to};
use super::machines::{
    AirConditionerSection, CapacityBasis, DefrostSection, EquipmentSection, FurnaceSection, GroundSection,
    HeatPumpSection, MachineSection, MapSection, OutdoorUnitSection, ResistanceSection, Speed,
};
use super::map_reader::{CAPACITY, heating_rows, rows, rows_at, unit_rows};
use super::nameplate_reader::{label, nameplate};
use super::names::Known;
use super::table::Table;
use super::typed::Typed;
use super::values::{flag, number, quantity, text, word};
use super::wording::{Fault, quoted};
use crate::units::{Airflow, Power};

/// Flow of air, m³/s: up to some 21,000 cfm.
const AIRFLOW: Limits = above_zero(10.0);
/// What a share of an output may be.
const SENSIBLE: Limits = from_to(0.4, 1.0);
const CYCLING: Limits = from_to(0.0, 0.5);

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

const BASES: &[(&str, CapacityBasis)] =
    &[("steady", CapacityBasis::Steady), ("with_defrost", CapacityBasis::WithDefrost)];
const SPEEDS: &[(&str, Speed)] = &[("one", Speed::One), ("variable", Speed::Variable)];

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

fn heat_pump(mut table: Table<'_>, known: &Known) -> Option<HeatPumpSection> {
    let ducted = table.req("ducted", flag);
    let airflow = airflow(&mut table, ducted.as_ref());
    let capacity_basis = table.opt("capacity_basis", word(BASES));
    let heating = map(&mut table, "heating");
    let (label_hspf2, label_seer2) = label(&mut table, true);
    if table.has("heating") && !table.has("capacity_basis") {
        table.need("capacity_basis");
    }
    let cooling = rows(&mut table, "cooling");
    let (power_includes_indoor_fan, indoor_fan) = fan(&mut table);
    let outdoor_unit = table.opt("outdoor_unit", text);
    if let Some(unit) = &outdoor_unit {
        known_unit(&table, unit, known);
    }
    let cut_out = table.opt("cut_out", quantity(OUTDOORS));
    let cut_on = table.opt("cut_on", quantity(OUTDOORS));
    rise(&table, "cut_on", cut_on.as_ref(), "cut_out", cut_out.as_ref(), true);
    let speed = table.opt("speed", word(SPEEDS));
    let cycling_loss = table.opt("cycling_loss", number(CYCLING));
    let standby = table.opt("standby", quantity(STANDBY));
    let pan_heater = table.opt("pan_heater", quantity(from_to(0.0, 5.0)));
    let pan_heater_below = table.opt("pan_heater_below", quantity(OUTDOORS));
    let defrost_aux = table.opt("defrost_aux", strips_or_none);
    let defrost_minutes = table.opt("defrost_minutes", number(above_zero(30.0)));
    let defrost_every_minutes = table.opt("defrost_every_minutes", number(from_to(30.0, 720.0)));
    let altitude_factor = table.opt("altitude_factor", number(ALTITUDE));
    let altitude_factor_source = table.opt("altitude_factor_source", text);
    let sensible_heat_ratio = table.opt("sensible_heat_ratio", number(SENSIBLE));
    goes_with(&table, "pan_heater_below", pan_heater_below.as_ref().map(|t| &t.span), "pan_heater");
    goes_with(
        &table,
        "altitude_factor_source",
        altitude_factor_source.as_ref().map(|t| &t.span),
        "altitude_factor",
    );
    table.done();
    Some(HeatPumpSection {
        ducted: ducted?,
        airflow,
        capacity_basis,
        power_includes_indoor_fan,
        indoor_fan,
        heating: heating?,
        cooling,
        label_hspf2,
        label_seer2,
        ground: None,
        outdoor_unit,
        cut_out,
        cut_on,
        speed,
        cycling_loss,
        standby,
        pan_heater,
        pan_heater_below,
        defrost_aux,
        defrost_minutes,
        defrost_every_minutes,
        altitude_factor,
        altitude_factor_source,
        sensible_heat_ratio,
    })
}

/// The power of strips, or that there are none.
fn strips_or_none(value: &DeValue<'_>) -> Result<DefrostSection, Fault> {
    if value.as_str() == Some("none") {
        return Ok(DefrostSection::None);
    }
    let read = quantity::<Power>(CAPACITY)(value).map(DefrostSection::Strips);
    read.map_err(|fault| fault.help("write a power such as \"5 kW\", or \"none\""))
}

/// Typed rows under `key`, the name of a built-in `table`, or a `nameplate`: exactly one of them.
fn map(table: &mut Table<'_>, key: &'static str) -> Option<MapSection> {
    let heats = key == "heating";
    match table.one_of_many(&[key, "table", "nameplate"])? {
        "table" => table.opt("table", text).map(MapSection::Table),
        "nameplate" => nameplate(table, heats).map(|plate| MapSection::Nameplate(Box::new(plate))),
        _ if heats => heating_rows(table).map(MapSection::Rows),
        _ => rows(table, key).map(MapSection::Rows),
    }
}

fn air_conditioner(mut table: Table<'_>) -> Option<AirConditionerSection> {
    let ducted = table.req("ducted", flag);
    let cooling = map(&mut table, "cooling");
    let (_, label_seer2) = label(&mut table, false);
    let (power_includes_indoor_fan, indoor_fan) = fan(&mut table);
    let speed = table.opt("speed", word(SPEEDS));
    let cycling_loss = table.opt("cycling_loss", number(CYCLING));
    let standby = table.opt("standby", quantity(STANDBY));
    let sensible_heat_ratio = table.opt("sensible_heat_ratio", number(SENSIBLE));
    let altitude_factor = table.opt("altitude_factor", number(ALTITUDE));
    table.done();
    Some(AirConditionerSection {
        ducted: ducted?,
        power_includes_indoor_fan,
        indoor_fan,
        cooling: cooling?,
        label_seer2,
        speed,
        cycling_loss,
        standby,
        sensible_heat_ratio,
        altitude_factor,
    })
}

fn furnace(mut table: Table<'_>, known: &Known) -> Option<FurnaceSection> {
    let fuel = table.req("fuel", text);
    let input = table.req("input", quantity(CAPACITY));
    let afue = table.req("afue", number(from_to(0.5, 1.0)));
    let blower = table.opt("blower", quantity(FAN));
    let turndown = table.opt("turndown", number(from_to(0.1, 1.0)));
    let altitude_factor = table.opt("altitude_factor", number(ALTITUDE));
    let ducted = table.opt("ducted", flag);
    let airflow = airflow(&mut table, ducted.as_ref());
    let standby = table.opt("standby", quantity(STANDBY));
    let lockout_above = table.opt("lockout_above", quantity(OUTDOORS));
    if let Some(fuel) = &fuel {
        known.fuel(&table, fuel);
    }
    table.done();
    Some(FurnaceSection {
        fuel: fuel?,
        input: input?,
        afue: afue?,
        blower,
        turndown,
        altitude_factor,
        ducted,
        airflow,
        standby,
        lockout_above,
    })
}

fn resistance(mut table: Table<'_>) -> Option<ResistanceSection> {
    let ducted = table.req("ducted", flag);
    let airflow = airflow(&mut table, ducted.as_ref());
    if !table.has("stages") {
        table.need("stages");
    }
    let stages = table.list("stages", quantity::<Power>(CAPACITY));
    let lockout_above = table.opt("lockout_above", quantity(OUTDOORS));
    table.done();
    Some(ResistanceSection { ducted: ducted?, airflow, stages: stages?, lockout_above })
}

/// A heat pump whose rows stand at what enters from its loop: no frost, no outdoor part.
fn ground_source(mut table: Table<'_>) -> Option<HeatPumpSection> {
    let ducted = table.req("ducted", flag);
    let airflow = airflow(&mut table, ducted.as_ref());
    if !table.has("heating") {
        table.need("heating");
    }
    let heating = rows_at(&mut table, "heating", "entering");
    let cooling = rows_at(&mut table, "cooling", "entering");
    let (power_includes_indoor_fan, indoor_fan) = fan(&mut table);
    let speed = table.opt("speed", word(SPEEDS));
    let cycling_loss = table.opt("cycling_loss", number(CYCLING));
    let standby = table.opt("standby", quantity(STANDBY));
    let sensible_heat_ratio = table.opt("sensible_heat_ratio", number(SENSIBLE));
    let ground = ground_loop(&mut table);
    table.done();
    Some(HeatPumpSection {
        ducted: ducted?,
        airflow,
        capacity_basis: None,
        power_includes_indoor_fan,
        indoor_fan,
        heating: MapSection::Rows(heating?),
        cooling,
        label_hspf2: None,
        label_seer2: None,
        ground: Some(ground?),
        outdoor_unit: None,
        cut_out: None,
        cut_on: None,
        speed,
        cycling_loss,
        standby,
        pan_heater: None,
        pan_heater_below: None,
        defrost_aux: None,
        defrost_minutes: None,
        defrost_every_minutes: None,
        altitude_factor: None,
        altitude_factor_source: None,
        sensible_heat_ratio,
    })
}

fn ground_loop(table: &mut Table<'_>) -> Option<GroundSection> {
    let design_entering = table.req("design_entering", quantity(OUTDOORS));
    let cooling_design_entering = table.opt("cooling_design_entering", quantity(OUTDOORS));
    if table.has("cooling") && !table.has("cooling_design_entering") {
        table.need("cooling_design_entering");
    }
    let cools = cooling_design_entering.as_ref();
    rise(table, "cooling_design_entering", cools, "design_entering", design_entering.as_ref(), false);
    let loop_depth = table.req("loop_depth", quantity(above_zero(500.0)));
    let ground_diffusivity = table.opt("ground_diffusivity", number(from_to(0.01, 0.2)));
    let loop_pump = table.opt("loop_pump", quantity(FAN));
    Some(GroundSection {
        design_entering: design_entering?,
        cooling_design_entering,
        loop_depth: loop_depth?,
        ground_diffusivity,
        loop_pump,
    })
}

fn outdoor_unit(mut table: Table<'_>) -> Option<OutdoorUnitSection> {
    let capacity_basis = table.req("capacity_basis", word(BASES));
    if !table.has("heating") {
        table.need("heating");
    }
    let heating = unit_rows(&mut table);
    let cut_out = table.opt("cut_out", quantity(OUTDOORS));
    table.done();
    Some(OutdoorUnitSection { capacity_basis: capacity_basis?, heating: heating?, cut_out })
}

/// A head's outdoor unit is one.
fn known_unit(table: &Table<'_>, unit: &Typed<String>, known: &Known) {
    let other = || {
        let fault = Fault::new(format!("{} is no outdoor unit", quoted(unit)));
        fault.help("name a machine of kind = \"outdoor_unit\"")
    };
    let fault = known.machines.fault(unit, "machine");
    let is_other = known.machines.kind(unit).is_some_and(|kind| kind != "outdoor_unit");
    if let Some(fault) = fault.or_else(|| is_other.then(other)) {
        table.bad_form("outdoor_unit", &unit.span, fault);
    }
}

/// `airflow`, which only a machine with ducts has.
fn airflow(table: &mut Table<'_>, ducted: Option<&Typed<bool>>) -> Option<Typed<Airflow>> {
    let airflow = table.opt("airflow", quantity(AIRFLOW));
    if let (Some(flow), Some(false)) = (&airflow, ducted.map(|ducted| ducted.value)) {
        let fault = Fault::new("airflow, but the machine has no ducts");
        table.bad_form("airflow", &flow.span, fault.help("set ducted = true, or take this key out"));
    }
    airflow
}

/// `power_includes_indoor_fan` is needed with typed rows, and the fan's draw when it is not included.
fn fan(table: &mut Table<'_>) -> (Option<Typed<bool>>, Option<Typed<Power>>) {
    let included = table.opt("power_includes_indoor_fan", flag);
    let fan = table.opt("indoor_fan", quantity(FAN));
    if (table.has("heating") || table.has("cooling")) && !table.has("power_includes_indoor_fan") {
        table.need("power_includes_indoor_fan");
    }
    if included.as_ref().is_some_and(|included| !**included) && !table.has("indoor_fan") {
        table.need("indoor_fan");
    }
    (included, fan)
}
