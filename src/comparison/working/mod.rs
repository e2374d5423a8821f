//! One hour, or one outdoor temperature, of one zone of an option, worked out with what it rests on.
//!
//! Start at [`work_out`].

mod cost;
mod machine;
mod water;

use super::laid::laid;
use super::{Comparison, RunWeather};
use crate::calendar::Stamp;
use crate::simulation::advance::work_hour;
use crate::simulation::bins::work_bin;
use crate::simulation::household::HotWater;
use crate::simulation::working::Step;
pub use cost::CostLine;
use cost::{cost_of_bin, cost_of_hour};
use machine::{At, Within, cooler_facts, heater_facts};
pub use machine::{CutOut, Entering, MachineFacts};
pub use water::WaterFacts;

/// Which moment to work out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Moment {
    /// The hour of that place in the run, from 0.
    Hour(usize),
    /// A steady hour at that outdoor temperature, °C.
    Outdoor(f64),
}

/// The arithmetic of one moment.
#[derive(Debug, Clone, PartialEq)]
pub struct Working {
    /// The option's name.
    pub option: String,
    /// The zone's name.
    pub zone: String,
    /// The clock at the hour, if it is an hour of the year.
    pub stamp: Option<Stamp>,
    /// The hour of the day in standard time, by which the weather goes, if it is an hour of the year.
    pub standard_hour: Option<usize>,
    /// Outdoors, °C.
    pub outdoor_c: f64,
    /// The machines that heat, in order.
    pub heaters: Vec<MachineFacts>,
    /// The machine that cools.
    pub cooler: Option<MachineFacts>,
    /// What a water heater takes from the zone's air.
    pub water: Option<WaterFacts>,
    /// The steps.
    pub steps: Vec<Step>,
    /// What it costs.
    pub cost: Vec<CostLine>,
}

/// Works out a moment of the zone of that place in the option of that place; nothing if there is no
/// such option, zone or hour.
pub fn work_out(c: &Comparison, option: usize, zone: usize, moment: Moment) -> Option<Working> {
    let result = c.options.get(option)?;
    let (of_zone, design) = (c.zones.get(zone)?, result.design.zones.get(zone)?);
    let facts = |within: &Within<'_>| {
        let place = |(place, i): (usize, &usize)| heater_facts(c.machines.get(*i)?, of_zone, (place, within));
        let heaters: Vec<_> = design.heaters.iter().enumerate().filter_map(place).collect();
        (heaters, design.cooler.and_then(|i| cooler_facts(c.machines.get(i)?, of_zone, within.at())))
    };
    let hot = result.design.household.hot_water.as_ref().filter(|hot| hot.zone == Some(zone));
    let (stamp, standard_hour, outdoor_c, (heaters, cooler), water, steps, cost) = match moment {
        Moment::Outdoor(outdoor_c) => {
            let (steps, row) = work_bin(of_zone, design, &c.machines, outdoor_c, c.frost);
            let machines = facts(&Within::Steady(At { outdoor_c, day: None }));
            let cost = cost_of_bin(c, result, &row);
            let water = hot.map(|hot| WaterFacts::at(hot, of_zone, (outdoor_c, hot.mains.mean())));
            (None, None, outdoor_c, machines, water, steps, cost)
        }
        Moment::Hour(i) => {
            let RunWeather::Year(year) = &c.weather else { return None };
            let run = year.run(c.site.zone);
            let plan = laid(&c.setting(), &result.design, &run);
            let stamp = Some(*run.calendar.stamps().get(i)?);
            let (steps, _) = work_hour(&plan, zone, i)?;
            let cost = cost_of_hour(c, result, (&plan, &run), (zone, i));
            let outdoor_c = *plan.outdoor_c.get(i)?;
            let machines = facts(&Within::Year { plan: plan.zones.get(zone)?, run: &run, hour: i });
            let cold_c = |hot: &HotWater| stamp.map_or(f64::NAN, |s| hot.mains.on_day(s.day_of_year()));
            let water = hot.map(|hot| WaterFacts::at(hot, of_zone, (outdoor_c, cold_c(hot))));
            (stamp, Some(i % 24), outdoor_c, machines, water, steps, cost)
        }
    };
    let (option, zone) = (result.design.name.clone(), of_zone.name.clone());
    Some(Working { option, zone, stamp, standard_hour, outdoor_c, heaters, cooler, water, steps, cost })
}
