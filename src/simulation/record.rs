//! What came of one zone in one hour, as it is handed to whoever keeps it.
//!
//! Start at [`Sink`].

use super::household::PlannedDraw;
use super::kernel::ZoneOutcome;
use super::plan::ZonePlan;

/// One zone in one hour.
#[derive(Debug, Clone, Copy)]
pub struct ZoneRecord<'a> {
    /// The hour of the run, from 0.
    pub hour: usize,
    /// The zone, from 0.
    pub zone: usize,
    /// How the zone is equipped.
    pub plan: &'a ZonePlan,
    /// Outdoor dry-bulb, °C.
    pub outdoor_c: f64,
    /// Heating set point, °C.
    pub set_point_c: f64,
    /// Room temperature when the hour began, °C.
    pub start_c: f64,
    /// What came of it.
    pub outcome: &'a ZoneOutcome<f64>,
    /// Standby draw of machines that gave nothing, kWh.
    pub standby_kwh: f64,
    /// Whether the hour belongs to a recovery after a rise of the set point.
    pub recovering: bool,
    /// Heat a twin room with ample heat took more than this one, kWh; 0 while they agree.
    pub not_delivered_kwh: f64,
}

impl ZoneRecord<'_> {
    /// Heat of the strips that temper the air while the first heater defrosts, kWh, which is their
    /// draw too; it is part of that heater's heat and of the electricity beside it.
    #[inline(always)]
    pub fn defrost_kwh(&self) -> f64 {
        let Some(kw) = self.plan.defrost_kw.get(self.hour).filter(|kw| **kw > 0.0) else { return 0.0 };
        let [first, ..] = &self.outcome.heaters;
        kw * first.running
    }
}

/// Whoever keeps what the hours give: sums, a trace, nothing.
pub trait Sink {
    /// Takes one zone in one hour; zones come in order within the hour.
    fn take(&mut self, record: &ZoneRecord<'_>);

    /// Takes one use of the household in one hour, kWh; before that hour's zones.
    #[inline(always)]
    fn take_household(&mut self, hour: usize, draw: &PlannedDraw, kwh: f64) {
        let _ = (hour, draw, kwh);
    }
}

/// Keeps nothing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Nothing;

impl Sink for Nothing {
    #[inline(always)]
    fn take(&mut self, _: &ZoneRecord<'_>) {}
}

/// Keeps the outcome of every zone and hour.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Trace {
    /// Outcomes in the order in which they came: hours outside, zones inside.
    pub outcomes: Vec<ZoneOutcome<f64>>,
}

impl Sink for Trace {
    fn take(&mut self, record: &ZoneRecord<'_>) {
        self.outcomes.push(*record.outcome);
    }
}

impl<S: Sink> Sink for &mut S {
    #[inline(always)]
    fn take(&mut self, record: &ZoneRecord<'_>) {
        (**self).take(record);
    }

    #[inline(always)]
    fn take_household(&mut self, hour: usize, draw: &PlannedDraw, kwh: f64) {
        (**self).take_household(hour, draw, kwh);
    }
}

impl<A: Sink, B: Sink> Sink for (A, B) {
    #[inline(always)]
    fn take(&mut self, record: &ZoneRecord<'_>) {
        self.0.take(record);
        self.1.take(record);
    }

    #[inline(always)]
    fn take_household(&mut self, hour: usize, draw: &PlannedDraw, kwh: f64) {
        self.0.take_household(hour, draw, kwh);
        self.1.take_household(hour, draw, kwh);
    }
}
