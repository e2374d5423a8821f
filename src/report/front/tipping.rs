//! The price at which the two cheapest warm options cost the same, from the levers, exactly.
//!
//! Start at [`words`].

use super::unit_words;
use super::verdict::warm_ones;
use crate::comparison::Comparison;
use crate::report::figures::Measure;
use crate::study::Levers;

/// Farther from today's price than this, a price is no help to anybody.
const WIDEST: (f64, f64) = (1.0 / 3.0, 3.0);

/// The sentence; nothing where fewer than two options keep warm, or the levers are off.
pub(super) fn words(c: &Comparison, levers: &Levers, measure: Measure) -> Option<String> {
    let warm = warm_ones(c);
    let [(best, first), (next, second), ..] = warm.as_slice() else { return None };
    let mut found = Vec::new();
    let mut asked = Vec::new();
    for (place, id) in levers.fuels.iter().enumerate() {
        let Some(factor) = factor(levers, (*best, *next), place) else { continue };
        let (Some(fuel), Some(price)) = (c.fuels.get(*id), c.prices.of(*id)) else { continue };
        asked.push(fuel.name.as_str());
        let Some(factor) = factor.filter(|f| (WIDEST.0..=WIDEST.1).contains(f)) else { continue };
        let (now, unit) = unit_words::price(fuel, price.mean_marginal(), measure);
        let shown = |price: f64| unit_words::rounded(&c.currency, price);
        found.push(format!(
            "{} at about {} a {unit} (now {})",
            fuel.name,
            shown(now * factor),
            unit_words::plain(&c.currency, now)
        ));
    }
    if asked.is_empty() {
        return None;
    }
    let (first, second) = (&first.design.name, &second.design.name);
    let each = if found.len() > 1 { "each by itself, on" } else { "on" };
    Some(match found.is_empty() {
        true => format!(
            "Between a third and three times today\u{2019}s price of {} the order of the two stays.",
            asked.join(" or ")
        ),
        false => format!(
            "\u{201c}{first}\u{201d} and \u{201c}{second}\u{201d} would cost the same with {}, {each} the mean of the \
             year.",
            found.join(", or ")
        ),
    })
}

/// The factor on a fuel's price at which two options cost the same: nothing outside where the levers are
/// off or neither hangs on the price, nothing inside where there is no such factor.
fn factor(levers: &Levers, (best, next): (usize, usize), fuel: usize) -> Option<Option<f64>> {
    let at = |factor: f64| {
        let mut setting = levers.as_it_is();
        if let Some(own) = setting.fuels.get_mut(fuel) {
            *own = factor;
        }
        Some(levers.cost(next, &setting)? - levers.cost(best, &setting)?)
    };
    let (free, now) = (at(0.0)?, at(1.0)?);
    let slope = now - free;
    if slope.abs() < 1e-6 {
        return None;
    }
    Some(Some(-free / slope).filter(|f| *f > 0.0))
}
