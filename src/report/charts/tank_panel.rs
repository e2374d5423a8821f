//! One panel of the chart of stores: the level through the year, its deliveries and dry days.
//!
//! Places words before it draws. Start at [`StorePanel`].

use super::ChartError;
use super::canvas::{self, Align, Canvas, Point, Stroke, Type};
use super::frame::{MARGIN, WIDTH};
use super::numbers::{self, Scale, grouped};
use super::palette;
use super::placing::{self, Plate};
use super::tank_levels::TankPanel;

const NAME: Type = Type::bold(13.5, palette::INK);
const TICK: Type = Type::plain(11.5, palette::MUTED);
const LEVEL: Type = Type::plain(12.0, palette::INK);
const AMOUNT: Type = Type::bold(11.5, palette::DELIVERED);
const DRY: Type = Type::bold(12.0, palette::ALARM);
const LEFT: f64 = MARGIN + 48.0;
/// Room for the words of levels, right of the plot.
const WORDS: f64 = 116.0;
const RIGHT: f64 = WIDTH - MARGIN - WORDS;
const HEADING: f64 = 42.0;
const PLOT: f64 = 150.0;
const MONTHS: f64 = 26.0;

/// A panel, ready to be drawn.
pub(super) struct StorePanel<'a> {
    data: &'a TankPanel,
    months: &'a [(usize, String)],
    name: String,
    time: Scale,
    amount: Scale,
    labels: Vec<(String, f64, f64)>,
    notes: Vec<(String, Plate, Type)>,
}

impl<'a> StorePanel<'a> {
    /// Places everything below `top`.
    pub(super) fn laid_out(
        data: &'a TankPanel,
        months: &'a [(usize, String)],
        top: f64,
    ) -> Result<Self, ChartError> {
        let base = top + HEADING + PLOT;
        let mut panel = Self {
            data,
            months,
            name: canvas::wrapped(&heading(data), &NAME, RIGHT - MARGIN, 1)?.concat(),
            time: Scale { low: 0.0, high: data.levels.len() as f64, from: LEFT, to: RIGHT },
            // Above the full store there is room for the words of deliveries.
            amount: Scale { low: 0.0, high: data.full * 1.12, from: base, to: top + HEADING },
            labels: Vec::new(),
            notes: Vec::new(),
        };
        panel.labels = panel.placed_labels()?;
        panel.notes = panel.placed_notes()?;
        Ok(panel)
    }

    /// Where the panel ends.
    pub(super) fn bottom(&self) -> f64 {
        self.amount.from + MONTHS
    }

    fn at(&self, day: f64, amount: f64) -> Point {
        (self.time.at(day), self.amount.at(amount.max(0.0)))
    }

    /// The level with its jumps.
    fn line(&self) -> Vec<Point> {
        let mut deliveries = self.data.deliveries.iter().peekable();
        let mut points = Vec::new();
        if deliveries.peek().is_none_or(|first| first.0 > 0) {
            points.push(self.at(0.0, self.data.start));
        }
        for (day, level) in self.data.levels.iter().enumerate() {
            while let Some((_, before, amount)) = deliveries.next_if(|delivery| delivery.0 <= day) {
                points.extend([self.at(day as f64, *before), self.at(day as f64, before + amount)]);
            }
            points.push(self.at(day as f64 + 1.0, *level));
        }
        points
    }

    fn levels(&self) -> [(&'static str, f64); 3] {
        [("full", self.data.full), ("order at", self.data.reorder), ("reserve", self.data.reserve)]
    }

    fn placed_labels(&self) -> Result<Vec<(String, f64, f64)>, ChartError> {
        let wanted = self.levels().map(|(_, amount)| self.amount.at(amount));
        let middles = placing::spread(&wanted, &[16.0; 3], self.amount.to - 4.0, self.amount.from + 8.0);
        let words =
            self.levels().map(|(name, amount)| format!("{name} {} {}", self.shown(amount), self.data.unit));
        let mut labels = Vec::new();
        for ((words, y), middle) in words.into_iter().zip(wanted).zip(middles) {
            labels.push((canvas::wrapped(&words, &LEVEL, WORDS - 16.0, 1)?.concat(), y, middle));
        }
        Ok(labels)
    }

    /// How much came, above the bars where all of it finds room; and dry spells above that.
    fn placed_notes(&self) -> Result<Vec<(String, Plate, Type)>, ChartError> {
        let brought = self.data.deliveries.iter();
        let brought = brought.map(|(day, _, amount)| (format!("+{}", self.shown(*amount)), *day as f64));
        let brought: Vec<_> = brought.collect();
        let mut notes = self.in_a_row(&brought, self.amount.at(self.data.full) - 3.0, AMOUNT)?;
        if notes.len() < brought.len() {
            notes.clear();
        }
        let spells = self.data.dry_spells().into_iter().map(|(from, to)| {
            let words = match to - from {
                1 => "dry 1 day".to_owned(),
                days => format!("dry {days} days"),
            };
            (words, (from + to) as f64 / 2.0)
        });
        notes.extend(self.in_a_row(&spells.collect::<Vec<_>>(), self.amount.to - 3.0, DRY)?);
        Ok(notes)
    }

    /// Words centred over their days; those that would run into the ones before are left out.
    fn in_a_row(
        &self,
        words: &[(String, f64)],
        bottom: f64,
        kind: Type,
    ) -> Result<Vec<(String, Plate, Type)>, ChartError> {
        let mut placed: Vec<(String, Plate, Type)> = Vec::new();
        let mut free_from = LEFT;
        for (words, day) in words {
            let width = canvas::width(words, &kind)?;
            let left = (self.time.at(*day) - width / 2.0).clamp(LEFT, RIGHT - width);
            if left >= free_from {
                let plate = Plate { left, top: bottom - 12.5, right: left + width, bottom };
                free_from = plate.right + 6.0;
                placed.push((words.clone(), plate, kind));
            }
        }
        Ok(placed)
    }

    /// An amount; of a store that holds little, with a decimal.
    fn shown(&self, amount: f64) -> String {
        if self.data.full < 20.0 { format!("{amount:.1}") } else { grouped(amount) }
    }

    /// Draws the panel.
    pub(super) fn drawn(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        let top = self.amount.to - HEADING;
        canvas.words(&self.name, (MARGIN, top + 15.0), Align::Left, &NAME)?;
        self.draw_grid(canvas)?;
        self.draw_dry(canvas)?;
        let line = self.line();
        let (first, last) = (self.at(0.0, 0.0), self.at(self.time.high, 0.0));
        let outline: Vec<Point> = std::iter::once(first).chain(line.iter().copied()).chain([last]).collect();
        canvas.shape(&outline, palette::line(0), 0.14)?;
        self.draw_levels(canvas)?;
        canvas.path(&line, Stroke(1.6, palette::line(0)))?;
        for (day, before, amount) in &self.data.deliveries {
            let ends = [self.at(*day as f64, *before), self.at(*day as f64, before + amount)];
            canvas.path(&ends, Stroke(2.4, palette::DELIVERED))?;
        }
        for (words, plate, kind) in &self.notes {
            canvas.words(words, (plate.left, plate.bottom - 2.5), Align::Left, kind)?;
        }
        Ok(())
    }

    fn draw_grid(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        let step = numbers::step(self.data.full, 5.0);
        for tick in numbers::ticks(0.0, self.data.full, step) {
            let y = self.amount.at(tick);
            canvas.path(&[(LEFT, y), (RIGHT, y)], Stroke(0.8, palette::GRID))?;
            canvas.words(&grouped(tick), (LEFT - 8.0, y + 4.1), Align::Right, &TICK)?;
        }
        let base = self.amount.from;
        canvas.path(&[(LEFT, base), (RIGHT, base)], Stroke(1.0, palette::AXIS))?;
        let ends = self.months.iter().skip(1).map(|(day, _)| *day).chain([self.data.levels.len()]);
        for ((day, name), end) in self.months.iter().zip(ends) {
            let (from, to) = (self.time.at(*day as f64), self.time.at(end as f64));
            canvas.path(&[(from, base), (from, base + 5.0)], Stroke(1.0, palette::AXIS))?;
            if canvas::width(name, &TICK)? + 4.0 < to - from {
                canvas.words(name, ((from + to) / 2.0, base + 17.0), Align::Middle, &TICK)?;
            }
        }
        Ok(())
    }

    fn draw_dry(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        for (from, to) in self.data.dry_spells() {
            let (from, to) = (self.time.at(from as f64), self.time.at(to as f64));
            let ends = ((from, self.amount.to), (to.max(from + 1.5), self.amount.from));
            canvas.rectangle(ends.0, ends.1, palette::ALARM, 0.22)?;
        }
        Ok(())
    }

    fn draw_levels(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        for (words, y, middle) in &self.labels {
            let mut x = LEFT;
            while x < RIGHT {
                canvas.path(&[(x, *y), ((x + 4.0).min(RIGHT), *y)], Stroke(0.9, palette::MUTED))?;
                x += 8.0;
            }
            canvas.path(&[(RIGHT, *y), (RIGHT + 10.0, *middle)], Stroke(0.9, palette::MUTED))?;
            canvas.words(words, (RIGHT + 14.0, middle + 4.2), Align::Left, &LEVEL)?;
        }
        Ok(())
    }
}

fn heading(data: &TankPanel) -> String {
    match data.deliveries.len() {
        0 => format!("{}, no delivery", data.name),
        1 => format!("{}, 1 delivery", data.name),
        many => format!("{}, {many} deliveries", data.name),
    }
}
