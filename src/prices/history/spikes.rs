//! Spikes in a winter's prices: the one jump from December to February that chance of the usual size does
//! not make, and prices without it.
//!
//! Knows no season: a month's step is small beside a spike. Start at [`take_out`].

use super::LogWinter;

/// A jump is a spike beyond so many usual steps, upwards.
const BEYOND: f64 = 4.5;
/// Standard deviation of a normal distribution over its median absolute deviation.
const OF_MEDIAN: f64 = 1.4826;
/// The places of December and February in the months of a winter.
const CORE: std::ops::RangeInclusive<usize> = 2..=4;
const WEEK_YEARS: f64 = 7.0 / 365.25;
/// Longer than this between two prices is a gap, years.
pub(super) const GAP_YEARS: f64 = 20.0 / 365.25;

/// A spike that was found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FoundSpike {
    /// The year in which the winter began.
    pub first_year: i32,
    /// Years since the first point of the history.
    pub years: f64,
    /// The logarithm of its factor when it began.
    pub size: f64,
}

/// Takes at most one spike out of each winter; half of one is gone after `half_life_weeks`.
pub fn take_out(winters: &mut [LogWinter], half_life_weeks: f64) -> Vec<FoundSpike> {
    let usual = usual_step(winters);
    let found: Vec<Option<FoundSpike>> =
        winters.iter_mut().map(|winter| of_winter(winter, usual, half_life_weeks)).collect();
    found.into_iter().flatten().collect()
}

/// Steps between prices that follow each other: the place of the later, the step, the years between.
pub(super) fn steps(winter: &LogWinter) -> impl Iterator<Item = (usize, f64, f64)> {
    let pairs = winter.points.iter().zip(winter.points.iter().skip(1)).enumerate();
    let steps = pairs.map(|(i, (before, after))| (i + 1, after.log - before.log, after.years - before.years));
    steps.filter(|(_, _, years)| *years <= GAP_YEARS)
}

/// The usual step, for the square root of a year.
fn usual_step(winters: &[LogWinter]) -> f64 {
    let sizes = winters.iter().flat_map(steps).map(|(_, step, years)| step.abs() / years.sqrt());
    let mut sizes: Vec<f64> = sizes.collect();
    sizes.sort_by(f64::total_cmp);
    OF_MEDIAN * sizes.get(sizes.len() / 2).copied().unwrap_or_default()
}

fn of_winter(winter: &mut LogWinter, usual: f64, half_life_weeks: f64) -> Option<FoundSpike> {
    let core = steps(winter)
        .filter(|(place, _, _)| winter.points.get(*place).is_some_and(|point| CORE.contains(&point.month)));
    let (place, step, years) = core.max_by(|a, b| a.1.total_cmp(&b.1))?;
    if usual <= 0.0 || step <= BEYOND * usual * years.sqrt() {
        return None;
    }
    let began = winter.points.get(place)?.years;
    let shape = |years: f64| match years >= began {
        true => 0.5_f64.powf((years - began) / WEEK_YEARS / half_life_weeks),
        false => 0.0,
    };
    // The level is nearly a random walk within a winter, so that its steps are independent.
    let at = |place: usize| winter.points.get(place).map_or(0.0, |point| shape(point.years));
    let (mut product, mut square) = (0.0, 0.0);
    for (place, step, years) in steps(winter) {
        let expected = at(place) - at(place.saturating_sub(1));
        product += expected * step / years;
        square += expected * expected / years;
    }
    let size = product / square;
    if size <= 0.0 {
        return None;
    }
    winter.points.iter_mut().for_each(|point| point.log -= size * shape(point.years));
    Some(FoundSpike { first_year: winter.first_year, years: began, size })
}
