//! The hourly columns that a year and a record of years share.
//!
//! What a file does not have is `None`. Start at [`OutdoorColumns`].

use crate::series::Hourly;
use std::ops::Range;

/// The columns of a record or a year, one value an hour each.
#[derive(Debug, Clone, PartialEq)]
pub struct OutdoorColumns {
    /// Dry-bulb temperature, °C.
    pub dry_bulb_c: Hourly<f64>,
    /// Dew point, °C.
    pub dew_point_c: Option<Hourly<f64>>,
    /// Relative humidity, 0 to 1.
    pub relative_humidity: Option<Hourly<f64>>,
    /// Station pressure, Pa.
    pub pressure_pa: Option<Hourly<f64>>,
    /// Global horizontal irradiance, W/m².
    pub global_w_m2: Option<Hourly<f64>>,
    /// Direct normal irradiance, W/m².
    pub direct_w_m2: Option<Hourly<f64>>,
    /// Diffuse horizontal irradiance, W/m².
    pub diffuse_w_m2: Option<Hourly<f64>>,
    /// Wind speed, m/s.
    pub wind_m_s: Option<Hourly<f64>>,
}

impl OutdoorColumns {
    /// The dry-bulb alone.
    pub fn of_dry_bulb(dry_bulb_c: Hourly<f64>) -> Self {
        Self {
            dry_bulb_c,
            dew_point_c: None,
            relative_humidity: None,
            pressure_pa: None,
            global_w_m2: None,
            direct_w_m2: None,
            diffuse_w_m2: None,
            wind_m_s: None,
        }
    }

    /// The hours of a range of whole days; `None` if it reaches beyond them.
    pub(super) fn part(&self, range: &Range<usize>) -> Option<Self> {
        let part = |column: &Hourly<f64>| Hourly::new(column.get(range.clone())?.to_vec());
        let may = |column: &Option<Hourly<f64>>| column.as_ref().and_then(part);
        Some(Self {
            dry_bulb_c: part(&self.dry_bulb_c)?,
            dew_point_c: may(&self.dew_point_c),
            relative_humidity: may(&self.relative_humidity),
            pressure_pa: may(&self.pressure_pa),
            global_w_m2: may(&self.global_w_m2),
            direct_w_m2: may(&self.direct_w_m2),
            diffuse_w_m2: may(&self.diffuse_w_m2),
            wind_m_s: may(&self.wind_m_s),
        })
    }

    /// The same hours, beginning at hour `start` and wrapping at the end.
    pub(super) fn rotated(self, start: usize) -> Self {
        let turn = |column: Option<Hourly<f64>>| column.map(|hours| hours.rotated(start));
        Self {
            dry_bulb_c: self.dry_bulb_c.rotated(start),
            dew_point_c: turn(self.dew_point_c),
            relative_humidity: turn(self.relative_humidity),
            pressure_pa: turn(self.pressure_pa),
            global_w_m2: turn(self.global_w_m2),
            direct_w_m2: turn(self.direct_w_m2),
            diffuse_w_m2: turn(self.diffuse_w_m2),
            wind_m_s: turn(self.wind_m_s),
        }
    }
}
