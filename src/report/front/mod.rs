//! Page one, as a value: what a homeowner must understand in a minute, in the order in which it is read.
//! All its figures are rounded here, once; print and page show them as they are.
//!
//! Must never know a format. Start at [`front`].

pub mod rounding;
pub mod unit_words;
mod prices;
mod verdict;
mod tipping;
mod warm_and_cost;
mod dear_times;
mod mishaps;

use super::band::Band;
use super::build;
use super::figures::Measure;
use super::life_cycle_verdict;
use super::past_use;
use super::studied::Studied;
use crate::comparison::{Comparison, Note, RunWeather};
use crate::study::Around;
use serde::Serialize;

/// Page one.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Front {
    /// Whose house.
    pub house: String,
    /// Who prepared it.
    pub prepared_by: Option<String>,
    /// Their phone number.
    pub phone: Option<String>,
    /// For whom, where, when, by whom, and who gave each price.
    pub facts: Vec<Fact>,
    /// The answer in one sentence.
    pub verdict: String,
    /// What belongs to it: at which price it turns, who goes cold.
    pub more: Vec<String>,
    /// The options side by side.
    pub bands: Vec<Band>,
    /// The prices that it rests on, and what it was checked against.
    pub basis: Vec<Fact>,
    /// Cautions, and whom to ask.
    pub cautions: Vec<String>,
    /// Version, job, weather.
    pub foot: String,
}

/// A label and its words.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Fact {
    /// What it is.
    pub label: String,
    /// The words.
    pub words: String,
}

impl Fact {
    fn new(label: &str, words: impl Into<String>) -> Self {
        Self { label: label.into(), words: words.into() }
    }
}

/// Page one of a comparison, with what came of other loads and prices, and of what was studied beside it:
/// where two options cost the same, how often a tank runs dry.
pub fn front(c: &Comparison, around: &Around, studied: &Studied) -> Front {
    let measure = Measure(c.units);
    let mut more = verdict::cold_ones(c, measure);
    more.extend(life_cycle_verdict::verdict(c).into_iter().next());
    more.extend(studied.tipping.iter().flat_map(|tipping| tipping::words(c, tipping)));
    Front {
        house: c.title.clone(),
        prepared_by: c.prepared_by.clone(),
        phone: c.heading.phone.clone(),
        facts: facts(c, measure),
        verdict: verdict::sentence(c),
        more,
        bands: vec![
            warm_and_cost::band(c, around, measure),
            dear_times::band(c, around),
            mishaps::band(c, studied.winters.as_ref(), measure),
        ],
        basis: basis(c),
        cautions: cautions(c, measure),
        foot: build::foot(c),
    }
}

/// Whose house, where, when, by whom, and who gave each price.
fn facts(c: &Comparison, measure: Measure) -> Vec<Fact> {
    let heading = &c.heading;
    let by = [c.prepared_by.as_deref(), heading.phone.as_deref()];
    let by: Vec<&str> = by.into_iter().flatten().collect();
    let mut facts = Vec::new();
    facts.extend(heading.customer.as_ref().map(|who| Fact::new("Prepared for", who.as_str())));
    facts.push(Fact::new("Place", c.site.name.as_str()));
    facts.extend(heading.date.as_ref().map(|day| Fact::new("Date", day.as_str())));
    if !by.is_empty() {
        facts.push(Fact::new("Prepared by", by.join(", ")));
    }
    facts.push(Fact::new("Prices from", prices::givers(c)));
    facts.extend(c.about.as_ref().map(|note| Fact::new("Note", note.as_str())));
    facts.push(Fact::new("Weather", weather(c, measure)));
    facts
}

fn weather(c: &Comparison, measure: Measure) -> String {
    let words = build::weather_words(c, measure);
    // Degree-days are no word of page one.
    words.split("; ").next().unwrap_or_default().to_owned()
}

/// The prices, and what the loads were checked against.
fn basis(c: &Comparison) -> Vec<Fact> {
    let checked = Fact::new("Checked against", checked(c));
    vec![Fact::new("Prices", prices::words(c)), checked]
}

/// The bills of winters gone by, or where the need comes from and that nothing was held against it.
fn checked(c: &Comparison) -> String {
    let load = c.heading.load_source.clone().unwrap_or_else(|| "as typed in the job".into());
    past_use::words(c).unwrap_or_else(|| {
        format!(
            "nothing yet. The heat that the house needs: {load}. No bills of a past winter were held against it; \
             where there are some, compare them before you sign."
        )
    })
}

/// The winter that it is about.
fn winter_words(c: &Comparison) -> String {
    use crate::weather::YearKind;
    match &c.weather {
        RunWeather::Bins(_) => "in a year of these temperatures".into(),
        RunWeather::Year(year) => match year.kind {
            YearKind::Typical => "in a typical winter".into(),
            YearKind::Synthetic { .. } => "in a winter made from monthly means".into(),
            YearKind::Actual(number) => format!("in the weather of {number}"),
            YearKind::FromJuly(number) => format!("in the winter of {number} to {}", number + 1),
        },
    }
}

/// What of a machine's figures cannot be relied on: a label that its rows contradict (whoever bought by it would
/// be costed wrongly), and a coldest night that its rows do not reach.
fn doubtful(note: &Note, measure: Measure) -> Option<String> {
    match note {
        Note::Label { machine, rating, label, own: Some(own) } => Some(format!(
            "The label of {machine} says {rating} {label}; its rows, which are what is costed, make {own:.1}. Have it \
             looked at before you order."
        )),
        Note::Guessed { machine, coldest_row_c, below_c, night_c: Some(night_c), .. } => Some(format!(
            "What {machine} gives below {} is a guess: its figures end at {}, and the cold to plan for is {}. Ask its \
             maker.",
            measure.temperature_words(*below_c),
            measure.temperature_words(*coldest_row_c),
            measure.temperature_words(*night_c)
        )),
        _ => None,
    }
}

/// The cautions that no sheet goes without, and whom to ask; all of them stand on a later page.
fn cautions(c: &Comparison, measure: Measure) -> Vec<String> {
    let burns = c.machines.iter().any(crate::equipment::Machine::burns);
    let mut list = vec![
        "An estimate, not a quote, nor the load calculation or gas design that a permit needs: local codes and a \
         licensed contractor decide."
            .to_owned(),
        "Protect pipes from frost wherever heat falls short; never heat with an oven or an unvented heater \
         alone."
            .into(),
    ];
    list.extend(c.notes.iter().filter_map(|note| doubtful(note, measure)));
    if burns {
        list.push(
            "If you smell gas, leave, then call. Fit carbon-monoxide alarms wherever something burns.".into(),
        );
    }
    list.push(
        "A generator stands outdoors, away from openings, on a transfer switch, and never feeds back into the \
         line."
            .into(),
    );
    let supplier = if burns { ", the fuel supplier about tank, price and deep snow" } else { "" };
    list.push(format!(
        "Ask a heating contractor about loads and permit, an electrician about panel and circuits{supplier}."
    ));
    list
}
