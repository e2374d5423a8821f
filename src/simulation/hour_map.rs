//! What a machine can do in each hour of a run: made once a machine and weather, since it does not
//! depend on the load. The memory of cut-out and cut-on lives here.
//!
//! Start at [`HourMap`].

use std::ops::Range;

use crate::equipment::output::MachineHour;
use crate::equipment::{Cooling, Heating, Presence};

/// What a machine can do, hour by hour.
#[derive(Debug, Clone, PartialEq)]
pub struct HourMap {
    hours: Vec<MachineHour<f64>>,
    step: usize,
}

/// Hours in which a heater was off, and why.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct OffHours {
    /// At or below the cut-out.
    pub cut_out: usize,
    /// Colder than the map reaches.
    pub no_data: usize,
}

impl HourMap {
    /// A machine that is off in every hour.
    pub fn off() -> Self {
        Self { hours: vec![MachineHour::OFF], step: 0 }
    }

    /// The hours `span` alone, counted from 0 again.
    #[must_use]
    pub fn part(&self, span: Range<usize>) -> Self {
        if self.step == 0 {
            return self.clone();
        }
        let hours = self.hours.iter().skip(span.start).take(span.len()).copied().collect();
        Self { hours, step: self.step }
    }

    /// What a machine can do in hour `i` of the run.
    #[inline(always)]
    pub fn at(&self, i: usize) -> &MachineHour<f64> {
        // A machine that does not depend on the outdoors has one entry and a step of 0.
        self.hours.get(i * self.step).unwrap_or(&MachineHour::OFF)
    }

    /// A heater through the hours in order.
    pub fn heating(heating: &Heating, outdoor_c: &[f64]) -> (Self, OffHours) {
        let mut off = OffHours::default();
        let anywhere = heating.map.warmest_c() == f64::NEG_INFINITY && heating.pan_heater.is_none();
        if anywhere && heating.cut_out_c.is_none() && heating.lockout_above_c.is_none() {
            return (Self { hours: vec![heating.hour_at(0.0)], step: 0 }, off);
        }
        let mut was_on = true;
        let hours = outdoor_c.iter().map(|t| {
            let presence = heating.presence(*t, was_on);
            was_on = presence != Presence::CutOut;
            match presence {
                Presence::CutOut => off.cut_out += 1,
                Presence::NoData => off.no_data += 1,
                Presence::On | Presence::LockedOut => {}
            }
            if presence == Presence::On { heating.hour_at(*t) } else { MachineHour::OFF }
        });
        (Self { hours: hours.collect(), step: 1 }, off)
    }

    /// A cooler through the hours in order.
    pub fn cooling(cooling: &Cooling, outdoor_c: &[f64]) -> Self {
        Self { hours: outdoor_c.iter().map(|t| cooling.hour_at(*t)).collect(), step: 1 }
    }
}
