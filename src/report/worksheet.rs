//! The bin worksheet: every option and zone by outdoor temperature, to be followed by hand.
//!
//! Start at [`bin_worksheet`].

use super::figures::{Measure, grouped};
use super::model::{Cell, Column, Table};
use super::wording;
use crate::comparison::paid::average_price;
use crate::comparison::{Comparison, OptionResult, RunWeather};
use crate::fuel::{Fuel, FuelId};
use crate::simulation::EndUse;
use crate::simulation::bins::BinRow;
use crate::simulation::design::DefrostAux;
use crate::simulation::frost::FrostShares;

/// What is drawn: fuel, use, kWh.
type Drawn = (FuelId, EndUse, f64);

/// The uses that bins know.
const END_USES: [EndUse; 4] = [EndUse::SpaceHeating, EndUse::BackupHeat, EndUse::Cooling, EndUse::Standby];
/// Columns that only a bin has.
const BIN_CELLS: usize = 10;

/// One row for each option, zone and bin; below each option its sums by use.
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
                row.extend(fuels.iter().flat_map(|(id, f)| fuel_cells(option, &bin.energy, c, (*id, f))));
                row.push(Cell::number(cost(option, &bin.energy, c, |_| true), 2));
                row.extend([Cell::text("bin"), Cell::text(""), Cell::text("")]);
                rows.push(row);
            }
        }
        rows.extend(END_USES.iter().flat_map(|end_use| sums(option, c, &fuels, *end_use)));
    }
    Table {
        name: "bin_worksheet".into(),
        heading: "By outdoor temperature".into(),
        columns: columns(&fuels, measure),
        rows,
        remark: Some(remark(c, measure)),
    }
}

fn remark(c: &Comparison, measure: Measure) -> String {
    let prices = "Price: what this option paid for those uses on the mean of the year, spikes included. Standby \
                  belongs to no outdoor temperature and is left out. A burner's COP counts its fuel's whole heat \
                  (HHV) and its blower. Under each option's bins stand their sums by use, and what the hours of \
                  the year drew for it.";
    let mut zones = c.options.iter().flat_map(|option| &option.design.zones);
    if !zones.any(|zone| zone.defrost_aux.is_some() || zone.tempering.is_some()) {
        return prices.to_owned();
    }
    let (from, to) =
        (measure.temperature_words(DefrostAux::FROM_C), measure.temperature_words(DefrostAux::TO_C));
    let frost = match c.frost == FrostShares::default() {
        true => format!("in every hour from {from} to {to}, as the weather has no dew points"),
        false => "in the share of a bin's hours in which frost is melted, by their dew points".to_owned(),
    };
    format!("{prices} What tempers the air while a heat pump defrosts does so {frost}.")
}

fn columns(fuels: &[(FuelId, &Fuel)], measure: Measure) -> Vec<Column> {
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
    columns.extend([
        Column::words("Row", "row"),
        Column::words("Use", "use"),
        Column::words("Remark", "remark"),
    ]);
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

fn energy(drawn: &[Drawn], id: FuelId) -> f64 {
    drawn.iter().filter(|(fuel, _, _)| *fuel == id).map(|(_, _, kwh)| kwh).sum()
}

/// The option's bins of all zones summed for one use, and what the hours of the year drew for it beside; no
/// row where neither drew anything, and none of hours where the weather has none.
fn sums(option: &OptionResult, c: &Comparison, fuels: &[(FuelId, &Fuel)], end_use: EndUse) -> Vec<Vec<Cell>> {
    let bins = option.zones.iter().flat_map(|z| &z.bins).flat_map(|bin| bin.energy.iter().copied());
    let by_bins: Vec<Drawn> = bins.filter(|(_, of, _)| *of == end_use).collect();
    let by_hours: Vec<Drawn> =
        fuels.iter().map(|(id, _)| (*id, end_use, option.energy.year(*id, end_use))).collect();
    let is_nothing = |drawn: &[Drawn]| drawn.iter().all(|(_, _, kwh)| *kwh == 0.0);
    if is_nothing(&by_bins) && is_nothing(&by_hours) {
        return Vec::new();
    }
    let total = |drawn: &[Drawn]| drawn.iter().map(|(_, _, kwh)| kwh).sum::<f64>();
    let hours = matches!(c.weather, RunWeather::Year(_));
    let why = if hours { why(end_use, total(&by_bins), total(&by_hours)) } else { String::new() };
    let row = |drawn: &[Drawn], what: &str, remark: String| {
        let mut row = vec![Cell::text(&option.design.name), Cell::text("all zones"), Cell::text("")];
        row.extend((0..BIN_CELLS).map(|_| Cell::Missing));
        row.extend(fuels.iter().flat_map(|(id, f)| fuel_cells(option, drawn, c, (*id, f))));
        row.push(Cell::number(cost(option, drawn, c, |_| true), 2));
        row.extend([Cell::text(what), Cell::text(wording::end_use(end_use)), Cell::text(remark)]);
        row
    };
    let of_hours = hours.then(|| row(&by_hours, "hours of the year", String::new()));
    std::iter::once(row(&by_bins, "sum of bins", why)).chain(of_hours).collect()
}

/// How far the bins are from the hours, and why.
fn why(end_use: EndUse, bins_kwh: f64, hours_kwh: f64) -> String {
    let more = match hours_kwh > 0.0 {
        true => {
            let percent = 100.0 * (bins_kwh / hours_kwh - 1.0);
            let side = if percent < 0.0 { "less" } else { "more" };
            format!("{} % {side} than the hours of the year. ", grouped(percent.abs(), 1))
        }
        false => "The hours of the year have none. ".to_owned(),
    };
    let why = match end_use {
        EndUse::Cooling if bins_kwh > hours_kwh => {
            "Bins overstate cooling: a house that stores the cool of the night is cooled less by day. Take the hours'."
        }
        EndUse::Standby => {
            "Standby belongs to no outdoor temperature: bins have that of pilots alone. Take the hours'."
        }
        EndUse::BackupHeat => {
            "Bins are means of many hours and know no set-back to recover from. Take the hours'."
        }
        _ => {
            "Bins know no set-back and no heat that the house stores from one hour to the next. Take the hours'."
        }
    };
    more + why
}

/// How much of a fuel is drawn, and the price of one unit.
fn fuel_cells(
    option: &OptionResult,
    drawn: &[Drawn],
    c: &Comparison,
    (id, fuel): (FuelId, &Fuel),
) -> [Cell; 2] {
    let quantity = energy(drawn, id) / fuel.kwh_per_unit;
    let price = (quantity > 0.0).then(|| cost(option, drawn, c, |of| of == id) / quantity);
    [Cell::number(quantity, 1), Cell::maybe(price, 4)]
}

/// What the energy of the fuels that `which` picks costs.
fn cost(option: &OptionResult, drawn: &[Drawn], c: &Comparison, which: impl Fn(FuelId) -> bool) -> f64 {
    let of_use = |(fuel, end_use, kwh): &Drawn| {
        let per_unit = c.fuels.get(*fuel).map_or(1.0, |f| f.kwh_per_unit);
        kwh / per_unit * average_price(option, c, (*fuel, *end_use))
    };
    drawn.iter().filter(|(fuel, _, _)| which(*fuel)).map(of_use).sum()
}
