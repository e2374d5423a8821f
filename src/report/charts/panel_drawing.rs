//! Draws a panel whose parts have found their places: grid, hours, marks, bands, lines, words.
//!
//! Decides nothing about places. Start at `drawn`.

use super::ChartError;
use super::canvas::{self, Align, Canvas, Point, Stroke, Type};
use super::curves::MachineCurve;
use super::end_labels::{FACT, NAME_LINE, NAME_SIZE, cold_end, readable};
use super::frame::MARGIN;
use super::numbers::{self, grouped};
use super::palette::{self, Colour};
use super::panel::{LEFT, MARK, Panel, RIGHT, TICK, ZONE, inside};

/// The load line.
pub(super) const LOAD: Stroke = Stroke(4.0, palette::INK);
/// Width of a machine's line.
pub(super) const MACHINE: f64 = 2.2;
/// Opacity of the band between least and greatest output.
pub(super) const BAND: f64 = 0.13;

/// A balance point as the panel shows it.
pub(super) fn ring(canvas: &Canvas<'_>, at: Point, colour: Colour) -> Result<(), ChartError> {
    canvas.ring(at, 4.6, Stroke(1.8, colour))
}

impl Panel<'_> {
    /// Draws the panel.
    pub(super) fn drawn(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        canvas.words(&self.zone.0, (MARGIN, self.zone.1), Align::Left, &ZONE)?;
        self.draw_grid(canvas)?;
        self.draw_hours(canvas)?;
        self.draw_temperatures(canvas)?;
        self.draw_marks(canvas)?;
        self.draw_bands(canvas)?;
        self.draw_lines(canvas)?;
        self.draw_names(canvas)?;
        self.notes.iter().try_for_each(|note| note.drawn(canvas))
    }

    fn draw_grid(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        for tick in numbers::ticks(0.0, self.power.high, self.power_step) {
            let y = self.power.at(tick);
            let stroke = if tick == 0.0 { Stroke(1.0, palette::AXIS) } else { Stroke(0.8, palette::GRID) };
            canvas.path(&[(LEFT, y), (RIGHT, y)], stroke)?;
            let places = (-self.power_step.log10().floor()).max(0.0) as usize;
            let text = if places > 0 { format!("{tick:.places$}") } else { grouped(tick) };
            canvas.words(&text, (LEFT - 8.0, y + 4.1), Align::Right, &TICK)?;
        }
        let base = self.power.to - 12.0;
        let unit = canvas::wrapped(self.units.1, &TICK, LEFT - MARGIN - 8.0, 1)?.concat();
        canvas.words(&unit, (LEFT - 8.0, base), Align::Right, &TICK)
    }

    fn draw_hours(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        let (base, low, high) = (self.hours.from, self.temperature.low, self.temperature.high);
        let bin = self.data.bin().unwrap_or(high - low);
        for (middle, hours) in self.data.hours.iter().filter(|b| inside((low, high), b.0) && b.1 > 0.0) {
            let left = self.temperature.at((middle - bin / 2.0).max(low));
            let right = self.temperature.at((middle + bin / 2.0).min(high));
            let gap = ((right - left) * 0.1).min(1.5);
            let top = self.hours.at(*hours);
            canvas.rectangle((left + gap, top), (right - gap, base), palette::HOURS, 1.0)?;
        }
        if self.data.hours.is_empty() {
            return Ok(());
        }
        canvas.words(&grouped(self.hours.high), (LEFT - 8.0, self.hours.to + 8.0), Align::Right, &TICK)?;
        canvas.words("0", (LEFT - 8.0, base + 1.0), Align::Right, &TICK)?;
        let step = format!("{bin:.1}");
        let words = format!("hours a year in each {} {} step", step.trim_end_matches(".0"), self.units.0);
        let middle = (self.hours.from + self.hours.to) / 2.0;
        canvas.words(&words, (RIGHT + 16.0, middle + 4.0), Align::Left, &TICK)
    }

    fn draw_temperatures(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        let (base, low, high) = (self.hours.from, self.temperature.low, self.temperature.high);
        canvas.path(&[(LEFT, base), (RIGHT, base)], Stroke(1.0, palette::AXIS))?;
        let step = numbers::step(high - low, 12.0).max(1.0);
        for tick in numbers::ticks(low, high, step) {
            let x = self.temperature.at(tick);
            canvas.path(&[(x, base), (x, base + 4.0)], Stroke(1.0, palette::AXIS))?;
            canvas.words(&grouped(tick), (x, base + 17.0), Align::Middle, &TICK)?;
        }
        let words = format!("outdoor temperature, {}", self.units.0);
        canvas.words(&words, ((LEFT + RIGHT) / 2.0, base + 34.0), Align::Middle, &TICK)
    }

    fn draw_marks(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        for (mark, over) in self.data.marks.iter().zip(&self.marks) {
            let x = self.temperature.at(mark.temperature);
            let top = self.power.to - 4.0;
            dashes(canvas, x, top, self.hours.from)?;
            let near = x.clamp(over.middle - over.half, over.middle + over.half);
            canvas.path(&[(near, top - 6.0), (x, top)], Stroke(0.9, palette::MUTED))?;
            canvas.words(&over.words, (over.middle, top - 10.0), Align::Middle, &MARK)?;
        }
        Ok(())
    }

    fn draw_bands(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        // Bands lie over each other: several are paler, or they would add up to mud.
        let bands = self.data.machines.iter().filter(|machine| machine.least.is_some()).count();
        let opacity = BAND / (bands.max(1) as f64).powf(0.7);
        for machine in &self.data.machines {
            let Some(least) = machine.least.as_deref() else { continue };
            let (upper, lower) = overlap(&machine.greatest, least);
            if upper.len() < 2 {
                continue;
            }
            let outline: Vec<Point> =
                self.line(&upper).into_iter().chain(self.line(&lower).into_iter().rev()).collect();
            canvas.shape(&outline, palette::option(machine.option), opacity)?;
        }
        Ok(())
    }

    fn draw_lines(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        for machine in &self.data.machines {
            let stroke = Stroke(MACHINE, palette::option(machine.option));
            self.draw_greatest(canvas, machine, stroke)?;
            if let Some(end) = cold_end(machine, self.data) {
                let (x, y) = self.at(end);
                canvas.path(&[(x, y - 6.0), (x, y + 6.0)], stroke)?;
            }
        }
        canvas.path(&self.line(&self.data.load), LOAD)?;
        for balance in &self.data.balances {
            ring(canvas, self.at((balance.temperature, balance.load)), self.colour_of(&balance.machine))?;
        }
        Ok(())
    }

    /// The line, dashed where the machine is on or off by whether it was off before.
    fn draw_greatest(
        &self,
        canvas: &Canvas<'_>,
        machine: &MachineCurve,
        stroke: Stroke,
    ) -> Result<(), ChartError> {
        let line = &machine.greatest;
        let again = machine.on_again.and_then(|t| Some((t, value(line, t)?)));
        let Some((split, at_split)) = again else { return canvas.path(&self.line(line), stroke) };
        let mut on = vec![(split, at_split)];
        on.extend(line.iter().filter(|point| point.0 > split));
        canvas.path(&self.line(&on), stroke)?;
        let mut from = line.first().map_or(split, |end| end.0);
        let kelvin = (self.temperature.high - self.temperature.low) / (RIGHT - LEFT);
        while from < split {
            let to = (from + 4.0 * kelvin).min(split);
            let ends = [from, to].into_iter().filter_map(|t| Some((t, value(line, t)?)));
            canvas.path(&self.line(&ends.collect::<Vec<_>>()), stroke)?;
            from += 8.0 * kelvin;
        }
        Ok(())
    }

    fn draw_names(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        for label in &self.names {
            let elbow = (RIGHT + 12.0, label.middle);
            canvas.path(&[(label.from.0 + 2.0, label.from.1), elbow], Stroke(0.9, label.colour))?;
            let kind = Type::bold(NAME_SIZE, readable(label.colour));
            let rows = label
                .lines
                .iter()
                .map(|line| (line, &kind))
                .chain(label.facts.iter().map(|line| (line, &FACT)));
            let count = label.lines.len() + label.facts.len();
            let top = label.middle - count as f64 * NAME_LINE / 2.0;
            for (row, (line, kind)) in rows.enumerate() {
                let base = top + row as f64 * NAME_LINE + 12.2;
                canvas.words(line, (RIGHT + 16.0, base), Align::Left, kind)?;
            }
        }
        Ok(())
    }
}

/// An upright line of short dashes.
fn dashes(canvas: &Canvas<'_>, x: f64, top: f64, bottom: f64) -> Result<(), ChartError> {
    let mut y = top;
    while y < bottom {
        canvas.path(&[(x, y), (x, (y + 3.0).min(bottom))], Stroke(0.9, palette::MUTED))?;
        y += 6.0;
    }
    Ok(())
}

/// Both lines at every temperature where either has a point, as far as both reach.
fn overlap(a: &[Point], b: &[Point]) -> (Vec<Point>, Vec<Point>) {
    let mut temperatures: Vec<f64> = a.iter().chain(b).map(|point| point.0).collect();
    temperatures.sort_by(f64::total_cmp);
    temperatures.dedup();
    let both = temperatures.into_iter().filter_map(|t| Some(((t, value(a, t)?), (t, value(b, t)?))));
    both.unzip()
}

/// The value of a line at a temperature; none beyond its ends.
fn value(line: &[(f64, f64)], t: f64) -> Option<f64> {
    line.windows(2).find_map(|pair| match pair {
        [a, b] if a.0 <= t && t <= b.0 => Some(a.1 + (t - a.0) / (b.0 - a.0) * (b.1 - a.1)),
        _ => None,
    })
}
