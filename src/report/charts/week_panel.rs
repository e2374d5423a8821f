//! One panel of the coldest week: two lines of temperature above, two layers of heat below.
//!
//! Start at [`WeekPanel`].

use super::ChartError;
use super::canvas::{self, Align, Canvas, Point, Stroke, Type};
use super::frame::{MARGIN, WIDTH};
use super::numbers::{self, Scale, grouped};
use super::palette;
use super::week_curves::{WeekChart, WeekOption};

const NAME: Type = Type::bold(13.5, palette::INK);
const TICK: Type = Type::plain(11.5, palette::MUTED);
const LEFT: f64 = MARGIN + 62.0;
const RIGHT: f64 = WIDTH - MARGIN;
const HEADING: f64 = 40.0;
const TEMPERATURES: f64 = 120.0;
const BETWEEN: f64 = 16.0;
const HEATS: f64 = 84.0;
const DAYS: f64 = 26.0;

/// A panel, ready to be drawn.
pub(super) struct WeekPanel<'a> {
    chart: &'a WeekChart,
    option: &'a WeekOption,
    name: String,
    time: Scale,
    temperature: Scale,
    heat: Scale,
}

impl<'a> WeekPanel<'a> {
    /// Places everything below `top`.
    pub(super) fn laid_out(
        chart: &'a WeekChart,
        option: &'a WeekOption,
        top: f64,
    ) -> Result<Self, ChartError> {
        let hours = chart.outdoor.len() as f64;
        let of = |start: f64, with: fn(f64, f64) -> f64| {
            chart.outdoor.iter().chain(chart.options.iter().flat_map(|o| &o.room)).copied().fold(start, with)
        };
        let (low, high) = (of(f64::INFINITY, f64::min), of(f64::NEG_INFINITY, f64::max));
        let step = numbers::step((high - low).max(1.0), 4.0);
        let (low, high) = ((low / step).floor() * step, (high / step).ceil() * step);
        let both = |o: &WeekOption| o.first.iter().zip(&o.others).map(|(a, b)| a + b).fold(0.0, f64::max);
        let most = chart.options.iter().map(both).fold(1e-6, f64::max);
        let upper = top + HEADING + TEMPERATURES;
        let lower = upper + BETWEEN + HEATS;
        Ok(Self {
            chart,
            option,
            name: canvas::wrapped(&option.name, &NAME, RIGHT - MARGIN, 1)?.concat(),
            time: Scale { low: 0.0, high: hours, from: LEFT, to: RIGHT },
            temperature: Scale { low, high: high.max(low + step), from: upper, to: top + HEADING },
            heat: Scale { low: 0.0, high: most * 1.05, from: lower, to: upper + BETWEEN },
        })
    }

    /// Where the panel ends.
    pub(super) fn bottom(&self) -> f64 {
        self.heat.from + DAYS
    }

    /// Draws the panel.
    pub(super) fn drawn(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        let top = self.temperature.to - HEADING;
        let colour = palette::option(self.option.option);
        canvas.rectangle((MARGIN, top + 10.0), (MARGIN + 4.0, top + 26.0), colour, 1.0)?;
        canvas.words(&self.name, (MARGIN + 12.0, top + 22.5), Align::Left, &NAME)?;
        self.grid(canvas)?;
        let sums: Vec<f64> = self.option.first.iter().zip(&self.option.others).map(|(a, b)| a + b).collect();
        let nothing = vec![0.0; sums.len()];
        self.layer(canvas, &self.option.first, &nothing, (palette::option(0), 0.75))?;
        self.layer(canvas, &sums, &self.option.first, (palette::end_use("backup heat"), 1.0))?;
        let line = |list: &[f64]| -> Vec<Point> {
            let point = |(h, t): (usize, &f64)| (self.time.at(h as f64 + 0.5), self.temperature.at(*t));
            list.iter().enumerate().map(point).collect()
        };
        canvas.path(&line(&self.chart.outdoor), Stroke(1.6, palette::MUTED))?;
        canvas.path(&line(&self.option.room), Stroke(2.4, palette::INK))
    }

    /// Steps of heat between two levels.
    fn layer(
        &self,
        canvas: &Canvas<'_>,
        upper: &[f64],
        lower: &[f64],
        (colour, opacity): (palette::Colour, f64),
    ) -> Result<(), ChartError> {
        if upper.iter().zip(lower).all(|(high, low)| high <= low) {
            return Ok(());
        }
        let steps = |list: &[f64]| -> Vec<Point> {
            let hour = |(h, heat): (usize, &f64)| {
                let y = self.heat.at(*heat);
                [(self.time.at(h as f64), y), (self.time.at(h as f64 + 1.0), y)]
            };
            list.iter().enumerate().flat_map(hour).collect()
        };
        let outline: Vec<Point> = steps(upper).into_iter().chain(steps(lower).into_iter().rev()).collect();
        canvas.shape(&outline, colour, opacity)
    }

    fn grid(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        let span = self.temperature.high - self.temperature.low;
        for (scale, most, unit) in [
            (&self.temperature, 4.0, &self.chart.temperature_unit),
            (&self.heat, 3.0, &self.chart.power_unit),
        ] {
            let step = numbers::step(if most == 4.0 { span } else { scale.high }, most);
            for tick in numbers::ticks(scale.low, scale.high, step) {
                let y = scale.at(tick);
                canvas.path(&[(LEFT, y), (RIGHT, y)], Stroke(0.8, palette::GRID))?;
                let words = if step < 1.0 { format!("{tick:.1}") } else { grouped(tick) };
                canvas.words(&words, (LEFT - 8.0, y + 4.1), Align::Right, &TICK)?;
            }
            canvas.words(unit, (LEFT + 2.0, scale.to - 4.0), Align::Left, &TICK)?;
        }
        let base = self.heat.from;
        canvas.path(&[(LEFT, base), (RIGHT, base)], Stroke(1.0, palette::AXIS))?;
        for (d, day) in self.chart.days.iter().enumerate() {
            let x = self.time.at(24.0 * d as f64);
            canvas.path(&[(x, self.temperature.to), (x, base + 5.0)], Stroke(0.8, palette::GRID))?;
            canvas.words(day, (self.time.at(24.0 * d as f64 + 12.0), base + 17.0), Align::Middle, &TICK)?;
        }
        Ok(())
    }
}
