//! Turns the coldest week into one panel an option: outdoors and room above, heat below.
//!
//! Must not know what a machine is. Start at [`WeekChart::draw`]; `week_panel` places and draws a panel.

use super::ChartError;
use super::canvas::{self, Sheet, Stroke};
use super::frame::{Frame, WIDTH};
use super::palette;
use super::week_curves::WeekChart;
use super::week_panel::WeekPanel;

impl WeekChart {
    /// Draws the chart as SVG, 960 pixels wide, with real text and a description for screen readers.
    ///
    /// # Errors
    /// [`ChartError::Empty`] without options or days, [`ChartError::BadValue`] for hours that are not 24 a
    /// day, and values beyond ±10⁵.
    pub fn draw(&self) -> Result<String, ChartError> {
        self.checked()?;
        let key = ["outdoors", "room", "heat of the first machine", "heat of what helps it"];
        let key = key.map(str::to_owned);
        let frame = Frame::laid_out(&self.title, &self.subtitle, &key, &self.foot)?;
        let mut top = frame.body;
        let mut panels = Vec::new();
        for option in &self.options {
            let panel = WeekPanel::laid_out(self, option, top)?;
            top = panel.bottom();
            panels.push(panel);
        }
        let description = self.described();
        let height = top + frame.foot_height();
        let sheet = Sheet { width: WIDTH, height, title: &self.title, description: &description };
        canvas::picture(&sheet, |canvas| {
            frame.drawn(canvas, top)?;
            for (i, entry) in frame.key.iter().enumerate() {
                let (x, y) = entry.swatch;
                let line = [(x, y), (x + 16.0, y)];
                match i {
                    0 => canvas.path(&line, Stroke(1.6, palette::MUTED))?,
                    1 => canvas.path(&line, Stroke(2.4, palette::INK))?,
                    2 => canvas.rectangle((x, y - 6.5), (x + 16.0, y + 6.5), palette::option(0), 0.75)?,
                    _ => canvas.rectangle(
                        (x, y - 6.5),
                        (x + 16.0, y + 6.5),
                        palette::end_use("backup heat"),
                        1.0,
                    )?,
                }
            }
            panels.iter().try_for_each(|panel| panel.drawn(canvas))
        })
    }
}
