//! Turns each option's yearly cost into one horizontal bar, stacked by end use.
//!
//! Bars keep the order given. An option that leaves the house cold is marked with a triangle, words and
//! hatching, since its cost buys less than the others'. Must not know how a cost comes about.
//! Start at [`YearlyCostChart`]; the bars are placed and drawn by `cost_bars`.

use super::ChartError;
use super::canvas::{self, Sheet};
use super::cost_bars::Bars;
use super::costs::CostBar;
use super::frame::WIDTH;
use super::numbers::money;

/// The yearly cost of several options, side by side.
#[derive(Debug, Clone, PartialEq)]
pub struct YearlyCostChart {
    /// What the chart shows, as a headline.
    pub title: String,
    /// A sentence more: the house, the weather.
    pub subtitle: String,
    /// The sign put before amounts: `$`.
    pub currency: String,
    /// One bar an option, at least one, in the order to be drawn.
    pub options: Vec<CostBar>,
    /// A remark under the chart; may be empty.
    pub foot: String,
}

impl YearlyCostChart {
    /// Draws the chart as SVG, 960 pixels wide, with real text and a description for screen readers.
    ///
    /// The same values give the same bytes.
    ///
    /// # Errors
    /// [`ChartError::Empty`] without options, [`ChartError::BadValue`] for an amount below zero, above 10¹² or
    /// not a number, [`ChartError::PartsDiffer`] where a total is not the sum of its parts.
    pub fn draw(&self) -> Result<String, ChartError> {
        self.checked()?;
        let heading = [self.title.as_str(), &self.subtitle, &self.foot];
        let bars = Bars::laid_out(&self.options, &self.currency, heading)?;
        let description = self.described();
        let sheet =
            Sheet { width: WIDTH, height: bars.height(), title: &self.title, description: &description };
        canvas::picture(&sheet, |canvas| bars.drawn(canvas))
    }

    fn checked(&self) -> Result<(), ChartError> {
        if self.options.is_empty() {
            return Err(ChartError::Empty);
        }
        self.options.iter().try_for_each(CostBar::checked)
    }

    fn described(&self) -> String {
        let option = |bar: &CostBar| {
            let parts: Vec<String> = bar
                .shown()
                .map(|(use_, amount)| format!("{use_} {}", money(&self.currency, *amount)))
                .collect();
            let warning = bar.warning.as_ref().map_or(String::new(), |words| format!(", {words}"));
            let parts = if parts.is_empty() { String::new() } else { format!(" ({})", parts.join(", ")) };
            format!("{}: {}{parts}{warning}.", bar.name, money(&self.currency, bar.total))
        };
        let options: Vec<String> = self.options.iter().map(option).collect();
        format!("Yearly cost of each option, one bar an option. {}", options.join(" "))
    }
}
