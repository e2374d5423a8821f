//! The ground around a buried loop through the year, and how cold the loop comes back from it.
//!
//! Knows no house: whoever asks brings the load as a share of the design load. Start at
//! [`GroundLoop`].

use std::f64::consts::PI;

const DAYS: f64 = 365.0;

/// The yearly wave of the ground's surface, which follows the air's.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Surface {
    /// Mean of the year, °C.
    pub mean_c: f64,
    /// Half of the spread between warmest and coldest, K.
    pub amplitude_k: f64,
    /// The coldest day, counted from the year's beginning.
    pub coldest_day: f64,
}

impl Surface {
    /// From twelve monthly means of the air, January first: half of the spread between the warmest
    /// and the coldest month, coldest in the middle of the coldest month.
    pub fn of_monthly_means(means_c: &[f64; 12]) -> Self {
        let low = means_c.iter().copied().fold(f64::INFINITY, f64::min);
        let high = means_c.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let coldest = means_c.iter().position(|m| *m == low).unwrap_or_default();
        Self {
            mean_c: means_c.iter().sum::<f64>() / 12.0,
            amplitude_k: (high - low) / 2.0,
            coldest_day: DAYS * (coldest as f64 + 0.5) / 12.0,
        }
    }
}

/// Undisturbed ground at one depth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ground {
    /// The wave at its surface.
    pub surface: Surface,
    /// Depth, m.
    pub depth_m: f64,
    /// Thermal diffusivity, m² a day; above zero.
    pub diffusivity_m2_day: f64,
}

impl Ground {
    /// The depth at which 1/e of the wave is left, m: `√(365·α/π)`.
    ///
    /// ```
    /// use winterledger::equipment::ground::{Ground, Surface};
    /// let surface = Surface { mean_c: 10.0, amplitude_k: 15.0, coldest_day: 15.0 };
    /// let ground = Ground { surface, depth_m: 2.0, diffusivity_m2_day: 0.05 };
    /// assert!((ground.damping_depth_m() - 2.410).abs() < 5e-4); // hand-worked
    /// assert!((ground.left() - 0.4361).abs() < 5e-5);
    /// assert!((ground.lag_days() - 48.20).abs() < 5e-3);
    /// ```
    pub fn damping_depth_m(&self) -> f64 {
        (DAYS * self.diffusivity_m2_day / PI).sqrt()
    }

    /// Share of the surface's wave that is left at this depth.
    pub fn left(&self) -> f64 {
        (-self.depth_m / self.damping_depth_m()).exp()
    }

    /// Days by which the wave comes later than at the surface.
    pub fn lag_days(&self) -> f64 {
        self.depth_m / self.damping_depth_m() * DAYS / (2.0 * PI)
    }

    /// Temperature on a day of the year, °C.
    ///
    /// `mean − amplitude·e^(−z/d)·cos(2π/365·(day − coldest − lag))`, d being the damping depth.
    /// Source: T. Kusuda and P. R. Achenbach, "Earth temperature and thermal diffusivity at selected
    /// stations in the United States", ASHRAE Transactions 71 (1965).
    pub fn at(&self, day: f64) -> f64 {
        let angle = 2.0 * PI / DAYS * (day - self.surface.coldest_day - self.lag_days());
        self.surface.mean_c - self.surface.amplitude_k * self.left() * angle.cos()
    }

    /// How far the year is from the coldest day at this depth, degrees of 360 a year.
    pub fn angle_degrees(&self, day: f64) -> f64 {
        360.0 / DAYS * (day - self.surface.coldest_day - self.lag_days())
    }

    /// The coldest it gets, °C.
    pub fn coldest_c(&self) -> f64 {
        self.surface.mean_c - self.surface.amplitude_k * self.left()
    }

    /// The warmest it gets, °C.
    pub fn warmest_c(&self) -> f64 {
        self.surface.mean_c + self.surface.amplitude_k * self.left()
    }
}

/// A loop in the ground: how cold, or warm, what comes back from it enters the machine.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GroundLoop {
    /// The ground around it.
    pub ground: Ground,
    /// Entering temperature when the ground is at its coldest and the load is the design load, °C.
    pub design_entering_c: f64,
    /// The same in cooling, the ground at its warmest, °C.
    pub cooling_design_entering_c: Option<f64>,
}

impl GroundLoop {
    /// Entering temperature while heating, °C: the ground's less a drawdown in proportion to the load.
    ///
    /// `load_share` is the load over the design load; without a day the ground is at its coldest.
    ///
    /// ```
    /// use winterledger::equipment::ground::{Ground, GroundLoop, Surface};
    /// let surface = Surface { mean_c: 10.0, amplitude_k: 0.0, coldest_day: 15.0 };
    /// let ground = Ground { surface, depth_m: 60.0, diffusivity_m2_day: 0.05 };
    /// let bore = GroundLoop { ground, design_entering_c: 0.0, cooling_design_entering_c: None };
    /// assert_eq!(bore.entering_c(None, 0.5), 5.0); // half of the 10 K
    /// ```
    pub fn entering_c(&self, day: Option<f64>, load_share: f64) -> f64 {
        let coldest = self.ground.coldest_c();
        day.map_or(coldest, |day| self.ground.at(day)) - (coldest - self.design_entering_c) * load_share
    }

    /// Entering temperature while cooling, °C; without a day the ground is at its warmest.
    pub fn cooling_entering_c(&self, day: Option<f64>, load_share: f64) -> f64 {
        let warmest = self.ground.warmest_c();
        let rise = self.cooling_design_entering_c.map_or(0.0, |design| design - warmest);
        day.map_or(warmest, |day| self.ground.at(day)) + rise * load_share
    }
}
