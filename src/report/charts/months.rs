//! Turns what each option costs month by month into one line an option.
//!
//! Must not know how a cost comes about. Start at [`MonthsChart`].

use super::ChartError;
use super::canvas::{self, Align, Canvas, Point, Sheet, Stroke, Type};
use super::end_labels::NAMES;
use super::frame::{Frame, MARGIN, WIDTH};
use super::line_names::{self, LineEnd, LineName};
use super::numbers::{self, Scale, money};
use super::palette;

const TICK: Type = Type::plain(11.5, palette::MUTED);
const LEFT: f64 = MARGIN + 66.0;
const RIGHT: f64 = WIDTH - MARGIN - NAMES - 16.0;
const PLOT: f64 = 320.0;
/// Beyond this an amount's digits leave no room.
const MOST: f64 = 1e9;

/// What several options cost, month by month.
#[derive(Debug, Clone, PartialEq)]
pub struct MonthsChart {
    /// What the chart shows, as a headline.
    pub title: String,
    /// A sentence more.
    pub subtitle: String,
    /// The sign put before amounts: `$`.
    pub currency: String,
    /// The months' names, in order.
    pub months: Vec<String>,
    /// One line an option, at least one.
    pub lines: Vec<MonthLine>,
    /// A remark under the chart; may be empty.
    pub foot: String,
}

/// One option.
#[derive(Debug, Clone, PartialEq)]
pub struct MonthLine {
    /// Its name.
    pub name: String,
    /// Its place among the options, which gives its colour.
    pub option: usize,
    /// What it costs in each month.
    pub amounts: Vec<f64>,
}

impl MonthsChart {
    /// Draws the chart as SVG, 960 pixels wide, with real text and a description for screen readers.
    ///
    /// # Errors
    /// [`ChartError::Empty`] without lines or with fewer than two months, [`ChartError::BadValue`] for
    /// lines of other lengths and amounts beyond ±10⁹.
    pub fn draw(&self) -> Result<String, ChartError> {
        self.checked()?;
        let frame = Frame::laid_out(&self.title, &self.subtitle, &[], &self.foot)?;
        let plot = Plot::laid_out(self, frame.body)?;
        let bottom = plot.amounts.from + 26.0;
        let description = self.described();
        let height = bottom + frame.foot_height();
        let sheet = Sheet { width: WIDTH, height, title: &self.title, description: &description };
        canvas::picture(&sheet, |canvas| {
            frame.drawn(canvas, bottom)?;
            plot.drawn(canvas)
        })
    }

    fn checked(&self) -> Result<(), ChartError> {
        if self.lines.is_empty() || self.months.len() < 2 {
            return Err(ChartError::Empty);
        }
        let fits = |line: &&MonthLine| {
            line.amounts.len() == self.months.len() && line.amounts.iter().all(|a| (-MOST..=MOST).contains(a))
        };
        match self.lines.iter().find(|line| !fits(line)) {
            Some(line) => Err(ChartError::BadValue(format!("the months of “{}”", line.name))),
            None => Ok(()),
        }
    }

    fn described(&self) -> String {
        let line = |line: &MonthLine| {
            let months = self.months.iter().zip(&line.amounts);
            let words: Vec<String> =
                months.map(|(month, amount)| format!("{month} {}", money(&self.currency, *amount))).collect();
            format!("{}: {}.", line.name, words.join(", "))
        };
        self.lines.iter().map(line).collect::<Vec<_>>().join(" ")
    }
}

struct Plot<'a> {
    chart: &'a MonthsChart,
    time: Scale,
    amounts: Scale,
    step: f64,
    names: Vec<LineName>,
}

impl<'a> Plot<'a> {
    fn laid_out(chart: &'a MonthsChart, top: f64) -> Result<Self, ChartError> {
        let all = || chart.lines.iter().flat_map(|line| line.amounts.iter().copied());
        let (low, high) = (all().fold(0.0, f64::min), all().fold(1.0, f64::max));
        let step = numbers::step(high - low, 6.0).max(2.0);
        let (low, high) = ((low / step).floor() * step, (high / step).ceil() * step);
        let top = top + 12.0;
        let mut plot = Self {
            chart,
            time: Scale { low: 0.0, high: chart.months.len() as f64, from: LEFT, to: RIGHT },
            amounts: Scale { low, high, from: top + PLOT, to: top },
            step,
            names: Vec::new(),
        };
        let ends = chart.lines.iter().filter_map(|line| {
            let end = plot.points(line).last().copied()?;
            Some(LineEnd { name: &line.name, amount: None, end, colour: palette::option(line.option) })
        });
        plot.names = line_names::placed(ends.collect(), top - 10.0, top + PLOT + 20.0)?;
        Ok(plot)
    }

    fn points(&self, line: &MonthLine) -> Vec<Point> {
        let point = |(m, amount): (usize, &f64)| (self.time.at(m as f64 + 0.5), self.amounts.at(*amount));
        line.amounts.iter().enumerate().map(point).collect()
    }

    fn drawn(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        for tick in numbers::ticks(self.amounts.low, self.amounts.high, self.step) {
            let y = self.amounts.at(tick);
            let stroke = if tick == 0.0 { Stroke(1.0, palette::AXIS) } else { Stroke(0.8, palette::GRID) };
            canvas.path(&[(LEFT, y), (RIGHT, y)], stroke)?;
            canvas.words(&money(&self.chart.currency, tick), (LEFT - 8.0, y + 4.1), Align::Right, &TICK)?;
        }
        for (m, month) in self.chart.months.iter().enumerate() {
            let at = (self.time.at(m as f64 + 0.5), self.amounts.from + 18.0);
            canvas.words(month, at, Align::Middle, &TICK)?;
        }
        for line in &self.chart.lines {
            let colour = palette::option(line.option);
            let points = self.points(line);
            canvas.path(&points, Stroke(2.2, colour))?;
            for point in points {
                canvas.ring(point, 3.0, Stroke(1.8, colour))?;
            }
        }
        self.names.iter().try_for_each(|name| name.drawn(canvas, RIGHT))
    }
}
