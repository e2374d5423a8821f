//! Twelve monthly mean daily maxima and minima and a 99 % temperature into a synthetic year of hours.
//!
//! For a county without a weather file. Nothing in it was measured, and it says so wherever it is
//! shown. Must never know how the figures were typed. Start at [`year()`].

mod curve;
mod days;
mod cycle;

use super::statistics::percentile;
use super::year::{OutdoorYear, YearKind};
use super::zones::standard_offset_h;
use crate::calendar::TYPICAL_YEAR;
use crate::problem::Problem;
use crate::series::Hourly;
use crate::units::celsius_to_fahrenheit;
use crate::weather::columns::OutdoorColumns;
use chrono_tz::Tz;
use curve::{MONTH_DAYS, daily, monthly_means};
use days::Departures;
use sha2::{Digest, Sha256};

/// What a synthetic year is made from.
#[derive(Debug, Clone, PartialEq)]
pub struct SyntheticInput {
    /// The place's name.
    pub place: String,
    /// Monthly means of the daily maxima, January first, °C.
    pub highs_c: [f64; 12],
    /// Monthly means of the daily minima, January first, °C.
    pub lows_c: [f64; 12],
    /// Monthly means of all hours, January first, °C; without them those halfway between maxima and minima, as
    /// climate tables have them.
    pub means_c: Option<[f64; 12]>,
    /// The temperature that 99 % of the year's hours reach, °C.
    pub heating_99_c: f64,
    /// Degrees north; without one the sun rises as at 40° north.
    pub latitude: Option<f64>,
    /// The clock of the place.
    pub zone: Option<Tz>,
    /// Another seed gives another sequence of days with the same means.
    pub seed: u64,
}

/// Where no seed is given; another gives other days with the same means.
pub const SEED: u64 = 1;
/// Monthly means are met to this, K.
const MEANS_MET: f64 = 0.02;
/// The 99 % temperature is met to this, K.
const TAIL_MET: f64 = 0.02;
/// How far the 99 % temperature may lie below the lowest monthly mean minimum, K: 1.0 to 13.8 (Northway) in the six
/// built-in years and 22 of France.
const MOST_REACH: f64 = 18.0;
/// How far the coldest hour may lie below the 99 % temperature, K: 2.5 to 12.0 (Golden) in those years, up to 16 in 30
/// synthetic ones of Northway. A tail that is stretched farther has its colder days made up for by hot ones.
const MOST_BELOW: f64 = 20.0;
/// The least and greatest stretch of the cold tail.
const STRETCH: (f64, f64) = (0.0, 6.0);
/// Halvings of that span: to a thousandth.
const HALVINGS: usize = 14;
/// Rounds in which the daily extremes are mended until the calendar days' means are those asked for.
const ROUNDS: usize = 12;
/// Greatest and least power by which a month's days may be bent.
const BENDS: (f64, f64) = (0.25, 4.0);
/// How much a bend of 1 lowers a month's mean, as a share of maxima less minima: of values spread evenly between them
/// exactly this, at the power 1.
const LOWERS: f64 = 0.25;
/// Where a month's mean may lie between its minima and maxima, as a share of the way; the built-in places' lie from
/// 0.46 to 0.60, those of 30 actual years from 0.37.
const MEAN_SHARE: (f64, f64) = (0.3, 0.7);

/// Makes the year, 8,760 hours on the calendar of 2023.
///
/// Each day is least near sunrise and greatest in the hour from 13:00. Days depart from the season by
/// first-order persistence (a day keeps 0.67 of the day before), wider in winter than in summer. The
/// cold tail is stretched or shrunk until the 1st percentile of the hours is `heating_99_c`, with the
/// monthly means of the daily maxima, of the minima and of all hours unmoved (within 0.02 K): between its extremes each
/// day's course is bent until they are. Only dry-bulb is made.
///
/// The shape's few numbers (persistence, winter and summer deviation) were read off the six built-in
/// typical years; they are this program's own choice. Made from those places' own monthly means, the
/// year has their degree-days within 2.1 % (72 °F·day in Tucson), but not their cold hours. From maxima and minima
/// alone a month's mean is up to 0.98 K off the place's own mean of hours (Northway in May), and with seed 1 Tucson's
/// degree-days are 99 °F·day too few, the others' within 2.4 %. Found with
/// seeds 1, 2, 3, against the measured typical year; energy of the demonstration job's main heat pump
/// and of its strips (`tests/reference/climate_synthetic_found.csv`, checked by a test):
///
/// | place | hours below 17 °F | heat pump, kWh | strips, kWh |
/// |---|---|---|---|
/// | Northway | 3,472: 3,499 3,580 3,535 | 15,516: 14,382 15,655 15,205 | 15,514: 17,486 15,210 16,043 |
/// | Tucson | 0: 0 0 0 | 1,309: 1,286 1,214 1,276 | 0: 0 0 0 |
/// | Golden | 293: 375 268 358 | 6,783: 6,772 6,628 6,698 | 103: 44 65 32 |
/// | Chicago | 498: 632 504 574 | 7,377: 7,351 7,183 7,237 | 244: 246 255 290 |
/// | Greensboro | 136: 130 127 123 | 3,956: 3,911 3,814 3,820 | 4: 6 4 31 |
/// | McGuire | 285: 348 245 294 | 5,456: 5,513 5,285 5,331 | 26: 55 78 117 |
///
/// # Errors
/// A month whose maximum is not above its minimum, no numbers, or a 99 % temperature that does not
/// belong to these months.
pub fn year(input: &SyntheticInput) -> Result<OutdoorYear, Problem> {
    check(input)?;
    let means = means(input);
    let reach = lowest(&input.lows_c) - input.heating_99_c;
    let departures = Departures::new(&means, reach, input.seed);
    let (mut low, mut high) = STRETCH;
    for _ in 0..HALVINGS {
        let middle = (low + high) / 2.0;
        if tail(&hours(input, &departures, middle)) > input.heating_99_c {
            low = middle
        } else {
            high = middle
        }
    }
    let hours = hours(input, &departures, (low + high) / 2.0);
    if (tail(&hours) - input.heating_99_c).abs() > TAIL_MET {
        return Err(apart(input));
    }
    let coldest = lowest(&hours);
    if input.heating_99_c - coldest > MOST_BELOW {
        return Err(too_far_below(input, coldest));
    }
    let Some(dry_bulb_c) = Hourly::new(hours) else {
        return Err(Problem::new("the synthetic year has no whole days"));
    };
    Ok(finished(input, dry_bulb_c))
}

fn finished(input: &SyntheticInput, dry_bulb_c: Hourly<f64>) -> OutdoorYear {
    OutdoorYear {
        place: input.place.clone(),
        kind: YearKind::Synthetic { seed: input.seed },
        latitude: input.latitude,
        longitude: None,
        elevation_m: None,
        utc_offset_h: input.zone.and_then(|zone| standard_offset_h(zone, TYPICAL_YEAR)),
        zone: input.zone,
        columns: OutdoorColumns::of_dry_bulb(dry_bulb_c),
        filled_hours: 0,
        filled: Vec::new(),
        sha256: hash(input),
        reading: None,
    }
}

/// SHA-256 of what the year is made from, so that a report names it as it names a file.
fn hash(input: &SyntheticInput) -> String {
    let means = input.means_c.iter().flatten();
    let all = input.highs_c.iter().chain(&input.lows_c).chain(means).chain([&input.heating_99_c]);
    let mut bytes: Vec<u8> = all.flat_map(|value| value.to_le_bytes()).collect();
    bytes.extend(input.latitude.unwrap_or(f64::NAN).to_le_bytes());
    bytes.extend(input.seed.to_le_bytes());
    Sha256::digest(&bytes).iter().map(|byte| format!("{byte:02x}")).collect()
}

/// The hours for one stretch, with the calendar days' monthly means those of the input.
fn hours(input: &SyntheticInput, departures: &Departures, stretch: f64) -> Vec<f64> {
    bent(input, &extremes_met(input, departures, stretch))
}

/// The hours whose days have the extremes asked for.
///
/// A front can make midnight colder than sunrise, so what the days' ends give is measured and mended.
fn extremes_met(input: &SyntheticInput, departures: &Departures, stretch: f64) -> Vec<f64> {
    let days = departures.stretched(stretch);
    let shifted =
        |means: &[f64; 12]| daily(means).iter().zip(&days).map(|(mean, day)| mean + day).collect::<Vec<_>>();
    let (mut lows, mut highs) = (input.lows_c, input.highs_c);
    let mut hours = cycle::hours(&shifted(&lows), &shifted(&highs), input.latitude);
    for _ in 0..ROUNDS {
        let (found_lows, found_highs) = monthly_extremes(&hours);
        let off =
            mend(&mut lows, &input.lows_c, &found_lows).max(mend(&mut highs, &input.highs_c, &found_highs));
        if off < MEANS_MET / 2.0 {
            break;
        }
        hours = cycle::hours(&shifted(&lows), &shifted(&highs), input.latitude);
    }
    hours
}

/// The hours with each month's mean that of the input: between the extremes of its day, which stay, each hour goes its
/// share of the way to the power of its month.
fn bent(input: &SyntheticInput, hours: &[f64]) -> Vec<f64> {
    let wanted = means(input);
    let mut bends = [1.0; 12];
    let mut found = hours.to_vec();
    for _ in 0..ROUNDS {
        let mut off: f64 = 0.0;
        let spreads = input.highs_c.iter().zip(&input.lows_c).map(|(high, low)| high - low);
        for (((bend, spread), wanted), found) in
            bends.iter_mut().zip(spreads).zip(wanted).zip(monthly_hours(&found))
        {
            *bend = (*bend + (found - wanted) / (LOWERS * spread)).clamp(BENDS.0, BENDS.1);
            off = off.max((found - wanted).abs());
        }
        if off < MEANS_MET / 2.0 {
            break;
        }
        let months = MONTH_DAYS.iter().zip(bends).flat_map(|(days, bend)| std::iter::repeat_n(bend, *days));
        found = hours.chunks(24).zip(months).flat_map(|(day, bend)| bent_day(day, bend)).collect();
    }
    found
}

fn bent_day(day: &[f64], bend: f64) -> impl Iterator<Item = f64> {
    let (low, high) =
        day.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), c| (low.min(*c), high.max(*c)));
    let spread = (high - low).max(f64::MIN_POSITIVE);
    day.iter().map(move |c| low + (high - low) * ((c - low) / spread).powf(bend))
}

/// The monthly means of all hours, °C; 8,760 hours from 1 January.
pub fn monthly_hours(hours: &[f64]) -> [f64; 12] {
    let days: Vec<f64> = hours.chunks(24).map(|day| day.iter().sum::<f64>() / 24.0).collect();
    monthly_means(&days)
}

/// Moves each value by what the found one lacks; the greatest lack.
fn mend(values: &mut [f64; 12], wanted: &[f64; 12], found: &[f64; 12]) -> f64 {
    let mut off: f64 = 0.0;
    for ((value, wanted), found) in values.iter_mut().zip(wanted).zip(found) {
        *value += wanted - found;
        off = off.max((wanted - found).abs());
    }
    off
}

/// The monthly means of the calendar days' least and greatest hours, °C; 8,760 hours from 1 January.
pub fn monthly_extremes(hours: &[f64]) -> ([f64; 12], [f64; 12]) {
    let by_day = |pick: fn(f64, f64) -> f64, first: f64| {
        let days: Vec<f64> = hours.chunks(24).map(|day| day.iter().copied().fold(first, pick)).collect();
        monthly_means(&days)
    };
    (by_day(f64::min, f64::INFINITY), by_day(f64::max, f64::NEG_INFINITY))
}

fn tail(hours: &[f64]) -> f64 {
    percentile(hours, 0.01).unwrap_or(f64::NAN)
}

fn means(input: &SyntheticInput) -> [f64; 12] {
    if let Some(means) = input.means_c {
        return means;
    }
    let mut means = input.highs_c;
    for (mean, low) in means.iter_mut().zip(&input.lows_c) {
        *mean = (*mean + low) / 2.0;
    }
    means
}

fn lowest(values: &[f64]) -> f64 {
    values.iter().copied().fold(f64::INFINITY, f64::min)
}

/// A month whose mean does not go with those of its neighbours.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OddMonth {
    /// 1 to 12.
    pub month: usize,
    /// Whether it is the mean of the maxima that is odd; else that of the minima.
    pub high: bool,
    /// The mean as given, °C.
    pub given_c: f64,
    /// What its neighbours make likely, °C.
    pub likely_c: f64,
}

/// The spread of a month, maxima less minima, may lie so far from what its neighbours make likely, K. The
/// six built-in places, each month of another year, come to 3.4 (Golden); means of thirty years to less.
const ODD_SPREAD: f64 = 4.0;

/// The month in which a mean was mistyped, if any looks so: its maxima and its minima then do not move
/// together as they do when a month is warm or cold.
pub fn odd_month(highs_c: &[f64; 12], lows_c: &[f64; 12]) -> Option<OddMonth> {
    let mut spreads = *highs_c;
    spreads.iter_mut().zip(lows_c).for_each(|(high, low)| *high -= low);
    let off = |values: &[f64; 12], month: usize| {
        let likely = likely(values, month)?;
        Some((values.get(month)? - likely, likely))
    };
    let spread = |month: usize| off(&spreads, month).map(|(off, _)| (month, off));
    let (month, _) = (0..12)
        .filter_map(spread)
        .filter(|(_, off)| off.abs() > ODD_SPREAD)
        .max_by(|a, b| a.1.abs().total_cmp(&b.1.abs()))?;
    let ((high_off, high), (low_off, low)) = (off(highs_c, month)?, off(lows_c, month)?);
    let is_high = high_off.abs() >= low_off.abs();
    let (given_c, likely_c) = match is_high {
        true => (*highs_c.get(month)?, high),
        false => (*lows_c.get(month)?, low),
    };
    Some(OddMonth { month: month + 1, high: is_high, given_c, likely_c })
}

/// A month from the two before and the two after it, by the cubic through them; the year is a ring.
fn likely(values: &[f64; 12], month: usize) -> Option<f64> {
    let at = |steps: usize| values.get((month + steps) % 12);
    Some((4.0 * (at(11)? + at(1)?) - (at(10)? + at(2)?)) / 6.0)
}

fn check(input: &SyntheticInput) -> Result<(), Problem> {
    let own = input.means_c.iter().flatten();
    let all = input.highs_c.iter().chain(&input.lows_c).chain(own).chain([&input.heating_99_c]);
    if !all.into_iter().all(|value| value.is_finite()) {
        return Err(Problem::new("a monthly mean or the 99 % temperature is no number"));
    }
    let mut months = input.highs_c.iter().zip(&input.lows_c);
    if let Some(month) = months.position(|(high, low)| high <= low) {
        let what = format!("the mean maximum of month {} is not above its mean minimum", month + 1);
        return Err(Problem::new(what).help("Give maxima and minima in the same order, January first"));
    }
    if let Some(month) = odd_mean(&input.highs_c, &input.lows_c, &means(input)) {
        let what = format!(
            "the mean of month {} does not lie about halfway between its minimum and maximum",
            month + 1
        );
        return Err(Problem::new(what).help("Take all three from the same table, January first"));
    }
    let reach = lowest(&input.lows_c) - input.heating_99_c;
    if (0.0..=MOST_REACH).contains(&reach) { Ok(()) } else { Err(apart(input)) }
}

/// The first month whose mean lies too near its maxima or minima, from 0.
fn odd_mean(highs_c: &[f64; 12], lows_c: &[f64; 12], means_c: &[f64; 12]) -> Option<usize> {
    let (least, most) = MEAN_SHARE;
    let mut months = highs_c.iter().zip(lows_c).zip(means_c);
    months.position(|((high, low), mean)| !(least..=most).contains(&((mean - low) / (high - low))))
}

fn too_far_below(input: &SyntheticInput, coldest_c: f64) -> Problem {
    Problem::new(format!(
        "with the seed {} the coldest hour of the synthetic year would be {}, far below its 99 % temperature, {}, as in \
         no climate",
        input.seed,
        both(coldest_c),
        both(input.heating_99_c)
    ))
    .allowed(format!("up to {MOST_BELOW:.0} K ({:.0} °F) below it", 1.8 * MOST_BELOW))
    .help(
        "Is heating_99 the temperature that 99 % of the hours are above, of the station of the monthly means, and no \
         extreme low? Else try another weather_seed",
    )
}

/// The refusal of a 99 % temperature that these months cannot have; a month that looks mistyped is named, as no 99 %
/// temperature belongs to months of which one is wrong.
fn apart(input: &SyntheticInput) -> Problem {
    let lowest = lowest(&input.lows_c);
    let problem = Problem::new(format!(
        "the 99 % temperature, {}, does not belong to months whose lowest mean minimum is {}",
        both(input.heating_99_c),
        both(lowest)
    ));
    match odd_month(&input.highs_c, &input.lows_c) {
        Some(odd) => problem.help(format!(
            "Look at the mean {} of month {}, {}: its neighbours make about {} likely. Is it, or the month's mean in the \
             other list, a slip in typing?",
            if odd.high { "high" } else { "low" },
            odd.month,
            both(odd.given_c),
            both(odd.likely_c)
        )),
        None => problem
            .allowed(format!(
                "a few kelvin below the mean minimum of the coldest month, at most {MOST_REACH:.0} K ({:.0} °F)",
                1.8 * MOST_REACH
            ))
            .help("Take all of them from the same station"),
    }
}

/// A temperature in both units: what is typed in one is used in the other.
fn both(c: f64) -> String {
    format!("{:.1} °F ({c:.1} °C)", celsius_to_fahrenheit(c))
}
