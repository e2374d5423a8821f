//! Declared points of EN 14825 between their temperatures, and what part load costs.
//!
//! Knows no season and no load. Start at [`DeclaredPoint`].

use super::seasons::Carrier;

/// One declared test: output and efficiency at an outdoor temperature, at the output of that test.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DeclaredPoint {
    /// Outdoor dry-bulb, °C.
    pub outdoor_c: f64,
    /// Declared capacity, kW.
    pub capacity_kw: f64,
    /// COP or EER at that capacity.
    pub efficiency: f64,
}

/// The degradation coefficient of machines that heat or cool air: 0.25. Source: EN 14825, default.
pub const AIR_LOSS: f64 = 0.25;
/// The degradation coefficient of machines that heat water: 0.9. Source: EN 14825, default.
pub const WATER_COEFFICIENT: f64 = 0.9;

/// Efficiency at a load of `load_kw` on a machine whose least output there is `point`'s.
///
/// `CR = load/capacity`, at most 1. Air: `COP·(1 − 0.25(1 − CR))`; water: `COP·CR/(0.9·CR + 0.1)`.
/// Source: EN 14825, part load conditions.
pub(super) fn at_load(point: &DeclaredPoint, load_kw: f64, carrier: Carrier) -> f64 {
    let ratio = (load_kw / point.capacity_kw).clamp(0.0, 1.0);
    match carrier {
        Carrier::Air => point.efficiency * (1.0 - AIR_LOSS * (1.0 - ratio)),
        Carrier::Water => point.efficiency * ratio / (WATER_COEFFICIENT * ratio + (1.0 - WATER_COEFFICIENT)),
    }
}

/// The value at `x` on straight pieces through `points`, which rise in `x`; colder than the first its
/// own value, warmer than the last the line of the last two (or their value where `held`).
pub(super) fn piecewise(points: &[(f64, f64)], x: f64, held: bool) -> Option<f64> {
    let after = points.partition_point(|(at, _)| *at <= x);
    let (first, last) = (points.first()?, points.last()?);
    if after == 0 {
        return Some(first.1);
    }
    if after == points.len() && (held || points.len() == 1) {
        return Some(last.1);
    }
    let second = after.min(points.len() - 1);
    let (a, b) = (points.get(second - 1)?, points.get(second)?);
    Some(a.1 + (b.1 - a.1) * (x - a.0) / (b.0 - a.0))
}

/// The points in rising order of temperature, one at each; of two at the same the first stands.
pub(super) fn in_order(points: &[DeclaredPoint]) -> Vec<DeclaredPoint> {
    let mut sorted = points.to_vec();
    sorted.sort_by(|a, b| a.outdoor_c.total_cmp(&b.outdoor_c));
    sorted.dedup_by(|later, first| later.outdoor_c == first.outdoor_c);
    sorted
}
