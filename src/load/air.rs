//! Air: its pressure by height, and what heat a flow of it carries.
//!
//! Start at [`kw_per_m3_s_k`].

use crate::units::{BTU_PER_KWH, CUBIC_METRES_PER_SECOND_PER_CFM};

/// Pressure of the standard atmosphere at sea level, Pa.
pub const SEA_LEVEL_PA: f64 = 101_325.0;

/// Btu/h that a cubic foot a minute of sea-level air carries for each °F; common practice.
pub const BTU_H_PER_CFM_F: f64 = 1.08;

/// Pressure (Pa) of the standard atmosphere at `elevation_m`, −500 to 11,000 m.
///
/// Source: ASHRAE Handbook Fundamentals, psychrometrics chapter: `101.325·(1 − 2.25577e−5·Z)^5.2559`
/// kPa (from memory).
///
/// ```
/// use winterledger::load::air::pressure_pa;
/// let psi = pressure_pa(5000.0 * 0.3048) / 6894.757;
/// assert!((psi - 12.228).abs() < 0.001); // handbook table, from memory
/// ```
pub fn pressure_pa(elevation_m: f64) -> f64 {
    SEA_LEVEL_PA * (1.0 - 2.255_77e-5 * elevation_m).max(0.0).powf(5.2559)
}

/// Heat (kW) that one m³/s of air carries for each kelvin at `elevation_m`.
///
/// The trade's 1.08 at sea level, less by the pressure. Without an elevation: at sea level.
pub fn kw_per_m3_s_k(elevation_m: Option<f64>) -> f64 {
    let sea_level = BTU_H_PER_CFM_F / BTU_PER_KWH * 1.8 / CUBIC_METRES_PER_SECOND_PER_CFM;
    sea_level * pressure_pa(elevation_m.unwrap_or_default()) / SEA_LEVEL_PA
}
