//! Hours that no thermometer in the open air gives: jumps and back, the same value for days, days
//! that are copies. Hours that this program filled are no sensor's.
//!
//! Must never know the place. Start at [`drop_outs`].

use super::{Flag, Measured, Times};
use crate::series::Hourly;
use crate::units::celsius_to_fahrenheit;
use std::cmp::Ordering;

/// A jump of a drop-out, K in one hour, both ways; the greatest such pair in the real years tried is
/// 8.3 K. One jump alone is weather: a front or a thunderstorm brings 16 K.
const JUMP: f64 = 12.0;
/// The jump back comes within so many hours.
const LONGEST: usize = 24;
/// Hours of the same value; the longest run in the real years tried is 32, at Northway in December.
const STUCK: usize = 36;
/// The same where the days around have a cycle: the longest run is then 22 (McGuire, in January).
const STUCK_BY_DAY: usize = 25;
/// A cycle, K: the mean hours of the 31 days around, warmest less coldest. Around Northway's runs of 25 and 32
/// hours it is 2.2 and 2.0; elsewhere it falls below this in the dead of some winters only (2.1 in Chicago, 2.0 in
/// France).
const CYCLE: f64 = 2.5;
/// Files in whole or half degrees, of °C or °F, hold a value longer: these hours of one value, of which the real
/// years tried, rounded so, have 52 on end (France in 2010) and made ones of an even coast 63.
const STUCK_COARSE: usize = 72;
/// And the cycle, K, with which a day and an hour on end or many half days are told in them: with it the longest
/// run in those years is 21 hours (Chicago) and the sum of half days 161 (France 1997).
const CYCLE_COARSE: f64 = 6.0;
/// The share of hours at whole or half degrees that makes a file one of these; gaps are filled between them. At
/// Denver 90 % of the hours are whole °C.
const COARSE_SHARE: f64 = 0.95;
/// In such files days that change fewer times may be alike by chance; two days of a made coast are with 8.
const CHANGES_COARSE: usize = 9;
/// Days either side.
const AROUND: usize = 15;
/// Hours of the same value that are added up over the year.
const HALF_DAY: usize = 12;
/// And what they may come to; 110 at most in the real years tried (Northway), 97 in Miami.
const STUCK_HOURS: usize = 200;
/// The same where the days around have a clear cycle ([`CYCLE_COARSE`]), of finer files; 51 at most (McGuire).
const STUCK_HOURS_BY_DAY: usize = 100;
/// So many hours of one value, at the same time of the day.
const EVERY_DAY: usize = 6;
/// On so large a share of the days; 0.12 at most in those years (Miami).
const DAYS_SHARE: f64 = 0.35;
/// The same in coarse files; 0.22 at most in those years (Miami in whole °C), and 0.47 on a made even coast.
const DAYS_SHARE_COARSE: f64 = 0.65;

/// The largest drop-out and how many there are.
pub(super) fn drop_outs(hours: &[f64], measured: Measured<'_>, times: Times) -> Option<Flag> {
    if !hours.windows(2).any(|pair| (pair[1] - pair[0]).abs() >= JUMP) {
        return None;
    }
    let step = |(hour, pair): (usize, &[f64])| match measured.all(hour..hour + 2) {
        true => pair[1] - pair[0],
        false => 0.0,
    };
    let steps: Vec<f64> = hours.windows(2).enumerate().map(step).collect();
    let mut largest: Option<(usize, usize, f64)> = None;
    let (mut count, mut from) = (0, 0);
    while let Some(out) = steps.iter().skip(from).position(|step| step.abs() >= JUMP).map(|i| i + from) {
        let jump = steps.get(out).copied().unwrap_or_default();
        let after = steps.iter().skip(out + 1).take(LONGEST);
        let back = after.enumerate().find(|(_, step)| step.abs() >= JUMP && **step * jump < 0.0);
        let Some((later, back)) = back else {
            from = out + 1;
            continue;
        };
        let lesser = jump.signum() * jump.abs().min(back.abs());
        if largest.is_none_or(|(_, _, before)| lesser.abs() > before.abs()) {
            largest = Some((out + 1, later + 1, lesser));
        }
        count += 1;
        from = out + later + 2;
    }
    largest.map(|(hour, hours, jump_k)| Flag::DropOut { at: times.hour(hour), hours, jump_k, times: count })
}

/// The longest run of one value and how many there are.
pub(super) fn stuck(hours: &[f64], measured: Measured<'_>, times: Times) -> Option<Flag> {
    // Most winters have no such run, and need not be looked at twice.
    runs(hours, measured, STUCK_BY_DAY, |_| true)?;
    let (most, cycle) = if coarse(hours) { (STUCK_COARSE, CYCLE_COARSE) } else { (STUCK, CYCLE) };
    let stuck = |run: &Run| {
        run.hours >= most || (run.hours >= STUCK_BY_DAY && cycle_around(hours, run.start / 24) >= cycle)
    };
    let (longest, times_stuck, _) = runs(hours, measured, STUCK_BY_DAY, stuck)?;
    Some(Flag::Stuck {
        at: times.hour(longest.start),
        hours: longest.hours,
        temperature_c: *hours.get(longest.start)?,
        times: times_stuck,
    })
}

/// Runs that are not long enough to be told each, but too many; nothing where one of them is told.
pub(super) fn stuck_often(hours: &[f64], measured: Measured<'_>, times: Times) -> Option<Flag> {
    let by_day = runs(hours, measured, HALF_DAY, |run| cycle_around(hours, run.start / 24) >= CYCLE_COARSE);
    let (any, most) = match coarse(hours) {
        true => (by_day, STUCK_HOURS),
        false => (runs(hours, measured, HALF_DAY, |_| true), STUCK_HOURS_BY_DAY),
    };
    let many = |found: &(Run, usize, usize), most| found.2 >= most;
    let found = any.filter(|found| many(found, STUCK_HOURS)).or(by_day.filter(|found| many(found, most)));
    let (longest, runs, all) = found.filter(|_| stuck(hours, measured, times).is_none())?;
    Some(Flag::StuckOften { at: times.hour(longest.start), times: runs, hours: all })
}

/// One value for hours at the same time of very many days; nothing where a long run of them is told.
pub(super) fn stuck_daily(hours: &[f64], measured: Measured<'_>, times: Times) -> Option<Flag> {
    let mut alike = 1;
    let mut days = [0; 24];
    for (hour, pair) in (1..).zip(hours.windows(2)) {
        alike = if pair[0] == pair[1] { alike + 1 } else { 1 };
        if let Some(count) = days.get_mut(hour % 24).filter(|_| alike >= EVERY_DAY) {
            *count += 1;
        }
    }
    let (hour, days) = days.into_iter().enumerate().max_by_key(|(_, days)| *days)?;
    let share = if coarse(hours) { DAYS_SHARE_COARSE } else { DAYS_SHARE };
    let often = days as f64 >= share * hours.len() as f64 / 24.0;
    (often && stuck(hours, measured, times).is_none()).then_some(Flag::StuckDaily {
        hour,
        hours: EVERY_DAY,
        days,
    })
}

/// Whether the numbers stand in whole or half degrees.
fn coarse(hours: &[f64]) -> bool {
    halves(hours, |c| c) || halves(hours, celsius_to_fahrenheit)
}

/// Left at the first number too many between the halves: records have many winters.
fn halves(hours: &[f64], degrees: impl Fn(f64) -> f64) -> bool {
    let between = |c: &&f64| (1e-6..=1.0 - 1e-6).contains(&(2.0 * degrees(**c)).fract().abs());
    let most = (1.0 - COARSE_SHARE) * hours.len() as f64;
    hours.iter().filter(between).nth(most as usize).is_none()
}

/// Hours of one value on end.
#[derive(Debug, Clone, Copy)]
struct Run {
    start: usize,
    hours: usize,
}

/// The longest of the runs of at least so many measured hours, how many there are, and their hours.
fn runs(
    hours: &[f64],
    measured: Measured<'_>,
    least: usize,
    counts: impl Fn(&Run) -> bool,
) -> Option<(Run, usize, usize)> {
    let mut start = 0;
    let all = hours.chunk_by(|a, b| a == b).map(|alike| {
        let run = Run { start, hours: alike.len() };
        start += run.hours;
        run
    });
    let long = all.filter(|run| run.hours >= least);
    let own = long.filter(|run| measured.count(run.start..run.start + run.hours) >= least);
    own.filter(counts).fold(None, |found: Option<(Run, usize, usize)>, run| {
        let (longest, times, sum) = found.unwrap_or((run, 0, 0));
        let longest = if run.hours > longest.hours { run } else { longest };
        Some((longest, times + 1, sum + run.hours))
    })
}

/// The range of the mean hours of the day over the days around one, K.
fn cycle_around(hours: &[f64], day: usize) -> f64 {
    let days = hours.chunks_exact(24).skip(day.saturating_sub(AROUND)).take(2 * AROUND + 1);
    let mut sums = [0.0; 24];
    let mut count = 0.0;
    for day in days {
        sums.iter_mut().zip(day).for_each(|(sum, c)| *sum += c);
        count += 1.0;
    }
    let (least, most) =
        sums.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), s| (low.min(*s), high.max(*s)));
    (most - least) / count
}

/// An order of runs of hours in which equal ones stand side by side.
pub(super) fn order(a: &[f64], b: &[f64]) -> Ordering {
    let mut each = a.iter().zip(b).map(|(x, y)| x.total_cmp(y));
    each.find(|order| order.is_ne()).unwrap_or(Ordering::Equal)
}

/// Days that are the copy of another; flat ones are left to [`stuck`].
pub(super) fn repeated_days(hours: &Hourly<f64>, measured: Measured<'_>, times: Times) -> Option<Flag> {
    let least = if coarse(hours) { CHANGES_COARSE } else { 1 };
    let varied = |day: &[f64]| day.windows(2).filter(|pair| pair[0] != pair[1]).count() >= least;
    let own = |(day, hours): &(usize, &[f64])| varied(hours) && measured.all(day * 24..day * 24 + 24);
    let mut days: Vec<(usize, &[f64])> = hours.days().enumerate().filter(own).collect();
    days.sort_by(|a, b| order(a.1, b.1).then(a.0.cmp(&b.0)));
    let repeats = days.windows(2).filter_map(|pair| match pair {
        [(first, a), (again, b)] if order(a, b).is_eq() => Some((*first, *again)),
        _ => None,
    });
    let repeats: Vec<(usize, usize)> = repeats.collect();
    let (first, again) = repeats.iter().copied().min_by_key(|(first, _)| *first)?;
    Some(Flag::RepeatedDays { first: times.day(first), again: times.day(again), days: repeats.len() })
}
