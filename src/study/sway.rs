//! Sensitivity: each input at a low and a high value, one at a time, and what that does to how much more
//! one option costs a year than another.
//!
//! Start at [`sway`].

use super::change::{Change, Scenario};
use super::tipping::{Asked, two_options};
use crate::comparison::{Comparison, Reruns};
use crate::fuel::FuelId;
use crate::job::{Job, VarySection, VaryWhat, path};
use crate::ledger::Ledger;
use crate::problem::Problems;
use crate::sources::Source;
use crate::units::{Quantity, UnitSystem};
use crate::weather::Weather;

/// Factors on a delivered fuel's price where the job names no input.
const DELIVERED: (f64, f64) = (0.8, 1.4);
/// The same on gas and electricity, whose rates are regulated.
const METERED: (f64, f64) = (0.9, 1.3);
/// How much colder or warmer a year may be, K.
const YEAR_K: f64 = 1.5;

/// What each input does to the difference between two options.
#[derive(Debug, Clone, PartialEq)]
pub struct Sway {
    /// The places of the two options.
    pub options: [usize; 2],
    /// What the two cost a year as the job has it.
    pub costs: [f64; 2],
    /// Whether the job names no input, so that these are the program's own.
    pub is_default: bool,
    /// One an input, the one that moves the difference most first.
    pub inputs: Vec<SwayInput>,
}

/// One input.
#[derive(Debug, Clone, PartialEq)]
pub struct SwayInput {
    /// Its name.
    pub name: String,
    /// At its low value.
    pub low: SwayEnd,
    /// At its high value.
    pub high: SwayEnd,
    /// Why it is moved so far.
    pub source: Source,
}

/// One end of an input.
#[derive(Debug, Clone, PartialEq)]
pub struct SwayEnd {
    /// The value in words.
    pub value: String,
    /// What the two options cost a year with it.
    pub costs: [f64; 2],
}

impl SwayEnd {
    /// How much more the first option costs.
    pub fn difference(&self) -> f64 {
        self.costs[0] - self.costs[1]
    }
}

impl SwayInput {
    /// How far the difference moves from end to end.
    pub fn span(&self) -> f64 {
        (self.high.difference() - self.low.difference()).abs()
    }
}

/// An input before it is moved.
struct Input {
    name: String,
    ends: [(String, Vec<Change>); 2],
    source: Source,
}

/// Moves each input of the job, or the program's own where the job names none; `c` is `job` on `weather`.
/// Nothing where there are no two options and nobody asked for two.
///
/// # Errors
/// Names that do not exist, and values that the job is refused for.
pub fn sway(job: &Job, weather: &Weather, c: &Comparison, asked: &Asked) -> Result<Option<Sway>, Problems> {
    let found = two_options(job, c, asked).map_err(|problem| vec![problem])?;
    let Some(options) = found else { return Ok(None) };
    let is_default = job.vary.is_empty();
    let list = if is_default { own_inputs(job, c, options) } else { job.vary.iter().map(typed).collect() };
    let reruns = Reruns::new(c, weather);
    let end = |name: &str, (value, changes): (String, Vec<Change>)| {
        let scenario = Scenario { name: name.to_owned(), changes };
        let ledgers = scenario.of_vary(job, |changed| reruns.ledgers(changed, &options))?;
        let cost = |place: usize| ledgers.get(place)?.as_ref().map(Ledger::total);
        let costs = [0, 1].map(|place| cost(place).unwrap_or(f64::NAN));
        Ok::<SwayEnd, Problems>(SwayEnd { value, costs })
    };
    let mut inputs = Vec::new();
    for Input { name, ends: [low, high], source } in list {
        let (low, high) = (end(&name, low)?, end(&name, high)?);
        inputs.push(SwayInput { name, low, high, source });
    }
    // The sort is stable, so that equals stay in the job's order.
    inputs.sort_by(|a, b| b.span().total_cmp(&a.span()));
    let costs = options.map(|i| c.options.get(i).map_or(f64::NAN, |option| option.yearly_cost()));
    Ok(Some(Sway { options, costs, is_default, inputs }))
}

/// Whether every `[[vary]]` of the job can be run at both its ends, without running it; `c` is `job` on `weather`.
///
/// # Errors
/// What [`sway`] refuses of them, all together, each thing once.
pub fn accepts_vary(job: &Job, weather: &Weather, c: &Comparison) -> Result<(), Problems> {
    let reruns = Reruns::new(c, weather);
    let mut problems = Problems::new();
    for Input { name, ends, .. } in job.vary.iter().map(typed) {
        for (_, changes) in ends {
            let scenario = Scenario { name: name.clone(), changes };
            let found = scenario.of_vary(job, |changed| reruns.accepts(changed)).err().unwrap_or_default();
            for problem in found {
                // A key that is not there is not there at the other end either.
                if !problems.contains(&problem) {
                    problems.push(problem);
                }
            }
        }
    }
    if problems.is_empty() { Ok(()) } else { Err(problems) }
}

/// An input as the job names it.
fn typed(section: &VarySection) -> Input {
    let ends = match &section.what {
        VaryWhat::Key { key, low, high } => [low, high].map(|value| {
            let set = Change::Set { key: key.value.clone(), value: value.value.clone() };
            (value.value.clone(), vec![set])
        }),
        VaryWhat::Price { fuel, low_times, high_times } => {
            [low_times, high_times].map(|times| price(&fuel.value, times.value))
        }
    };
    let source = Source::Job(section.source.as_ref().map(|source| source.value.clone()));
    Input { name: section.name.value.clone(), ends, source }
}

fn price(fuel: &str, times: f64) -> (String, Vec<Change>) {
    (format!("\u{d7} {times}"), vec![Change::price(fuel, times)])
}

/// The design loads, the price of every fuel that one of the two uses, the year's weather.
fn own_inputs(job: &Job, c: &Comparison, options: [usize; 2]) -> Vec<Input> {
    let mut list = vec![loads(job, c.load_uncertainty)];
    let used = |id| options.iter().filter_map(|i| c.options.get(*i)).any(|o| o.ledger.quantity(id) > 0.0);
    for (id, fuel) in c.fuels.iter().filter(|(id, _)| used(*id)) {
        let ((low, high), source) = match (id == FuelId::ELECTRICITY, fuel.metered) {
            (false, false) if fuel.id == "propane" => (DELIVERED, delivered_source()),
            (false, false) => (
                DELIVERED,
                Source::CommonPractice("taken as far as propane\u{2019}s moved: a judgement".into()),
            ),
            _ => (
                METERED,
                Source::CommonPractice("regulated rates move less and mostly up: a judgement".into()),
            ),
        };
        let ends = [low, high].map(|times| price(&fuel.id, times));
        list.push(Input { name: format!("price of {}", fuel.name), ends, source });
    }
    list.push(weather_input(job, c.units));
    list
}

fn delivered_source() -> Source {
    Source::Published(
        "US Energy Information Administration, weekly residential propane, as quoted in the press: from $2.37 \
         to $3.89 a gallon between 2012 and 2017, 0.8 to 1.4 times $2.86 in the midst of them"
            .into(),
    )
}

fn loads(job: &Job, uncertainty: f64) -> Input {
    let end = |times: f64| {
        let set = |zone: &crate::job::ZoneSection| Change::Set {
            key: path::join(&path::join("house.zone", &zone.name.value), "design_load"),
            value: format!("{:?} kW", zone.design_load.base() * times),
        };
        let percent = (100.0 * (times - 1.0)).round();
        let sign = if percent < 0.0 { '\u{2212}' } else { '+' };
        (format!("{sign}{} %", percent.abs()), job.house.zone.iter().map(set).collect())
    };
    let source = Source::Derived("how far the design loads may be off, house.load_uncertainty".into());
    Input { name: "design loads".into(), ends: [end(1.0 - uncertainty), end(1.0 + uncertainty)], source }
}

/// A warmer and a colder year, on top of the job's own offset.
fn weather_input(job: &Job, units: UnitSystem) -> Input {
    let own = job.site.site_offset.as_ref().map_or(0.0, |offset| offset.base());
    let (amount, degree) = match units {
        UnitSystem::Us => (1.8 * YEAR_K, "\u{b0}F"),
        UnitSystem::Si => (YEAR_K, "K"),
    };
    let end = |kelvin: f64, word: &str| {
        let set = Change::Set { key: "site.site_offset".into(), value: format!("{:?} K", own + kelvin) };
        (format!("{amount} {degree} {word}"), vec![set])
    };
    let source =
        Source::CommonPractice("winters differ by about as much from year to year: a judgement".into());
    let ends = [end(YEAR_K, "warmer"), end(-YEAR_K, "colder")];
    Input { name: "the year's weather".into(), ends, source }
}
