//! How wide the columns of a band are, so that no word of it is cut.
//!
//! Start at [`widths`].

use super::typeset::{Style, widest_word, width};
use crate::report::band::{Band, Entry};

/// Between two columns, shares of the letters' size.
pub(super) const GUTTER: f64 = 1.15;
/// How wide a bar is, shares of the letters' size.
const BAR: f64 = 9.0;
/// No column wishes to be wider, shares of the letters' size.
const WISHED: f64 = 17.0;
/// The longest name of an option that is not broken, shares of the letters' size.
const NAME: f64 = 13.0;
/// No column of names is narrower, shares of the letters' size.
const NAME_LEAST: f64 = 9.0;

/// Letters of a band.
#[derive(Debug, Clone, Copy)]
pub(super) struct Letters {
    /// Of entries.
    pub(super) body: Style,
    /// Of the column that counts most, and of names.
    pub(super) strong: Style,
    /// Of heads.
    pub(super) head: Style,
}

/// One width a column, the option's name first, together `room` with their gutters; narrower than their
/// words where that cannot be.
pub(super) fn widths(band: &Band, room: f64, letters: &Letters) -> Vec<f64> {
    let size = letters.body.size;
    let mut least = vec![name_least(band, letters)];
    let mut wished = vec![name_wished(band, letters)];
    for (place, head) in band.heads().enumerate() {
        let entries = || band.rows.iter().filter_map(|row| row.entries.get(place));
        let style = if band.strong == Some(place) { &letters.strong } else { &letters.body };
        let of = |measure: fn(&str, &Style) -> f64| {
            entries().map(|e| measure(e.shown(), style)).fold(0.0, f64::max)
        };
        let bar = if entries().any(|e| matches!(e, Entry::Bar { .. })) { BAR * size } else { 0.0 };
        let own = if head.figures { of(width).min(12.0 * size) } else { of(widest_word) };
        let narrow = own.max(widest_word(&head.words, &letters.head)).max(bar);
        least.push(narrow);
        wished.push(
            narrow.max(of(width).min(WISHED * size)).max(width(&head.words, &letters.head).min(8.0 * size)),
        );
    }
    let room = room - GUTTER * size * (least.len() - 1) as f64;
    shared(&least, &wished, room)
}

/// Whether no word is cut.
pub(super) fn fits(band: &Band, room: f64, letters: &Letters) -> bool {
    let widths = widths(band, room, letters);
    let words = |words: &str, style: &Style, room: f64| widest_word(words, style) <= room + 0.01;
    let heads = band.heads().zip(widths.iter().skip(1)).all(|(h, w)| words(&h.words, &letters.head, *w));
    heads
        && band.rows.iter().all(|row| {
            row.entries.iter().zip(widths.iter().skip(1)).all(|(e, w)| words(e.shown(), &letters.body, *w))
        })
}

fn name_least(band: &Band, letters: &Letters) -> f64 {
    let name = Style { bold: true, ..letters.body };
    let widest = band.rows.iter().map(|row| widest_word(&row.option, &name));
    widest.fold(NAME_LEAST * letters.body.size, f64::max).min(NAME * letters.body.size)
}

fn name_wished(band: &Band, letters: &Letters) -> f64 {
    let name = Style { bold: true, ..letters.body };
    let widest = band.rows.iter().map(|row| width(&row.option, &name)).fold(0.0, f64::max);
    widest.min(NAME * letters.body.size).max(name_least(band, letters))
}

/// Each its least, then each alike of what it lacks; what nobody lacks is spread evenly, but for the
/// names, so that they end at the same place in every band.
fn shared(least: &[f64], wished: &[f64], room: f64) -> Vec<f64> {
    let taken: f64 = least.iter().sum();
    if taken >= room {
        return least.iter().map(|w| w * room / taken).collect();
    }
    let lacks: Vec<f64> = wished.iter().zip(least).map(|(w, l)| w - l).collect();
    let lacking: f64 = lacks.iter().sum();
    let given = ((room - taken) / lacking.max(1e-9)).min(1.0);
    let spare = (room - taken - lacking).max(0.0) / (least.len() as f64 - 1.0).max(1.0);
    let widths = least.iter().zip(&lacks).map(|(l, lack)| l + lack * given);
    widths.enumerate().map(|(i, width)| if i == 0 { width } else { width + spare }).collect()
}
