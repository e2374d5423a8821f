//! Draws a weather year as two panels: each day's lowest to highest hour, and hours by temperature.
//!
//! Says at a glance how cold, how long and how often. Must not know units or how a figure comes
//! about: all values come ready to show. Start at [`WeatherYearChart::draw`]; the panels are placed
//! and drawn by `year_panel` and `bin_panel`.

use super::ChartError;
use super::bin_panel::BinPanel;
use super::canvas::{self, Canvas, Sheet, Stroke};
use super::frame::{Frame, WIDTH};
use super::numbers::grouped;
use super::palette;
use super::year_curves::WeatherYearChart;
use super::year_panel::{BAND, MEAN, SPELL, YearPanel, mean_colour};

impl WeatherYearChart {
    /// Draws the chart as SVG, 960 pixels wide, with real text and a description for screen readers.
    ///
    /// The same values give the same bytes.
    ///
    /// # Errors
    /// [`ChartError::Empty`] for fewer than two days or bins, [`ChartError::BadValue`] for a temperature
    /// beyond ±10,000, hours outside 0–10⁷, anything not a number, a mean outside its day's range, and days or
    /// bins out of order.
    pub fn draw(&self) -> Result<String, ChartError> {
        self.checked()?;
        let words: Vec<String> = self.entries().iter().map(|(words, _)| (*words).to_owned()).collect();
        let frame = Frame::laid_out(&self.title, &self.subtitle, &words, &self.foot)?;
        let year = YearPanel::laid_out(self, frame.body)?;
        let bins = BinPanel::laid_out(self, year.bottom())?;
        let description = self.described();
        let height = bins.bottom() + frame.foot_height();
        let sheet = Sheet { width: WIDTH, height, title: &self.title, description: &description };
        canvas::picture(&sheet, |canvas| {
            frame.drawn(canvas, bins.bottom())?;
            self.swatches(canvas, &frame)?;
            year.drawn(canvas)?;
            bins.drawn(canvas)
        })
    }

    fn entries(&self) -> Vec<(&'static str, Entry)> {
        let mut entries =
            vec![("coldest to warmest hour of each day", Entry::Band), ("mean of the day", Entry::Mean)];
        entries.extend(self.spell.is_some().then_some(("coldest days", Entry::Spell)));
        entries
    }

    fn swatches(&self, canvas: &Canvas<'_>, frame: &Frame) -> Result<(), ChartError> {
        for (place, (_, entry)) in frame.key.iter().zip(self.entries()) {
            let (x, y) = place.swatch;
            let (from, to) = ((x, y - 6.5), (x + 16.0, y + 6.5));
            match entry {
                Entry::Band => canvas.rectangle(from, to, palette::line(0), BAND)?,
                Entry::Mean => canvas.path(&[(x, y), (x + 16.0, y)], Stroke(MEAN, mean_colour()))?,
                Entry::Spell => canvas.rectangle(from, to, palette::line(3), SPELL)?,
            }
        }
        Ok(())
    }

    fn described(&self) -> String {
        let unit = &self.temperature_unit;
        let levels = self.levels.iter().map(|m| format!("{} {} {unit}", m.label, grouped(m.temperature)));
        let moments = self.moments.iter().map(|m| m.words.clone());
        let spell = self.spell.iter().map(|s| s.words.clone());
        let hours = self.hours.iter().filter(|bin| bin.1 > 0.0);
        let hours: Vec<String> =
            hours.map(|bin| format!("{} {unit} {}", grouped(bin.0), grouped(bin.1))).collect();
        let facts: Vec<String> = moments.chain(spell).chain(levels).collect();
        format!(
            "Daily range of the outdoor temperature through the year. {}. Hours by temperature: {}.",
            facts.join("; "),
            hours.join(", ")
        )
    }
}

/// What an entry of the key shows.
#[derive(Debug, Clone, Copy)]
enum Entry {
    Band,
    Mean,
    Spell,
}
