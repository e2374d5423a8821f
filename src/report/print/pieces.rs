//! What stands at which place of which page.
//!
//! Start at [`Page`].

use super::paper::Area;
use super::typeset::Style;
use crate::report::logo::Logo;

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
    /// An area filled with this colour: a rule, a bar.
    Rule([u8; 3]),
    /// A picture.
    Picture(String),
    /// A logo.
    Logo(Logo),
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
