//! What each input does to the difference between two options: a sentence, a table, and the plain values
//! that a chart draws.
//!
//! Start at [`table`].

use super::charts::{SwayBar, SwayChart};
use super::figures::money;
use super::model::{Cell, Column, Table};
use super::wording;
use crate::comparison::Comparison;
use crate::study::sway::{Sway, SwayInput};

fn name(c: &Comparison, place: usize) -> String {
    c.options.get(place).map_or_else(String::new, |option| format!("\u{201c}{}\u{201d}", option.design.name))
}

/// Which input moves the difference most, and whether any turns it.
pub fn sentences(c: &Comparison, sway: &Sway) -> Vec<String> {
    let [first, second] = sway.options.map(|place| name(c, place));
    let now = sway.costs[0] - sway.costs[1];
    let (less, dearer) = if now <= 0.0 { (&first, &second) } else { (&second, &first) };
    let by = money(&c.currency, now.abs());
    let mut lines = vec![format!("As it is, {less} costs {by} less a year than {dearer}.")];
    lines.extend(sway.inputs.first().map(|most| {
        format!(
            "What moves that most is {}: by {} from low to high.",
            most.name,
            money(&c.currency, most.span())
        )
    }));
    let turns = |input: &&SwayInput| [&input.low, &input.high].iter().any(|end| end.difference() * now < 0.0);
    let turning: Vec<&str> = sway.inputs.iter().filter(turns).map(|input| input.name.as_str()).collect();
    lines.push(match turning.as_slice() {
        [] => "None of these inputs by itself makes the other cost less.".into(),
        some => format!("By itself, each of these can make the other cost less: {}.", some.join(", ")),
    });
    lines
}

/// Every input at both ends, the one that moves most first.
pub fn table(c: &Comparison, sway: &Sway) -> Table {
    let [first, second] = sway.options.map(|place| name(c, place));
    let amount = |value: f64| Cell::Number { value, shown: money(&c.currency, value) };
    let row = |input: &SwayInput| {
        vec![
            Cell::text(&input.name),
            Cell::text(&input.low.value),
            Cell::text(&input.high.value),
            amount(input.low.difference()),
            amount(input.high.difference()),
            amount(input.span()),
            Cell::text(wording::source(&input.source)),
        ]
    };
    let own = "The job names no [[vary]], so these are the program\u{2019}s own inputs and spans. ";
    Table {
        name: "sway".into(),
        heading: format!("How much more does {first} cost a year than {second}, if one input is otherwise?"),
        columns: vec![
            Column::words("Input", "input"),
            Column::words("Low", "low"),
            Column::words("High", "high"),
            Column::numbers("More at low", "first_costs_more_at_low"),
            Column::numbers("More at high", "first_costs_more_at_high"),
            Column::numbers("Span", "span"),
            Column::words("Why so far", "source"),
        ],
        rows: sway.inputs.iter().map(row).collect(),
        remark: Some(format!(
            "{}As it is: {}. Below 0, {first} costs less.",
            if sway.is_default { own } else { "" },
            money(&c.currency, sway.costs[0] - sway.costs[1])
        )),
    }
}

/// The same as a chart.
pub fn picture(c: &Comparison, sway: &Sway, about: &str) -> SwayChart {
    let [first, second] = sway.options.map(|place| name(c, place));
    let bar = |input: &SwayInput| SwayBar {
        name: input.name.clone(),
        low: (input.low.value.clone(), input.low.difference()),
        high: (input.high.value.clone(), input.high.difference()),
    };
    SwayChart {
        title: format!("How much more {first} costs a year than {second}"),
        subtitle: about.to_owned(),
        currency: c.currency.clone(),
        now: sway.costs[0] - sway.costs[1],
        bars: sway.inputs.iter().map(bar).collect(),
        sides: [format!("{first} costs less"), format!("{second} costs less")],
        foot: "One input at a time, everything else as the job has it. An estimate, not a quote; local codes and a \
               licensed contractor decide."
            .into(),
    }
}
