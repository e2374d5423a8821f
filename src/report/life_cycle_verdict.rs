//! Which option costs least over the years, in sentences.
//!
//! Start at [`verdict`].

use super::figures::{money, quoted, too_close};
use super::life_cycle::{left_out, rows};
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
    let within = format!("Over {years} years with what it costs to install{incentives},");
    match (close(&counted), counted.as_slice()) {
        (_, [] | [_]) => return lines,
        (1, [(best, low), (next, high), ..]) => lines.push(format!(
            "{within} {} costs least: about {} in money of today; next comes {} at about {}.",
            quoted(best),
            hundreds(c, *low),
            quoted(next),
            hundreds(c, *high)
        )),
        (close, _) => {
            let near = counted.iter().take(close).map(|(name, cost)| (*name, hundreds(c, *cost)));
            let (names, amounts) = too_close(&near.collect::<Vec<_>>());
            lines.push(format!("{within} {names} are too close to call: about {amounts} in money of today."));
        }
    }
    if let (Some(names), [_, _, ..]) = (left_out(c, lives), counted.as_slice()) {
        lines
            .push(format!("Without a cost of installing, {names} cannot be set beside them over the years."));
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
    let close = if close(&without) > 1 { ", too close to call" } else { "" };
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

/// How many cost about as little as the first, itself among them.
fn close(ranked: &[(&str, f64)]) -> usize {
    let near = |low: f64| ranked.iter().take_while(|(_, cost)| cost - low <= TIE_SHARE * low.abs()).count();
    ranked.first().map_or(0, |(_, low)| near(*low))
}

/// To the nearest hundred: nobody knows twenty years closer.
fn hundreds(c: &Comparison, amount: f64) -> String {
    money(&c.currency, (amount / 100.0).round() * 100.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Hand-worked: 5 % of 100 reaches to 105, not to 106.
    #[test]
    fn all_that_cost_about_as_little_as_the_first_are_close() {
        assert_eq!(close(&[("a", 100.0), ("b", 103.0), ("c", 105.0), ("d", 106.0)]), 3);
        assert_eq!(close(&[("a", 100.0), ("b", 106.0)]), 1);
        assert_eq!(close(&[]), 0);
    }
}
