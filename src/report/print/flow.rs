//! One block after the other down the pages.
//!
//! Start at [`Flow`].

use super::blocks::Block;
use super::columns::{Columns, GUTTER, words};
use super::paper::Area;
use super::pieces::{Ink, Page, Part, Piece};
use super::rows::{Rows, TOGETHER, row_height};
use super::typeset::{Style, lines, width};
use crate::report::model::{Align, Table};
use resvg::usvg::{Options, Tree};

/// Ink of titles and numbers.
pub(super) const INK: [u8; 3] = [0x17, 0x20, 0x2A];
/// Ink of what steps back.
pub(super) const MUTED: [u8; 3] = [0x55, 0x60, 0x6C];
/// Rules.
pub(super) const RULE: [u8; 3] = [0xC9, 0xCE, 0xD4];
/// Height of a line over the size of its letters.
pub(super) const LEADING: f64 = 1.32;

/// Letters in ink.
pub(super) fn style(size: f64, bold: bool) -> Style {
    Style { size, bold, colour: INK }
}

/// Letters that step back.
pub(super) fn muted(size: f64) -> Style {
    Style { size, bold: false, colour: MUTED }
}

/// Where the next block goes.
pub(super) struct Flow {
    /// Where blocks stand on a page.
    pub(super) body: Area,
    /// How far down this page is used.
    pub(super) y: f64,
    /// The pages so far.
    pub(super) pages: Vec<Page>,
    /// The number of the block that is placed.
    pub(super) block: usize,
    /// What sizes are multiplied by.
    pub(super) scale: f64,
    /// Pictures that found no room on the page where they belong; they head the next one.
    pub(super) waiting: Vec<Waiting>,
}

/// A picture without a place.
pub(super) struct Waiting {
    block: usize,
    svg: String,
    size: (f64, f64),
}

/// A table that needs at most this share of a page's height is never broken.
const WHOLE: f64 = 0.25;

impl Flow {
    /// Places the first of the blocks; those behind it tell what must stand with it.
    pub(super) fn place(&mut self, blocks: &[Block]) {
        let Some((block, behind)) = blocks.split_first() else { return };
        match block {
            Block::Letterhead { logo, lines } => self.letterhead(logo.as_ref(), lines),
            Block::Title(text) => self.text(text, style(20.0, true), (10.0, 3.0), Part::Whole),
            Block::Facts(facts) => self.facts(facts, 2),
            Block::Basis(facts) => {
                self.y += 8.0 * self.scale;
                self.facts(facts, 1);
            }
            Block::Band(band) => self.band(band),
            Block::PageHeading(text) => {
                if self.y > self.body.top {
                    self.new_page();
                }
                self.text(text, style(14.0, true), (0.0, 6.0), Part::Whole);
            }
            Block::Section(text) => {
                self.settle();
                self.keep(self.needed(blocks));
                self.text(text, style(14.0, true), (18.0, 2.0), Part::Whole);
            }
            Block::Heading(text) => {
                self.settle();
                self.keep(self.needed(blocks));
                self.text(text, style(11.5, true), (12.0, 3.0), Part::Whole);
            }
            Block::Paragraph(text) => self.text(text, style(9.5, false), (0.0, 3.0), Part::Whole),
            Block::Verdict(text) => self.text(text, style(15.0, true), (9.0, 4.0), Part::Whole),
            Block::Small(text) => self.text(text, muted(8.0), (0.0, 3.0), Part::Whole),
            Block::List(items) => {
                for (i, item) in items.iter().enumerate() {
                    self.text(&format!("• {item}"), style(8.5, false), (0.0, 1.5), Part::Item(i));
                }
                self.y += 3.0;
            }
            Block::Table(table) => self.table(table, behind),
            Block::Picture { svg, most_height, .. } => {
                if let Some(size) = picture_size(svg, self.body, *most_height) {
                    self.picture(svg.clone(), size);
                }
            }
        }
    }

    /// The height of what must stand together from the first of the blocks on: a heading is nothing without
    /// what it heads. Pictures find their own place.
    fn needed(&self, blocks: &[Block]) -> f64 {
        let Some((block, behind)) = blocks.split_first() else { return 0.0 };
        match block {
            Block::Section(text) => 20.0 + self.height(text, style(14.0, true)) + self.needed(behind),
            Block::Heading(text) => 15.0 + self.height(text, style(11.5, true)) + self.needed(behind),
            Block::Table(table) => self.least_height(&Rows::of(table, self.body.width, style), behind),
            Block::Picture { .. } => self.needed(behind),
            _ => 2.0 * 9.5 * LEADING,
        }
    }

    /// A small table whole and with its remark; of others the head and some rows.
    fn least_height(&self, rows: &Rows, behind: &[Block]) -> f64 {
        let remark = match behind.first() {
            Some(Block::Small(text)) => self.height(text, muted(8.0)),
            _ => 0.0,
        };
        let whole = rows.head_height + rows.heights.iter().sum::<f64>();
        if whole <= WHOLE * self.body.height {
            return whole + 5.0 + remark;
        }
        rows.head_height + rows.heights.iter().take(TOGETHER).sum::<f64>()
    }

    fn height(&self, text: &str, letters: Style) -> f64 {
        let letters = Style { size: letters.size * self.scale, ..letters };
        lines(text, &letters, self.body.width).len() as f64 * letters.size * LEADING
    }

    fn empty_page(&mut self) {
        self.pages.push(Page::default());
        self.y = self.body.top;
    }

    /// Begins a page with the pictures that wait.
    fn new_page(&mut self) {
        self.empty_page();
        self.settle();
    }

    /// Places the pictures that wait, as far as the page holds them.
    fn settle(&mut self) {
        let (block, waiting) = (self.block, std::mem::take(&mut self.waiting));
        for picture in waiting {
            self.block = picture.block;
            self.picture(picture.svg, picture.size);
        }
        self.block = block;
    }

    /// The pages, once nothing waits any more.
    pub(super) fn finish(mut self) -> Vec<Page> {
        while !self.waiting.is_empty() {
            self.new_page();
        }
        self.pages
    }

    /// Begins pages until `height` is left on one.
    pub(super) fn keep(&mut self, height: f64) {
        while self.y > self.body.top && self.y + height > self.body.bottom() {
            self.new_page();
        }
    }

    /// Puts a piece on this page.
    pub(super) fn push(&mut self, area: Area, ink: Ink, part: Part) {
        let piece = Piece { area, ink, block: self.block, part };
        if let Some(page) = self.pages.last_mut() {
            page.pieces.push(piece);
        }
    }

    /// A paragraph; sizes are multiplied by the scale.
    pub(super) fn text(&mut self, text: &str, style: Style, (before, after): (f64, f64), part: Part) {
        let style = Style { size: style.size * self.scale, ..style };
        let (before, after) = (before * self.scale, after * self.scale);
        if self.y > self.body.top {
            self.y += before;
        }
        let height = style.size * LEADING;
        for line in lines(text, &style, self.body.width) {
            self.keep(height);
            let area = Area { left: self.body.left, top: self.y, width: width(&line, &style), height };
            self.push(area, Ink::Words(line, style), part);
            self.y += height;
        }
        self.y += after;
    }

    fn table(&mut self, table: &Table, behind: &[Block]) {
        let rows = Rows::of(table, self.body.width, style);
        let head: Vec<&str> = table.columns.iter().map(|c| c.head.as_str()).collect();
        let bold = Style { colour: MUTED, ..style(rows.columns.size, true) };
        let letters = style(rows.columns.size, false);
        self.keep(self.least_height(&rows, behind));
        self.row(table, &head, &rows.columns, &bold, Some(0));
        let mut from = 0;
        while from < table.rows.len() {
            // The first row of a page says whose it is, though the one before it did.
            let first = named(table, from);
            let more = row_height(&[first], &rows.columns, &letters) - rows.height(from);
            let to = rows.until(from, self.body.bottom() - self.y - more.max(0.0));
            for (i, cells) in table.rows.iter().enumerate().take(to).skip(from) {
                let mut cells: Vec<&str> = cells.iter().map(words).collect();
                if let Some(cell) = cells.first_mut().filter(|_| i == from) {
                    *cell = first;
                }
                self.row(table, &cells, &rows.columns, &letters, Some(i + 1));
            }
            from = to;
            if from < table.rows.len() {
                // What goes on is not torn apart by a picture.
                self.empty_page();
                self.row(table, &head, &rows.columns, &bold, None);
            }
        }
        self.y += 5.0;
    }

    /// One row; without a number it is a head that stands there once more.
    fn row(&mut self, table: &Table, cells: &[&str], columns: &Columns, letters: &Style, row: Option<usize>) {
        let height = row_height(cells, columns, letters);
        let mut left = self.body.left;
        for (c, ((cell, room), column)) in cells.iter().zip(&columns.widths).zip(&table.columns).enumerate() {
            let part = row.map_or(Part::Decoration, |row| Part::Cell(row, c));
            for (l, line) in lines(cell, letters, *room).into_iter().enumerate() {
                let wide = width(&line, letters);
                let aside = if column.align == Align::Right { room - wide } else { 0.0 };
                let top = self.y + 2.0 + l as f64 * letters.size * 1.2;
                let area = Area { left: left + aside, top, width: wide, height: letters.size * 1.2 };
                self.push(area, Ink::Words(line, *letters), part);
            }
            left += room + GUTTER;
        }
        self.y += height;
        let wide =
            columns.widths.iter().sum::<f64>() + GUTTER * columns.widths.len().saturating_sub(1) as f64;
        let line = Area { left: self.body.left, top: self.y, width: wide.min(self.body.width), height: 0.5 };
        self.push(line, Ink::Rule(RULE), Part::Decoration);
    }

    /// A picture here, or where the next page begins.
    fn picture(&mut self, svg: String, size: (f64, f64)) {
        let (wide, height) = size;
        if self.y > self.body.top && self.y + height > self.body.bottom() {
            self.waiting.push(Waiting { block: self.block, svg, size });
            return;
        }
        let aside = (self.body.width - wide) / 2.0;
        let area = Area { left: self.body.left + aside, top: self.y, width: wide, height };
        self.push(area, Ink::Picture(svg), Part::Whole);
        self.y += height + 8.0;
    }
}

/// What stands first in a row; where that is left out because it is as above, what it is.
fn named(table: &Table, row: usize) -> &str {
    let first = |row: &usize| table.rows.get(*row).and_then(|cells| cells.first()).map_or("", words);
    (0..=row).rev().map(|row| first(&row)).find(|name| !name.is_empty()).unwrap_or_default()
}

/// As wide as the body, or as high as it may be.
fn picture_size(svg: &str, body: Area, most_height: f64) -> Option<(f64, f64)> {
    let size = Tree::from_str(svg, &Options::default()).ok()?.size();
    let (wide, high) = (f64::from(size.width()), f64::from(size.height()));
    let scale = (body.width / wide).min(most_height * body.height / high);
    Some((wide * scale, high * scale))
}
