//! What the need rests on: the zone's loss and gains, a water heater, ducts; and the ground around a loop.
//!
//! Start at [`Words::given`].

use super::words::Words;
use crate::comparison::working::{Entering, WaterFacts, Working};
use crate::load::air::{BTU_H_PER_CFM_F, SEA_LEVEL_PA, pressure_pa};
use crate::load::ducts::{Ducts, SI_PER_US_R};
use crate::load::{DuctLine, Zone};
use crate::report::figures::grouped;
use crate::simulation::working::Step;
use crate::units::{GALLONS_PER_LITRE, METRES_PER_FOOT, UnitSystem};

impl Words<'_> {
    /// Loss and gains, what a water heater takes of them, and the ducts where something goes through them.
    pub(super) fn given(&self, working: &Working) -> Vec<String> {
        let Some(zone) = self.c.zones.iter().find(|zone| zone.name == working.zone) else {
            return Vec::new();
        };
        let cools = zone.cooling.is_some_and(|c| working.outdoor_c > c.balance_temperature_c);
        let mut lines = if cools { Vec::new() } else { vec![self.loss(zone)] };
        lines.extend(working.water.filter(|water| water.taken_kw > 0.0).map(|water| self.water(&water)));
        let through = |s: &Step| matches!(s, Step::WantedThrough { .. } | Step::AtGreatest { .. });
        if let Some(line) = zone.duct_line.filter(|_| working.steps.iter().any(through)) {
            lines.extend(line.ducts.into_iter().flat_map(|ducts| self.ducts(&ducts, &line)));
        }
        lines
    }

    fn loss(&self, zone: &Zone) -> String {
        let (rate, indoor, balance) =
            (self.rate(zone.loss_kw_k), self.t(zone.indoor_c), self.t(zone.balance_temperature_c));
        format!(
            "Loss: design load {} / ({indoor} \u{2212} {}) = {rate}; gains {rate} \u{d7} ({indoor} \u{2212} {balance}) = {}, so \
             that nothing is needed at {balance}.",
            self.q(zone.design_load_kw()),
            self.t(zone.design_temperature_c),
            self.q(zone.gains_kw)
        )
    }

    fn water(&self, water: &WaterFacts) -> String {
        let used = match self.measure.0 {
            UnitSystem::Us => format!("{} gal", grouped(water.litres_a_day * GALLONS_PER_LITRE, 2)),
            UnitSystem::Si => format!("{} L", grouped(water.litres_a_day, 2)),
        };
        format!(
            "The water heater inside warms {used} a day from {} to {}, which takes {}; of that the room gives {} \u{d7} (1 \
             \u{2212} 1 / {}) = {}; of the gains remain {} \u{2212} {} = {}.",
            self.t(water.cold_c),
            self.t(water.hot_c),
            self.q(water.heat_kw),
            self.q(water.heat_kw),
            grouped(water.efficiency, 2),
            self.q(water.taken_kw),
            self.q(water.gains_kw),
            self.q(water.taken_kw),
            self.q(water.gains_kw - water.taken_kw)
        )
    }

    fn ducts(&self, ducts: &Ducts, line: &DuctLine) -> Vec<String> {
        let parts = ducts.parts();
        let per_degree = |kw_k: f64| self.rate(kw_k);
        let walls = |area_m2: f64, r: f64| {
            // The conductance of the walls, A/R, in what the air carries for each degree.
            per_degree(area_m2 / (1000.0 * r))
        };
        let air = per_degree(parts.air_kw_k);
        let moved = self.air_moved(ducts);
        let size = |area_m2: f64, r: f64| match self.measure.0 {
            UnitSystem::Us => format!(
                "{} ft2, R-{}",
                grouped(area_m2 / (METRES_PER_FOOT * METRES_PER_FOOT), 0),
                grouped(r / SI_PER_US_R, 1)
            ),
            UnitSystem::Si => format!("{} m2, {} K\u{b7}m2/W", grouped(area_m2, 1), grouped(r, 2)),
        };
        let (tight, supply, back) =
            (grouped(parts.tight, 4), grouped(parts.supply, 4), grouped(parts.back, 4));
        vec![
            format!("Ducts, by the form of ASHRAE Standard 152: the air carries {air}{moved}."),
            format!(
                "  Walls of the supply ducts ({}) pass {}: e^ (\u{2212}{} / {air}) = {supply} of a difference is left.",
                size(ducts.supply_area_m2, ducts.supply_r),
                walls(ducts.supply_area_m2, ducts.supply_r),
                walls(ducts.supply_area_m2, ducts.supply_r)
            ),
            format!(
                "  Walls of the return ducts ({}): e^ (\u{2212}{} / {air}) = {}; with {} leaking in, (1 \u{2212} {}) \u{d7} {} = \
                 {back}.",
                size(ducts.return_area_m2, ducts.return_r),
                walls(ducts.return_area_m2, ducts.return_r),
                grouped(parts.returned, 4),
                grouped(ducts.return_leak, 4),
                grouped(ducts.return_leak, 4),
                grouped(parts.returned, 4)
            ),
            format!(
                "  Kept with {} leaking out: {tight} \u{d7} {supply} = {}. Lost: {air} \u{d7} ({tight} \u{d7} {supply} \u{d7} (1 \
                 \u{2212} {back}) + {tight} \u{d7} (1 \u{2212} {supply})) = {}.",
                grouped(ducts.supply_leak, 4),
                grouped(parts.kept, 4),
                per_degree(parts.lost_kw_k)
            ),
            format!(
                "  While air moves: {} \u{d7} ({} \u{2212} {}) = {}, not below 0, nor so much that less than 0.3 of an output arrives.",
                per_degree(parts.lost_kw_k),
                self.t(line.room_c),
                self.t(line.ambient_c.unwrap_or(self.outdoor_c)),
                self.q(line.lost_kw_k * (line.room_c - line.ambient_c.unwrap_or(self.outdoor_c)))
            ),
        ]
    }

    /// How what the air carries comes about, where the units let it be told.
    fn air_moved(&self, ducts: &Ducts) -> String {
        let thin = ducts.elevation_m.map(|metres| pressure_pa(metres) / SEA_LEVEL_PA);
        match self.measure.0 {
            UnitSystem::Us => format!(
                " ({} \u{d7} {} cfm / 1,000{})",
                grouped(BTU_H_PER_CFM_F, 2),
                grouped(self.measure.airflow(ducts.airflow_m3_s), 0),
                thin.map(|share| format!(" \u{d7} {} for thin air", grouped(share, 4))).unwrap_or_default()
            ),
            UnitSystem::Si => String::new(),
        }
    }

    /// What a ground loop brings.
    pub(super) fn entering(&self, e: &Entering) -> Vec<String> {
        let length = |metres: f64| match self.measure.0 {
            UnitSystem::Us => format!("{} ft", grouped(metres / METRES_PER_FOOT, 3)),
            UnitSystem::Si => format!("{} m", grouped(metres, 3)),
        };
        let surface = e.ground.surface;
        let left = grouped(e.ground.left(), 4);
        let mut lines = vec![format!(
            "  Ground at {}: e^ (\u{2212}{} / {}) = {left} of the surface\u{2019}s yearly wave is left.",
            length(e.ground.depth_m),
            length(e.ground.depth_m),
            length(e.ground.damping_depth_m())
        )];
        let (mean, wave) = (self.t(surface.mean_c), self.k(surface.amplitude_k));
        lines.push(match e.day {
            Some(day) => {
                let angle = grouped(e.ground.angle_degrees(day), 2);
                format!(
                    "  On day {} of the year, 360 / 365 \u{d7} ({} \u{2212} {} \u{2212} {}) = {angle} degrees from its coldest: {mean} \
                     \u{2212} {wave} \u{d7} {left} \u{d7} cos ({angle}) = {}.",
                    grouped(day, 1),
                    grouped(day, 1),
                    grouped(surface.coldest_day, 2),
                    grouped(e.ground.lag_days(), 2),
                    self.t(e.ground_c)
                )
            }
            None => format!("  Without a date the ground counts at its worst, {}.", self.t(e.ground_c)),
        });
        let share = grouped(e.share, 4);
        lines.push(format!(
            "  Share of the steady need at the design temperature: {} / {} = {share}; from the loop comes {} \u{2212} {share} \u{d7} ({} \u{2212} \
             {}) = {}.",
            self.q(e.need_kw),
            self.q(e.design_need_kw),
            self.t(e.ground_c),
            self.t(e.design_ground_c),
            self.t(e.design_entering_c),
            self.t(e.entering_c)
        ));
        lines
    }
}
