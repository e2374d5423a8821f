//! The `[[equipment]]` tables of heat pumps, their outdoor units and air conditioners into their sections.
//!
//! Must never know zones or options. Start at [`heat_pump`].

use toml::de::DeValue;

use super::burner_reader::{ALTITUDE, FAN, STANDBY, airflow, goes_with};
use super::house_reader::{OUTDOORS, rise};
use super::limits::{Limits, above_zero, from_to};
use super::machines::{
    AirConditionerSection, CapacityBasis, DefrostAuxSection, DefrostSection, GroundSection, HeatPumpSection,
    MapSection, OutdoorUnitSection, RowSection, Speed,
};
use super::map_reader::{CAPACITY, heating_rows, loop_rows, rows, unit_rows};
use super::nameplate_reader::{label, nameplate};
use super::names::Known;
use super::table::Table;
use super::typed::Typed;
use super::values::{flag, number, quantity, text, word};
use super::wording::{Fault, quoted};
use crate::units::{Power, Quantity};

/// What a share of an output may be.
const SENSIBLE: Limits = from_to(0.4, 1.0);
const CYCLING: Limits = from_to(0.0, 0.5);
const BASES: &[(&str, CapacityBasis)] =
    &[("steady", CapacityBasis::Steady), ("with_defrost", CapacityBasis::WithDefrost)];
const SPEEDS: &[(&str, Speed)] = &[("one", Speed::One), ("two", Speed::Two), ("variable", Speed::Variable)];

pub(super) fn heat_pump(mut table: Table<'_>, known: &Known) -> Option<HeatPumpSection> {
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
    let outdoor_unit = unit_of_head(&mut table, known);
    let cut_out = table.opt("cut_out", quantity(OUTDOORS));
    let cut_on = table.opt("cut_on", quantity(OUTDOORS));
    rise(&table, "cut_on", cut_on.as_ref(), "cut_out", cut_out.as_ref(), true);
    let speed = table.opt("speed", word(SPEEDS));
    as_speed_says(&table, speed.as_ref(), heating.as_ref());
    let cycling_loss = table.opt("cycling_loss", number(CYCLING));
    let standby = table.opt("standby", quantity(STANDBY));
    let pan_heater = table.opt("pan_heater", quantity(from_to(0.0, 5.0)));
    let pan_heater_below = table.opt("pan_heater_below", quantity(OUTDOORS));
    let defrost = defrost(&mut table);
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
        defrost,
        altitude_factor,
        altitude_factor_source,
        sensible_heat_ratio,
    })
}

/// `speed` and the figures must tell of the same machine: one of two speeds says in each row what the low one
/// gives, one of one speed has no output below its greatest.
fn as_speed_says(table: &Table<'_>, speed: Option<&Typed<Speed>>, map: Option<&MapSection>) {
    let (Some(speed), Some(map)) = (speed, map) else { return };
    let lower = |row: &RowSection| {
        row.least.as_ref().is_some_and(|least| least.capacity.base() < row.greatest.capacity.base())
    };
    let fault = match (speed.value, map) {
        (Speed::Two, MapSection::Rows(rows)) if rows.iter().all(|row| row.least.is_some()) => return,
        (Speed::Two, _) => Fault::new("speed says two, but the rows do not say what the low one gives")
            .help("give each row least and least_cop (or least_power), the figures of the low speed"),
        (Speed::One, MapSection::Rows(rows)) => match rows.iter().find(|row| lower(row)) {
            Some(row) => {
                let at = table.typed(&row.outdoor.span);
                Fault::new(format!("speed says one, but the row at {at} gives a least below its greatest"))
                    .help(
                        "a machine of one speed has one output: take least out of its rows, or write what speed it has",
                    )
            }
            None => return,
        },
        (Speed::One, MapSection::Nameplate(plate)) if plate.turndown.value < 1.0 => {
            let turndown = table.typed(&plate.turndown.span);
            Fault::new(format!("speed says one, but the nameplate has turndown = {turndown}")).help(
                "a machine of one speed has turndown = 1: see which of the two is wrong, and correct it",
            )
        }
        (Speed::Variable, MapSection::Nameplate(plate)) if plate.turndown.value >= 1.0 => {
            let turndown = table.typed(&plate.turndown.span);
            Fault::new(format!("speed says variable, but the nameplate has turndown = {turndown}"))
                .help("write the least output over the greatest as its turndown, or speed = \"one\"")
        }
        _ => return,
    };
    table.bad_form("speed", &speed.span, fault);
}

fn defrost(table: &mut Table<'_>) -> DefrostSection {
    DefrostSection {
        aux: table.opt("defrost_aux", defrost_aux),
        minutes: table.opt("defrost_minutes", number(above_zero(30.0))),
        every_minutes: table.opt("defrost_every_minutes", number(from_to(30.0, 720.0))),
    }
}

/// The power of strips, or that there are none, or a furnace.
fn defrost_aux(value: &DeValue<'_>) -> Result<DefrostAuxSection, Fault> {
    match value.as_str() {
        Some("none") => return Ok(DefrostAuxSection::None),
        Some("furnace") => return Ok(DefrostAuxSection::Furnace),
        _ => {}
    }
    let read = quantity::<Power>(CAPACITY)(value).map(DefrostAuxSection::Strips);
    read.map_err(|fault| fault.help("write a power such as \"5 kW\", \"furnace\" or \"none\""))
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

pub(super) fn air_conditioner(mut table: Table<'_>) -> Option<AirConditionerSection> {
    let ducted = table.req("ducted", flag);
    let cooling = map(&mut table, "cooling");
    let (_, label_seer2) = label(&mut table, false);
    let (power_includes_indoor_fan, indoor_fan) = fan(&mut table);
    let speed = table.opt("speed", word(SPEEDS));
    as_speed_says(&table, speed.as_ref(), cooling.as_ref());
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

/// A heat pump whose rows stand at what enters from its loop: no frost, no outdoor part.
pub(super) fn ground_source(mut table: Table<'_>) -> Option<HeatPumpSection> {
    let ducted = table.req("ducted", flag);
    let airflow = airflow(&mut table, ducted.as_ref());
    if !table.has("heating") {
        table.need("heating");
    }
    let heating = loop_rows(&mut table, "heating");
    let cooling = loop_rows(&mut table, "cooling");
    let (power_includes_indoor_fan, indoor_fan) = fan(&mut table);
    let speed = table.opt("speed", word(SPEEDS));
    as_speed_says(&table, speed.as_ref(), heating.clone().map(MapSection::Rows).as_ref());
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
        defrost: DefrostSection::default(),
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

pub(super) fn outdoor_unit(mut table: Table<'_>) -> Option<OutdoorUnitSection> {
    let capacity_basis = table.req("capacity_basis", word(BASES));
    if !table.has("heating") {
        table.need("heating");
    }
    let heating = unit_rows(&mut table, "heating");
    let cooling = unit_rows(&mut table, "cooling");
    let cut_out = table.opt("cut_out", quantity(OUTDOORS));
    table.done();
    Some(OutdoorUnitSection { capacity_basis: capacity_basis?, heating: heating?, cooling, cut_out })
}

/// The outdoor unit of a head: a machine of that kind.
fn unit_of_head(table: &mut Table<'_>, known: &Known) -> Option<Typed<String>> {
    let unit = table.opt("outdoor_unit", text)?;
    let other = || {
        let fault = Fault::new(format!("{} is no outdoor unit", quoted(&unit)));
        fault.help("name a machine of kind = \"outdoor_unit\"")
    };
    let fault = known.machines.fault(&unit, "machine");
    let is_other = known.machines.kind(&unit).is_some_and(|kind| kind != "outdoor_unit");
    if let Some(fault) = fault.or_else(|| is_other.then(other)) {
        table.bad_form("outdoor_unit", &unit.span, fault);
    }
    Some(unit)
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
