//! SEERon of the one European cooling season.
//!
//! Source: EN 14825, calculation of seasonal efficiency in cooling; Commission Regulation (EU)
//! No 206/2012. Start at [`seer_on`]; [`super::eu_heating::with_off_modes`] makes SEER of it.

use super::declared::{DeclaredPoint, at_load, in_order, piecewise};
use super::seasons::{Carrier, EuClimate};

/// Outdoor design temperature in cooling, °C.
const DESIGN_C: f64 = 35.0;
/// Outdoor temperature at which the cooling load is zero, °C.
const ZERO_LOAD_C: f64 = 16.0;

/// SEERon of points declared at 35, 30, 25 and 20 °C; nothing without points.
///
/// `pl = (T − 16)/19`, `EERbin = EER·(1 − 0.25(1 − CR))`, straight between the points and held outside
/// them. `design_load_kw` is the cooling wanted at 35 °C.
pub fn seer_on(design_load_kw: f64, points: &[DeclaredPoint], climate: &EuClimate) -> Option<f64> {
    let points = in_order(points);
    let load = |t: f64| design_load_kw * (t - ZERO_LOAD_C) / (DESIGN_C - ZERO_LOAD_C);
    let efficiency: Vec<_> =
        points.iter().map(|p| (p.outdoor_c, at_load(p, load(p.outdoor_c), Carrier::Air))).collect();
    let bins = climate.cooling.iter().map(|b| {
        let cold = b.weight * load(b.outdoor);
        Some((cold, cold / piecewise(&efficiency, b.outdoor, true)?))
    });
    let bins: Option<Vec<_>> = bins.collect();
    let (cold, drawn) = bins?.into_iter().fold((0.0, 0.0), |sum, b| (sum.0 + b.0, sum.1 + b.1));
    let ratio: f64 = cold / drawn;
    ratio.is_finite().then_some(ratio)
}
