//! The demonstration job as the tests of balances and whole years use it: changed through the job's
//! own editor, read, and run.
//!
//! Start at [`compared`].

use winterledger::calendar::Stamp;
use winterledger::comparison::{Comparison, RunWeather, compare};
use winterledger::fuel::FuelId;
use winterledger::job::{Job, edit, reader};
use winterledger::simulation::plan::OptionPlan;
use winterledger::simulation::record::{Sink, ZoneRecord};
use winterledger::weather::{OutdoorRun, Weather, places};

/// The steady line in both zones.
pub(crate) const STEADY: [(&str, &str); 2] =
    [("house.zone.main.heat_capacity", "0 kWh/K"), ("house.zone.studio wing.heat_capacity", "0 kWh/K")];

/// One propane price all year instead of twelve and a spike.
pub(crate) fn with_flat_propane(text: &str) -> String {
    let from = text.find("[prices.propane]").unwrap();
    let to = text.find("[prices.oil_no_2]").unwrap();
    format!("{}[prices.propane]\nprice = \"2.20 $/gal\"\n\n{}", &text[..from], &text[to..])
}

/// The job without its tank, so that propane is paid for as it burns.
pub(crate) fn text() -> String {
    let whole = with_tank();
    let (from, to) = (whole.find("[[supply]]").unwrap(), whole.find("[[option]]").unwrap());
    format!("{}{}", &whole[..from], &whole[to..])
}

/// The job as it is.
pub(crate) fn with_tank() -> String {
    include_str!("../../data/demo.toml").to_owned()
}

/// The job of `text` with the changes applied.
pub(crate) fn job(text: &str, changes: &[(&str, &str)]) -> Job {
    let set = |text: String, (key, value): &(&str, &str)| {
        edit::set(&text, &quoted(key), value).unwrap_or_else(|p| panic!("{key}: {p:?}"))
    };
    reader::read("demo", changes.iter().fold(text.to_owned(), set)).unwrap()
}

/// A name with a space stands in quotation marks in a key path.
fn quoted(key: &str) -> String {
    key.replace("studio wing", "\"studio wing\"")
}

pub(crate) fn chicago() -> Weather {
    Weather::Year(Box::new(places::open("il-chicago").unwrap()))
}

/// The demonstration job with changes, on its own weather.
pub(crate) fn compared(changes: &[(&str, &str)]) -> Comparison {
    compare(&job(&text(), changes), &chicago()).unwrap()
}

/// The hours that the comparison ran on.
pub(crate) fn run_of(c: &Comparison) -> OutdoorRun {
    match &c.weather {
        RunWeather::Year(year) => year.run(c.site.zone),
        RunWeather::Bins(_) => panic!("bins have no hours"),
    }
}

/// The plan of one option.
pub(crate) fn plan_of(c: &Comparison, option: usize, run: &OutdoorRun) -> OptionPlan {
    OptionPlan::new(&c.options[option].design, &c.zones, &c.machines, run)
}

/// Every draw of an option: fuel, clock, kWh.
pub(crate) struct Draws<'a> {
    pub(crate) stamps: &'a [Stamp],
    pub(crate) list: Vec<(FuelId, Stamp, f64)>,
}

impl Sink for Draws<'_> {
    fn take(&mut self, record: &ZoneRecord<'_>) {
        let stamp = self.stamps[record.hour];
        let mut add = |fuel, kwh| self.list.push((fuel, stamp, kwh));
        for (heater, output) in record.plan.heaters.iter().zip(&record.outcome.heaters) {
            add(heater.fuel, output.draw);
            add(FuelId::ELECTRICITY, output.side);
        }
        let cooler = record.outcome.cooler;
        add(FuelId::ELECTRICITY, cooler.draw + cooler.side + record.standby_kwh);
    }
}
