//! One machine in one hour: wanted heat into delivered heat and draws, without branches on data.
//!
//! Made from a [`MapRow`]; knows neither why it is on nor what the fuel costs. Start at
//! [`MachineHour`].

use super::map::MapRow;
use crate::lane::Lane;

/// A wish of less than this is rounding, kW; no machine starts for it.
pub const LEAST_WISH_KW: f64 = 1e-12;

/// What a machine can do in one hour. Off is a greatest output of 0.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MachineHour<F> {
    /// Least output without cycling, kW; above zero even when the machine is off.
    pub least: F,
    /// Rated output, kW.
    pub rated: F,
    /// Greatest output, kW.
    pub greatest: F,
    /// Draw at the least output, kW of the machine's fuel.
    pub power_least: F,
    /// Further draw for each further kW, from least to rated.
    pub slope_low: F,
    /// Further draw for each further kW, from rated to greatest.
    pub slope_high: F,
    /// Electricity beside the main draw while running (fan, blower, pan heater), kW.
    pub side: F,
    /// The least draw whatever is wanted: a pilot flame, kW of the machine's fuel.
    pub pilot: F,
}

/// What came of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Output<F> {
    /// Delivered at the machine, kWh in the hour.
    pub heat: F,
    /// Draw of the machine's own fuel, kWh.
    pub draw: F,
    /// Electricity beside it, kWh.
    pub side: F,
    /// Share of the hour that it ran, 0 to 1.
    pub running: F,
}

impl<F: Lane> Output<F> {
    /// Nothing.
    #[inline(always)]
    pub fn zero() -> Self {
        let zero = F::splat(0.0);
        Self { heat: zero, draw: zero, side: zero, running: zero }
    }

    /// So large a share of it.
    #[inline(always)]
    #[must_use]
    pub fn share(self, share: F) -> Self {
        Self {
            heat: self.heat * share,
            draw: self.draw * share,
            side: self.side * share,
            running: self.running * share,
        }
    }
}

impl<F: Lane> MachineHour<F> {
    /// Delivers `wanted` kW or its greatest output, whichever is less; nothing for a wish of less
    /// than [`LEAST_WISH_KW`].
    ///
    /// Below the least output it cycles: `PLF = 1 − C_D·(1 − load/least)` (10 CFR 430 Appendix M1).
    /// Above, power is linear in output from least to rated to greatest.
    ///
    /// ```
    /// use winterledger::equipment::output::MachineHour;
    /// let machine = MachineHour { least: 4.0, rated: 8.0, greatest: 8.0, power_least: 1.0,
    ///     slope_low: 0.5, slope_high: 0.0, side: 0.1, pilot: 0.0 };
    /// assert_eq!(machine.run(0.25, 6.0).draw, 2.0); // 1 + 0.5·(6 − 4)
    /// let cycling = machine.run(0.25, 2.0); // 0.5 / (1 − 0.25·0.5)
    /// assert!((cycling.draw - 0.5 / 0.875).abs() < 1e-15);
    /// assert_eq!(cycling.side, 0.05);
    /// ```
    #[inline(always)]
    pub fn run(&self, cycling_loss: F, wanted: F) -> Output<F> {
        let (zero, one) = (F::splat(0.0), F::splat(1.0));
        if !wanted.any_above(LEAST_WISH_KW) {
            // What the rest would come to as well; most hours of a year and of backup heat are such.
            return Output { draw: zero.greatest(self.pilot), ..Output::zero() };
        }
        let most = wanted.least(self.greatest);
        let heat = F::splat(LEAST_WISH_KW).less_select(most, most, zero);
        let running = (heat / self.least).least(one);
        let part_load_factor = one - cycling_loss * (one - running);
        let above_least = (heat.least(self.rated) - self.least).greatest(zero);
        let above_rated = (heat - self.rated).greatest(zero);
        let draw = self.power_least * running / part_load_factor
            + self.slope_low * above_least
            + self.slope_high * above_rated;
        Output { heat, draw: draw.greatest(self.pilot), side: self.side * running, running }
    }
}

impl MachineHour<f64> {
    /// From a map's row and the electricity beside it.
    pub fn new(row: &MapRow, side_kw: f64) -> Self {
        let slope = |from: super::map::Point, to: super::map::Point| {
            let rise = to.capacity_kw - from.capacity_kw;
            if rise > 0.0 { (to.power_kw - from.power_kw) / rise } else { 0.0 }
        };
        if row.greatest.capacity_kw <= 0.0 {
            return Self::OFF;
        }
        Self {
            // Where a map's line takes the least output to nothing, the machine never cycles.
            least: row.least.capacity_kw.max(LEAST_WISH_KW),
            rated: row.rated.capacity_kw,
            greatest: row.greatest.capacity_kw,
            power_least: row.least.power_kw,
            slope_low: slope(row.least, row.rated),
            slope_high: slope(row.rated, row.greatest),
            side: side_kw,
            pilot: 0.0,
        }
    }

    /// The machine together with `kw` of electric heat that is on whenever it runs: more heat at every
    /// output and as much more electricity beside it. A machine that is off stays off.
    #[must_use]
    pub fn with_electric_heat(self, kw: f64) -> Self {
        if self.greatest <= 0.0 {
            return self;
        }
        let more = |output: f64| output + kw;
        Self {
            least: more(self.least),
            rated: more(self.rated),
            greatest: more(self.greatest),
            side: more(self.side),
            ..self
        }
    }

    /// A machine that draws as much as it gives while `kw` of its greatest output go elsewhere.
    ///
    /// ```
    /// use winterledger::equipment::output::MachineHour;
    /// let strips = MachineHour { least: 9.0, rated: 9.0, greatest: 9.0, power_least: 9.0, ..MachineHour::OFF };
    /// assert_eq!(strips.lending(1.0).run(0.0, 20.0).draw, 8.0);
    /// assert_eq!(strips.lending(10.0).run(0.0, 20.0).draw, 0.0);
    /// ```
    #[must_use]
    pub fn lending(self, kw: f64) -> Self {
        let greatest = self.greatest - kw;
        if greatest <= 0.0 {
            return Self::OFF;
        }
        let least = self.least.min(greatest);
        let power_least = self.power_least * least / self.least;
        Self { least, power_least, rated: self.rated.min(greatest), greatest, ..self }
    }

    /// What a machine can do on the mean of an hour of which it has only a share, 0 to 1.
    ///
    /// ```
    /// use winterledger::equipment::output::MachineHour;
    /// let furnace = MachineHour { least: 8.0, rated: 8.0, greatest: 8.0, power_least: 10.0, side: 0.5,
    ///     ..MachineHour::OFF };
    /// let most = furnace.for_a_share(0.75).run(0.0, 20.0);
    /// assert_eq!((most.heat, most.draw, most.side), (6.0, 7.5, 0.375));
    /// ```
    #[must_use]
    pub fn for_a_share(self, share: f64) -> Self {
        if share <= 0.0 {
            return Self::OFF;
        }
        Self {
            least: self.least * share,
            rated: self.rated * share,
            greatest: self.greatest * share,
            power_least: self.power_least * share,
            side: self.side * share,
            ..self
        }
    }

    /// A machine that is off.
    pub const OFF: Self = Self {
        least: 1.0,
        rated: 1.0,
        greatest: 0.0,
        power_least: 0.0,
        slope_low: 0.0,
        slope_high: 0.0,
        side: 0.0,
        pilot: 0.0,
    };
}
