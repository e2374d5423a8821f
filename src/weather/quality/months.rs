//! Months against each other and against the season: in another's place, or in another unit than the rest.
//!
//! Must never know what a file says of its unit. Start at [`apart`].

use super::{Flag, Times};
use crate::weather::year::OutdoorYear;
use chrono::{Datelike, NaiveDate, Offset, TimeZone};
use chrono_tz::Tz;

/// Neighbouring months' means may be so far apart, as a share of the year's warmest month less its coldest,
/// and K. In the six built-in years, five actual ones of Chicago and Northway and 22 in France both together
/// come to 0.41 and 16.4 (Northway); deep in Siberia months lie 21 K apart, of 62 (from memory). A judgement.
const STEP: (f64, f64) = (0.5, 15.0);
/// The same of a month from the middle between its neighbours; those years come to 0.24 and 7.4 (Chicago
/// 2015). A judgement.
const DEPARTURE: (f64, f64) = (0.3, 10.0);
/// The months from October to March may be so much warmer than the others north of the equator, K: near it,
/// where rain cools the summer, they are by 1 or 2 (from memory). A judgement.
const WARMER_WINTER: f64 = 3.0;

/// Two neighbouring months farther apart than the year's others make likely.
pub(super) fn apart(hours: &[f64], times: Times) -> Option<Flag> {
    let means = means(hours, times)?;
    let mean = |month: usize| means.get(month % 12).copied().unwrap_or_default();
    let range =
        means.iter().copied().fold(f64::MIN, f64::max) - means.iter().copied().fold(f64::MAX, f64::min);
    let beyond = |apart: f64, bound: (f64, f64)| apart / (bound.0 * range).max(bound.1);
    let pair = |from: usize, to: usize, by: f64| (from % 12, to % 12, by);
    let steps = (0..12).map(|m| pair(m, m + 1, beyond((mean(m + 1) - mean(m)).abs(), STEP)));
    let departures = (1..13).map(|m| {
        let (before, after) = (mean(m - 1), mean(m + 1));
        let by = beyond((mean(m) - (before + after) / 2.0).abs(), DEPARTURE);
        let nearer = (before - mean(m)).abs() < (after - mean(m)).abs();
        if nearer { pair(m, m + 1, by) } else { pair(m, m - 1, by) }
    });
    let (month, other, by) = steps.chain(departures).max_by(|a, b| a.2.total_cmp(&b.2))?;
    let number = |month: usize| u8::try_from(month + 1).unwrap_or_default();
    (by > 1.0).then(|| Flag::MonthsApart {
        months: (number(month), number(other)),
        means_c: (mean(month), mean(other)),
    })
}

/// Winter in the place's summer; where nothing tells the hemisphere, the north is taken and asked for.
pub(super) fn season(year: &OutdoorYear, zone: Option<Tz>, times: Times) -> Option<Flag> {
    let means = means(&year.columns.dry_bulb_c, times)?;
    let summer: f64 = means.iter().skip(3).take(6).sum::<f64>() / 6.0;
    let winter = means.iter().sum::<f64>() / 6.0 - summer;
    let south = year.latitude.map(|latitude| latitude < 0.0).or_else(|| zone.and_then(clock_of_the_south));
    let warmer_k = if south == Some(true) { summer - winter } else { winter - summer };
    (warmer_k > WARMER_WINTER).then_some(Flag::WrongSeason { south, warmer_k })
}

/// The means of the months, °C, from January; nothing where a month is missing.
fn means(hours: &[f64], times: Times) -> Option<[f64; 12]> {
    let mut sums = [(0.0, 0); 12];
    for (day, hours) in hours.chunks(24).enumerate() {
        if let Some((sum, count)) = sums.get_mut(times.day(day).month0() as usize) {
            *sum += hours.iter().sum::<f64>();
            *count += hours.len();
        }
    }
    sums.iter().all(|(_, count)| *count > 0).then(|| sums.map(|(sum, count)| sum / count as f64))
}

/// Whether the zone's clocks go forward in the southern summer; nothing where they never do.
fn clock_of_the_south(zone: Tz) -> Option<bool> {
    let offset = |month| {
        let noon = NaiveDate::from_ymd_opt(2023, month, 15)?.and_hms_opt(12, 0, 0)?;
        Some(zone.offset_from_utc_datetime(&noon).fix().local_minus_utc())
    };
    let (january, july) = (offset(1)?, offset(7)?);
    (january != july).then_some(january > july)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn clocks_tell_the_hemisphere_where_they_change() {
        // In summer they go forward: June to August in Chicago, December to February in Auckland; in Phoenix never.
        assert_eq!(clock_of_the_south(chrono_tz::America::Chicago), Some(false));
        assert_eq!(clock_of_the_south(chrono_tz::Pacific::Auckland), Some(true));
        assert_eq!(clock_of_the_south(chrono_tz::America::Phoenix), None);
    }
}
