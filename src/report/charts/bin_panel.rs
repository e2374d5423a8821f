//! The lower panel of a weather year's chart: hours in each step of temperature.
//!
//! Start at [`BinPanel`].

use super::ChartError;
use super::canvas::{self, Align, Canvas, Stroke, Type};
use super::frame::{MARGIN, WIDTH};
use super::numbers::{self, Scale, grouped};
use super::palette;
use super::year_curves::WeatherYearChart;
use super::year_panel::{LEFT, TICK, mean_colour};

const COUNT: Type = Type::plain(10.5, palette::INK);
const RIGHT: f64 = WIDTH - MARGIN;
const PLOT: f64 = 150.0;

/// The panel, ready to be drawn.
pub(super) struct BinPanel<'a> {
    data: &'a WeatherYearChart,
    temperature: Scale,
    hours: Scale,
    step: f64,
    bin: f64,
    counts: bool,
}

impl<'a> BinPanel<'a> {
    /// Places everything below `top`.
    pub(super) fn laid_out(data: &'a WeatherYearChart, top: f64) -> Result<Self, ChartError> {
        let gaps = data.hours.windows(2).filter_map(|pair| match pair {
            [a, b] => Some(b.0 - a.0),
            _ => None,
        });
        let bin = gaps.fold(f64::INFINITY, f64::min);
        let ends = (data.hours.first(), data.hours.last());
        let (low, high) = (ends.0.map_or(0.0, |b| b.0) - bin / 2.0, ends.1.map_or(0.0, |b| b.0) + bin / 2.0);
        let most = data.hours.iter().map(|b| b.1).fold(1.0, f64::max);
        let step = numbers::step(most * 1.1, 4.0);
        let plot_top = top + 40.0;
        let temperature = Scale { low, high, from: LEFT, to: RIGHT };
        let slot = bin / (high - low) * (RIGHT - LEFT);
        let mut counts = true;
        for (_, hours) in &data.hours {
            counts &= canvas::width(&grouped(*hours), &COUNT)? + 3.0 < slot;
        }
        let high = (most * 1.1 / step).ceil() * step;
        let hours = Scale { low: 0.0, high, from: plot_top + PLOT, to: plot_top };
        Ok(Self { data, temperature, hours, step, bin, counts })
    }

    /// Where the panel ends.
    pub(super) fn bottom(&self) -> f64 {
        self.hours.from + 40.0
    }

    /// Draws the panel.
    pub(super) fn drawn(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        for tick in numbers::ticks(0.0, self.hours.high, self.step) {
            let y = self.hours.at(tick);
            let stroke = if tick == 0.0 { Stroke(1.0, palette::AXIS) } else { Stroke(0.8, palette::GRID) };
            canvas.path(&[(LEFT, y), (RIGHT, y)], stroke)?;
            canvas.words(&grouped(tick), (LEFT - 8.0, y + 4.1), Align::Right, &TICK)?;
        }
        canvas.words("hours", (LEFT - 8.0, self.hours.to - 12.0), Align::Right, &TICK)?;
        self.draw_bars(canvas)?;
        self.draw_temperatures(canvas)
    }

    fn draw_bars(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        for (middle, hours) in self.data.hours.iter().filter(|bin| bin.1 > 0.0) {
            let left = self.temperature.at(middle - self.bin / 2.0);
            let right = self.temperature.at(middle + self.bin / 2.0);
            let gap = ((right - left) * 0.1).min(1.5);
            let cold = *middle < self.data.freezing;
            let colour = if cold { mean_colour() } else { palette::HOURS };
            let top = self.hours.at(*hours);
            canvas.rectangle((left + gap, top), (right - gap, self.hours.from), colour, 1.0)?;
            if self.counts {
                canvas.words(&grouped(*hours), ((left + right) / 2.0, top - 4.0), Align::Middle, &COUNT)?;
            }
        }
        Ok(())
    }

    fn draw_temperatures(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        let base = self.hours.from;
        let (low, high) = (self.temperature.low, self.temperature.high);
        let step = numbers::step(high - low, 14.0).max(1.0);
        for tick in numbers::ticks(low, high, step) {
            let x = self.temperature.at(tick);
            canvas.path(&[(x, base), (x, base + 4.0)], Stroke(1.0, palette::AXIS))?;
            canvas.words(&grouped(tick), (x, base + 17.0), Align::Middle, &TICK)?;
        }
        let step = format!("{:.1}", self.bin);
        let unit = &self.data.temperature_unit;
        let words = format!(
            "outdoor temperature, {unit}; hours in each step of {} {unit}; dark: below freezing",
            step.trim_end_matches(".0")
        );
        let words = canvas::wrapped(&words, &TICK, RIGHT - LEFT, 1)?.concat();
        canvas.words(&words, ((LEFT + RIGHT) / 2.0, base + 34.0), Align::Middle, &TICK)
    }
}
