//! Capacity tables, the rows of `heating` and `cooling`, into their sections.
//!
//! Must never know what kind of machine they are for. Start at [`rows`].

use super::house_reader::OUTDOORS;
use super::limits::{Limits, above_zero, from_to};
use super::machines::{DrawSection, PointSection, RowSection, UnitRowSection};
use super::table::Table;
use super::typed::Typed;
use super::values::{number_or, quantity};
use super::wording::{Fault, digits};
use crate::units::{Power, Quantity, Temperature};

/// Capacity of one machine or stage, kW.
pub(super) const CAPACITY: Limits = above_zero(1000.0);
/// Heat or cooling over draw: less than 1 is worse than a strip, more than 10 no machine reaches.
const COP: (f64, f64) = (1.0, 10.0);
/// The same of cooling with water from the ground, which at part load may be colder than the room: there is hardly a
/// lift, and what pump and fan draw is the bound (a judgement). What such water makes likely is asked about later.
const COP_OF_WATER_COOLING: (f64, f64) = (1.0, 20.0);

/// Colder than this a row stands for the cold, °C (30 °F).
const MILD_C: f64 = -2.0 / 1.8;
/// Capacity that grows by more than this from one row to a colder one is a slip.
const RISE: f64 = 1.3;

/// A capacity that is far above the one at a warmer temperature.
pub(super) fn rising_into_the_cold(
    table: &Table<'_>,
    key: &str,
    warmer: Option<&Typed<Power>>,
    colder: Option<&Typed<Power>>,
    place: &str,
) {
    let (Some(warmer), Some(colder)) = (warmer, colder) else { return };
    if colder.base() > RISE * warmer.base() {
        let (more, less) = (table.typed(&colder.span), table.typed(&warmer.span));
        let fault = Fault::new(format!("{more} {place} is far more than {less} where it is warmer"));
        let fault = fault.allowed(format!("up to {RISE} times the capacity at the next warmer temperature"));
        table.bad_form(
            key,
            &colder.span,
            fault.help("heat pumps give less in the cold: see which is a slip"),
        );
    }
}

/// Rows of a machine's own heating: at least two, and none far above a warmer one.
pub(super) fn heating_rows(table: &mut Table<'_>) -> Option<Typed<Vec<RowSection>>> {
    let rows = rows(table, "heating")?;
    if let [only] = rows.value.as_slice() {
        only_row(table, &only.outdoor);
    }
    let mut warm_first: Vec<_> = rows.value.iter().collect();
    warm_first.sort_by(|a, b| b.outdoor.base().total_cmp(&a.outdoor.base()));
    for pair in warm_first.windows(2) {
        let [warmer, colder] = pair else { continue };
        if warmer.outdoor.base() == colder.outdoor.base() {
            continue; // told already
        }
        let place = format!("at {}", table.typed(&colder.outdoor.span));
        let (warmer, colder) = (&warmer.greatest.capacity, &colder.greatest.capacity);
        rising_into_the_cold(table, "heating", Some(warmer), Some(colder), &place);
    }
    Some(rows)
}

fn only_row(table: &Table<'_>, outdoor: &Typed<Temperature>) {
    let at = table.typed(&outdoor.span);
    let (other, help) = if outdoor.base() < MILD_C {
        ("mild weather", "add a row at 47 degF or so, from the machine's own table")
    } else {
        ("the cold", "add a row at 17 degF or colder, from the machine's own table")
    };
    let fault = Fault::new(format!("the only row stands at {at}, which says nothing of {other}"));
    table.bad_form("heating", &outdoor.span, fault.help(help));
}

/// Rows of an outdoor unit, which know capacities only: of heating at least two.
pub(super) fn unit_rows(table: &mut Table<'_>, key: &'static str) -> Option<Typed<Vec<UnitRowSection>>> {
    let span = table.value(key)?.span();
    let tables = table.tables(key, "");
    let count = tables.len();
    let rows: Vec<_> = tables.into_iter().filter_map(unit_row).collect();
    in_order(table, key, rows.iter().map(|row| &row.outdoor));
    match rows.as_slice() {
        [] if count == 0 => {
            let least = if key == "heating" { "two rows are" } else { "one row is" };
            let fault = Fault::new("the list is empty").help(format!("at least {least} needed"));
            table.bad_value(key, &span, fault);
        }
        [only] if key == "heating" => only_row(table, &only.outdoor),
        _ => {}
    }
    (rows.len() == count && count > 0).then(|| Typed::new(rows, span))
}

fn unit_row(mut table: Table<'_>) -> Option<UnitRowSection> {
    let outdoor = table.req("outdoor", quantity::<Temperature>(OUTDOORS));
    let greatest = table.req("greatest", quantity::<Power>(CAPACITY));
    table.done();
    Some(UnitRowSection { outdoor: outdoor?, greatest: greatest? })
}

/// Typed rows under `key`, at least one if the key is there.
pub(super) fn rows(table: &mut Table<'_>, key: &'static str) -> Option<Typed<Vec<RowSection>>> {
    rows_at(table, key, ("outdoor", COP))
}

/// Rows of what a ground loop feeds, at the temperature that enters from it.
pub(super) fn loop_rows(table: &mut Table<'_>, key: &'static str) -> Option<Typed<Vec<RowSection>>> {
    let cop = if key == "cooling" { COP_OF_WATER_COOLING } else { COP };
    rows_at(table, key, ("entering", cop))
}

/// Typed rows under `key`, each at the temperature under the key `at`, with the COPs that are believed.
fn rows_at(
    table: &mut Table<'_>,
    key: &'static str,
    (at, cop): (&'static str, (f64, f64)),
) -> Option<Typed<Vec<RowSection>>> {
    let span = table.value(key)?.span();
    let tables = table.tables(key, "");
    let count = tables.len();
    if table.is_empty_list(key) {
        table.bad_value(key, &span, Fault::new("the list is empty").help("at least one row is needed"));
    }
    let (rows, given): (Vec<_>, Vec<_>) = tables.into_iter().filter_map(|table| row(table, at, cop)).unzip();
    in_order(table, key, rows.iter().map(|row: &RowSection| &row.outdoor));
    alike(table, key, &rows, &given);
    (rows.len() == count && count > 0).then(|| Typed::new(rows, span))
}

/// Whether a row names `least` and `rated` at all, well or badly.
type Given = [bool; 2];

/// `least` and `rated` stand in every row or in none: a map can't be followed from one to the other.
fn alike(table: &Table<'_>, key: &str, rows: &[RowSection], given: &[Given]) {
    for (place, name) in ["least", "rated"].into_iter().enumerate() {
        let has = |given: &Given| given.get(place) == Some(&true);
        let without = rows.iter().zip(given).find(|(_, given)| !has(given));
        if let (Some((without, _)), true) = (without, given.iter().any(has)) {
            let at = table.typed(&without.outdoor.span);
            let fault = Fault::new(format!("the row at {at} gives no {name}, but other rows do"));
            table.bad_form(key, &without.span, fault.help(format!("give {name} in every row, or in none")));
        }
    }
}

/// Rows must rise or fall strictly with outdoor temperature: a swapped pair is a slip.
fn in_order<'r>(table: &Table<'_>, key: &str, outdoors: impl Iterator<Item = &'r Typed<Temperature>>) {
    let outdoors: Vec<_> = outdoors.collect();
    let rising = match outdoors.as_slice() {
        [first, second, ..] => second.base() > first.base(),
        _ => return,
    };
    for pair in outdoors.windows(2) {
        let [before, row] = pair else { continue };
        let (a, b) = (before.base(), row.base());
        if a == b || (b > a) != rising {
            let (first, second) = (table.typed(&before.span), table.typed(&row.span));
            let fault = match a == b {
                true => Fault::new(format!("two rows stand at {second}")).help("keep one of them"),
                false => Fault::new(format!("the row at {second} is out of order after the one at {first}"))
                    .help("sort the rows by outdoor temperature, rising or falling"),
            };
            table.bad_form(key, &row.span, fault);
            return;
        }
    }
}

fn row(mut table: Table<'_>, at: &'static str, believed: (f64, f64)) -> Option<(RowSection, Given)> {
    let outdoor = table.req(at, quantity::<Temperature>(OUTDOORS));
    let keys = [["least", "least_cop", "least_power"], ["rated", "rated_cop", "rated_power"]];
    let named = keys.map(|keys| keys.iter().any(|key| table.has(key)));
    let [least, rated] = keys.map(|keys| point(&mut table, keys, believed));
    if !table.has("greatest") {
        table.need("greatest");
    }
    let greatest = point(&mut table, ["greatest", "greatest_cop", "greatest_power"], believed);
    let points = [("least", &least), ("rated", &rated), ("greatest", &greatest)];
    let given: Vec<_> = points.iter().filter_map(|(name, point)| Some((*name, point.as_ref()?))).collect();
    for pair in given.windows(2) {
        let [(lower, low), (upper, high)] = pair else { continue };
        if low.capacity.base() > high.capacity.base() {
            let (less, more) = (table.typed(&low.capacity.span), table.typed(&high.capacity.span));
            let fault = Fault::new(format!("{lower}, {less}, is more than {upper}, {more}"));
            table.bad_form(
                lower,
                &low.capacity.span,
                fault.allowed("least, rated and greatest in rising order"),
            );
        }
    }
    let span = table.span.clone();
    table.done();
    Some((RowSection { outdoor: outdoor?, least, rated, greatest: greatest?, span }, named))
}

fn point(
    table: &mut Table<'_>,
    [key, cop, power]: [&'static str; 3],
    believed: (f64, f64),
) -> Option<PointSection> {
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
            let typed = table.opt(cop, number_or(from_to(believed.0, believed.1), COP_HELP))?;
            Typed::new(DrawSection::Cop(typed.value), typed.span)
        }
        Some(_) => {
            let typed = table.opt(power, quantity::<Power>(CAPACITY))?;
            plausible(table, power, capacity.as_ref(), &typed, believed);
            Typed::new(DrawSection::Power(typed.value), typed.span)
        }
        None => return None,
    };
    Some(PointSection { capacity: capacity?, draw })
}

const COP_HELP: &str =
    "a COP is heat over power drawn, in the same unit; an EER in Btu/Wh is 3.412 times as much";

/// Capacity over draw must lie in the same range as a typed COP.
fn plausible(
    table: &Table<'_>,
    key: &str,
    capacity: Option<&Typed<Power>>,
    draw: &Typed<Power>,
    believed: (f64, f64),
) {
    let Some(capacity) = capacity else { return };
    let cop = capacity.base() / draw.base();
    if !(believed.0..=believed.1).contains(&cop) {
        let (out, drawn) = (table.typed(&capacity.span), table.typed(&draw.span));
        let fault = Fault::new(format!("{out} from a draw of {drawn} would be a COP of {}", digits(cop)));
        let fault = fault.allowed(format!("a COP of {} to {}", digits(believed.0), digits(believed.1)));
        table.bad_form(
            key,
            &draw.span,
            fault.help("see whether capacity and power are in the units they say"),
        );
    }
}
