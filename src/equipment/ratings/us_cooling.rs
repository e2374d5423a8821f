//! SEER2: cooling of a season over the electricity for it, Btu/Wh.
//!
//! Source: 10 CFR 430 Subpart B, Appendix M1, section 4.1; equations from memory, held against an
//! example worked by hand. Start at [`seer2`].

use super::points::{CoolingTests, Line, between_speeds, efficiency, intermediate_line};
use super::seasons::{SeasonBin, UsClimate};
use crate::equipment::map::Point;
use crate::units::kwh_to_btu;

/// The degradation coefficient of one-speed cooling without a cycling test: 0.20. Source: Appendix M1,
/// from memory.
pub const DEFAULT_ONE_SPEED_LOSS: f64 = 0.20;
/// The same for more speeds: 0.25. From memory.
pub const DEFAULT_MANY_SPEEDS_LOSS: f64 = 0.25;

/// The load's size over capacity at 95 °F.
const OVERSIZE: f64 = 1.1;
/// The load factor V of variable-speed heat pumps.
const VARIABLE_LOAD: f64 = 0.93;

/// SEER2 in Btu/Wh; nothing where a test makes no sense.
///
/// One speed: `(1 − 0.5·C_D)·EER(82 °F)`. Else `Σ n·q / Σ n·e` over the bins with
/// `BL = (T − 65)/30·Qc(95 °F)/1.1·V`, V = 0.93 for heat pumps of variable speed, else 1; the
/// numerator is delivered cooling, not load. `cycling_loss` is C_D; without it the default.
pub fn seer2(
    tests: &CoolingTests,
    climate: &UsClimate,
    is_heat_pump: bool,
    cycling_loss: Option<f64>,
) -> Option<f64> {
    let ratio = match tests {
        CoolingTests::OneSpeed { at_82 } => {
            let loss = cycling_loss.unwrap_or(DEFAULT_ONE_SPEED_LOSS);
            (1.0 - 0.5 * loss) * efficiency(*at_82)
        }
        CoolingTests::ManySpeeds { variable, low_67, low_82, intermediate_87, full_82, full_95 } => {
            let low = Line::through((82.0, *low_82), (67.0, *low_67));
            let full = Line::through((82.0, *full_82), (95.0, *full_95));
            let mid = intermediate_87.filter(|_| *variable);
            let speeds = Speeds {
                low,
                mid: mid.and_then(|mid| intermediate_line(87.0, mid, low, full)),
                full,
                variable: *variable,
                loss: cycling_loss.unwrap_or(DEFAULT_MANY_SPEEDS_LOSS),
            };
            let factor = if *variable && is_heat_pump { VARIABLE_LOAD } else { 1.0 };
            speeds.season(&climate.cooling, full_95.capacity_kw / OVERSIZE * factor)
        }
    };
    let rating = kwh_to_btu(ratio) / 1000.0;
    (rating.is_finite() && rating > 0.0).then_some(rating)
}

struct Speeds {
    low: Line,
    mid: Option<Line>,
    full: Line,
    variable: bool,
    loss: f64,
}

impl Speeds {
    /// Delivered cooling over electricity, both in the same unit.
    fn season(&self, bins: &[SeasonBin], load_at_95_kw: f64) -> f64 {
        let runs = bins.iter().map(|b| {
            let (cold, power) = self.run(b.outdoor, (b.outdoor - 65.0) / 30.0 * load_at_95_kw);
            (b.weight * cold, b.weight * power)
        });
        let (cold, power) = runs.fold((0.0, 0.0), |(c, p), (cold, power)| (c + cold, p + power));
        cold / power
    }

    /// Cooling given and electricity drawn, kW.
    fn run(&self, t: f64, load: f64) -> (f64, f64) {
        let (low, full) = (self.low.at(t), self.full.at(t));
        if load <= low.capacity_kw {
            let share = load / low.capacity_kw;
            (load, share * low.power_kw / (1.0 - self.loss * (1.0 - share)))
        } else if load < full.capacity_kw {
            (load, self.between(t, load, low, full))
        } else {
            (full.capacity_kw, full.power_kw)
        }
    }

    fn between(&self, t: f64, load: f64, low: Point, full: Point) -> f64 {
        if self.variable {
            return load / between_speeds(load, low, self.mid.map(|line| line.at(t)), full);
        }
        let at_low = (full.capacity_kw - load) / (full.capacity_kw - low.capacity_kw);
        at_low * low.power_kw + (1.0 - at_low) * full.power_kw
    }
}
