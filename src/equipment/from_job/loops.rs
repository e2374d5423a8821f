//! The job's ground loop into the ground around it and what comes back from it.
//!
//! Start at `Builder::ground_loop`.

use super::Builder;
use crate::equipment::ground::{Ground, GroundLoop};
use crate::job::{GroundSection, Typed};
use crate::sources::Source;
use crate::units::{Quantity, Temperature};

/// m² a day; between dry sand and wet clay.
const DIFFUSIVITY: f64 = 0.05;
const LOOP_PUMP_KW: f64 = 0.25;

impl Builder<'_> {
    /// The loop and its pump's draw, kW.
    pub(super) fn ground_loop(&mut self, name: &str, s: &GroundSection) -> Option<(Option<GroundLoop>, f64)> {
        let key = |k: &str| format!("equipment.{name}.{k}");
        let Some(surface) = self.surface else {
            let what = "a ground-source heat pump, but the weather has no months";
            let problem = self.job.problem(&s.design_entering.span, key("design_entering"), what);
            self.problems.push(problem.help("Give hourly weather, from which the ground's year follows"));
            return None;
        };
        let given = s.ground_diffusivity.as_ref().map(|d| d.value);
        let written = DIFFUSIVITY.to_string();
        let diffusivity_m2_day =
            self.assumptions.or_default(given, key("ground_diffusivity"), DIFFUSIVITY, written, || {
                Source::CommonPractice("m2 a day, ordinary soil".into())
            });
        let given = s.loop_pump.as_deref().map(|p| p.base());
        let pump_kw = self.assumptions.or_default(given, key("loop_pump"), LOOP_PUMP_KW, "250 W", || {
            Source::CommonPractice("an ordinary loop pump, while the machine runs".into())
        });
        let ground = Ground { surface, depth_m: s.loop_depth.base(), diffusivity_m2_day };
        let cooling = s.cooling_design_entering.as_ref();
        self.beyond_ground(&key("design_entering"), &s.design_entering, ground.coldest_c(), "colder");
        if let Some(cooling) = cooling {
            self.beyond_ground(&key("cooling_design_entering"), cooling, ground.warmest_c(), "warmer");
        }
        let ground_loop = GroundLoop {
            ground,
            design_entering_c: s.design_entering.base(),
            cooling_design_entering_c: cooling.map(|t| t.base()),
        };
        Some((Some(ground_loop), pump_kw))
    }

    /// A loop that gives heat cannot come back warmer than the ground that warms it.
    fn beyond_ground(&mut self, key: &str, entering: &Typed<Temperature>, ground_c: f64, must: &str) {
        let above = entering.base() - ground_c;
        let wrong = if must == "colder" { above > 0.0 } else { above < 0.0 };
        if wrong {
            let ground_f = crate::units::celsius_to_fahrenheit(ground_c);
            let what = format!(
                "what enters from the loop is not {must} than the ground, {ground_c:.1} degC ({ground_f:.1} degF) \
                 at that depth and season"
            );
            let problem = self.job.problem(&entering.span, key, what);
            self.problems.push(problem.help("See whether this temperature or loop_depth is a slip"));
        }
    }
}
