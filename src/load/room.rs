//! The room as one node: what heat ends the hour at the set point, and where the hour ends.
//!
//! `C·dT/dt = loss·(T_out − T) + gains + heat`, solved exactly over one hour with everything but
//! the room's temperature constant. `C = 0` is the steady line, without a special case. Knows no
//! machine. Start at [`RoomHour`].

use crate::lane::Lane;

/// One zone in one hour.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RoomHour<F> {
    /// Heat loss rate, kW/K; above zero.
    pub loss_kw_k: F,
    /// Heat from sun, people and appliances, kW.
    pub gains_kw: F,
    /// Share of a temperature difference that is left after one hour: `exp(−loss·1 h/C)`, 0 for C = 0.
    pub decay: F,
    /// Outdoor dry-bulb, °C.
    pub outdoor_c: F,
}

impl<F: Lane> RoomHour<F> {
    /// The heat [kW] that makes the hour end at `end_c` when it begins at `start_c`; may be negative.
    ///
    /// ```
    /// use winterledger::load::room::RoomHour;
    /// let decay = (-0.3_f64 / 5.0).exp();
    /// let room = RoomHour { loss_kw_k: 0.3, gains_kw: 1.0, decay, outdoor_c: -10.0 };
    /// assert!((room.heat_to_end_at(17.0, 20.0) - 22.55450).abs() < 5e-6); // hand-worked
    /// ```
    #[inline(always)]
    pub fn heat_to_end_at(&self, start_c: F, end_c: F) -> F {
        let one = F::splat(1.0);
        let steady = (end_c - self.decay * start_c) / (one - self.decay);
        self.loss_kw_k * (steady - self.outdoor_c) - self.gains_kw
    }

    /// The temperature [°C] at the hour's end, with `heat_kw` all through it.
    #[inline(always)]
    pub fn end(&self, start_c: F, heat_kw: F) -> F {
        let equilibrium = self.equilibrium(heat_kw);
        equilibrium + self.decay * (start_c - equilibrium)
    }

    /// The temperature [°C] that the room would come to rest at.
    #[inline(always)]
    pub fn equilibrium(&self, heat_kw: F) -> F {
        self.outdoor_c + (self.gains_kw + heat_kw) / self.loss_kw_k
    }
}

/// The mean temperature [°C] of an hour, from its start and end and the heat in it.
///
/// `heat_capacity` in kWh/K; for 0 the room is at its equilibrium all the hour.
pub fn mean_temperature(room: &RoomHour<f64>, heat_capacity: f64, start_c: f64, heat_kw: f64) -> f64 {
    let equilibrium = room.equilibrium(heat_kw);
    let end = room.end(start_c, heat_kw);
    // The integral of the exponential: C/loss·(start − end) is the surplus over equilibrium, in K·h.
    equilibrium + heat_capacity / room.loss_kw_k * (start_c - end)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_mean_temperature_of_the_worked_hour() {
        // Hand-worked: loss 0.3 kW/K, C 5 kWh/K, −10 °C, gains 1 kW, 17 to 20 °C.
        let room = RoomHour { loss_kw_k: 0.3, gains_kw: 1.0, decay: (-0.06_f64).exp(), outdoor_c: -10.0 };
        let heat = room.heat_to_end_at(17.0, 20.0);
        assert!((heat - 22.554_50).abs() < 5e-6, "{heat}");
        assert!((mean_temperature(&room, 5.0, 17.0, heat) - 18.514_999).abs() < 5e-7);
        assert!((room.end(17.0, heat) - 20.0).abs() < 1e-12);
    }

    #[test]
    fn without_heat_capacity_the_need_is_the_steady_line() {
        // Hand-worked: 0.3·(20 − (−10)) − 1 = 8 kW whatever the hour began at.
        let room = RoomHour { loss_kw_k: 0.3, gains_kw: 1.0, decay: 0.0, outdoor_c: -10.0 };
        assert!((room.heat_to_end_at(3.0, 20.0) - 8.0).abs() < 1e-12);
    }
}
