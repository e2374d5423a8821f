//! What the laboratory measures: capacity and power at the standards' outdoor temperatures, and the
//! lines that the standards draw through them.
//!
//! Temperatures are in °F, as the American tests are named. Knows no season. Start at
//! [`HeatingTests`].

use crate::equipment::map::Point;

/// A line through two points, capacity and power alike.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Line {
    at: f64,
    from: Point,
    slope: Point,
}

impl Line {
    pub(super) fn through((x, from): (f64, Point), (other_x, other): (f64, Point)) -> Self {
        let per = 1.0 / (other_x - x);
        let slope = Point {
            capacity_kw: (other.capacity_kw - from.capacity_kw) * per,
            power_kw: (other.power_kw - from.power_kw) * per,
        };
        Self { at: x, from, slope }
    }

    pub(super) fn with_slope((at, from): (f64, Point), slope: Point) -> Self {
        Self { at, from, slope }
    }

    pub(super) fn slope(self) -> Point {
        self.slope
    }

    pub(super) fn at(self, x: f64) -> Point {
        Point {
            capacity_kw: self.from.capacity_kw + self.slope.capacity_kw * (x - self.at),
            power_kw: self.from.power_kw + self.slope.power_kw * (x - self.at),
        }
    }
}

/// Heating tests at one compressor speed, by outdoor temperature in °F.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpeedTests {
    /// At 47 °F.
    pub at_47: Point,
    /// At 35 °F, with frosting and defrosting; without it the standard's own estimate stands in.
    pub at_35: Option<Point>,
    /// At 17 °F.
    pub at_17: Point,
    /// At 5 °F, if that optional test was run.
    pub at_5: Option<Point>,
}

impl SpeedTests {
    /// The 35 °F point: the test, or what the standard puts in its place.
    ///
    /// `Q35 = 0.90·(Q17 + 0.6(Q47 − Q17))`, `E35 = 0.985·(E17 + 0.6(E47 − E17))`.
    /// Source: 10 CFR 430 Subpart B Appendix M1, section 3.6.1, from memory.
    pub fn at_35(&self) -> Point {
        self.at_35.unwrap_or_else(|| {
            let dry = Line::through((17.0, self.at_17), (47.0, self.at_47)).at(35.0);
            Point { capacity_kw: 0.90 * dry.capacity_kw, power_kw: 0.985 * dry.power_kw }
        })
    }

    /// Capacity and power at an outdoor temperature in °F, steady down to 17 and from 45 °F on,
    /// frosting between.
    ///
    /// Source: Appendix M1, section 4.2.1 (one speed) and 4.2.3 (full speed), from memory. Below 5 °F,
    /// where that test was run, the slope is that between 17 and 47 °F (from memory).
    pub fn at(&self, outdoor_f: f64) -> Point {
        let dry = Line::through((17.0, self.at_17), (47.0, self.at_47));
        match self.at_5 {
            _ if outdoor_f > 17.0 && outdoor_f < 45.0 => self.frosting().at(outdoor_f),
            Some(at_5) if outdoor_f < 5.0 => Line::with_slope((5.0, at_5), dry.slope()).at(outdoor_f),
            Some(at_5) if outdoor_f < 17.0 => Line::through((5.0, at_5), (17.0, self.at_17)).at(outdoor_f),
            _ => dry.at(outdoor_f),
        }
    }

    pub(super) fn frosting(&self) -> Line {
        Line::through((17.0, self.at_17), (35.0, self.at_35()))
    }
}

/// Heating tests of a machine.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum HeatingTests {
    /// One speed.
    OneSpeed(SpeedTests),
    /// Two speeds.
    TwoSpeed {
        /// Low speed at 62 °F.
        low_62: Point,
        /// Low speed, the other temperatures.
        low: SpeedTests,
        /// High speed.
        high: SpeedTests,
    },
    /// Variable speed.
    Variable {
        /// Lowest speed at 62 °F.
        low_62: Point,
        /// Lowest speed at 47 °F.
        low_47: Point,
        /// The intermediate speed at 35 °F, if there is such a test.
        intermediate_35: Option<Point>,
        /// Full speed.
        full: SpeedTests,
    },
}

/// Cooling tests of a machine, by outdoor temperature in °F.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum CoolingTests {
    /// One speed.
    OneSpeed {
        /// At 82 °F.
        at_82: Point,
    },
    /// Two speeds, or variable speed.
    ManySpeeds {
        /// Whether speed varies without steps.
        variable: bool,
        /// Lowest speed at 67 °F.
        low_67: Point,
        /// Lowest speed at 82 °F.
        low_82: Point,
        /// The intermediate speed at 87 °F, if there is such a test; variable speed only.
        intermediate_87: Option<Point>,
        /// Full speed at 82 °F.
        full_82: Point,
        /// Full speed at 95 °F.
        full_95: Point,
    },
}

/// The intermediate line of a variable-speed machine: through its own test, with a slope between
/// those of the lowest and the full speed.
///
/// `M = M_low·(1 − N) + N·M_full`, `N = (mid − low)/(full − low)` at the test's temperature, for
/// capacity and power alike. Source: Appendix M1, section 4.1.4.2 and 4.2.4.2, from memory. Nothing
/// where the test does not lie between the two speeds.
pub(super) fn intermediate_line(at: f64, mid: Point, low: Line, full: Line) -> Option<Line> {
    let (below, above) = (low.at(at), full.at(at));
    let slope = |of: fn(Point) -> f64| {
        let share = (of(mid) - of(below)) / (of(above) - of(below));
        share.is_finite().then(|| of(low.slope()) * (1.0 - share) + share * of(full.slope()))
    };
    let between = below.capacity_kw < mid.capacity_kw && mid.capacity_kw < above.capacity_kw;
    let slope = Point { capacity_kw: slope(|p| p.capacity_kw)?, power_kw: slope(|p| p.power_kw)? };
    between.then(|| Line::with_slope((at, mid), slope))
}

/// Capacity over power, both kW.
pub(super) fn efficiency(point: Point) -> f64 {
    point.capacity_kw / point.power_kw
}

/// Efficiency at `load` kW between the lowest and the full speed: linear in load through the
/// intermediate point where there is one between them.
///
/// Source: Appendix M1, sections 4.1.4.2 and 4.2.4.2, from memory.
pub(super) fn between_speeds(load: f64, low: Point, mid: Option<Point>, full: Point) -> f64 {
    let part = |a: Point, b: Point| {
        let share = (load - a.capacity_kw) / (b.capacity_kw - a.capacity_kw);
        efficiency(a) + share * (efficiency(b) - efficiency(a))
    };
    let inside = |m: &Point| low.capacity_kw < m.capacity_kw && m.capacity_kw < full.capacity_kw;
    match mid.filter(inside) {
        Some(mid) if load <= mid.capacity_kw => part(low, mid),
        Some(mid) => part(mid, full),
        None => part(low, full),
    }
}
