//! The `[economics]` table and the costs of an `[[option]]` into their sections.
//!
//! Must never know what later money is worth. Start at [`economics`] and [`option_costs`].

use toml::de::DeValue;

use super::costs::{CostSection, EconomicsSection, IncentiveSection, LoanSection, OptionCosts};
use super::limits::from_to;
use super::money::PriceText;
use super::money_reader::{BASES, below_zero, price_text, whole};
use super::names::Known;
use super::table::Table;
use super::typed::Typed;
use super::values::{flag, number, quantity, text, whole_number, word};
use super::wording::{Fault, described, quoted};
use crate::units::{Quantity, Years};

/// Reads `[economics]`.
pub(super) fn economics(mut table: Table<'_>, known: &Known) -> EconomicsSection {
    let base = table.opt("base", text);
    if let Some(name) = &base
        && let Some(fault) = known.options.fault(name, "option")
    {
        table.bad_form("base", &name.span, fault);
    }
    let section = EconomicsSection {
        years: table.opt("years", whole_number(1, 60)),
        discount_rate: table.opt("discount_rate", number(from_to(0.0, 0.3))),
        inflation: table.opt("inflation", number(from_to(0.0, 0.3))),
        count_incentives: table.opt("count_incentives", flag),
        base,
        escalation: table.table("escalation").map(|entry| escalation(&entry, known)).unwrap_or_default(),
    };
    table.done();
    section
}

fn escalation(table: &Table<'_>, known: &Known) -> Vec<(Typed<String>, Typed<f64>)> {
    let mut list = Vec::new();
    for fuel in table.keys() {
        if let Some(fault) = known.fuels.fault(&fuel, "fuel with a price") {
            table.bad_form(&fuel.value, &fuel.span, fault);
        } else if let Some(rate) = table.known(&fuel.value, number(from_to(-0.1, 0.2))) {
            list.push((fuel, rate));
        }
    }
    list
}

/// Reads what an option costs beside its energy.
pub(super) fn option_costs(table: &mut Table<'_>, known: &Known) -> Option<OptionCosts> {
    let cost: Vec<_> = table.tables("cost", "what").into_iter().map(|entry| cost(entry, known)).collect();
    let incentives = table.tables("incentive", "what");
    let incentive: Vec<_> = incentives.into_iter().map(|entry| incentive(entry, known)).collect();
    let has_loan = table.has("loan");
    let all = cost.iter().flatten().map(|part| part.amount.value).sum();
    paid_by_others(table, &incentive, all);
    let loan = table.table("loan").and_then(|entry| loan(entry, all, known));
    let upkeep = table.opt("upkeep", |value| yearly(value, &known.currency));
    let (cost, incentive) =
        (cost.into_iter().collect::<Option<_>>()?, incentive.into_iter().collect::<Option<_>>()?);
    (has_loan == loan.is_some()).then_some(OptionCosts { cost, incentive, loan, upkeep })
}

fn cost(mut table: Table<'_>, known: &Known) -> Option<CostSection> {
    let what = table.req("what", text);
    let amount = table.req("amount", whole(&known.currency));
    let source = table.opt("source", text);
    let basis = table.opt("basis", word(BASES));
    let lasts = table.opt("lasts", whole_years);
    let renewal = table.opt("renewal", whole(&known.currency));
    if let (Some(renewal), false) = (&renewal, table.has("lasts")) {
        let fault = Fault::new("renewal stands without lasts");
        let help = "say how long it lasts, as in lasts = \"15 years\", or leave renewal out";
        table.bad_form("renewal", &renewal.span, fault.help(help));
    }
    table.done();
    Some(CostSection { what: what?, amount: amount?, source, basis, lasts, renewal })
}

fn incentive(mut table: Table<'_>, known: &Known) -> Option<IncentiveSection> {
    let what = table.req("what", text);
    let amount = table.req("amount", whole(&known.currency));
    let date = table.req("date", date);
    let source = table.req("source", text);
    let basis = table.opt("basis", word(BASES));
    table.done();
    Some(IncentiveSection { what: what?, amount: amount?, date: date?, source: source?, basis })
}

/// Nobody is paid more than the whole job costs.
fn paid_by_others(table: &Table<'_>, incentives: &[Option<IncentiveSection>], all_costs: f64) {
    let given: f64 = incentives.iter().flatten().map(|given| given.amount.value).sum();
    let largest = incentives.iter().flatten().max_by(|a, b| a.amount.value.total_cmp(&b.amount.value));
    if let Some(largest) = largest.filter(|_| given > all_costs && all_costs > 0.0) {
        let typed = table.typed(&largest.amount.span);
        let what =
            format!("incentives, this one {typed}, come to more than the option\u{2019}s costs together");
        let help = "list the whole job under [[option.cost]], or look at the digits";
        table.bad_form("incentive", &largest.amount.span, Fault::new(what).help(help));
    }
}

/// Nobody lends more than the whole job costs.
fn loan(mut table: Table<'_>, all_costs: f64, known: &Known) -> Option<LoanSection> {
    let amount = table.req("amount", whole(&known.currency));
    let rate = table.req("rate", number(from_to(0.0, 0.5)));
    let months = table.req("months", whole_number(1, 600));
    if let Some(amount) = amount.as_ref().filter(|amount| amount.value > all_costs && all_costs > 0.0) {
        let what =
            format!("the loan, {}, is more than the option's costs together", table.typed(&amount.span));
        let help = "list the whole job under [[option.cost]], or borrow less";
        table.bad_form("amount", &amount.span, Fault::new(what).help(help));
    }
    table.done();
    Some(LoanSection { amount: amount?, rate: rate?, months: months? })
}

/// So much a month or a year.
fn yearly(value: &DeValue<'_>, currency: &str) -> Result<PriceText, Fault> {
    let price = price_text(value, currency)?;
    if price.amount < 0.0 {
        return Err(below_zero(value));
    }
    if matches!(price.per.as_str(), "month" | "year") {
        return Ok(price);
    }
    let what = format!("this is an amount for a {}, not for a month or a year", quoted(&price.per));
    Err(Fault::new(what).help(format!("write it as in \"150 {currency}/year\" or \"12 {currency}/month\"")))
}

fn whole_years(value: &DeValue<'_>) -> Result<Years, Fault> {
    let years: Years = quantity(from_to(1.0, 100.0))(value)?;
    if years.base().fract() == 0.0 {
        return Ok(years);
    }
    let fault = Fault::new(format!("{} is not a whole number of years", described(value)));
    Err(fault.help("costs are counted at each year's end: take the nearest"))
}

/// A month or a day of the calendar, such as `2026-03`; a text, since no arithmetic is done with it.
fn date(value: &DeValue<'_>) -> Result<String, Fault> {
    let typed = match value {
        // A full date without quotation marks is one in TOML.
        DeValue::Datetime(date) => date.to_string(),
        other => other.as_str().unwrap_or_default().trim().to_owned(),
    };
    let parts: Vec<&str> = typed.split('-').collect();
    let part = |i: usize, digits: usize, range: std::ops::RangeInclusive<u32>| {
        let text = parts.get(i).copied().unwrap_or_default();
        let plain = text.len() == digits && text.bytes().all(|b| b.is_ascii_digit());
        plain && text.parse().is_ok_and(|n| range.contains(&n))
    };
    let day = parts.len() == 2 || (parts.len() == 3 && part(2, 2, 1..=31));
    if part(0, 4, 1990..=2199) && part(1, 2, 1..=12) && day {
        return Ok(typed);
    }
    let fault = Fault::new(format!("{} is not a month or a day of the calendar", described(value)));
    Err(fault.allowed("1990-01 to 2199-12").help("write March 2026 as \"2026-03\""))
}
