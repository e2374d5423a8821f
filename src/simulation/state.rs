//! Where an option stands between two hours, and what fuel it may still burn.
//!
//! A state can be saved at any midnight and resumed. Start at [`OptionState`].

use super::bound::Bound;
use super::plan::OptionPlan;
use crate::fuel::FuelId;

/// Hours after a rise of the set point that count as recovery at most.
pub const LONGEST_RECOVERY_H: u8 = 3;
/// Recovery is over when the room is this close to the set point, K.
pub const RECOVERED_WITHIN_K: f64 = 0.1;

/// A room and its warm twin are one again when they are this close, K.
pub const REJOINED_WITHIN_K: f64 = 1e-9;

/// Where an option stands at the beginning of an hour.
#[derive(Debug, Clone, PartialEq)]
pub struct OptionState {
    /// One state a zone.
    pub zones: Vec<ZoneState>,
    /// What is left of each of the plan's bounds until midnight, kWh; infinite where nothing is used up.
    pub left_kwh: Vec<f64>,
}

/// Where a zone stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ZoneState {
    /// Room temperature, °C.
    pub room_c: f64,
    /// The set point of the hour before, °C.
    pub last_set_point_c: f64,
    /// Hours of recovery still allowed; 0 when none is under way.
    pub recovery_left: u8,
    /// Room temperature of a twin with ample heat, while the two differ, °C.
    pub twin_c: Option<f64>,
}

impl OptionState {
    /// Every room at its set point, and where the run begins in a set-back at that of the day: no room has
    /// cooled to the set-back in midsummer, and a first morning that warms all of it up would be charged, as
    /// the year's largest demand if need be, for what never was.
    pub fn at_set_point(plan: &OptionPlan) -> Self {
        let zones = plan.zones.iter().map(|z| {
            let first = z.set_points_c.first().copied().unwrap_or_default();
            let room_c = z.set_points_c.iter().take(24).copied().fold(first, f64::max);
            ZoneState { room_c, last_set_point_c: first, recovery_left: 0, twin_c: None }
        });
        Self { zones: zones.collect(), left_kwh: plan.bounds.iter().map(Bound::at_midnight_kwh).collect() }
    }

    /// Fills up what is filled up at midnight.
    pub(super) fn refill(&mut self, plan: &OptionPlan) {
        for (left, bound) in self.left_kwh.iter_mut().zip(&plan.bounds) {
            *left = bound.at_midnight_kwh();
        }
    }
}

/// What may still be burned of the stored fuels in a span of hours; unlimited by default.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct FuelLimits {
    limits: Vec<FuelLimit>,
}

/// The limit of one stored fuel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FuelLimit {
    /// The fuel.
    pub fuel: FuelId,
    /// What is left for the span, kWh (HHV).
    pub left_kwh: f64,
    /// The greatest draw, kW.
    pub greatest_kw: f64,
}

impl FuelLimits {
    /// No limit on any fuel.
    pub fn none() -> Self {
        Self::default()
    }

    /// Limits on the fuels named.
    pub fn of(limits: Vec<FuelLimit>) -> Self {
        Self { limits }
    }

    /// The limits, as they stand.
    pub fn iter(&self) -> impl Iterator<Item = &FuelLimit> {
        self.limits.iter()
    }

    /// Whether no fuel is limited.
    pub fn is_empty(&self) -> bool {
        self.limits.is_empty()
    }

    /// Takes what an hour drew off what is left.
    pub(super) fn take(&mut self, drawn: impl Fn(FuelId) -> f64) {
        for limit in &mut self.limits {
            limit.left_kwh = (limit.left_kwh - drawn(limit.fuel)).max(0.0);
        }
    }
}
