//! Was it warm? The counts that are always shown together.
//!
//! Start at [`Comfort`].

use super::record::ZoneRecord;

/// A room below the set point by more than this at the end of an hour is not kept warm, K.
pub const NOT_KEPT_WARM_K: f64 = 1.0;
/// Where the room has no heat capacity: an hour that gets less than this share of its need.
pub const SHARE_OF_NEED: f64 = 0.99;
/// 60 °F, below which people leave, °C.
pub const SIXTY_F_C: f64 = 28.0 / 1.8;
/// 45 °F, below which pipes are in danger somewhere in the house, °C.
pub const FORTY_FIVE_F_C: f64 = 13.0 / 1.8;

/// How well one zone was kept warm.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Comfort {
    /// Hours ending more than 1 K below the set point, recovery left out; for a zone without heat
    /// capacity, hours that got under 99 % of their need.
    pub hours_not_kept_warm: usize,
    /// Hours of recovery after a rise of the set point.
    pub recovery_hours: usize,
    /// Heat that a twin room with ample heat took more, from the first short hour on, kWh; counts
    /// recovery too.
    pub heat_not_delivered_kwh: f64,
    /// What the room's temperature tells; nothing for a zone without heat capacity.
    pub room: Option<RoomComfort>,
}

/// What a room's temperature tells.
#[derive(Debug, Clone, PartialEq)]
pub struct RoomComfort {
    /// The lowest temperature at the end of an hour, °C.
    pub lowest_c: f64,
    /// The hour of the run in which that was.
    pub lowest_hour: usize,
    /// Hours ending below 60 °F, recovery included: a cold room is cold whatever it recovers from.
    pub hours_below_60f: usize,
    /// Hours ending below 45 °F, recovery included: pipes freeze in it too.
    pub hours_below_45f: usize,
    /// Kelvin below the set point at the ends of all hours, recovery left out, K·h.
    pub degree_hours_short: f64,
}

impl Default for RoomComfort {
    fn default() -> Self {
        Self {
            lowest_c: f64::INFINITY,
            lowest_hour: 0,
            hours_below_60f: 0,
            hours_below_45f: 0,
            degree_hours_short: 0.0,
        }
    }
}

impl Comfort {
    /// Counts one hour.
    #[inline]
    pub fn count(&mut self, record: &ZoneRecord<'_>) {
        self.heat_not_delivered_kwh += record.not_delivered_kwh;
        self.recovery_hours += usize::from(record.recovering);
        let outcome = record.outcome;
        let cold = if record.plan.heat_capacity_kwh_k > 0.0 {
            let short_k = record.set_point_c - outcome.end_c;
            self.room.get_or_insert_default().count(record, short_k);
            short_k > NOT_KEPT_WARM_K
        } else {
            outcome.heat < SHARE_OF_NEED * outcome.need
        };
        self.hours_not_kept_warm += usize::from(cold && !record.recovering);
    }
}

impl RoomComfort {
    fn count(&mut self, record: &ZoneRecord<'_>, short_k: f64) {
        let end_c = record.outcome.end_c;
        if end_c < self.lowest_c {
            self.lowest_c = end_c;
            self.lowest_hour = record.hour;
        }
        self.hours_below_60f += usize::from(end_c < SIXTY_F_C);
        self.hours_below_45f += usize::from(end_c < FORTY_FIVE_F_C);
        if !record.recovering {
            self.degree_hours_short += short_k.max(0.0);
        }
    }
}
