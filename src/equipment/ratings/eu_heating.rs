//! SCOPon and SCOP: heat of a European season over the electricity for it.
//!
//! Source: EN 14825, calculation of seasonal efficiency in heating; Commission Regulations (EU)
//! No 206/2012 and 813/2013. Start at [`scop_on`].

use super::declared::{DeclaredPoint, at_load, in_order, piecewise};
use super::seasons::{Carrier, EuClimate, EuSeason, OffModeHours, SeasonBin};

/// Outdoor temperature at which the European load is zero, °C.
const ZERO_LOAD_C: f64 = 16.0;

/// A machine declared for a European heating season.
#[derive(Debug, Clone, PartialEq)]
pub struct HeatingDeclaration {
    /// Heat wanted at the season's design temperature, kW.
    pub design_load_kw: f64,
    /// The season.
    pub season: EuSeason,
    /// Air or water.
    pub carrier: Carrier,
    /// Declared points at the outputs that the load asks for, or the nearest the machine can give:
    /// one-speed machines their only output.
    pub points: Vec<DeclaredPoint>,
    /// Operation limit, °C: colder than this the machine gives nothing.
    pub operation_limit_c: Option<f64>,
}

/// The share of the design load at an outdoor temperature: `(T − 16)/(Tdesign − 16)`.
pub fn part_load(outdoor_c: f64, season: EuSeason) -> f64 {
    ((outdoor_c - ZERO_LOAD_C) / (season.design_c() - ZERO_LOAD_C)).max(0.0)
}

/// SCOPon: heat over electricity while the machine is needed, backup by resistance included; nothing
/// without points.
///
/// The efficiency at part load is found at the declared points and then runs straight between them,
/// above the warmest on the line of the last two, below the coldest at its own value. Source: EN 14825.
pub fn scop_on(declared: &HeatingDeclaration, climate: &EuClimate) -> Option<f64> {
    let points = in_order(&declared.points);
    let load = |t: f64| declared.design_load_kw * part_load(t, declared.season);
    let efficiency: Vec<_> =
        points.iter().map(|p| (p.outdoor_c, at_load(p, load(p.outdoor_c), declared.carrier))).collect();
    let capacity: Vec<_> = points.iter().map(|p| (p.outdoor_c, p.capacity_kw)).collect();
    let bin = |b: &SeasonBin| {
        let wanted = load(b.outdoor);
        let stopped = declared.operation_limit_c.is_some_and(|limit| b.outdoor < limit);
        let greatest = if stopped { 0.0 } else { piecewise(&capacity, b.outdoor, false)? };
        let backup = (wanted - greatest).max(0.0);
        let drawn = (wanted - backup) / piecewise(&efficiency, b.outdoor, false)? + backup;
        Some((b.weight * wanted, b.weight * drawn))
    };
    let bins: Option<Vec<_>> = climate.heating(declared.season).iter().map(bin).collect();
    let (heat, drawn) = bins?.into_iter().fold((0.0, 0.0), |sum, b| (sum.0 + b.0, sum.1 + b.1));
    let ratio: f64 = heat / drawn;
    ratio.is_finite().then_some(ratio)
}

/// Electricity outside active mode, kW.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct OffModePowers {
    /// Thermostat-off mode.
    pub thermostat_off_kw: f64,
    /// Standby mode.
    pub standby_kw: f64,
    /// Off mode.
    pub off_kw: f64,
    /// Crankcase heater.
    pub crankcase_kw: f64,
}

/// The rating with what the machine draws outside active mode.
///
/// `Q = P·Hhe; SCOP = Q/(Q/SCOPon + ΣH·P)`, for cooling alike. `design_load_kw` in kW. Source: EN 14825.
pub fn with_off_modes(active: f64, design_load_kw: f64, hours: &OffModeHours, powers: &OffModePowers) -> f64 {
    let season_kwh = design_load_kw * hours.equivalent;
    let beside = hours.thermostat_off * powers.thermostat_off_kw
        + hours.standby * powers.standby_kw
        + hours.off * powers.off_kw
        + hours.crankcase * powers.crankcase_kw;
    season_kwh / (season_kwh / active + beside)
}
