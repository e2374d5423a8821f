//! What it takes to keep a fuel that comes by truck for hot water, cooking and drying: fuel, tank and fees,
//! beside the electricity that others take for the same.
//!
//! Start at [`tables`].

use super::figures::{money, money_exact};
use super::model::{Cell, Column, Table};
use crate::comparison::paid::is_stored;
use crate::comparison::{Comparison, OptionResult};
use crate::fuel::{Fuel, FuelId};
use crate::ledger::Posting;
use crate::simulation::EndUse;

/// Uses that are no heating of rooms, and for which a house may keep a fuel.
const HOUSEHOLD: [EndUse; 3] = [EndUse::HotWater, EndUse::Cooking, EndUse::Drying];

/// A table for each stored fuel that some option burns for its household.
pub fn tables(c: &Comparison) -> Vec<Table> {
    let kept = |id: FuelId| c.options.iter().any(|o| household_kwh(o, id) > 0.0 && is_stored(o, id));
    c.fuels.iter().filter(|(id, _)| kept(*id)).map(|(id, fuel)| table(c, id, fuel)).collect()
}

fn household_kwh(o: &OptionResult, id: FuelId) -> f64 {
    HOUSEHOLD.iter().map(|end_use| o.energy.year(id, *end_use)).sum()
}

fn table(c: &Comparison, id: FuelId, fuel: &Fuel) -> Table {
    let unit = &fuel.selling_unit;
    let columns = vec![
        Column::words("Option", "option"),
        Column::numbers(format!("Burned, {unit}"), "burned"),
        Column::numbers("of it not for rooms", "burned_by_household"),
        Column::numbers("Fuel", "fuel_cost"),
        Column::numbers("Tank", "tank_cost"),
        Column::numbers("Trucks and fees", "fees"),
        Column::numbers(format!("Tank and fees a {unit}"), "tank_and_fees_per_unit"),
        Column::numbers("Electricity for the same uses", "electricity_for_household"),
    ];
    Table {
        name: format!("keeping_{}", fuel.id),
        heading: format!("What does it take to keep {} for hot water, cooking and drying?", fuel.name),
        columns,
        rows: c.options.iter().map(|o| row(c, o, id, fuel)).collect(),
        remark: Some(
            "Tank: rent, and setting and fetching it spread over its years. Trucks and fees: each delivery, and \
             what a year of little use or a price plan costs. A price raised by little use stands with the fuel. \
             The last column is for hot water, cooking and drying alone, by their place on the bill; an option \
             that burns none of the fuel pays for no tank. All of it is in the year's cost above."
                .into(),
        ),
    }
}

fn row(c: &Comparison, o: &OptionResult, id: FuelId, fuel: &Fuel) -> Vec<Cell> {
    let amount = |value: f64| Cell::Number { value, shown: money(&c.currency, value) };
    let of_fuel = |which: fn(&Posting) -> bool| o.ledger.sum(|p| p.fuel == id && which(p));
    let tank = of_fuel(is_tank);
    let fees = of_fuel(|p| p.end_use == EndUse::Delivery);
    let fuel_cost = of_fuel(|p| !is_tank(p) && p.end_use != EndUse::Delivery);
    let all: f64 = EndUse::DRAWING.iter().map(|end_use| o.energy.year(id, *end_use)).sum();
    let (burned, household) = (all / fuel.kwh_per_unit, household_kwh(o, id) / fuel.kwh_per_unit);
    let each = (burned > 0.0).then(|| (tank + fees) / burned);
    let electricity = o.ledger.sum(|p| p.fuel == FuelId::ELECTRICITY && HOUSEHOLD.contains(&p.end_use));
    vec![
        Cell::text(&o.design.name),
        Cell::number(burned, 0),
        Cell::number(household, 0),
        amount(fuel_cost),
        amount(tank),
        amount(fees),
        each.map_or(Cell::Missing, |value| Cell::Number { value, shown: money_exact(&c.currency, value) }),
        amount(electricity),
    ]
}

fn is_tank(p: &Posting) -> bool {
    matches!(p.end_use, EndUse::Rent | EndUse::FixedCharge)
}
