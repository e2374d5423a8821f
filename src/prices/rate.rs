//! When a price holds and what it is: days of the year, hours of the week, tiers of the month's use.
//!
//! Knows no fuel. Start at [`Rate`].

use crate::calendar::{MonthDay, Stamp};

/// One price of energy and when it holds.
#[derive(Debug, Clone, PartialEq)]
pub struct Rate {
    /// The job's name for it, where there are several.
    pub name: Option<String>,
    /// First and last day, both included; all year where there are none.
    pub days: Option<(MonthDay, MonthDay)>,
    /// Hours of the week; all of them where there are none.
    pub hours: Option<ClockHours>,
    /// What energy costs, by how much has been used in the month; at least one, limits rising, the last
    /// without end.
    pub tiers: Vec<Tier>,
}

/// A price up to an amount of energy used in the month.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tier {
    /// The month's use at which it ends, kWh; infinity for the last.
    pub up_to_kwh: f64,
    /// The price of one kWh (HHV).
    pub per_kwh: f64,
}

/// Hours of the clock on the wall on some days of the week.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ClockHours {
    /// The first hour, 0 to 23.
    pub from: u8,
    /// The hour at which it ends; at or before `from`, it crosses midnight.
    pub to: u8,
    /// The days, each hour taken by its own day.
    pub days: DaysOfWeek,
}

/// Days of the week.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DaysOfWeek {
    /// Every day.
    All,
    /// Monday to Friday, holidays left out.
    Weekdays,
    /// Saturday, Sunday and holidays.
    Weekends,
}

impl ClockHours {
    /// Whether the hour of `stamp` is one of them; `is_weekend` says what its day is.
    pub fn hold(&self, stamp: Stamp, is_weekend: bool) -> bool {
        let day = match self.days {
            DaysOfWeek::All => true,
            DaysOfWeek::Weekdays => !is_weekend,
            DaysOfWeek::Weekends => is_weekend,
        };
        let (from, to, hour) = (self.from, self.to, stamp.hour);
        let hour = if from < to { from <= hour && hour < to } else { from <= hour || hour < to };
        day && hour
    }
}

impl Rate {
    /// One price that always holds.
    pub fn flat(per_kwh: f64) -> Self {
        Self { name: None, days: None, hours: None, tiers: vec![Tier { up_to_kwh: f64::INFINITY, per_kwh }] }
    }

    /// Whether it holds in the hour of `stamp`.
    pub fn holds(&self, stamp: Stamp, is_weekend: bool) -> bool {
        self.days.is_none_or(|(first, last)| first.through(last, stamp))
            && self.hours.is_none_or(|hours| hours.hold(stamp, is_weekend))
    }

    /// What one more kWh costs when so many have been used in the month.
    pub fn per_kwh(&self, month_to_date_kwh: f64) -> f64 {
        let tier = self.tiers.iter().find(|tier| month_to_date_kwh < tier.up_to_kwh);
        tier.or(self.tiers.last()).map_or(0.0, |tier| tier.per_kwh)
    }

    /// Parts `kwh` used after `month_to_date_kwh` among the tiers: each tier's place and its share.
    pub fn parted(&self, month_to_date_kwh: f64, kwh: f64) -> impl Iterator<Item = (usize, f64)> + '_ {
        let end = month_to_date_kwh + kwh;
        let mut from = month_to_date_kwh;
        self.tiers.iter().enumerate().filter_map(move |(place, tier)| {
            let to = end.min(tier.up_to_kwh);
            let part = to - from;
            (part > 0.0).then(|| {
                from = to;
                (place, part)
            })
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hours_cross_midnight_and_each_takes_its_own_day() {
        let at = |hour, weekday| Stamp { month: 1, day: 1, hour, weekday };
        let night = ClockHours { from: 21, to: 6, days: DaysOfWeek::Weekdays };
        // Friday 21:00 is in it; the hours after that midnight are a Saturday's.
        assert!(night.hold(at(21, 4), false) && night.hold(at(5, 4), false));
        assert!(!night.hold(at(5, 5), true) && !night.hold(at(6, 4), false));
        let weekend = ClockHours { from: 0, to: 0, days: DaysOfWeek::Weekends };
        assert!((0..24).all(|hour| weekend.hold(at(hour, 6), true) && !weekend.hold(at(hour, 0), false)));
    }

    #[test]
    fn use_is_parted_among_tiers() {
        let tier = |up_to_kwh, per_kwh| Tier { up_to_kwh, per_kwh };
        let tiers = vec![tier(500.0, 0.12), tier(700.0, 0.16), tier(f64::INFINITY, 0.20)];
        let rate = Rate { tiers, ..Rate::flat(0.0) };
        // Hand-worked.
        assert_eq!(rate.parted(400.0, 400.0).collect::<Vec<_>>(), [(0, 100.0), (1, 200.0), (2, 100.0)]);
        assert_eq!(rate.parted(500.0, 1.0).collect::<Vec<_>>(), [(1, 1.0)]);
        assert_eq!((rate.per_kwh(499.9), rate.per_kwh(500.0), rate.per_kwh(9e9)), (0.12, 0.16, 0.20));
    }
}
