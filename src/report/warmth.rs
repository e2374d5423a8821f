//! Tables of warmth: what the rooms had through the year, and what the coldest night asks.
//!
//! Start at [`warmth`].

use super::figures::{Measure, grouped};
use super::model::{Cell, Column, Table};
use super::slow::{longest_recovery, too_cold_by};
use crate::comparison::{Comparison, OptionResult, Warmth, ZoneResult};
use crate::simulation::comfort::RoomComfort;

/// Was it warm? The worst zone's figures for each option.
pub fn warmth(c: &Comparison, measure: Measure) -> Table {
    let rows = c.options.iter().map(|o| warmth_row(o, measure)).collect();
    let recovery: usize =
        c.options.iter().flat_map(|o| &o.zones).map(|z| z.sums.comfort.recovery_hours).max().unwrap_or(0);
    let mut remark = format!(
        "Hours and temperatures are those of the coldest zone, heat short is that of all zones; a zone more \
         than {} below its set point is not kept warm.",
        too_cold_by(measure)
    );
    if recovery > 0 {
        remark += &format!(
            " Up to {recovery} hours of recovery after a set-back are left out of “hours not warm” and “{}·h \
             short”, not of the others.",
            measure.degree()
        );
    }
    if c.options.iter().any(|o| o.warmth() == Warmth::SlowToRecover) {
        remark += &format!(
            " Slow: kept warm all year without its set-back, with it the recovery takes longer than {}.",
            longest_recovery()
        );
    }
    if c.options.iter().any(|o| o.warmth() == Warmth::DryWithoutSetBacks) {
        remark += " Dry without: its fuel lasts with the set-back; without it a store runs dry.";
    }
    Table {
        name: "warmth".into(),
        heading: "Does it keep the house warm through the year?".into(),
        columns: vec![
            Column::words("Option", "option"),
            Column::words("Warm?", "kept_warm"),
            Column::numbers("Hours not warm", "hours_not_kept_warm"),
            Column::numbers(
                format!("Lowest room {}", measure.degree()),
                format!("lowest_room_{}", measure.degree_key()),
            ),
            below(60.0, measure),
            below(45.0, measure),
            Column::numbers(
                format!("{}\u{b7}h short", measure.degree()),
                format!("degree_hours_short_{}", measure.pick("degF_h", "K_h")),
            ),
            Column::numbers("Heat short kWh", "heat_not_delivered_kWh"),
        ],
        rows,
        remark: Some(remark),
    }
}

/// Hours of a room below a whole temperature in °F.
pub(super) fn below(fahrenheit: f64, measure: Measure) -> Column {
    let key = format!("hours_below_{}", measure.fahrenheit_key(fahrenheit));
    Column::numbers(format!("Hours below {}", measure.fahrenheit_words(fahrenheit)), key)
}

fn warmth_row(o: &OptionResult, measure: Measure) -> Vec<Cell> {
    let worst = |of: fn(&RoomComfort) -> f64| {
        o.zones.iter().filter_map(|z| z.sums.comfort.room.as_ref()).map(of).max_by(f64::total_cmp)
    };
    let not_delivered = o.zones.iter().map(|z| z.sums.comfort.heat_not_delivered_kwh).sum();
    vec![
        Cell::text(&o.design.name),
        Cell::text(match o.warmth() {
            Warmth::Kept => "yes",
            Warmth::SlowToRecover => "slow",
            Warmth::DryWithoutSetBacks => "dry without",
            Warmth::GoesCold => "COLD",
        }),
        Cell::number(o.hours_not_kept_warm() as f64, 0),
        Cell::maybe(o.lowest_room_c().map(|t| measure.temperature(t)), 0),
        Cell::maybe(worst(|r| r.hours_below_60f as f64), 0),
        Cell::maybe(worst(|r| r.hours_below_45f as f64), 0),
        Cell::maybe(worst(|r| r.degree_hours_short).map(|k| measure.difference(k)), 0),
        Cell::number(not_delivered, 0),
    ]
}

/// The coldest night, zone by zone.
pub fn cold_night(c: &Comparison, measure: Measure) -> Table {
    let mut rows = Vec::new();
    for option in &c.options {
        for (zone, result) in c.zones.iter().zip(&option.zones) {
            rows.push(cold_row(&option.design.name, &zone.name, result, measure));
        }
    }
    let design = c.zones.first().map(|z| measure.temperature_words(z.design_temperature_c));
    let one_design = c
        .zones
        .iter()
        .all(|z| Some(z.design_temperature_c) == c.zones.first().map(|f| f.design_temperature_c));
    let at_design = design.filter(|_| one_design).unwrap_or_else(|| "design".into());
    let extreme = c.site.extreme_low_c.map_or("extreme low".into(), |t| measure.temperature_words(t));
    Table {
        name: "cold_night".into(),
        heading: "How far down does it carry each zone?".into(),
        columns: vec![
            Column::words("Option", "option"),
            Column::words("Zone", "zone"),
            Column::numbers(
                format!("First machine alone to {}", measure.degree()),
                format!("first_machine_alone_down_to_{}", measure.degree_key()),
            ),
            Column::numbers(format!("% of need met at {at_design}"), "share_of_need_at_design_percent"),
            Column::numbers(format!("% of need met at {extreme}"), "share_of_need_at_extreme_low_percent"),
            Column::numbers("Backup hours a year", "backup_hours"),
            Column::numbers("Backup kWh", "backup_heat_kWh"),
        ],
        rows,
        remark: Some(
            "% of need: all machines of the zone together; under 100 its rooms get colder. The need is net of the \
             gains that balance_temperature stands for. Backup: strips or baseboards that add what the machines \
             before them lack, in this weather year."
                .to_owned()
                + spread_over_the_day(c)
                + &tempering(c),
        ),
    }
}

/// What steady hours make of a day's fuelling, where a machine has one.
pub(super) fn spread_over_the_day(c: &Comparison) -> &'static str {
    match c.machines.iter().any(|m| m.daily_fuelling_kwh.is_some()) {
        true => " The fuel that is laid into a stove for a day is spread over the day.",
        false => "",
    }
}

/// How much of the backup is not for want of heat, zone by zone.
fn tempering(c: &Comparison) -> String {
    let zones =
        c.options.iter().flat_map(|o| c.zones.iter().zip(&o.zones).map(move |(zone, z)| (o, zone, z)));
    let tempered = zones.filter(|(_, _, z)| z.sums.tempering_heat_kwh > 0.0);
    let each: Vec<String> = tempered
        .map(|(o, zone, z)| {
            let (hours, kwh) = (z.sums.tempering_hours as f64, z.sums.tempering_heat_kwh);
            let name = &o.design.name;
            format!(
                "\u{201c}{name}\u{201d}, {}: {} kWh, {} hours of it alone",
                zone.name,
                grouped(kwh, 0),
                grouped(hours, 0)
            )
        })
        .collect();
    match each.is_empty() {
        true => String::new(),
        false => format!(
            " Of it, no lack but strips that temper the air while a heat pump defrosts: {}.",
            each.join("; ")
        ),
    }
}

fn cold_row(option: &str, zone: &str, result: &ZoneResult, measure: Measure) -> Vec<Cell> {
    let percent = |share: f64| (100.0 * share).clamp(0.0, 100.0);
    let down_to = result.first_heater_balance_c;
    vec![
        Cell::text(option),
        Cell::text(zone),
        down_to.map_or(Cell::text("always"), |t| Cell::number(measure.temperature(t), 0)),
        Cell::cut(percent(result.at_design.share())),
        result.at_extreme_low.map_or(Cell::Missing, |at| Cell::cut(percent(at.share()))),
        Cell::number(result.sums.backup_hours as f64, 0),
        Cell::number(result.sums.backup_heat_kwh, 0),
    ]
}
