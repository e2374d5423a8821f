//! Who gave each price and cost, and how they know it: a table.
//!
//! Start at [`table`].

use super::figures::money;
use super::model::{Cell, Column, Table};
use crate::comparison::{Comparison, Given, GivenWhat};
use crate::sources::{HowKnown, Source};

/// How something is known, in a word.
pub fn how(how: Option<HowKnown>) -> &'static str {
    match how {
        Some(HowKnown::Bill) => "a bill",
        Some(HowKnown::Quote) => "a quote",
        Some(HowKnown::Published) => "published",
        Some(HowKnown::Guess) => "a guess",
        None => "not said",
    }
}

/// What a price or cost is of.
pub fn what(c: &Comparison, what: GivenWhat) -> String {
    let option = |place: usize| c.options.get(place).map_or("", |option| option.design.name.as_str());
    match what {
        GivenWhat::Prices { fuel, heating } => {
            let name = c.fuels.get(fuel).map_or("", |fuel| &fuel.name);
            let rate = if heating { " (rate for heating)" } else { "" };
            format!("price of {name}{rate}")
        }
        GivenWhat::Parts { option: place, count, amount } => {
            let amount = money(&c.currency, amount);
            format!(
                "installing \u{201c}{}\u{201d}: {count} {}, {amount}",
                option(place),
                if count == 1 { "part" } else { "parts" }
            )
        }
        GivenWhat::Incentives { option: place, count, amount } => {
            let amount = money(&c.currency, amount);
            format!("incentives of \u{201c}{}\u{201d}: {count}, {amount}", option(place))
        }
    }
}

/// Every price and cost with its origin.
pub fn table(c: &Comparison) -> Table {
    let row = |given: &Given| {
        let source = given.source.as_ref().map_or(Cell::Missing, Cell::text);
        vec![Cell::text(what(c, given.what)), Cell::text(how(given.how)), source]
    };
    Table {
        name: "who_says_so".into(),
        heading: "Who says so: where do prices and costs come from?".into(),
        columns: vec![
            Column::words("What", "what"),
            Column::words("Known from", "basis"),
            Column::words("In the job\u{2019}s words", "source"),
        ],
        rows: c.given.iter().map(row).collect(),
        remark: Some(remark(c)),
    }
}

fn remark(c: &Comparison) -> String {
    let count = |of: fn(&Source) -> bool| c.assumptions.0.iter().filter(|a| of(&a.source)).count();
    format!(
        "What is not said should be taken for a guess. Beside these, {} defaults stand in for what the job does not \
         say: {} published, {} common practice, {} from memory, {} worked out; each is listed under \
         \u{201c}Assumed\u{201d}.",
        c.assumptions.0.len(),
        count(|source| matches!(source, Source::Published(_))),
        count(|source| matches!(source, Source::CommonPractice(_))),
        count(|source| matches!(source, Source::FromMemory(_))),
        count(|source| matches!(source, Source::Derived(_) | Source::Job(_)))
    )
}
