//! Gaps in the dry-bulb: short ones into straight lines, long ones into a problem or, where the
//! rule says so, into the mean of the neighbouring days.
//!
//! A whole year is taken as a ring, as its run from July takes it: a gap at either end is filled
//! from the other. Must never know a layout. Start at [`fill`].

use super::options::GapRule;

/// The longest gap that is filled by a line, hours.
pub(super) const LONGEST_FILLED: usize = 6;

/// The share of a year's hours that may be missing, filled or not.
pub(super) const MOST_MISSING: f64 = 0.05;

/// A run of missing hours; in a ring it may wrap at the end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Gap {
    /// The first missing hour.
    pub(super) start: usize,
    /// How many are missing.
    pub(super) hours: usize,
}

/// Values without gaps.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Filled {
    /// One value an hour.
    pub(super) values: Vec<f64>,
    /// Hours filled by a straight line.
    pub(super) by_line: usize,
    /// Hours filled from neighbouring days.
    pub(super) by_days: usize,
}

/// The values with their gaps filled; `ring` where the last hour is followed by the first.
///
/// At the ends of hours that are no ring, the nearest value stands for a short gap. Days that begin at one of `days` and
/// are a gap of their own are filled from their neighbours whatever the rule.
///
/// # Errors
/// Every gap longer than six hours, unless the rule fills them; hours of which fewer than half
/// have a value are not filled by any rule.
pub(super) fn fill(
    values: &[Option<f64>],
    ring: bool,
    rule: GapRule,
    days: &[usize],
) -> Result<Filled, Vec<Gap>> {
    let gaps = gaps(values, ring);
    let missing: usize = gaps.iter().map(|gap| gap.hours).sum();
    let is_long = |gap: &&Gap| gap.hours > LONGEST_FILLED || gap.hours == values.len();
    let long: Vec<Gap> = gaps.iter().filter(is_long).copied().collect();
    let refused = rule == GapRule::Line || 2 * missing > values.len();
    let of_days = |gap: &Gap| gap.hours == 24 && days.contains(&gap.start);
    if refused && !long.iter().all(of_days) {
        return Err(long.into_iter().filter(|gap| !of_days(gap)).collect());
    }
    let mut filled = Filled { values: Vec::new(), by_line: 0, by_days: 0 };
    filled.values = values.iter().map(|v| v.unwrap_or_default()).collect();
    for gap in &gaps {
        if is_long(&gap) {
            by_days(values, ring, *gap, &mut filled.values).map_err(|gap| vec![gap])?;
            filled.by_days += gap.hours;
        } else {
            by_line(values, ring, *gap, &mut filled.values);
            filled.by_line += gap.hours;
        }
    }
    Ok(filled)
}

/// The value `steps` hours from `hour`, back or on, if there is one.
fn at(values: &[Option<f64>], ring: bool, hour: usize, steps: isize) -> Option<f64> {
    let n = isize::try_from(values.len()).ok()?;
    let to = isize::try_from(hour).ok()? + steps;
    let to = if ring && n > 0 { to.rem_euclid(n) } else { to };
    values.get(usize::try_from(to).ok()?).copied().flatten()
}

fn by_line(values: &[Option<f64>], ring: bool, gap: Gap, filled: &mut [f64]) {
    let n = values.len().max(1);
    let before = at(values, ring, gap.start, -1);
    let after = at(values, ring, gap.start, isize::try_from(gap.hours).unwrap_or_default());
    let (from, to) = (before.or(after).unwrap_or_default(), after.or(before).unwrap_or_default());
    for i in 0..gap.hours {
        let share = (i + 1) as f64 / (gap.hours + 1) as f64;
        if let Some(value) = filled.get_mut((gap.start + i) % n) {
            *value = from + (to - from) * share;
        }
    }
}

/// Where one side has no such hour, the other stands alone; where none has, the gap stays.
fn by_days(values: &[Option<f64>], ring: bool, gap: Gap, filled: &mut [f64]) -> Result<(), Gap> {
    let n = values.len().max(1);
    let days = isize::try_from(n / 24).unwrap_or_default();
    for hour in (gap.start..gap.start + gap.hours).map(|h| h % n) {
        let back = (1..=days).find_map(|day| at(values, ring, hour, -24 * day));
        let on = (1..=days).find_map(|day| at(values, ring, hour, 24 * day));
        let value = match (back, on) {
            (Some(back), Some(on)) => (back + on) / 2.0,
            (one, other) => one.or(other).ok_or(gap)?,
        };
        if let Some(place) = filled.get_mut(hour) {
            *place = value;
        }
    }
    Ok(())
}

fn gaps(values: &[Option<f64>], ring: bool) -> Vec<Gap> {
    let n = values.len();
    let Some(known) = values.iter().position(Option::is_some) else {
        return if n == 0 { Vec::new() } else { vec![Gap { start: 0, hours: n }] };
    };
    let first = if ring { known } else { 0 };
    let mut gaps: Vec<Gap> = Vec::new();
    let mut open = false;
    // In a ring from a known hour once round, so that no gap is cut in two.
    for hour in (first..first + n).map(|h| h % n) {
        let missing = values.get(hour).is_some_and(Option::is_none);
        match gaps.last_mut() {
            Some(gap) if missing && open => gap.hours += 1,
            _ if missing => gaps.push(Gap { start: hour, hours: 1 }),
            _ => {}
        }
        open = missing;
    }
    gaps
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    fn line(values: &[Option<f64>], ring: bool) -> Result<(Vec<f64>, usize), Vec<Gap>> {
        fill(values, ring, GapRule::Line, &[]).map(|filled| (filled.values, filled.by_line))
    }

    #[test]
    fn a_short_gap_becomes_a_straight_line() {
        let day = [Some(0.0), None, None, Some(3.0), Some(5.0)];
        assert_eq!(line(&day, true), Ok((vec![0.0, 1.0, 2.0, 3.0, 5.0], 2)));
    }

    #[test]
    fn a_gap_over_the_new_year_is_one_gap() {
        let year = [None, Some(3.0), Some(4.0), Some(0.0), None];
        assert_eq!(line(&year, true), Ok((vec![2.0, 3.0, 4.0, 0.0, 1.0], 2)));
    }

    #[test]
    fn at_the_ends_of_a_record_the_nearest_value_stands() {
        let record = [None, Some(3.0), Some(4.0), Some(0.0), None];
        assert_eq!(line(&record, false), Ok((vec![3.0, 3.0, 4.0, 0.0, 0.0], 2)));
    }

    #[test]
    fn six_hours_are_filled_and_seven_are_not() {
        let gap = |n| [vec![Some(1.0)], vec![None; n], vec![Some(1.0); 5]].concat();
        assert_eq!(line(&gap(6), true), Ok((vec![1.0; 12], 6)));
        assert_eq!(line(&gap(7), true), Err(vec![Gap { start: 1, hours: 7 }]));
        assert_eq!(line(&[None; 5], true), Err(vec![Gap { start: 0, hours: 5 }]));
    }

    #[test]
    fn a_long_gap_takes_the_mean_of_the_same_hour_of_the_nearest_days() {
        // Four days; day d has 10·d at every hour; days 1 and 2 lack hours 3 to 12.
        let hour = |h: usize| {
            let gap = (24..72).contains(&h) && (3..13).contains(&(h % 24));
            (!gap).then_some(10.0 * (h / 24) as f64)
        };
        let values: Vec<Option<f64>> = (0..96).map(hour).collect();
        let filled = fill(&values, false, GapRule::NeighbouringDays, &[]).unwrap();
        assert_eq!((filled.by_days, filled.by_line), (20, 0));
        // Hand-worked: the nearest days that have hour 3 are days 0 and 3: (0 + 30)/2.
        assert_eq!(
            (filled.values[24 + 3], filled.values[48 + 12], filled.values[24 + 13]),
            (15.0, 15.0, 10.0)
        );
        // At the end of a record one side stands alone.
        let cut = fill(&values[..72], false, GapRule::NeighbouringDays, &[]).unwrap();
        assert_eq!(cut.values[48 + 5], 0.0);
    }

    #[test]
    fn hours_that_are_mostly_missing_are_filled_by_no_rule() {
        let values = [vec![Some(1.0); 40], vec![None; 56]].concat();
        assert!(fill(&values, true, GapRule::NeighbouringDays, &[]).is_err());
        assert!(fill(&[None; 48], true, GapRule::NeighbouringDays, &[]).is_err());
    }
}
