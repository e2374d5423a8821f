//! The panels of a price history: what was paid, what the season is, what could follow.
//!
//! Start at [`Panels`].

use super::ChartError;
use super::canvas::{self, Align, Canvas, Point, Stroke, Type};
use super::frame::{MARGIN, WIDTH};
use super::numbers::{self, Scale};
use super::palette::{self, Colour};
use super::past_prices::{HistoryChart, PriceRange};

const TICK: Type = Type::plain(11.5, palette::MUTED);
const NAME: Type = Type::bold(13.5, palette::INK);
const LEFT: f64 = MARGIN + 44.0;
const RIGHT: f64 = WIDTH - MARGIN - 8.0;
/// Where the left of the two lower panels ends and the right one begins.
const PARTED: (f64, f64) = (WIDTH * 0.40, WIDTH * 0.40 + 70.0);
const HEADING: f64 = 34.0;
const PLOT: f64 = 210.0;
const UNDER: f64 = 30.0;
/// Opacity of ranges.
pub(super) const RANGE: f64 = 0.2;

/// The colour of what was paid.
pub(super) fn paid() -> Colour {
    palette::line(0)
}

/// The colour of spikes.
pub(super) fn spike() -> Colour {
    palette::line(1)
}

/// The colour of what could follow.
pub(super) fn ahead() -> Colour {
    palette::line(3)
}

/// All three, placed.
pub(super) struct Panels<'a> {
    data: &'a HistoryChart,
    past: Plot,
    season: Plot,
    ahead: Plot,
}

/// Axes of one panel.
struct Plot {
    name: &'static str,
    across: Scale,
    price: Scale,
    step: f64,
}

impl Plot {
    fn new(
        name: &'static str,
        (from, to): (f64, f64),
        top: f64,
        ends: (f64, f64),
        prices: (f64, f64),
    ) -> Self {
        let step = numbers::step((prices.1 - prices.0).max(0.01), 6.0);
        let low = (prices.0 / step).floor() * step;
        let high = (prices.1 / step).ceil().max(low / step + 1.0) * step;
        let across = Scale { low: ends.0, high: ends.1, from, to };
        let price = Scale { low, high, from: top + HEADING + PLOT, to: top + HEADING };
        Self { name, across, price, step }
    }

    fn at(&self, (time, price): (f64, f64)) -> Point {
        (self.across.at(time), self.price.at(price))
    }

    fn axes(&self, canvas: &Canvas<'_>, unit: &str) -> Result<(), ChartError> {
        let (left, right) = (self.across.from, self.across.to);
        let decimals = (-self.step.log10().floor()).max(0.0) as usize;
        for tick in numbers::ticks(self.price.low, self.price.high, self.step) {
            let y = self.price.at(tick);
            canvas.path(&[(left, y), (right, y)], Stroke(0.8, palette::GRID))?;
            canvas.words(&format!("{tick:.decimals$}"), (left - 8.0, y + 4.1), Align::Right, &TICK)?;
        }
        let base = self.price.from;
        canvas.path(&[(left, base), (right, base)], Stroke(1.0, palette::AXIS))?;
        let name =
            canvas::wrapped(&format!("{}, {unit}", self.name), &NAME, right - left + 40.0, 1)?.concat();
        canvas.words(&name, (left - 40.0, self.price.to - 14.0), Align::Left, &NAME)
    }

    fn mark(&self, canvas: &Canvas<'_>, at: f64, words: &str) -> Result<(), ChartError> {
        canvas.words(words, (self.across.at(at), self.price.from + 17.0), Align::Middle, &TICK)
    }
}

fn ends(values: impl Iterator<Item = f64>) -> (f64, f64) {
    values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| (low.min(value), high.max(value)))
}

fn of_ranges<'r>(ranges: impl Iterator<Item = &'r PriceRange>) -> (f64, f64) {
    ends(ranges.flat_map(|range| [range.low, range.high]))
}

impl<'a> Panels<'a> {
    /// Places everything below `top`.
    pub(super) fn laid_out(data: &'a HistoryChart, top: f64) -> Self {
        let times = ends(data.past().map(|(time, _)| time));
        let shown = data.past().map(|(_, price)| price).chain([data.rest.low, data.rest.high]);
        let past =
            Plot::new("What was paid", (LEFT, RIGHT), top, (times.0 - 0.2, times.1 + 0.2), ends(shown));
        let below = past.price.from + UNDER + 14.0;
        let season = of_ranges(data.season.iter().map(|(_, range)| range));
        let count = data.season.len() as f64;
        let season = Plot::new("The months, at rest", (LEFT, PARTED.0), below, (0.0, count.max(1.0)), season);
        let last = data.ahead.len() as f64 - 1.0;
        let next = of_ranges(data.ahead.iter());
        let ahead = Plot::new("The winter that could follow", (PARTED.1, RIGHT), below, (0.0, last), next);
        Self { data, past, season, ahead }
    }

    /// Where the panels end.
    pub(super) fn bottom(&self) -> f64 {
        self.season.price.from + UNDER
    }

    /// Draws them.
    pub(super) fn drawn(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        self.draw_past(canvas)?;
        self.draw_season(canvas)?;
        self.draw_ahead(canvas)
    }

    fn draw_past(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        let plot = &self.past;
        plot.axes(canvas, &self.data.unit)?;
        let PriceRange { low, middle, high } = self.data.rest;
        let ((left, upper), (right, lower)) =
            (plot.at((plot.across.low, high)), plot.at((plot.across.high, low)));
        canvas.rectangle((left, upper), (right, lower), palette::HOURS, RANGE)?;
        let y = plot.price.at(middle);
        canvas.path(&[(left, y), (right, y)], Stroke(1.2, palette::MUTED))?;
        for winter in &self.data.winters {
            let line: Vec<Point> = winter.iter().map(|at| plot.at(*at)).collect();
            canvas.path(&line, Stroke(1.6, paid()))?;
        }
        for at in &self.data.spikes {
            canvas.ring(plot.at(*at), 4.2, Stroke(2.0, spike()))?;
        }
        let step = numbers::step(plot.across.high - plot.across.low, 12.0).max(1.0).round();
        for year in numbers::ticks(plot.across.low, plot.across.high, step) {
            plot.mark(canvas, year, &format!("{year:.0}"))?;
        }
        Ok(())
    }

    fn draw_season(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        let plot = &self.season;
        plot.axes(canvas, &self.data.unit)?;
        for (place, (name, range)) in self.data.season.iter().enumerate() {
            let at = place as f64 + 0.5;
            let (x, upper) = plot.at((at, range.high));
            let lower = plot.price.at(range.low);
            canvas.rectangle((x - 9.0, upper), (x + 9.0, lower), paid(), 2.0 * RANGE)?;
            let y = plot.price.at(range.middle);
            canvas.path(&[(x - 9.0, y), (x + 9.0, y)], Stroke(2.2, paid()))?;
            plot.mark(canvas, at, name)?;
        }
        Ok(())
    }

    fn draw_ahead(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        let plot = &self.ahead;
        plot.axes(canvas, &self.data.unit)?;
        let line = |of: fn(&PriceRange) -> f64| -> Vec<Point> {
            self.data.ahead.iter().enumerate().map(|(week, r)| plot.at((week as f64, of(r)))).collect()
        };
        let outline = line(|range| range.high).into_iter().chain(line(|range| range.low).into_iter().rev());
        canvas.shape(&outline.collect::<Vec<_>>(), ahead(), RANGE)?;
        canvas.path(&line(|range| range.middle), Stroke(2.0, ahead()))?;
        for (week, name) in &self.data.ahead_months {
            let x = plot.across.at(*week as f64);
            canvas.path(&[(x, plot.price.from), (x, plot.price.from + 5.0)], Stroke(1.0, palette::AXIS))?;
            plot.mark(canvas, *week as f64 + 2.0, name)?;
        }
        Ok(())
    }
}
