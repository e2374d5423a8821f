//! Spikes in a winter's prices: the one rise from December to February, falling back afterwards, that
//! chance of the usual size does not make.
//!
//! Start at [`found`].

use super::LogWinter;

/// A rise is a spike beyond so many standard errors; the greatest of the 13 weeks of an ordinary winter
/// gets there once in 300 winters.
pub const BEYOND: f64 = 3.5;
/// Standard deviation of a normal distribution over its median absolute deviation.
const OF_MEDIAN: f64 = 1.4826;
/// The places of December and February in the months of a winter.
const CORE: std::ops::RangeInclusive<usize> = 2..=4;
const WEEK_YEARS: f64 = 7.0 / 365.25;
/// Longer than this between two prices is a gap, years.
const GAP_YEARS: f64 = 20.0 / 365.25;

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

/// At most one spike of each winter, prices having no season; half of one is gone after `half_life_weeks`.
pub fn found(winters: &[LogWinter], half_life_weeks: f64) -> Vec<FoundSpike> {
    let usual = usual_step(winters);
    winters.iter().filter_map(|winter| of_winter(winter, usual, half_life_weeks)).collect()
}

/// What is left of a spike of 1 after a time that may be below 0.
pub fn left_of_spike(years: f64, half_life_weeks: f64) -> f64 {
    if years < 0.0 { 0.0 } else { (-years / WEEK_YEARS / half_life_weeks).exp2() }
}

/// Whether most prices of a winter follow each other closely enough to show a spike.
pub fn shows_them(winter: &LogWinter) -> bool {
    let close = steps(winter).count();
    close > 0 && 2 * close >= winter.points.len().saturating_sub(1)
}

/// Steps between prices that follow each other: the place of the later, the step, the years between.
fn steps(winter: &LogWinter) -> impl Iterator<Item = (usize, f64, f64)> {
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

fn of_winter(winter: &LogWinter, usual: f64, half_life_weeks: f64) -> Option<FoundSpike> {
    let steps: Vec<(usize, f64, f64)> = steps(winter).collect();
    // It may have begun after the last price of February.
    let in_core = |place: usize| winter.points.get(place).is_some_and(|p| CORE.contains(&p.month));
    let core = |place: &usize| in_core(*place) || in_core(place.saturating_sub(1));
    let begun = steps.iter().map(|step| step.0).filter(core).filter_map(|place| winter.points.get(place));
    let tried = begun.map(|point| {
        // The level is nearly a random walk within a winter, so that its steps are independent.
        let all = winter.points.iter();
        let left: Vec<f64> =
            all.map(|later| left_of_spike(later.years - point.years, half_life_weeks)).collect();
        let left = |place: usize| left.get(place).copied().unwrap_or_default();
        let (mut product, mut square) = (0.0, 0.0);
        for (place, step, years) in &steps {
            let expected = left(*place) - left(place.saturating_sub(1));
            product += expected * step / years;
            square += expected * expected / years;
        }
        (point.years, product, square)
    });
    let (years, product, square) = tried.max_by(|a, b| (a.1 / a.2.sqrt()).total_cmp(&(b.1 / b.2.sqrt())))?;
    let beyond = usual > 0.0 && product > BEYOND * usual * square.sqrt();
    beyond.then(|| FoundSpike { first_year: winter.first_year, years, size: product / square })
}
