//! The bin worksheet: every option and zone by outdoor temperature, to be followed by hand.
//!
//! Start at [`bin_worksheet`].

use super::figures::Measure;
use super::model::{Cell, Column, Table};
use crate::comparison::paid::average_price;
use crate::comparison::{Comparison, OptionResult};
use crate::fuel::FuelId;
use crate::simulation::EndUse;
use crate::simulation::bins::BinRow;

/// One row for each option, zone and bin.
pub fn bin_worksheet(c: &Comparison, measure: Measure) -> Table {
    let fuels: Vec<_> = c.fuels.iter().filter(|(id, _)| drawn(c, *id)).collect();
    let mut rows = Vec::new();
    for option in &c.options {
        for ((zone, design), result) in c.zones.iter().zip(&option.design.zones).zip(&option.zones) {
            let first = design.heaters.first().and_then(|i| c.machines.get(*i));
            for bin in &result.bins {
                let mut row = vec![Cell::text(&option.design.name), Cell::text(&zone.name)];
                row.push(Cell::text(first.map_or("", |m| &m.name)));
                row.extend(bin_cells(bin, measure));
                row.extend(fuels.iter().flat_map(|(id, f)| fuel_cells(option, bin, c, (*id, f))));
                row.push(Cell::number(cost(option, bin, c, |_| true), 2));
                rows.push(row);
            }
        }
    }
    Table {
        name: "bin_worksheet".into(),
        heading: "By outdoor temperature".into(),
        columns: columns(&fuels, measure),
        rows,
        remark: Some(
            "Price: what this option paid for those uses on the mean of the year, spikes included. Standby \
             belongs to no outdoor temperature and is left out. A burner's COP counts its fuel's whole heat \
             (HHV) and its blower."
                .into(),
        ),
    }
}

fn columns(fuels: &[(FuelId, &crate::fuel::Fuel)], measure: Measure) -> Vec<Column> {
    let power = measure.power_key();
    let mut columns = vec![
        Column::words("Option", "option"),
        Column::words("Zone", "zone"),
        Column::words("First machine", "first_machine"),
    ];
    let keys = [
        format!("outdoor_{}", measure.degree_key()),
        "hours".into(),
        format!("heat_need_{power}"),
        format!("first_machine_greatest_{power}"),
        format!("first_machine_heat_{power}"),
        "first_machine_COP".into(),
        "share_that_ducts_keep".into(),
        format!("other_machines_heat_in_room_{power}"),
        format!("need_not_met_{power}"),
        format!("sensible_cooling_{power}"),
    ];
    columns.extend(keys.into_iter().map(|key| Column::numbers(key.replace('_', " "), key)));
    let of_fuel = fuels.iter().flat_map(|(_, f)| {
        let unit = f.selling_unit.replace(' ', "_");
        [format!("{}_{unit}", f.id), format!("{}_price_per_{unit}", f.id)]
    });
    columns.extend(of_fuel.map(|key| Column::numbers(key.replace('_', " "), key)));
    columns.push(Column::numbers("Cost", "cost"));
    columns
}

fn bin_cells(bin: &BinRow, measure: Measure) -> Vec<Cell> {
    let power = |kw: f64| Cell::number(measure.power(kw), 2);
    let efficiency = (bin.first_draw_kw > 0.0).then(|| bin.first_heat_kw / bin.first_draw_kw);
    let kept = (bin.first_heat_kw > 0.0).then(|| bin.first_in_room_kw / bin.first_heat_kw);
    let others = (bin.heat_kw - bin.first_in_room_kw).max(0.0);
    vec![
        Cell::number(measure.temperature(bin.outdoor_c), 1),
        Cell::number(bin.hours, 0),
        power(bin.need_kw),
        power(bin.capacity_kw),
        power(bin.first_heat_kw),
        Cell::maybe(efficiency, 3),
        Cell::maybe(kept, 3),
        power(others),
        power((bin.need_kw - bin.heat_kw).max(0.0)),
        power(bin.cooling_kw),
    ]
}

fn drawn(c: &Comparison, id: FuelId) -> bool {
    let bins = c.options.iter().flat_map(|o| &o.zones).flat_map(|z| &z.bins);
    bins.flat_map(|b| &b.energy).any(|(fuel, _, kwh)| *fuel == id && *kwh != 0.0)
}

fn energy(bin: &BinRow, id: FuelId) -> f64 {
    bin.energy.iter().filter(|(fuel, _, _)| *fuel == id).map(|(_, _, kwh)| kwh).sum()
}

/// How much of a fuel the bin takes, and the price of one unit.
fn fuel_cells(
    option: &OptionResult,
    bin: &BinRow,
    c: &Comparison,
    (id, fuel): (FuelId, &crate::fuel::Fuel),
) -> [Cell; 2] {
    let quantity = energy(bin, id) / fuel.kwh_per_unit;
    let price = (quantity > 0.0).then(|| cost(option, bin, c, |of| of == id) / quantity);
    [Cell::number(quantity, 1), Cell::maybe(price, 4)]
}

/// What the bin's energy of the fuels that `which` picks costs.
fn cost(option: &OptionResult, bin: &BinRow, c: &Comparison, which: impl Fn(FuelId) -> bool) -> f64 {
    let of_use = |(fuel, end_use, kwh): &(FuelId, EndUse, f64)| {
        let per_unit = c.fuels.get(*fuel).map_or(1.0, |f| f.kwh_per_unit);
        kwh / per_unit * average_price(option, c, (*fuel, *end_use))
    };
    bin.energy.iter().filter(|(fuel, _, _)| which(*fuel)).map(of_use).sum()
}
