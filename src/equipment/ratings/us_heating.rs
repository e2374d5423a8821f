//! HSPF2 and HSPF: heat of a season over the electricity for it, backup included, Btu/Wh.
//!
//! Source: 10 CFR 430 Subpart B, Appendix M1 (HSPF2) and Appendix M (HSPF), section 4.2; equations
//! from memory, held against examples worked by hand. Start at [`hspf2`].

use super::points::{HeatingTests, Line, between_speeds, intermediate_line};
use super::seasons::{SeasonBin, UsHeatingSeason};
use crate::equipment::map::Point;
use crate::units::{btu_to_kwh, celsius_to_fahrenheit, kwh_to_btu};

/// The regulation's own Btu in one Wh, 3.413; the program's is 3.412142.
pub const REGULATION_BTU_PER_WH: f64 = 3.413;

/// The degradation coefficient where no cycling test was made: 0.25. Source: Appendix M1, 3.8.1.
pub const DEFAULT_HEATING_LOSS: f64 = 0.25;

/// What a heating rating needs beside the tests.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeatingConditions {
    /// Cooling capacity at 95 °F, kW; of a machine that only heats, its capacity at 47 °F.
    pub design_capacity_kw: f64,
    /// Degradation coefficient C_D, 0 to 0.5.
    pub cycling_loss: f64,
    /// Off at or below this outdoor temperature, °C.
    pub cut_out_c: Option<f64>,
    /// Always on above this outdoor temperature, °C; the cut-out where there is none.
    pub cut_on_c: Option<f64>,
    /// Credit for demand defrost, 1 to 1.03.
    pub defrost_credit: f64,
}

impl HeatingConditions {
    /// The defaults: C_D 0.25, no cut-out, no credit.
    pub fn plain(design_capacity_kw: f64) -> Self {
        Self {
            design_capacity_kw,
            cycling_loss: DEFAULT_HEATING_LOSS,
            cut_out_c: None,
            cut_on_c: None,
            defrost_credit: 1.0,
        }
    }
}

/// One bin of a heating rating.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeatingBin {
    /// Outdoor temperature, °F.
    pub outdoor_f: f64,
    /// Share of the season's hours.
    pub share: f64,
    /// Heat wanted, kW.
    pub load_kw: f64,
    /// Electricity of the machine, kW.
    pub machine_kw: f64,
    /// Backup heat by resistance, kW.
    pub backup_kw: f64,
}

/// HSPF2 in Btu/Wh, with the bins it comes from; nothing where the season has no load.
///
/// `BL = (Tzl − T)/(Tzl − 5)·C·Qc(95 °F)`; `HSPF2 = Σ n·BL / (Σ n·e + Σ n·RH)·Fdef`.
pub fn hspf2(
    tests: &HeatingTests,
    season: &UsHeatingSeason,
    conditions: &HeatingConditions,
) -> Option<(f64, Vec<HeatingBin>)> {
    let slope = match tests {
        HeatingTests::Variable { .. } => season.slope_variable,
        _ => season.slope,
    };
    let zero = season.zero_load_f;
    let load = |t: f64| (zero - t) / (zero - 5.0) * slope * conditions.design_capacity_kw;
    rate(tests, &season.bins_m1, load, conditions)
}

/// HSPF in Btu/Wh by the older Appendix M, with its bins; `requirement_kw` is the design heating
/// requirement, as a rule [`least_requirement`].
///
/// `BL = (65 − T)/(65 − TOD)·0.77·DHR`.
pub fn hspf(
    tests: &HeatingTests,
    season: &UsHeatingSeason,
    requirement_kw: f64,
    conditions: &HeatingConditions,
) -> Option<(f64, Vec<HeatingBin>)> {
    let load = |t: f64| (65.0 - t) / (65.0 - season.outdoor_design_f) * 0.77 * requirement_kw;
    rate(tests, &season.bins_m, load, conditions)
}

/// Appendix M's standardised design heating requirements, kBtu/h.
const STANDARD_REQUIREMENTS: [f64; 16] =
    [5.0, 10.0, 15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 50.0, 60.0, 70.0, 80.0, 90.0, 100.0, 110.0, 130.0];

/// Appendix M's minimum design heating requirement, kW, of a capacity at 47 °F in kW.
///
/// `Q47·(65 − TOD)/60` (region V: `Q47`), to the nearest standardised requirement.
pub fn least_requirement(capacity_47_kw: f64, season: &UsHeatingSeason) -> f64 {
    let spread = (65.0 - season.outdoor_design_f).min(60.0) / 60.0;
    let exact = kwh_to_btu(capacity_47_kw) * spread / 1000.0;
    let distance = |standard: &f64| (standard - exact).abs();
    let nearest = STANDARD_REQUIREMENTS.into_iter().min_by(|a, b| distance(a).total_cmp(&distance(b)));
    btu_to_kwh(nearest.unwrap_or(exact) * 1000.0)
}

fn rate(
    tests: &HeatingTests,
    bins: &[SeasonBin],
    load_kw: impl Fn(f64) -> f64,
    conditions: &HeatingConditions,
) -> Option<(f64, Vec<HeatingBin>)> {
    let speeds = Speeds::new(tests);
    let with_load = bins.iter().map(|b| (b, load_kw(b.outdoor))).filter(|(_, load)| *load > 0.0);
    let rows: Vec<_> = with_load.map(|(b, load)| speeds.bin(b, load, conditions)).collect();
    let sum = |of: fn(&HeatingBin) -> f64| rows.iter().map(|r| r.share * of(r)).sum::<f64>();
    let used_kw = sum(|r| r.machine_kw) + sum(|r| r.backup_kw);
    let rating = kwh_to_btu(sum(|r| r.load_kw)) / (1000.0 * used_kw) * conditions.defrost_credit;
    rating.is_finite().then_some((rating, rows))
}

/// A test's machine at any outdoor temperature.
struct Speeds<'a> {
    tests: &'a HeatingTests,
    lowest: Option<Line>,
    intermediate: Option<Line>,
}

impl<'a> Speeds<'a> {
    fn new(tests: &'a HeatingTests) -> Self {
        let (lowest, intermediate) = match tests {
            HeatingTests::OneSpeed(_) => (None, None),
            HeatingTests::TwoSpeed { low_62, low, .. } => {
                (Some(Line::through((47.0, low.at_47), (62.0, *low_62))), None)
            }
            HeatingTests::Variable { low_62, low_47, intermediate_35, full } => {
                let low = Line::through((47.0, *low_47), (62.0, *low_62));
                let mid = intermediate_35.and_then(|mid| intermediate_line(35.0, mid, low, full.frosting()));
                (Some(low), mid)
            }
        };
        Self { tests, lowest, intermediate }
    }

    fn full(&self, t: f64) -> Point {
        match self.tests {
            HeatingTests::OneSpeed(full)
            | HeatingTests::TwoSpeed { high: full, .. }
            | HeatingTests::Variable { full, .. } => full.at(t),
        }
    }

    /// The lowest speed: two speeds from 40 °F up, and variable speed everywhere, on the line through
    /// 62 and 47 °F.
    fn low(&self, t: f64) -> Option<Point> {
        match self.tests {
            HeatingTests::TwoSpeed { low, .. } if t < 40.0 => Some(match t < 17.0 {
                true => Line::through((17.0, low.at_17), (47.0, low.at_47)).at(t),
                false => low.frosting().at(t),
            }),
            _ => self.lowest.map(|line| line.at(t)),
        }
    }

    fn bin(&self, bin: &SeasonBin, load_kw: f64, conditions: &HeatingConditions) -> HeatingBin {
        let t = bin.outdoor;
        let on = share_on(t, conditions);
        let (heat_kw, machine_kw) = self.run(t, load_kw, on, conditions.cycling_loss);
        // The rest is resistance heat at the regulation's own Btu.
        let backup_kw = kwh_to_btu(load_kw - heat_kw) / (1000.0 * REGULATION_BTU_PER_WH);
        HeatingBin { outdoor_f: t, share: bin.weight, load_kw, machine_kw, backup_kw }
    }

    /// Heat given and electricity drawn over an hour, kW, where cut-outs leave it `on` for a share.
    fn run(&self, t: f64, load: f64, on: f64, cycling_loss: f64) -> (f64, f64) {
        let full = self.full(t);
        let low = self.low(t).filter(|low| low.capacity_kw > 0.0 && low.capacity_kw < full.capacity_kw);
        match low {
            Some(low) if load <= low.capacity_kw => cycle(load, low, on, cycling_loss),
            Some(low) if load < full.capacity_kw => {
                let power = match self.tests {
                    HeatingTests::Variable { .. } => {
                        let mid = self.intermediate.map(|line| line.at(t));
                        load / between_speeds(load, low, mid, full)
                    }
                    _ => {
                        let at_low = (full.capacity_kw - load) / (full.capacity_kw - low.capacity_kw);
                        at_low * low.power_kw + (1.0 - at_low) * full.power_kw
                    }
                };
                (on * load, on * power)
            }
            _ => cycle(load, full, if worse_than_strips(full) { 0.0 } else { on }, cycling_loss),
        }
    }
}

/// `X = min(BL/Q, 1)`, `PLF = 1 − C_D(1 − X)`, `e = X·E·δ/PLF`, heat `X·Q·δ`.
fn cycle(load: f64, at: Point, on: f64, cycling_loss: f64) -> (f64, f64) {
    if on <= 0.0 || at.capacity_kw <= 0.0 {
        return (0.0, 0.0);
    }
    let share = (load / at.capacity_kw).min(1.0);
    let part_load = 1.0 - cycling_loss * (1.0 - share);
    (share * at.capacity_kw * on, share * at.power_kw * on / part_load)
}

/// δ: 0 at or below the cut-out, ½ up to the cut-on, else 1.
fn share_on(outdoor_f: f64, conditions: &HeatingConditions) -> f64 {
    let Some(off) = conditions.cut_out_c.map(celsius_to_fahrenheit) else { return 1.0 };
    let on = conditions.cut_on_c.map_or(off, celsius_to_fahrenheit);
    // Temperatures go through °C and back; a bin on the threshold is at it.
    match outdoor_f {
        t if t <= off + 1e-9 => 0.0,
        t if t <= on + 1e-9 => 0.5,
        _ => 1.0,
    }
}

/// The regulation turns off a machine that gives less heat than its electricity would in strips.
fn worse_than_strips(full: Point) -> bool {
    kwh_to_btu(full.capacity_kw) < REGULATION_BTU_PER_WH * 1000.0 * full.power_kw
}
