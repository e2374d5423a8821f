//! Hours that were made of rows every few hours: each value repeated, or straight lines between them.
//!
//! Must never know the place. Start at [`filled`].

use super::{Filling, Flag};

/// Hours between two rows that are tried, each with the share of stretches that may hold one value, and with
/// how much the course may bend within a stretch over how it bends at its ends. In the six built-in years,
/// Miami's, seven actual ones of Illinois and Northway and 22 in France stretches of 2, 3, 4, 6 and 12 hours
/// hold one value in at most 34, 19, 10, 4.7 and 0.8 % (Miami; the last Northway), and the bends come to at least
/// 0.95, 0.82, 0.74 and 0.61 (Northway 2019 from 4 on); lines between rows of a tenth of a degree come to 0.10 at most,
/// of whole °F to 0.37, 0.33 and 0.29 on the middle for 3, 4 and 6 hours. Lines in whole °C are not seen, nor those over 12
/// hours, beside which the day's own course bends as little.
const EVERY: [(usize, f64, f64); 5] =
    [(12, 0.5, 0.0), (6, 0.5, 0.4), (4, 0.6, 0.5), (3, 0.7, 0.5), (2, 0.8, 0.5)];
/// A value that stands for longer than a day is stuck.
const A_DAY: usize = 24;
/// All of those go into this.
const ROUND: usize = 12;

/// How the hours were made of fewer, and of one in how many.
pub(super) fn filled(hours: &[f64]) -> Option<Flag> {
    let bends = Bends::of(hours);
    let repeated = EVERY.into_iter().find(|(every, same, _)| bends.same(*every) >= *same);
    if let Some((every, ..)) = repeated {
        return Some(Flag::FilledRows { every, by: Filling::Repeated });
    }
    // Lines over six hours are lines over three too, though not as straight ones.
    let straight = EVERY.into_iter().map(|(every, _, bend)| (every, bends.within(every), bend));
    let straightest = straight.filter(|(_, within, bend)| within <= bend).min_by(|a, b| a.1.total_cmp(&b.1));
    straightest.map(|(every, ..)| Flag::FilledRows { every, by: Filling::Line })
}

/// Sums by the hour's place in a round of twelve.
#[derive(Debug)]
struct Bends {
    /// Hours that end a stretch of one value, by how many hours it must hold at least.
    stretches: [[usize; ROUND]; A_DAY + 1],
    /// How much the course bends.
    bends: [f64; ROUND],
    hours: usize,
}

impl Bends {
    fn of(hours: &[f64]) -> Self {
        let stretches = [[0; ROUND]; A_DAY + 1];
        let mut sums = Self { stretches, bends: [0.0; ROUND], hours: hours.len() };
        let (mut alike, mut place) = (1, 0);
        for three in hours.windows(3) {
            let [a, b, c] = *three else { break };
            place = (place + 1) % ROUND;
            alike = if a == b { alike + 1 } else { 1 };
            if let Some(count) = sums.stretches.get_mut(alike).and_then(|of| of.get_mut(place)) {
                *count += 1;
            }
            if let Some(bend) = sums.bends.get_mut(place) {
                *bend += (a - 2.0 * b + c).abs();
            }
        }
        sums
    }

    /// The share of stretches of so many hours that hold one value, at the best place to begin them.
    fn same(&self, every: usize) -> f64 {
        let long_enough = |place: usize| {
            let of = |stretch: &[usize; ROUND]| stretch.iter().skip(place).step_by(every).sum::<usize>();
            self.stretches.iter().skip(every).map(of).sum::<usize>()
        };
        let most = (0..every).map(long_enough).max().unwrap_or_default();
        (most * every) as f64 / self.hours.max(1) as f64
    }

    /// The mean bend within stretches of so many hours over that at their ends, at the best place.
    fn within(&self, every: usize) -> f64 {
        let all: f64 = self.bends.iter().sum();
        let ratio = |place: usize| {
            let ends: f64 = self.bends.iter().skip(place).step_by(every).sum();
            (all - ends) / (every - 1) as f64 / ends
        };
        let least = (0..every).map(ratio).fold(f64::INFINITY, f64::min);
        // Nothing bends in hours that are all alike, which says nothing of rows.
        if all > 0.0 { least } else { f64::INFINITY }
    }
}
