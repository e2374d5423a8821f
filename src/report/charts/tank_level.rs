//! Draws the level of stores through a year, a panel each, one below the other.
//!
//! Says at a glance when the truck came, how low the store stood, and when it was dry. Start at
//! [`TankChart::draw`].

use super::ChartError;
use super::canvas::{self, Canvas, Sheet, Stroke};
use super::frame::{Frame, WIDTH};
use super::numbers::grouped;
use super::palette;
use super::tank_levels::{TankChart, TankPanel};
use super::tank_panel::StorePanel;

impl TankChart {
    /// Draws the chart as SVG, 960 pixels wide, with real text and a description for screen readers.
    ///
    /// # Errors
    /// [`ChartError::Empty`] without a panel or with fewer than two days, [`ChartError::BadValue`] for
    /// an amount below nothing or beyond 10⁹, and for days outside the year.
    pub fn draw(&self) -> Result<String, ChartError> {
        self.checked()?;
        let dry = self.panels.iter().any(|panel| !panel.dry.is_empty());
        let key: Vec<String> =
            ["level", "delivery"].into_iter().chain(dry.then_some("no fuel")).map(str::to_owned).collect();
        let frame = Frame::laid_out(&self.title, &self.subtitle, &key, &self.foot)?;
        let mut panels: Vec<StorePanel<'_>> = Vec::new();
        let mut top = frame.body;
        for panel in &self.panels {
            let placed = StorePanel::laid_out(panel, &self.months, top)?;
            top = placed.bottom() + 8.0;
            panels.push(placed);
        }
        let description = self.panels.iter().map(described).collect::<Vec<_>>().join(" ");
        let height = top + frame.foot_height();
        let sheet = Sheet { width: WIDTH, height, title: &self.title, description: &description };
        canvas::picture(&sheet, |canvas| {
            frame.drawn(canvas, top)?;
            swatches(canvas, &frame)?;
            panels.iter().try_for_each(|panel| panel.drawn(canvas))
        })
    }
}

fn swatches(canvas: &Canvas<'_>, frame: &Frame) -> Result<(), ChartError> {
    for (place, entry) in frame.key.iter().enumerate() {
        let (x, y) = entry.swatch;
        let middle = x + 8.0;
        match place {
            0 => {
                canvas.rectangle((x, y), (x + 16.0, y + 6.5), palette::line(0), 0.14)?;
                canvas.path(&[(x, y), (x + 16.0, y)], Stroke(1.6, palette::line(0)))?;
            }
            1 => canvas.path(&[(middle, y - 7.0), (middle, y + 7.0)], Stroke(2.4, palette::DELIVERED))?,
            _ => canvas.rectangle((x, y - 6.5), (x + 16.0, y + 6.5), palette::ALARM, 0.22)?,
        }
    }
    Ok(())
}

fn described(panel: &TankPanel) -> String {
    let lowest = panel.levels.iter().copied().fold(panel.start, f64::min);
    format!(
        "{}: {} deliveries, at least {} {} of {}, dry on {} days.",
        panel.name,
        panel.deliveries.len(),
        grouped(lowest),
        panel.unit,
        grouped(panel.full),
        panel.dry.len()
    )
}
