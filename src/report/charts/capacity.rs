//! Turns what each zone needs and what its machines can give into panels over outdoor temperature.
//!
//! Says at a glance below which temperature a machine falls short, and how many hours a year that is.
//! Must not know units or machines: all values come ready to show. Start at [`CapacityChart`]; one
//! panel is laid out by `panel`.

use super::ChartError;
use super::canvas::{self, Canvas, Sheet, Stroke};
use super::curves::CapacityPanel;
use super::frame::{Frame, WIDTH};
use super::numbers::grouped;
use super::palette::{self, Colour};
use super::panel::Panel;
use super::panel_drawing::{self, BAND, LOAD, MACHINE};

/// Heat needed and heat that can be given, one panel a zone.
#[derive(Debug, Clone, PartialEq)]
pub struct CapacityChart {
    /// What the chart shows, as a headline.
    pub title: String,
    /// A sentence more.
    pub subtitle: String,
    /// The unit of every temperature: `°F`.
    pub temperature_unit: String,
    /// The unit of every load and output: `kBtu/h`.
    pub power_unit: String,
    /// One panel a zone, at least one; all share one temperature axis so that they can be compared.
    pub panels: Vec<CapacityPanel>,
    /// A remark under the chart; may be empty.
    pub foot: String,
}

impl CapacityChart {
    /// Draws the chart as SVG, 960 pixels wide and about 380 high for each panel, with real text and a
    /// description for screen readers.
    ///
    /// The same values give the same bytes.
    ///
    /// # Errors
    /// [`ChartError::Empty`] without panels, for a load of fewer than two points or a machine of none,
    /// [`ChartError::BadValue`] for a temperature beyond ±10,000, a load, output or count of hours
    /// outside 0–10⁷, anything not a number, or temperatures that are not in rising order.
    pub fn draw(&self) -> Result<String, ChartError> {
        self.checked()?;
        let frame = Frame::laid_out(&self.title, &self.subtitle, &self.key(), &self.foot)?;
        let span = self.temperatures();
        let mut bottom = frame.body;
        let mut panels = Vec::with_capacity(self.panels.len());
        for data in &self.panels {
            let panel = Panel::laid_out(data, span, bottom, &self.temperature_unit, &self.power_unit)?;
            bottom = panel.bottom();
            panels.push(panel);
        }
        let description = self.described();
        let height = bottom + frame.foot_height();
        let sheet = Sheet { width: WIDTH, height, title: &self.title, description: &description };
        canvas::picture(&sheet, |canvas| {
            frame.drawn(canvas, bottom)?;
            self.swatches(canvas, &frame)?;
            panels.iter().try_for_each(|panel| panel.drawn(canvas))
        })
    }

    /// From the coldest to the warmest temperature of any line or mark in any panel, and on to the coldest hour.
    fn temperatures(&self) -> (f64, f64) {
        let points = |panel: &CapacityPanel| -> Vec<f64> {
            let lines = panel.load.iter().chain(panel.machines.iter().flat_map(|m| &m.greatest));
            let marks = panel.marks.iter().map(|mark| mark.temperature);
            lines.map(|point| point.0).chain(marks).collect()
        };
        let all = self.panels.iter().flat_map(points);
        let (low, high) =
            all.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), t| (low.min(t), high.max(t)));
        // No cold hour may be hidden; the many warm ones would only squeeze the rest.
        (self.panels.iter().filter_map(CapacityPanel::coldest).fold(low, f64::min), high)
    }

    fn entries(&self) -> Vec<(&'static str, Entry)> {
        let any = |test: fn(&CapacityPanel) -> bool| self.panels.iter().any(test);
        [
            ("heat the zone needs", Entry::Load, true),
            ("most a machine can give", Entry::Machine, any(|p| !p.machines.is_empty())),
            (
                "on or off: off until it is warmer, once it was off",
                Entry::Dashed,
                any(|p| p.machines.iter().any(|m| m.on_again.is_some())),
            ),
            (
                "between its least and most output",
                Entry::Band,
                any(|p| p.machines.iter().any(|m| m.least.is_some())),
            ),
            ("balance: colder than this, it falls short", Entry::Ring, any(|p| !p.balances.is_empty())),
        ]
        .into_iter()
        .filter_map(|(words, entry, shown)| shown.then_some((words, entry)))
        .collect()
    }

    fn key(&self) -> Vec<String> {
        self.entries().into_iter().map(|(words, _)| words.to_string()).collect()
    }

    fn swatches(&self, canvas: &Canvas<'_>, frame: &Frame) -> Result<(), ChartError> {
        for (place, (_, entry)) in frame.key.iter().zip(self.entries()) {
            let (x, y) = place.swatch;
            let line = [(x, y), (x + 16.0, y)];
            let first: Colour = palette::line(0);
            match entry {
                Entry::Load => canvas.path(&line, LOAD)?,
                Entry::Machine => canvas.path(&line, Stroke(MACHINE, first))?,
                Entry::Dashed => {
                    for from in [x, x + 6.0, x + 12.0] {
                        canvas.path(&[(from, y), (from + 4.0, y)], Stroke(MACHINE, first))?;
                    }
                }
                Entry::Band => canvas.rectangle((x, y - 6.5), (x + 16.0, y + 6.5), first, BAND)?,
                Entry::Ring => panel_drawing::ring(canvas, (x + 8.0, y), palette::INK)?,
            }
        }
        Ok(())
    }

    fn described(&self) -> String {
        let unit = &self.temperature_unit;
        let zone = |panel: &CapacityPanel| {
            let machines: Vec<&str> = panel.machines.iter().map(|m| m.name.as_str()).collect();
            let balances = panel.balances.iter().map(|b| {
                format!("{} alone carries the load down to {} {unit}", b.machine, grouped(b.temperature))
            });
            let marks = panel.marks.iter().map(|m| format!("{} {} {unit}", m.label, grouped(m.temperature)));
            let facts: Vec<String> = balances.chain(marks).collect();
            format!("{}: {}; {}.", panel.zone, machines.join(", "), facts.join("; "))
        };
        let zones: Vec<String> = self.panels.iter().map(zone).collect();
        format!(
            "Heat needed, heat each machine can give ({}) and hours a year, over outdoor temperature. {}",
            self.power_unit,
            zones.join(" ")
        )
    }

    fn checked(&self) -> Result<(), ChartError> {
        if self.panels.is_empty() || self.panels.iter().any(|panel| panel.load.len() < 2) {
            return Err(ChartError::Empty);
        }
        self.panels.iter().try_for_each(CapacityPanel::checked)
    }
}

/// What an entry of the key shows.
#[derive(Debug, Clone, Copy)]
enum Entry {
    Load,
    Machine,
    Dashed,
    Band,
    Ring,
}
