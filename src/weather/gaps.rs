//! Short gaps in the dry-bulb into straight lines; long ones into a problem.
//!
//! The year is taken as a ring, as its run from July takes it: a gap at either end is filled from
//! the other. Must never know a layout. Start at [`fill`].

/// The longest gap that is filled, hours.
pub(super) const LONGEST_FILLED: usize = 6;

/// A run of missing hours; it may wrap at the end of the year.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Gap {
    /// The first missing hour.
    pub(super) start: usize,
    /// How many are missing.
    pub(super) hours: usize,
}

/// The values without gaps and the number that was filled.
///
/// # Errors
/// Every gap longer than six hours; a year with no value at all is one gap.
pub(super) fn fill(values: &[Option<f64>]) -> Result<(Vec<f64>, usize), Vec<Gap>> {
    let gaps = gaps(values);
    let too_long = |gap: &Gap| gap.hours > LONGEST_FILLED || gap.hours == values.len();
    let long: Vec<Gap> = gaps.iter().copied().filter(too_long).collect();
    if !long.is_empty() {
        return Err(long);
    }
    let n = values.len();
    let mut filled: Vec<f64> = values.iter().map(|v| v.unwrap_or_default()).collect();
    for gap in &gaps {
        let before = filled.get((gap.start + n - 1) % n).copied().unwrap_or_default();
        let after = filled.get((gap.start + gap.hours) % n).copied().unwrap_or_default();
        for i in 0..gap.hours {
            let share = (i + 1) as f64 / (gap.hours + 1) as f64;
            if let Some(value) = filled.get_mut((gap.start + i) % n) {
                *value = before + (after - before) * share;
            }
        }
    }
    Ok((filled, gaps.iter().map(|gap| gap.hours).sum()))
}

fn gaps(values: &[Option<f64>]) -> Vec<Gap> {
    let n = values.len();
    let Some(known) = values.iter().position(Option::is_some) else {
        return if n == 0 { Vec::new() } else { vec![Gap { start: 0, hours: n }] };
    };
    let mut gaps: Vec<Gap> = Vec::new();
    let mut open = false;
    // From a known hour once round the ring, so that no gap is cut in two.
    for hour in (known..known + n).map(|h| h % n) {
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
mod tests {
    use super::*;

    #[test]
    fn a_short_gap_becomes_a_straight_line() {
        let day = [Some(0.0), None, None, Some(3.0), Some(5.0)];
        assert_eq!(fill(&day), Ok((vec![0.0, 1.0, 2.0, 3.0, 5.0], 2)));
    }

    #[test]
    fn a_gap_over_the_new_year_is_one_gap() {
        let year = [None, Some(3.0), Some(4.0), Some(0.0), None];
        assert_eq!(fill(&year), Ok((vec![2.0, 3.0, 4.0, 0.0, 1.0], 2)));
    }

    #[test]
    fn six_hours_are_filled_and_seven_are_not() {
        let gap = |n| [vec![Some(1.0)], vec![None; n], vec![Some(1.0); 5]].concat();
        assert_eq!(fill(&gap(6)), Ok((vec![1.0; 12], 6)));
        assert_eq!(fill(&gap(7)), Err(vec![Gap { start: 1, hours: 7 }]));
        assert_eq!(fill(&[None; 5]), Err(vec![Gap { start: 0, hours: 5 }]));
    }
}
