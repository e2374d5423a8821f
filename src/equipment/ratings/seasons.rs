//! The standards' seasons: outdoor temperatures with hours or shares of hours, read from
//! `data/ratings/`.
//!
//! Knows no machine. Start at [`UsClimate`] and [`EuClimate`].

use crate::problem::Problem;
use serde::Deserialize;
use serde::de::DeserializeOwned;

/// Hours, or a share of the season's hours, at one outdoor temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SeasonBin {
    /// Outdoor temperature: °F in the American seasons, °C in the European ones, as their tables say.
    pub outdoor: f64,
    /// Share of the season's hours (American), or hours (European).
    pub weight: f64,
}

/// A climate region of 10 CFR 430; labels speak of region IV.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum UsRegion {
    /// Warmest.
    I,
    /// Warm.
    II,
    /// Mild.
    III,
    /// The one that labels are made for.
    IV,
    /// Coldest.
    V,
    /// Mild coast.
    VI,
}

impl UsRegion {
    /// All six, in order.
    pub const ALL: [Self; 6] = [Self::I, Self::II, Self::III, Self::IV, Self::V, Self::VI];
}

/// The heating season of one region.
#[derive(Debug, Clone, PartialEq)]
pub struct UsHeatingSeason {
    /// Heating load hours by Appendix M1, h a year.
    pub load_hours_m1: f64,
    /// Heating load hours by Appendix M, h a year.
    pub load_hours_m: f64,
    /// Outdoor design temperature, °F.
    pub outdoor_design_f: f64,
    /// Slope factor C of the M1 load line.
    pub slope: f64,
    /// The same for machines of variable speed.
    pub slope_variable: f64,
    /// Outdoor temperature at which M1's load is zero, °F.
    pub zero_load_f: f64,
    /// Bins of Appendix M, °F; shares add up to 1.
    pub bins_m: Vec<SeasonBin>,
    /// Bins of Appendix M1, °F; shares are used as they are and add up to less than 1.
    pub bins_m1: Vec<SeasonBin>,
}

/// The American seasons.
///
/// Source: 10 CFR 430 Subpart B, Appendices M and M1, tables 19 and 20.
#[derive(Debug, Clone, PartialEq)]
pub struct UsClimate {
    heating: [UsHeatingSeason; 6],
    /// Cooling bins, °F; shares add up to 1.
    pub cooling: Vec<SeasonBin>,
}

#[derive(Deserialize)]
struct RegionRow {
    #[serde(rename = "heating_load_hours_M1")]
    load_hours_m1: f64,
    #[serde(rename = "heating_load_hours_M")]
    load_hours_m: f64,
    #[serde(rename = "outdoor_design_degF")]
    outdoor_design_f: f64,
    slope: f64,
    slope_variable: f64,
    #[serde(rename = "zero_load_degF")]
    zero_load_f: f64,
}

impl UsClimate {
    /// Reads the tables that come with the program.
    ///
    /// ```
    /// use winterledger::equipment::ratings::seasons::{UsClimate, UsRegion};
    /// let climate = UsClimate::built_in().unwrap();
    /// assert_eq!(climate.heating(UsRegion::IV).zero_load_f, 55.0);
    /// ```
    ///
    /// # Errors
    /// A line that cannot be read; that is a defect of the program's own data.
    pub fn built_in() -> Result<Self, Problem> {
        let rows: Vec<RegionRow> =
            records("us-regions.csv", include_str!("../../../data/ratings/us-regions.csv"))?;
        let file = "us-heating-bins.csv";
        let bins: Vec<Vec<f64>> = records(file, include_str!("../../../data/ratings/us-heating-bins.csv"))?;
        let seasons: Vec<_> = rows.into_iter().enumerate().map(|(i, row)| season(row, i, &bins)).collect();
        let heating = seasons.try_into().map_err(|_| Problem::new("not six regions").in_file(file))?;
        let cooling: Vec<(f64, f64)> =
            records("us-cooling-bins.csv", include_str!("../../../data/ratings/us-cooling-bins.csv"))?;
        Ok(Self { heating, cooling: cooling.into_iter().map(bin).collect() })
    }

    /// The heating season of a region.
    pub fn heating(&self, region: UsRegion) -> &UsHeatingSeason {
        &self.heating[region as usize]
    }
}

fn season(row: RegionRow, region: usize, bins: &[Vec<f64>]) -> UsHeatingSeason {
    UsHeatingSeason {
        load_hours_m1: row.load_hours_m1,
        load_hours_m: row.load_hours_m,
        outdoor_design_f: row.outdoor_design_f,
        slope: row.slope,
        slope_variable: row.slope_variable,
        zero_load_f: row.zero_load_f,
        bins_m: column(bins, 1 + region),
        bins_m1: column(bins, 7 + region),
    }
}

/// One season's column of a table whose first column is the temperature.
fn column(rows: &[Vec<f64>], place: usize) -> Vec<SeasonBin> {
    let cells = rows.iter().filter_map(|row| Some((*row.first()?, *row.get(place)?)));
    cells.filter(|(_, weight)| *weight > 0.0).map(bin).collect()
}

fn bin((outdoor, weight): (f64, f64)) -> SeasonBin {
    SeasonBin { outdoor, weight }
}

fn records<T: DeserializeOwned>(file: &str, text: &str) -> Result<Vec<T>, Problem> {
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text.as_bytes());
    let rows: Result<Vec<T>, _> = reader.deserialize().collect();
    rows.map_err(|e| Problem::new(e.to_string()).in_file(file))
}

/// A reference heating season of EN 14825.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum EuSeason {
    /// Design −10 °C.
    Average,
    /// Design 2 °C.
    Warmer,
    /// Design −22 °C.
    Colder,
}

impl EuSeason {
    /// All three, in the order of the tables.
    pub const ALL: [Self; 3] = [Self::Average, Self::Warmer, Self::Colder];

    /// The outdoor design temperature, °C. Source: EN 14825, reference design conditions.
    pub fn design_c(self) -> f64 {
        match self {
            Self::Average => -10.0,
            Self::Warmer => 2.0,
            Self::Colder => -22.0,
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::Average => "average",
            Self::Warmer => "warmer",
            Self::Colder => "colder",
        }
    }
}

/// What a machine is used for, which decides its hours outside active mode.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Use {
    /// Heats and cools.
    Reversible,
    /// Only heats, or only cools.
    OneMode,
}

/// What carries the heat away from the machine.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Carrier {
    /// Room air.
    Air,
    /// Heating water.
    Water,
}

/// Hours of a year outside active mode, and equivalent hours of full output.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OffModeHours {
    /// Thermostat-off mode, h.
    pub thermostat_off: f64,
    /// Standby mode, h.
    pub standby: f64,
    /// Off mode, h.
    pub off: f64,
    /// Crankcase heater mode, h.
    pub crankcase: f64,
    /// Equivalent active hours at design load, h.
    pub equivalent: f64,
}

/// The European seasons.
///
/// Source: EN 14825, bin tables; Commission Regulations (EU) No 206/2012 and 813/2013.
#[derive(Debug, Clone, PartialEq)]
pub struct EuClimate {
    heating: [Vec<SeasonBin>; 3],
    /// Cooling bins, °C and hours.
    pub cooling: Vec<SeasonBin>,
    off_mode: Vec<OffModeRow>,
}

#[derive(Debug, Clone, PartialEq, Deserialize)]
struct OffModeRow {
    season: String,
    #[serde(rename = "use")]
    used_for: String,
    thermostat_off: f64,
    standby: f64,
    off: f64,
    crankcase: f64,
    equivalent_air: f64,
    equivalent_hydronic: Option<f64>,
}

impl EuClimate {
    /// Reads the tables that come with the program.
    ///
    /// # Errors
    /// A line that cannot be read; that is a defect of the program's own data.
    pub fn built_in() -> Result<Self, Problem> {
        let heating: Vec<Vec<f64>> =
            records("eu-heating-hours.csv", include_str!("../../../data/ratings/eu-heating-hours.csv"))?;
        let cooling: Vec<(f64, f64)> =
            records("eu-cooling-hours.csv", include_str!("../../../data/ratings/eu-cooling-hours.csv"))?;
        let off_mode =
            records("eu-off-mode-hours.csv", include_str!("../../../data/ratings/eu-off-mode-hours.csv"))?;
        let heating = [1, 2, 3].map(|place| column(&heating, place));
        Ok(Self { heating, cooling: cooling.into_iter().map(bin).collect(), off_mode })
    }

    /// The bins of a heating season, °C and hours.
    pub fn heating(&self, season: EuSeason) -> &[SeasonBin] {
        &self.heating[season as usize]
    }

    /// Hours outside active mode in a heating season; nothing if the table lacks them.
    ///
    /// Machines that heat water take the air-to-air hours; their equivalent hours are their own.
    pub fn heating_off_mode(
        &self,
        season: EuSeason,
        used_for: Use,
        carrier: Carrier,
    ) -> Option<OffModeHours> {
        let wanted = if used_for == Use::Reversible { "reversible" } else { "heating_only" };
        self.off_mode(season.name(), wanted, carrier)
    }

    /// Hours outside active mode in the cooling season; nothing if the table lacks them.
    pub fn cooling_off_mode(&self, used_for: Use) -> Option<OffModeHours> {
        let wanted = if used_for == Use::Reversible { "reversible" } else { "cooling_only" };
        self.off_mode("cooling", wanted, Carrier::Air)
    }

    fn off_mode(&self, season: &str, used_for: &str, carrier: Carrier) -> Option<OffModeHours> {
        let row = self.off_mode.iter().find(|r| r.season == season && r.used_for == used_for)?;
        let equivalent = match carrier {
            Carrier::Air => row.equivalent_air,
            Carrier::Water => row.equivalent_hydronic?,
        };
        Some(OffModeHours {
            thermostat_off: row.thermostat_off,
            standby: row.standby,
            off: row.off,
            crankcase: row.crankcase,
            equivalent,
        })
    }
}
