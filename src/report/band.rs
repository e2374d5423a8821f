//! A table with one row an option, its columns in groups under short questions: page one is made of such.
//!
//! Knows no format and no physics. Start at [`Band`].

use serde::Serialize;

/// Options side by side under a few questions.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Band {
    /// A plain name for files.
    pub name: String,
    /// Its columns, in groups.
    pub groups: Vec<Group>,
    /// One row an option.
    pub rows: Vec<BandRow>,
    /// The column that counts most, from 0.
    pub strong: Option<usize>,
    /// A remark under it.
    pub remark: Option<String>,
}

/// Columns that answer one question.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Group {
    /// The question.
    pub heading: String,
    /// Its columns.
    pub heads: Vec<Head>,
}

/// A column's head.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Head {
    /// What people read.
    pub words: String,
    /// Whether figures stand under each other.
    pub figures: bool,
}

/// One option.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BandRow {
    /// Its name.
    pub option: String,
    /// Its colour, the same in every chart: red, green, blue.
    pub colour: [u8; 3],
    /// One entry a column.
    pub entries: Vec<Entry>,
}

/// What stands in a column.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Entry {
    /// Words.
    Words(String),
    /// A figure as exact as it is known, and as it is shown.
    Figure {
        /// As exact as it is known.
        exact: f64,
        /// Rounded, with its unit.
        shown: String,
    },
    /// From one figure to another.
    Range {
        /// As exact as it is known.
        exact: (f64, f64),
        /// Rounded outwards, with its unit.
        shown: String,
    },
    /// A bar on a scale that all rows share: shares of its length.
    Bar {
        /// Where the range begins.
        low: f64,
        /// Where the figure itself stands.
        at: f64,
        /// Where the range ends.
        high: f64,
    },
    /// Not given.
    Missing,
}

impl Entry {
    /// Words.
    pub fn words(words: impl Into<String>) -> Self {
        Self::Words(words.into())
    }

    /// What people read.
    pub fn shown(&self) -> &str {
        match self {
            Self::Words(shown) | Self::Figure { shown, .. } | Self::Range { shown, .. } => shown,
            Self::Bar { .. } => "",
            Self::Missing => "\u{2013}",
        }
    }
}

impl Group {
    /// A question with its columns: words, and whether they are figures.
    pub fn new(heading: impl Into<String>, heads: impl IntoIterator<Item = (String, bool)>) -> Self {
        let heads = heads.into_iter().map(|(words, figures)| Head { words, figures });
        Self { heading: heading.into(), heads: heads.collect() }
    }
}

impl Band {
    /// Every column's head, in order.
    pub fn heads(&self) -> impl Iterator<Item = &Head> {
        self.groups.iter().flat_map(|group| &group.heads)
    }
}
