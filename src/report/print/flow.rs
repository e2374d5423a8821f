//! One block after the other down the pages.
//!
//! Start at [`Flow`].

use super::blocks::Block;
use super::columns::{Columns, GUTTER, fit, words};
use super::paper::Area;
use super::pieces::{Ink, Page, Part, Piece};
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
}

impl Flow {
    /// Places a block; a heading has the block that it heads beside it.
    pub(super) fn place(&mut self, block: &Block, followed: Option<&Block>) {
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
                self.keep(150.0);
                self.text(text, style(14.0, true), (18.0, 2.0), Part::Whole);
            }
            Block::Heading(text) => {
                let next = followed.map_or(0.0, |b| self.least_height(b));
                self.keep(12.0 + 11.5 * LEADING + 3.0 + next);
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
            Block::Table(table) => self.table(table),
            Block::Picture { svg, most_height, .. } => self.picture(svg, *most_height),
        }
    }

    /// What must stand with a heading of the block.
    fn least_height(&self, block: &Block) -> f64 {
        match block {
            Block::Table(_) => 60.0,
            Block::Picture { svg, most_height, .. } => {
                picture_size(svg, self.body, *most_height).map_or(0.0, |(_, height)| height)
            }
            _ => 2.0 * 9.5 * LEADING,
        }
    }

    fn new_page(&mut self) {
        self.pages.push(Page::default());
        self.y = self.body.top;
    }

    /// Begins a page unless `height` is left on this one.
    pub(super) fn keep(&mut self, height: f64) {
        if self.y > self.body.top && self.y + height > self.body.bottom() {
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

    fn table(&mut self, table: &Table) {
        let columns = fit(table, self.body.width, style);
        let head: Vec<&str> = table.columns.iter().map(|c| c.head.as_str()).collect();
        let bold = Style { colour: MUTED, ..style(columns.size, true) };
        let head_height = row_height(&head, &columns, &bold);
        self.keep(head_height + 3.0 * columns.size * LEADING);
        self.row(table, &head, &columns, &bold, Some(0));
        for (i, cells) in table.rows.iter().enumerate() {
            let cells: Vec<&str> = cells.iter().map(words).collect();
            let letters = style(columns.size, false);
            if self.y + row_height(&cells, &columns, &letters) > self.body.bottom() {
                self.new_page();
                self.row(table, &head, &columns, &bold, None);
            }
            self.row(table, &cells, &columns, &letters, Some(i + 1));
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

    fn picture(&mut self, svg: &str, most_height: f64) {
        let Some((wide, height)) = picture_size(svg, self.body, most_height) else { return };
        self.keep(height);
        let aside = (self.body.width - wide) / 2.0;
        let area = Area { left: self.body.left + aside, top: self.y, width: wide, height };
        self.push(area, Ink::Picture(svg.to_owned()), Part::Whole);
        self.y += height + 8.0;
    }
}

fn row_height(cells: &[&str], columns: &Columns, letters: &Style) -> f64 {
    let counts = cells.iter().zip(&columns.widths).map(|(cell, room)| lines(cell, letters, *room).len());
    counts.max().unwrap_or(1) as f64 * letters.size * 1.2 + 4.5
}

/// As wide as the body, or as high as it may be.
fn picture_size(svg: &str, body: Area, most_height: f64) -> Option<(f64, f64)> {
    let size = Tree::from_str(svg, &Options::default()).ok()?.size();
    let (wide, high) = (f64::from(size.width()), f64::from(size.height()));
    let scale = (body.width / wide).min(most_height * body.height / high);
    Some((wide * scale, high * scale))
}
