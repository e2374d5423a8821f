//! One rate into its sections: fixed charge, flat, monthly or tiered price, periods, seasons.
//!
//! Must never know what a fuel is. Start at [`rate`].

use toml::de::DeValue;

use super::money::{AmountText, PriceText};
use super::money_reader::{BASES, below_zero, price_text, says_no_per};
use super::price_sections::{
    ClockSpanSection, DaysSection, HoursSection, PeriodSection, PriceSection, RateSection, SeasonSection,
    SummerAndPeak, TierSection,
};
use super::rate_check::{periods_hold, seasons_hold, tiers_hold};
use super::table::Table;
use super::typed::{ClockTime, Typed};
use super::values::{clock_time, month_day, text, word};
use super::wording::{Fault, described, quoted};
use crate::units::split_number;

const MONTHS: [&str; 12] =
    ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];

/// How amounts of money are read in one table of prices.
#[derive(Debug, Clone, Copy)]
pub(super) struct Money<'k> {
    /// The job's currency sign.
    pub(super) currency: &'k str,
    /// Whether the table says that prices below 0 are meant.
    pub(super) negative: bool,
}

impl Money<'_> {
    /// A price of energy; below 0 only where that is declared.
    pub(super) fn price(&self, value: &DeValue<'_>) -> Result<PriceText, Fault> {
        let price = price_text(value, self.currency)?;
        if price.amount >= 0.0 || self.negative {
            return Ok(price);
        }
        Err(below_zero(value).help("if that is meant, say negative_prices = true for this fuel"))
    }

    /// An amount of 0 or more for one of `pers`.
    pub(super) fn each(
        self,
        pers: &'static [&'static str],
    ) -> impl Fn(&DeValue<'_>) -> Result<PriceText, Fault> {
        move |value| {
            if let Some(fault) = says_no_per(value, self.currency, pers) {
                return Err(fault);
            }
            let price = Self { negative: false, ..self }.price(value)?;
            if pers.contains(&price.per.as_str()) {
                return Ok(price);
            }
            let (asked, typed) = (pers.join(" or a "), quoted(&price.per));
            let what = format!("an amount for a {asked} is needed here, not for a {typed}");
            let short = ["mo", "mth", "mon", "yr", "a"];
            if let Some(at) = short.iter().position(|short| *short == price.per.to_lowercase()) {
                let meant = if at < 3 { "month" } else { "year" };
                if pers.contains(&meant) {
                    return Err(Fault::new(what).help(format!("did you mean {meant}?")));
                }
            }
            let example = pers.iter().map(|per| format!("\"36 {}/{per}\"", self.currency));
            Err(Fault::new(what).help(format!("write it as in {}", example.collect::<Vec<_>>().join(" or "))))
        }
    }
}

/// An amount of a fuel with its unit.
pub(super) fn amount(value: &DeValue<'_>) -> Result<AmountText, Fault> {
    value.as_str().and_then(AmountText::parse).ok_or_else(|| {
        let number = value.as_str().and_then(|typed| Some((typed, split_number(typed).ok()?)));
        let what = match number {
            Some((typed, (_, ""))) => format!("{} has no unit", quoted(typed)),
            Some((typed, (amount, _))) if amount <= 0.0 => format!("{} is not more than 0", quoted(typed)),
            _ => format!("an amount with its unit is needed here, not {}", described(value)),
        };
        Fault::new(what).allowed("more than 0").help("write it as in \"500 kWh\" or \"300 gal\"")
    })
}

/// The price keys of a table: none of them, one that cannot be used (told already), or one that can.
enum Charge {
    Absent,
    Broken,
    Given(PriceSection),
}

/// Reads the keys of one rate out of a table that may have others.
pub(super) fn rate(table: &mut Table<'_>, money: Money<'_>) -> Option<RateSection> {
    let fixed = table.opt("fixed", money.each(&["month", "year"]));
    let source = table.opt("source", text);
    let basis = table.opt("basis", word(BASES));
    let tables = table.tables("season", "name");
    let has_seasons = !tables.is_empty();
    let season: Vec<_> = tables.into_iter().map(|season_table| season(season_table, money)).collect();
    let price = charge(table, money, &["price", "price_by_month", "price_by_season", "tier"]);
    let periods = periods(table, money);
    let stands_beside = has_seasons || periods.as_ref().is_none_or(|p| !p.is_empty());
    if let (Charge::Given(given), true) = (&price, stands_beside) {
        stands_alone(table, given);
    }
    let rest = hours(table, price, periods, has_seasons);
    let season: Vec<SeasonSection> = season.into_iter().collect::<Option<_>>()?;
    let rest = rest?;
    seasons_hold(table, &season, rest.is_some());
    Some(RateSection { fixed, rest, season, source, basis })
}

/// Tells a price of the whole year that stands beside seasons or periods.
fn stands_alone(table: &Table<'_>, given: &PriceSection) {
    let (key, span) = match given {
        PriceSection::ByMonth(months) => ("price_by_month", &months.span),
        PriceSection::BySeason(ends) => ("price_by_season", &ends.summer.span),
        PriceSection::Flat(_) | PriceSection::Tiers(_) => return,
    };
    let fault = Fault::new(format!("{key} cannot stand beside season or period"));
    table.bad_form(key, span, fault.help("write the months as seasons too, or take the others out"));
}

/// Puts a table's price and periods together: nothing if it has neither and may do without, and
/// no answer if one of them is broken.
fn hours(
    table: &mut Table<'_>,
    price: Charge,
    periods: Option<Vec<PeriodSection>>,
    may_lack: bool,
) -> Option<Option<HoursSection>> {
    let period = periods?;
    let rest = match price {
        Charge::Broken => return None,
        Charge::Given(price) => Some(price),
        Charge::Absent if period.is_empty() && may_lack => return Some(None),
        Charge::Absent if period.is_empty() => {
            table.need("price");
            return None;
        }
        Charge::Absent => None,
    };
    periods_hold(table, &period, rest.is_some());
    Some(Some(HoursSection { rest, period }))
}

fn season(mut table: Table<'_>, money: Money<'_>) -> Option<SeasonSection> {
    let name = table.req("name", text);
    let from = table.req("from", month_day);
    let to = table.req("to", month_day);
    let price = charge(&mut table, money, &["price", "tier"]);
    let periods = periods(&mut table, money);
    let hours = hours(&mut table, price, periods, false);
    table.done();
    Some(SeasonSection { name: name?, from: from?, to: to?, hours: hours?? })
}

fn periods(table: &mut Table<'_>, money: Money<'_>) -> Option<Vec<PeriodSection>> {
    let tables = table.tables("period", "name");
    tables.into_iter().map(|entry| period(entry, money)).collect::<Vec<_>>().into_iter().collect()
}

fn period(mut table: Table<'_>, money: Money<'_>) -> Option<PeriodSection> {
    let name = table.req("name", text);
    let when = clock_span(&mut table);
    let price = match charge(&mut table, money, &["price", "tier"]) {
        Charge::Given(price) => Some(price),
        Charge::Broken => None,
        Charge::Absent => {
            table.need("price");
            None
        }
    };
    table.done();
    Some(PeriodSection { name: name?, when: when?, price: price? })
}

/// Reads `from`, `to` and `days`.
pub(super) fn clock_span(table: &mut Table<'_>) -> Option<ClockSpanSection> {
    let from = table.req("from", whole_hour);
    let to = table.req("to", whole_hour);
    let days = table.opt(
        "days",
        word(&[
            ("all", DaysSection::All),
            ("weekdays", DaysSection::Weekdays),
            ("weekends", DaysSection::Weekends),
        ]),
    );
    Some(ClockSpanSection { from: from?, to: to?, days })
}

fn whole_hour(value: &DeValue<'_>) -> Result<ClockTime, Fault> {
    let time = clock_time(value)?;
    if time.minute == 0 {
        return Ok(time);
    }
    let fault = Fault::new(format!("{time} is not a whole hour"));
    Err(fault.help("prices change on the hour here: take the nearest"))
}

fn charge(table: &mut Table<'_>, money: Money<'_>, keys: &[&'static str]) -> Charge {
    let given = keys.iter().any(|key| table.value(key).is_some());
    if !given {
        return Charge::Absent;
    }
    let read = match table.one_of_many(keys) {
        Some("price") => table.opt("price", |value| money.price(value)).map(PriceSection::Flat),
        Some("tier") => tiers(table, money).map(PriceSection::Tiers),
        Some("price_by_season") => table.table("price_by_season").and_then(|ends| by_season(ends, money)),
        Some(_) => table.table("price_by_month").and_then(|months| by_month(months, money)),
        None => None,
    };
    read.map_or(Charge::Broken, Charge::Given)
}

fn by_month(mut table: Table<'_>, money: Money<'_>) -> Option<PriceSection> {
    let span = table.span.clone();
    let begins = |key: &str| MONTHS.into_iter().find(|month| key.to_lowercase().starts_with(month));
    let keys = table.keys();
    let other = keys.iter().find_map(|key| Some((key, begins(key).filter(|month| *month != key.value)?)));
    if let Some((key, month)) = other {
        let fault = Fault::new(format!("the month is written {month} here, not {}", quoted(key)));
        let help = format!("write the months in three small letters: {}", MONTHS.join(", "));
        table.bad_value(&key.value, &key.span, fault.help(help));
        return None;
    }
    let prices = MONTHS.map(|month| table.req(month, |value| money.price(value)));
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

fn by_season(mut table: Table<'_>, money: Money<'_>) -> Option<PriceSection> {
    let summer = table.req("summer", |value| money.price(value));
    let winter_peak = table.req("winter_peak", |value| money.price(value));
    if let (Some(summer), Some(peak)) = (&summer, &winter_peak) {
        let (low, high) = (table.typed(&summer.span), table.typed(&peak.span));
        if peak.per != summer.per {
            let what = format!("{low} and {high} are for two units");
            table.bad_form("winter_peak", &peak.span, Fault::new(what).help("price both by the same unit"));
        } else if peak.amount < summer.amount {
            let fault = Fault::new(format!("the winter's peak {high} is below the summer's {low}"));
            let help = "see whether the two are swapped; a price that is lower in winter is price_by_month";
            table.bad_form("winter_peak", &peak.span, fault.help(help));
        }
    }
    table.done();
    Some(PriceSection::BySeason(Box::new(SummerAndPeak { summer: summer?, winter_peak: winter_peak? })))
}

fn tiers(table: &mut Table<'_>, money: Money<'_>) -> Option<Vec<TierSection>> {
    let entries = table.tables("tier", "");
    let tiers: Vec<_> = entries
        .into_iter()
        .map(|mut entry| {
            let up_to = entry.opt("up_to", amount);
            let unreadable = entry.has("up_to") && up_to.is_none();
            let price = entry.req("price", |value| money.price(value));
            entry.done();
            price.filter(|_| !unreadable).map(|price| TierSection { up_to, price })
        })
        .collect();
    let tiers: Vec<TierSection> = tiers.into_iter().collect::<Option<_>>()?;
    let limits: Vec<_> = tiers.iter().map(|tier| (tier.up_to.as_ref(), &tier.price.span)).collect();
    tiers_hold(table, "tier", &limits).then_some(tiers)
}
