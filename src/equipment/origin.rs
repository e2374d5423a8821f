//! Where a machine's rows come from, and what was done to them before it runs by them.
//!
//! Knows no hours. Start at [`RowsOrigin`].

use super::map::{Frost, MapRow, PerformanceMap};

/// Where a machine's figures come from.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Origin {
    /// Its heating rows; nothing where they hold at every outdoor temperature.
    pub heating: Option<RowsOrigin>,
    /// Its cooling rows.
    pub cooling: Option<RowsOrigin>,
    /// Its burner.
    pub burner: Option<Burner>,
}

/// Who gives rows. Two are the same whatever line they stand in: a line more in a job makes no other machine.
#[derive(Debug, Clone)]
pub enum RowsFrom {
    /// The job, row by row: outdoor temperature (°C) and line.
    Typed(Vec<(f64, usize)>),
    /// A built-in table of that name.
    Table(String),
    /// A nameplate.
    Nameplate {
        /// Its line of the job.
        line: usize,
        /// What a typical machine's inputs were multiplied by.
        multiplier: f64,
    },
}

/// Rows and what is done to them: `(row·frost)·altitude + fan`.
#[derive(Debug, Clone, PartialEq)]
pub struct RowsOrigin {
    /// Who gives them.
    pub from: RowsFrom,
    /// The rows as they are given.
    pub given: PerformanceMap,
    /// Whether they are steady tests, so that frost is charged for.
    pub charged: bool,
    /// Share of the capacity that thin air leaves.
    pub altitude: f64,
    /// A fan whose warmth is added to every capacity, kW.
    pub fan_kw: f64,
}

/// How one row came about.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RowOrigin {
    /// The row as given.
    pub given: MapRow,
    /// Its line of the job, if it was typed.
    pub line: Option<usize>,
    /// Where nobody gave it: the rows on whose line it was put in at 35 °F, and the share of the way.
    pub put_in: Option<(MapRow, MapRow, f64)>,
    /// What frost leaves, where that is charged for and takes anything.
    pub frost: Option<Frost>,
    /// Share of the capacity that thin air leaves.
    pub altitude: f64,
    /// A fan's warmth, kW.
    pub fan_kw: f64,
}

/// A burner's full output: `input·altitude·efficiency + side`. Two are the same whatever line they stand in.
#[derive(Debug, Clone, Copy)]
pub struct Burner {
    /// Its line of the job.
    pub line: usize,
    /// Full input as typed, kW (HHV).
    pub input_kw: f64,
    /// Share of it that thin air leaves.
    pub altitude: f64,
    /// Heat for each kW of fuel.
    pub efficiency: f64,
    /// A blower, pump or motor whose warmth counts, kW.
    pub side_kw: f64,
}

impl PartialEq for RowsFrom {
    fn eq(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Typed(_), Self::Typed(_)) => true,
            (Self::Table(own), Self::Table(other)) => own == other,
            (Self::Nameplate { multiplier: own, .. }, Self::Nameplate { multiplier: other, .. }) => {
                own == other
            }
            _ => false,
        }
    }
}

impl PartialEq for Burner {
    fn eq(&self, other: &Self) -> bool {
        let figures = |b: &Self| [b.input_kw, b.altitude, b.efficiency, b.side_kw];
        figures(self) == figures(other)
    }
}

impl Burner {
    /// What it gives at full fire, kW.
    pub fn full_kw(&self) -> f64 {
        self.input_kw * self.altitude * self.efficiency + self.side_kw
    }
}

impl RowsOrigin {
    /// Rows that run as they are given.
    pub fn of(from: RowsFrom, given: PerformanceMap) -> Self {
        Self { from, given, charged: false, altitude: 1.0, fan_kw: 0.0 }
    }

    /// The map that the machine runs by.
    pub fn map(&self) -> PerformanceMap {
        let charged = self.charged.then(|| self.given.charged_for_frost());
        let rows = charged.as_ref().unwrap_or(&self.given);
        rows.map_rows(|r| r.times(self.altitude, 1.0).with_fan_warmth(self.fan_kw))
    }

    /// How the map's row at `row_c` °C came about when it is asked at `asked_c`; nothing for a nameplate's,
    /// which are worked out together.
    pub fn row(&self, row_c: f64, asked_c: f64) -> Option<RowOrigin> {
        let near = |t: f64| (t - row_c).abs() < 1e-9;
        let line = match &self.from {
            RowsFrom::Typed(lines) => lines.iter().find(|(t, _)| near(*t)).map(|(_, line)| *line),
            RowsFrom::Table(_) => None,
            RowsFrom::Nameplate { .. } => return None,
        };
        let given = self.given.rows().iter().find(|r| near(r.outdoor_c)).copied();
        // Colder than its rows a map goes on with what frost leaves of the coldest.
        let coldest_c = self.given.coldest_c();
        let frost = Frost::at(if asked_c < coldest_c { coldest_c } else { row_c });
        Some(RowOrigin {
            given: given.unwrap_or_else(|| self.given.line_at(row_c)),
            line,
            put_in: if given.is_none() { self.given.around(row_c) } else { None },
            frost: Some(frost).filter(|frost| self.charged && frost.depth > 0.0),
            altitude: self.altitude,
            fan_kw: self.fan_kw,
        })
    }
}
