//! Draws the price of each day and what each truck was paid, a panel a store, one below the other.
//!
//! Start at [`PriceDaysChart::draw`]; a panel is placed and drawn by `price_days_panel`.

use super::ChartError;
use super::canvas::{self, Sheet, Stroke};
use super::frame::{Frame, WIDTH};
use super::palette;
use super::price_days::{PriceDaysChart, PriceDaysPanel};
use super::price_days_panel::DaysPanel;

impl PriceDaysChart {
    /// Draws the chart as SVG, 960 pixels wide, with real text and a description for screen readers.
    ///
    /// # Errors
    /// [`ChartError::Empty`] without a panel or with fewer than two days, [`ChartError::BadValue`] for a
    /// price below nothing or beyond 10⁹, and for days outside the year.
    pub fn draw(&self) -> Result<String, ChartError> {
        self.checked()?;
        let key = ["price of the day", "delivery, at the price paid"].map(str::to_owned);
        let frame = Frame::laid_out(&self.title, &self.subtitle, &key, &self.foot)?;
        let mut panels: Vec<DaysPanel<'_>> = Vec::new();
        let mut top = frame.body;
        for panel in &self.panels {
            let placed = DaysPanel::laid_out(panel, &self.months, top)?;
            top = placed.bottom() + 8.0;
            panels.push(placed);
        }
        let description = self.panels.iter().map(described).collect::<Vec<_>>().join(" ");
        let height = top + frame.foot_height();
        let sheet = Sheet { width: WIDTH, height, title: &self.title, description: &description };
        canvas::picture(&sheet, |canvas| {
            frame.drawn(canvas, top)?;
            for (place, entry) in frame.key.iter().enumerate() {
                let (x, y) = entry.swatch;
                match place {
                    0 => canvas.path(&[(x, y), (x + 16.0, y)], Stroke(1.8, palette::line(0)))?,
                    _ => canvas.ring((x + 8.0, y), 4.2, Stroke(2.2, palette::DELIVERED))?,
                }
            }
            panels.iter().try_for_each(|panel| panel.drawn(canvas))
        })
    }
}

fn described(panel: &PriceDaysPanel) -> String {
    let low = panel.market.iter().copied().fold(f64::INFINITY, f64::min);
    let high = panel.market.iter().copied().fold(0.0, f64::max);
    let paid: Vec<String> = panel.paid.iter().map(|(_, price)| format!("{price:.2}")).collect();
    let paid = if paid.is_empty() { "nothing".to_owned() } else { paid.join(", ") };
    format!("{}: price of the day {low:.2} to {high:.2} {}; paid {paid}.", panel.name, panel.unit)
}
