//! The `[[option]]` and `[prices]` tables into their sections.
//!
//! Must never know what a machine does or what a fuel is. Start at [`option`] and [`prices`].

use std::collections::BTreeSet;

use toml::de::DeValue;

use super::choices::{
    ChangeoverRule, FuelPriceSection, OptionSection, OptionZoneSection, PriceSection, PricesSection, Sharing,
    SpikeSection,
};
use super::house_reader::OUTDOORS;
use super::household_reader::household_machines;
use super::limits::from_to;
use super::money::{MoneyError, PriceText};
use super::names::Known;
use super::table::Table;
use super::typed::Typed;
use super::values::{flag, month_day, number, quantity, text, word};
use super::wording::{Fault, described, quoted};

const MONTHS: [&str; 12] =
    ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];

/// Reads one `[[option]]` with its zones.
pub(super) fn option(mut table: Table<'_>, known: &Known) -> Option<OptionSection> {
    let name = table.req("name", text);
    let household = household_machines(&mut table, known);
    let tables = table.tables("zone", "zone");
    let named: Vec<_> = tables.iter().filter_map(|zone| zone.raw_text("zone")).collect();
    all_zones(&table, &named, tables.len(), known);
    let zone: Vec<_> = tables.into_iter().map(|zone| option_zone(zone, known)).collect();
    table.done();
    Some(OptionSection { name: name?, household, zone: zone.into_iter().collect::<Option<_>>()? })
}

/// Every zone of the house stands in the option, once.
fn all_zones(table: &Table<'_>, named: &[Typed<String>], count: usize, known: &Known) {
    let mut seen = BTreeSet::new();
    for zone in named {
        if !seen.insert(zone.value.as_str()) {
            let fault = Fault::new(format!("the zone {} comes twice in this option", quoted(zone)));
            table.bad_form("zone", &zone.span, fault.help("put all its machines into one [[option.zone]]"));
        }
    }
    // A table without a readable name may be the one that seems to be missing.
    let strangers = named.iter().any(|zone| known.zones.kind(zone).is_none());
    if named.len() < count || strangers {
        return;
    }
    for zone in known.zones.list.iter().filter(|zone| !seen.contains(zone.as_str())) {
        let fault = Fault::new(format!("the zone {} is missing from this option", quoted(zone)));
        table.bad_form("zone", &table.span, fault.help("add an [[option.zone]] that says how it is heated"));
    }
}

fn option_zone(mut table: Table<'_>, known: &Known) -> Option<OptionZoneSection> {
    let zone = table.req("zone", text);
    if let Some(fault) = zone.as_ref().and_then(|zone| known.zones.fault(zone, "zone of the house")) {
        table.bad_form("zone", &zone.as_ref()?.span, fault);
    }
    if !table.has("heating") {
        table.need("heating");
    }
    let heating = table.list("heating", text);
    for machine in heating.iter().flat_map(|list| list.iter()) {
        machine_for(&table, "heating", machine, known);
    }
    if let Some(list) = &heating {
        once(&table, list);
    }
    let cooling = table.opt("cooling", text);
    if let Some(machine) = &cooling {
        machine_for(&table, "cooling", machine, known);
    }
    let compressor_lockout = table.opt("compressor_lockout", quantity(OUTDOORS));
    let words = word(&[("in_time", Sharing::InTime), ("whole_hour", Sharing::WholeHour)]);
    let sharing = table.opt("sharing", words);
    let rules = word(&[("temperature", ChangeoverRule::Temperature), ("cost", ChangeoverRule::Cost)]);
    let changeover = table.opt("changeover", rules);
    if let (Some(ChangeoverRule::Cost), Some(sharing)) = (changeover.as_deref(), &sharing) {
        let fault =
            Fault::new("on cost, hours that the cheaper machine cannot carry are always shared in time");
        table.bad_form(
            "sharing",
            &sharing.span,
            fault.help("take sharing out, or change over by temperature"),
        );
    }
    let staged_recovery = table.opt("staged_recovery", flag);
    table.done();
    Some(OptionZoneSection {
        zone: zone?,
        heating: heating?,
        cooling,
        compressor_lockout,
        sharing,
        changeover,
        staged_recovery,
    })
}

/// The machine is known and can do what it is named for.
fn machine_for(table: &Table<'_>, key: &str, machine: &Typed<String>, known: &Known) {
    if let Some(fault) = known.machines.fault(machine, "machine") {
        table.bad_form(key, &machine.span, fault);
        return;
    }
    if known.machines.kind(machine) == Some("outdoor_unit") {
        let fault = Fault::new(format!(
            "{} is an outdoor unit, which serves rooms through its heads",
            quoted(machine)
        ));
        table.bad_form(key, &machine.span, fault.help("name the heads, each in its zone"));
        return;
    }
    let (sort, verb) = match (key, known.machines.kind(machine)) {
        ("heating", Some("air_conditioner")) => ("an air conditioner", "heat"),
        (_, Some("water_heater")) => ("a water heater", if key == "heating" { "heat rooms" } else { "cool" }),
        (_, Some("dryer")) => ("a dryer", if key == "heating" { "heat rooms" } else { "cool" }),
        (_, Some("range")) => ("a range", if key == "heating" { "heat rooms" } else { "cool" }),
        ("cooling", Some("furnace")) => ("a furnace", "cool"),
        ("cooling", Some("boiler")) => ("a boiler", "cool"),
        ("cooling", Some("wall_heater")) => ("a wall heater", "cool"),
        ("cooling", Some("wood_stove" | "pellet_stove")) => ("a stove", "cool"),
        ("cooling", Some("resistance")) => ("resistance heat", "cool"),
        _ => return,
    };
    let fault = Fault::new(format!("{} is {sort} and cannot {verb}", quoted(machine)));
    table.bad_form(key, &machine.span, fault.help(format!("name a machine that can {verb}")));
}

fn once(table: &Table<'_>, list: &[Typed<String>]) {
    let mut seen = BTreeSet::new();
    for machine in list.iter().filter(|machine| !seen.insert(machine.value.as_str())) {
        let fault = Fault::new(format!("{} comes twice in this list", quoted(machine)));
        table.bad_form("heating", &machine.span, fault.help("name each machine once, in the order of use"));
    }
}

/// Reads `[prices]`.
pub(super) fn prices(table: Table<'_>, known: &Known) -> Option<PricesSection> {
    let mut fuels = Vec::new();
    for id in table.keys() {
        let fuel = table.table_of(&id.value);
        fuels.push(fuel.and_then(|fuel| fuel_price(fuel, known)).map(|prices| (id, prices)));
    }
    if fuels.is_empty() {
        let fault = Fault::new("no fuel has a price");
        table.bad_form("electricity", &table.span, fault.help("add a table such as [prices.electricity]"));
    }
    Some(PricesSection { fuels: fuels.into_iter().collect::<Option<_>>()? })
}

fn fuel_price(mut table: Table<'_>, known: &Known) -> Option<FuelPriceSection> {
    let money = |value: &DeValue<'_>| price_text(value, &known.currency);
    let fixed = table.opt("fixed", |value| {
        let fixed = price_text(value, &known.currency)?;
        let fault = || Fault::new(format!("a fixed charge is so much a month, not a {}", quoted(&fixed.per)));
        if fixed.per == "month" {
            Ok(fixed.clone())
        } else {
            Err(fault().help("write it as in \"36 $/month\""))
        }
    });
    let price = match table.one_of("price", "price_by_month") {
        Some("price") => table.opt("price", money).map(PriceSection::Flat),
        Some(_) => table.table("price_by_month").and_then(|months| by_month(months, known)),
        None => None,
    };
    let source = table.opt("source", text);
    let spikes: Vec<_> = table.tables("spike", "name").into_iter().map(spike).collect();
    table.done();
    Some(FuelPriceSection { fixed, price: price?, source, spike: spikes.into_iter().collect::<Option<_>>()? })
}

fn by_month(mut table: Table<'_>, known: &Known) -> Option<PriceSection> {
    let span = table.span.clone();
    let prices = MONTHS.map(|month| table.req(month, |value| price_text(value, &known.currency)));
    let pers: Vec<_> =
        MONTHS.iter().zip(&prices).filter_map(|(month, price)| Some((month, price.as_ref()?))).collect();
    if let Some((_, first)) = pers.first()
        && let Some((month, other)) = pers.iter().find(|(_, price)| price.per != first.per)
    {
        let what =
            format!("a price for one {} among prices for one {}", quoted(&other.per), quoted(&first.per));
        table.bad_form(month, &other.span, Fault::new(what).help("price all twelve by the same unit"));
    }
    table.done();
    let prices: Option<Vec<_>> = prices.into_iter().collect();
    let prices: [Typed<PriceText>; 12] = prices?.try_into().ok()?;
    Some(PriceSection::ByMonth(Box::new(Typed::new(prices, span))))
}

fn spike(mut table: Table<'_>) -> Option<SpikeSection> {
    let name = table.req("name", text);
    let from = table.req("from", month_day);
    let to = table.req("to", month_day);
    let times = table.req("times", number(from_to(0.1, 20.0)));
    table.done();
    Some(SpikeSection { name: name?, from: from?, to: to?, times: times? })
}

fn price_text(value: &DeValue<'_>, currency: &str) -> Result<PriceText, Fault> {
    let example = format!("write it as in \"2.49 {currency}/gal\" or \"18.4 c/kWh\"");
    let Some(typed) = value.as_str() else {
        let fault =
            Fault::new(format!("an amount with what it is for is needed here, not {}", described(value)));
        return Err(fault.help(example));
    };
    PriceText::parse(typed, currency)
        .map_err(|error| money_fault(&quoted(typed), currency, &error).help(example))
}

fn money_fault(typed: &str, currency: &str, error: &MoneyError) -> Fault {
    let sign = format!("{currency} or c, the sign given by job.currency and its hundredth");
    match error {
        MoneyError::NoPer => Fault::new(format!("{typed} does not say what the amount is for")),
        MoneyError::NoNumber => Fault::new(format!("{typed} holds no number where the amount should be")),
        MoneyError::NoCurrency => Fault::new(format!("{typed} has no currency sign")).allowed(sign),
        MoneyError::OtherCurrency(found) => {
            Fault::new(format!("{} in {typed} is not the job's currency", quoted(found))).allowed(sign)
        }
        MoneyError::Negative => Fault::new(format!("{typed} is less than 0")).allowed("0 or more"),
        MoneyError::TooLarge => {
            Fault::new(format!("{typed} is out of range")).allowed(format!("0 to 1,000,000 {currency}"))
        }
    }
}
