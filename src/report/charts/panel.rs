//! Finds the place of everything in one zone's panel of the capacity chart, before any of it is drawn.
//!
//! Draws nothing and must not know the other panels. Start at [`Panel`].

use super::ChartError;
use super::canvas::{self, Point, Type};
use super::curves::{Balance, CapacityPanel};
use super::end_labels::{EndLabel, NAMES, balance_words, cold_end, crowded, end_labels, off_words, readable};
use super::frame::{MARGIN, WIDTH};
use super::notes::Note;
use super::numbers::{self, Scale, grouped};
use super::palette::{self, Colour};
use super::placing::{self, Clutter, Plate};

pub(super) const ZONE: Type = Type::bold(15.0, palette::INK);
pub(super) const TICK: Type = Type::plain(11.5, palette::MUTED);
pub(super) const MARK: Type = Type::plain(12.0, palette::INK);

pub(super) const LEFT: f64 = MARGIN + 66.0;
pub(super) const RIGHT: f64 = WIDTH - MARGIN - NAMES - 16.0;
pub(super) const PLOT: f64 = 216.0;
pub(super) const STRIP: f64 = 46.0;

/// One panel, ready to be drawn.
pub(super) struct Panel<'a> {
    pub(super) data: &'a CapacityPanel,
    pub(super) temperature: Scale,
    pub(super) power: Scale,
    pub(super) hours: Scale,
    pub(super) zone: (String, f64),
    pub(super) power_step: f64,
    pub(super) marks: Vec<Over>,
    pub(super) names: Vec<EndLabel>,
    pub(super) notes: Vec<Note>,
    pub(super) units: (&'a str, &'a str),
}

/// Words over the plot: their middle and half their width.
pub(super) struct Over {
    pub(super) words: String,
    pub(super) middle: f64,
    pub(super) half: f64,
}

impl<'a> Panel<'a> {
    /// Places everything below `top`; `span` is the temperature axis all panels share.
    pub(super) fn laid_out(
        data: &'a CapacityPanel,
        span: (f64, f64),
        top: f64,
        temperature_unit: &'a str,
        power_unit: &'a str,
    ) -> Result<Self, ChartError> {
        let units = (temperature_unit, power_unit);
        let names = end_labels(data, temperature_unit)?;
        let plot = PLOT.max(names.iter().map(EndLabel::height).sum::<f64>() - 16.0);
        let mut panel = Self::bare(data, span, (top, plot), units)?;
        panel.marks = panel.placed_marks()?;
        panel.names = panel.placed_names(names);
        panel.notes = panel.placed_notes()?;
        Ok(panel)
    }

    fn bare(
        data: &'a CapacityPanel,
        span: (f64, f64),
        (top, plot): (f64, f64),
        units: (&'a str, &'a str),
    ) -> Result<Self, ChartError> {
        let zone = canvas::wrapped(&data.zone, &ZONE, WIDTH - 2.0 * MARGIN, 1)?.concat();
        let zone_base = top + 18.0;
        let marks = if data.marks.is_empty() { 12.0 } else { 22.0 };
        let (plot_top, plot_bottom) = (zone_base + 16.0 + marks, zone_base + 16.0 + marks + plot);
        let lines = data.machines.iter().map(|m| m.greatest.as_slice()).chain([data.load.as_slice()]);
        let most = lines.flatten().map(|point| point.1).fold(0.0, f64::max).max(1e-6);
        let power_step = numbers::step(most * 1.04, 5.0);
        let highest = (most * 1.04 / power_step).ceil() * power_step;
        let (gap, strip) = if data.hours.is_empty() { (0.0, 0.0) } else { (26.0, STRIP) };
        let strip_top = plot_bottom + gap;
        let hours =
            data.hours.iter().filter(|bin| inside(span, bin.0)).map(|bin| bin.1).fold(0.0, f64::max).max(1.0);
        Ok(Self {
            data,
            temperature: Scale { low: span.0, high: span.1, from: LEFT + 6.0, to: RIGHT },
            power: Scale { low: 0.0, high: highest, from: plot_bottom, to: plot_top },
            hours: Scale {
                low: 0.0,
                high: numbers::step(hours, 1.0),
                from: strip_top + strip,
                to: strip_top,
            },
            zone: (zone, zone_base),
            power_step,
            marks: Vec::new(),
            names: Vec::new(),
            notes: Vec::new(),
            units,
        })
    }

    /// Where the panel ends.
    pub(super) fn bottom(&self) -> f64 {
        self.hours.from + 54.0
    }

    pub(super) fn at(&self, (temperature, power): (f64, f64)) -> Point {
        (self.temperature.at(temperature), self.power.at(power))
    }

    pub(super) fn line(&self, points: &[(f64, f64)]) -> Vec<Point> {
        points.iter().map(|point| self.at(*point)).collect()
    }

    /// Names over the plot, pushed apart along its upper edge.
    fn placed_marks(&self) -> Result<Vec<Over>, ChartError> {
        let (mut words, mut wanted, mut sizes) = (Vec::new(), Vec::new(), Vec::new());
        for mark in &self.data.marks {
            let text = format!("{} {} {}", mark.label, grouped(mark.temperature), self.units.0);
            let text = canvas::wrapped(&text, &MARK, (RIGHT - LEFT) * 0.5, 1)?.concat();
            sizes.push(canvas::width(&text, &MARK)? + 16.0);
            wanted.push(self.temperature.at(mark.temperature));
            words.push(text);
        }
        let middles = placing::spread(&wanted, &sizes, LEFT - 4.0, WIDTH - MARGIN);
        let placed = words.into_iter().zip(middles).zip(sizes);
        Ok(placed.map(|((words, middle), size)| Over { words, middle, half: size / 2.0 - 8.0 }).collect())
    }

    /// Machines' names right of the plot, each as near as can be to where its line ends.
    fn placed_names(&self, mut labels: Vec<EndLabel>) -> Vec<EndLabel> {
        for label in &mut labels {
            label.from = self.at(label.from);
        }
        let wanted: Vec<f64> = labels.iter().map(|label| label.from.1).collect();
        let sizes: Vec<f64> = labels.iter().map(EndLabel::height).collect();
        let middles = placing::spread(&wanted, &sizes, self.power.to - 8.0, self.power.from + 8.0);
        for (label, middle) in labels.iter_mut().zip(middles) {
            label.middle = middle;
        }
        labels
    }

    /// Words inside the plot: the load's name, balance points, where a machine goes off.
    fn placed_notes(&self) -> Result<Vec<Note>, ChartError> {
        let mut clutter = Clutter::default();
        clutter.lines.push(self.line(&self.data.load));
        clutter.lines.extend(self.data.machines.iter().map(|m| self.line(&m.greatest)));
        let leasts = self.data.machines.iter().filter_map(|m| m.least.as_deref());
        clutter.lines.extend(leasts.map(|least| self.line(least)));
        for mark in &self.data.marks {
            let x = self.temperature.at(mark.temperature);
            clutter.lines.push(vec![(x, self.power.to), (x, self.power.from)]);
        }
        for balance in &self.data.balances {
            let (x, y) = self.at((balance.temperature, balance.load));
            clutter.plates.push(Plate { left: x, top: y, right: x, bottom: y }.grown(6.0));
        }
        let (upper_left, lower_right) = ((LEFT, self.power.to), (RIGHT, self.power.from));
        let place = |remark| Note::placed(remark, &mut clutter, upper_left, lower_right).transpose();
        self.remarks()?.into_iter().filter_map(place).collect()
    }

    /// What is to be said inside the plot, about which point, in which colour.
    fn remarks(&self) -> Result<Vec<(String, Point, Colour)>, ChartError> {
        let mut remarks = Vec::new();
        let beside = crowded(self.data);
        let named = |balance: &Balance| self.data.machines.iter().any(|m| m.name == balance.machine);
        for balance in self.data.balances.iter().filter(|balance| !(beside && named(balance))) {
            let mut words = balance_words(balance, self.units.0);
            if self.data.balances.len() > 1 {
                let name =
                    canvas::wrapped(&balance.machine, &Type::bold(12.0, palette::INK), 170.0, 1)?.concat();
                words = format!("{words}, {name}");
            }
            let at = self.at((balance.temperature, balance.load));
            remarks.push((words, at, readable(self.colour_of(&balance.machine))));
        }
        for machine in self.data.machines.iter().filter(|_| !beside) {
            if let Some(end) = cold_end(machine, self.data) {
                let words = off_words(machine, end.0, self.units.0);
                remarks.push((words, self.at(end), readable(palette::option(machine.option))));
            }
        }
        if let Some(first) = self.data.load.first() {
            remarks.push(("heat needed".to_string(), self.at(*first), palette::INK));
        }
        Ok(remarks)
    }

    pub(super) fn colour_of(&self, machine: &str) -> Colour {
        let machine = self.data.machines.iter().find(|m| m.name == machine);
        machine.map_or(palette::INK, |machine| palette::option(machine.option))
    }
}

pub(super) fn inside((low, high): (f64, f64), value: f64) -> bool {
    low <= value && value <= high
}
