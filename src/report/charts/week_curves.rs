//! What the chart of the coldest week shows, as plain values, and whether they can be shown.
//!
//! Must not know how it is drawn. Start at [`WeekChart`].

use super::ChartError;
use super::numbers::grouped;

/// No temperature, heat or set point lies beyond.
const MOST: f64 = 1e5;

/// The coldest week of several options.
#[derive(Debug, Clone, PartialEq)]
pub struct WeekChart {
    /// What the chart shows, as a headline.
    pub title: String,
    /// A sentence more.
    pub subtitle: String,
    /// The unit of temperatures: `°F`.
    pub temperature_unit: String,
    /// The unit of heat flows: `kBtu/h`.
    pub power_unit: String,
    /// The days' names, in order.
    pub days: Vec<String>,
    /// The temperature outdoors, hour by hour; 24 a day.
    pub outdoor: Vec<f64>,
    /// The options, at least one.
    pub options: Vec<WeekOption>,
    /// A remark under the chart; may be empty.
    pub foot: String,
}

/// One option in that week.
#[derive(Debug, Clone, PartialEq)]
pub struct WeekOption {
    /// Its name.
    pub name: String,
    /// Its place among the options, which gives its colour.
    pub option: usize,
    /// The room at the end of each hour.
    pub room: Vec<f64>,
    /// Heat that the first machine brings into the room in each hour.
    pub first: Vec<f64>,
    /// Heat of all others.
    pub others: Vec<f64>,
}

impl WeekChart {
    /// Hours that are 24 a day, values in range.
    pub(super) fn checked(&self) -> Result<(), ChartError> {
        if self.options.is_empty() || self.days.is_empty() {
            return Err(ChartError::Empty);
        }
        let hours = 24 * self.days.len();
        let fits = |list: &[f64]| list.len() == hours && list.iter().all(|x| (-MOST..=MOST).contains(x));
        if !fits(&self.outdoor) {
            return Err(ChartError::BadValue("the hours outdoors".into()));
        }
        let own = |o: &&WeekOption| !(fits(&o.room) && fits(&o.first) && fits(&o.others));
        match self.options.iter().find(own) {
            Some(option) => Err(ChartError::BadValue(format!("the hours of “{}”", option.name))),
            None => Ok(()),
        }
    }

    /// What it shows, in words.
    pub(super) fn described(&self) -> String {
        let least = |list: &[f64]| grouped(list.iter().copied().fold(f64::INFINITY, f64::min));
        let most = |list: &[f64]| grouped(list.iter().copied().fold(0.0, f64::max));
        let (degree, power) = (&self.temperature_unit, &self.power_unit);
        let option = |o: &WeekOption| {
            format!(
                "{}: lowest room {} {degree}, first machine up to {} {power}, help up to {} {power}.",
                o.name,
                least(&o.room),
                most(&o.first),
                most(&o.others)
            )
        };
        let options: Vec<String> = self.options.iter().map(option).collect();
        format!("Lowest outdoors {} {degree}. {}", least(&self.outdoor), options.join(" "))
    }
}
