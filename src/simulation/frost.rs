//! When frost is melted: hour by hour, and how often at an outdoor temperature for where there are no hours.
//!
//! The rule of both is [`DefrostAux::is_frosty`]. Start at [`FrostShares::of`].

use super::design::DefrostAux;
use crate::weather::OutdoorRun;
use crate::weather::statistics::bin_of_5_fahrenheit;

/// Whether frost is melted often, hour by hour; without dew points the air counts as moist.
pub fn frosty_hours(run: &OutdoorRun) -> Vec<bool> {
    let dew_point_c = |i: usize| run.dew_point_c.as_ref().and_then(|dew| dew.get(i)).copied();
    let hours = run.dry_bulb_c.iter().enumerate();
    hours.map(|(i, t)| DefrostAux::is_frosty(*t, dew_point_c(i))).collect()
}

/// Bins of 5 °F that reach into the temperatures at which frost is melted: those of 27, 32, 37 and 42 °F.
const BINS: usize = 4;
/// The first of them, counted from that of 42 °F.
const FIRST: i64 = -3;

/// The share of the hours of a bin in which frost is melted; the default knows no dew points.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct FrostShares([Option<f64>; BINS]);

impl FrostShares {
    /// Counts the hours of a year by their own dew points, °C.
    ///
    /// ```
    /// use winterledger::simulation::frost::FrostShares;
    /// // Two hours of the bin of 32 °F, 29.5 to 34.5 °F: one moist, one 6 K dry.
    /// let shares = FrostShares::of(&[0.0, 0.0], &[-2.0, -6.0]);
    /// assert_eq!(shares.at(1.0), 0.5);
    /// assert_eq!(shares.known_at(-3.0), None); // no hour of that bin
    /// assert_eq!((shares.at(-3.0), shares.at(-5.0)), (1.0, 0.0));
    /// ```
    pub fn of(dry_bulb_c: &[f64], dew_point_c: &[f64]) -> Self {
        let mut counts = [(0.0, 0.0); BINS];
        for (dry, dew) in dry_bulb_c.iter().zip(dew_point_c) {
            if let Some((hours, frosty)) = place(*dry).and_then(|i| counts.get_mut(i)) {
                *hours += 1.0;
                *frosty += if DefrostAux::is_frosty(*dry, Some(*dew)) { 1.0 } else { 0.0 };
            }
        }
        Self(counts.map(|(hours, frosty)| (hours > 0.0).then(|| frosty / hours)))
    }

    /// The share at `outdoor_c`, that of its bin, 0 to 1; where no hour of it is known, the air counts as
    /// moist.
    pub fn at(&self, outdoor_c: f64) -> f64 {
        let moist = || f64::from(u8::from(DefrostAux::is_frosty(outdoor_c, None)));
        self.known_at(outdoor_c).unwrap_or_else(moist)
    }

    /// The same where it is known by dew points of hours in that bin.
    pub fn known_at(&self, outdoor_c: f64) -> Option<f64> {
        self.0.get(place(outdoor_c)?).copied().flatten()
    }
}

fn place(outdoor_c: f64) -> Option<usize> {
    usize::try_from(bin_of_5_fahrenheit(outdoor_c) - FIRST).ok().filter(|i| *i < BINS)
}
