//! Turns costs, of options or of the lines of a bill, into horizontal bars, stacked by end use.
//!
//! Bars keep the order given. An option that leaves the house cold is marked with a triangle, words and
//! hatching, since its cost buys less than the others'. Must not know how a cost comes about.
//! Start at [`CostChart`]; the bars are placed and drawn by `cost_bars`.

use super::ChartError;
use super::canvas::{self, Sheet};
use super::cost_bars::Bars;
use super::costs::CostBar;
use super::frame::WIDTH;
use super::numbers::money;

/// The costs of several things, side by side: options in a year, or the lines of a bill.
#[derive(Debug, Clone, PartialEq)]
pub struct CostChart {
    /// What the chart shows, as a headline.
    pub title: String,
    /// A sentence more: the house, the weather.
    pub subtitle: String,
    /// The sign put before amounts: `$`.
    pub currency: String,
    /// What the bars are, for those who hear the chart: `Yearly cost of each option, one bar an option.`
    pub spoken: String,
    /// The bars, at least one, in the order to be drawn.
    pub options: Vec<CostBar>,
    /// A remark under the chart; may be empty.
    pub foot: String,
}

impl CostChart {
    /// Draws the chart as SVG, 960 pixels wide, with real text and a description for screen readers.
    ///
    /// The same values give the same bytes.
    ///
    /// # Errors
    /// [`ChartError::Empty`] without bars, [`ChartError::BadValue`] for an amount beyond 10¹² or not a number, [`ChartError::PartsDiffer`] where a total is not the sum of its parts.
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
        format!("{} {}", self.spoken, options.join(" "))
    }
}
