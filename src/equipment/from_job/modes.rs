//! Typed rows and built-in tables into maps, with the fan they leave out and the loss on cycling.
//!
//! Must never know what kind of machine it is for. Start at [`Mode`].

use super::Builder;
use crate::equipment::machine::Cooling;
use crate::equipment::map::{MapRow, PerformanceMap, Point};
use crate::equipment::origin::{RowsFrom, RowsOrigin};
use crate::equipment::ratings::of_map::Speeds;
use crate::equipment::ratings::us_cooling::{DEFAULT_MANY_SPEEDS_LOSS, DEFAULT_ONE_SPEED_LOSS};
use crate::equipment::ratings::us_heating::DEFAULT_HEATING_LOSS;
use crate::equipment::tables;
use crate::job::{DrawSection, PointSection, RowSection, Speed, Typed};
use crate::sources::Source;
use crate::units::Quantity;

const DEFAULT_SENSIBLE_HEAT_RATIO: f64 = 0.75;

/// A map, the fan that its power leaves out, and the loss on cycling below its least output.
pub(super) struct Mode {
    pub(super) origin: RowsOrigin,
    pub(super) fan_kw: f64,
    pub(super) cycling_loss: f64,
}

/// What rows are for: of one machine, losses on cycling are not the same by default.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum RowsFor {
    Heating,
    Cooling,
}

impl RowsFor {
    /// The loss on cycling where the job gives none, the same that ratings take, and where it comes from.
    fn default_loss(self, speeds: Speeds) -> (f64, Source) {
        let of = |of| format!("10 CFR 430 Subpart B Appendix M1, default degradation coefficient of {of}");
        match (self, speeds) {
            (Self::Heating, _) => (DEFAULT_HEATING_LOSS, Source::Published(of("heating"))),
            (Self::Cooling, Speeds::One) => {
                (DEFAULT_ONE_SPEED_LOSS, Source::FromMemory(of("cooling with one speed")))
            }
            (Self::Cooling, _) => {
                (DEFAULT_MANY_SPEEDS_LOSS, Source::FromMemory(of("cooling with several speeds")))
            }
        }
    }
}

/// What the job says of how a machine turns down.
#[derive(Clone, Copy)]
pub(super) struct TurnDown<'a> {
    pub(super) name: &'a str,
    pub(super) speed: Option<Speed>,
    pub(super) cycling_loss: Option<f64>,
    pub(super) rows_for: RowsFor,
    /// Which rows they are, where the others say how far the machine turns down: "cooling".
    pub(super) rows: Option<&'a str>,
}

impl Builder<'_> {
    pub(super) fn typed_mode(
        &mut self,
        rows: &Typed<Vec<RowSection>>,
        fan_kw: f64,
        turn_down: TurnDown<'_>,
    ) -> Option<Mode> {
        let map = PerformanceMap::new(rows.value.iter().map(typed_row).collect())?;
        let knows_least = rows.value.iter().any(|r| r.least.is_some());
        let cycling_loss = self.cycling_loss(turn_down, &map, knows_least);
        let lines = rows.value.iter().map(|row| (row.outdoor.base(), self.job.line(&row.span)));
        let origin = RowsOrigin::of(RowsFrom::Typed(lines.collect()), map);
        Some(Mode { origin, fan_kw, cycling_loss })
    }

    pub(super) fn table_mode(
        &mut self,
        table: &Typed<String>,
        fan_kw: f64,
        turn_down: TurnDown<'_>,
    ) -> Option<Mode> {
        let key = format!("equipment.{}.table", turn_down.name);
        let opened = tables::open(&table.value).map_err(|p| {
            let mut placed = self.job.problem(&table.span, key.clone(), p.what);
            (placed.allowed, placed.help) = (p.allowed, p.help);
            self.problems.push(placed);
        });
        let opened = opened.ok()?;
        let Some(map) = opened.heating else {
            self.problems.push(self.job.problem(&table.span, key, "this table has no heating rows"));
            return None;
        };
        self.assumptions.note(key, table.value.clone(), opened.source);
        // The table's own word on speed holds; every table of a variable machine gives a least output.
        let turn_down = TurnDown { speed: opened.one_speed.then_some(Speed::One), ..turn_down };
        let from = RowsFrom::Table(table.value.clone());
        Some(Mode {
            cycling_loss: self.cycling_loss(turn_down, &map, true),
            origin: RowsOrigin { charged: !opened.with_defrost, ..RowsOrigin::of(from, map) },
            fan_kw: if opened.includes_fan { 0.0 } else { fan_kw },
        })
    }

    /// The loss on cycling below the least output; none where a machine turns down by so much that
    /// nobody says how far.
    pub(super) fn cycling_loss(
        &mut self,
        turn_down: TurnDown<'_>,
        map: &PerformanceMap,
        knows_least: bool,
    ) -> f64 {
        let name = turn_down.name;
        if !knows_least && turn_down.speed != Some(Speed::One) {
            if turn_down.speed.is_none() {
                let of = turn_down.rows.map(|rows| format!(" in its {rows} rows")).unwrap_or_default();
                let why = format!(
                    "no least output is given{of}: it follows the load at its greatest output's COP, without \
                     cycling"
                );
                let key = format!("equipment.{name}.speed");
                self.assumptions.note(key, "variable", Source::CommonPractice(why));
            }
            return 0.0;
        }
        let key = format!("equipment.{name}.cycling_loss");
        let (default, source) = turn_down.rows_for.default_loss(Speeds::of(map));
        self.assumptions.or_default(turn_down.cycling_loss, key, default, default.to_string(), || source)
    }

    pub(super) fn cooling(
        &mut self,
        name: &str,
        mode: Mode,
        factor: f64,
        ratio: Option<&Typed<f64>>,
    ) -> (Cooling, RowsOrigin) {
        let key = format!("equipment.{name}.sensible_heat_ratio");
        let default = DEFAULT_SENSIBLE_HEAT_RATIO;
        let sensible_heat_ratio =
            self.assumptions.or_default(ratio.map(|r| r.value), key, default, default.to_string(), || {
                Source::CommonPractice("share of cooling that lowers the temperature".into())
            });
        // The rows are net capacities: the fan's warmth is off them already.
        let origin = RowsOrigin { altitude: factor, ..mode.origin };
        let cooling = Cooling {
            map: origin.map(),
            cycling_loss: mode.cycling_loss,
            sensible_heat_ratio,
            fan_kw: mode.fan_kw,
        };
        (cooling, origin)
    }
}

fn typed_row(row: &RowSection) -> MapRow {
    let greatest = typed_point(&row.greatest);
    let rated = row.rated.as_ref().map(typed_point);
    let least = row.least.as_ref().map(typed_point).or(rated).unwrap_or(greatest);
    MapRow { outdoor_c: row.outdoor.base(), least, rated: rated.unwrap_or(greatest), greatest }
}

fn typed_point(point: &PointSection) -> Point {
    let capacity_kw = point.capacity.base();
    let power_kw = match point.draw.value {
        DrawSection::Cop(cop) => capacity_kw / cop,
        DrawSection::Power(power) => power.base(),
    };
    Point { capacity_kw, power_kw }
}
