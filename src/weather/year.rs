//! One year of outdoor hours as the rest of the program sees it, and the same from 1 July.
//!
//! Built by the readers, never changed afterwards. Start at [`OutdoorYear`].

use crate::calendar::{Calendar, TYPICAL_YEAR};
use crate::series::Hourly;
use chrono_tz::Tz;

/// Whether the hours are those of one actual year, a composite, or made up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum YearKind {
    /// Typical months put together; laid on the calendar of 2023.
    Typical,
    /// The actual year of that number; 8,784 hours if it is a leap year.
    Actual(i32),
    /// Made from monthly means, no hour of it measured; laid on the calendar of 2023.
    Synthetic {
        /// The seed of its day-to-day weather.
        seed: u64,
    },
}

/// One value an hour in local standard time, from 1 January 00:00.
///
/// Value `i` stands for the hour from `i` to `i + 1`. What the file does not have is `None`.
#[derive(Debug, Clone, PartialEq)]
pub struct OutdoorYear {
    /// The place's name as the file or the catalogue gives it.
    pub place: String,
    /// Composite, actual or synthetic.
    pub kind: YearKind,
    /// Degrees north.
    pub latitude: Option<f64>,
    /// Degrees east.
    pub longitude: Option<f64>,
    /// Height above sea level, m.
    pub elevation_m: Option<f64>,
    /// Standard time less UTC, hours; −6 in Chicago.
    pub utc_offset_h: Option<f64>,
    /// The time zone whose clock the place lives by, where it is known.
    pub zone: Option<Tz>,
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
    /// Hours whose dry-bulb was filled because the file had none.
    pub filled_hours: usize,
    /// SHA-256 of the file's bytes as given (of a synthetic year, of what it was made from), in
    /// hexadecimal.
    pub sha256: String,
}

/// The same year from 1 July to 30 June, so that a winter is never cut in two.
#[derive(Debug, Clone, PartialEq)]
pub struct OutdoorRun {
    /// The clock at each hour.
    pub calendar: Calendar,
    /// Dry-bulb temperature, °C.
    pub dry_bulb_c: Hourly<f64>,
}

impl OutdoorYear {
    /// The number of the calendar year on which the hours are laid.
    pub fn calendar_year(&self) -> i32 {
        match self.kind {
            YearKind::Typical | YearKind::Synthetic { .. } => TYPICAL_YEAR,
            YearKind::Actual(year) => year,
        }
    }

    /// The year turned to begin on 1 July, with the clock of `zone` (else the file's own, else
    /// standard time all year).
    pub fn run(&self, zone: Option<Tz>) -> OutdoorRun {
        let offset = self.utc_offset_h.unwrap_or_default();
        let zone = self.utc_offset_h.and(zone.or(self.zone));
        let calendar = Calendar::of_one_year(self.calendar_year(), self.dry_bulb_c.len(), offset, zone);
        let dry_bulb_c = self.dry_bulb_c.clone().rotated(calendar.start_in_year());
        OutdoorRun { calendar, dry_bulb_c }
    }
}

/// So many hours at about one outdoor temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bin {
    /// The bin's middle, °C.
    pub temperature_c: f64,
    /// Hours in the bin.
    pub hours: f64,
}

/// Outdoor hours sorted by temperature, without their order in time.
#[derive(Debug, Clone, PartialEq)]
pub struct BinTable {
    /// The place's or the file's name.
    pub place: String,
    /// The bins, warm to cold.
    pub bins: Vec<Bin>,
    /// SHA-256 of the file's bytes, in hexadecimal; empty where the bins were made from hours.
    pub sha256: String,
}

/// What a weather source turned out to hold.
#[derive(Debug, Clone, PartialEq)]
pub enum Weather {
    /// Hours in order.
    Year(Box<OutdoorYear>),
    /// Hours by temperature only.
    Bins(BinTable),
}
