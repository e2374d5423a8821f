//! Which option costs least over the years, in sentences.
//!
//! Start at [`verdict`].

use super::figures::money;
use super::life_cycle::rows;
use crate::comparison::{Comparison, LifeCycles, OptionLife, Worth};

/// Two life-cycle costs are too close to call within this share of the lesser.
const TIE_SHARE: f64 = 0.05;

/// Which option costs least over the years, with incentives and without.
pub fn verdict(c: &Comparison) -> Vec<String> {
    let Some(lives) = &c.life_cycles else { return Vec::new() };
    let years = lives.economics.terms.years;
    let counted = ranked(c, lives, |option| lives.counted(option));
    let mut lines = Vec::new();
    let incentives = if lives.economics.count_incentives { "" } else { ", incentives left out" };
    match counted.as_slice() {
        [] | [_] => return lines,
        [(best, low), (next, high), ..] => {
            let (low, high) = (hundreds(c, *low), hundreds(c, *high));
            lines.push(if is_close(&counted) {
                format!(
                    "Over {years} years with what it costs to install{incentives}, \u{201c}{best}\u{201d} and \
                     \u{201c}{next}\u{201d} are too close to call: about {low} and {high} in money of today."
                )
            } else {
                format!(
                    "Over {years} years with what it costs to install{incentives}, \u{201c}{best}\u{201d} costs \
                     least: about {low} in money of today; next comes \u{201c}{next}\u{201d} at about {high}."
                )
            });
        }
    }
    lines.extend(without_incentives(c, lives, &counted));
    lines
}

/// Whether the verdict stands without incentives.
fn without_incentives(c: &Comparison, lives: &LifeCycles, counted: &[(&str, f64)]) -> Option<String> {
    let given = (0..c.options.len()).any(|i| lives.project(i).is_some_and(|p| p.given() > 0.0));
    if !given || !lives.economics.count_incentives {
        return None;
    }
    let without = ranked(c, lives, |option| &option.without_incentives);
    let (best, low) = without.first()?;
    let same = counted.first().is_some_and(|(counted, _)| counted == best);
    let close = if is_close(&without) { ", too close to call" } else { "" };
    Some(match same {
        true => format!("Without incentives it is the same one, at about {}{close}.", hundreds(c, *low)),
        false => format!(
            "Without incentives \u{201c}{best}\u{201d} costs least, about {}{close}.",
            hundreds(c, *low)
        ),
    })
}

/// The options that keep the house warm, by what they cost over the years, least first.
fn ranked<'a>(
    c: &'a Comparison,
    lives: &'a LifeCycles,
    reading: impl Fn(&'a OptionLife) -> &'a Worth,
) -> Vec<(&'a str, f64)> {
    let warm = rows(c, lives).filter(|(_, i, _)| c.options.get(*i).is_some_and(|o| !o.goes_cold()));
    let mut list: Vec<_> = warm.map(|(name, _, option)| (name, reading(option).life.total())).collect();
    list.sort_by(|a, b| a.1.total_cmp(&b.1));
    list
}

fn is_close(ranked: &[(&str, f64)]) -> bool {
    match ranked {
        [(_, low), (_, high), ..] => high - low <= TIE_SHARE * low.abs(),
        _ => false,
    }
}

/// To the nearest hundred: nobody knows twenty years closer.
fn hundreds(c: &Comparison, amount: f64) -> String {
    money(&c.currency, (amount / 100.0).round() * 100.0)
}
