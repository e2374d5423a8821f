//! The year's months, the hours in which machines are not enough, and the coldest week, into the plain
//! values that charts draw.
//!
//! Start at [`months`], [`short_hours`] and [`coldest_week`].

use super::charts::{MonthLine, MonthsChart, ShortHours, ShortHoursChart, WeekChart, WeekOption};
use super::figures::{MONTHS, Measure};
use super::slow::too_cold_by;
use crate::comparison::week::{ColdDays, coldest_days_of};
use crate::comparison::{Comparison, OptionResult};
use crate::load::Zone;
use crate::simulation::sums::ZoneSums;

/// Days of the chart of the coldest week.
const DAYS: usize = 7;
/// More options than these would make its panels too small.
const MOST_PANELS: usize = 3;

/// What each option costs month by month, July first; nothing where the weather has no months.
pub fn months(c: &Comparison, about: &str) -> Option<MonthsChart> {
    let order: Vec<u8> = (7..=12).chain(1..=6).collect();
    let has_months = c.options.iter().any(|o| o.ledger.postings.iter().any(|p| p.month.is_some()));
    let line = |(option, o): (usize, &OptionResult)| MonthLine {
        name: o.design.name.clone(),
        option,
        amounts: order.iter().map(|m| o.ledger.sum(|p| p.month == Some(*m))).collect(),
    };
    let name = |month: &u8| MONTHS.get(usize::from(*month).checked_sub(1)?).map(|m| (*m).to_owned());
    has_months.then(|| MonthsChart {
        title: "What is paid month by month".into(),
        subtitle: about.to_owned(),
        currency: c.currency.clone(),
        months: order.iter().filter_map(name).collect(),
        lines: c.options.iter().enumerate().map(line).collect(),
        foot: "Fuel that comes by truck is paid for in the month of its delivery. An estimate, not a quote; local \
               codes and a licensed contractor decide."
            .into(),
    })
}

/// The hours in which each option's first machines are not enough.
pub fn short_hours(c: &Comparison, measure: Measure, about: &str) -> ShortHoursChart {
    let option = |o: &OptionResult| ShortHours {
        name: o.design.name.clone(),
        backup: o.zones.iter().map(|z| lacking_hours(&z.sums) as f64).fold(0.0, f64::max),
        cold: o.hours_not_kept_warm() as f64,
        lowest: o.lowest_room_c().map(|t| measure.temperature_words(t)),
    };
    ShortHoursChart {
        title: "Hours of the year in which the first machines are not enough".into(),
        subtitle: about.to_owned(),
        options: c.options.iter().map(option).collect(),
        foot: format!(
            "Of the zone that has the most of them. A furnace that takes turns with a heat pump is no backup here: what \
             it burns stands in the table of what is used. Too cold: more than {} below the set point. An estimate of \
             one weather year; a record winter has more.",
            too_cold_by(measure)
        ),
    }
}

/// Hours in which backup gave heat that was lacking, not only tempered the air of a heat pump that defrosts.
fn lacking_hours(sums: &ZoneSums) -> usize {
    sums.backup_hours.saturating_sub(sums.tempering_hours)
}

/// The zone with the most cold hours of any option that goes cold, else the largest.
fn zone_to_show(c: &Comparison) -> Option<(usize, &Zone)> {
    let cold = |zone: usize| {
        let cold = c.options.iter().filter(|o| o.goes_cold()).filter_map(|o| o.zones.get(zone));
        cold.map(|z| z.sums.comfort.hours_not_kept_warm).max().unwrap_or_default()
    };
    let zones = c.zones.iter().enumerate();
    zones.max_by(|a, b| cold(a.0).cmp(&cold(b.0)).then(a.1.loss_kw_k.total_cmp(&b.1.loss_kw_k)))
}

/// The coldest week of the zone that is coldest, else the largest: the options that go cold, then those that cost least.
pub fn coldest_week(c: &Comparison, measure: Measure, about: &str) -> Option<WeekChart> {
    let (zone, named) = zone_to_show(c)?;
    let mut order: Vec<(usize, &OptionResult)> = c.options.iter().enumerate().collect();
    order.sort_by(|a, b| {
        let warm = |o: &OptionResult| !o.goes_cold();
        warm(a.1).cmp(&warm(b.1)).then(a.1.yearly_cost().total_cmp(&b.1.yearly_cost()))
    });
    let taken: Vec<(usize, &OptionResult, ColdDays)> = order
        .into_iter()
        .take(MOST_PANELS)
        .filter_map(|(i, o)| Some((i, o, coldest_days_of(c, i, zone, DAYS)?)))
        .collect();
    let (_, _, first) = taken.first()?;
    let temperatures = |list: &[f64]| -> Vec<f64> { list.iter().map(|t| measure.temperature(*t)).collect() };
    let powers = |list: &[f64]| -> Vec<f64> { list.iter().map(|kw| measure.power(*kw)).collect() };
    let day = |stamp: &crate::calendar::Stamp| {
        let month = MONTHS.get(usize::from(stamp.month).saturating_sub(1)).copied().unwrap_or_default();
        format!("{} {month}", stamp.day)
    };
    Some(WeekChart {
        title: format!("The coldest week, {}", named.name),
        subtitle: about.to_owned(),
        temperature_unit: measure.degree().into(),
        power_unit: measure.power_unit().into(),
        days: first.days.iter().map(day).collect(),
        outdoor: temperatures(&first.outdoor_c),
        options: taken
            .iter()
            .map(|(option, o, days)| WeekOption {
                name: o.design.name.clone(),
                option: *option,
                room: temperatures(&days.room_c),
                first: powers(&days.first_kw),
                others: powers(&days.others_kw),
            })
            .collect(),
        foot: "Options that go cold first, then those that cost least; heat as it reaches the rooms, fuel taken to be \
               there. An estimate of one weather year."
            .into(),
    })
}
