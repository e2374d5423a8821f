//! What must be in the walls before they close, option by option: circuits, lines, drains, stubs, inlets,
//! the tank's place.
//!
//! Sizes only what the program knows; the rest is named so that nobody forgets it. Start at [`table`].

use super::model::{Cell, Column, Table};
use super::walls_household as household;
use crate::comparison::{Comparison, OptionResult};
use crate::equipment::{Machine, MachineKind};
use crate::fuel::FuelId;

/// The table's plain name.
pub const NAME: &str = "before_the_walls_close";

/// The table.
pub fn table(c: &Comparison) -> Table {
    let rows = c.options.iter().flat_map(|o| {
        let list = [
            ("circuits", circuits(c, o)),
            ("line set and drain", lines(c, o)),
            ("gas, oil, vent", stubs(c, o)),
            ("generator inlet", Some(inlet(o))),
            ("tank and truck", tanks(c, o)),
        ];
        let name = |first: bool| if first { Cell::text(&o.design.name) } else { Cell::text("") };
        let list: Vec<_> = list.into_iter().filter_map(|(what, words)| Some((what, words?))).collect();
        list.into_iter()
            .enumerate()
            .map(move |(i, (what, words))| vec![name(i == 0), Cell::text(what), Cell::text(words)])
    });
    Table {
        name: NAME.into(),
        heading: "What must be in the walls before they close?".into(),
        columns: vec![
            Column::words("Option", "option"),
            Column::words("What", "what"),
            Column::words("How much, and where", "how_much"),
        ],
        rows: rows.collect(),
        remark: Some(
            "Local code decides. Wires and breakers of machines go by their nameplates; amps of strips are \
             those of their elements at 240 V, and with the margin of 125 % that circuits are sized for."
                .into(),
        ),
    }
}

fn machines<'a>(c: &'a Comparison, o: &OptionResult) -> Vec<&'a Machine> {
    let mut places: Vec<usize> =
        o.design.zones.iter().flat_map(|z| z.heaters.iter().copied().chain(z.cooler)).collect();
    let units: Vec<usize> = places.iter().filter_map(|i| c.machines.get(*i)?.outdoor_unit).collect();
    places.extend(units);
    places.sort_unstable();
    places.dedup();
    places.into_iter().filter_map(|i| c.machines.get(i)).collect()
}

fn circuits(c: &Comparison, o: &OptionResult) -> Option<String> {
    let mut parts = Vec::new();
    for machine in machines(c, o) {
        match machine.kind {
            MachineKind::Resistance => {
                let kw = machine.stages_kw.iter().sum();
                parts.push(format!("{}: {}", machine.name, household::elements(kw)));
            }
            MachineKind::HeatPump | MachineKind::AirConditioner | MachineKind::OutdoorUnit
                if machine.outdoor_unit.is_none() =>
            {
                parts.push(format!(
                    "{}: its own, with a switch in sight; amps by its nameplate",
                    machine.name
                ));
            }
            MachineKind::Furnace | MachineKind::Boiler | MachineKind::PelletStove => {
                parts.push(format!("{}: one of 120 V with a switch", machine.name));
            }
            _ => {}
        }
    }
    parts.extend(o.design.household.machines.iter().filter_map(household::circuit));
    if c.basis.panel_spare_a.is_some() {
        parts.extend(household::beside_the_panel(&o.design.household.machines));
    }
    joined(parts)
}

fn lines(c: &Comparison, o: &OptionResult) -> Option<String> {
    let cools = |m: &&Machine| matches!(m.kind, MachineKind::HeatPump | MachineKind::AirConditioner);
    let parts =
        machines(c, o).into_iter().filter(cools).map(|machine| match (&machine.ground, machine.ducted) {
            (Some(_), _) => format!("{}: loop pipes through the wall, drain", machine.name),
            (None, true) => {
                format!("{}: line set from outdoor unit to coil, drain with fall or a pump", machine.name)
            }
            (None, false) => format!("{}: line set, control cable and drain to its head", machine.name),
        });
    joined(parts.chain(o.design.household.machines.iter().filter_map(household::drain)).collect())
}

fn stubs(c: &Comparison, o: &OptionResult) -> Option<String> {
    let burning = machines(c, o).into_iter().filter(|m| m.burns());
    let parts: Vec<String> = burning
        .map(|machine| match fuel_id(c, machine.fuel) {
            "propane" | "natural_gas" => {
                format!("{}: gas line with valve, vent and air for burning", machine.name)
            }
            "oil_no_1" | "oil_no_2" | "kerosene" => {
                format!("{}: oil line with valve, chimney or vent", machine.name)
            }
            _ => format!("{}: chimney and air for burning", machine.name),
        })
        .collect();
    let (fired, vents): (Vec<_>, Vec<_>) =
        o.design.household.machines.iter().partition(|m| household::burns(m));
    let fired = fired.into_iter().map(|m| household::gas(m, fuel_id(c, m.fuel)));
    let mut parts: Vec<String> = parts.into_iter().chain(fired).collect();
    if parts.is_empty() {
        parts.push("none needed; a stub with valve and cap only if a burner may come later".to_owned());
    }
    joined(parts.into_iter().chain(vents.into_iter().filter_map(household::vent)).collect())
}

fn fuel_id(c: &Comparison, fuel: FuelId) -> &str {
    c.fuels.get(fuel).map_or("", |f| f.id.as_str())
}

fn inlet(o: &OptionResult) -> String {
    let out = &o.cold_night.power_out;
    let up = |kw: f64| out.plate_kw(kw);
    if out.strips_on.running_kw <= 0.0 {
        return "none for heat: what heats needs no power; an inlet is for lights, pumps and the rest".into();
    }
    if out.strips_off.running_kw <= 0.0 {
        let all = up(out.strips_on.running_kw);
        return format!(
            "inlet and transfer switch for {all:.1} kW: strips and baseboards; what heats beside them needs no power"
        );
    }
    let with_strips = match out.strips_on.running_kw > out.strips_off.running_kw + 0.25 {
        true => format!(", {:.1} kW with the strips that it needs", up(out.strips_on.running_kw)),
        false => String::new(),
    };
    format!("inlet and transfer switch for {:.1} kW{with_strips}", up(out.strips_off.running_kw))
}

fn tanks(c: &Comparison, o: &OptionResult) -> Option<String> {
    if !o.stores.is_empty() {
        let places =
            o.stores.iter().map(|s| store_place(&s.supplied.store.name, fuel_id(c, s.supplied.store.fuel)));
        return joined(places.collect());
    }
    let trucked = c.fuels.iter().filter(|(id, fuel)| !fuel.metered && o.ledger.quantity(*id) != 0.0);
    joined(trucked.map(|(_, fuel)| store_place(&format!("a store for {}", fuel.name), &fuel.id)).collect())
}

/// Where a store stands, and how its fuel gets there.
fn store_place(name: &str, fuel: &str) -> String {
    match fuel {
        "cord_wood" | "coal" => format!(
            "{name}: dry and aired, off the ground and apart from the house wall, where a truck can tip it and somebody \
             can carry it in through snow"
        ),
        "pellets" => format!(
            "{name}: dry, near the stove, where a pallet can be set down and bags be carried in through snow, or the \
             hose of a blower truck reaches: ask the supplier"
        ),
        _ => format!(
            "{name}: its distances from house, line and anything that sparks, and how far the hose reaches in snow: ask the supplier"
        ),
    }
}

fn joined(parts: Vec<String>) -> Option<String> {
    (!parts.is_empty()).then(|| parts.join("; "))
}
