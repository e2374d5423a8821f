//! Page one's answer in one sentence, and who goes cold.
//!
//! Start at [`sentence`].

use super::rounding::about;
use super::winter_words;
use crate::comparison::{Comparison, Note, OptionResult};
use crate::report::build::close_ones;
use crate::report::figures::{Measure, grouped, quoted, too_close};
use crate::report::slow;

/// The options that keep every zone warm, least yearly cost first.
fn warm_ones(c: &Comparison) -> Vec<&OptionResult> {
    let mut warm: Vec<_> = c.options.iter().filter(|o| !o.goes_cold()).collect();
    warm.sort_by(|a, b| a.yearly_cost().total_cmp(&b.yearly_cost()));
    warm
}

/// The answer.
pub(super) fn sentence(c: &Comparison) -> String {
    let answer = match warm_ones(c).as_slice() {
        [] => format!("None of these keeps the house warm {}.", winter_words(c)),
        [only] => format!(
            "{}: about {} {} at the prices below.",
            alone(c, only),
            about(&c.currency, only.yearly_cost()),
            winter_words(c)
        ),
        several => between(c, several),
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

fn between(c: &Comparison, warm: &[&OptionResult]) -> String {
    let winter = winter_words(c);
    let cost = |o: &OptionResult| about(&c.currency, o.yearly_cost());
    match (close_ones(warm), warm) {
        ([best], [_, next, ..]) => format!(
            "{} costs the least to run: about {} {winter} at the prices below. Next comes {} with about {}.",
            quoted(&best.design.name),
            cost(best),
            quoted(&next.design.name),
            cost(next)
        ),
        ([first, second], _) => format!(
            "Too close to call: {} costs about {} and {} about {} {winter} at the prices below.",
            quoted(&first.design.name),
            cost(first),
            quoted(&second.design.name),
            cost(second)
        ),
        (close, _) => {
            let close: Vec<_> = close.iter().map(|o| (o.design.name.as_str(), cost(o))).collect();
            let (names, amounts) = too_close(&close);
            format!("Too close to call: {names} cost about {amounts} {winter} at the prices below.")
        }
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
