//! Turns the hours in which machines are not enough into bars, one pair an option.
//!
//! Must not know why they are not. Start at [`ShortHoursChart`].

use super::ChartError;
use super::canvas::{self, Align, Canvas, Sheet, Stroke, Type};
use super::frame::{Frame, MARGIN, WIDTH};
use super::numbers::{self, Scale, grouped};
use super::palette::{self, Colour};

const NAME: Type = Type::bold(13.5, palette::INK);
const AMOUNT: Type = Type::plain(12.0, palette::INK);
const TICK: Type = Type::plain(11.5, palette::MUTED);
const NAMES: f64 = 230.0;
const BAR: f64 = 13.0;
const ROW: f64 = 50.0;
const AXIS: f64 = 28.0;
/// A leap year has no more hours.
const MOST: f64 = 8784.0;

/// The hours in which the machines of several options are not enough.
#[derive(Debug, Clone, PartialEq)]
pub struct ShortHoursChart {
    /// What the chart shows, as a headline.
    pub title: String,
    /// A sentence more.
    pub subtitle: String,
    /// The options, at least one.
    pub options: Vec<ShortHours>,
    /// A remark under the chart; may be empty.
    pub foot: String,
}

/// One option.
#[derive(Debug, Clone, PartialEq)]
pub struct ShortHours {
    /// Its name.
    pub name: String,
    /// Hours in which backup heat helps.
    pub backup: f64,
    /// Hours in which rooms are too cold.
    pub cold: f64,
    /// The lowest room temperature, in words with its unit.
    pub lowest: Option<String>,
}

impl ShortHoursChart {
    /// Draws the chart as SVG, 960 pixels wide, with real text and a description for screen readers.
    ///
    /// # Errors
    /// [`ChartError::Empty`] without options, [`ChartError::BadValue`] for hours outside 0 to 8,784.
    pub fn draw(&self) -> Result<String, ChartError> {
        if self.options.is_empty() {
            return Err(ChartError::Empty);
        }
        let bad = |o: &&ShortHours| [o.backup, o.cold].iter().any(|h| !(0.0..=MOST).contains(h));
        if let Some(option) = self.options.iter().find(bad) {
            return Err(ChartError::BadValue(format!("the hours of “{}”", option.name)));
        }
        let key = ["backup heat helps".to_owned(), "rooms too cold".to_owned()];
        let frame = Frame::laid_out(&self.title, &self.subtitle, &key, &self.foot)?;
        let bottom = frame.body + ROW * self.options.len() as f64 + AXIS;
        let description = self.described();
        let height = bottom + frame.foot_height();
        let sheet = Sheet { width: WIDTH, height, title: &self.title, description: &description };
        canvas::picture(&sheet, |canvas| {
            frame.drawn(canvas, bottom)?;
            for (entry, colour) in frame.key.iter().zip([backup(), palette::ALARM]) {
                let (x, y) = entry.swatch;
                canvas.rectangle((x, y - 6.5), (x + 16.0, y + 6.5), colour, 1.0)?;
            }
            self.drawn(canvas, frame.body)
        })
    }

    fn described(&self) -> String {
        let option = |o: &ShortHours| {
            let low = o.lowest.as_ref().map_or(String::new(), |low| format!(", lowest room {low}"));
            format!("{}: backup heat {} h, too cold {} h{low}.", o.name, grouped(o.backup), grouped(o.cold))
        };
        self.options.iter().map(option).collect::<Vec<_>>().join(" ")
    }

    fn drawn(&self, canvas: &Canvas<'_>, top: f64) -> Result<(), ChartError> {
        let most = self.options.iter().map(|o| o.backup.max(o.cold)).fold(10.0, f64::max);
        let hours = Scale { low: 0.0, high: most, from: MARGIN + NAMES, to: WIDTH - MARGIN - 190.0 };
        let base = top + ROW * self.options.len() as f64;
        for tick in numbers::ticks(0.0, most, numbers::step(most, 6.0).max(1.0)) {
            let x = hours.at(tick);
            canvas.path(&[(x, top), (x, base)], Stroke(0.8, palette::GRID))?;
            canvas.words(&format!("{} h", grouped(tick)), (x, base + 18.0), Align::Middle, &TICK)?;
        }
        canvas.path(&[(hours.from, top), (hours.from, base)], Stroke(1.0, palette::AXIS))?;
        for (i, option) in self.options.iter().enumerate() {
            row(canvas, option, top + ROW * i as f64, &hours)?;
        }
        Ok(())
    }
}

fn backup() -> Colour {
    palette::end_use("backup heat")
}

fn row(canvas: &Canvas<'_>, option: &ShortHours, top: f64, hours: &Scale) -> Result<(), ChartError> {
    let lines = canvas::wrapped(&option.name, &NAME, NAMES - 16.0, 2)?;
    let mut base = top + ROW / 2.0 + 5.0 - 8.0 * (lines.len() as f64 - 1.0);
    for line in &lines {
        canvas.words(line, (MARGIN, base), Align::Left, &NAME)?;
        base += 16.0;
    }
    let low = option.lowest.as_ref().map_or(String::new(), |low| format!(", lowest room {low}"));
    let bars = [
        (option.backup, backup(), format!("{} h", grouped(option.backup))),
        (option.cold, palette::ALARM, format!("{} h{low}", grouped(option.cold))),
    ];
    for (i, (amount, colour, words)) in bars.into_iter().enumerate() {
        let y = top + ROW / 2.0 - BAR - 1.0 + i as f64 * (BAR + 2.0);
        if amount > 0.0 {
            canvas.rectangle((hours.from, y), (hours.at(amount), y + BAR), colour, 1.0)?;
        }
        canvas.words(&words, (hours.at(amount) + 6.0, y + 11.0), Align::Left, &AMOUNT)?;
    }
    Ok(())
}
