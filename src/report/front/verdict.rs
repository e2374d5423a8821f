//! Page one's answer in one sentence, and who goes cold.
//!
//! Start at [`sentence`].

use super::rounding::about;
use super::winter_words;
use crate::comparison::{Comparison, Note, OptionResult};
use crate::report::build::is_close;
use crate::report::figures::{Measure, grouped};
use crate::report::slow;

/// The options that keep every zone warm, least yearly cost first, each with its place.
fn warm_ones(c: &Comparison) -> Vec<(usize, &OptionResult)> {
    let warm = c.options.iter().enumerate().filter(|(_, o)| !o.goes_cold());
    let mut warm: Vec<_> = warm.collect();
    warm.sort_by(|a, b| a.1.yearly_cost().total_cmp(&b.1.yearly_cost()));
    warm
}

/// The answer.
pub(super) fn sentence(c: &Comparison) -> String {
    let answer = match warm_ones(c).as_slice() {
        [] => format!("None of these keeps the house warm {}.", winter_words(c)),
        [(_, only)] => format!(
            "{}: about {} {} at the prices below.",
            alone(c, only),
            about(&c.currency, only.yearly_cost()),
            winter_words(c)
        ),
        [(_, best), (_, next), ..] => between(c, best, next),
    };
    match c.notes.iter().any(|note| matches!(note, Note::Weather(_))) {
        true => format!("Check the weather first, its file looks wrong. {answer}"),
        false => answer,
    }
}

fn alone(c: &Comparison, only: &OptionResult) -> String {
    let name = &only.design.name;
    match c.options.len() {
        1 => format!("\u{201c}{name}\u{201d} keeps the house warm"),
        _ => format!("Only \u{201c}{name}\u{201d} keeps the house warm"),
    }
}

fn between(c: &Comparison, best: &OptionResult, next: &OptionResult) -> String {
    let (first, second) = (&best.design.name, &next.design.name);
    let (low, high) = (about(&c.currency, best.yearly_cost()), about(&c.currency, next.yearly_cost()));
    let winter = winter_words(c);
    match is_close(best, next) {
        true => format!(
            "Too close to call: \u{201c}{first}\u{201d} costs about {low} and \u{201c}{second}\u{201d} about \
             {high} {winter} at the prices below."
        ),
        false => format!(
            "\u{201c}{first}\u{201d} costs the least to run: about {low} {winter} at the prices below. Next comes \
             \u{201c}{second}\u{201d} with about {high}."
        ),
    }
}

/// A sentence for each option that leaves the house cold, and one for all that are slow after a set-back.
pub(super) fn cold_ones(c: &Comparison, measure: Measure) -> Vec<String> {
    let cold = c.options.iter().filter(|o| o.goes_cold());
    let words = cold.map(|o| {
        if let Some(words) = slow::dry_without(o, measure) {
            return words;
        }
        let hours = grouped(o.hours_not_kept_warm() as f64, 0);
        let low = o.lowest_room_c().map(|t| format!(", down to {}", measure.temperature_words(t)));
        let low = low.unwrap_or_default();
        format!(
            "\u{201c}{}\u{201d} does not keep the house warm: {hours} hours too cold{low}.",
            o.design.name
        )
    });
    words.chain(slow::sentence(c, measure)).collect()
}
