//! One panel of the chart of prices paid: the market's steps, and a mark where each truck was paid.
//!
//! Start at [`DaysPanel`].

use super::ChartError;
use super::canvas::{self, Align, Canvas, Point, Stroke, Type};
use super::frame::{MARGIN, WIDTH};
use super::numbers::{self, Scale};
use super::palette;
use super::placing::Plate;
use super::price_days::PriceDaysPanel;

const NAME: Type = Type::bold(13.5, palette::INK);
const TICK: Type = Type::plain(11.5, palette::MUTED);
const PAID: Type = Type::bold(11.5, palette::DELIVERED);
const LEFT: f64 = MARGIN + 48.0;
const RIGHT: f64 = WIDTH - MARGIN - 8.0;
const HEADING: f64 = 42.0;
const PLOT: f64 = 130.0;
const MONTHS: f64 = 26.0;

/// A panel, ready to be drawn.
pub(super) struct DaysPanel<'a> {
    data: &'a PriceDaysPanel,
    months: &'a [(usize, String)],
    name: String,
    time: Scale,
    price: Scale,
    step: f64,
    notes: Vec<(String, Plate)>,
}

impl<'a> DaysPanel<'a> {
    /// Places everything below `top`.
    pub(super) fn laid_out(
        data: &'a PriceDaysPanel,
        months: &'a [(usize, String)],
        top: f64,
    ) -> Result<Self, ChartError> {
        let paid = data.paid.iter().map(|(_, price)| *price);
        let most = data.market.iter().copied().chain(paid).fold(0.01, f64::max);
        let base = top + HEADING + PLOT;
        let name = match data.mean_paid {
            Some(mean) => {
                format!("{}, {}; {mean:.2} paid on the mean of these deliveries", data.name, data.unit)
            }
            None => format!("{}, {}; no delivery", data.name, data.unit),
        };
        let mut panel = Self {
            data,
            months,
            name: canvas::wrapped(&name, &NAME, RIGHT - MARGIN, 1)?.concat(),
            time: Scale { low: 0.0, high: data.market.len() as f64, from: LEFT, to: RIGHT },
            // Prices begin at nothing, so that twice as dear looks twice as high; room above for words.
            price: Scale { low: 0.0, high: most * 1.2, from: base, to: top + HEADING },
            step: numbers::step(most, 5.0),
            notes: Vec::new(),
        };
        panel.notes = panel.placed_notes()?;
        Ok(panel)
    }

    /// Where the panel ends.
    pub(super) fn bottom(&self) -> f64 {
        self.price.from + MONTHS
    }

    fn at(&self, day: f64, price: f64) -> Point {
        (self.time.at(day), self.price.at(price))
    }

    /// The market day by day, in steps.
    fn line(&self) -> Vec<Point> {
        let days = self.data.market.iter().enumerate();
        days.flat_map(|(day, price)| [self.at(day as f64, *price), self.at(day as f64 + 1.0, *price)])
            .collect()
    }

    /// What each truck was paid, above its mark; words that would run into those before are left out.
    fn placed_notes(&self) -> Result<Vec<(String, Plate)>, ChartError> {
        let mut placed: Vec<(String, Plate)> = Vec::new();
        let mut free_from = LEFT;
        for (day, price) in &self.data.paid {
            let words = format!("{price:.2}");
            let width = canvas::width(&words, &PAID)?;
            let (x, y) = self.at(*day as f64, *price);
            let left = (x - width / 2.0).clamp(LEFT, RIGHT - width);
            if left >= free_from {
                let plate = Plate { left, top: y - 20.0, right: left + width, bottom: y - 7.5 };
                free_from = plate.right + 6.0;
                placed.push((words, plate));
            }
        }
        Ok(placed)
    }

    /// Draws the panel.
    pub(super) fn drawn(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        canvas.words(&self.name, (MARGIN, self.price.to - HEADING + 15.0), Align::Left, &NAME)?;
        self.draw_grid(canvas)?;
        canvas.path(&self.line(), Stroke(1.8, palette::line(0)))?;
        for (day, price) in &self.data.paid {
            canvas.ring(self.at(*day as f64, *price), 4.2, Stroke(2.2, palette::DELIVERED))?;
        }
        for (words, plate) in &self.notes {
            canvas.words(words, (plate.left, plate.bottom - 2.5), Align::Left, &PAID)?;
        }
        Ok(())
    }

    fn draw_grid(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        let decimals = (-self.step.log10().floor()).max(0.0) as usize;
        for tick in numbers::ticks(0.0, self.price.high, self.step) {
            let y = self.price.at(tick);
            canvas.path(&[(LEFT, y), (RIGHT, y)], Stroke(0.8, palette::GRID))?;
            canvas.words(&format!("{tick:.decimals$}"), (LEFT - 8.0, y + 4.1), Align::Right, &TICK)?;
        }
        let base = self.price.from;
        canvas.path(&[(LEFT, base), (RIGHT, base)], Stroke(1.0, palette::AXIS))?;
        let ends = self.months.iter().skip(1).map(|(day, _)| *day).chain([self.data.market.len()]);
        for ((day, name), end) in self.months.iter().zip(ends) {
            let (from, to) = (self.time.at(*day as f64), self.time.at(end as f64));
            canvas.path(&[(from, base), (from, base + 5.0)], Stroke(1.0, palette::AXIS))?;
            if canvas::width(name, &TICK)? + 4.0 < to - from {
                canvas.words(name, ((from + to) / 2.0, base + 17.0), Align::Middle, &TICK)?;
            }
        }
        Ok(())
    }
}
