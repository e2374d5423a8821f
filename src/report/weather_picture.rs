//! A weather year's figures into the plain values that its chart draws.
//!
//! Start at [`chart`].

use super::charts::{ChartError, DayRange, Mark, Moment, Stretch, WeatherYearChart};
use super::figures::{Measure, grouped};
use super::weather_figures::{At, COLD_DAYS, Figures, figures, kind, moment, span};
use super::wording::MONTHS;
use crate::comparison::site::PLANNED_YEARS;
use crate::weather::extremes::Winters;
use crate::weather::statistics::{bins_1_kelvin, bins_5_fahrenheit};
use crate::weather::{OutdoorYear, Weather};
use chrono::Datelike;

/// The chart of a year, as SVG, with the lows of the record it is out of; nothing for weather without
/// hours.
///
/// # Errors
/// What the chart refuses; that would be a defect.
pub fn chart(
    weather: &Weather,
    winters: Option<&Winters>,
    measure: Measure,
) -> Option<Result<String, ChartError>> {
    let Weather::Year(year) = weather else { return None };
    let mut chart = year_chart(year, &figures(year)?, measure);
    let lows = [PLANNED_YEARS, 50].into_iter().filter_map(|years| winters?.low(years));
    chart.levels.extend(lows.map(|low| Mark {
        label: format!("{}-year low", low.years),
        temperature: measure.temperature(low.low_c),
    }));
    Some(chart.draw())
}

fn year_chart(year: &OutdoorYear, f: &Figures, measure: Measure) -> WeatherYearChart {
    let t = |c: f64| measure.temperature(c);
    let day = |hour: usize| hour as f64 / 24.0;
    let ring = |at: &At, sort: &str| Moment {
        day: day(at.hour) + 0.5 / 24.0,
        temperature: t(at.temperature_c),
        words: format!("{sort} {}, {}", measure.temperature_words(at.temperature_c), moment(at.time)),
    };
    let level = |label: &str, c: f64| Mark { label: label.into(), temperature: t(c) };
    let firsts = f.days.iter().enumerate().filter(|(_, day)| day.date.day() == 1);
    let name = |m: u32| MONTHS.get(m as usize).copied().unwrap_or_default().to_owned();
    let mut bins = bins_5_fahrenheit(&year.place, &year.columns.dry_bulb_c).bins;
    if measure.degree_key() == "degC" {
        bins = bins_1_kelvin(&year.place, &year.columns.dry_bulb_c).bins;
    }
    WeatherYearChart {
        title: format!("A year of weather at {}", year.place),
        subtitle: format!(
            "{}; {} heating degree-days below {}; {} hours below {}",
            kind(year),
            grouped(measure.difference(f.heating_days), 0),
            measure.pick("65 \u{b0}F", "18.3 \u{b0}C"),
            grouped(f.hours_below[2] as f64, 0),
            measure.pick("17 \u{b0}F", "\u{2212}8.3 \u{b0}C")
        ),
        temperature_unit: measure.degree().into(),
        days: f
            .days
            .iter()
            .map(|d| DayRange { low: t(d.low_c), mean: t(d.mean_c), high: t(d.high_c) })
            .collect(),
        months: firsts.map(|(i, day)| (i, name(day.date.month0()))).collect(),
        levels: vec![
            level("cooling design 1 %", f.cooling_design_c[0]),
            level("freezing", 0.0),
            level("heating design 99 %", f.heating_design_c[1]),
        ],
        spell: Some(Stretch {
            from: day(f.cold_days.hour),
            to: day(f.cold_days.hour + f.cold_days.hours),
            words: format!(
                "coldest {COLD_DAYS} days, mean {}, {}",
                measure.temperature_words(f.cold_days.mean_c),
                span(&f.cold_days)
            ),
        }),
        moments: vec![ring(&f.coldest, "coldest"), ring(&f.warmest, "warmest")],
        hours: bins.iter().rev().map(|b| (t(b.temperature_c), b.hours)).collect(),
        freezing: t(0.0),
        foot: "From July on, so that the winter is whole. Hours of this one year; standard time.".into(),
    }
}
