//! The one report value that every renderer reads.
//!
//! Knows no format and no physics. Start at [`Report`].

/// The version of the JSON's form.
pub const SCHEMA_VERSION: u32 = 1;

/// A report: what it is of, tables in reading order, sentences.
#[derive(Debug, Clone, PartialEq)]
pub struct Report {
    /// The house.
    pub title: String,
    /// Place, weather, who prepared it; a line each.
    pub about: Vec<String>,
    /// The result in a few sentences.
    pub verdict: Vec<String>,
    /// The price of fuel at which the order of two options turns, in a sentence; nothing where none is told.
    pub tipping_price: Option<String>,
    /// Tables for people, in reading order.
    pub tables: Vec<Table>,
    /// Tables that only files carry: postings, worksheets.
    pub appendices: Vec<Table>,
    /// What a reader must know beside the figures.
    pub notes: Vec<String>,
    /// Defaults that stood in for what the job does not say.
    pub assumptions: Vec<String>,
    /// Cautions that every result carries.
    pub cautions: Vec<String>,
    /// Version, job, weather, seed.
    pub foot: String,
}

/// A table.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// A plain name for files, for example `yearly_cost`.
    pub name: String,
    /// The heading, as a short question or title.
    pub heading: String,
    /// The columns.
    pub columns: Vec<Column>,
    /// The rows, each with one cell a column.
    pub rows: Vec<Vec<Cell>>,
    /// A remark under the table.
    pub remark: Option<String>,
}

/// A column.
#[derive(Debug, Clone, PartialEq)]
pub struct Column {
    /// The head for people, unit included.
    pub head: String,
    /// The name for files, unit included.
    pub key: String,
    /// Where cells stand.
    pub align: Align,
}

/// Where the cells of a column stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Align {
    /// Words.
    Left,
    /// Numbers.
    Right,
}

impl Column {
    /// A column of words.
    pub fn words(head: impl Into<String>, key: impl Into<String>) -> Self {
        Self { head: head.into(), key: key.into(), align: Align::Left }
    }

    /// A column of numbers.
    pub fn numbers(head: impl Into<String>, key: impl Into<String>) -> Self {
        Self { head: head.into(), key: key.into(), align: Align::Right }
    }
}

/// A cell.
#[derive(Debug, Clone, PartialEq)]
pub enum Cell {
    /// Words.
    Text(String),
    /// A number, as exact as it is known, and as people read it.
    Number {
        /// The value.
        value: f64,
        /// Rounded for people, with its sign and separators.
        shown: String,
    },
    /// Not given: the reason stands in words nearby.
    Missing,
}

impl Cell {
    /// Words.
    pub fn text(text: impl Into<String>) -> Self {
        Self::Text(text.into())
    }

    /// A number shown with so many decimals.
    pub fn number(value: f64, decimals: usize) -> Self {
        Self::Number { value, shown: super::figures::grouped(value, decimals) }
    }

    /// A number shown cut to a whole one, so that 99.6 % does not read as enough; what rounding took
    /// from a whole one is no lack.
    pub fn cut(value: f64) -> Self {
        Self::Number { value, shown: super::figures::grouped((value + 1e-9).floor(), 0) }
    }

    /// A number, or missing.
    pub fn maybe(value: Option<f64>, decimals: usize) -> Self {
        value.map_or(Self::Missing, |v| Self::number(v, decimals))
    }

    /// What people read.
    pub fn shown(&self) -> &str {
        match self {
            Self::Text(text) => text,
            Self::Number { shown, .. } => shown,
            Self::Missing => "\u{2013}",
        }
    }
}
