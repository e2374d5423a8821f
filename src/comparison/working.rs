//! One hour, or one outdoor temperature, of one zone of an option, worked out with what it rests on.
//!
//! Start at [`work_out`].

use super::option::laid;
use super::{Comparison, RunWeather};
use crate::calendar::Stamp;
use crate::equipment::map::MapRow;
use crate::equipment::{Machine, Presence};
use crate::fuel::FuelId;
use crate::load::Zone;
use crate::simulation::advance::work_hour;
use crate::simulation::bins::work_bin;
use crate::simulation::source::{day_of_year, heating_source_c};
use crate::simulation::working::Step;

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
    /// Outdoors, °C.
    pub outdoor_c: f64,
    /// The machines that heat, in order.
    pub heaters: Vec<HeaterFacts>,
    /// The steps.
    pub steps: Vec<Step>,
    /// What it costs.
    pub cost: Vec<CostLine>,
}

/// What a heater's output rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct HeaterFacts {
    /// The machine's name.
    pub name: String,
    /// The machine's place in the list.
    pub machine: usize,
    /// The temperature that its map goes by, °C: the outdoors', or what its ground loop brings.
    pub source_c: f64,
    /// Whether it is on there, seen without memory of the hour before.
    pub presence: Presence,
    /// The two rows of its map and the share of the way between them, where it has more than one.
    pub rows: Option<(MapRow, MapRow, f64)>,
    /// The row between them.
    pub row: Option<MapRow>,
}

/// One fuel's cost in the moment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CostLine {
    /// The fuel.
    pub fuel: FuelId,
    /// How much, kWh (HHV).
    pub kwh: f64,
    /// Price of one kWh then; of a moment without a date, the mean of the months.
    pub price_per_kwh: f64,
}

/// Works out a moment of the zone of that place in the option of that place; nothing if there is no
/// such option, zone or hour.
pub fn work_out(c: &Comparison, option: usize, zone: usize, moment: Moment) -> Option<Working> {
    let result = c.options.get(option)?;
    let (of_zone, design) = (c.zones.get(zone)?, result.design.zones.get(zone)?);
    let (steps, stamp, outdoor_c) = match moment {
        Moment::Outdoor(t) => (work_bin(of_zone, design, &c.machines, t).0, None, t),
        Moment::Hour(i) => {
            let RunWeather::Year(year) = &c.weather else { return None };
            let run = year.run(c.site.zone);
            let plan = laid(&result.design, (&c.zones, &c.machines), &c.prices, &run);
            let stamp = run.calendar.stamps().get(i).copied()?;
            (work_hour(&plan, zone, i)?.0, Some(stamp), *plan.outdoor_c.get(i)?)
        }
    };
    let heaters =
        design.heaters.iter().filter_map(|i| facts(*i, c.machines.get(*i)?, of_zone, outdoor_c, stamp));
    let heaters: Vec<HeaterFacts> = heaters.collect();
    Some(Working {
        option: result.design.name.clone(),
        zone: of_zone.name.clone(),
        stamp,
        outdoor_c,
        cost: cost(c, &heaters, &steps, stamp),
        heaters,
        steps,
    })
}

fn facts(
    index: usize,
    machine: &Machine,
    zone: &Zone,
    outdoor_c: f64,
    stamp: Option<Stamp>,
) -> Option<HeaterFacts> {
    let source_c = heating_source_c(machine, zone, outdoor_c, stamp.map(day_of_year));
    let heating = machine.heating.as_ref()?;
    let varies = heating.map.rows().len() > 1;
    let held_c = source_c.min(heating.map.warmest_c());
    Some(HeaterFacts {
        name: machine.name.clone(),
        machine: index,
        source_c,
        presence: heating.presence(source_c, true),
        rows: varies.then(|| heating.map.around(held_c)).flatten(),
        row: varies.then(|| heating.row_at(source_c)),
    })
}

fn cost(c: &Comparison, heaters: &[HeaterFacts], steps: &[Step], stamp: Option<Stamp>) -> Vec<CostLine> {
    let mut used = vec![0.0; c.fuels.count()];
    let turns = |place: usize| {
        let own = steps.iter().find_map(|s| match s {
            Step::Turn { heater, share, .. } | Step::Fuelled { heater, share } if *heater == place => {
                Some(*share)
            }
            _ => None,
        });
        own.unwrap_or(1.0)
    };
    for step in steps {
        let Step::Output { heater, draw_kw, side_kw, .. } = step else { continue };
        let fuel = heaters.get(*heater).and_then(|h| c.machines.get(h.machine)).map(|m| m.fuel);
        for (fuel, kw) in [(fuel, draw_kw), (Some(FuelId::ELECTRICITY), side_kw)] {
            if let Some(sum) = fuel.and_then(|f| used.get_mut(f.index())) {
                *sum += kw * turns(*heater);
            }
        }
    }
    let lines = c.fuels.iter().zip(used).filter(|(_, kwh)| *kwh > 0.0).filter_map(|((fuel, _), kwh)| {
        let price = c.prices.of(fuel)?;
        let mean = price.by_month.iter().sum::<f64>() / 12.0;
        Some(CostLine { fuel, kwh, price_per_kwh: stamp.map_or(mean, |s| price.marginal(s)) })
    });
    lines.collect()
}
