//! Draws a price history: what was paid winter by winter, the season at rest, the winter that could follow.
//!
//! Start at [`HistoryChart::draw`]; the panels are placed and drawn by `past_panels`.

use super::ChartError;
use super::canvas::{self, Canvas, Sheet, Stroke};
use super::frame::{Frame, WIDTH};
use super::palette;
use super::past_panels::{Panels, RANGE, ahead, paid, spike};
use super::past_prices::HistoryChart;

impl HistoryChart {
    /// Draws the chart as SVG, 960 pixels wide, with real text and a description for screen readers.
    ///
    /// # Errors
    /// [`ChartError::Empty`] for fewer than two prices or weeks, [`ChartError::BadValue`] for a price below
    /// nothing or beyond 10⁹, times that do not rise, months beyond the weeks.
    pub fn draw(&self) -> Result<String, ChartError> {
        self.checked()?;
        let mut key = vec!["price; months at rest with their 90 % interval", "where it rests, 90 % of it"];
        key.push("what could follow: half of it below the line, 10 to 90 % in the band");
        key.extend((!self.spikes.is_empty()).then_some("spike"));
        let key: Vec<String> = key.into_iter().map(str::to_owned).collect();
        let frame = Frame::laid_out(&self.title, &self.subtitle, &key, &self.foot)?;
        let panels = Panels::laid_out(self, frame.body);
        let description = self.described();
        let height = panels.bottom() + frame.foot_height();
        let sheet = Sheet { width: WIDTH, height, title: &self.title, description: &description };
        canvas::picture(&sheet, |canvas| {
            frame.drawn(canvas, panels.bottom())?;
            swatches(canvas, &frame)?;
            panels.drawn(canvas)
        })
    }

    fn described(&self) -> String {
        let unit = &self.unit;
        let months = self.season.iter().map(|(name, range)| format!("{name} {:.2}", range.middle));
        let (first, last) = (self.ahead.first(), self.ahead.last());
        let ends = first.zip(last).map_or(String::new(), |(first, last)| {
            format!("{:.2} in its first week, {:.2} in its last", first.middle, last.middle)
        });
        format!(
            "{} winters of prices, {} spikes; at rest {:.2} {unit}. By month: {}. The winter that could follow: {ends}.",
            self.winters.len(),
            self.spikes.len(),
            self.rest.middle,
            months.collect::<Vec<_>>().join(", ")
        )
    }
}

fn swatches(canvas: &Canvas<'_>, frame: &Frame) -> Result<(), ChartError> {
    for (place, entry) in frame.key.iter().enumerate() {
        let (x, y) = entry.swatch;
        let band = |colour| canvas.rectangle((x, y - 6.5), (x + 16.0, y + 6.5), colour, RANGE);
        let line = |colour| canvas.path(&[(x, y), (x + 16.0, y)], Stroke(2.0, colour));
        match place {
            0 => line(paid())?,
            1 => band(palette::HOURS).and_then(|()| line(palette::MUTED))?,
            2 => band(ahead()).and_then(|()| line(ahead()))?,
            _ => canvas.ring((x + 8.0, y), 4.2, Stroke(2.0, spike()))?,
        }
    }
    Ok(())
}
