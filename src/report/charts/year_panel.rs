//! The upper panel of a weather year's chart: the daily range through the year.
//!
//! Places words before it draws. Start at [`YearPanel`].

use super::ChartError;
use super::canvas::{self, Align, Canvas, Point, Stroke, Type};
use super::frame::{MARGIN, WIDTH};
use super::notes::Note;
use super::numbers::{self, Scale, grouped};
use super::palette::{self, Colour};
use super::placing::{self, Clutter, Plate};
use super::year_curves::{Moment, WeatherYearChart};

pub(super) const TICK: Type = Type::plain(11.5, palette::MUTED);
const LEVEL: Type = Type::plain(12.0, palette::INK);
pub(super) const LEFT: f64 = MARGIN + 44.0;
/// Room for the words of levels, right of the plot.
const WORDS: f64 = 172.0;
const RIGHT: f64 = WIDTH - MARGIN - WORDS - 14.0;
const PLOT: f64 = 300.0;
/// Opacity of the daily range.
pub(super) const BAND: f64 = 0.26;
/// Width of the line of means.
pub(super) const MEAN: f64 = 1.4;
/// Opacity of the coldest spell.
pub(super) const SPELL: f64 = 0.2;

/// The colour of the line of means.
pub(super) fn mean_colour() -> Colour {
    palette::line(0).mixed(palette::INK, 0.45)
}

/// The panel, ready to be drawn.
pub(super) struct YearPanel<'a> {
    data: &'a WeatherYearChart,
    time: Scale,
    temperature: Scale,
    step: f64,
    levels: Vec<LevelWords>,
    notes: Vec<Note>,
}

/// Words of a level right of the plot.
struct LevelWords {
    lines: Vec<String>,
    middle: f64,
    y: f64,
}

impl<'a> YearPanel<'a> {
    /// Places everything below `top`.
    pub(super) fn laid_out(data: &'a WeatherYearChart, top: f64) -> Result<Self, ChartError> {
        let lows = data.days.iter().map(|day| day.low);
        let highs = data.days.iter().map(|day| day.high);
        let levels = data.levels.iter().map(|level| level.temperature);
        let least = lows.chain(levels.clone()).fold(f64::INFINITY, f64::min);
        let most = highs.chain(levels).fold(f64::NEG_INFINITY, f64::max);
        let step = numbers::step((most - least).max(1.0) * 1.1, 13.0);
        // Whole steps, and under the coldest hour room for its words.
        let low = ((least - 0.16 * (most - least) - 0.2 * step) / step).floor() * step;
        let high = ((most + 0.2 * step) / step).ceil() * step;
        let mut panel = Self {
            data,
            time: Scale { low: 0.0, high: data.days.len() as f64, from: LEFT, to: RIGHT },
            temperature: Scale { low, high, from: top + 18.0 + PLOT, to: top + 18.0 },
            step,
            levels: Vec::new(),
            notes: Vec::new(),
        };
        panel.levels = panel.placed_levels()?;
        panel.notes = panel.placed_notes()?;
        Ok(panel)
    }

    /// Where the panel ends.
    pub(super) fn bottom(&self) -> f64 {
        self.temperature.from + 34.0
    }

    fn at(&self, day: f64, temperature: f64) -> Point {
        (self.time.at(day), self.temperature.at(temperature))
    }

    /// A line through the middles of the days.
    fn line(&self, of: fn(&super::year_curves::DayRange) -> f64) -> Vec<Point> {
        self.data.days.iter().enumerate().map(|(i, day)| self.at(i as f64 + 0.5, of(day))).collect()
    }

    fn placed_levels(&self) -> Result<Vec<LevelWords>, ChartError> {
        let mut levels = Vec::new();
        for level in &self.data.levels {
            let words =
                format!("{} {} {}", level.label, grouped(level.temperature), self.data.temperature_unit);
            let y = self.temperature.at(level.temperature);
            levels.push(LevelWords { lines: canvas::wrapped(&words, &LEVEL, WORDS, 2)?, middle: y, y });
        }
        let wanted: Vec<f64> = levels.iter().map(|level| level.y).collect();
        let sizes: Vec<f64> = levels.iter().map(|level| level.lines.len() as f64 * 15.0 + 5.0).collect();
        let ends = (self.temperature.to - 4.0, self.temperature.from + 8.0);
        for (level, middle) in levels.iter_mut().zip(placing::spread(&wanted, &sizes, ends.0, ends.1)) {
            level.middle = middle;
        }
        Ok(levels)
    }

    fn placed_notes(&self) -> Result<Vec<Note>, ChartError> {
        let mut clutter = Clutter::default();
        clutter.lines.extend([
            self.line(|day| day.low),
            self.line(|day| day.high),
            self.line(|day| day.mean),
        ]);
        for level in &self.levels {
            clutter.lines.push(vec![(LEFT, level.y), (RIGHT, level.y)]);
        }
        for Moment { day, temperature, .. } in &self.data.moments {
            let (x, y) = self.at(*day, *temperature);
            clutter.plates.push(Plate { left: x, top: y, right: x, bottom: y }.grown(6.0));
        }
        let moments =
            self.data.moments.iter().map(|m| (&m.words, self.at(m.day, m.temperature), palette::INK));
        let spell = self.data.spell.iter().map(|spell| {
            let anchor = (self.time.at((spell.from + spell.to) / 2.0), self.temperature.from - 14.0);
            (&spell.words, anchor, palette::line(3))
        });
        let (upper_left, lower_right) = ((LEFT, self.temperature.to), (RIGHT, self.temperature.from));
        let mut notes = Vec::new();
        for (words, anchor, colour) in moments.chain(spell) {
            let kind = Type::bold(12.0, colour);
            let words = canvas::wrapped(words, &kind, (RIGHT - LEFT) * 0.6, 1)?.concat();
            notes.extend(Note::placed((words, anchor, colour), &mut clutter, upper_left, lower_right)?);
        }
        Ok(notes)
    }

    /// Draws the panel.
    pub(super) fn drawn(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        self.draw_grid(canvas)?;
        self.draw_months(canvas)?;
        self.draw_spell(canvas)?;
        self.draw_days(canvas)?;
        self.draw_levels(canvas)?;
        for moment in &self.data.moments {
            canvas.ring(self.at(moment.day, moment.temperature), 4.2, Stroke(1.8, palette::INK))?;
        }
        self.notes.iter().try_for_each(|note| note.drawn(canvas))
    }

    fn draw_grid(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        for tick in numbers::ticks(self.temperature.low, self.temperature.high, self.step) {
            let y = self.temperature.at(tick);
            canvas.path(&[(LEFT, y), (RIGHT, y)], Stroke(0.8, palette::GRID))?;
            canvas.words(&grouped(tick), (LEFT - 8.0, y + 4.1), Align::Right, &TICK)?;
        }
        let unit = canvas::wrapped(&self.data.temperature_unit, &TICK, LEFT - MARGIN - 8.0, 1)?.concat();
        canvas.words(&unit, (LEFT - 8.0, self.temperature.to - 12.0), Align::Right, &TICK)
    }

    fn draw_months(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        let base = self.temperature.from;
        canvas.path(&[(LEFT, base), (RIGHT, base)], Stroke(1.0, palette::AXIS))?;
        let ends = self.data.months.iter().skip(1).map(|(day, _)| *day).chain([self.data.days.len()]);
        for ((day, name), end) in self.data.months.iter().zip(ends) {
            let (from, to) = (self.time.at(*day as f64), self.time.at(end as f64));
            canvas.path(&[(from, base), (from, base + 5.0)], Stroke(1.0, palette::AXIS))?;
            if canvas::width(name, &TICK)? + 4.0 < to - from {
                canvas.words(name, ((from + to) / 2.0, base + 17.0), Align::Middle, &TICK)?;
            }
        }
        Ok(())
    }

    fn draw_spell(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        let Some(spell) = &self.data.spell else { return Ok(()) };
        let (from, to) = (self.time.at(spell.from), self.time.at(spell.to));
        // A spell of hours would be a hair's breadth: it is shown at least 3 pixels wide.
        let (middle, half) = ((from + to) / 2.0, ((to - from) / 2.0).max(1.5));
        let (top, bottom) = (self.temperature.to, self.temperature.from);
        canvas.rectangle((middle - half, top), (middle + half, bottom), palette::line(3), SPELL)
    }

    fn draw_days(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        let lows = self.line(|day| day.low);
        let outline: Vec<Point> =
            self.line(|day| day.high).into_iter().chain(lows.into_iter().rev()).collect();
        canvas.shape(&outline, palette::line(0), BAND)?;
        canvas.path(&self.line(|day| day.mean), Stroke(MEAN, mean_colour()))
    }

    fn draw_levels(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        for level in &self.levels {
            let mut x = LEFT;
            while x < RIGHT {
                canvas.path(&[(x, level.y), ((x + 4.0).min(RIGHT), level.y)], Stroke(0.9, palette::MUTED))?;
                x += 8.0;
            }
            canvas.path(&[(RIGHT, level.y), (RIGHT + 10.0, level.middle)], Stroke(0.9, palette::MUTED))?;
            let top = level.middle - level.lines.len() as f64 * 15.0 / 2.0;
            for (row, line) in level.lines.iter().enumerate() {
                canvas.words(line, (RIGHT + 14.0, top + row as f64 * 15.0 + 11.7), Align::Left, &LEVEL)?;
            }
        }
        Ok(())
    }
}
