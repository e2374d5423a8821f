//! What a careful reader asks beside the comparison: the loads a little off, and a winter of bad prices.
//!
//! Start at [`around`].

use super::change::{Change, Scenario};
use super::scenarios::{ELECTRICITY_STRESS, FUEL_STRESS};
use crate::calendar::MonthDay;
use crate::comparison::{Comparison, Rerun, Reruns};
use crate::fuel::FuelId;
use crate::job::{Job, path};
use crate::problem::Problems;
use crate::units::Quantity;
use crate::weather::Weather;

/// The days on which what is burned costs so many times as much.
pub const DEAR_DAYS: (MonthDay, MonthDay) = (MonthDay { month: 1, day: 1 }, MonthDay { month: 2, day: 28 });

/// The options under other loads and prices.
#[derive(Debug, Clone, PartialEq)]
pub struct Around {
    /// Every zone's design load lower, and higher, by the job's uncertainty of loads.
    pub loads: [Rerun; 2],
    /// Every fuel that is burned at [`FUEL_STRESS`] times its price on [`DEAR_DAYS`]; nothing where none
    /// is.
    pub fuels_dear: Option<Rerun>,
    /// Electricity at [`ELECTRICITY_STRESS`] times its price all year.
    pub electricity_dear: Rerun,
    /// Each winter of the record that the weather is out of, if it is out of one.
    pub winters: Vec<Rerun>,
}

/// Runs the options of `first` under other loads and prices.
///
/// # Errors
/// Everything a job can be refused for.
pub fn around(job: &Job, weather: &Weather, first: &Comparison) -> Result<Around, Problems> {
    let reruns = Reruns::new(first, weather);
    let run = |name: &str, changes: Vec<Change>| {
        Scenario { name: name.into(), changes }.with(job, |changed| reruns.run(changed))
    };
    let fuels = burned(first);
    let dear = |fuel: &String| Change::Price { fuel: fuel.clone(), times: FUEL_STRESS, days: DEAR_DAYS };
    let has_hours = matches!(first.weather, crate::comparison::RunWeather::Year(_));
    let fuels_dear = match fuels.is_empty() || !has_hours {
        true => None,
        false => Some(run("fuel dear in January and February", fuels.iter().map(dear).collect())?),
    };
    let winters = super::scenarios::years(job, weather, first)?;
    let electricity = Change::price("electricity", ELECTRICITY_STRESS);
    Ok(Around {
        loads: [
            run("lower loads", loads(job, 1.0 - first.load_uncertainty))?,
            run("higher loads", loads(job, 1.0 + first.load_uncertainty))?,
        ],
        fuels_dear,
        electricity_dear: run("electricity dear", vec![electricity])?,
        winters: winters.into_iter().flat_map(|table| table.rows).map(|row| row.found).collect(),
    })
}

/// The ids of the fuels that some option burns.
fn burned(c: &Comparison) -> Vec<String> {
    let used =
        |id: FuelId| id != FuelId::ELECTRICITY && c.options.iter().any(|o| o.ledger.quantity(id) != 0.0);
    c.fuels.iter().filter(|(id, _)| used(*id)).map(|(_, fuel)| fuel.id.clone()).collect()
}

fn loads(job: &Job, times: f64) -> Vec<Change> {
    let zones = job.house.zone.iter().map(|zone| {
        let table = path::join("house.zone", &zone.name.value);
        let kw = zone.design_load.value.base() * times;
        Change::Set { key: path::join(&table, "design_load"), value: format!("{kw:.9} kW") }
    });
    zones.collect()
}
