//! Draws which of two options costs less over a field of two prices: the line on which they cost the
//! same, lines on which one costs so much less, and prices with a name.
//!
//! Must not know where the amounts come from. Start at [`PriceChart::draw`].

use super::ChartError;
use super::canvas::{self, Align, Canvas, Point, Sheet, Stroke, Type};
use super::contour::contour;
use super::end_labels::readable;
use super::frame::{Frame, KeyEntry, MARGIN, WIDTH};
use super::notes::Note;
use super::numbers::{self, Scale, money};
use super::palette::{self, Colour};
use super::placing::{Clutter, Plate};
use super::price_plane::{PriceAxis, PriceChart};

const TICK: Type = Type::plain(11.5, palette::MUTED);
const LEFT: f64 = MARGIN + 66.0;
const RIGHT: f64 = WIDTH - MARGIN - 8.0;
const PLOT: f64 = 420.0;
/// The line on which both cost the same.
const LEVEL: f64 = 3.4;
/// Lines on which one costs so much less.
const STEP: f64 = 1.1;
/// At most so many of those, on both sides together.
const STEPS: f64 = 8.0;

/// Everything in its place.
struct Plane<'a> {
    data: &'a PriceChart,
    across: Scale,
    up: Scale,
    /// Amount, line, colour.
    lines: Vec<(f64, Vec<Point>, Colour)>,
    notes: Vec<Note>,
}

impl PriceChart {
    /// Draws the chart as SVG, 960 pixels wide, with real text and a description for screen readers.
    ///
    /// The same values give the same bytes.
    ///
    /// # Errors
    /// [`ChartError::Empty`] for a field of fewer than two by two, [`ChartError::BadValue`] for rows of
    /// different lengths, amounts beyond ±10⁹, prices below 0 or marks outside the field.
    pub fn draw(&self) -> Result<String, ChartError> {
        self.checked()?;
        let [first, second] = &self.options;
        let step = money(&self.currency, self.step());
        let key = [
            "the two cost the same".to_owned(),
            format!("{first} costs less, by {step} more a year from line to line"),
            format!("{second} costs less"),
        ];
        let frame = Frame::laid_out(&self.title, &self.subtitle, &key, &self.foot)?;
        let plane = Plane::laid_out(self, frame.body)?;
        let description = self.described();
        let height = plane.bottom() + frame.foot_height();
        let sheet = Sheet { width: WIDTH, height, title: &self.title, description: &description };
        canvas::picture(&sheet, |canvas| {
            frame.drawn(canvas, plane.bottom())?;
            key_drawn(canvas, &frame.key, self.places)?;
            plane.drawn(canvas)
        })
    }

    /// From one line to the next.
    fn step(&self) -> f64 {
        let all = || self.costs_more.iter().flatten().copied();
        let span = all().fold(f64::NEG_INFINITY, f64::max) - all().fold(f64::INFINITY, f64::min);
        numbers::step(span.max(1.0), STEPS)
    }

    fn described(&self) -> String {
        let mark = |m: &super::price_plane::PriceMark| {
            format!("{}: {} across, {} up.", m.name, plain(m.at.0), plain(m.at.1))
        };
        let marks: Vec<String> = self.marks.iter().map(mark).collect();
        let [first, second] = &self.options;
        format!(
            "Across: {}. Up: {}. A line parts the prices at which {first} costs less from those at which {second} \
             does. {}",
            self.across.words,
            self.up.words,
            marks.join(" ")
        )
    }
}

/// A price with as many digits as it needs, three at most after the point.
fn plain(price: f64) -> String {
    let text = format!("{price:.3}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

fn key_drawn(canvas: &Canvas<'_>, entries: &[KeyEntry], places: [usize; 2]) -> Result<(), ChartError> {
    let [first, second] = places.map(palette::option);
    let strokes = [Stroke(LEVEL, palette::INK), Stroke(STEP, first), Stroke(STEP, second)];
    for (entry, stroke) in entries.iter().zip(strokes) {
        let (x, y) = entry.swatch;
        canvas.path(&[(x, y), (x + 16.0, y)], stroke)?;
    }
    Ok(())
}

impl<'a> Plane<'a> {
    /// Places everything below `top`.
    fn laid_out(data: &'a PriceChart, top: f64) -> Result<Self, ChartError> {
        let ((low, high), (least, most)) = (data.across.ends, data.up.ends);
        let plot_top = top + 22.0;
        let across = Scale { low, high, from: LEFT, to: RIGHT };
        let up = Scale { low: least, high: most, from: plot_top + PLOT, to: plot_top };
        let mut plane = Self { data, across, up, lines: Vec::new(), notes: Vec::new() };
        plane.lines = plane.all_lines();
        plane.notes = plane.placed_notes()?;
        Ok(plane)
    }

    /// Where the chart ends.
    fn bottom(&self) -> f64 {
        self.up.from + 40.0
    }

    /// Column and row of the field as a point of the sheet.
    fn point(&self, (column, row): Point) -> Point {
        let share = |at: f64, count: usize| at / (count.max(2) - 1) as f64;
        let columns = self.data.costs_more.first().map_or(0, Vec::len);
        let along = |scale: &Scale, share: f64| scale.from + share * (scale.to - scale.from);
        let rows = self.data.costs_more.len();
        (along(&self.across, share(column, columns)), along(&self.up, share(row, rows)))
    }

    fn all_lines(&self) -> Vec<(f64, Vec<Point>, Colour)> {
        let step = self.data.step();
        let all = || self.data.costs_more.iter().flatten().copied();
        let (low, high) = (all().fold(f64::INFINITY, f64::min), all().fold(f64::NEG_INFINITY, f64::max));
        let levels = numbers::ticks(low, high, step).into_iter().filter(|level| level.abs() > step / 2.0);
        let [first, second] = self.data.places.map(palette::option);
        let mut lines = Vec::new();
        for level in levels.chain([0.0]) {
            let colour = match level {
                0.0 => palette::INK,
                below if below < 0.0 => first,
                _ => second,
            };
            for line in contour(&self.data.costs_more, level) {
                lines.push((level, line.into_iter().map(|at| self.point(at)).collect(), colour));
            }
        }
        lines
    }

    /// Words beside the marks, then the amounts of the lines, each where there is room.
    fn placed_notes(&self) -> Result<Vec<Note>, ChartError> {
        let mut clutter = Clutter::default();
        clutter.lines.extend(self.lines.iter().map(|(_, line, _)| line.clone()));
        let marks: Vec<Point> =
            self.data.marks.iter().map(|m| (self.across.at(m.at.0), self.up.at(m.at.1))).collect();
        for (x, y) in &marks {
            clutter.plates.push(Plate { left: *x, top: *y, right: *x, bottom: *y }.grown(6.0));
        }
        let corners = ((LEFT, self.up.to), (RIGHT, self.up.from));
        let mut notes = Vec::new();
        for (i, (mark, at)) in self.data.marks.iter().zip(&marks).enumerate() {
            let words = (mark.name.clone(), *at, mark_colour(i));
            notes.extend(Note::placed(words, &mut clutter, corners.0, corners.1)?);
        }
        for (level, line, colour) in &self.lines {
            let Some(middle) = line.get(line.len() / 2) else { continue };
            let words = match *level {
                0.0 => "the same".to_owned(),
                level => money(&self.data.currency, level.abs()),
            };
            let words = (words, *middle, readable(*colour));
            notes.extend(Note::placed(words, &mut clutter, corners.0, corners.1)?);
        }
        Ok(notes)
    }

    fn drawn(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        self.axes(canvas)?;
        for (level, line, colour) in &self.lines {
            let width = if *level == 0.0 { LEVEL } else { STEP };
            canvas.path(line, Stroke(width, *colour))?;
        }
        for (i, mark) in self.data.marks.iter().enumerate() {
            let at = (self.across.at(mark.at.0), self.up.at(mark.at.1));
            canvas.ring(at, 4.6, Stroke(if i == 0 { 2.6 } else { 1.6 }, mark_colour(i)))?;
        }
        self.notes.iter().try_for_each(|note| note.drawn(canvas))
    }

    fn axes(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        let (left, base) = (LEFT, self.up.from);
        let ticks = |scale: &Scale, most: f64| {
            let step = numbers::step(scale.high - scale.low, most);
            let decimals = (-step.log10().floor()).max(0.0) as usize;
            let ticks = numbers::ticks(scale.low, scale.high, step).into_iter();
            ticks.map(|tick| (tick, format!("{tick:.decimals$}"))).collect::<Vec<_>>()
        };
        for (tick, words) in ticks(&self.up, 7.0) {
            let y = self.up.at(tick);
            canvas.path(&[(left, y), (RIGHT, y)], Stroke(0.8, palette::GRID))?;
            canvas.words(&words, (left - 8.0, y + 4.1), Align::Right, &TICK)?;
        }
        for (tick, words) in ticks(&self.across, 10.0) {
            let x = self.across.at(tick);
            canvas.path(&[(x, self.up.to), (x, base)], Stroke(0.8, palette::GRID))?;
            canvas.words(&words, (x, base + 17.0), Align::Middle, &TICK)?;
        }
        canvas.path(&[(left, self.up.to), (left, base), (RIGHT, base)], Stroke(1.0, palette::AXIS))?;
        let PriceAxis { words, .. } = &self.data.up;
        canvas.words(words, (MARGIN, self.up.to - 10.0), Align::Left, &TICK)?;
        let across = &self.data.across.words;
        canvas.words(across, ((left + RIGHT) / 2.0, base + 34.0), Align::Middle, &TICK)
    }
}

/// Today's prices in ink, the others step back.
fn mark_colour(place: usize) -> Colour {
    if place == 0 { palette::INK } else { palette::MUTED }
}
