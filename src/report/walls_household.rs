//! What hot water, drying and cooking ask of the walls: gas lines and vents, circuits, drains.
//!
//! Amps only where the job gives a draw; the rest goes by nameplates. Start at [`circuit`].

use super::figures::grouped;
use crate::coldnight::strips::Strips;
use crate::equipment::household::{HouseholdKind, HouseholdMachine, WaterForm};
use crate::fuel::FuelId;

/// Whether a flame burns in it.
pub(super) fn burns(machine: &HouseholdMachine) -> bool {
    machine.fuel != FuelId::ELECTRICITY
}

/// Its circuit; nothing for a burner that needs none.
pub(super) fn circuit(machine: &HouseholdMachine) -> Option<String> {
    let name = &machine.name;
    Some(match &machine.kind {
        HouseholdKind::WaterHeater(heater) if !burns(machine) => match heater.input_kw {
            Some(kw) => format!("{name}: {}", elements(kw)),
            None => format!("{name}: its own at 240 V; amps by its nameplate"),
        },
        HouseholdKind::Dryer { .. } | HouseholdKind::Range { .. } if !burns(machine) => {
            format!("{name}: its own at 240 V; amps by its nameplate")
        }
        HouseholdKind::WaterHeater(heater) if heater.form == WaterForm::Tank => {
            format!("{name}: an outlet of 120 V if its vent has a fan")
        }
        HouseholdKind::WaterHeater(_) => format!("{name}: an outlet of 120 V for its fan and igniter"),
        HouseholdKind::Dryer { .. } => format!("{name}: one of 120 V for drum and fan"),
        HouseholdKind::Range { .. } => format!("{name}: an outlet of 120 V for its igniters"),
    })
}

/// Those of which the check of the panel knows nothing.
pub(super) fn beside_the_panel(machines: &[HouseholdMachine]) -> Option<String> {
    let electric = machines.iter().filter(|m| !burns(m));
    let names: Vec<&str> = electric.map(|m| m.name.as_str()).collect();
    (!names.is_empty()).then(|| {
        format!(
            "not counted where the panel is checked, which knows strips and baseboards alone: {}",
            names.join(", ")
        )
    })
}

/// The line and the vent of one that burns.
pub(super) fn gas(machine: &HouseholdMachine, fuel: &str) -> String {
    let name = &machine.name;
    let line = match fuel {
        "propane" | "natural_gas" => "gas line with valve, capped until it is set",
        "oil_no_1" | "oil_no_2" | "kerosene" => "oil line with valve",
        _ => "what brings its fuel",
    };
    match machine.kind {
        HouseholdKind::WaterHeater(_) => format!("{name}: {line}, vent and air for burning"),
        HouseholdKind::Dryer { .. } => format!("{name}: {line}, vent to the outdoors"),
        HouseholdKind::Range { .. } => format!("{name}: {line}; a hood to the outdoors"),
    }
}

/// The vent of one that does not.
pub(super) fn vent(machine: &HouseholdMachine) -> Option<String> {
    let dries = matches!(machine.kind, HouseholdKind::Dryer { .. });
    dries.then(|| format!("{}: vent to the outdoors, unless it condenses", machine.name))
}

/// The drain of a water heater.
pub(super) fn drain(machine: &HouseholdMachine) -> Option<String> {
    let HouseholdKind::WaterHeater(heater) = &machine.kind else { return None };
    match heater.form {
        WaterForm::HeatPump => {
            Some(format!("{}: drain for what condenses on it, and of its relief valve", machine.name))
        }
        WaterForm::Tank | WaterForm::Tankless => Some(format!("{}: drain of its relief valve", machine.name)),
    }
}

/// Circuits of so many kW of elements.
pub(super) fn elements(kw: f64) -> String {
    let strips = Strips { kw };
    let many = strips.circuits();
    format!(
        "{many} circuit{} at 240 V for {} A, {} A with the margin",
        if many == 1 { "" } else { "s" },
        grouped(strips.amps().ceil(), 0),
        grouped(strips.amps_with_margin().ceil(), 0)
    )
}
