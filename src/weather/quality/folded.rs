//! Nights whose minus signs were lost: the curve is thrown back at 0 again and again, and would go on smoothly below it.
//!
//! Of each stretch without an hour below zero the signs are looked for with which it bends least, hour by hour. Must
//! never know what a file says of its unit: the zero of both is tried. Start at [`thrown_back`].

use super::{Degree, Flag, Times};
use std::ops::Range;

/// An hour so near above zero, K, may lie beside a lost sign: between two hours 2.5 K apart lies zero.
const NEAR: f64 = 1.25;
/// Without these hours a stretch bends so much less, K, that they count; rounding to whole degrees makes as much of one.
const GAIN: f64 = 2.0 - 1e-6;
/// Days within which they are counted.
const DAYS: usize = 14;
/// So many times within those days are told. In the 33 years of Alaska, Arizona, Colorado, Illinois, New Jersey, North
/// Carolina and France that are at hand, in tenths and in whole degrees of either unit, 4 at most at 0 °C (Golden) and
/// 6 at any other whole degree from −24 to 20 °C taken for zero.
const MANY: usize = 7;
/// Fewer are told where without them this share of all bending between the first and the last is gone; there 0.155 at
/// most of four and more (Golden, −4 °C). Of 57 fortnights with 12 nights of frost and more, most between days above
/// zero, 98 % are told by this or as days that are upside down, which alone tell 63 %; of 71 with 9 to 11 such nights 80
/// and 41 %, of 115 with 6 to 8 42 and 18 %.
const FEW: (usize, f64) = (4, 0.18);
/// Hours beside a stretch's first and last low hour that are looked at with it.
const BESIDE: usize = 12;

/// Hours that would be smoother below zero.
#[derive(Debug, Clone)]
struct Turned {
    hours: Range<usize>,
    /// Bending that is gone with it, K.
    gain_k: f64,
}

/// The first days on which the temperature is thrown back at a zero.
pub(super) fn thrown_back(hours: &[f64], times: Times, zeros: [(Degree, f64); 2]) -> Option<Flag> {
    // Most winters come near one of the zeros alone.
    let near =
        |zero_c: f64| hours.iter().filter(|c| (-1e-6..NEAR).contains(&(**c - zero_c))).count() >= FEW.0;
    let likely = |(_, zero_c): &(Degree, f64)| near(*zero_c) && may_turn(hours, *zero_c);
    zeros.into_iter().filter(likely).find_map(|(degree, zero_c)| {
        let above: Vec<f64> = hours.iter().map(|c| c - zero_c).collect();
        stretches(&above).find_map(|stretch| {
            let start = stretch.start;
            let found = often(above.get(stretch)?)?;
            let (first, last) = (found.first()?, found.last()?);
            Some(Flag::ThrownBack {
                degree,
                at: times.hour(start + first.hours.start),
                until: times.hour(start + last.hours.end),
                times: found.len(),
            })
        })
    })
}

/// Stretches without an hour below zero, from a little before their first hour near it to a little after their last, if
/// they come near it often enough.
fn stretches(above: &[f64]) -> impl Iterator<Item = Range<usize>> {
    let mut start = 0;
    // Rounding of °F to °C and back is no sign.
    let frost = |c: &f64| *c < -1e-6;
    above.chunk_by(move |a, b| frost(a) == frost(b)).filter_map(move |run| {
        let from = start;
        start += run.len();
        let low = |c: &f64| *c < NEAR;
        let visits =
            run.chunk_by(|a, b| low(a) == low(b)).filter(|part| part.first().is_some_and(low)).count();
        if run.first().is_some_and(frost) || visits < FEW.0 {
            return None;
        }
        let (first, last) = (run.iter().position(low)?, run.iter().rposition(low)?);
        Some(from + first.saturating_sub(BESIDE)..from + (last + BESIDE).min(run.len()))
    })
}

/// The most hours within [`DAYS`] that would be smoother below zero, if they are many, or few that are much of all.
fn often(above: &[f64]) -> Option<Vec<Turned>> {
    if !may_turn(above, 0.0) {
        return None;
    }
    let turned: Vec<Turned> = smoother(above).into_iter().filter(|turned| turned.gain_k >= GAIN).collect();
    let runs = (0..turned.len()).flat_map(|first| (first + FEW.0..=turned.len()).map(move |end| first..end));
    let told = |run: &&[Turned]| match run {
        [first, .., last] => {
            let all = bending(above, first.hours.start..last.hours.end + 2);
            let gone: f64 = run.iter().map(|turned| turned.gain_k).sum();
            last.hours.start - first.hours.start <= DAYS * 24 && (run.len() >= MANY || gone >= FEW.1 * all)
        }
        _ => false,
    };
    let found = runs.filter_map(|run| turned.get(run)).filter(told).max_by_key(|run| run.len());
    found.map(<[Turned]>::to_vec)
}

/// Whether there are enough places near zero at which hours whose signs are turned could begin or end so that half of
/// [`GAIN`] is gone there. Signs change the bends of the two hours at such a place alone, each by no more than it is and
/// than twice the other hour. What has none need not be looked at hour by hour.
fn may_turn(hours: &[f64], zero_c: f64) -> bool {
    let goes = |hours: &&[f64]| match hours {
        [a, b, c, d] => {
            let bend = |a: &f64, b: &f64, c: &f64| (a - 2.0 * b + c).max(0.0);
            let (b0, c0) = (b - zero_c, c - zero_c);
            b0.min(c0) < NEAR && bend(a, b, c).min(2.0 * c0) + bend(b, c, d).min(2.0 * b0) >= GAIN / 2.0
        }
        _ => false,
    };
    hours.windows(4).filter(goes).nth(FEW.0 - 1).is_some()
}

/// The runs of hours whose signs, turned, make all of the hours bend least; found hour by hour from the best ways to
/// each pair of signs.
fn smoother(above: &[f64]) -> Vec<Turned> {
    const SIGNS: [f64; 2] = [1.0, -1.0];
    // Of hour and hour before, each plus or minus, the least bending so far; it begins above zero.
    let mut least = [[0.0, f64::INFINITY], [f64::INFINITY; 2]];
    let mut ways: Vec<[[usize; 2]; 2]> = Vec::with_capacity(above.len());
    for hours in above.windows(3) {
        let [a, b, c] = [0, 1, 2].map(|hour| hours.get(hour).copied().unwrap_or_default());
        let mut next = [[f64::INFINITY; 2]; 2];
        let mut way = [[0; 2]; 2];
        for (before, row) in least.iter().enumerate() {
            for (now, so_far) in row.iter().enumerate() {
                for (then, sign) in SIGNS.iter().enumerate() {
                    let bend = so_far + (sign * c - 2.0 * SIGNS[now] * b + SIGNS[before] * a).abs();
                    if bend < next[now][then] - 1e-12 {
                        (next[now][then], way[now][then]) = (bend, before);
                    }
                }
            }
        }
        least = next;
        ways.push(way);
    }
    let signs = signs(&ways);
    let mut start = 0;
    let runs = signs.chunk_by(|a, b| a == b).filter_map(|run| {
        let hours = start..start + run.len();
        start = hours.end;
        (run.first() == Some(&1)).then_some(hours)
    });
    runs.map(|hours| Turned { gain_k: gain(above, &hours), hours }).collect()
}

/// The signs, 1 for minus, from the ways to each pair; it ends above zero.
fn signs(ways: &[[[usize; 2]; 2]]) -> Vec<usize> {
    let (mut before, mut now) = (0, 0);
    let mut signs = vec![0, 0];
    for way in ways.iter().rev() {
        (before, now) = (way[before][now], before);
        signs.push(before);
    }
    signs.reverse();
    signs
}

/// The bending that is gone with the signs of these hours turned, K.
fn gain(above: &[f64], turned: &Range<usize>) -> f64 {
    let about = turned.start.saturating_sub(2)..(turned.end + 2).min(above.len());
    let other = about.clone().filter_map(|hour| {
        let c = *above.get(hour)?;
        Some(if turned.contains(&hour) { -c } else { c })
    });
    let other: Vec<f64> = other.collect();
    bending(above, about) - bending(&other, 0..other.len())
}

/// How much the hours bend: the sum of the changes of their steps, K.
fn bending(hours: &[f64], range: Range<usize>) -> f64 {
    let hours = hours.get(range.start..range.end.min(hours.len())).unwrap_or_default();
    let bend = |hours: &[f64]| match hours {
        [a, b, c] => (a - 2.0 * b + c).abs(),
        _ => 0.0,
    };
    hours.windows(3).map(bend).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hours_below_zero_are_found_by_their_bends() {
        // 5 3 1 −1 −3 −1 1 3 5 without their signs.
        let turned = smoother(&[5.0, 3.0, 1.0, 1.0, 3.0, 1.0, 1.0, 3.0, 5.0]);
        assert_eq!(turned.len(), 1);
        assert_eq!(turned[0].hours, 3..6);
        // Without signs 0 2 2 4 2 2 0 = 12, with them 0 0 0 4 0 0 0 = 4, by hand.
        assert_eq!(turned[0].gain_k, 8.0);
        // A smooth turn above zero stays.
        assert!(smoother(&[5.0, 3.0, 1.5, 0.5, 0.2, 0.5, 1.5, 3.0, 5.0]).is_empty());
    }
}
