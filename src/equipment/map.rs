//! Performance maps: capacity and power at several outdoor temperatures, and between them.
//!
//! Knows no hours and no controls. Start at [`PerformanceMap`].

use crate::units::fahrenheit_to_celsius;

/// Heat (or cold) given and power drawn, both kW, running all the hour.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// Heat given, or total cooling, kW.
    pub capacity_kw: f64,
    /// Draw of the machine's own fuel, kW.
    pub power_kw: f64,
}

impl Point {
    fn combined(self, other: Self, how: impl Fn(f64, f64) -> f64) -> Self {
        Self {
            capacity_kw: how(self.capacity_kw, other.capacity_kw),
            power_kw: how(self.power_kw, other.power_kw),
        }
    }

    fn times(self, capacity: f64, power: f64) -> Self {
        Self { capacity_kw: self.capacity_kw * capacity, power_kw: self.power_kw * power }
    }

    /// The point with no more capacity than `other` and no better a COP.
    fn no_better_than(self, other: Self) -> Self {
        let capacity_kw = self.capacity_kw.min(other.capacity_kw);
        let at_its_cop = if other.capacity_kw > 0.0 { other.power_kw / other.capacity_kw } else { 0.0 };
        Self { capacity_kw, power_kw: self.power_kw.max(capacity_kw * at_its_cop) }
    }
}

/// What a machine gives at one outdoor temperature: least, rated and greatest output.
///
/// A machine of one speed has three equal points; where no rated point is known it equals the
/// greatest, so that power is one line from least to greatest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MapRow {
    /// Outdoor dry-bulb, °C.
    pub outdoor_c: f64,
    /// The least output without cycling.
    pub least: Point,
    /// The rated output.
    pub rated: Point,
    /// The greatest output.
    pub greatest: Point,
}

impl MapRow {
    /// Both rows' points combined one by one; the temperature stays.
    fn combined(self, other: Self, how: impl Fn(f64, f64) -> f64 + Copy) -> Self {
        Self {
            outdoor_c: self.outdoor_c,
            least: self.least.combined(other.least, how),
            rated: self.rated.combined(other.rated, how),
            greatest: self.greatest.combined(other.greatest, how),
        }
    }

    /// The row with every capacity and every power multiplied.
    #[must_use]
    pub fn times(self, capacity: f64, power: f64) -> Self {
        Self {
            outdoor_c: self.outdoor_c,
            least: self.least.times(capacity, power),
            rated: self.rated.times(capacity, power),
            greatest: self.greatest.times(capacity, power),
        }
    }

    /// The row with no more capacity than `other`, level by level, and no better a COP.
    #[must_use]
    pub fn no_better_than(self, other: &Self) -> Self {
        Self {
            outdoor_c: self.outdoor_c,
            least: self.least.no_better_than(other.least),
            rated: self.rated.no_better_than(other.rated),
            greatest: self.greatest.no_better_than(other.greatest),
        }
    }

    /// The row with the warmth of a fan of `fan_kw` added to every capacity.
    #[must_use]
    pub fn with_fan_warmth(mut self, fan_kw: f64) -> Self {
        for point in [&mut self.least, &mut self.rated, &mut self.greatest] {
            point.capacity_kw += fan_kw;
        }
        self
    }
}

/// Rows at rising outdoor temperatures; linear between them.
#[derive(Debug, Clone, PartialEq)]
pub struct PerformanceMap {
    rows: Vec<MapRow>,
    /// One a pair of neighbouring rows; a year asks thousands of times, so slopes are taken once.
    lines: Vec<Line>,
    /// The line on which it goes on colder than its rows, where that is not the line of the first two.
    colder: Option<Colder>,
}

/// Two rows, and the line through them.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Colder {
    first: MapRow,
    second: MapRow,
    line: Line,
}

impl Colder {
    fn new(first: MapRow, second: MapRow) -> Self {
        Self { first, second, line: Line::new(first, second) }
    }
}

/// The line from one row to the next.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Line {
    from: MapRow,
    per_kelvin: MapRow,
    to_c: f64,
}

impl Line {
    fn new(from: MapRow, to: MapRow) -> Self {
        let kelvin = to.outdoor_c - from.outdoor_c;
        let per_kelvin = from.combined(to, |a, b| (b - a) / kelvin);
        Self { from, per_kelvin, to_c: to.outdoor_c }
    }

    fn at(&self, outdoor_c: f64) -> MapRow {
        let kelvin = outdoor_c - self.from.outdoor_c;
        MapRow { outdoor_c, ..self.from.combined(self.per_kelvin, |a, slope| a + slope * kelvin) }
    }
}

impl PerformanceMap {
    /// Takes the rows in either order, or `None` if there is none.
    ///
    /// ```
    /// use winterledger::equipment::map::{MapRow, PerformanceMap, Point};
    /// let at = |outdoor_c, capacity_kw| {
    ///     let point = Point { capacity_kw, power_kw: 2.0 };
    ///     MapRow { outdoor_c, least: point, rated: point, greatest: point }
    /// };
    /// let map = PerformanceMap::new(vec![at(-10.0, 6.0), at(10.0, 10.0)]).unwrap();
    /// assert_eq!(map.held_at(5.0).greatest.capacity_kw, 9.0);
    /// assert_eq!(map.held_at(20.0).greatest.capacity_kw, 10.0);
    /// ```
    pub fn new(mut rows: Vec<MapRow>) -> Option<Self> {
        rows.sort_by(|a, b| a.outdoor_c.total_cmp(&b.outdoor_c));
        (!rows.is_empty()).then(|| Self::of_sorted(rows))
    }

    fn of_sorted(rows: Vec<MapRow>) -> Self {
        let lines = rows.windows(2).filter_map(|pair| match pair {
            [from, to] => Some(Line::new(*from, *to)),
            _ => None,
        });
        Self { lines: lines.collect(), rows, colder: None }
    }

    /// The rows, coldest first; never empty.
    pub fn rows(&self) -> &[MapRow] {
        &self.rows
    }

    /// The coldest temperature of the map, °C.
    pub fn coldest_c(&self) -> f64 {
        self.rows.first().map_or(f64::NAN, |r| r.outdoor_c)
    }

    /// The warmest temperature of the map, °C.
    pub fn warmest_c(&self) -> f64 {
        self.rows.last().map_or(f64::NAN, |r| r.outdoor_c)
    }

    /// The row at `outdoor_c`, beyond the ends the end's own row.
    pub fn held_at(&self, outdoor_c: f64) -> MapRow {
        self.line_at(outdoor_c.clamp(self.coldest_c(), self.warmest_c()))
    }

    /// The row at `outdoor_c`, beyond the ends on the line of the last two rows (colder than a map that is
    /// charged for frost on that of its uncharged rows); capacities and powers not below zero, and least
    /// not above greatest.
    pub fn line_at(&self, outdoor_c: f64) -> MapRow {
        if let Some(colder) = self.colder.filter(|c| outdoor_c < c.first.outdoor_c) {
            return bounded(colder.line.at(outdoor_c));
        }
        let beyond = || self.lines.last();
        match self.lines.iter().find(|line| outdoor_c < line.to_c).or_else(beyond) {
            Some(line) => bounded(line.at(outdoor_c)),
            None => MapRow { outdoor_c, ..self.rows.first().copied().unwrap_or(NO_ROW) },
        }
    }

    /// The two rows whose line gives the value at `outdoor_c`, and the share of the way from the
    /// first to the second; beyond the ends outside 0 to 1. A map of one row gives it twice.
    pub fn around(&self, outdoor_c: f64) -> Option<(MapRow, MapRow, f64)> {
        let way = |a: MapRow, b: MapRow| (outdoor_c - a.outdoor_c) / (b.outdoor_c - a.outdoor_c);
        if let Some(Colder { first, second, .. }) = self.colder.filter(|c| outdoor_c < c.first.outdoor_c) {
            return Some((first, second, way(first, second)));
        }
        let after = self.rows.partition_point(|r| r.outdoor_c <= outdoor_c);
        let second = after.clamp(1, self.rows.len().saturating_sub(1).max(1));
        match (self.rows.get(second - 1), self.rows.get(second)) {
            (Some(a), Some(b)) => Some((*a, *b, way(*a, *b))),
            (Some(only), None) => Some((*only, *only, 0.0)),
            _ => None,
        }
    }

    /// Every row passed through `change`.
    #[must_use]
    pub fn map_rows(&self, change: impl Fn(MapRow) -> MapRow) -> Self {
        let colder = self.colder.map(|c| Colder::new(change(c.first), change(c.second)));
        Self { colder, ..Self::of_sorted(self.rows.iter().map(|r| change(*r)).collect()) }
    }

    /// A map of steady tests charged for frost: around 35 °F a machine loses heat to its own ice.
    ///
    /// Every row is multiplied by a factor linear from 1 at 17 °F to 0.90 (capacity) and 0.985
    /// (power) at 35 °F and back to 1 at 47 °F; a row at 35 °F is put in first where the map
    /// reaches across it and has none (one at 2 °C counts). Colder than its rows the map goes on with the
    /// first row's factor on the line of the rows as they were: a dip around 35 °F says nothing of the cold. Source of the factors: 10 CFR 430
    /// Subpart B Appendix M1, the 35 °F values of a unit not tested there.
    #[must_use]
    pub fn charged_for_frost(&self) -> Self {
        let frost = fahrenheit_to_celsius(FROST_F);
        let has_row = self.rows.iter().any(|r| is_frost_row(r.outdoor_c));
        let mut rows = self.rows.clone();
        if !has_row && self.coldest_c() < frost && frost < self.warmest_c() {
            rows.push(self.line_at(frost));
            rows.sort_by(|a, b| a.outdoor_c.total_cmp(&b.outdoor_c));
        }
        let charged = |r: MapRow, depth: f64| {
            let frost = Frost::of_depth(depth);
            r.times(frost.capacity, frost.power)
        };
        let colder = match self.rows.as_slice() {
            [first, second, ..] => {
                let depth = frost_depth(first.outdoor_c);
                Some(Colder::new(charged(*first, depth), charged(*second, depth)))
            }
            _ => None,
        };
        Self { colder, ..Self::of_sorted(rows).map_rows(|r| charged(r, frost_depth(r.outdoor_c))) }
    }
}

/// What frost leaves of a row of steady tests.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frost {
    /// How deep in the frost it is: 0 at 17 and 47 °F and beyond, 1 at 35 °F, linear between.
    pub depth: f64,
    /// Share of the capacity, `1 − 0.10·depth`.
    pub capacity: f64,
    /// Share of the power, `1 − 0.015·depth`.
    pub power: f64,
}

impl Frost {
    /// At an outdoor temperature, °C.
    pub fn at(outdoor_c: f64) -> Self {
        Self::of_depth(frost_depth(outdoor_c))
    }

    fn of_depth(depth: f64) -> Self {
        Self { depth, capacity: 1.0 - (1.0 - 0.90) * depth, power: 1.0 - (1.0 - 0.985) * depth }
    }
}

const NOTHING: Point = Point { capacity_kw: 0.0, power_kw: 0.0 };
const NO_ROW: MapRow = MapRow { outdoor_c: 0.0, least: NOTHING, rated: NOTHING, greatest: NOTHING };
const FROST_F: f64 = 35.0;

fn is_frost_row(outdoor_c: f64) -> bool {
    // Metric tables print the 35 °F test as +2 °C.
    (outdoor_c - fahrenheit_to_celsius(FROST_F)).abs() < 1e-6 || (outdoor_c - 2.0).abs() < 1e-6
}

/// 0 outside 17–47 °F, 1 at 35 °F, linear between.
fn frost_depth(outdoor_c: f64) -> f64 {
    if is_frost_row(outdoor_c) {
        return 1.0;
    }
    let (cold, peak, warm) =
        (fahrenheit_to_celsius(17.0), fahrenheit_to_celsius(FROST_F), fahrenheit_to_celsius(47.0));
    ((outdoor_c - cold) / (peak - cold)).min((warm - outdoor_c) / (warm - peak)).clamp(0.0, 1.0)
}

fn bounded(mut row: MapRow) -> MapRow {
    for point in [&mut row.least, &mut row.rated, &mut row.greatest] {
        point.capacity_kw = point.capacity_kw.max(0.0);
        point.power_kw = point.power_kw.max(0.0);
    }
    row.rated.capacity_kw = row.rated.capacity_kw.min(row.greatest.capacity_kw);
    row.least.capacity_kw = row.least.capacity_kw.min(row.rated.capacity_kw);
    row
}

#[cfg(test)]
mod tests {
    use super::*;

    fn one_speed(outdoor_f: f64, capacity_kw: f64, power_kw: f64) -> MapRow {
        let point = Point { capacity_kw, power_kw };
        MapRow { outdoor_c: fahrenheit_to_celsius(outdoor_f), least: point, rated: point, greatest: point }
    }

    #[test]
    fn a_steady_map_without_a_35_degree_row_is_charged_as_the_standard_charges_it() {
        // Hand-worked from M1: Q35 = 0.90·(Q17 + 0.6(Q47 − Q17)), E35 = 0.985·(E17 + 0.6(E47 − E17)).
        let map = PerformanceMap::new(vec![one_speed(17.0, 6.0, 2.0), one_speed(47.0, 10.0, 3.0)]);
        let charged = map.unwrap().charged_for_frost();
        let row = charged.held_at(fahrenheit_to_celsius(35.0)).greatest;
        assert!((row.capacity_kw - 0.90 * 8.4).abs() < 1e-12, "{row:?}");
        assert!((row.power_kw - 0.985 * 2.6).abs() < 1e-12, "{row:?}");
        let cold = charged.held_at(fahrenheit_to_celsius(17.0)).greatest;
        assert!((cold.capacity_kw - 6.0).abs() < 1e-12);
    }

    #[test]
    fn a_dip_for_frost_does_not_bend_the_line_into_the_cold() {
        let rows = vec![one_speed(17.0, 6.0, 2.0), one_speed(47.0, 9.0, 2.6)];
        let charged = PerformanceMap::new(rows).unwrap().charged_for_frost();
        // Hand-worked at 8 °F: 6 − 9·3/30 and 2 − 9·0.6/30; through the 7.02 kW at 35 °F it would be 5.49.
        let at = charged.line_at(fahrenheit_to_celsius(8.0)).greatest;
        assert!((at.capacity_kw - 5.1).abs() < 1e-12 && (at.power_kw - 1.82).abs() < 1e-12, "{at:?}");
        let twice = charged.map_rows(|r| r.times(2.0, 1.0)).line_at(fahrenheit_to_celsius(8.0)).greatest;
        assert!((twice.capacity_kw - 10.2).abs() < 1e-12, "{twice:?}");
        let (a, b, way) = charged.around(fahrenheit_to_celsius(8.0)).unwrap();
        assert_eq!((a.greatest.capacity_kw, b.greatest.capacity_kw), (6.0, 9.0));
        assert!((way + 0.3).abs() < 1e-12, "{way}");
        // A coldest row at 26 °F, half-way into the frost, keeps its own 0.95: 0.95·(7 − 2·9/21) at 17 °F.
        let rows = vec![one_speed(26.0, 7.0, 2.0), one_speed(47.0, 9.0, 2.6)];
        let at = PerformanceMap::new(rows).unwrap().charged_for_frost().line_at(fahrenheit_to_celsius(17.0));
        assert!((at.greatest.capacity_kw - 0.95 * (7.0 - 18.0 / 21.0)).abs() < 1e-12, "{at:?}");
    }

    #[test]
    fn a_map_of_one_row_is_the_same_everywhere() {
        let map = PerformanceMap::new(vec![one_speed(47.0, 10.0, 3.0)]).unwrap();
        assert_eq!(map.line_at(-30.0).greatest.capacity_kw, 10.0);
    }
}
