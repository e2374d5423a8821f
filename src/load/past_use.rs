//! What a house should have burned, held against what its bills say it did.
//!
//! Knows no job and no machine: an old one is its efficiency. Start at [`daily_need_kwh`].

use super::room::RoomHour;
use super::zone::Zone;
use crate::weather::OutdoorRun;

/// Most that the mean of monthly figures may be off for a calculation to count as calibrated, as a share
/// (ASHRAE Guideline 14).
pub const MONTHLY_BIAS: f64 = 0.05;
/// Most that monthly figures may scatter, as a share of their mean (ASHRAE Guideline 14).
pub const MONTHLY_SCATTER: f64 = 0.15;

/// Heat (kWh) that would keep `zone` at its set points through each day of `run`, in its order: the room
/// model's, with as much heat as it takes.
pub fn daily_need_kwh(zone: &Zone, run: &OutdoorRun) -> Vec<f64> {
    let decay = zone.decay(zone.loss_kw_k);
    let at_rest = RoomHour::new(zone.loss_kw_k, zone.gains_kw, decay, 0.0);
    let mut room_c = zone.heating.without_set_backs().set_point_c;
    let hours = run.dry_bulb_c.iter().zip(run.calendar.stamps());
    let need: Vec<f64> = hours
        .map(|(outdoor_c, stamp)| {
            let hour = at_rest.at(*outdoor_c);
            let heat_kw = hour.heat_to_end_at(room_c, zone.heating.at(*stamp)).max(0.0);
            // Beyond `vent` windows are opened, which cools down to the warmer of it and the outdoors.
            room_c = hour.end(room_c, heat_kw).min(zone.vent_c.max(*outdoor_c));
            heat_kw
        })
        .collect();
    need.chunks(24).map(|day| day.iter().sum()).collect()
}

/// How far calculated figures lie from measured ones.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Agreement {
    /// Normalised mean bias error, a share: measured less calculated, over (n − 1) times the measured mean.
    pub bias: f64,
    /// Coefficient of variation of the root-mean-square error, a share, with n − 1.
    pub scatter: f64,
}

/// The two measures of ASHRAE Guideline 14 with one parameter; nothing for fewer than two figures, for
/// unequal numbers of them, or where nothing was measured.
///
/// ```
/// use winterledger::load::past_use::agreement;
/// // Hand-worked: differences −5 and +5 about a mean of 100; Σd = 0, √(50/1)/100.
/// let found = agreement(&[95.0, 105.0], &[100.0, 100.0]).unwrap();
/// assert!(found.bias.abs() < 1e-12 && (found.scatter - 0.070_711).abs() < 1e-6);
/// ```
pub fn agreement(measured: &[f64], calculated: &[f64]) -> Option<Agreement> {
    let n = measured.len();
    let mean = measured.iter().sum::<f64>() / n as f64;
    if n < 2 || calculated.len() != n || mean <= 0.0 {
        return None;
    }
    let off: Vec<f64> = measured.iter().zip(calculated).map(|(m, c)| m - c).collect();
    let free = (n - 1) as f64;
    let squares: f64 = off.iter().map(|d| d * d).sum();
    Some(Agreement { bias: off.iter().sum::<f64>() / (free * mean), scatter: (squares / free).sqrt() / mean })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_worked_year_of_bills_has_the_measures_of_the_guideline() {
        // The formulas are ASHRAE Guideline 14's; hand-worked with them, and again in Python 3.11, on twelve
        // invented months: −1.0473 % and 4.6312 %.
        let measured = [100., 90., 70., 50., 30., 20., 15., 15., 25., 45., 70., 95.];
        let calculated = [105., 88., 72., 48., 33., 18., 15., 16., 24., 47., 68., 97.];
        let found = agreement(&measured, &calculated).unwrap();
        assert!((100.0 * found.bias + 1.0473).abs() < 5e-5 && (100.0 * found.scatter - 4.6312).abs() < 5e-5);
    }

    #[test]
    fn one_bill_or_nothing_measured_has_no_scatter() {
        assert_eq!(agreement(&[100.0], &[90.0]), None);
        assert_eq!(agreement(&[0.0, 0.0], &[1.0, 1.0]), None);
        assert_eq!(agreement(&[1.0, 2.0], &[1.0]), None);
    }
}
