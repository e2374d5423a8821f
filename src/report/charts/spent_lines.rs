//! Places and draws the lines of what has been spent: axes, lines, their names, where they meet.
//!
//! Must not know where the amounts come from. Start at [`Lines`].

use super::ChartError;
use super::canvas::{self, Align, Canvas, Point, Stroke, Type};
use super::end_labels::{NAMES, readable};
use super::frame::{KeyEntry, MARGIN, WIDTH};
use super::line_names::{self, LineEnd, LineName};
use super::numbers::{self, Scale, grouped, money};
use super::palette::{self, Colour};
use super::placing::{Clutter, Plate};
use super::spent::SpentLine;

const TICK: Type = Type::plain(11.5, palette::MUTED);
const LEFT: f64 = MARGIN + 66.0;
const RIGHT: f64 = WIDTH - MARGIN - NAMES - 16.0;
const PLOT: f64 = 340.0;
const BASE: f64 = 4.0;
const LINE: f64 = 2.2;

/// Everything in its place.
pub(super) struct Lines<'a> {
    lines: &'a [SpentLine],
    currency: &'a str,
    years: Scale,
    amounts: Scale,
    step: f64,
    names: Vec<LineName>,
    notes: Vec<(String, Plate, Point, Colour)>,
}

/// Each line in the colour of its option.
fn colours(lines: &[SpentLine]) -> Vec<Colour> {
    lines.iter().map(|line| palette::option(line.option)).collect()
}

impl<'a> Lines<'a> {
    /// Places everything below `top`.
    pub(super) fn laid_out(lines: &'a [SpentLine], currency: &'a str, top: f64) -> Result<Self, ChartError> {
        let all = || lines.iter().flat_map(|line| line.spent.iter().copied());
        let (low, high) = (all().fold(0.0, f64::min), all().fold(1.0, f64::max));
        let step = numbers::step(high - low, 6.0);
        let (low, high) = ((low / step).floor() * step, (high / step).ceil() * step);
        let plot_top = top + 22.0;
        let last_year = lines.first().map_or(1, |line| line.spent.len().saturating_sub(1));
        let years = Scale { low: 0.0, high: last_year as f64, from: LEFT, to: RIGHT };
        let amounts = Scale { low, high, from: plot_top + PLOT, to: plot_top };
        let mut placed = Self { lines, currency, years, amounts, step, names: Vec::new(), notes: Vec::new() };
        placed.names = placed.placed_names()?;
        placed.notes = placed.placed_notes()?;
        Ok(placed)
    }

    /// Where the chart ends.
    pub(super) fn bottom(&self) -> f64 {
        self.names.iter().map(|name| name.bottom() + 16.0).fold(self.amounts.from + 40.0, f64::max)
    }

    fn line(&self, spent: &[f64]) -> Vec<Point> {
        let point = |(year, amount): (usize, &f64)| (self.years.at(year as f64), self.amounts.at(*amount));
        spent.iter().enumerate().map(point).collect()
    }

    fn placed_names(&self) -> Result<Vec<LineName>, ChartError> {
        let ends = self.lines.iter().zip(colours(self.lines)).filter_map(|(line, colour)| {
            let end = self.line(&line.spent).last().copied()?;
            let amount = line.spent.last().map(|amount| money(self.currency, *amount));
            Some(LineEnd { name: &line.name, amount, end, colour })
        });
        line_names::placed(ends.collect(), self.amounts.to - 16.0, self.amounts.from + 24.0)
    }

    /// The years at which lines meet the base's, each beside its point.
    fn placed_notes(&self) -> Result<Vec<(String, Plate, Point, Colour)>, ChartError> {
        let mut clutter = Clutter::default();
        clutter.lines.extend(self.lines.iter().map(|line| self.line(&line.spent)));
        let met = || {
            let lines = self.lines.iter().zip(colours(self.lines));
            lines.flat_map(|(line, colour)| line.crossings.iter().map(move |at| (*at, colour)))
        };
        let point = |(year, amount): (f64, f64)| (self.years.at(year), self.amounts.at(amount));
        for ((x, y), _) in met().map(|(at, colour)| (point(at), colour)) {
            clutter.plates.push(Plate { left: x, top: y, right: x, bottom: y }.grown(6.0));
        }
        let bounds = Plate {
            left: LEFT + 4.0,
            top: self.amounts.to + 2.0,
            right: RIGHT - 4.0,
            bottom: self.amounts.from - 4.0,
        };
        let mut notes = Vec::new();
        for (at, colour) in met() {
            let words = format!("{:.1} years", at.0);
            let size = (canvas::width(&words, &Type::bold(12.0, colour))?, 13.0);
            if let Some(plate) = clutter.spot(size, point(at), bounds) {
                notes.push((words, plate, point(at), colour));
            }
        }
        Ok(notes)
    }

    /// Draws the swatches of the key: the base's line, a meeting point.
    pub(super) fn key(&self, canvas: &Canvas<'_>, entries: &[KeyEntry]) -> Result<(), ChartError> {
        for (i, entry) in entries.iter().enumerate() {
            let (x, y) = entry.swatch;
            match i {
                0 => canvas.path(&[(x, y), (x + 16.0, y)], Stroke(BASE, palette::INK))?,
                _ => canvas.ring((x + 8.0, y), 4.6, Stroke(1.8, palette::INK))?,
            }
        }
        Ok(())
    }

    /// Draws axes, lines, names and meeting points.
    pub(super) fn drawn(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        self.axes(canvas)?;
        let coloured: Vec<_> = self.lines.iter().zip(colours(self.lines)).collect();
        // The base last, so that it is not hidden where it meets another.
        let order = coloured.iter().filter(|(line, _)| !line.is_base);
        for (line, colour) in order.chain(coloured.iter().filter(|(line, _)| line.is_base)) {
            let width = if line.is_base { BASE } else { LINE };
            canvas.path(&self.line(&line.spent), Stroke(width, *colour))?;
        }
        for (words, plate, at, colour) in &self.notes {
            canvas.ring(*at, 4.6, Stroke(1.8, *colour))?;
            let kind = Type::bold(12.0, readable(*colour));
            let near = plate.nearest(*at);
            let (dx, dy) = (near.0 - at.0, near.1 - at.1);
            let far = dx.hypot(dy);
            if far > 16.0 {
                let start = (at.0 + dx / far * 6.5, at.1 + dy / far * 6.5);
                canvas.path(&[start, near], Stroke(0.9, kind.colour))?;
            }
            canvas.words(words, (plate.left, plate.bottom - 3.0), Align::Left, &kind)?;
        }
        self.names.iter().try_for_each(|name| name.drawn(canvas, RIGHT))
    }

    fn axes(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        for tick in numbers::ticks(self.amounts.low, self.amounts.high, self.step) {
            let y = self.amounts.at(tick);
            let stroke = if tick == 0.0 { Stroke(1.0, palette::AXIS) } else { Stroke(0.8, palette::GRID) };
            canvas.path(&[(LEFT, y), (RIGHT, y)], stroke)?;
            canvas.words(&money(self.currency, tick), (LEFT - 8.0, y + 4.1), Align::Right, &TICK)?;
        }
        let base = self.amounts.from;
        canvas.path(&[(LEFT, base), (RIGHT, base)], Stroke(1.0, palette::AXIS))?;
        for tick in numbers::ticks(0.0, self.years.high, numbers::step(self.years.high, 10.0).max(1.0)) {
            let x = self.years.at(tick);
            canvas.path(&[(x, base), (x, base + 4.0)], Stroke(1.0, palette::AXIS))?;
            canvas.words(&grouped(tick), (x, base + 17.0), Align::Middle, &TICK)?;
        }
        canvas.words("years from today", ((LEFT + RIGHT) / 2.0, base + 34.0), Align::Middle, &TICK)
    }
}
