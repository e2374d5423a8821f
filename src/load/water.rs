//! Hot water: what heating a day's water takes, and how cold the mains are on a day of the year.
//!
//! Knows no heater and no fuel. Start at [`Mains`].

use crate::units::{celsius_to_fahrenheit, fahrenheit_to_celsius};

/// Heat to warm one litre by one kelvin, kWh: 4.186 kJ/(kg·K) at 0.998 kg/L, which is the common
/// 8.33 Btu for each gallon and °F. From memory.
pub const KWH_PER_LITRE_K: f64 = 4.186 * 0.998 / 3600.0;

/// Temperature of the cold water through the year.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Mains {
    /// The same all year, °C.
    Constant(f64),
    /// Follows the place's outdoor temperature.
    Seasonal {
        /// Mean outdoor temperature of the year, °C.
        yearly_mean_c: f64,
        /// Mean of the warmest month less that of the coldest, K.
        monthly_range_k: f64,
    },
}

impl Mains {
    /// The cold water's temperature [°C] on a day of the year, 1 to 366; not below freezing.
    ///
    /// `T = (Ta + 6) + (0.4 + 0.01·(Ta − 44))·ΔT/2·sin(0.986°·(day − 15 − (35 − (Ta − 44))) − 90°)` in
    /// °F, `Ta` the yearly mean and `ΔT` the greatest difference of monthly means. Source: Burch and
    /// Christensen, "Towards development of an algorithm for mains water temperature", 2007; from
    /// memory. For the northern hemisphere.
    ///
    /// ```
    /// use winterledger::load::water::Mains;
    /// let mains = Mains::Seasonal { yearly_mean_c: 10.0, monthly_range_k: 25.0 }; // 50 °F, 45 °F
    /// let fahrenheit = |day| mains.on_day(day) * 1.8 + 32.0;
    /// assert!((fahrenheit(1) - 48.357).abs() < 5e-4); // from memory
    /// assert!((fahrenheit(200) - 65.288).abs() < 5e-4);
    /// ```
    pub fn on_day(&self, day: u16) -> f64 {
        let (yearly_mean_c, monthly_range_k) = match self {
            Self::Constant(celsius) => return *celsius,
            Self::Seasonal { yearly_mean_c, monthly_range_k } => (*yearly_mean_c, *monthly_range_k),
        };
        let mean_f = celsius_to_fahrenheit(yearly_mean_c);
        let ratio = 0.4 + 0.01 * (mean_f - 44.0);
        let lag_days = 35.0 - (mean_f - 44.0);
        let angle = 0.986 * (f64::from(day) - 15.0 - lag_days) - 90.0;
        let swing_f = ratio * 1.8 * monthly_range_k / 2.0 * angle.to_radians().sin();
        fahrenheit_to_celsius(mean_f + 6.0 + swing_f).max(0.0)
    }

    /// Its coldest day of the year, °C.
    ///
    /// ```
    /// use winterledger::load::water::Mains;
    /// let mains = Mains::Seasonal { yearly_mean_c: 10.0, monthly_range_k: 25.0 }; // 50 °F, 45 °F
    /// // Hand-worked: 50 + 6 − (0.4 + 0.06)·45/2 = 45.65 °F, to the next whole day.
    /// assert!((mains.coldest() * 1.8 + 32.0 - 45.65).abs() < 1e-3);
    /// ```
    pub fn coldest(&self) -> f64 {
        (1..=365).map(|day| self.on_day(day)).fold(f64::INFINITY, f64::min)
    }

    /// Its mean over the 365 days of a year, °C.
    pub fn mean(&self) -> f64 {
        (1..=365).map(|day| self.on_day(day)).sum::<f64>() / 365.0
    }
}

/// Heat (kW) that a steady `litres_a_day` takes from `cold_c` to `hot_c`; 0 where it is warm already.
///
/// ```
/// // Hand-worked: 50 gal/day from 60 to 120 °F is 50·8.33·60 Btu = 24,990 Btu a day, 0.30516 kW.
/// let kw = winterledger::load::water::steady_kw(50.0 * 3.785411784, 88.0 / 1.8, 28.0 / 1.8);
/// assert!((kw - 0.30516).abs() < 2e-4, "{kw}");
/// ```
pub fn steady_kw(litres_a_day: f64, hot_c: f64, cold_c: f64) -> f64 {
    litres_a_day / 24.0 * KWH_PER_LITRE_K * (hot_c - cold_c).max(0.0)
}
