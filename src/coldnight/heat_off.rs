//! How long a room without heat stays above a temperature on the design night.
//!
//! Start at [`HeatOff`].

use crate::load::Zone;
use crate::units::fahrenheit_to_celsius;

/// A room with all heat off, from the ordinary set point, at the design temperature, with the
/// design's gains.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeatOff {
    /// Until it is 55 °F in the room.
    pub to_55f: Fall,
    /// Until it is 40 °F in the room.
    pub to_40f: Fall,
}

/// When a falling room reaches a temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Fall {
    /// After so many hours.
    Hours(f64),
    /// It comes to rest above.
    Never,
    /// The zone has no heat capacity, so its room cannot be told.
    NotGiven,
}

impl HeatOff {
    /// Of `zone` on its design night.
    pub fn new(zone: &Zone) -> Self {
        let to = |f| fall(zone, zone.design_temperature_c, fahrenheit_to_celsius(f));
        Self { to_55f: to(55.0), to_40f: to(40.0) }
    }
}

/// Hours until the room of `zone`, at its ordinary set point as the heat goes off, is at `to_c`.
///
/// Closed form of the room's equation: `t = C/loss·ln((start − rest)/(to − rest))`, where `rest` is
/// `outdoor + gains/loss`.
pub fn fall(zone: &Zone, outdoor_c: f64, to_c: f64) -> Fall {
    if zone.heat_capacity_kwh_k <= 0.0 {
        return Fall::NotGiven;
    }
    let rest = outdoor_c + zone.gains_kw / zone.loss_kw_k;
    let start = zone.heating.set_point_c;
    if start <= to_c {
        Fall::Hours(0.0)
    } else if rest >= to_c {
        Fall::Never
    } else {
        Fall::Hours(zone.heat_capacity_kwh_k / zone.loss_kw_k * ((start - rest) / (to_c - rest)).ln())
    }
}
