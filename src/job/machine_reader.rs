//! The `[[equipment]]` tables into their sections: `kind` first, then the keys of that kind.
//!
//! Must never know zones or options. Start at [`machine`].

use super::house_reader::{OUTDOORS, both_units, rise};
use super::machines::{
    AirConditionerSection, CapacityBasis, DrawSection, EquipmentSection, FurnaceSection, HeatPumpSection,
    MachineSection, MapSection, PointSection, ResistanceSection, RowSection,
};
use super::names::Known;
use super::table::Table;
use super::typed::Typed;
use super::values::{Fault, Limits, above_zero, digits, flag, from_to, number, quantity, text, word};
use crate::units::{Power, Quantity, Temperature};

/// Capacity of one machine or stage, kW.
const CAPACITY: Limits = above_zero(1000.0);
/// Draw of a fan or blower, kW.
const FAN: Limits = from_to(0.0, 20.0);
/// Draw while idle, kW.
const STANDBY: Limits = from_to(0.0, 1.0);
/// What a share of an output may be.
const SENSIBLE: Limits = from_to(0.4, 1.0);
const ALTITUDE: Limits = from_to(0.3, 1.0);
const CYCLING: Limits = from_to(0.0, 0.5);
/// Heat or cooling over draw: less than 1 is worse than a strip, more than 10 no machine reaches.
const COP: (f64, f64) = (1.0, 10.0);

#[derive(Clone, Copy)]
enum Kind {
    HeatPump,
    AirConditioner,
    Furnace,
    Resistance,
}

const KINDS: &[(&str, Kind)] = &[
    ("heat_pump", Kind::HeatPump),
    ("air_conditioner", Kind::AirConditioner),
    ("furnace", Kind::Furnace),
    ("resistance", Kind::Resistance),
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
        Kind::HeatPump => heat_pump(table).map(|pump| MachineSection::HeatPump(Box::new(pump))),
        Kind::AirConditioner => {
            air_conditioner(table).map(|cooler| MachineSection::AirConditioner(Box::new(cooler)))
        }
        Kind::Furnace => furnace(table, known).map(|furnace| MachineSection::Furnace(Box::new(furnace))),
        Kind::Resistance => resistance(table).map(MachineSection::Resistance),
    };
    Some(EquipmentSection { name: name?, kind: Typed::new(section?, kind.span) })
}

fn heat_pump(mut table: Table<'_>) -> Option<HeatPumpSection> {
    let ducted = table.req("ducted", flag);
    let basis = word(&[("steady", CapacityBasis::Steady), ("with_defrost", CapacityBasis::WithDefrost)]);
    let capacity_basis = table.opt("capacity_basis", basis);
    let heating = map(&mut table, "heating");
    if table.has("heating") && !table.has("capacity_basis") {
        table.need("capacity_basis");
    }
    let cooling = rows(&mut table, "cooling");
    let (power_includes_indoor_fan, indoor_fan) = fan(&mut table);
    let cut_out = table.opt("cut_out", quantity(OUTDOORS));
    let cut_on = table.opt("cut_on", quantity(OUTDOORS));
    rise(&table, "cut_on", cut_on.as_ref(), "cut_out", cut_out.as_ref(), true);
    let cycling_loss = table.opt("cycling_loss", number(CYCLING));
    let standby = table.opt("standby", quantity(STANDBY));
    let pan_heater = table.opt("pan_heater", quantity(from_to(0.0, 5.0)));
    let pan_heater_below = table.opt("pan_heater_below", quantity(OUTDOORS));
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
        capacity_basis,
        power_includes_indoor_fan,
        indoor_fan,
        heating: heating?,
        cooling,
        cut_out,
        cut_on,
        cycling_loss,
        standby,
        pan_heater,
        pan_heater_below,
        altitude_factor,
        altitude_factor_source,
        sensible_heat_ratio,
    })
}

fn air_conditioner(mut table: Table<'_>) -> Option<AirConditionerSection> {
    let ducted = table.req("ducted", flag);
    let cooling = map(&mut table, "cooling");
    let (power_includes_indoor_fan, indoor_fan) = fan(&mut table);
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
    let standby = table.opt("standby", quantity(STANDBY));
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
        standby,
    })
}

fn resistance(mut table: Table<'_>) -> Option<ResistanceSection> {
    let ducted = table.req("ducted", flag);
    if !table.has("stages") {
        table.need("stages");
    }
    let stages = table.list("stages", quantity::<Power>(CAPACITY));
    let lockout_above = table.opt("lockout_above", quantity(OUTDOORS));
    table.done();
    Some(ResistanceSection { ducted: ducted?, stages: stages?, lockout_above })
}

/// A key that means nothing without another one.
fn goes_with(table: &Table<'_>, key: &str, span: Option<&std::ops::Range<usize>>, other: &'static str) {
    if let Some(span) = span.filter(|_| !table.has(other)) {
        let fault = Fault::new(format!("this key means nothing without {other}"));
        table.bad_form(key, span, fault.help(format!("add {other}, or take this key out")));
    }
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

fn map(table: &mut Table<'_>, key: &'static str) -> Option<MapSection> {
    match table.one_of(key, "table") {
        Some("table") => table.opt("table", text).map(MapSection::Table),
        Some(_) => rows(table, key).map(MapSection::Rows),
        None => None,
    }
}

fn rows(table: &mut Table<'_>, key: &'static str) -> Option<Typed<Vec<RowSection>>> {
    let span = table.value(key)?.span();
    let tables = table.tables(key, "");
    let count = tables.len();
    if table.is_empty_list(key) {
        table.bad_value(key, &span, Fault::new("the list is empty").help("at least one row is needed"));
    }
    let rows: Vec<_> = tables.into_iter().filter_map(row).collect();
    in_order(table, key, &rows);
    (rows.len() == count && count > 0).then(|| Typed::new(rows, span))
}

/// Rows must rise or fall strictly with outdoor temperature: a swapped pair is a slip.
fn in_order(table: &Table<'_>, key: &str, rows: &[RowSection]) {
    let rising = match rows {
        [first, second, ..] => second.outdoor.base() > first.outdoor.base(),
        _ => return,
    };
    for pair in rows.windows(2) {
        let [before, row] = pair else { continue };
        let (a, b) = (before.outdoor.base(), row.outdoor.base());
        if a == b || (b > a) != rising {
            let (a, b) = (both_units(*before.outdoor), both_units(*row.outdoor));
            let fault = Fault::new(format!("a row at {b} cannot follow one at {a} in this table"));
            let fault = fault.allowed("rows that rise, or that fall, from each to the next, no temperature twice");
            table.bad_form(key, &row.outdoor.span, fault.help("sort the rows"));
            return;
        }
    }
}

fn row(mut table: Table<'_>) -> Option<RowSection> {
    let outdoor = table.req("outdoor", quantity::<Temperature>(OUTDOORS));
    let least = point(&mut table, ["least", "least_cop", "least_power"]);
    let rated = point(&mut table, ["rated", "rated_cop", "rated_power"]);
    if !table.has("greatest") {
        table.need("greatest");
    }
    let greatest = point(&mut table, ["greatest", "greatest_cop", "greatest_power"]);
    let named = [("least", &least), ("rated", &rated), ("greatest", &greatest)];
    let given: Vec<_> = named.iter().filter_map(|(name, point)| Some((*name, point.as_ref()?))).collect();
    for pair in given.windows(2) {
        let [(lower, low), (upper, high)] = pair else { continue };
        if low.capacity.base() > high.capacity.base() {
            let (low_kw, high_kw) = (digits(low.capacity.base()), digits(high.capacity.base()));
            let fault = Fault::new(format!("{lower}, {low_kw} kW, is more than {upper}, {high_kw} kW"));
            table.bad_form(lower, &low.capacity.span, fault.allowed("least, rated and greatest in rising order"));
        }
    }
    let span = table.span.clone();
    table.done();
    Some(RowSection { outdoor: outdoor?, least, rated, greatest: greatest?, span })
}

fn point(table: &mut Table<'_>, [key, cop, power]: [&'static str; 3]) -> Option<PointSection> {
    let capacity = table.opt(key, quantity::<Power>(CAPACITY));
    let either = if table.has(key) || table.has(cop) || table.has(power) {
        if !table.has(key) {
            table.need(key);
        }
        table.one_of(cop, power)
    } else {
        // Asked for all the same, so that the keys count as known.
        table.value(cop);
        table.value(power);
        None
    };
    let draw = match either {
        Some(key) if key == cop => {
            let typed = table.opt(cop, number(from_to(COP.0, COP.1)))?;
            Typed::new(DrawSection::Cop(typed.value), typed.span)
        }
        Some(_) => {
            let typed = table.opt(power, quantity::<Power>(CAPACITY))?;
            plausible(table, power, capacity.as_ref(), &typed);
            Typed::new(DrawSection::Power(typed.value), typed.span)
        }
        None => return None,
    };
    Some(PointSection { capacity: capacity?, draw })
}

/// Capacity over draw must lie in the same range as a typed COP.
fn plausible(table: &Table<'_>, key: &str, capacity: Option<&Typed<Power>>, draw: &Typed<Power>) {
    let Some(capacity) = capacity else { return };
    let cop = capacity.base() / draw.base();
    if !(COP.0..=COP.1).contains(&cop) {
        let (out, drawn) = (digits(capacity.base()), digits(draw.base()));
        let fault = Fault::new(format!("{out} kW out of {drawn} kW would be a COP of {}", digits(cop)));
        let fault = fault.allowed(format!("a COP of {} to {}", digits(COP.0), digits(COP.1)));
        table.bad_form(key, &draw.span, fault.help("see whether capacity and power are in the units they say"));
    }
}
