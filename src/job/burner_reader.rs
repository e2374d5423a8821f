//! The `[[equipment]]` tables of what burns or glows into their sections: furnaces, boilers, wall heaters,
//! stoves, resistance heat.
//!
//! Must never know zones or options. Start at [`furnace`].

use super::burners::{BoilerSection, StoveSection, WallHeaterSection};
use super::house_reader::OUTDOORS;
use super::limits::{Limits, above_zero, from_to};
use super::machines::{FurnaceSection, ResistanceSection};
use super::map_reader::CAPACITY;
use super::names::Known;
use super::table::Table;
use super::typed::Typed;
use super::values::{flag, month_day, number, quantity, text};
use super::wording::Fault;
use crate::units::{Airflow, Power};

/// Flow of air, m³/s: up to some 21,000 cfm.
const AIRFLOW: Limits = above_zero(10.0);
/// Draw of a fan, blower or pump, kW.
pub(super) const FAN: Limits = from_to(0.0, 20.0);
/// Draw while idle, kW.
pub(super) const STANDBY: Limits = from_to(0.0, 1.0);
/// What thin air may leave.
pub(super) const ALTITUDE: Limits = from_to(0.3, 1.0);
/// What a burner may keep of its fuel where no rating rule bounds it.
const EFFICIENCY: Limits = from_to(0.4, 1.0);
/// A pilot flame, kW: to 3,400 Btu/h.
const PILOT: Limits = from_to(0.0, 1.0);

/// A key that means nothing without another one.
pub(super) fn goes_with(
    table: &Table<'_>,
    key: &str,
    span: Option<&std::ops::Range<usize>>,
    other: &'static str,
) {
    if let Some(span) = span.filter(|_| !table.has(other)) {
        let fault = Fault::new(format!("this key means nothing without {other}"));
        table.bad_form(key, span, fault.help(format!("add {other}, or take this key out")));
    }
}

fn fuel(table: &mut Table<'_>, known: &Known) -> Option<Typed<String>> {
    let fuel = table.req("fuel", text);
    if let Some(fuel) = &fuel {
        known.fuel(table, fuel);
    }
    fuel
}

/// `airflow`, which only a machine with ducts has.
pub(super) fn airflow(table: &mut Table<'_>, ducted: Option<&Typed<bool>>) -> Option<Typed<Airflow>> {
    let airflow = table.opt("airflow", quantity(AIRFLOW));
    if let (Some(flow), Some(false)) = (&airflow, ducted.map(|ducted| ducted.value)) {
        let fault = Fault::new("airflow, but the machine has no ducts");
        table.bad_form("airflow", &flow.span, fault.help("set ducted = true, or take this key out"));
    }
    airflow
}

pub(super) fn furnace(mut table: Table<'_>, known: &Known) -> Option<FurnaceSection> {
    let fuel = fuel(&mut table, known);
    let input = table.req("input", quantity(CAPACITY));
    let afue = table.req("afue", number(from_to(0.5, 1.0)));
    let blower = table.opt("blower", quantity(FAN));
    let turndown = table.opt("turndown", number(from_to(0.1, 1.0)));
    let altitude_factor = table.opt("altitude_factor", number(ALTITUDE));
    let ducted = table.opt("ducted", flag);
    let airflow = airflow(&mut table, ducted.as_ref());
    let standby = table.opt("standby", quantity(STANDBY));
    let lockout_above = table.opt("lockout_above", quantity(OUTDOORS));
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

pub(super) fn boiler(mut table: Table<'_>, known: &Known) -> Option<BoilerSection> {
    let fuel = fuel(&mut table, known);
    let input = table.req("input", quantity(CAPACITY));
    let afue = table.req("afue", number(from_to(0.5, 1.0)));
    let pump = table.opt("pump", quantity(FAN));
    let turndown = table.opt("turndown", number(from_to(0.1, 1.0)));
    let altitude_factor = table.opt("altitude_factor", number(ALTITUDE));
    let standby = table.opt("standby", quantity(STANDBY));
    table.done();
    Some(BoilerSection { fuel: fuel?, input: input?, afue: afue?, pump, turndown, altitude_factor, standby })
}

pub(super) fn wall_heater(mut table: Table<'_>, known: &Known) -> Option<WallHeaterSection> {
    let fuel = fuel(&mut table, known);
    let input = table.req("input", quantity(CAPACITY));
    let efficiency = table.req("efficiency", number(EFFICIENCY));
    let pilot = table.opt("pilot", quantity(PILOT));
    let from = table.opt("pilot_from", month_day);
    let to = table.opt("pilot_to", month_day);
    for (key, day, other) in [("pilot_from", &from, "pilot_to"), ("pilot_to", &to, "pilot_from")] {
        goes_with(&table, key, day.as_ref().map(|d| &d.span), "pilot");
        if day.is_some() && !table.has(other) {
            table.need(other);
        }
    }
    let altitude_factor = table.opt("altitude_factor", number(ALTITUDE));
    let standby = table.opt("standby", quantity(STANDBY));
    table.done();
    Some(WallHeaterSection {
        fuel: fuel?,
        input: input?,
        efficiency: efficiency?,
        pilot,
        pilot_lit: from.zip(to),
        altitude_factor,
        standby,
    })
}

pub(super) fn stove(mut table: Table<'_>, known: &Known, fed_by_motor: bool) -> Option<StoveSection> {
    let fuel = fuel(&mut table, known);
    let input = table.req("input", quantity(CAPACITY));
    let efficiency = table.req("efficiency", number(EFFICIENCY));
    let daily_fuelling = table.opt("daily_fuelling", text);
    let power = if fed_by_motor { table.opt("power", quantity(FAN)) } else { None };
    table.done();
    Some(StoveSection { fuel: fuel?, input: input?, efficiency: efficiency?, daily_fuelling, power })
}

pub(super) fn resistance(mut table: Table<'_>) -> Option<ResistanceSection> {
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
