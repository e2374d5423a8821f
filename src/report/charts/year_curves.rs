//! What the chart of a weather year shows, as plain values, and whether they can be shown.
//!
//! Must not know how it is drawn. Start at [`WeatherYearChart`].

use super::ChartError;
use super::curves::Mark;

/// One day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DayRange {
    /// The coldest hour.
    pub low: f64,
    /// The mean of the day; between the two.
    pub mean: f64,
    /// The warmest hour.
    pub high: f64,
}

/// A stretch of days with a name.
#[derive(Debug, Clone, PartialEq)]
pub struct Stretch {
    /// Days from the first one, with their fraction.
    pub from: f64,
    /// The same of the end; more than `from`.
    pub to: f64,
    /// What is said of it.
    pub words: String,
}

/// An hour worth a ring and a few words.
#[derive(Debug, Clone, PartialEq)]
pub struct Moment {
    /// Days from the first one, with their fraction.
    pub day: f64,
    /// The temperature.
    pub temperature: f64,
    /// What is said of it.
    pub words: String,
}

/// A weather year.
#[derive(Debug, Clone, PartialEq)]
pub struct WeatherYearChart {
    /// What the chart shows, as a headline.
    pub title: String,
    /// A sentence more.
    pub subtitle: String,
    /// The unit of every temperature: `°F`.
    pub temperature_unit: String,
    /// The days in order, at least two.
    pub days: Vec<DayRange>,
    /// The day on which each month begins, counted from the first, and its name; rising.
    pub months: Vec<(usize, String)>,
    /// Temperatures worth a line across the year: design temperatures, extremes.
    pub levels: Vec<Mark>,
    /// The coldest days.
    pub spell: Option<Stretch>,
    /// The coldest hour, the warmest hour.
    pub moments: Vec<Moment>,
    /// Middle of each temperature bin and its hours, colder first, bins equally wide.
    pub hours: Vec<(f64, f64)>,
    /// Bins below this are in the colour of cold: where water freezes.
    pub freezing: f64,
    /// A remark under the chart; may be empty.
    pub foot: String,
}

impl WeatherYearChart {
    /// Every value finite and in its place.
    pub(super) fn checked(&self) -> Result<(), ChartError> {
        if self.days.len() < 2 || self.hours.len() < 2 {
            return Err(ChartError::Empty);
        }
        let wrong = |what: String| Err(ChartError::BadValue(what));
        for day in &self.days {
            if !(sound(day.low) && sound(day.high) && day.low <= day.mean && day.mean <= day.high) {
                return wrong(format!("{day:?}"));
            }
        }
        if self.hours.iter().any(|bin| !sound(bin.0) || !(0.0..=1e7).contains(&bin.1)) {
            return wrong("hours".into());
        }
        if self.hours.windows(2).any(|pair| matches!(pair, [a, b] if a.0 >= b.0)) {
            return wrong("temperatures of hours that do not rise".into());
        }
        let last = self.days.len() as f64;
        let moments = self.moments.iter().map(|m| (m.day, m.temperature));
        let levels = self.levels.iter().map(|m| (0.0, m.temperature)).chain([(0.0, self.freezing)]);
        if let Some(bad) = moments.chain(levels).find(|(day, t)| !sound(*t) || !(0.0..=last).contains(day)) {
            return wrong(format!("{bad:?}"));
        }
        let spells = self.spell.iter().all(|s| 0.0 <= s.from && s.from < s.to && s.to <= last);
        let months = self.months.iter().all(|(day, _)| *day < self.days.len())
            && self.months.windows(2).all(|pair| matches!(pair, [a, b] if a.0 < b.0));
        if spells && months { Ok(()) } else { wrong("a spell or month outside the year".into()) }
    }
}

fn sound(temperature: f64) -> bool {
    temperature.abs() <= 10_000.0
}
