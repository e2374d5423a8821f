//! Draws how far each input moves a difference: a bar an input about the line of now, the largest on top.
//!
//! Must not know what the inputs are. Start at [`SwayChart::draw`].

use super::ChartError;
use super::canvas::{self, Align, Canvas, Sheet, Stroke, Type};
use super::frame::{Frame, KeyEntry, MARGIN, WIDTH};
use super::numbers::{self, Scale, money};
use super::palette::{self, Colour};
use super::sway_bars::{SwayBar, SwayChart};

const NAME: Type = Type::bold(13.0, palette::INK);
const END: Type = Type::plain(11.5, palette::INK);
const TICK: Type = Type::plain(11.5, palette::MUTED);
const NOW: Type = Type::bold(12.5, palette::INK);
/// Names may take this much of the width.
const WIDEST_NAME: f64 = 220.0;
/// Room for the words at a bar's ends.
const WORDS: f64 = 150.0;
const BAR: f64 = 22.0;
const ROW: f64 = 38.0;
const LINE: f64 = 15.5;

/// The colours of the low end and the high end.
fn colours() -> [Colour; 2] {
    [palette::line(0), palette::line(1)]
}

/// Everything in its place.
struct Bars<'a> {
    data: &'a SwayChart,
    names: Vec<Vec<String>>,
    scale: Scale,
    top: f64,
}

impl SwayChart {
    /// Draws the chart as SVG, 960 pixels wide, with real text and a description for screen readers.
    ///
    /// The same values give the same bytes.
    ///
    /// # Errors
    /// [`ChartError::Empty`] without bars, [`ChartError::BadValue`] for an amount beyond ±10⁹.
    pub fn draw(&self) -> Result<String, ChartError> {
        self.checked()?;
        let key = ["low value".to_owned(), "high value".to_owned()];
        let frame = Frame::laid_out(&self.title, &self.subtitle, &key, &self.foot)?;
        let bars = Bars::laid_out(self, frame.body)?;
        let description = self.described();
        let height = bars.bottom() + frame.foot_height();
        let sheet = Sheet { width: WIDTH, height, title: &self.title, description: &description };
        canvas::picture(&sheet, |canvas| {
            frame.drawn(canvas, bars.bottom())?;
            key_drawn(canvas, &frame.key)?;
            bars.drawn(canvas)
        })
    }

    fn described(&self) -> String {
        let amount = |value: f64| money(&self.currency, value);
        let bar = |bar: &SwayBar| {
            let ((low, a), (high, b)) = (&bar.low, &bar.high);
            format!("{}: {} at {low}, {} at {high}.", bar.name, amount(*a), amount(*b))
        };
        let bars: Vec<String> = self.bars.iter().map(bar).collect();
        format!("As it is {}. {}", amount(self.now), bars.join(" "))
    }
}

fn key_drawn(canvas: &Canvas<'_>, entries: &[KeyEntry]) -> Result<(), ChartError> {
    for (entry, colour) in entries.iter().zip(colours()) {
        let (x, y) = entry.swatch;
        canvas.rectangle((x, y - 6.0), (x + 16.0, y + 6.0), colour, 1.0)?;
    }
    Ok(())
}

impl<'a> Bars<'a> {
    fn laid_out(data: &'a SwayChart, body: f64) -> Result<Self, ChartError> {
        let (mut names, mut widest) = (Vec::new(), 80.0_f64);
        for bar in &data.bars {
            let lines = canvas::wrapped(&bar.name, &NAME, WIDEST_NAME, 2)?;
            for line in &lines {
                widest = widest.max(canvas::width(line, &NAME)?);
            }
            names.push(lines);
        }
        let ends = || data.bars.iter().flat_map(|bar| [bar.low.1, bar.high.1]).chain([data.now, 0.0]);
        let (low, high) = (ends().fold(f64::INFINITY, f64::min), ends().fold(f64::NEG_INFINITY, f64::max));
        let step = numbers::step((high - low).max(1.0), 8.0);
        let (low, high) = ((low / step).floor() * step, (high / step).ceil() * step);
        let from = MARGIN + widest + 20.0 + WORDS;
        let scale = Scale { low, high: high.max(low + step), from, to: WIDTH - MARGIN - WORDS };
        Ok(Self { data, names, scale, top: body + 40.0 })
    }

    fn bottom(&self) -> f64 {
        self.top + ROW * self.data.bars.len() as f64 + 30.0
    }

    fn drawn(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        let base = self.bottom() - 24.0;
        let step = numbers::step(self.scale.high - self.scale.low, 8.0);
        for tick in numbers::ticks(self.scale.low, self.scale.high, step) {
            let x = self.scale.at(tick);
            let stroke = if tick == 0.0 { Stroke(1.4, palette::AXIS) } else { Stroke(0.8, palette::GRID) };
            canvas.path(&[(x, self.top - 6.0), (x, base)], stroke)?;
            canvas.words(&money(&self.data.currency, tick), (x, base + 15.0), Align::Middle, &TICK)?;
        }
        self.side_words(canvas)?;
        for (i, (bar, name)) in self.data.bars.iter().zip(&self.names).enumerate() {
            self.bar(canvas, bar, name, self.top + ROW * (i as f64 + 0.5))?;
        }
        let now = self.scale.at(self.data.now);
        canvas.path(&[(now, self.top - 6.0), (now, base)], Stroke(2.0, palette::INK))?;
        let words = format!("as it is {}", money(&self.data.currency, self.data.now));
        canvas.words(&words, (now, self.top - 12.0), Align::Middle, &NOW)
    }

    /// What is left and right of 0, where both are shown.
    fn side_words(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        let zero = self.scale.at(0.0);
        let [below, above] = &self.data.sides;
        let y = self.top - 28.0;
        if self.scale.low < 0.0 {
            let words = canvas::wrapped(&format!("\u{2190} {below}"), &TICK, (zero - MARGIN).max(60.0), 1)?;
            canvas.words(&words.concat(), (zero - 8.0, y), Align::Right, &TICK)?;
        }
        if self.scale.high > 0.0 {
            let room = (WIDTH - MARGIN - zero).max(60.0);
            let words = canvas::wrapped(&format!("{above} \u{2192}"), &TICK, room, 1)?;
            canvas.words(&words.concat(), (zero + 8.0, y), Align::Left, &TICK)?;
        }
        Ok(())
    }

    fn bar(
        &self,
        canvas: &Canvas<'_>,
        bar: &SwayBar,
        name: &[String],
        middle: f64,
    ) -> Result<(), ChartError> {
        let mut base = middle - name.len() as f64 * LINE / 2.0 + 12.0;
        for line in name {
            canvas.words(line, (MARGIN, base), Align::Left, &NAME)?;
            base += LINE;
        }
        let now = self.scale.at(self.data.now);
        let ends = [&bar.low, &bar.high];
        // The longer part first, so that a short one on the same side stays seen.
        let mut order: Vec<usize> = vec![0, 1];
        let far = |i: &usize| ends.get(*i).map_or(0.0, |end| (end.1 - self.data.now).abs());
        order.sort_by(|a, b| far(b).total_cmp(&far(a)));
        for i in order {
            let (Some((_, amount)), Some(colour)) = (ends.get(i), colours().get(i).copied()) else {
                continue;
            };
            let (left, right) = (now.min(self.scale.at(*amount)), now.max(self.scale.at(*amount)));
            canvas.rectangle((left, middle - BAR / 2.0), (right, middle + BAR / 2.0), colour, 1.0)?;
        }
        self.end_words(canvas, bar, middle)
    }

    /// The value at either end, outside the bar.
    fn end_words(&self, canvas: &Canvas<'_>, bar: &SwayBar, middle: f64) -> Result<(), ChartError> {
        let (left, right) =
            if bar.low.1 <= bar.high.1 { (&bar.low, &bar.high) } else { (&bar.high, &bar.low) };
        let now = self.data.now;
        let y = middle + 4.2;
        let words = |(value, _): &(String, f64)| -> Result<String, ChartError> {
            Ok(canvas::wrapped(value, &END, WORDS - 12.0, 1)?.concat())
        };
        let from = self.scale.at(left.1.min(now)) - 6.0;
        canvas.words(&words(left)?, (from, y), Align::Right, &END)?;
        let to = self.scale.at(right.1.max(now)) + 6.0;
        canvas.words(&words(right)?, (to, y), Align::Left, &END)
    }
}
