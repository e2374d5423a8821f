//! Where two costs meet while one number moves: a scan, then each piece solved.
//!
//! Knows neither prices nor options. Start at [`crossings`].

use crate::ledger::SAME_COST;

/// A root is solved to this, far below a hundredth.
const EXACT: f64 = 1e-6;
/// Where a bracket is narrower than this share of its place, the costs jump.
const JUMP: f64 = 1e-9;
/// Costs that stay the same over more than this share of the number are the same over a stretch.
const STRETCH: f64 = 0.01;
/// So many times at most a scan is made finer where it has missed a change of sides.
const SCANNED_AGAIN: usize = 4;
/// Steps of the search for a least difference between three points of the scan.
const SEARCH: usize = 24;

/// Two costs at one setting of the number.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pair {
    /// The number.
    pub at: f64,
    /// The two costs.
    pub costs: [f64; 2],
}

impl Pair {
    /// How much more the first costs.
    pub fn difference(&self) -> f64 {
        self.costs[0] - self.costs[1]
    }

    /// Which costs more: 1 the first, −1 the second, 0 neither to the hundredth.
    fn side(&self) -> i8 {
        match self.difference() {
            d if d.abs() < SAME_COST => 0,
            d if d > 0.0 => 1,
            _ => -1,
        }
    }
}

/// Where two costs meet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Crossing {
    /// They are the same there.
    Same(Pair),
    /// They jump past each other there: the last setting on either side.
    Jump(Pair, Pair),
    /// They are the same from one setting to another.
    Stretch(Pair, Pair),
}

/// A jump of less than half a unit of the currency on either side is none that anybody sees.
const UNSEEN: f64 = 0.5;

impl Crossing {
    /// Where the two cost the same as far as anybody sees: a jump too small to be told is one too.
    pub fn meets(&self) -> Option<Pair> {
        let off = |pair: &Pair| pair.difference().abs();
        match self {
            Self::Same(pair) => Some(*pair),
            Self::Jump(from, to) if off(from).max(off(to)) < UNSEEN => {
                Some(if off(from) < off(to) { *from } else { *to })
            }
            Self::Jump(..) | Self::Stretch(..) => None,
        }
    }

    /// The least and the greatest setting of it.
    pub fn span(&self) -> (f64, f64) {
        match self {
            Self::Same(pair) => (pair.at, pair.at),
            Self::Jump(from, to) | Self::Stretch(from, to) => (from.at, to.at),
        }
    }
}

/// Finds every place at which the two costs meet between the first and the last of `scan`, which rises.
///
/// Between two points of the scan at most one change of sides is found, and between three at most one
/// that is taken back: what swings faster than the scan is not seen.
///
/// ```
/// use winterledger::study::crossing::{Crossing, crossings};
/// let scan: Vec<f64> = (1..=10).map(f64::from).collect();
/// let found = crossings::<()>(&scan, |x| Ok([(x - 2.5) * (x - 6.25), 0.0])).unwrap();
/// let at: Vec<f64> = found.iter().map(|c| c.span().0).collect();
/// assert!((at[0] - 2.5).abs() < 1e-6 && (at[1] - 6.25).abs() < 1e-6 && at.len() == 2);
/// ```
///
/// # Errors
/// Whatever `costs` is refused for.
pub fn crossings<E>(
    scan: &[f64],
    mut costs: impl FnMut(f64) -> Result<[f64; 2], E>,
) -> Result<Vec<Crossing>, E> {
    let mut solver = Solver { costs: &mut costs };
    let scanned: Result<Vec<Pair>, E> = scan.iter().map(|at| solver.at(*at)).collect();
    let points = solver.with_hidden(scanned?)?;
    let mut found = Vec::new();
    let mut i = 0;
    while let Some(point) = points.get(i) {
        let level = points.iter().skip(i).take_while(|p| p.side() == 0).count();
        let before = i.checked_sub(1).and_then(|i| points.get(i));
        let after = points.get(i + level);
        match (level, before) {
            (0, Some(before)) if before.side() * point.side() < 0 => {
                found.push(solver.between(*before, *point)?);
            }
            (0, _) => {}
            (_, before) => {
                let last = points.get(i + level - 1).unwrap_or(point);
                found.push(solver.level((before, point), (last, after))?);
            }
        }
        // The point after a level one starts anew: it was crossed to already.
        i += level.max(1) + usize::from(level > 0);
    }
    Ok(found)
}

/// The same, and which costs more below the first crossing, between each two, above the last: 1 the first, −1
/// the second, 0 neither. The numbers are above 0.
///
/// Costs that jump often can change sides twice between two points of the scan: where one side follows on
/// itself, the points between are scanned too.
///
/// # Errors
/// Whatever `costs` is refused for.
pub fn crossings_and_sides<E>(
    mut scan: Vec<f64>,
    mut costs: impl FnMut(f64) -> Result<[f64; 2], E>,
) -> Result<(Vec<Crossing>, Vec<i8>), E> {
    let mut again = SCANNED_AGAIN;
    loop {
        let found = crossings(&scan, &mut costs)?;
        let points = between(&scan, &found);
        let sides = points.iter().map(|at| Ok(Pair { at: *at, costs: costs(*at)? }.side()));
        let sides = sides.collect::<Result<Vec<i8>, E>>()?;
        let follows = sides.windows(2).any(|two| matches!(two, [a, b] if a == b && *a != 0));
        if again == 0 || !follows {
            return Ok((found, sides));
        }
        again -= 1;
        scan.extend(points);
        scan.sort_by(f64::total_cmp);
        scan.dedup();
    }
}

/// A number below the first crossing, between each two, and above the last.
fn between(scan: &[f64], found: &[Crossing]) -> Vec<f64> {
    let [first, last] = [scan.first(), scan.last()].map(|end| end.copied().unwrap_or(1.0));
    let starts = std::iter::once(first).chain(found.iter().map(|c| c.span().1));
    let ends = found.iter().map(|c| c.span().0).chain([last]);
    starts.zip(ends).map(|(from, to)| (from * to).sqrt()).collect()
}

struct Solver<'a, F> {
    costs: &'a mut F,
}

impl<E, F: FnMut(f64) -> Result<[f64; 2], E>> Solver<'_, F> {
    fn at(&mut self, at: f64) -> Result<Pair, E> {
        Ok(Pair { at, costs: (self.costs)(at)? })
    }

    /// The scan with a point more wherever the costs come closest between points of one side.
    fn with_hidden(&mut self, points: Vec<Pair>) -> Result<Vec<Pair>, E> {
        let mut hidden = Vec::new();
        for three in points.windows(3) {
            let &[a, b, c] = three else { continue };
            let gap = |p: Pair| p.difference().abs();
            let one_side = a.side() == b.side() && b.side() == c.side() && a.side() != 0;
            if one_side && gap(b) <= gap(a) && gap(b) <= gap(c) {
                let closest = self.closest(a.at, c.at)?;
                if closest.side() != b.side() {
                    hidden.push(closest);
                }
            }
        }
        let mut all = [points, hidden].concat();
        all.sort_by(|a, b| a.at.total_cmp(&b.at));
        Ok(all)
    }

    /// Golden-section search for the least difference; it ends early beyond it.
    fn closest(&mut self, mut low: f64, mut high: f64) -> Result<Pair, E> {
        let golden = (5.0_f64.sqrt() - 1.0) / 2.0;
        let side = self.at(low)?.side();
        let toward = |p: Pair| p.difference() * f64::from(side);
        let (mut a, mut b) = (self.at(high - golden * (high - low))?, self.at(low + golden * (high - low))?);
        for _ in 0..SEARCH {
            if toward(a) < toward(b) {
                (high, b) = (b.at, a);
                a = self.at(high - golden * (high - low))?;
            } else {
                (low, a) = (a.at, b);
                b = self.at(low + golden * (high - low))?;
            }
            let least = if toward(a) < toward(b) { a } else { b };
            if toward(least) < -SAME_COST {
                return Ok(least);
            }
        }
        Ok(if toward(a) < toward(b) { a } else { b })
    }

    /// The change of sides between two points: false position and bisection by turns.
    fn between(&mut self, mut low: Pair, mut high: Pair) -> Result<Crossing, E> {
        for step in 0.. {
            let (dl, dh) = (low.difference(), high.difference());
            let middle = low.at + (high.at - low.at) / 2.0;
            if high.at - low.at <= JUMP * high.at.abs() || middle <= low.at || middle >= high.at {
                break;
            }
            let line = low.at + (high.at - low.at) * dl / (dl - dh);
            let is_inside = line > low.at && line < high.at;
            let next = self.at(if step % 2 == 0 && is_inside { line } else { middle })?;
            if next.difference().abs() <= EXACT {
                return Ok(Crossing::Same(next));
            }
            if (next.difference() > 0.0) == (dl > 0.0) {
                low = next;
            } else {
                high = next;
            }
        }
        let least = if low.difference().abs() < high.difference().abs() { low } else { high };
        Ok(if least.side() == 0 { Crossing::Same(least) } else { Crossing::Jump(low, high) })
    }

    /// A run of points at which the costs are the same: one place, or a stretch with its ends.
    fn level(
        &mut self,
        (before, first): (Option<&Pair>, &Pair),
        (last, after): (&Pair, Option<&Pair>),
    ) -> Result<Crossing, E> {
        let from = before.map_or(Ok(*first), |before| self.edge(*before, *first))?;
        let to = after.map_or(Ok(*last), |after| self.edge(*after, *last))?;
        if to.at - from.at > STRETCH * to.at.abs() {
            return Ok(Crossing::Stretch(from, to));
        }
        match (before, after) {
            (Some(before), Some(after)) if before.side() != after.side() => self.between(*before, *after),
            _ => Ok(Crossing::Same(*first)),
        }
    }

    /// The last setting at which the costs are still the same, between one that is not and one that is.
    fn edge(&mut self, mut other: Pair, mut same: Pair) -> Result<Pair, E> {
        while (same.at - other.at).abs() > JUMP * same.at.abs() {
            let middle = self.at(other.at + (same.at - other.at) / 2.0)?;
            if middle.side() == 0 {
                same = middle;
            } else {
                other = middle;
            }
        }
        Ok(same)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(costs: impl Fn(f64) -> [f64; 2]) -> Vec<Crossing> {
        let scan: Vec<f64> = (1..=10).map(f64::from).collect();
        crossings::<()>(&scan, |x| Ok(costs(x))).unwrap()
    }

    /// Hand-worked: 100 x against 250 meets at 2.5; against 2,000 not within 1 to 10.
    #[test]
    fn lines_meet_once_or_not_at_all() {
        let [Crossing::Same(pair)] = found(|x| [100.0 * x, 250.0])[..] else { panic!() };
        assert!((pair.at - 2.5).abs() < 1e-8 && pair.difference().abs() <= 1e-6);
        assert_eq!(found(|x| [100.0 * x, 2000.0]), []);
    }

    /// Hand-worked: a kink at 4 that touches below by 1 for 0.02 only, between two points of the scan.
    #[test]
    fn two_that_hide_between_points_of_the_scan_are_found() {
        let found = found(|x| [100.0 * (x - 4.3_f64).abs() - 1.0, 0.0]);
        let at: Vec<f64> = found.iter().map(|c| c.span().0).collect();
        assert_eq!(at.len(), 2);
        assert!((at[0] - 4.29).abs() < 1e-6 && (at[1] - 4.31).abs() < 1e-6, "{at:?}");
    }

    #[test]
    fn a_jump_is_told_with_both_sides_and_their_costs() {
        let found = found(|x| [if x < 3.7 { 100.0 } else { 140.0 }, 120.0]);
        let [Crossing::Jump(below, above)] = found[..] else { panic!("{found:?}") };
        assert_eq!((below.costs, above.costs), ([100.0, 120.0], [140.0, 120.0]));
        assert!(below.at < 3.7 && above.at >= 3.7 && above.at - below.at < 1e-8);
    }

    /// Hand-worked: the same up to 5.5, then 30 more for each 1: within half a hundredth until 5.5 + 1/6,000.
    #[test]
    fn a_stretch_has_its_ends() {
        let found = found(|x| [30.0 * (x - 5.5_f64).max(0.0), 0.0]);
        let [Crossing::Stretch(from, to)] = found[..] else { panic!("{found:?}") };
        assert_eq!(from.at, 1.0);
        assert!((to.at - 5.5 - 1.0 / 6000.0).abs() < 1e-6, "{}", to.at);
    }

    #[test]
    fn a_point_of_the_scan_that_is_the_very_root_is_one_root() {
        let found = found(|x| [100.0 * x, 400.0]);
        let [Crossing::Same(pair)] = found[..] else { panic!("{found:?}") };
        assert!((pair.at - 4.0).abs() < 1e-6);
    }

    #[test]
    fn a_side_that_follows_on_itself_is_looked_at_closer() {
        // The first costs 1 more below 2.1 and from 2.6 to 2.95, else 1 less. Between 2 and 3 halving finds 2.1; the
        // number between it and the end is √(2.1 · 4) = 2.898, where the first costs more again.
        let dear = |x: f64| x < 2.1 || (2.6..2.95).contains(&x);
        let costs = |x: f64| Ok::<_, ()>([if dear(x) { 2.0 } else { 0.0 }, 1.0]);
        let scan = vec![1.0, 2.0, 3.0, 4.0];
        assert_eq!(crossings(&scan, costs).unwrap().len(), 1);
        let (found, sides) = crossings_and_sides(scan, costs).unwrap();
        let at: Vec<f64> = found.iter().map(|one| (one.span().0 * 100.0).round() / 100.0).collect();
        assert_eq!((at, sides), (vec![2.1, 2.6, 2.95], vec![1, -1, 1, -1]));
    }

    #[test]
    fn a_jump_that_nobody_sees_is_a_meeting() {
        let pair = |at: f64, off: f64| Pair { at, costs: [100.0 + off, 100.0] };
        let small = Crossing::Jump(pair(1.0, -0.16), pair(1.1, 0.2));
        assert_eq!(small.meets().map(|pair| pair.at), Some(1.0));
        assert_eq!(Crossing::Jump(pair(1.0, -0.16), pair(1.1, 3.0)).meets(), None);
        assert_eq!(Crossing::Stretch(pair(1.0, 0.0), pair(1.1, 0.0)).meets(), None);
    }
}
