//! What is printed, from top to bottom, without places.
//!
//! Start at [`Block`].

use crate::report::band::Band;
use crate::report::front::Fact;
use crate::report::logo::Logo;
use crate::report::model::Table;

/// One thing on paper.
#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    /// Who hands it over, at the very top.
    Letterhead {
        /// Their logo.
        logo: Option<Logo>,
        /// Their name, and how to reach them; a line each.
        lines: Vec<String>,
    },
    /// The title of the whole.
    Title(String),
    /// Labels and words, side by side.
    Facts(Vec<Fact>),
    /// Labels and words, one under the other, small.
    Basis(Vec<Fact>),
    /// Options side by side under a few questions.
    Band(Band),
    /// A heading of a part.
    Heading(String),
    /// A heading that begins a page. What stands before the first of them is squeezed onto one page.
    PageHeading(String),
    /// A heading of a part that holds several headings.
    Section(String),
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
