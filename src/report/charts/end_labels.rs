//! The words right of a panel's plot: each machine's name, and its facts where the plot has no room.
//!
//! Wraps and words, but places nothing: `panel` does. Start at [`end_labels`].

use super::ChartError;
use super::canvas::{self, Point, Type};
use super::curves::{Balance, CapacityPanel, MachineCurve};
use super::numbers::grouped;
use super::palette::{self, Colour};

pub(super) const FACT: Type = Type::plain(11.5, palette::INK);
pub(super) const NAME_SIZE: f64 = 12.5;
pub(super) const NAME_LINE: f64 = 15.5;
pub(super) const NAMES: f64 = 196.0;

/// A machine's name right of the plot.
pub(super) struct EndLabel {
    pub(super) lines: Vec<String>,
    /// The options that have it; balance point and cut-out, where they do not stand inside the plot.
    pub(super) facts: Vec<String>,
    pub(super) middle: f64,
    pub(super) from: Point,
    pub(super) colour: Colour,
}

impl EndLabel {
    /// With the gap to the next.
    pub(super) fn height(&self) -> f64 {
        (self.lines.len() + self.facts.len()) as f64 * NAME_LINE + 6.0
    }
}

/// Whether there are too many balance points to name each one inside the plot: then they stand with the names.
pub(super) fn crowded(data: &CapacityPanel) -> bool {
    data.balances.len() > 2
}

pub(super) fn balance_words(balance: &Balance, unit: &str) -> String {
    format!("balance {} {unit}", grouped(balance.temperature))
}

pub(super) fn off_words(machine: &MachineCurve, temperature: f64, unit: &str) -> String {
    let at = if machine.off_at_end { "at" } else { "below" };
    let again = machine.on_again.map(|t| format!(", on again above {} {unit}", grouped(t)));
    format!("off {at} {} {unit}{}", grouped(temperature), again.unwrap_or_default())
}

/// The cold end of a machine's line where the load's line goes on colder: there the machine is off. A line
/// that reaches as far as the load's says nothing about greater cold.
pub(super) fn cold_end(machine: &MachineCurve, data: &CapacityPanel) -> Option<Point> {
    let coldest = data.load.first()?.0;
    machine.greatest.first().copied().filter(|end| end.0 > coldest + 1e-9)
}

/// The words right of the plot, not yet placed (`from` is still temperature and output).
pub(super) fn end_labels(data: &CapacityPanel, unit: &str) -> Result<Vec<EndLabel>, ChartError> {
    let mut labels = Vec::new();
    for machine in &data.machines {
        let Some(from) = machine.greatest.last().copied() else { continue };
        let colour = palette::option(machine.option);
        let lines = canvas::wrapped(&machine.name, &Type::bold(NAME_SIZE, colour), NAMES, 2)?;
        let in_options = match machine.options.as_str() {
            "" => Vec::new(),
            words => canvas::wrapped(words, &FACT, NAMES, 4)?,
        };
        let mut facts = Vec::new();
        if crowded(data) {
            let own = data.balances.iter().filter(|balance| balance.machine == machine.name);
            facts.extend(own.map(|balance| balance_words(balance, unit)));
            facts.extend(cold_end(machine, data).map(|end| off_words(machine, end.0, unit)));
        }
        let facts = match facts.join(", ").as_str() {
            "" => Vec::new(),
            words => canvas::wrapped(words, &FACT, NAMES, 2)?,
        };
        let facts = in_options.into_iter().chain(facts).collect();
        labels.push(EndLabel { lines, facts, middle: 0.0, from, colour });
    }
    Ok(labels)
}

/// A machine's colour, dark enough for words.
pub(super) fn readable(colour: Colour) -> Colour {
    colour.mixed(palette::INK, 0.35)
}
