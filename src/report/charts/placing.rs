//! Finds room for labels: along one edge, and among lines.
//!
//! Knows rectangles and lines, not what they mean. Start at [`spread`] and [`Clutter::spot`].

use super::canvas::Point;

/// An upright rectangle that words fill.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Plate {
    /// Left edge.
    pub(super) left: f64,
    /// Upper edge (smaller than `bottom`).
    pub(super) top: f64,
    /// Right edge.
    pub(super) right: f64,
    /// Lower edge.
    pub(super) bottom: f64,
}

impl Plate {
    /// The same rectangle, larger by `by` on every side.
    pub(super) fn grown(self, by: f64) -> Self {
        Self { left: self.left - by, top: self.top - by, right: self.right + by, bottom: self.bottom + by }
    }

    fn meets(&self, other: &Plate) -> bool {
        self.left < other.right
            && other.left < self.right
            && self.top < other.bottom
            && other.top < self.bottom
    }

    /// The point of the rectangle that is nearest to another point.
    pub(super) fn nearest(&self, (x, y): Point) -> Point {
        (x.clamp(self.left, self.right), y.clamp(self.top, self.bottom))
    }

    /// How much of the line from `a` to `b` lies inside (Liang and Barsky's clipping).
    pub(super) fn clipped(&self, a: Point, b: Point) -> Option<(Point, Point)> {
        // Most lines are far off, and are told so without dividing.
        if a.0.max(b.0) < self.left
            || a.0.min(b.0) > self.right
            || a.1.max(b.1) < self.top
            || a.1.min(b.1) > self.bottom
        {
            return None;
        }
        let (dx, dy) = (b.0 - a.0, b.1 - a.1);
        let (mut enter, mut leave) = (0.0_f64, 1.0_f64);
        let sides =
            [(-dx, a.0 - self.left), (dx, self.right - a.0), (-dy, a.1 - self.top), (dy, self.bottom - a.1)];
        for (towards, room) in sides {
            if towards == 0.0 {
                if room < 0.0 {
                    return None;
                }
            } else if towards < 0.0 {
                enter = enter.max(room / towards);
            } else {
                leave = leave.min(room / towards);
            }
        }
        let along = |share: f64| (a.0 + share * dx, a.1 + share * dy);
        if enter < leave { Some((along(enter), along(leave))) } else { None }
    }
}

/// Moves things along one edge just far enough not to overlap.
///
/// `wanted` are the middles they would like, `sizes` their lengths with the gap between them included.
/// Returns the middles they get, inside `low`–`high` as long as they all fit there.
/// Pools neighbours that push each other and centres each pool on what its members want.
pub(super) fn spread(wanted: &[f64], sizes: &[f64], low: f64, high: f64) -> Vec<f64> {
    let mut order: Vec<usize> = (0..wanted.len()).collect();
    let want = |i: usize| wanted.get(i).copied().unwrap_or(low);
    let size = |i: usize| sizes.get(i).copied().unwrap_or(0.0);
    order.sort_by(|a, b| want(*a).total_cmp(&want(*b)));
    // A pool is (members, length, mean wanted start).
    let mut pools: Vec<(Vec<usize>, f64, f64)> = Vec::new();
    for i in order {
        let mut pool = (vec![i], size(i), want(i) - size(i) / 2.0);
        while let Some(before) = pools.last() {
            let start = before.2.min(high - before.1).max(low);
            if start + before.1 <= pool.2.min(high - pool.1).max(low) {
                break;
            }
            let (members, length, mean) = pools.pop().unwrap_or_default();
            let (n, m) = (members.len() as f64, pool.0.len() as f64);
            pool.2 = (mean * n + (pool.2 - length) * m) / (n + m);
            pool.1 += length;
            pool.0 = [members, pool.0].concat();
        }
        pools.push(pool);
    }
    let mut middles = wanted.to_vec();
    for (members, length, mean) in pools {
        let mut at = mean.min(high - length).max(low);
        for i in members {
            if let Some(middle) = middles.get_mut(i) {
                *middle = at + size(i) / 2.0;
            }
            at += size(i);
        }
    }
    middles
}

/// What stands in the way of a label.
#[derive(Debug, Default)]
pub(super) struct Clutter {
    /// Words, which no label may touch.
    pub(super) plates: Vec<Plate>,
    /// Lines, which a label avoids where it can.
    pub(super) lines: Vec<Vec<Point>>,
}

impl Clutter {
    /// The best free place for a label of the given size that belongs to `anchor`, inside `bounds`.
    ///
    /// Near the anchor is good, on a line is bad, on other words is forbidden. `None` when there is no
    /// free place. The place is kept, so that the next label avoids it.
    pub(super) fn spot(&mut self, size: (f64, f64), anchor: Point, bounds: Plate) -> Option<Plate> {
        const GRID: f64 = 4.0;
        const LINE_COST: f64 = 250.0;
        /// Words closer to each other read as one.
        const CLEAR: f64 = 7.0;
        let (columns, rows) = (
            ((bounds.right - bounds.left - size.0) / GRID).max(0.0) as usize,
            ((bounds.bottom - bounds.top - size.1) / GRID).max(0.0) as usize,
        );
        let mut best: Option<(f64, Plate)> = None;
        for (column, row) in (0..=rows).flat_map(|row| (0..=columns).map(move |column| (column, row))) {
            let (left, top) = (bounds.left + column as f64 * GRID, bounds.top + row as f64 * GRID);
            let plate = Plate { left, top, right: left + size.0, bottom: top + size.1 };
            let near = plate.nearest(anchor);
            let distance = (near.0 - anchor.0).hypot(near.1 - anchor.1);
            let soon = distance + (11.0 - distance).max(0.0) * 30.0;
            if best.is_some_and(|(cost, _)| soon >= cost)
                || self.plates.iter().any(|p| p.meets(&plate.grown(CLEAR)))
            {
                continue;
            }
            let crossing = soon + LINE_COST * self.crossings(&plate.grown(3.0)) as f64;
            if best.is_some_and(|(cost, _)| crossing >= cost) {
                continue;
            }
            let cost = crossing + self.leader_cost(near, anchor);
            if best.is_none_or(|(least, _)| cost < least) {
                best = Some((cost, plate));
            }
        }
        let (_, plate) = best?;
        self.plates.push(plate);
        self.lines.push(vec![anchor, plate.nearest(anchor)]);
        Some(plate)
    }

    /// A leader back to the anchor should run over no words and few lines (those through the anchor aside).
    fn leader_cost(&self, near: Point, anchor: Point) -> f64 {
        const WORDS_COST: f64 = 200.0;
        const LINE_COST: f64 = 30.0;
        const CLEAR: f64 = 10.0;
        let (dx, dy) = (near.0 - anchor.0, near.1 - anchor.1);
        let far = dx.hypot(dy);
        if far <= CLEAR {
            return 0.0;
        }
        let start = (anchor.0 + dx / far * CLEAR, anchor.1 + dy / far * CLEAR);
        let words = self.plates.iter().filter(|plate| plate.clipped(start, near).is_some()).count();
        let crosses = |line: &&Vec<Point>| {
            line.windows(2).any(|pair| matches!(pair, [a, b] if cross(start, near, *a, *b)))
        };
        let lines = self.lines.iter().filter(crosses).count();
        words as f64 * WORDS_COST + lines as f64 * LINE_COST
    }

    fn crossings(&self, plate: &Plate) -> usize {
        let crosses = |line: &&Vec<Point>| {
            line.windows(2).any(|pair| matches!(pair, [a, b] if plate.clipped(*a, *b).is_some()))
        };
        self.lines.iter().filter(crosses).count()
    }
}

/// Whether the line from `a` to `b` crosses that from `c` to `d`.
fn cross(a: Point, b: Point, c: Point, d: Point) -> bool {
    let side = |p: Point, q: Point, r: Point| (q.0 - p.0) * (r.1 - p.1) - (q.1 - p.1) * (r.0 - p.0);
    side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn things_that_push_each_other_share_the_move() {
        // Hand-worked: two of 20 that both want 50 go to 40 and 60; one that is alone stays.
        assert_eq!(spread(&[50.0, 50.0, 200.0], &[20.0, 20.0, 20.0], 0.0, 300.0), [40.0, 60.0, 200.0]);
        // Pressed against the edge, order kept.
        assert_eq!(spread(&[2.0, 1.0], &[20.0, 20.0], 0.0, 300.0), [30.0, 10.0]);
        assert_eq!(spread(&[299.0, 298.0], &[20.0, 20.0], 0.0, 300.0), [290.0, 270.0]);
    }

    #[test]
    fn a_label_keeps_off_lines_and_other_labels() {
        let bounds = Plate { left: 0.0, top: 0.0, right: 200.0, bottom: 100.0 };
        let mut clutter = Clutter::default();
        clutter.lines.push(vec![(0.0, 50.0), (200.0, 50.0)]);
        let first = clutter.spot((60.0, 14.0), (100.0, 50.0), bounds);
        let second = clutter.spot((60.0, 14.0), (100.0, 50.0), bounds);
        let (Some(first), Some(second)) = (first, second) else { unreachable!("there is room") };
        assert!(!first.meets(&second));
        assert_eq!(clutter.crossings(&first) + clutter.crossings(&second), 0);
    }
}
