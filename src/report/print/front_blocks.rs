//! The blocks of page one: letterhead, facts, options side by side.
//!
//! Start at [`Flow::band`].

use super::band_columns::{GUTTER, Letters, widths};
use super::flow::{Flow, INK, LEADING, RULE, muted, style};
use super::paper::Area;
use super::pieces::{Ink, Part};
use super::typeset::{Style, lines, width};
use crate::report::band::{Band, BandRow, Entry};
use crate::report::front::Fact;
use crate::report::logo::Logo;

/// The largest logo, points.
const LOGO: (f64, f64) = (150.0, 34.0);
/// The coloured stripe before an option, and the gap after it, points.
const STRIPE: (f64, f64) = (3.0, 5.0);
/// Height of a line of a band over the size of its letters.
const TIGHT: f64 = 1.22;

/// Columns of a band at their places.
struct Columns {
    letters: Letters,
    lefts: Vec<f64>,
    widths: Vec<f64>,
}

impl Flow {
    /// The letters of a band at that scale.
    pub(super) fn letters(scale: f64) -> Letters {
        Letters {
            body: style(9.0 * scale, false),
            strong: style(10.5 * scale, true),
            head: muted(7.6 * scale),
        }
    }

    /// Logo on the left, name and phone on the right; one of them alone stands on the left.
    pub(super) fn letterhead(&mut self, logo: Option<&Logo>, said: &[String]) {
        let mut height = 0.0_f64;
        if let Some(logo) = logo {
            let wide = LOGO.0.min(LOGO.1 * logo.aspect) * self.scale;
            height = wide / logo.aspect;
            let area = Area { left: self.body.left, top: self.y, width: wide, height };
            self.push(area, Ink::Logo(logo.clone()), Part::Whole);
        }
        let mut top = self.y;
        for (i, line) in said.iter().enumerate() {
            let letters = if i == 0 { style(11.0 * self.scale, true) } else { muted(9.0 * self.scale) };
            let room = self.body.width - if logo.is_some() { LOGO.0 + 12.0 } else { 0.0 };
            for line in lines(line, &letters, room) {
                let wide = width(&line, &letters);
                let left = if logo.is_some() { self.body.right() - wide } else { self.body.left };
                let area = Area { left, top, width: wide, height: letters.size * LEADING };
                top += area.height;
                self.push(area, Ink::Words(line, letters), Part::Whole);
            }
        }
        height = height.max(top - self.y);
        self.y += height + 5.0 * self.scale;
        self.rule(self.body.left, self.body.width, 1.2, INK);
        self.y += 1.2;
    }

    /// Labels and words in one column or two, the first half on the left.
    pub(super) fn facts(&mut self, facts: &[Fact], abreast: usize) {
        let (label, words) = (muted(7.6 * self.scale), style(8.4 * self.scale, false));
        let gap = 14.0 * self.scale;
        let column = (self.body.width - gap * (abreast - 1) as f64) / abreast as f64;
        let left_ones = facts.len().div_ceil(abreast);
        let mut lowest = self.y;
        for (side, half) in [facts.get(..left_ones), facts.get(left_ones..)].into_iter().enumerate() {
            let half = half.unwrap_or_default();
            let widest = half.iter().map(|f| width(&f.label, &label)).fold(0.0, f64::max) + 8.0 * self.scale;
            let left = self.body.left + side as f64 * (column + gap);
            let mut top = self.y;
            for (i, fact) in half.iter().enumerate() {
                let part = Part::Item(side * left_ones + i);
                let height = words.size * LEADING;
                let area = Area { left, top, width: width(&fact.label, &label), height };
                self.push(area, Ink::Words(fact.label.clone(), label), part);
                for line in lines(&fact.words, &words, column - widest) {
                    let area = Area { left: left + widest, top, width: width(&line, &words), height };
                    self.push(area, Ink::Words(line, words), part);
                    top += height;
                }
            }
            lowest = lowest.max(top);
        }
        self.y = lowest + 3.0 * self.scale;
    }

    /// Options side by side.
    pub(super) fn band(&mut self, band: &Band) {
        self.y += 9.0 * self.scale;
        let letters = Self::letters(self.scale);
        let aside = (STRIPE.0 + STRIPE.1) * self.scale;
        let widths = widths(band, self.body.width - aside, &letters);
        let mut left = self.body.left + aside;
        let mut lefts = Vec::new();
        for width in &widths {
            lefts.push(left);
            left += width + GUTTER * letters.body.size;
        }
        let columns = Columns { letters, lefts, widths };
        self.questions(band, &columns);
        self.heads(band, &columns);
        for (i, row) in band.rows.iter().enumerate() {
            self.band_row(band, row, i + 1, &columns);
        }
        if let Some(remark) = &band.remark {
            self.y += 2.0 * self.scale;
            self.text(remark, muted(7.2), (0.0, 0.0), Part::Cell(band.rows.len() + 1, 0));
        }
    }

    fn rule(&mut self, left: f64, wide: f64, thick: f64, colour: [u8; 3]) {
        let area = Area { left, top: self.y, width: wide, height: thick };
        self.push(area, Ink::Rule(colour), Part::Decoration);
    }

    /// Each group's question over a rule of its own.
    fn questions(&mut self, band: &Band, columns: &Columns) {
        let letters = style(9.6 * self.scale, true);
        let mut first = 1;
        let mut spans = Vec::new();
        for group in &band.groups {
            let last = first + group.heads.len() - 1;
            let (Some(left), Some(start), Some(wide)) =
                (columns.lefts.get(first), columns.lefts.get(last), columns.widths.get(last))
            else {
                continue;
            };
            spans.push((first, *left, start + wide - left, group));
            first = last + 1;
        }
        let tallest = spans.iter().map(|(_, _, wide, g)| lines(&g.heading, &letters, *wide).len()).max();
        let height = letters.size * TIGHT;
        let bottom = self.y + tallest.unwrap_or(1) as f64 * height;
        for (column, left, wide, group) in spans {
            let words = lines(&group.heading, &letters, wide);
            let mut top = bottom - words.len() as f64 * height;
            for line in words {
                let area = Area { left, top, width: width(&line, &letters), height };
                self.push(area, Ink::Words(line, letters), Part::Cell(0, column));
                top += height;
            }
            let area = Area { left, top: bottom + 1.5, width: wide, height: 0.9 };
            self.push(area, Ink::Rule(INK), Part::Decoration);
        }
        self.y = bottom + 4.0 * self.scale;
    }

    fn heads(&mut self, band: &Band, columns: &Columns) {
        let letters = columns.letters.head;
        let places = columns.lefts.iter().zip(&columns.widths).skip(1);
        let heads: Vec<_> =
            band.heads().zip(places).map(|(h, (l, w))| (h, *l, lines(&h.words, &letters, *w), *w)).collect();
        let tallest = heads.iter().map(|(_, _, lines, _)| lines.len()).max().unwrap_or(0);
        let height = letters.size * TIGHT;
        let bottom = self.y + tallest as f64 * height;
        for (c, (head, left, words, wide)) in heads.into_iter().enumerate() {
            let mut top = bottom - words.len() as f64 * height;
            for line in words {
                self.line(&line, letters, (left, top, wide), head.figures, Part::Cell(0, c + 1));
                top += height;
            }
        }
        self.y = bottom + 2.5 * self.scale;
        self.rule(self.body.left, self.body.width, 0.5, RULE);
        self.y += 0.5;
    }

    /// One line of a column, on the right of it where figures stand.
    fn line(&mut self, words: &str, letters: Style, at: (f64, f64, f64), right: bool, part: Part) {
        let (left, top, room) = at;
        let wide = width(words, &letters);
        let left = if right { left + (room - wide).max(0.0) } else { left };
        let area = Area { left, top, width: wide, height: letters.size * TIGHT };
        self.push(area, Ink::Words(words.to_owned(), letters), part);
    }

    fn band_row(&mut self, band: &Band, row: &BandRow, number: usize, columns: &Columns) {
        let Letters { body, strong, .. } = columns.letters;
        let name = Style { bold: true, ..body };
        let mut cells: Vec<(Vec<String>, Style, bool)> = Vec::new();
        let room = |column: usize| columns.widths.get(column).copied().unwrap_or_default();
        cells.push((two_lines(lines(&row.option, &name, room(0))), name, false));
        for (c, (entry, head)) in row.entries.iter().zip(band.heads()).enumerate() {
            let style = if band.strong == Some(c) { strong } else { body };
            cells.push((lines(entry.shown(), &style, room(c + 1)), style, head.figures));
        }
        let pad = 2.6 * self.scale;
        let tallest = cells.iter().map(|(lines, style, _)| lines.len() as f64 * style.size * TIGHT);
        let height = tallest.fold(0.0, f64::max) + 2.0 * pad;
        self.keep(height);
        let top = self.y;
        let stripe = Area {
            left: self.body.left,
            top: top + pad,
            width: STRIPE.0 * self.scale,
            height: height - 2.0 * pad,
        };
        self.push(stripe, Ink::Rule(row.colour), Part::Decoration);
        for (c, (words, style, right)) in cells.into_iter().enumerate() {
            // All first lines stand on one base line.
            let mut line_top = top + pad + (strong.size - style.size).max(0.0) * 0.6;
            for line in words.into_iter().filter(|line| !line.is_empty()) {
                let left = columns.lefts.get(c).copied().unwrap_or_default();
                self.line(&line, style, (left, line_top, room(c)), right, Part::Cell(number, c));
                line_top += style.size * TIGHT;
            }
        }
        for (c, entry) in row.entries.iter().enumerate() {
            if let (Entry::Bar { low, at, high }, Some(left)) = (entry, columns.lefts.get(c + 1)) {
                self.bar((*low, *at, *high), (*left, top + pad + 2.0 * self.scale, room(c + 1)), row.colour);
            }
        }
        self.y = top + height;
        self.rule(self.body.left, self.body.width, 0.5, RULE);
        self.y += 0.5;
    }

    /// Full to where the range begins, lighter to the figure, lightest to where the range ends.
    fn bar(&mut self, (low, at, high): (f64, f64, f64), (left, top, room): (f64, f64, f64), colour: [u8; 3]) {
        let height = 7.0 * self.scale;
        let light =
            |share: f64| colour.map(|c| (f64::from(c) + (255.0 - f64::from(c)) * share).round() as u8);
        for (from, to, colour) in [(0.0, low, colour), (low, at, light(0.35)), (at, high, light(0.72))] {
            if to > from {
                let area = Area { left: left + from * room, top, width: (to - from) * room, height };
                self.push(area, Ink::Rule(colour), Part::Decoration);
            }
        }
    }
}

/// Of a name too long for two lines the beginning and the end, since long names differ at their ends; it
/// stands in full on later pages.
fn two_lines(mut lines: Vec<String>) -> Vec<String> {
    if lines.len() > 2 {
        let widest = lines.iter().map(|line| line.chars().count()).max().unwrap_or_default();
        let words = lines.drain(1..).collect::<Vec<_>>().join(" ");
        let from = words.char_indices().rev().map(|(at, _)| at).take(widest.saturating_sub(1)).last();
        let tail = words.get(from.unwrap_or_default()..).unwrap_or_default();
        // A word that is not whole goes too.
        let whole =
            if tail.len() == words.len() { tail } else { tail.split_once(' ').map_or(tail, |(_, t)| t) };
        lines.push(format!("\u{2026}{whole}"));
    }
    lines
}
