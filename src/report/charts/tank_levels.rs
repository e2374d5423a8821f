//! What the chart of stores shows, as plain values, and whether they can be shown.
//!
//! Must not know how it is drawn, nor what a fuel is. Start at [`TankChart`].

use super::ChartError;

/// The largest amount that can be shown; also keeps infinity out.
const MOST: f64 = 1e9;

/// The level of stores through a year, a panel each.
#[derive(Debug, Clone, PartialEq)]
pub struct TankChart {
    /// What the chart shows, as a headline.
    pub title: String,
    /// A sentence more.
    pub subtitle: String,
    /// The day on which each month begins, counted from the first, and its name; rising.
    pub months: Vec<(usize, String)>,
    /// At least one panel, all of as many days.
    pub panels: Vec<TankPanel>,
    /// A remark under the chart; may be empty.
    pub foot: String,
}

/// One store through the year.
#[derive(Debug, Clone, PartialEq)]
pub struct TankPanel {
    /// Whose store it is, and which.
    pub name: String,
    /// The unit of every amount: `gal`.
    pub unit: String,
    /// What was in it when the year began.
    pub start: f64,
    /// What was in it at the end of each day, at least two.
    pub levels: Vec<f64>,
    /// What it is filled to; the greatest of all amounts.
    pub full: f64,
    /// It is ordered at or below this.
    pub reorder: f64,
    /// What cannot be used.
    pub reserve: f64,
    /// Deliveries: the day at whose start one came, what was in the store before, and how much came.
    pub deliveries: Vec<(usize, f64, f64)>,
    /// Days on which fuel was lacking, rising.
    pub dry: Vec<usize>,
}

impl TankChart {
    /// Every value finite and in its place.
    pub(super) fn checked(&self) -> Result<(), ChartError> {
        let Some(days) = self.panels.first().map(|panel| panel.levels.len()).filter(|days| *days > 1) else {
            return Err(ChartError::Empty);
        };
        let months = self.months.iter().all(|(day, _)| *day < days)
            && self.months.windows(2).all(|pair| matches!(pair, [a, b] if a.0 < b.0));
        if !months {
            return Err(ChartError::BadValue("a month outside the year".into()));
        }
        self.panels.iter().try_for_each(|panel| panel.checked(days))
    }
}

impl TankPanel {
    fn checked(&self, days: usize) -> Result<(), ChartError> {
        let sound = |amount: f64| (-1e-6 * self.full..=MOST).contains(&amount);
        let levels = self.levels.iter().chain([&self.start, &self.full, &self.reorder, &self.reserve]);
        let brought = self.deliveries.iter().flat_map(|(_, before, amount)| [before, amount]);
        if let Some(bad) = levels.chain(brought).find(|amount| !sound(**amount)) {
            return Err(ChartError::BadValue(format!("{bad} in “{}”", self.name)));
        }
        let in_year = |day: usize| day < days;
        let placed = self.deliveries.iter().all(|d| in_year(d.0)) && self.dry.iter().all(|d| in_year(*d));
        if self.levels.len() != days || !placed || self.full <= 0.0 {
            return Err(ChartError::BadValue(format!("the days of “{}”", self.name)));
        }
        Ok(())
    }

    /// Dry days that follow each other: the first, and the day after the last.
    pub(super) fn dry_spells(&self) -> Vec<(usize, usize)> {
        let mut spells: Vec<(usize, usize)> = Vec::new();
        for day in &self.dry {
            match spells.last_mut().filter(|spell| spell.1 == *day) {
                Some(spell) => spell.1 = day + 1,
                None => spells.push((*day, day + 1)),
            }
        }
        spells
    }
}
