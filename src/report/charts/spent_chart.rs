//! Turns what has been spent by the end of each year into one line an option, with the points at which
//! lines meet the base's.
//!
//! Must not know how money is discounted or lent. Start at [`SpentChart`]; `spent_lines` places and
//! draws the lines.

use super::ChartError;
use super::canvas::{self, Sheet};
use super::frame::{Frame, WIDTH};
use super::numbers::{grouped, money};
use super::spent::SpentLine;
use super::spent_lines::Lines;

/// What has been spent on several options, year by year.
#[derive(Debug, Clone, PartialEq)]
pub struct SpentChart {
    /// What the chart shows, as a headline.
    pub title: String,
    /// A sentence more.
    pub subtitle: String,
    /// The sign put before amounts: `$`.
    pub currency: String,
    /// One line an option, at least one; all of the same years.
    pub lines: Vec<SpentLine>,
    /// A remark under the chart; may be empty.
    pub foot: String,
}

impl SpentChart {
    /// Draws the chart as SVG, 960 pixels wide, with real text and a description for screen readers.
    ///
    /// The same values give the same bytes.
    ///
    /// # Errors
    /// [`ChartError::Empty`] without lines or for lines of fewer than two points, [`ChartError::BadValue`]
    /// for an amount beyond ±10⁹, more than 100 years, lines of different years, or a crossing outside
    /// them.
    pub fn draw(&self) -> Result<String, ChartError> {
        self.checked()?;
        let has_base = self.lines.iter().any(|line| line.is_base);
        let meets = has_base && self.lines.iter().any(|line| !line.crossings.is_empty());
        let key = [(has_base, "what the others are set against"), (meets, "as much spent as on that")];
        let shown = key.into_iter().filter(|(shown, _)| *shown);
        let key: Vec<String> = shown.map(|(_, words)| words.to_owned()).collect();
        let frame = Frame::laid_out(&self.title, &self.subtitle, &key, &self.foot)?;
        let lines = Lines::laid_out(&self.lines, &self.currency, frame.body)?;
        let description = self.described();
        let height = lines.bottom() + frame.foot_height();
        let sheet = Sheet { width: WIDTH, height, title: &self.title, description: &description };
        canvas::picture(&sheet, |canvas| {
            frame.drawn(canvas, lines.bottom())?;
            lines.key(canvas, &frame.key)?;
            lines.drawn(canvas)
        })
    }

    /// Years that the lines span.
    fn years(&self) -> usize {
        self.lines.first().map_or(0, |line| line.spent.len().saturating_sub(1))
    }

    fn checked(&self) -> Result<(), ChartError> {
        if self.lines.is_empty() || self.years() == 0 {
            return Err(ChartError::Empty);
        }
        self.lines.iter().try_for_each(|line| line.checked(self.years()))
    }

    fn described(&self) -> String {
        let line = |line: &SpentLine| {
            let ends = line.spent.first().zip(line.spent.last());
            let (first, last) = ends.map_or((0.0, 0.0), |(first, last)| (*first, *last));
            let met: Vec<String> = line.crossings.iter().map(|(year, _)| format!("{year:.1}")).collect();
            let met = match met.as_slice() {
                [] => String::new(),
                years => format!(", level with the base after {} years", years.join(" and ")),
            };
            let (first, last) = (money(&self.currency, first), money(&self.currency, last));
            format!("{}: {first} at once, {last} in all{met}.", line.name)
        };
        let lines: Vec<String> = self.lines.iter().map(line).collect();
        format!("Spent by the end of each of {} years. {}", grouped(self.years() as f64), lines.join(" "))
    }
}
