//! The sentence on options that lack no heat, but are slow to recover from their set-backs.
//!
//! Start at [`sentence`].

use super::figures::{Measure, grouped, money};
use crate::comparison::{Comparison, OptionResult, Warmth};
use crate::simulation::comfort::NOT_KEPT_WARM_K;
use crate::simulation::state::LONGEST_RECOVERY_H;

/// Who is slow, what each costs without set-backs, and what to do; nothing where none is.
pub fn sentence(c: &Comparison, measure: Measure) -> Option<String> {
    let slow = c.options.iter().filter(|o| o.warmth() == Warmth::SlowToRecover);
    let each: Vec<String> = slow.map(|o| one(c, o)).collect();
    let short = format!("{} {}", grouped(measure.difference(NOT_KEPT_WARM_K), 1), measure.degree());
    let (subject, they) = match each.len() {
        0 => return None,
        1 => ("is", "it keeps"),
        _ => ("are", "each of them keeps"),
    };
    Some(format!(
        "SLOW AFTER THE SET-BACK {subject} {}: hours still more than {short} short once the {LONGEST_RECOVERY_H} \
         hours for recovery are over. That is the set-back\u{2019}s doing, not want of heat: without it {they} the \
         house warm all year, at the cost in brackets. Set back less, or let it begin to warm up earlier.",
        each.join("; ")
    ))
}

fn one(c: &Comparison, o: &OptionResult) -> String {
    let hours = o.hours_not_kept_warm();
    let many = if hours == 1 { "hour" } else { "hours" };
    let without = o.without_set_backs.as_ref().map(|without| (without.yearly_cost / 10.0).round() * 10.0);
    let cost = without.map(|cost| format!(" (about {})", money(&c.currency, cost))).unwrap_or_default();
    format!("\u{201c}{}\u{201d}, {} {many}{cost}", o.design.name, grouped(hours as f64, 0))
}

/// The sentence on an option that has fuel enough with its set-backs, but not without them.
pub fn dry_without(o: &OptionResult, measure: Measure) -> Option<String> {
    let hours = o.hours_not_kept_warm();
    o.runs_dry_only_without_set_backs().then(|| {
        format!(
            "\u{201c}{}\u{201d} RUNS OUT OF FUEL without the set-back: held warm all day and night, its store runs \
             dry in this year. With the set-back the fuel lasts; {} {} after it are still more than {} {} short.",
            o.design.name,
            grouped(hours as f64, 0),
            if hours == 1 { "hour" } else { "hours" },
            grouped(measure.difference(NOT_KEPT_WARM_K), 1),
            measure.degree()
        )
    })
}

/// Why a bar of a chart is marked: heat that lacks, or set-backs that the option is slow to recover from.
pub fn mark(warmth: Warmth, hours: usize) -> Option<String> {
    let hours = grouped(hours as f64, 0);
    match warmth {
        Warmth::Kept => None,
        Warmth::SlowToRecover => Some(format!("slow after its set-back: {hours} h")),
        Warmth::GoesCold => Some(format!("goes cold: {hours} h")),
    }
}
