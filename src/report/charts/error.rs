//! What can keep a chart from being drawn, in words.
//!
//! Knows no chart. Start at [`ChartError`].

use std::fmt;

/// Why a chart could not be drawn.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ChartError {
    /// There is nothing to draw: no options, no panels, or a panel without any line.
    Empty,
    /// A value that is not a number, infinite, or below zero where only zero and more make sense;
    /// holds where it stands.
    BadValue(String),
    /// The parts of an option's bar do not add up to its total; holds the option's name.
    PartsDiffer(String),
    /// The drawing library refused; holds its message.
    Drawing(String),
    /// The finished SVG could not be turned into pixels; holds the reason.
    Pixels(String),
}

impl fmt::Display for ChartError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => write!(f, "a chart needs at least one thing to show"),
            Self::BadValue(place) => write!(f, "a chart cannot show this value: {place}"),
            Self::PartsDiffer(option) => {
                write!(f, "the parts of the bar for “{option}” do not add up to its total")
            }
            Self::Drawing(why) => write!(f, "the chart could not be drawn: {why}"),
            Self::Pixels(why) => write!(f, "the chart could not be turned into a PNG: {why}"),
        }
    }
}

impl std::error::Error for ChartError {}
