//! `history`: past prices of a fuel, the model fitted to them, the winter that could follow.
//!
//! Start at [`run`].

use super::arguments::History as Arguments;
use super::input::unreadable;
use super::{Failure, output};
use crate::comparison::plausible::{CURRENCIES, ordinary_price};
use crate::fuel::{Fuel, FuelId, Fuels, meant_by};
use crate::job::closest;
use crate::prices::history::examined::{Examined, examine};
use crate::prices::history::fit::{Asked, LEAST_WINTERS, NoFit};
use crate::prices::history::{PriceHistory, reading};
use crate::problem::Problem;
use crate::report::files::{ReadyFile, picture};
use crate::report::price_history::{AskedOf, report};
use crate::report::price_history_lines::job_lines;
use crate::report::price_history_picture::chart;
use crate::report::tables_json::titled_json;
use crate::report::terminal;
use std::fs::File;
use std::io::Read;
use std::path::Path;

const DEMO: &str = include_str!("../../data/prices/demo-propane.csv");
const DEMO_NAME: &str = "demonstration, invented";
/// A history larger than this is none.
const LARGEST: u64 = 8 << 20;
/// Years; a judgement, asked for since few winters hardly tell it.
const HALF_LIFE_YEARS: (f64, f64) = (0.5, 5.0);
/// Weeks; a judgement.
const SPIKE_HALF_LIFE_WEEKS: f64 = 4.0;

/// Runs the command.
pub(crate) fn run(arguments: &Arguments) -> Result<(), Failure> {
    let asked = asked(arguments)?;
    let fuels = Fuels::built_in()?;
    let fuel = fuel_named(&fuels, &arguments.fuel)?;
    let (name, history) = opened(arguments.file.as_deref())?;
    let history = match arguments.inflation {
        Some(share) => history.deflated(share),
        None => history,
    };
    let told = AskedOf {
        name: name.clone(),
        inflation: arguments.inflation,
        half_life_typed: arguments.half_life_from.and(arguments.half_life_to).is_some(),
        spike_half_life_typed: arguments.spike_half_life.is_some(),
        seed: arguments.seed,
        ordinary: ordinary(fuels.get(fuel).map(|known| (fuel, known)), &history.unit),
        summer: arguments.summer,
    };
    let found = examine(history, asked, arguments.seed).map_err(|why| not_fitted(&name, why))?;
    show(arguments, &told, &found)
}

fn show(arguments: &Arguments, told: &AskedOf, found: &Examined) -> Result<(), Failure> {
    let report = report(found, told);
    let json = titled_json(&report, &found.history.unit).map_err(Failure::Ours)?;
    let lines = job_lines(found, &arguments.fuel, arguments.summer);
    if let Some(folder) = &arguments.out {
        let ready = |name: &str, text: &str| ReadyFile { name: name.into(), bytes: text.as_bytes().to_vec() };
        let mut files = picture("price_history", chart(found, &told.name).draw()).map_err(Failure::Ours)?;
        files.extend([ready("price_history.json", &json), ready("price_lines.toml", &lines)]);
        output::folder(folder, &report, "price_history", files, None)?;
    }
    if arguments.json {
        return output::result(&json);
    }
    let text = terminal::render(&report, output::columns());
    output::result(&format!("{text}\nFor the job:\n\n{lines}"))
}

fn fuel_named(fuels: &Fuels, name: &str) -> Result<FuelId, Problem> {
    fuels.find(name).ok_or_else(|| {
        let ids: Vec<&str> = fuels.iter().map(|(_, fuel)| fuel.id.as_str()).collect();
        let problem = Problem::new(format!("--fuel {name}: there is no such fuel")).allowed(ids.join(", "));
        match meant_by(name).or_else(|| closest(name, ids)) {
            Some(near) => problem.help(format!("did you mean {near}?")),
            None => problem.help("take one of them"),
        }
    })
}

/// What a fuel ordinarily costs, in the unit of the history.
fn ordinary(fuel: Option<(FuelId, &Fuel)>, unit: &str) -> Option<(f64, f64)> {
    let (id, fuel) = fuel?;
    let (_, sold) = unit.split_once('/').filter(|(money, _)| CURRENCIES.contains(money))?;
    let kwh = fuel.kwh_per_unit * fuel.units_in(sold)?;
    let range = ordinary_price(id);
    Some((range.start() * kwh, range.end() * kwh))
}

fn asked(arguments: &Arguments) -> Result<Asked, Problem> {
    let within = |name: &str, value: f64, (low, high): (f64, f64)| match (low..=high).contains(&value) {
        true => Ok(value),
        false => Err(Problem::new(format!("--{name} {value} is out of range"))
            .allowed(format!("{low} to {high}"))
            .help("See which digit is a slip")),
    };
    let low = arguments.half_life_from.unwrap_or(HALF_LIFE_YEARS.0);
    let high = arguments.half_life_to.unwrap_or(HALF_LIFE_YEARS.1.max(low));
    let half_life_years =
        (within("half-life-from", low, (0.1, 50.0))?, within("half-life-to", high, (0.1, 50.0))?);
    if low > high {
        let what = format!("--half-life-to {high} is less than --half-life-from {low}");
        return Err(Problem::new(what).help("See which of the two is a slip"));
    }
    if let Some(share) = arguments.inflation {
        within("inflation", share, (-0.2, 0.5))?;
    }
    if let Some(price) = arguments.summer {
        within("summer", price, (0.0, 1e6))?;
    }
    let weeks = arguments.spike_half_life.unwrap_or(SPIKE_HALF_LIFE_WEEKS);
    Ok(Asked { half_life_years, spike_half_life_weeks: within("spike-half-life", weeks, (0.5, 26.0))? })
}

fn opened(path: Option<&Path>) -> Result<(String, PriceHistory), Failure> {
    let (name, text) = match path {
        None => (DEMO_NAME.to_owned(), DEMO.to_owned()),
        Some(path) => {
            let unusable = |e: std::io::Error| {
                Problem::new(unreadable(&format!("the price history '{}'", path.display()), &e))
                    .help("Name a CSV file with the columns date and $/gal")
            };
            let mut bytes = Vec::new();
            let file = File::open(path).map_err(unusable)?;
            file.take(LARGEST + 1).read_to_end(&mut bytes).map_err(unusable)?;
            if bytes.len() as u64 > LARGEST {
                let what = format!("the price history '{}' is larger than 8 MB", path.display());
                return Err(Problem::new(what).help("Leave out the oldest winters").into());
            }
            let name = path.file_name().map(|name| name.to_string_lossy().into_owned());
            (name.unwrap_or_default(), String::from_utf8_lossy(&bytes).into_owned())
        }
    };
    let history = reading::read(&name, &text).map_err(|problems| Failure::Given(problems, None))?;
    Ok((name, history))
}

fn not_fitted(name: &str, why: NoFit) -> Problem {
    let problem = match why {
        NoFit::FewWinters(count) => {
            let what = format!("the history holds {count} winters with prices in every month that it knows");
            Problem::new(what).allowed(format!("{LEAST_WINTERS} or more")).help(
                "So few say nothing of the next: give the job spikes and scenarios instead, and try them with \
                 `winterledger scenarios`",
            )
        }
        NoFit::NothingMoves => Problem::new("the history's prices do not move")
            .help("Type the price as it is: nothing is to be fitted"),
    };
    problem.in_file(name)
}
