//! What each input does to the difference between two options, as JSON.
//!
//! Start at [`text`].

use super::json_head::{JsonHead, written};
use super::sway;
use crate::comparison::Comparison;
use crate::problem::Problem;
use crate::sources::Source;
use crate::study::sway::{Sway, SwayEnd, SwayInput};
use serde::Serialize;

#[derive(Serialize)]
struct SwayDocument<'a> {
    #[serde(flatten)]
    head: JsonHead<'a>,
    options: [&'a str; 2],
    yearly_costs: [f64; 2],
    is_default: bool,
    sentences: Vec<String>,
    inputs: Vec<InputDocument<'a>>,
}

#[derive(Serialize)]
struct InputDocument<'a> {
    name: &'a str,
    low: EndDocument<'a>,
    high: EndDocument<'a>,
    span: f64,
    source: &'a Source,
}

#[derive(Serialize)]
struct EndDocument<'a> {
    value: &'a str,
    yearly_costs: [f64; 2],
    first_costs_more_by: f64,
}

/// The whole document as indented JSON with a line end.
///
/// # Errors
/// A value that JSON cannot hold; that would be a defect.
pub fn text(c: &Comparison, found: &Sway) -> Result<String, Problem> {
    let name = |place: usize| c.options.get(place).map_or("", |option| option.design.name.as_str());
    let document = SwayDocument {
        head: JsonHead::of(c),
        options: found.options.map(name),
        yearly_costs: found.costs,
        is_default: found.is_default,
        sentences: sway::sentences(c, found),
        inputs: found.inputs.iter().map(input).collect(),
    };
    written(&document)
}

fn input(input: &SwayInput) -> InputDocument<'_> {
    InputDocument {
        name: &input.name,
        low: end(&input.low),
        high: end(&input.high),
        span: input.span(),
        source: &input.source,
    }
}

fn end(end: &SwayEnd) -> EndDocument<'_> {
    EndDocument { value: &end.value, yearly_costs: end.costs, first_costs_more_by: end.difference() }
}
