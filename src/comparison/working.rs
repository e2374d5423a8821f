//! One hour, or one outdoor temperature, of one zone of an option, worked out with what it rests on.
//!
//! Start at [`work_out`].

use super::laid::laid;
use super::paid::{average_price, is_stored};
use super::{Comparison, OptionResult, RunWeather};
use crate::calendar::Stamp;
use crate::equipment::map::{MapRow, PerformanceMap};
use crate::equipment::{Machine, Presence};
use crate::fuel::FuelId;
use crate::load::Zone;
use crate::simulation::advance::work_hour;
use crate::simulation::bins::{BinRow, work_bin};
use crate::simulation::plan::OptionPlan;
use crate::simulation::record::{Sink, ZoneRecord};
use crate::simulation::source::{cooling_source_c, day_of_year, heating_source_c};
use crate::simulation::sums::YearSums;
use crate::simulation::working::Step;
use crate::simulation::{EndUse, EnergyByHour, FuelLimits, OptionState, advance};
use crate::supply::meter::marginal;
use crate::weather::OutdoorRun;

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
    /// The steps.
    pub steps: Vec<Step>,
    /// What it costs.
    pub cost: Vec<CostLine>,
}

/// What a machine's output rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct MachineFacts {
    /// The machine's name.
    pub name: String,
    /// The temperature that its map goes by, °C: the outdoors', or what its ground loop brings.
    pub source_c: f64,
    /// Whether it is on there, seen without memory of the hour before.
    pub presence: Presence,
    /// The two rows of its map and the share of the way between them, where it has more than one.
    pub rows: Option<(MapRow, MapRow, f64)>,
    /// The row between them.
    pub row: Option<MapRow>,
}

/// What one fuel costs for one use in the moment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CostLine {
    /// The fuel.
    pub fuel: FuelId,
    /// The use.
    pub end_use: EndUse,
    /// How much, kWh (HHV).
    pub kwh: f64,
    /// What one more kWh costs in that hour, riders and tax included; without a date, or from a store,
    /// what the option paid on the mean of the year, as in the bin worksheet.
    pub price_per_kwh: f64,
    /// Whether it is that mean.
    pub on_the_mean: bool,
}

/// Works out a moment of the zone of that place in the option of that place; nothing if there is no
/// such option, zone or hour.
pub fn work_out(c: &Comparison, option: usize, zone: usize, moment: Moment) -> Option<Working> {
    let result = c.options.get(option)?;
    let (of_zone, design) = (c.zones.get(zone)?, result.design.zones.get(zone)?);
    let (steps, stamp, outdoor_c, cost) = match moment {
        Moment::Outdoor(t) => {
            let (steps, row) = work_bin(of_zone, design, &c.machines, t, c.frost);
            (steps, None, t, cost_of_bin(c, result, &row))
        }
        Moment::Hour(i) => {
            let RunWeather::Year(year) = &c.weather else { return None };
            let run = year.run(c.site.zone);
            let plan = laid(&c.setting(), &result.design, &run);
            let stamp = run.calendar.stamps().get(i).copied()?;
            let (steps, _) = work_hour(&plan, zone, i)?;
            let cost = cost_of_hour(c, result, (&plan, &run), (zone, i));
            (steps, Some(stamp), *plan.outdoor_c.get(i)?, cost)
        }
    };
    let day = stamp.map(day_of_year);
    let heater = |i: &usize| heater_facts(c.machines.get(*i)?, of_zone, outdoor_c, day);
    Some(Working {
        option: result.design.name.clone(),
        zone: of_zone.name.clone(),
        stamp,
        standard_hour: match moment {
            Moment::Hour(i) => Some(i % 24),
            Moment::Outdoor(_) => None,
        },
        outdoor_c,
        heaters: design.heaters.iter().filter_map(heater).collect(),
        cooler: design.cooler.and_then(|i| cooler_facts(c.machines.get(i)?, of_zone, outdoor_c, day)),
        steps,
        cost,
    })
}

fn heater_facts(machine: &Machine, zone: &Zone, outdoor_c: f64, day: Option<f64>) -> Option<MachineFacts> {
    let heating = machine.heating.as_ref()?;
    let source_c = heating_source_c(machine, zone, outdoor_c, day);
    let held_c = source_c.min(heating.map.warmest_c());
    let varies = heating.map.rows().len() > 1;
    Some(MachineFacts {
        name: machine.name.clone(),
        source_c,
        presence: heating.presence(source_c, true),
        rows: varies.then(|| heating.map.around(held_c)).flatten(),
        row: varies.then(|| heating.row_at(source_c)),
    })
}

fn cooler_facts(machine: &Machine, zone: &Zone, outdoor_c: f64, day: Option<f64>) -> Option<MachineFacts> {
    let map: &PerformanceMap = &machine.cooling.as_ref()?.map;
    let source_c = cooling_source_c(machine, zone, outdoor_c, day);
    let coldest_c = map.rows().first()?.outdoor_c;
    let varies = map.rows().len() > 1;
    Some(MachineFacts {
        name: machine.name.clone(),
        source_c,
        presence: Presence::On,
        rows: varies.then(|| map.around(source_c.clamp(coldest_c, map.warmest_c()))).flatten(),
        row: varies.then(|| map.held_at(source_c)),
    })
}

/// What the moment drew of each fuel for each use, at `price` a kWh, which also says whether it is the mean
/// of the year's.
fn lines(
    c: &Comparison,
    kwh: impl Fn(FuelId, EndUse) -> f64,
    price: impl Fn(FuelId, EndUse) -> Option<(f64, bool)>,
) -> Vec<CostLine> {
    let uses = c.fuels.iter().flat_map(|(fuel, _)| EndUse::DRAWING.map(|end_use| (fuel, end_use)));
    let drawn =
        uses.map(|(fuel, end_use)| (fuel, end_use, kwh(fuel, end_use))).filter(|(_, _, kwh)| *kwh > 0.0);
    drawn
        .filter_map(|(fuel, end_use, kwh)| {
            let (price_per_kwh, on_the_mean) = price(fuel, end_use)?;
            Some(CostLine { fuel, end_use, kwh, price_per_kwh, on_the_mean })
        })
        .collect()
}

fn cost_of_bin(c: &Comparison, option: &OptionResult, row: &BinRow) -> Vec<CostLine> {
    let energy = EnergyByHour::in_one(c.fuels.count(), &row.energy);
    lines(c, |fuel, end_use| energy.year(fuel, end_use), |fuel, end_use| mean_price(c, option, fuel, end_use))
}

/// What the option paid for a kWh on the mean of the year.
fn mean_price(c: &Comparison, option: &OptionResult, fuel: FuelId, end_use: EndUse) -> Option<(f64, bool)> {
    let per_unit = average_price(option, c, (fuel, end_use));
    c.fuels.get(fuel).map(|f| (per_unit / f.kwh_per_unit, true))
}

/// What the zone's hour drew, at what one more kWh costs after all that the option used of the month. A
/// fuel from a store was bought on other days, so it has the mean price of the year.
fn cost_of_hour(
    c: &Comparison,
    option: &OptionResult,
    (plan, run): (&OptionPlan, &OutdoorRun),
    (zone, hour): (usize, usize),
) -> Vec<CostLine> {
    let sums = || YearSums::new(&run.calendar, c.fuels.count(), c.zones.len());
    let (mut before, mut own) = (sums(), OneZone { zone, sums: sums() });
    let mut state = OptionState::at_set_point(plan);
    advance(plan, 0..hour, &mut state, &mut FuelLimits::none(), &mut before);
    advance(plan, hour..hour + 1, &mut state, &mut FuelLimits::none(), &mut own);
    let heaters = option.design.zones.iter().flat_map(|zone| &zone.heaters);
    let heats: Vec<FuelId> = heaters.filter_map(|i| c.machines.get(*i)).map(|m| m.fuel).collect();
    let price = |fuel, end_use| {
        if is_stored(option, fuel) {
            return mean_price(c, option, fuel, end_use);
        }
        let prices = (&c.prices, heats.contains(&fuel));
        let now = marginal(&before.energy, run.calendar.stamps(), prices, (fuel, end_use), hour);
        now.map(|per_kwh| (per_kwh, false))
    };
    lines(c, |fuel, end_use| own.sums.energy.year(fuel, end_use), price)
}

/// Keeps what one zone draws, and nothing else.
struct OneZone {
    zone: usize,
    sums: YearSums,
}

impl Sink for OneZone {
    fn take(&mut self, record: &ZoneRecord<'_>) {
        if record.zone == self.zone {
            self.sums.take(record);
        }
    }
}
