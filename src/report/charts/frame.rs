//! What every chart has around it: title, subtitle, key and foot, broken into lines before drawing.
//!
//! Knows words and swatches, not what is charted. Start at [`Frame`].

use super::ChartError;
use super::canvas::{self, Align, Canvas, Point, Type};
use super::palette;

/// Width of every chart in pixels.
pub(super) const WIDTH: f64 = 960.0;
/// White left and right.
pub(super) const MARGIN: f64 = 32.0;

const TITLE: Type = Type::bold(21.0, palette::INK);
const SUBTITLE: Type = Type::plain(13.5, palette::MUTED);
const FOOT: Type = Type::plain(11.5, palette::MUTED);
/// Words of the key.
pub(super) const KEY: Type = Type::plain(12.5, palette::INK);

const TITLE_LINE: f64 = 27.0;
const SUBTITLE_LINE: f64 = 19.0;
const FOOT_LINE: f64 = 16.0;
const KEY_LINE: f64 = 22.0;
/// From the left of a swatch to its words.
const SWATCH: f64 = 22.0;
/// From the words to the next swatch.
const KEY_GAP: f64 = 18.0;

/// One entry of a key: where its swatch's middle stands (from the top of the key), and its words.
pub(super) struct KeyEntry {
    /// The left end and the middle height of the swatch, which is 16 pixels wide.
    pub(super) swatch: Point,
    words: String,
}

/// Title, subtitle, key and foot, laid out.
pub(super) struct Frame {
    title: Vec<String>,
    subtitle: Vec<String>,
    /// The key's entries, in the order given.
    pub(super) key: Vec<KeyEntry>,
    foot: Vec<String>,
    /// Where the chart itself begins.
    pub(super) body: f64,
}

impl Frame {
    /// Breaks the words into lines; `key` are the words of the key's entries.
    pub(super) fn laid_out(title: &str, subtitle: &str, key: &[String], foot: &str) -> Result<Self, ChartError> {
        let widest = WIDTH - 2.0 * MARGIN;
        let lines = |text: &str, kind: &Type| match text.trim() {
            "" => Ok(Vec::new()),
            text => canvas::wrapped(text, kind, widest, 3),
        };
        let (title, subtitle) = (lines(title, &TITLE)?, lines(subtitle, &SUBTITLE)?);
        let top = 22.0 + title.len() as f64 * TITLE_LINE + subtitle.len() as f64 * SUBTITLE_LINE + 10.0;
        let (key, below) = flowed(key, top)?;
        Ok(Self { title, subtitle, key, foot: lines(foot, &FOOT)?, body: below + 14.0 })
    }

    /// The height of the foot with the white about it.
    pub(super) fn foot_height(&self) -> f64 {
        26.0 + self.foot.len() as f64 * FOOT_LINE
    }

    /// Writes everything; `bottom` is where the chart itself ends. Swatches are the caller's.
    pub(super) fn drawn(&self, canvas: &Canvas<'_>, bottom: f64) -> Result<(), ChartError> {
        let mut y = 22.0;
        for line in &self.title {
            y += TITLE_LINE;
            canvas.words(line, (MARGIN, y - 5.0), Align::Left, &TITLE)?;
        }
        for line in &self.subtitle {
            y += SUBTITLE_LINE;
            canvas.words(line, (MARGIN, y - 3.0), Align::Left, &SUBTITLE)?;
        }
        for entry in &self.key {
            let at = (entry.swatch.0 + SWATCH, entry.swatch.1 + 4.5);
            canvas.words(&entry.words, at, Align::Left, &KEY)?;
        }
        for (row, line) in self.foot.iter().enumerate() {
            canvas.words(line, (MARGIN, bottom + 26.0 + row as f64 * FOOT_LINE), Align::Left, &FOOT)?;
        }
        Ok(())
    }
}

/// Sets the entries one after another, starting a new row where one does not fit.
fn flowed(words: &[String], top: f64) -> Result<(Vec<KeyEntry>, f64), ChartError> {
    let (mut x, mut y) = (MARGIN, top + KEY_LINE / 2.0);
    let mut entries = Vec::with_capacity(words.len());
    for text in words {
        let text = canvas::wrapped(text, &KEY, WIDTH - 2.0 * MARGIN - SWATCH, 1)?.concat();
        let length = SWATCH + canvas::width(&text, &KEY)?;
        if x > MARGIN && x + length > WIDTH - MARGIN {
            (x, y) = (MARGIN, y + KEY_LINE);
        }
        entries.push(KeyEntry { swatch: (x, y), words: text });
        x += length + KEY_GAP;
    }
    let below = if words.is_empty() { top } else { y + KEY_LINE / 2.0 };
    Ok((entries, below))
}
