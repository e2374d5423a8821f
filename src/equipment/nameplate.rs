//! A performance map from what stands on a nameplate and an efficiency label.
//!
//! Capacities are the label's own. The inputs are those of a typical machine, all multiplied by one
//! number, so that the map's own rating equals the label. What a label cannot say, how efficiency is
//! shared between low and full output, is the [`Band`]. Knows no job and no money. Start at [`derive()`].

use super::map::{MapRow, PerformanceMap, Point};
use super::ratings::of_map::{Speeds, own_hspf2, own_seer2};
use super::ratings::seasons::UsClimate;
use super::tables;
use crate::problem::Problem;
use crate::units::{celsius_to_fahrenheit, fahrenheit_to_celsius};

/// What a label says of heating.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeatingPlate {
    /// Greatest capacity at 47 °F, kW.
    pub capacity_47_kw: f64,
    /// Greatest capacity at 17 °F, kW.
    pub capacity_17_kw: f64,
    /// Greatest capacity at 5 °F, kW, if the label has it.
    pub capacity_5_kw: Option<f64>,
    /// HSPF2 of region IV, Btu/Wh.
    pub hspf2: f64,
}

/// What a label says of cooling.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CoolingPlate {
    /// Greatest total capacity at 95 °F, kW.
    pub capacity_95_kw: f64,
    /// SEER2, Btu/Wh.
    pub seer2: f64,
}

/// A nameplate with its label.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Nameplate {
    /// Heating, if it heats.
    pub heating: Option<HeatingPlate>,
    /// Cooling, if it cools.
    pub cooling: Option<CoolingPlate>,
    /// Least output as a share of the greatest, above 0; 1 is a machine of one speed.
    pub turndown: f64,
}

/// How far the true inputs may lie from the derived ones, as multipliers.
///
/// A judgement: at least 5 % each way, as labels come with tolerances of that order; wider where
/// machines of a more or a less efficient least output (1.0 to 1.4 times the efficiency at greatest
/// output, against the 1.2 assumed) would carry the same label with inputs further away.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band {
    /// On all inputs of the best case, at most 0.95.
    pub low: f64,
    /// On all inputs of the worst case, at least 1.05.
    pub high: f64,
}

/// A derived map.
#[derive(Debug, Clone, PartialEq)]
pub struct DerivedMap {
    /// The map; frost is in its figures, and the indoor fan in its powers.
    pub map: PerformanceMap,
    /// What the typical machine's inputs were multiplied by.
    pub multiplier: f64,
    /// How far the inputs may be off.
    pub band: Band,
}

/// What came of a nameplate.
#[derive(Debug, Clone, PartialEq)]
pub struct Derived {
    /// Heating, if the plate has it.
    pub heating: Option<DerivedMap>,
    /// Cooling, if the plate has it.
    pub cooling: Option<DerivedMap>,
}

/// Efficiency at the least output over that at the greatest: a judgement, between machines whose
/// efficiency does not change with output (1.0) and the best (1.4).
const LEAST_GAIN: f64 = 1.2;
const OTHER_GAINS: [f64; 2] = [1.0, 1.4];
const LEAST_BAND: Band = Band { low: 0.95, high: 1.05 };

/// Total cooling at 82 °F over that at 95 °F, and efficiency likewise; from memory, typical.
const COOLING_82: (f64, f64) = (1.06, 1.20);
/// Efficiency at 95 °F before the multiplier; any value gives the same map.
const COOLING_START: f64 = 3.0;

/// Multipliers that are tried. The map's efficiency stays far from sense at either end.
const MULTIPLIERS: (f64, f64) = (0.05, 20.0);
/// What a rated point's COP may be: under 1 is worse than a strip, over 10 no machine reaches.
const COP: (f64, f64) = (1.0, 10.0);

/// Derives the maps of a nameplate so that their own ratings (HSPF2 in region IV, SEER2) equal the
/// label's.
///
/// The typical machine: of one speed, the built-in table `single-speed-30`, else `cold-climate-36`;
/// least output at the same share of the greatest everywhere. Between 17 and 47 °F a row at 35 °F
/// carries the standard's frost factors.
///
/// ```
/// use winterledger::equipment::nameplate::{HeatingPlate, Nameplate, derive};
/// use winterledger::equipment::ratings::{of_map::{Speeds, own_hspf2}, seasons::UsClimate};
/// let heating = HeatingPlate {
///     capacity_47_kw: 10.0, capacity_17_kw: 8.0, capacity_5_kw: Some(7.0), hspf2: 9.0 };
/// let plate = Nameplate { heating: Some(heating), cooling: None, turndown: 0.3 };
/// let climate = UsClimate::built_in().unwrap();
/// let map = derive(&plate, &climate).unwrap().heating.unwrap().map;
/// let own = own_hspf2(&map, None, Speeds::Variable, &climate).unwrap();
/// assert!((own / 9.0 - 1.0).abs() < 1e-9);
/// ```
///
/// # Errors
/// One problem for each rating that no machine of these capacities can have.
pub fn derive(plate: &Nameplate, climate: &UsClimate) -> Result<Derived, Vec<Problem>> {
    let cooling = plate.cooling.map(|c| cooling(&c, plate, climate)).transpose();
    let beside = plate.cooling.and_then(|c| cooling_map(&c, plate.turndown, 1.0, 1.0));
    let heating = plate.heating.map(|h| heating(&h, plate.turndown, beside.as_ref(), climate)).transpose();
    match (heating, cooling) {
        (Ok(heating), Ok(cooling)) => Ok(Derived { heating, cooling }),
        (heating, cooling) => Err(heating.err().into_iter().chain(cooling.err()).collect()),
    }
}

fn speeds(turndown: f64) -> Speeds {
    if turndown < 1.0 { Speeds::Variable } else { Speeds::One }
}

fn heating(
    plate: &HeatingPlate,
    turndown: f64,
    cooling: Option<&PerformanceMap>,
    climate: &UsClimate,
) -> Result<DerivedMap, Problem> {
    let typical = typical(turndown)?;
    let map = |gain: f64, multiplier: f64| heating_map(plate, &typical, turndown, gain, multiplier);
    let rating = |m: &PerformanceMap| own_hspf2(m, cooling, speeds(turndown), climate);
    let label = Label { name: "HSPF2", value: plate.hspf2 };
    let derived = label.fit(&map, &rating, turndown)?;
    label.plausible(&derived.map, &[47.0, 17.0, 5.0])?;
    Ok(derived)
}

fn cooling(plate: &CoolingPlate, whole: &Nameplate, climate: &UsClimate) -> Result<DerivedMap, Problem> {
    let turndown = whole.turndown;
    let map = |gain: f64, multiplier: f64| cooling_map(plate, turndown, gain, multiplier);
    let is_heat_pump = whole.heating.is_some();
    let rating = |m: &PerformanceMap| own_seer2(m, speeds(turndown), is_heat_pump, climate);
    let label = Label { name: "SEER2", value: plate.seer2 };
    let derived = label.fit(&map, &rating, turndown)?;
    label.plausible(&derived.map, &[82.0, 95.0])?;
    Ok(derived)
}

/// The typical machine's heating map, for the shape of its efficiency alone.
fn typical(turndown: f64) -> Result<PerformanceMap, Problem> {
    let name = if turndown < 1.0 { "cold-climate-36" } else { "single-speed-30" };
    tables::open(name)?.heating.ok_or_else(|| Problem::new(format!("the table '{name}' has no heating rows")))
}

fn heating_map(
    plate: &HeatingPlate,
    typical: &PerformanceMap,
    turndown: f64,
    gain: f64,
    multiplier: f64,
) -> Option<PerformanceMap> {
    let at = |outdoor_f: f64, capacity_kw: f64| {
        let shape = typical.held_at(fahrenheit_to_celsius(outdoor_f)).greatest;
        Point { capacity_kw, power_kw: multiplier * capacity_kw * shape.power_kw / shape.capacity_kw }
    };
    let (warm, cold) = (at(47.0, plate.capacity_47_kw), at(17.0, plate.capacity_17_kw));
    let dry = |outdoor_f: f64| {
        let share = (outdoor_f - 17.0) / 30.0;
        Point {
            capacity_kw: cold.capacity_kw + share * (warm.capacity_kw - cold.capacity_kw),
            power_kw: cold.power_kw + share * (warm.power_kw - cold.power_kw),
        }
    };
    let row = |outdoor_f: f64, full: Point| map_row(outdoor_f, full, turndown, gain);
    let mut rows = vec![row(62.0, dry(62.0)), row(47.0, warm), row(17.0, cold)];
    rows.extend(plate.capacity_5_kw.map(|kw| row(5.0, at(5.0, kw))));
    PerformanceMap::new(rows).map(|map| map.charged_for_frost())
}

fn cooling_map(plate: &CoolingPlate, turndown: f64, gain: f64, multiplier: f64) -> Option<PerformanceMap> {
    let hot = Point {
        capacity_kw: plate.capacity_95_kw,
        power_kw: multiplier * plate.capacity_95_kw / COOLING_START,
    };
    let (capacity, efficiency) = COOLING_82;
    let mild =
        Point { capacity_kw: capacity * hot.capacity_kw, power_kw: capacity / efficiency * hot.power_kw };
    // The line through 95 and 82 °F goes on to 67 °F.
    let on = |of: fn(Point) -> f64| of(mild) + (of(mild) - of(hot)) * 15.0 / 13.0;
    let cool = Point { capacity_kw: on(|p| p.capacity_kw), power_kw: on(|p| p.power_kw) };
    let rows = [(67.0, cool), (82.0, mild), (95.0, hot)];
    PerformanceMap::new(rows.map(|(f, full)| map_row(f, full, turndown, gain)).to_vec())
}

fn map_row(outdoor_f: f64, full: Point, turndown: f64, gain: f64) -> MapRow {
    // A machine of one speed has no better output to turn down to.
    let gain = if turndown < 1.0 { gain } else { 1.0 };
    let least = Point { capacity_kw: turndown * full.capacity_kw, power_kw: turndown * full.power_kw / gain };
    // Nothing is known between, so the rated point is the greatest.
    MapRow { outdoor_c: fahrenheit_to_celsius(outdoor_f), least, rated: full, greatest: full }
}

/// A label's figure that a map is to have.
struct Label {
    name: &'static str,
    value: f64,
}

type MapOf<'a> = &'a dyn Fn(f64, f64) -> Option<PerformanceMap>;
type RatingOf<'a> = &'a dyn Fn(&PerformanceMap) -> Option<f64>;

impl Label {
    fn fit(&self, map: MapOf<'_>, rating: RatingOf<'_>, turndown: f64) -> Result<DerivedMap, Problem> {
        let multiplier = self.multiplier(LEAST_GAIN, map, rating)?;
        let map_found = map(LEAST_GAIN, multiplier).ok_or_else(|| Problem::new("the label has no rows"))?;
        let mut band = LEAST_BAND;
        for gain in OTHER_GAINS.into_iter().filter(|_| turndown < 1.0) {
            // A machine of such a shape that cannot have the label says nothing about this one.
            let Ok(other) = self.multiplier(gain, map, rating) else { continue };
            for inputs in [other / multiplier, other / gain / (multiplier / LEAST_GAIN)] {
                band = Band { low: band.low.min(inputs), high: band.high.max(inputs) };
            }
        }
        Ok(DerivedMap { map: map_found, multiplier, band })
    }

    /// Halves the range of multipliers until the rating is the label's: more input, lower rating.
    fn multiplier(&self, gain: f64, map: MapOf<'_>, rating: RatingOf<'_>) -> Result<f64, Problem> {
        let at = |multiplier: f64| map(gain, multiplier).and_then(|m| rating(&m));
        let (mut low, mut high) = MULTIPLIERS;
        let reach = at(low).zip(at(high)).ok_or_else(|| Problem::new("these capacities cannot be rated"))?;
        if self.value >= reach.0 || self.value <= reach.1 {
            return Err(self.out_of_reach(reach.0));
        }
        for _ in 0..80 {
            let middle = (low * high).sqrt();
            match at(middle) {
                Some(found) if found > self.value => low = middle,
                _ => high = middle,
            }
        }
        Ok((low * high).sqrt())
    }

    fn out_of_reach(&self, greatest: f64) -> Problem {
        let (name, value) = (self.name, self.value);
        let what = format!("no machine of these capacities can have {name} {value}");
        let problem = Problem::new(what).help(SEE_LABEL);
        if value < greatest {
            return problem;
        }
        problem.allowed(format!(
            "less than {greatest:.1}: at these capacities the rating's own backup heat uses that much"
        ))
    }

    /// Each rated point's COP must be one that a machine can have.
    fn plausible(&self, map: &PerformanceMap, rated_f: &[f64]) -> Result<(), Problem> {
        for row in map.rows() {
            let outdoor_f = celsius_to_fahrenheit(row.outdoor_c);
            let cop = row.greatest.capacity_kw / row.greatest.power_kw;
            let is_rated = rated_f.iter().any(|f| (f - outdoor_f).abs() < 1e-6);
            if is_rated && !(COP.0..=COP.1).contains(&cop) {
                let what = format!(
                    "{} {} with these capacities would mean a COP of {cop:.1} at {outdoor_f:.0} \u{b0}F",
                    self.name, self.value
                );
                let range = format!("a COP of {} to {} at each rated temperature", COP.0, COP.1);
                return Err(Problem::new(what).allowed(range).help(SEE_LABEL));
            }
        }
        Ok(())
    }
}

const SEE_LABEL: &str = "see whether label and capacities are of the same machine, and in the units they say";
