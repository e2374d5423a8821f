//! Whether the parts of a rate fit together: tiers that rise, periods that cover the week and seasons
//! that cover the year, each hour once.
//!
//! Must never know what a price is. Start at [`periods_hold`].

use std::ops::Range;

use super::money::AmountText;
use super::price_sections::{ClockSpanSection, DaysSection, PeriodSection, SeasonSection};
use super::table::Table;
use super::typed::{ClockTime, Typed};
use super::wording::{Fault, quoted};
use crate::calendar::MonthDay;

const WEEKDAYS: usize = 0;
const WEEKENDS: usize = 24;

/// The hours that a span covers, as places in a weekday's 24 hours followed by a weekend day's.
fn covered(when: &ClockSpanSection) -> impl Iterator<Item = usize> {
    let (from, to) = (usize::from(when.from.hour), usize::from(when.to.hour));
    // The same hour twice stands for the whole day.
    let length = (to + 23 - from) % 24 + 1;
    let days = when.days.as_ref().map_or(DaysSection::All, |days| days.value);
    let kinds: &[usize] = match days {
        DaysSection::All => &[WEEKDAYS, WEEKENDS],
        DaysSection::Weekdays => &[WEEKDAYS],
        DaysSection::Weekends => &[WEEKENDS],
    };
    kinds.iter().flat_map(move |kind| (from..from + length).map(move |hour| kind + hour % 24))
}

/// Tells periods that overlap, and hours that none covers where no price holds in the rest.
pub(super) fn periods_hold(table: &Table<'_>, periods: &[PeriodSection], has_rest: bool) {
    let mut owners: [Option<&str>; 48] = [None; 48];
    for period in periods {
        let mut clash = None;
        for place in covered(&period.when) {
            let Some(owner) = owners.get_mut(place) else { continue };
            match owner {
                Some(other) => clash = clash.or(Some((place, *other))),
                None => *owner = Some(&period.name.value),
            }
        }
        if let Some((place, other)) = clash {
            let name = quoted(&period.name.value);
            let what = format!("the periods {} and {name} overlap: {}", quoted(other), moment(place));
            let fault = Fault::new(what).help("let each hour belong to one period only");
            table.bad_form("period", &period.name.span, fault);
        }
    }
    if let (Some(place), false) = (owners.iter().position(Option::is_none), has_rest || periods.is_empty()) {
        let fault = Fault::new(format!("no period covers {}", moment(place)));
        let help = "give price = \"...\" beside the periods for all other hours, or widen a period";
        table.bad_form("period", &table.span, fault.help(help));
    }
}

fn moment(place: usize) -> String {
    let days = if place < WEEKENDS { "weekdays" } else { "weekends" };
    format!("{days} at {}", ClockTime { hour: (place % 24) as u8, minute: 0 })
}

/// Tells seasons that overlap, and days that none covers where no price holds in the rest.
pub(super) fn seasons_hold(table: &Table<'_>, seasons: &[SeasonSection], has_rest: bool) {
    let mut owners: Vec<(MonthDay, Option<&str>)> = every_day().map(|day| (day, None)).collect();
    for season in seasons {
        let mut clash = None;
        for (day, owner) in &mut owners {
            if !season.from.value.spans(season.to.value, *day) {
                continue;
            }
            match owner {
                Some(other) => clash = clash.or(Some((*day, *other))),
                None => *owner = Some(&season.name.value),
            }
        }
        if let Some((day, other)) = clash {
            let name = quoted(&season.name.value);
            let what = format!("the seasons {} and {name} overlap on {day}", quoted(other));
            let fault = Fault::new(what).help("let each day belong to one season only");
            table.bad_form("season", &season.from.span, fault);
        }
    }
    if let (Some((day, _)), false) =
        (owners.iter().find(|(_, owner)| owner.is_none()), has_rest || seasons.is_empty())
    {
        let fault = Fault::new(format!("no season covers {day}"));
        let help = "give price = \"...\" beside the seasons for the rest of the year, or widen a season";
        table.bad_form("season", &table.span, fault.help(help));
    }
}

fn every_day() -> impl Iterator<Item = MonthDay> {
    let days = (1..=12).flat_map(|month| (1..=31).map(move |day| (month, day)));
    days.filter_map(|(month, day)| MonthDay::of(month, day))
}

/// Tells limits that do not rise, are missing before the end, or stand at the end; tells whether they
/// hold. Each limit comes with a place in the text.
pub(super) fn tiers_hold(
    table: &Table<'_>,
    key: &'static str,
    limits: &[(Option<&Typed<AmountText>>, &Range<usize>)],
) -> bool {
    let say = |span: &Range<usize>, what: String, help: &str| {
        table.bad_form(key, span, Fault::new(what).help(help));
        false
    };
    let Some(((last, _), before)) = limits.split_last() else {
        return say(&table.span, format!("{key} is empty"), "give at least one entry");
    };
    if let Some(last) = last {
        let what = "the last entry has a limit, so nothing holds above it".to_owned();
        return say(&last.span, what, "take its up_to out, or add an entry without one");
    }
    if let Some((_, span)) = before.iter().find(|(limit, _)| limit.is_none()) {
        let what = "an entry without a limit stands before the last".to_owned();
        return say(span, what, "give it up_to = \"...\", or put it last");
    }
    let limits: Vec<_> = before.iter().filter_map(|(limit, _)| *limit).collect();
    for pair in limits.windows(2) {
        let [low, high] = pair else { continue };
        let (typed, below) = (table.typed(&high.span), table.typed(&low.span));
        if low.unit != high.unit {
            let what = format!("the limits {below} and {typed} are in two units");
            return say(&high.span, what, "write all limits in the same unit");
        }
        if high.amount <= low.amount {
            let what = format!("the limit {typed} does not lie above {below}, the one before it");
            let help = format!("each limit counts from 0, so they rise: {typed}, then {below}");
            return say(&high.span, what, &help);
        }
    }
    true
}
