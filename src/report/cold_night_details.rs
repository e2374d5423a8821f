//! The engineer's tables of the coldest night, which only files carry: shares, strips, supply air, every
//! failure, and rooms without heat.
//!
//! Start at [`tables`].

use super::figures::{Measure, grouped};
use super::model::{Cell, Column, Table};
use super::warmth::below;
use super::wording;
use crate::coldnight::first_machine::{FirstMachine, SHARES_AT_F, ShareAt};
use crate::coldnight::heat_off::Fall;
use crate::coldnight::strips::{Strips, StripsAt};
use crate::coldnight::supply_air::SUPPLY_AIR_AT_F;
use crate::coldnight::{ColdNight, ZoneColdNight};
use crate::comparison::{Comparison, OptionResult};
use crate::load::Zone;

/// Switches in ducts cut strips and flames off at less than this, °C (200 °F): common practice.
const HOTTEST_AIR_C: f64 = 168.0 / 1.8;
const NOT_POSSIBLE: &str = "not possible";

/// Those that people are shown: what the first machine carries, what strips would ask, how warm the air is.
pub fn shown(c: &Comparison, measure: Measure) -> Vec<Table> {
    let air = once_each(supply_air(c, measure));
    let air = (!air.rows.is_empty()).then_some(air);
    let first = once_each(in_percent(first_machine(c, measure)));
    [first, strips_in_short(c)].into_iter().chain(air).collect()
}

/// Those that only files carry.
pub fn tables(c: &Comparison, measure: Measure) -> Vec<Table> {
    let mut tables =
        vec![first_machine(c, measure), strips(c, measure), supply_air(c, measure), heat_off(c, measure)];
    tables.extend(failures(c, measure));
    tables.extend(tempering(c));
    tables
}

/// A table by option and zone with each machine's row once; where an option's own rule makes another of it, such
/// as a lock-out, the option's name stands beside the machine's.
fn once_each(table: Table) -> Table {
    let mut rows: Vec<Vec<Cell>> = Vec::new();
    for mut row in table.rows {
        let option = row.remove(0);
        let is_same = |known: &Vec<Cell>| known.get(..2) == row.get(..2);
        match rows.iter().any(is_same) {
            true if rows.contains(&row) => {}
            true => {
                if let (Cell::Text(option), Some(Cell::Text(machine))) = (option, row.get_mut(1)) {
                    *machine = format!("{machine}, in \u{201c}{option}\u{201d}");
                }
                rows.push(row);
            }
            false => rows.push(row),
        }
    }
    let name = format!("{}_once", table.name);
    Table { name, rows, columns: table.columns.into_iter().skip(1).collect(), ..table }
}

/// Its shares as whole percent.
fn in_percent(mut table: Table) -> Table {
    for cell in table.rows.iter_mut().flat_map(|row| row.iter_mut().skip(4)) {
        if let Cell::Number { value, shown } = cell {
            *shown = grouped(100.0 * *value, 0);
        }
    }
    table
}

/// What of the backup heat is no lack but strips that temper the air while a heat pump defrosts; nothing
/// where none do.
fn tempering(c: &Comparison) -> Option<Table> {
    let columns = vec![
        Column::words("Option", "option"),
        Column::words("Zone", "zone"),
        Column::numbers("Backup kWh", "backup_heat_kWh"),
        Column::numbers("Of it while defrosting", "tempering_heat_kWh"),
        Column::numbers("Backup hours", "backup_hours"),
        Column::numbers("Of them only while defrosting", "tempering_hours"),
    ];
    let zones =
        c.options.iter().flat_map(|o| c.zones.iter().zip(&o.zones).map(move |(zone, z)| (o, zone, z)));
    let rows = zones.filter(|(_, _, z)| z.sums.tempering_heat_kwh > 0.0).map(|(o, zone, z)| {
        let numbers = [
            z.sums.backup_heat_kwh,
            z.sums.tempering_heat_kwh,
            z.sums.backup_hours as f64,
            z.sums.tempering_hours as f64,
        ];
        let names = [Cell::text(&o.design.name), Cell::text(&zone.name)];
        names.into_iter().chain(numbers.map(|number| Cell::number(number, 0))).collect::<Vec<_>>()
    });
    let rows: Vec<_> = rows.collect();
    let heading = "What of the backup heat tempers the air while a heat pump defrosts?";
    (!rows.is_empty()).then(|| table("tempering", heading, columns, rows))
}

fn table(name: &str, heading: &str, columns: Vec<Column>, rows: Vec<Vec<Cell>>) -> Table {
    Table { name: name.into(), heading: heading.into(), columns, rows, remark: None }
}

/// Every option and zone.
fn each_zone(c: &Comparison) -> impl Iterator<Item = (&OptionResult, &Zone, &ZoneColdNight, usize)> {
    c.options.iter().flat_map(move |o| {
        let zones = c.zones.iter().zip(&o.cold_night.zones).enumerate();
        zones.map(move |(z, (zone, night))| (o, zone, night, z))
    })
}

fn first_name<'a>(c: &'a Comparison, o: &OptionResult, z: usize) -> &'a str {
    let first = o.design.zones.get(z).and_then(|d| d.heaters.first());
    first.and_then(|i| c.machines.get(*i)).map_or("", |m| &m.name)
}

fn first_machine(c: &Comparison, measure: Measure) -> Table {
    let share = |head: String, at: String| Column::numbers(head, format!("share_of_design_load_at_{at}"));
    let power = measure.power_unit();
    let mut columns = vec![
        Column::words("Option", "option"),
        Column::words("Zone", "zone"),
        Column::words("First machine", "first_machine"),
        Column::numbers(format!("Design load, {power}"), format!("design_load_{}", measure.power_key())),
    ];
    let at = |f| share(format!("At {}", measure.fahrenheit_words(f)), measure.fahrenheit_key(f));
    columns.extend(SHARES_AT_F.map(at));
    columns.push(share("At design".into(), "design".into()));
    columns.push(share("At the coldest".into(), "extreme_low".into()));
    columns.extend([17.0, 5.0].map(|f| {
        let (at, rated) = (measure.fahrenheit_key(f), measure.fahrenheit_key(47.0));
        let head = format!("Kept at {}", measure.fahrenheit_words(f));
        Column::numbers(head, format!("capacity_at_{at}_over_{rated}"))
    }));
    let rows = each_zone(c).map(|(o, zone, night, z)| {
        let first = &night.first_machine;
        let mut row = vec![Cell::text(&o.design.name), Cell::text(&zone.name)];
        row.push(Cell::text(first_name(c, o, z)));
        row.push(Cell::number(measure.power(zone.design_load_kw()), 1));
        row.extend(share_cells(first));
        row
    });
    let rows = rows.collect();
    let table = table("first_machine_shares", "What does the first machine carry alone?", columns, rows);
    let rated = measure.fahrenheit_words(47.0);
    let remark = format!(
        "Its greatest heat in the rooms over the design load (the whole heat loss, gains not deducted), %; 0 where \
         it is off. Kept: of what it gives at {rated}."
    );
    Table { remark: Some(remark), ..table }
}

fn share_cells(first: &FirstMachine) -> Vec<Cell> {
    let share = |at: &ShareAt| Cell::number(at.of_design_load, 3);
    let mut cells: Vec<Cell> = first.shares.iter().map(share).collect();
    cells.push(share(&first.at_design));
    cells.push(first.at_extreme_low.as_ref().map_or(Cell::Missing, share));
    cells.push(Cell::maybe(first.retention_17f, 3));
    cells.push(Cell::maybe(first.retention_5f, 3));
    cells
}

/// Strips by zone, then of the whole house with the panel's answer.
fn strips(c: &Comparison, measure: Measure) -> Table {
    let columns = vec![
        Column::words("Option", "option"),
        Column::words("Zone", "zone"),
        Column::words("Strips for", "strips_for"),
        Column::numbers("Outdoors", format!("outdoor_{}", measure.degree_key())),
        Column::numbers("kW at 240 V", "power_at_240V_kW"),
        Column::numbers("A at 240 V", "current_at_240V_A"),
        Column::numbers("125 % A", "current_125_percent_A"),
        Column::numbers("kW at 208 V", "power_at_208V_kW"),
        Column::numbers("Circuits", "circuits_of_48A_at_most"),
        Column::words("Panel", "panel"),
    ];
    let mut rows = Vec::new();
    for o in &c.options {
        let zones = c.zones.iter().zip(&o.cold_night.zones);
        for (zone, night) in zones {
            for (what, at, strips) in zone_strips(night) {
                let row = strip_row(strips, strips.circuits(), None);
                rows.push(with_names(
                    &o.design.name,
                    &zone.name,
                    what,
                    at.map(|t| measure.temperature(t)),
                    row,
                ));
            }
        }
        for (what, strips, circuits) in house_strips(&o.cold_night) {
            let panel = wording::panel(strips.panel(c.basis.panel_spare_a));
            let row = strip_row(strips, circuits, Some(panel));
            rows.push(with_names(&o.design.name, "whole house", what, None, row));
        }
    }
    table("strips", "What would electric strips ask?", columns, rows)
}

/// The whole house's strips, an option in a row: what people settle with the electrician.
fn strips_in_short(c: &Comparison) -> Table {
    let pair = |head: &str, key: &str| {
        let kw = Column::numbers(format!("{head}, kW"), format!("{key}_kW"));
        [kw, Column::numbers("A at 240 V", format!("{key}_current_at_240V_A"))]
    };
    let mut columns = vec![Column::words("Option", "option")];
    columns.extend(pair("Installed", "installed"));
    columns.extend(pair("For what is lacking at design", "shortfall_at_design"));
    columns.extend(pair("For all of it at design", "whole_load_at_design"));
    columns.push(Column::words("Panel, for those installed", "panel"));
    let row = |o: &OptionResult| {
        let strips = house_strips(&o.cold_night);
        // Where machines take turns in a zone, strips are not what stands in for the first.
        let all_known = o.cold_night.zones.iter().all(|zone| zone.strips_at_design.is_some());
        let mut row = vec![Cell::text(&o.design.name)];
        row.extend(strips.iter().enumerate().flat_map(|(place, (_, strips, _))| {
            let known = place == 0 || all_known;
            [(strips.kw, 1), (strips.amps(), 0)].map(|(n, digits)| Cell::maybe(known.then_some(n), digits))
        }));
        let installed = strips.first().map(|(_, strips, _)| strips.panel(c.basis.panel_spare_a));
        row.push(installed.map_or(Cell::Missing, |panel| Cell::Text(wording::panel(panel))));
        row
    };
    let table = table(
        "strips_in_short",
        "What would electric strips ask of the panel?",
        columns,
        c.options.iter().map(row).collect(),
    );
    let remark = "Of the whole house, the whole heat loss at the design temperature, gains not deducted; circuits \
                  are laid out for 125 % of these amps. A dash: a zone in which machines take turns. By zone, at the \
                  coldest and at 208 V: strips.csv.";
    Table { remark: Some(remark.into()), ..table }
}

fn zone_strips(night: &ZoneColdNight) -> Vec<(&'static str, Option<f64>, Strips)> {
    let mut list = vec![("installed", None, night.installed)];
    let mut at = |places: &StripsAt, shortfall: &'static str, whole: &'static str| {
        list.push((shortfall, Some(places.outdoor_c), places.shortfall));
        list.push((whole, Some(places.outdoor_c), places.whole));
    };
    if let Some(design) = &night.strips_at_design {
        at(design, "shortfall at design", "whole load at design");
    }
    if let Some(low) = &night.strips_at_extreme_low {
        at(low, "shortfall at extreme low", "whole load at extreme low");
    }
    list
}

fn house_strips(night: &ColdNight) -> [(&'static str, Strips, usize); 3] {
    let all = |what, of: fn(&ZoneColdNight) -> Strips| (what, night.strips(of), night.circuits(of));
    [
        all("installed", |z| z.installed),
        all("shortfall at design", |z| z.strips_at_design.map_or(Strips::NONE, |s| s.shortfall)),
        all("whole load at design", |z| z.strips_at_design.map_or(Strips::NONE, |s| s.whole)),
    ]
}

fn with_names(option: &str, zone: &str, what: &str, outdoors: Option<f64>, mut row: Vec<Cell>) -> Vec<Cell> {
    let names = [Cell::text(option), Cell::text(zone), Cell::text(what), Cell::maybe(outdoors, 0)];
    row.splice(0..0, names);
    row
}

fn strip_row(strips: Strips, circuits: usize, panel: Option<String>) -> Vec<Cell> {
    vec![
        Cell::number(strips.kw, 2),
        Cell::number(strips.amps(), 1),
        Cell::number(strips.amps_with_margin(), 1),
        Cell::number(strips.kw_at_208_v(), 2),
        Cell::number(circuits as f64, 0),
        panel.map_or(Cell::Missing, Cell::Text),
    ]
}

fn supply_air(c: &Comparison, measure: Measure) -> Table {
    let key = measure.degree_key();
    let mut columns = vec![
        Column::words("Option", "option"),
        Column::words("Zone", "zone"),
        Column::words("Machine", "machine"),
        Column::numbers(
            measure.pick("Airflow, cfm", "Airflow, L/s"),
            measure.pick("airflow_cfm", "airflow_L_s"),
        ),
    ];
    let at = |head: String, at: String| Column::numbers(head, format!("supply_air_at_{at}_{key}"));
    columns.extend(SUPPLY_AIR_AT_F.map(|f| {
        let head = format!("{}, {} outdoors", measure.degree(), measure.fahrenheit_words(f));
        at(head, format!("{}_outdoors", measure.fahrenheit_key(f)))
    }));
    columns.push(at(format!("{}, at design", measure.degree()), "design".into()));
    let mut rows = Vec::new();
    for (o, zone, night, _) in each_zone(c) {
        for air in &night.supply_air {
            let machine = c.machines.get(air.machine).map_or("", |m| &m.name);
            let shown = |t: &Option<f64>| match t {
                Some(t) if *t > HOTTEST_AIR_C => Cell::text(NOT_POSSIBLE),
                t => Cell::maybe(t.map(|t| measure.temperature(t)), 0),
            };
            let mut row = vec![Cell::text(&o.design.name), Cell::text(&zone.name), Cell::text(machine)];
            row.push(Cell::number(measure.airflow(air.airflow_m3_s), 0));
            row.extend(air.supply_c.iter().map(shown));
            row.push(shown(&air.at_design_c));
            rows.push(row);
        }
    }
    let hot = rows.iter().flatten().any(|cell| *cell == Cell::text(NOT_POSSIBLE));
    let remark = hot.then(|| {
        let hottest = measure.temperature_words(HOTTEST_AIR_C);
        format!(
            "Not possible: so little air for so much heat would be warmer than {hottest}, and limit switches cut the heat \
             off before. Look at the airflow."
        )
    });
    Table { remark, ..table("supply_air", "How warm is the air at full output?", columns, rows) }
}

fn heat_off(c: &Comparison, measure: Measure) -> Table {
    let hours = |f| {
        let key = format!("hours_to_{}", measure.fahrenheit_key(f));
        Column::numbers(format!("Hours to {}", measure.fahrenheit_words(f)), key)
    };
    let columns = vec![Column::words("Zone", "zone"), hours(55.0), hours(40.0)];
    let fall = |fall: Fall| match fall {
        Fall::Hours(hours) => Cell::number(hours, 1),
        Fall::Never => Cell::text("never"),
        Fall::NotGiven => Cell::Missing,
    };
    let zones = c.options.first().map(|o| c.zones.iter().zip(&o.cold_night.zones));
    let rows = zones
        .into_iter()
        .flatten()
        .map(|(zone, z)| vec![Cell::text(&zone.name), fall(z.heat_off.to_55f), fall(z.heat_off.to_40f)]);
    table("heat_off", "How fast do rooms fall with all heat off?", columns, rows.collect())
}

fn failures(c: &Comparison, measure: Measure) -> Option<Table> {
    c.options.iter().find_map(|o| o.cold_night.failures.as_ref())?;
    let columns = vec![
        Column::words("Option", "option"),
        Column::words("What fails", "what_fails"),
        Column::words("Part", "part"),
        Column::words("Zone", "zone"),
        Column::numbers("Lowest room", format!("lowest_room_{}", measure.degree_key())),
        below(45.0, measure),
        Column::numbers("Heat short kWh", "heat_not_delivered_kWh"),
    ];
    let mut rows = Vec::new();
    for o in &c.options {
        for run in o.cold_night.failures.iter().flat_map(|f| &f.runs) {
            for (zone, comfort) in c.zones.iter().zip(&run.zones) {
                let room = comfort.room.as_ref();
                rows.push(vec![
                    Cell::text(&o.design.name),
                    Cell::text(wording::failure(&run.group, c)),
                    Cell::text(wording::failed_part(run.group.part)),
                    Cell::text(&zone.name),
                    Cell::maybe(room.map(|r| measure.temperature(r.lowest_c)), 0),
                    Cell::maybe(room.map(|r| r.hours_below_45f as f64), 0),
                    Cell::number(comfort.heat_not_delivered_kwh, 0),
                ]);
            }
        }
    }
    Some(table("failures", "What if something fails in the coldest days?", columns, rows))
}
