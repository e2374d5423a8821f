//! What is printed, from top to bottom, without places.
//!
//! Start at [`Block`].

use crate::report::model::Table;

/// One thing on paper.
#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    /// The title of the whole.
    Title(String),
    /// A heading of a part.
    Heading(String),
    /// A heading that begins a page.
    PageHeading(String),
    /// A paragraph.
    Paragraph(String),
    /// The sentence that everything else explains; larger.
    Verdict(String),
    /// A paragraph in small letters.
    Small(String),
    /// A list, small letters.
    List(Vec<String>),
    /// A table with its columns' heads; its heading and remark are blocks of their own.
    Table(Table),
    /// A chart: SVG, what it shows in words, and the share of the body's height it may take.
    Picture {
        /// The picture.
        svg: String,
        /// What it shows, for those who cannot see it.
        words: String,
        /// The greatest share of the body's height.
        most_height: f64,
    },
}
