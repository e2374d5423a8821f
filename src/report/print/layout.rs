//! Blocks onto pages: every line, rule and picture finds its place before anything is written, so that
//! pages can be counted and a test can see whether anything overlaps or leaves its page.
//!
//! Start at [`lay_out`].

use super::blocks::Block;
use super::columns::{Columns, GUTTER, fit, words};
use super::paper::{Area, Paper};
use super::typeset::{Style, lines, width};
use crate::report::model::{Align, Table};
use resvg::usvg::{Options, Tree};

/// Ink of titles and numbers.
const INK: [u8; 3] = [0x17, 0x20, 0x2A];
/// Ink of what steps back.
const MUTED: [u8; 3] = [0x55, 0x60, 0x6C];
/// Rules.
const RULE: [u8; 3] = [0xC9, 0xCE, 0xD4];
/// Height of a line over the size of its letters.
const LEADING: f64 = 1.32;

/// Which part of which block a piece belongs to, for those who have the page read to them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// The whole block.
    Whole,
    /// So many items down a list.
    Item(usize),
    /// A cell of a table: row 0 is its head.
    Cell(usize, usize),
    /// Nothing that is read: a rule, the head of a table that goes on, a page's foot.
    Decoration,
}

/// What stands at a place.
#[derive(Debug, Clone, PartialEq)]
pub enum Ink {
    /// One line of words; the baseline is as far below the area's top as its letters are high.
    Words(String, Style),
    /// A thin horizontal line in this colour.
    Rule([u8; 3]),
    /// A picture.
    Picture(String),
}

/// One thing at its place on a page.
#[derive(Debug, Clone, PartialEq)]
pub struct Piece {
    /// Its place.
    pub area: Area,
    /// What it is.
    pub ink: Ink,
    /// The number of its block.
    pub block: usize,
    /// Its part of the block.
    pub part: Part,
}

/// A page.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Page {
    /// What stands on it, in reading order.
    pub pieces: Vec<Piece>,
}

/// Lays blocks out on as many pages as they need; `foot` stands on each with the page's number.
pub fn lay_out(blocks: &[Block], foot: &str, paper: Paper) -> Vec<Page> {
    let body = paper.body();
    let mut flow = Flow { body, y: body.top, pages: vec![Page::default()], block: 0 };
    for (i, block) in blocks.iter().enumerate() {
        flow.block = i;
        // A heading stays with what it heads.
        let followed = if matches!(block, Block::Heading(_)) { blocks.get(i + 1) } else { None };
        flow.place(block, followed);
    }
    let Flow { mut pages, .. } = flow;
    let count = pages.len();
    for (i, page) in pages.iter_mut().enumerate() {
        page.pieces.extend(foot_pieces(foot, i + 1, count, paper));
    }
    pages
}

fn style(size: f64, bold: bool) -> Style {
    Style { size, bold, colour: INK }
}

fn muted(size: f64) -> Style {
    Style { size, bold: false, colour: MUTED }
}

fn foot_pieces(foot: &str, number: usize, count: usize, paper: Paper) -> Vec<Piece> {
    let (body, top) = (paper.body(), paper.foot_line());
    let page = format!("page {number} of {count}");
    let letters = muted(7.0);
    let page_width = width(&page, &letters);
    let first = lines(foot, &letters, body.width - page_width - 12.0).into_iter().next().unwrap_or_default();
    let at = |text: String, left: f64| Piece {
        area: Area { left, top, width: width(&text, &letters), height: 7.0 * LEADING },
        ink: Ink::Words(text, letters),
        block: usize::MAX,
        part: Part::Decoration,
    };
    vec![at(first, body.left), at(page, body.right() - page_width)]
}

/// Where the next block goes.
struct Flow {
    body: Area,
    y: f64,
    pages: Vec<Page>,
    block: usize,
}

impl Flow {
    fn place(&mut self, block: &Block, followed: Option<&Block>) {
        match block {
            Block::Title(text) => self.text(text, style(19.0, true), (0.0, 2.0), Part::Whole),
            Block::PageHeading(text) => {
                if self.y > self.body.top {
                    self.new_page();
                }
                self.text(text, style(14.0, true), (0.0, 6.0), Part::Whole);
            }
            Block::Heading(text) => {
                let next = followed.map_or(0.0, |b| self.least_height(b));
                self.keep(12.0 + 11.5 * LEADING + 3.0 + next);
                self.text(text, style(11.5, true), (12.0, 3.0), Part::Whole);
            }
            Block::Paragraph(text) => self.text(text, style(9.5, false), (0.0, 3.0), Part::Whole),
            Block::Verdict(text) => self.text(text, style(13.0, true), (6.0, 6.0), Part::Whole),
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
    fn keep(&mut self, height: f64) {
        if self.y > self.body.top && self.y + height > self.body.bottom() {
            self.new_page();
        }
    }

    fn push(&mut self, area: Area, ink: Ink, part: Part) {
        let piece = Piece { area, ink, block: self.block, part };
        if let Some(page) = self.pages.last_mut() {
            page.pieces.push(piece);
        }
    }

    fn text(&mut self, text: &str, style: Style, (before, after): (f64, f64), part: Part) {
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
