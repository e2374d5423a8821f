//! The tables `[job]` and `[house]` into their sections.
//!
//! Must never know machines, options or prices. Start at [`house`].

use super::limits::{Limits, above_zero, from_to};
use super::sections::{
    CoolingSection, DuctsSection, HouseSection, JobSection, PaperWord, SetBackSection, Units, ZoneSection,
};
use super::table::Table;
use super::typed::{ClockTime, Typed};
use super::values::{clock_time, flag, meant_day, number, quantity, text, word};
use super::wording::{Fault, quoted};
use crate::units::{Quantity, Temperature};

/// Outdoors, °C: a little beyond the records of the Earth; −130 to 140 °F.
pub(super) const OUTDOORS: Limits = from_to(-90.0, 60.0);
/// In rooms, °C: 32 to 104 °F.
const ROOM: Limits = from_to(0.0, 40.0);
/// A house's load, kW: a hundred times a large house's.
const LOAD: Limits = from_to(0.0, 1000.0);
/// Floor area, m².
const FLOOR: Limits = above_zero(10_000.0);

/// Reads `[job]`.
pub(super) fn job(mut table: Table<'_>) -> Option<JobSection> {
    let title = table.req("title", text);
    let note = table.opt("note", text);
    let prepared_by = table.opt("prepared_by", text);
    let phone = table.opt("phone", text);
    let logo = table.opt("logo", text);
    let customer = table.opt("customer", text);
    let date = table.opt("date", a_day);
    let paper = table.opt("paper", word(&[("letter", PaperWord::Letter), ("a4", PaperWord::A4)]));
    let currency = or_unsaid(&mut table, "currency", "$".to_owned(), |value| {
        let sign = text(value)?;
        let plain = sign.chars().count() <= 5
            && !sign.contains(|c: char| c.is_ascii_digit() || c.is_whitespace() || "/.,+-".contains(c))
            && sign != "c";
        let fault = || Fault::new(format!("{} cannot stand as a currency sign", quoted(&sign)));
        if plain { Ok(sign.clone()) } else { Err(fault().help("write a sign such as \"$\" or \"EUR\"")) }
    });
    let units = or_unsaid(&mut table, "units", Units::Us, word(&[("us", Units::Us), ("si", Units::Si)]));
    table.done();
    Some(JobSection {
        title: title?,
        note,
        prepared_by,
        phone,
        logo,
        customer,
        date,
        paper,
        currency: currency?,
        units: units?,
    })
}

/// A day of the calendar, as it is written in a job: `2026-03-15`; or with its month by name, which can mean no other.
pub(super) fn a_day(value: &toml::de::DeValue<'_>) -> Result<String, Fault> {
    if let toml::de::DeValue::Datetime(day) = value {
        let fault = Fault::new(format!("{day} must stand in quotation marks"));
        return Err(fault.help(format!("write \"{day}\"")));
    }
    let typed = text(value)?;
    let day = typed.trim();
    let meant = meant_day(day).and_then(|(year, meant)| Some(format!("{}-{meant}", year?)));
    let by_name = meant.as_deref().filter(|_| day.chars().filter(|c| c.is_alphabetic()).count() > 2);
    let written = by_name.unwrap_or(day);
    match chrono::NaiveDate::parse_from_str(written, "%Y-%m-%d") {
        Ok(_) if written.len() == 10 => Ok(written.to_owned()),
        _ => {
            let help = match meant {
                Some(meant) if by_name.is_none() => format!("write \"{meant}\""),
                _ => "write year, month and day as in \"2026-03-15\"".to_owned(),
            };
            let what = match day.len() == 10 && day.get(4..5) == Some("-") {
                true => "is no day of the calendar",
                false => "is not written as year-month-day",
            };
            Err(Fault::new(format!("{} {what}", quoted(day))).help(help))
        }
    }
}

fn or_unsaid<'a, T>(
    table: &mut Table<'a>,
    key: &'static str,
    unsaid: T,
    read: impl FnOnce(&toml::de::DeValue<'a>) -> Result<T, Fault>,
) -> Option<Typed<T>> {
    if table.has(key) { table.opt(key, read) } else { Some(Typed::new(unsaid, 0..0)) }
}

/// Reads `[house]` with its zones.
pub(super) fn house(mut table: Table<'_>) -> Option<HouseSection> {
    let floor_area = table.opt("floor_area", quantity(FLOOR));
    let panel_spare = table.opt("panel_spare", quantity(from_to(0.0, 1000.0)));
    let repair_days = table.opt("repair_days", whole_days);
    let load_source = table.opt("load_source", text);
    let load_uncertainty = table.opt("load_uncertainty", number(from_to(0.0, 0.5)));
    let tables = table.tables("zone", "name");
    if tables.is_empty() {
        let fault = Fault::new("the house has no zone; at least one is needed");
        table.bad_form("zone", &table.span, fault.help("begin each zone with its own header [[house.zone]]"));
    }
    let zone: Vec<_> = tables.into_iter().map(zone).collect();
    table.done();
    Some(HouseSection {
        floor_area,
        panel_spare,
        repair_days,
        load_source,
        load_uncertainty,
        zone: zone.into_iter().collect::<Option<_>>()?,
    })
}

fn whole_days(value: &toml::de::DeValue<'_>) -> Result<f64, Fault> {
    let days = number(from_to(1.0, 30.0))(value)?;
    let fault = || Fault::new(format!("{days} is not a whole number of days"));
    if days.fract() == 0.0 { Ok(days) } else { Err(fault().help("write a whole number, such as 5")) }
}

fn zone(mut table: Table<'_>) -> Option<ZoneSection> {
    let name = table.req("name", text);
    let design_load = table.req("design_load", quantity(LOAD));
    let design_temperature = table.req("design_temperature", quantity(OUTDOORS));
    let indoor = table.req("indoor", quantity(ROOM));
    let balance_temperature = table.req("balance_temperature", quantity(OUTDOORS));
    let design_load_includes_ducts = table.req("design_load_includes_ducts", flag);
    let duct_efficiency = table.opt("duct_efficiency", number(from_to(0.5, 1.0)));
    let ducts = ducts(&mut table);
    one_way(&table, design_load_includes_ducts.as_ref());
    let heat_capacity = table.opt("heat_capacity", quantity(from_to(0.0, 1000.0)));
    let floor_area = table.opt("floor_area", quantity(FLOOR));
    let heating_set_point = table.opt("heating_set_point", quantity(ROOM));
    let set_back = set_backs(&mut table);
    let vent = table.opt("vent", quantity(ROOM));
    let cooling = cooling(&mut table);
    let (design, inside, balance) =
        (design_temperature.as_ref(), indoor.as_ref(), balance_temperature.as_ref());
    rise(&table, "indoor", inside, "design_temperature", design, false);
    rise(&table, "balance_temperature", balance, "design_temperature", design, true);
    rise(&table, "indoor", inside, "balance_temperature", balance, true);
    let warm =
        heating_set_point.as_ref().map(|set| ("heating_set_point", set)).or(inside.map(|t| ("indoor", t)));
    if let Some((key, warm)) = warm {
        rise(&table, "vent", vent.as_ref(), key, Some(warm), false);
        let cool = cooling.as_ref().map(|cooling| &cooling.cooling_set_point);
        rise(&table, "cooling_set_point", cool, key, Some(warm), false);
    }
    table.done();
    Some(ZoneSection {
        name: name?,
        design_load: design_load?,
        design_temperature: design_temperature?,
        indoor: indoor?,
        balance_temperature: balance_temperature?,
        design_load_includes_ducts: design_load_includes_ducts?,
        duct_efficiency,
        ducts: ducts?,
        heat_capacity,
        floor_area,
        heating_set_point,
        set_back,
        vent,
        cooling,
    })
}

/// `ducts`, if they are there: then all of their keys but one.
fn ducts(table: &mut Table<'_>) -> Option<Option<DuctsSection>> {
    if table.value("ducts").is_none() {
        return Some(None);
    }
    let leak = || number(from_to(0.0, 0.5));
    let r_value = || number(from_to(0.5, 60.0));
    let mut ducts = table.table("ducts")?;
    let supply_area = ducts.req("supply_area", quantity(FLOOR));
    let return_area = ducts.req("return_area", quantity(FLOOR));
    let supply_r = ducts.req("supply_r", r_value());
    let return_r = ducts.req("return_r", r_value());
    let airflow = ducts.req("airflow", quantity(above_zero(10.0)));
    let supply_leak = ducts.req("supply_leak", leak());
    let return_leak = ducts.req("return_leak", leak());
    let ambient = ducts.opt("ambient", quantity(OUTDOORS));
    ducts.done();
    Some(Some(DuctsSection {
        supply_area: supply_area?,
        return_area: return_area?,
        supply_r: supply_r?,
        return_r: return_r?,
        airflow: airflow?,
        supply_leak: supply_leak?,
        return_leak: return_leak?,
        ambient,
    }))
}

/// Duct losses are counted in one way.
fn one_way(table: &Table<'_>, included: Option<&Typed<bool>>) {
    if !table.has("ducts") {
        return;
    }
    let other = match (table.has("duct_efficiency"), included) {
        (true, _) => "duct_efficiency",
        (false, Some(included)) if included.value => "design_load_includes_ducts = true",
        _ => return,
    };
    let fault = Fault::new(format!("ducts and {other} both count what the ducts lose"));
    table.bad_form("ducts", &table.span, fault.help("take one of the two out"));
}

/// Tells, at `upper`, if its temperature does not lie above (or, where `equal`, at) that of `lower`.
pub(super) fn rise(
    table: &Table<'_>,
    upper: &'static str,
    high: Option<&Typed<Temperature>>,
    lower: &'static str,
    low: Option<&Typed<Temperature>>,
    equal: bool,
) {
    let (Some(high), Some(low)) = (high, low) else { return };
    let (above, below) = (high.base(), low.base());
    if above > below || (equal && above >= below) {
        return;
    }
    let (typed_high, typed_low) = (table.typed(&high.span), table.typed(&low.span));
    let what = match above == below {
        true => format!("{upper} and {lower} are both {typed_high}"),
        false => format!("{upper}, {typed_high}, lies below {lower}, {typed_low}"),
    };
    let allowed = if equal { "at or above" } else { "above" };
    let fault = Fault::new(what).allowed(format!("{upper} {allowed} {lower}"));
    table.bad_form(upper, &high.span, fault.help("see which of the two is wrong, and correct it"));
}

fn cooling(table: &mut Table<'_>) -> Option<CoolingSection> {
    const KEYS: [&str; 4] = [
        "cooling_design_load",
        "cooling_design_temperature",
        "cooling_balance_temperature",
        "cooling_set_point",
    ];
    let given = KEYS.iter().any(|key| table.has(key));
    let load = table.opt("cooling_design_load", quantity(LOAD));
    let design = table.opt("cooling_design_temperature", quantity(OUTDOORS));
    let balance = table.opt("cooling_balance_temperature", quantity(OUTDOORS));
    let set_point = table.opt("cooling_set_point", quantity(ROOM));
    for key in KEYS.into_iter().filter(|key| given && !table.has(key)).collect::<Vec<_>>() {
        table.need(key);
    }
    rise(
        table,
        "cooling_design_temperature",
        design.as_ref(),
        "cooling_balance_temperature",
        balance.as_ref(),
        false,
    );
    Some(CoolingSection {
        cooling_design_load: load?,
        cooling_design_temperature: design?,
        cooling_balance_temperature: balance?,
        cooling_set_point: set_point?,
    })
}

fn set_backs(table: &mut Table<'_>) -> Vec<SetBackSection> {
    let tables = table.tables("set_back", "");
    let entries: Vec<_> = tables.into_iter().filter_map(set_back).collect();
    let mut taken = vec![false; 24 * 60];
    for entry in &entries {
        if minutes(entry).any(|minute| taken.get(minute).copied().unwrap_or_default()) {
            let what = format!("{} to {} overlaps another set_back", *entry.from, *entry.to);
            let fault = Fault::new(what).help("let each time of day belong to one entry only");
            table.bad_form("set_back", &entry.from.span, fault);
        }
        for minute in minutes(entry) {
            if let Some(taken) = taken.get_mut(minute) {
                *taken = true;
            }
        }
    }
    entries
}

fn set_back(mut table: Table<'_>) -> Option<SetBackSection> {
    let from = table.req("from", clock_time);
    let to = table.req("to", clock_time);
    let set_point = table.req("set_point", quantity(ROOM));
    if let (Some(from), Some(to)) = (&from, &to)
        && **from == **to
    {
        let fault = Fault::new(format!("from and to are both {}", **to));
        table.bad_form("to", &to.span, fault.help("for the whole day, change heating_set_point instead"));
    }
    table.done();
    Some(SetBackSection { from: from?, to: to?, set_point: set_point? })
}

/// The minutes of the day that an entry covers; it may cross midnight.
fn minutes(entry: &SetBackSection) -> impl Iterator<Item = usize> {
    let of = |time: ClockTime| usize::from(time.hour) * 60 + usize::from(time.minute);
    let (from, to) = (of(*entry.from), of(*entry.to));
    let length = (to + 24 * 60 - from) % (24 * 60);
    (from..from + length).map(|minute| minute % (24 * 60))
}
