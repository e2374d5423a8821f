//! What does not go together: a job's temperatures and its weather, its machines and their order, its
//! load and what is bought for it. Slips of the pen that a reader would see at once on paper.
//!
//! Only remarks; the bounds are this program's judgement. Start at [`mismatches`].

use super::note::Mismatch;
use super::site::PLANNED_YEARS;
use super::{Parts, RunWeather};
use crate::calendar::Stamp;
use crate::equipment::MachineKind;
use crate::job::{Job, Typed, WeatherSection};
use crate::load::Zone;
use crate::prices::Spike;
use crate::simulation::design::OptionDesign;
use crate::units::{Quantity, Temperature, celsius_to_fahrenheit, fahrenheit_to_celsius};
use crate::weather::OutdoorYear;
use crate::weather::quality::Degree;
use crate::weather::statistics::{coldest_hour, percentile};
use crate::weather::synthetic::odd_month;
use crate::weather::zones::standard_offset_h;

/// A house that needs no heat until it is so much colder than indoors has unusual gains, K (20 °F).
const BALANCE_BELOW_INDOOR_K: f64 = 20.0 / 1.8;
/// A design temperature further than this from the weather's own 99 % value is of another place, K.
const DESIGN_FROM_WEATHER_K: f64 = 8.0;
/// A number in the other unit fits within this of that value, K.
const FITS_K: f64 = 4.0;
/// A height further than this from the weather station's changes the weather, m (1,500 ft).
const HEIGHT_FROM_STATION_M: f64 = 457.2;
/// A spike that holds for more days is hardly one.
const SPIKE_DAYS: usize = 150;

/// Everything in the parts of a job that hardly goes together.
pub(super) fn mismatches(job: &Job, parts: &Parts, weather: &RunWeather) -> Vec<Mismatch> {
    let mut found: Vec<Mismatch> = parts.zones.iter().filter_map(odd_balance).collect();
    if let RunWeather::Year(year) = weather {
        found.extend(parts.zones.iter().filter_map(|zone| design_of_another_place(job, zone, year)));
        found.extend(job.site.extreme_low.as_ref().and_then(|_| warm_extreme_low(parts, year)));
        found.extend(height(parts, year));
        found.extend(other_time_zone(job, parts, year));
    }
    if let WeatherSection::Monthly(monthly) = &job.site.weather {
        let base = |months: &[Typed<Temperature>; 12]| months.each_ref().map(|t| t.value.base());
        let odd = odd_month(&base(&monthly.monthly_highs), &base(&monthly.monthly_lows));
        found.extend(odd.map(Mismatch::OddMonth));
    }
    found.extend(parts.designs.iter().flat_map(|design| resistance_first(design, parts)));
    found.extend(parts.prices.0.iter().flat_map(|price| {
        let fuel = parts.fuels.get(price.fuel).map_or("", |f| f.name.as_str());
        price.spikes.iter().filter_map(move |spike| long_spike(fuel, spike))
    }));
    found
}

fn odd_balance(zone: &Zone) -> Option<Mismatch> {
    let odd = zone.indoor_c - zone.balance_temperature_c > BALANCE_BELOW_INDOOR_K + 1e-9;
    odd.then(|| Mismatch::OddBalance { zone: zone.name.clone(), balance_c: zone.balance_temperature_c })
}

fn design_of_another_place(job: &Job, zone: &Zone, year: &OutdoorYear) -> Option<Mismatch> {
    let weather_c = percentile(&year.columns.dry_bulb_c, 0.01)?;
    let design_c = zone.design_temperature_c;
    let far = (design_c - weather_c).abs() > DESIGN_FROM_WEATHER_K;
    let typed = job.house.zone.iter().find(|typed| typed.name.value == zone.name)?;
    let in_celsius = job.text.get(typed.design_temperature.span.clone())?.contains(['C', 'c']);
    let (other, read_c) = match in_celsius {
        true => (Degree::Fahrenheit, fahrenheit_to_celsius(design_c)),
        false => (Degree::Celsius, celsius_to_fahrenheit(design_c)),
    };
    let fits = ((read_c - weather_c).abs() <= FITS_K).then_some(other);
    far.then(|| Mismatch::DesignOfAnotherPlace { zone: zone.name.clone(), design_c, weather_c, fits })
}

/// The job's time zone against the offset that the weather says of itself.
fn other_time_zone(job: &Job, parts: &Parts, year: &OutdoorYear) -> Option<Mismatch> {
    let zone = parts.site.zone.filter(|_| job.site.time_zone.is_some())?;
    let weather_h = year.utc_offset_h?;
    let zone_h = standard_offset_h(zone, year.calendar_year())?;
    (zone_h != weather_h).then(|| Mismatch::OtherTimeZone { zone: zone.name(), zone_h, weather_h })
}

fn warm_extreme_low(parts: &Parts, year: &OutdoorYear) -> Option<Mismatch> {
    let extreme_low_c = parts.site.extreme_low_c?;
    let record_low = parts.winters.as_ref().and_then(|winters| winters.low(PLANNED_YEARS));
    let run_c = coldest_hour(&year.columns.dry_bulb_c)?.temperature_c;
    let coldest_c = record_low.map_or(run_c, |low| low.low_c.min(run_c));
    (extreme_low_c > coldest_c + 0.5).then_some(Mismatch::WarmExtremeLow { extreme_low_c, coldest_c })
}

fn height(parts: &Parts, year: &OutdoorYear) -> Option<Mismatch> {
    let (site_m, station_m) = (parts.site.elevation_m?, year.elevation_m?);
    let far = (site_m - station_m).abs() > HEIGHT_FROM_STATION_M;
    far.then_some(Mismatch::FarFromStationHeight { site_m, station_m })
}

fn resistance_first(design: &OptionDesign, parts: &Parts) -> Vec<Mismatch> {
    let kind = |i: &usize| parts.machines.get(*i).map(|m| m.kind);
    let zones = parts.zones.iter().zip(&design.zones);
    let odd = zones.filter(|(_, d)| {
        let mut kinds = d.heaters.iter().filter_map(kind);
        kinds.next() == Some(MachineKind::Resistance) && kinds.any(|k| k == MachineKind::HeatPump)
    });
    odd.map(|(zone, _)| Mismatch::ResistanceFirst { option: design.name.clone(), zone: zone.name.clone() })
        .collect()
}

fn long_spike(fuel: &str, spike: &Spike) -> Option<Mismatch> {
    let days = (1..=12).flat_map(|month| (1..=days_of(month)).map(move |day| (month, day)));
    let holds = |(month, day): &(u8, u8)| {
        spike.first.through(spike.last, Stamp { month: *month, day: *day, hour: 0, weekday: 0 })
    };
    let days = days.filter(holds).count();
    let long = days > SPIKE_DAYS;
    long.then(|| Mismatch::LongSpike { fuel: fuel.to_owned(), spike: spike.name.clone(), days })
}

fn days_of(month: u8) -> u8 {
    match month {
        2 => 28,
        4 | 6 | 9 | 11 => 30,
        _ => 31,
    }
}
