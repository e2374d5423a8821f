//! Blocks onto pages: every line, rule and picture finds its place before anything is written, so that
//! pages can be counted and a test can see whether anything overlaps or leaves its page.
//!
//! Start at [`lay_out`]; `flow` places one block after the other.

use super::band_columns::fits;
use super::blocks::Block;
use super::flow::{Flow, LEADING, muted};
use super::paper::{Area, Paper};
use super::pieces::{Ink, Page, Part, Piece};
use super::typeset::{lines, width};

/// What is tried until the first page holds all that belongs on it.
const SCALES: [f64; 12] = [1.08, 1.04, 1.0, 0.96, 0.92, 0.88, 0.84, 0.8, 0.76, 0.72, 0.68, 0.64];

/// Lays blocks out on as many pages as they need; `foot` stands on each with the page's number.
///
/// What stands before the first page heading is made smaller until it is on one page, as far as it can
/// still be read.
pub fn lay_out(blocks: &[Block], foot: &str, paper: Paper) -> Vec<Page> {
    let first = blocks.iter().position(|block| matches!(block, Block::PageHeading(_))).unwrap_or_default();
    let (front, rest) = blocks.split_at_checked(first).unwrap_or((&[], blocks));
    let mut pages = squeezed(front, paper.body());
    if !rest.is_empty() {
        pages.extend(flowed(rest, first, paper.body(), 1.0));
    }
    let count = pages.len();
    for (i, page) in pages.iter_mut().enumerate() {
        page.pieces.extend(foot_pieces(foot, i + 1, count, paper));
    }
    pages
}

fn squeezed(blocks: &[Block], body: Area) -> Vec<Page> {
    if blocks.is_empty() {
        return Vec::new();
    }
    let whole = |scale: f64| {
        blocks.iter().all(|block| match block {
            Block::Band(band) => fits(band, body.width, &Flow::letters(scale)),
            _ => true,
        })
    };
    let tried = || SCALES.iter().map(|scale| (whole(*scale), flowed(blocks, 0, body, *scale)));
    let on_one = |(_, pages): &(bool, Vec<Page>)| pages.len() == 1;
    let best = tried().find(|found| found.0 && on_one(found)).or_else(|| tried().find(on_one));
    best.map_or_else(|| flowed(blocks, 0, body, SCALES[SCALES.len() - 1]), |(_, pages)| pages)
}

fn flowed(blocks: &[Block], first: usize, body: Area, scale: f64) -> Vec<Page> {
    let mut flow =
        Flow { body, y: body.top, pages: vec![Page::default()], block: first, scale, waiting: Vec::new() };
    for i in 0..blocks.len() {
        flow.block = first + i;
        flow.place(blocks.get(i..).unwrap_or_default());
    }
    flow.finish()
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
