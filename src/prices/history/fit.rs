//! A price history into season, volatility, level and spikes, each with what the data leave open.
//!
//! What months without prices, few winters and rare spikes cannot say is left for the job to say. Start at
//! [`fit`].

use super::level::{LevelFit, level};
use super::made::{Truth, made_at};
use super::spikes::{FoundSpike, steps, take_out};
use super::{LogWinter, PriceHistory};
use crate::weather::statistics::percentile;
use statrs::distribution::{ChiSquared, ContinuousCDF, StudentsT};

/// Fewer winters than this are not fitted.
pub const LEAST_WINTERS: usize = 8;
/// Histories that are drawn from a fit to see what it leaves open.
pub const BOOTSTRAPS: u64 = 200;
/// Of the mean of a month's days: a random walk's steps from mean to mean have this share of its variance.
const OF_MEANS: f64 = 2.0 / 3.0;

/// A number and where it lies with 90 %.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate {
    /// The number.
    pub value: f64,
    /// The lower end.
    pub low: f64,
    /// The upper end.
    pub high: f64,
}

/// What is asked of the job, since no history tells it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Asked {
    /// Within these years half of a departure is gone.
    pub half_life_years: (f64, f64),
    /// Weeks in which half of a spike is gone.
    pub spike_half_life_weeks: f64,
}

/// A fitted history.
#[derive(Debug, Clone, PartialEq)]
pub struct Fit {
    /// Winters with all six months.
    pub winters: usize,
    /// Of each month of the winter: the logarithm of its price over the winter's middle.
    pub season: [Estimate; 6],
    /// Standard deviation of the logarithm's change in a year, were there nothing to bring it back.
    pub volatility: Estimate,
    /// The level.
    pub level: LevelFit,
    /// Spikes that were found; nothing where monthly means hide them.
    pub spikes: Option<Vec<FoundSpike>>,
}

impl Fit {
    /// Mean size of the spikes that were found.
    pub fn spike_size(&self) -> Option<f64> {
        let spikes = self.spikes.as_ref().filter(|spikes| !spikes.is_empty())?;
        Some(spikes.iter().map(|spike| spike.size).sum::<f64>() / spikes.len() as f64)
    }

    /// The model as fitted, to draw histories from.
    pub fn truth(&self, asked: Asked, rounded_to: f64) -> Truth {
        Truth {
            season: self.season.map(|month| month.value),
            level: self.level,
            spike_probability: self
                .spikes
                .as_ref()
                .map_or(0.0, |s| s.len() as f64 / self.winters.max(1) as f64),
            spike_size: self.spike_size().unwrap_or_default(),
            spike_half_life_weeks: asked.spike_half_life_weeks,
            rounded_to,
        }
    }
}

/// What the data leave open of a fit, by a parametric bootstrap: histories drawn from the fit on the same
/// days and fitted again. The share of spikes is no part: their count has an interval of its own.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeftOpen {
    /// The half-life, years.
    pub half_life_years: (f64, f64),
    /// Where the level rests, as logarithm.
    pub mean: (f64, f64),
    /// Its standard deviation there.
    pub spread: (f64, f64),
    /// The mean size of spikes, as logarithm; nothing without two of them.
    pub spike_size: Option<(f64, f64)>,
}

/// Fits a history, deflated already; nothing from fewer than [`LEAST_WINTERS`] winters with all six months.
pub fn fit(history: &PriceHistory, asked: Asked) -> Option<Fit> {
    let mut winters = history.winters();
    let spikes = (!history.monthly_means).then(|| take_out(&mut winters, asked.spike_half_life_weeks));
    let months: Vec<[f64; 6]> = winters.iter().filter_map(whole).collect();
    if months.len() < LEAST_WINTERS {
        return None;
    }
    let season = season(&months)?;
    let taken = spikes.as_ref().map_or(0, Vec::len);
    let volatility = match history.monthly_means {
        true => of_means(&months, &season)?,
        false => of_steps(&winters, taken, history)?,
    };
    let flat =
        |point: &super::LogPoint| (point.years, point.log - season.get(point.month).map_or(0.0, |m| m.value));
    let points: Vec<(f64, f64)> = winters.iter().flat_map(|winter| winter.points.iter().map(flat)).collect();
    let level = level(&points, asked.half_life_years)?;
    Some(Fit { winters: months.len(), season, volatility, level, spikes })
}

/// Months' means of a winter that has all six.
fn whole(winter: &LogWinter) -> Option<[f64; 6]> {
    let means: Vec<f64> = winter.monthly_means().into_iter().collect::<Option<_>>()?;
    means.try_into().ok()
}

/// Each month against the mean of its winter's six, over the winters, which are nearly independent of
/// each other: Student's t with winters − 1.
fn season(winters: &[[f64; 6]]) -> Option<[Estimate; 6]> {
    let count = winters.len() as f64;
    let t = StudentsT::new(0.0, 1.0, count - 1.0).ok()?.inverse_cdf(0.95);
    let departures = |month: usize| -> Vec<f64> {
        let departure =
            |winter: &[f64; 6]| winter.get(month).map(|own| own - winter.iter().sum::<f64>() / 6.0);
        winters.iter().filter_map(departure).collect()
    };
    Some(std::array::from_fn(|month| {
        let departures = departures(month);
        let mean = departures.iter().sum::<f64>() / count;
        let variance = departures.iter().map(|d| (d - mean).powi(2)).sum::<f64>() / (count - 1.0);
        let half = t * (variance / count).sqrt();
        Estimate { value: mean, low: mean - half, high: mean + half }
    }))
}

/// From steps within a month, which no season moves: a sum of squares with its steps, one taken off for
/// each spike, less what rounding adds.
fn of_steps(winters: &[LogWinter], spikes: usize, history: &PriceHistory) -> Option<Estimate> {
    let within = |winter: &LogWinter| -> Vec<(f64, f64)> {
        let months: Vec<usize> = winter.points.iter().map(|point| point.month).collect();
        let same = |place: usize| months.get(place) == months.get(place.saturating_sub(1));
        steps(winter).filter(|(place, _, _)| same(*place)).map(|(_, step, years)| (step, years)).collect()
    };
    let steps: Vec<(f64, f64)> = winters.iter().flat_map(within).collect();
    let freedom = steps.len().checked_sub(spikes).filter(|left| *left > 1)? as f64;
    let middle = percentile(&history.points.iter().map(|point| point.price).collect::<Vec<_>>(), 0.5)?;
    // A uniform error of a step wide, at both ends.
    let rounding = 2.0 * (history.rounded_to / middle).powi(2) / 12.0;
    let squares: f64 = steps.iter().map(|(step, years)| (step * step - rounding) / years).sum();
    variance_estimate(squares.max(0.0), freedom)
}

/// From steps between months' means, the season taken out: two thirds of the walk's variance, and each step
/// a quarter like the next, which leaves fewer degrees of freedom.
fn of_means(winters: &[[f64; 6]], season: &[Estimate; 6]) -> Option<Estimate> {
    let mut squares = 0.0;
    for winter in winters {
        let flat: Vec<f64> = winter.iter().zip(season).map(|(own, month)| own - month.value).collect();
        let steps = flat.iter().zip(flat.iter().skip(1)).map(|(before, after)| after - before);
        squares += steps.map(|step| step * step).sum::<f64>();
    }
    let left = 5.0 * (winters.len() as f64 - 1.0);
    // Of five steps with a correlation of 1/4 between neighbours: 5²/(5 + 2·4/16).
    let freedom = left / 5.0 * (25.0 / 5.5);
    let variance = squares / left.max(1.0) * 12.0 / OF_MEANS;
    variance_estimate(variance * freedom, freedom)
}

/// The square root of a variance that is a sum of squares over its degrees of freedom: chi-squared.
fn variance_estimate(squares: f64, freedom: f64) -> Option<Estimate> {
    let chi = ChiSquared::new(freedom).ok()?;
    let at = |share: f64| (squares / chi.inverse_cdf(share)).sqrt();
    Some(Estimate { value: (squares / freedom).sqrt(), low: at(0.95), high: at(0.05) })
}

/// What the data leave open of the fit of `history`.
pub fn left_open(
    fit_of: &Fit,
    history: &PriceHistory,
    asked: Asked,
    count: u64,
    seed: u64,
) -> Option<LeftOpen> {
    let truth = fit_of.truth(asked, history.rounded_to);
    let dates: Vec<chrono::NaiveDate> = history.points.iter().map(|point| point.date).collect();
    let again = (0..count).filter_map(|draw| {
        let mut drawn = made_at(&dates, &truth, seed, draw);
        drawn.monthly_means = history.monthly_means;
        fit(&drawn, asked)
    });
    let fits: Vec<Fit> = again.collect();
    let between = |of: &dyn Fn(&Fit) -> Option<f64>| {
        let values: Vec<f64> = fits.iter().filter_map(of).collect();
        percentile(&values, 0.05).zip(percentile(&values, 0.95))
    };
    let sizes = fit_of.spikes.as_ref().filter(|spikes| spikes.len() > 1);
    Some(LeftOpen {
        half_life_years: between(&|fit| Some(fit.level.half_life_years))?,
        mean: between(&|fit| Some(fit.level.mean))?,
        spread: between(&|fit| Some(fit.level.spread))?,
        spike_size: sizes.and_then(|_| between(&Fit::spike_size)),
    })
}
