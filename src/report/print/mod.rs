//! A report on paper: blocks of words, tables and charts, laid out on pages and written as PDF.
//!
//! [`blocks`] says what is printed, [`typeset`] measures it, [`layout`] finds its place, [`pdf`] writes
//! it; none of them knows what a heat pump or a price is. Start at [`pdf::document`].

pub mod paper;
pub mod typeset;
pub mod blocks;
mod columns;
mod rows;
mod band_columns;
pub mod pieces;
mod flow;
mod front_blocks;
pub mod layout;
mod tags;
pub mod pdf;

pub use blocks::Block;
pub use layout::lay_out;
pub use paper::Paper;
pub use pieces::Page;
