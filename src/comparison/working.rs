//! One hour, or one outdoor temperature, of one zone of an option, worked out with what it rests on.
//!
//! Start at [`work_out`].

use super::laid::{laid, of_heat};
use super::{Comparison, RunWeather};
use crate::calendar::{Calendar, Stamp};
use crate::equipment::map::MapRow;
use crate::equipment::{Machine, Presence};
use crate::fuel::FuelId;
use crate::load::Zone;
use crate::prices::FuelPrice;
use crate::simulation::advance::work_hour;
use crate::simulation::bins::work_bin;
use crate::simulation::plan::OptionPlan;
use crate::simulation::source::{day_of_year, heating_source_c};
use crate::simulation::sums::YearSums;
use crate::simulation::working::Step;
use crate::simulation::{FuelLimits, OptionState, advance};
use crate::supply::meter::heating_marginal;

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
    /// What one more kWh costs then, riders and tax included; without a date, on the mean of the year.
    pub price_per_kwh: f64,
}

/// Works out a moment of the zone of that place in the option of that place; nothing if there is no
/// such option, zone or hour.
pub fn work_out(c: &Comparison, option: usize, zone: usize, moment: Moment) -> Option<Working> {
    let result = c.options.get(option)?;
    let (of_zone, design) = (c.zones.get(zone)?, result.design.zones.get(zone)?);
    let (steps, stamp, outdoor_c, prices) = match moment {
        Moment::Outdoor(t) => (work_bin(of_zone, design, &c.machines, t).0, None, t, mean_prices(c)),
        Moment::Hour(i) => {
            let RunWeather::Year(year) = &c.weather else { return None };
            let run = year.run(c.site.zone);
            let plan = laid(&result.design, (&c.zones, &c.machines), (&c.prices, &c.supplies), &run);
            let stamp = run.calendar.stamps().get(i).copied()?;
            let steps = work_hour(&plan, zone, i)?.0;
            (steps, Some(stamp), *plan.outdoor_c.get(i)?, prices_at(c, &plan, &run.calendar, i))
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
        cost: cost(c, &heaters, &steps, &prices),
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

/// What one more kWh of each fuel costs on the mean of the year.
fn mean_prices(c: &Comparison) -> Vec<Option<f64>> {
    let price = |fuel| of_heat(&c.prices, fuel).map(FuelPrice::mean_marginal);
    c.fuels.iter().map(|(fuel, _)| price(fuel)).collect()
}

/// What one more kWh of each fuel costs in an hour, after what the option has used of that month.
fn prices_at(c: &Comparison, plan: &OptionPlan, calendar: &Calendar, hour: usize) -> Vec<Option<f64>> {
    let mut sums = YearSums::new(calendar, c.fuels.count(), c.zones.len());
    let mut state = OptionState::at_set_point(plan);
    advance(plan, 0..hour, &mut state, &mut FuelLimits::none(), &mut sums);
    let price = |fuel| heating_marginal(&sums.energy, calendar.stamps(), &c.prices, fuel, hour);
    c.fuels.iter().map(|(fuel, _)| price(fuel)).collect()
}

fn cost(c: &Comparison, heaters: &[HeaterFacts], steps: &[Step], prices: &[Option<f64>]) -> Vec<CostLine> {
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
    let lines = c.fuels.iter().zip(used.into_iter().zip(prices)).filter(|(_, (kwh, _))| *kwh > 0.0);
    lines
        .filter_map(|((fuel, _), (kwh, price))| Some(CostLine { fuel, kwh, price_per_kwh: (*price)? }))
        .collect()
}
