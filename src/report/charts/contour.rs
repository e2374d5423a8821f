//! Lines of equal value through a field of values on a grid.
//!
//! Knows columns and rows, not what they stand for. Start at [`contour`].

use super::canvas::Point;

/// The lines along which a field has the value `level`, as column and row; each row of the field has as
/// many values as the first. Straight within each cell.
pub(super) fn contour(field: &[Vec<f64>], level: f64) -> Vec<Vec<Point>> {
    let value = |column: usize, row: usize| Some(field.get(row)?.get(column)? - level);
    let columns = field.first().map_or(0, Vec::len);
    let mut pieces = Vec::new();
    for row in 0..field.len().saturating_sub(1) {
        for column in 0..columns.saturating_sub(1) {
            let corners = [(column, row), (column + 1, row), (column + 1, row + 1), (column, row + 1)];
            let values = corners.map(|(column, row)| value(column, row).unwrap_or(f64::NAN));
            pieces.extend(of_cell(&corners.map(|(x, y)| (x as f64, y as f64)), &values));
        }
    }
    joined(pieces)
}

/// The one or two pieces within a cell.
fn of_cell(corners: &[Point; 4], values: &[f64; 4]) -> Vec<Vec<Point>> {
    let sides = (0..4).map(|i| (i, (i + 1) % 4));
    let met = sides.filter_map(|(i, j)| {
        let (a, b) = (*values.get(i)?, *values.get(j)?);
        let (from, to) = (*corners.get(i)?, *corners.get(j)?);
        let share = a / (a - b);
        ((a > 0.0) != (b > 0.0) && share.is_finite())
            .then_some((from.0 + share * (to.0 - from.0), from.1 + share * (to.1 - from.1)))
    });
    let met: Vec<Point> = met.collect();
    met.chunks_exact(2).map(<[Point]>::to_vec).collect()
}

/// Pieces that share an end as one line.
fn joined(mut pieces: Vec<Vec<Point>>) -> Vec<Vec<Point>> {
    let near = |a: Option<&Point>, b: Option<&Point>| {
        a.zip(b).is_some_and(|(a, b)| (a.0 - b.0).abs() + (a.1 - b.1).abs() < 1e-9)
    };
    let mut lines = Vec::new();
    while let Some(mut line) = pieces.pop() {
        while let Some(i) = pieces.iter().position(|p| {
            let ends = [p.first(), p.last()];
            ends.iter().any(|end| near(line.last(), *end) || near(line.first(), *end))
        }) {
            let mut piece = pieces.swap_remove(i);
            if near(line.first(), piece.first()) || near(line.first(), piece.last()) {
                line.reverse();
            }
            if near(line.last(), piece.last()) {
                piece.reverse();
            }
            line.extend(piece.into_iter().skip(1));
        }
        lines.push(line);
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Hand-worked: x + y = 1.5 on a grid of 0 to 2 runs from (0, 1.5) to (1.5, 0) through every half.
    #[test]
    fn a_plane_has_one_straight_line() {
        let field: Vec<Vec<f64>> = (0..3).map(|y| (0..3).map(|x| f64::from(x + y)).collect()).collect();
        let lines = contour(&field, 1.5);
        let [line] = lines.as_slice() else { panic!("{lines:?}") };
        assert!(line.iter().all(|(x, y)| (x + y - 1.5).abs() < 1e-12), "{line:?}");
        let mut ends = [line[0], line[line.len() - 1]];
        ends.sort_by(|a, b| a.0.total_cmp(&b.0));
        assert_eq!(ends, [(0.0, 1.5), (1.5, 0.0)]);
        assert_eq!(contour(&field, 9.0), Vec::<Vec<Point>>::new());
    }
}
