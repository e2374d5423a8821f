//! A bank of strips of which a part tempers the air while the heat pump before it defrosts: what is left of it
//! for the room, hour by hour.
//!
//! Made before the year, so that the kernel sees a bank that gives less. Start at [`Bank::hours`].

use super::hour_map::HourMap;

/// A bank of strips of which a part tempers the air while the first heater defrosts.
#[derive(Debug, Clone, PartialEq)]
pub struct Bank {
    /// Its place among the zone's heaters.
    pub place: usize,
    /// What it can do by hour where all of it is the room's.
    pub whole: HourMap,
    /// What tempers, kW on the mean of an hour.
    pub lent_kw: f64,
}

impl Bank {
    /// What it can do for the room in each of `outdoor_c`'s hours: less in those in which frost is melted
    /// (`defrost_kw` above 0) and the first heater could run, on and not colder than its lock-out.
    pub fn hours(&self, outdoor_c: &[f64], lockout_c: f64, defrost_kw: &[f64], first: &HourMap) -> HourMap {
        let lends = |i: usize| {
            defrost_kw.get(i).is_some_and(|kw| *kw > 0.0)
                && first.at(i).greatest > 0.0
                && outdoor_c.get(i).is_some_and(|t| *t >= lockout_c)
        };
        self.whole.clone().changed(outdoor_c.len(), |hour| hour.lending(self.lent_kw), lends)
    }

    /// The hours of that span alone, counted from 0 again.
    #[must_use]
    pub fn part(&self, span: std::ops::Range<usize>) -> Self {
        Self { whole: self.whole.part(span), ..*self }
    }
}
