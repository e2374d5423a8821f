//! The `[prices]` table into its sections.
//!
//! Must never know what a fuel is, only what else it is called. Start at [`prices`].

use toml::de::DeValue;

use super::limits::from_to;
use super::names::Known;
use super::price_sections::{
    FuelPriceSection, HeatingRateSection, MovesSection, PastSection, PricesSection, RiderAmount,
    RiderSection, SpikeSection, YearlyUseSection,
};
use super::rate_check::tiers_hold;
use super::rate_reader::{Money, amount, clock_span, rate};
use super::table::Table;
use super::typed::Typed;
use super::values::{flag, month_day, number, text, whole};
use super::wording::{Fault, quoted};
use crate::fuel::{is_some_gas, meant_by};

/// Reads `[prices]`.
pub(super) fn prices(table: Table<'_>, known: &Known) -> Option<PricesSection> {
    let mut fuels = Vec::new();
    for id in table.keys() {
        let other_name =
            match meant_by(&id.value) {
                Some(meant) if meant != id.value => {
                    let fault = Fault::new(format!("{} is called {meant} in a job", quoted(&id.value)));
                    Some(fault.help(format!(
                        "write [prices.{meant}], and fuel = \"{meant}\" where a machine burns it"
                    )))
                }
                None if is_some_gas(&id.value) => {
                    let fault = Fault::new(format!("{} may be natural gas or propane", quoted(&id.value)));
                    Some(fault.help("write [prices.natural_gas] or [prices.propane]"))
                }
                _ => None,
            };
        if let Some(fault) = other_name {
            table.bad_form(&id.value, &id.span, fault);
        }
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
    let negative = table.opt("negative_prices", flag).is_some_and(|declared| declared.value);
    let money = Money { currency: &known.currency, negative };
    let rate = rate(&mut table, money);
    let demand = table.opt("demand", money.each(&["kW"]));
    let riders: Vec<_> = table.tables("rider", "name").into_iter().map(|entry| rider(entry, money)).collect();
    let tax = table.opt("tax", number(from_to(0.0, 0.5)));
    let holidays = table.list("holidays", month_day);
    let rent = table.opt("rent", money.each(&["month", "year"]));
    let has_steps = table.value("by_yearly_use").is_some();
    let by_yearly_use = has_steps.then(|| by_yearly_use(&mut table, money));
    let heating = table.table("heating").map(|entry| heating(entry, money));
    let moves = table.table("moves").map(moves);
    let past: Vec<_> = table.tables("past", "name").into_iter().map(|entry| past(entry, money)).collect();
    let spikes: Vec<_> = table.tables("spike", "name").into_iter().map(spike).collect();
    table.done();
    Some(FuelPriceSection {
        rate: rate?,
        demand,
        rider: riders.into_iter().collect::<Option<_>>()?,
        tax,
        holidays: holidays.map(|list| list.value).unwrap_or_default(),
        rent,
        by_yearly_use: by_yearly_use.map_or(Some(None), |read| read.map(Some))?,
        past: past.into_iter().collect::<Option<_>>()?,
        spike: spikes.into_iter().collect::<Option<_>>()?,
        heating: heating.map_or(Some(None), |read| read.map(Some))?,
        moves: moves.map_or(Some(None), |read| read.map(Some))?,
    })
}

fn rider(mut table: Table<'_>, money: Money<'_>) -> Option<RiderSection> {
    let name = table.req("name", text);
    let share = |value: &DeValue<'_>| {
        let least = if money.negative { -1.0 } else { 0.0 };
        let help = "write a share, such as 0.03 for 3 %; for one below 0, say negative_prices = true too";
        number(from_to(least, 1.0))(value).map_err(|fault| fault.help(help))
    };
    let amount = match table.one_of("price", "share") {
        Some("price") => table.opt("price", |value| money.price(value)).map(RiderAmount::Price),
        Some(_) => table.opt("share", share).map(RiderAmount::Share),
        None => None,
    };
    table.done();
    Some(RiderSection { name: name?, amount: amount? })
}

fn by_yearly_use(table: &mut Table<'_>, money: Money<'_>) -> Option<Typed<Vec<YearlyUseSection>>> {
    let span = table.value("by_yearly_use")?.span();
    let entries = table.tables("by_yearly_use", "");
    let steps: Vec<_> = entries
        .into_iter()
        .map(|mut entry| {
            let up_to = entry.opt("up_to", amount);
            let unreadable = entry.has("up_to") && up_to.is_none();
            let add = entry.req("add", |value| money.price(value));
            entry.done();
            add.filter(|_| !unreadable).map(|add| YearlyUseSection { up_to, add })
        })
        .collect();
    let steps: Vec<YearlyUseSection> = steps.into_iter().collect::<Option<_>>()?;
    let limits: Vec<_> = steps.iter().map(|step| (step.up_to.as_ref(), &step.add.span)).collect();
    tiers_hold(table, "by_yearly_use", &limits).then(|| Typed::new(steps, span))
}

fn heating(mut table: Table<'_>, money: Money<'_>) -> Option<Typed<HeatingRateSection>> {
    let span = table.span.clone();
    let rate = rate(&mut table, money);
    let entries = table.tables("interrupted", "");
    let interrupted: Vec<_> = entries
        .into_iter()
        .map(|mut entry| {
            let span = clock_span(&mut entry);
            entry.done();
            span
        })
        .collect();
    table.done();
    let interrupted = interrupted.into_iter().collect::<Option<_>>()?;
    Some(Typed::new(HeatingRateSection { rate: rate?, interrupted }, span))
}

fn moves(mut table: Table<'_>) -> Option<Typed<MovesSection>> {
    let span = table.span.clone();
    let years = from_to(0.1, 50.0);
    let level_spread = table.opt("level_spread", number(from_to(0.0, 1.0)));
    let volatility = table.opt("volatility", number(from_to(0.0, 2.0)));
    if table.has("level_spread") && table.has("volatility") {
        table.one_of("level_spread", "volatility");
    }
    let half_lives = (table.opt("half_life_from", number(years)), table.opt("half_life_to", number(years)));
    let counts = from_to(0.0, 200.0);
    let spikes = (table.opt("spike_winters", whole(counts)), table.opt("of_winters", whole(counts)));
    let spike_size = table.opt("spike_size", number(from_to(0.0, 2.0)));
    let spike_half_life_weeks = table.opt("spike_half_life", number(from_to(0.5, 26.0)));
    table.need_both("half_life_from", "half_life_to");
    table.need_both("spike_winters", "of_winters");
    for (key, pair) in [("half_life_to", &half_lives), ("of_winters", &spikes)] {
        if let (Some(low), Some(high)) = pair
            && low.value > high.value
        {
            let fault = Fault::new(format!("{} is less than the {} before it", high.value, low.value));
            table.bad_form(key, &high.span, fault.help("see which of the two is wrong, and correct it"));
        }
    }
    table.done();
    Some(Typed::new(
        MovesSection {
            level_spread,
            volatility,
            half_life_years: half_lives.0.zip(half_lives.1),
            spikes: spikes.0.zip(spikes.1),
            spike_size,
            spike_half_life_weeks,
        },
        span,
    ))
}

fn past(mut table: Table<'_>, money: Money<'_>) -> Option<PastSection> {
    let name = table.req("name", text);
    let price = table.req("price", |value| money.price(value));
    table.done();
    Some(PastSection { name: name?, price: price? })
}

fn spike(mut table: Table<'_>) -> Option<SpikeSection> {
    let name = table.req("name", text);
    let from = table.req("from", month_day);
    let to = table.req("to", month_day);
    let times = table.req("times", number(from_to(0.1, 20.0)));
    table.done();
    Some(SpikeSection { name: name?, from: from?, to: to?, times: times? })
}
