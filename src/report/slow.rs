//! The sentence on options that lack no heat, but are slow to recover from their set-backs.
//!
//! Start at [`sentence`].

use super::figures::{Measure, grouped, money};
use crate::comparison::{Comparison, OptionResult, Warmth};
use crate::simulation::comfort::NOT_KEPT_WARM_K;
use crate::simulation::state::LONGEST_RECOVERY_H;

/// How much colder than its set point a room is when it counts as too cold: `1.8 °F`.
pub fn too_cold_by(measure: Measure) -> String {
    let shown = measure.difference(NOT_KEPT_WARM_K);
    format!("{} {}", grouped(shown, usize::from(shown.fract() != 0.0)), measure.degree())
}

/// How long a room may take to recover from a set-back before that counts: `3 hours`.
pub fn longest_recovery() -> String {
    format!("{LONGEST_RECOVERY_H} hours")
}

/// Who is slow, what each costs without set-backs, and what to do; nothing where none is.
pub fn sentence(c: &Comparison, measure: Measure) -> Option<String> {
    let slow: Vec<&OptionResult> = c.options.iter().filter(|o| o.warmth() == Warmth::SlowToRecover).collect();
    let (is, it_has, it_stays, costs) = match slow.len() {
        0 => return None,
        1 => ("is", "It has", "it stays", "costs"),
        _ => ("are", "They have", "they stay", "cost"),
    };
    let all = |word: fn(&Comparison, &OptionResult) -> Option<String>| {
        slow.iter().map(|o| word(c, o)).collect::<Option<Vec<_>>>().map(|words| listed(&words))
    };
    let names = all(|_, o| Some(format!("\u{201c}{}\u{201d}", o.design.name)))?;
    let hours = all(|_, o| Some(grouped(o.hours_not_kept_warm() as f64, 0)))?;
    let (many, are) = match slow.as_slice() {
        [one] if one.hours_not_kept_warm() == 1 => ("hour", "is"),
        _ => ("hours", "are"),
    };
    let cost = all(without).map(|cost| format!(" and {costs} about {cost}")).unwrap_or_default();
    Some(format!(
        "{names} {is} slow to warm up after the thermostat was turned down: {hours} {many} a year {are} still more \
         than {} too cold {} later. {it_has} heat enough: without turning down {it_stays} warm all year{cost}. Turn \
         down less, or start warming up earlier{}.",
        too_cold_by(measure),
        longest_recovery(),
        held_back(&slow)
    ))
}

/// The third way out, where the job itself holds strips back.
fn held_back(slow: &[&OptionResult]) -> &'static str {
    let held = slow.iter().flat_map(|o| &o.design.zones).any(|zone| zone.staged_recovery);
    if held { ", or do not hold the backup back (staged_recovery = false)" } else { "" }
}

/// What an option costs without set-backs, to the nearest ten.
fn without(c: &Comparison, o: &OptionResult) -> Option<String> {
    let cost = o.without_set_backs.as_ref()?.yearly_cost;
    Some(money(&c.currency, (cost / 10.0).round() * 10.0))
}

/// `a, b and c`.
fn listed(words: &[String]) -> String {
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [before @ .., last] => format!("{} and {last}", before.join(", ")),
    }
}

/// The sentence on an option that has fuel enough with its set-backs, but not without them.
pub fn dry_without(o: &OptionResult, measure: Measure) -> Option<String> {
    let hours = o.hours_not_kept_warm();
    (o.warmth() == Warmth::DryWithoutSetBacks).then(|| {
        format!(
            "\u{201c}{}\u{201d} RUNS OUT OF FUEL without the set-back: held warm all day and night, its store runs \
             dry in this year. With the set-back the fuel lasts; {} {} after it are still more than {} too cold.",
            o.design.name,
            grouped(hours as f64, 0),
            if hours == 1 { "hour" } else { "hours" },
            too_cold_by(measure)
        )
    })
}

/// Why a bar of a chart is marked: heat that lacks, or set-backs that the option is slow to recover from.
pub fn mark(warmth: Warmth, hours: usize) -> Option<String> {
    let hours = grouped(hours as f64, 0);
    match warmth {
        Warmth::Kept => None,
        Warmth::SlowToRecover => Some(format!("slow after its set-back: {hours} h")),
        Warmth::DryWithoutSetBacks => Some(format!("short after its set-back: {hours} h; dry without it")),
        Warmth::GoesCold => Some(format!("goes cold: {hours} h")),
    }
}
