//! The room as one node: what heat ends the hour at the set point, and where the hour ends.
//!
//! `C·dT/dt = loss·(T_out − T) + gains + heat`, solved exactly over one hour with everything but
//! the room's temperature constant. `C = 0` is the steady line, without a special case. Knows no
//! machine. Start at [`RoomHour`].

use crate::lane::Lane;

/// One zone in one hour. Made by [`RoomHour::new`], so that what an hour needs again and again is
/// divided once.
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
    /// `loss/(1 − decay)`: heat for each kelvin that the hour's end is to be warmer, kW/K.
    heat_for_kelvin: F,
    /// `1/loss`: kelvin above the outdoors for each kW in the end.
    kelvin_for_heat: F,
    /// `(1 − decay)/loss`: kelvin that the hour's end is warmer for each kW all through it.
    kelvin_in_hour: F,
}

impl<F: Lane> RoomHour<F> {
    /// A room of that loss (kW/K, above zero), gains (kW) and decay (0 to below 1) at `outdoor_c` °C.
    #[inline(always)]
    pub fn new(loss_kw_k: F, gains_kw: F, decay: F, outdoor_c: F) -> Self {
        let one = F::splat(1.0);
        Self {
            loss_kw_k,
            gains_kw,
            decay,
            outdoor_c,
            heat_for_kelvin: loss_kw_k / (one - decay),
            kelvin_for_heat: one / loss_kw_k,
            kelvin_in_hour: (one - decay) / loss_kw_k,
        }
    }

    /// The same room at another outdoor temperature, °C.
    #[inline(always)]
    #[must_use]
    pub fn at(self, outdoor_c: F) -> Self {
        Self { outdoor_c, ..self }
    }

    /// The same room with so much less heat from within, kW.
    #[inline(always)]
    #[must_use]
    pub fn with_less_gains(self, kw: F) -> Self {
        Self { gains_kw: self.gains_kw - kw, ..self }
    }

    /// The heat (kW) that makes the hour end at `end_c` when it begins at `start_c`; may be negative.
    ///
    /// ```
    /// use winterledger::load::room::RoomHour;
    /// let decay = (-0.3_f64 / 5.0).exp();
    /// let room = RoomHour::new(0.3, 1.0, decay, -10.0);
    /// assert!((room.heat_to_end_at(17.0, 20.0) - 22.55450).abs() < 5e-6); // hand-worked
    /// ```
    #[inline(always)]
    pub fn heat_to_end_at(&self, start_c: F, end_c: F) -> F {
        self.heat_for_kelvin * (end_c - self.decay * start_c)
            - (self.loss_kw_k * self.outdoor_c + self.gains_kw)
    }

    /// The temperature (°C) at the hour's end, with `heat_kw` all through it.
    #[inline(always)]
    pub fn end(&self, start_c: F, heat_kw: F) -> F {
        // What comes in beyond what goes out, and what that makes in an hour: the rise is small beside
        // the temperature, so that little is lost to rounding.
        let surplus_kw = heat_kw + (self.gains_kw - self.loss_kw_k * (start_c - self.outdoor_c));
        start_c + self.kelvin_in_hour * surplus_kw
    }

    /// The temperature (°C) that the room would come to rest at.
    #[inline(always)]
    pub fn equilibrium(&self, heat_kw: F) -> F {
        self.outdoor_c + (self.gains_kw + heat_kw) * self.kelvin_for_heat
    }
}

/// The mean temperature (°C) of an hour, from its start and end and the heat in it.
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
        let room = RoomHour::new(0.3, 1.0, (-0.06_f64).exp(), -10.0);
        let heat = room.heat_to_end_at(17.0, 20.0);
        assert!((heat - 22.554_50).abs() < 5e-6, "{heat}");
        assert!((mean_temperature(&room, 5.0, 17.0, heat) - 18.514_999).abs() < 5e-7);
        assert!((room.end(17.0, heat) - 20.0).abs() < 1e-12);
    }

    #[test]
    fn without_heat_capacity_the_need_is_the_steady_line() {
        // Hand-worked: 0.3·(20 − (−10)) − 1 = 8 kW whatever the hour began at.
        let room = RoomHour::new(0.3, 1.0, 0.0, -10.0);
        assert!((room.heat_to_end_at(3.0, 20.0) - 8.0).abs() < 1e-12);
    }
}
