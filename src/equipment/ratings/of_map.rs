//! The ratings of a performance map: its rows stand for the laboratory's tests.
//!
//! *Least* at 62 and 47 °F (cooling 67 and 82) is the lowest speed, *rated* at 35 °F (87) the
//! intermediate test, *greatest* at 47, 35, 17 and 5 °F (82 and 95) full speed. Powers must include
//! the indoor fan. Knows no job. Start at [`own_hspf2`].

use super::declared::DeclaredPoint;
use super::eu_heating::{HeatingDeclaration, part_load};
use super::points::{CoolingTests, HeatingTests, SpeedTests};
use super::seasons::{Carrier, EuSeason, UsClimate, UsRegion};
use super::us_cooling::seer2;
use super::us_heating::{HeatingConditions, hspf2};
use crate::equipment::machine::EXTRAPOLATION_K;
use crate::equipment::map::{MapRow, PerformanceMap, Point};
use crate::units::{celsius_to_fahrenheit, fahrenheit_to_celsius};

/// How a machine changes its output.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Speeds {
    /// One output.
    One,
    /// Two outputs.
    Two,
    /// Any output between the least and the greatest.
    Variable,
}

impl Speeds {
    /// One speed where least and greatest are the same in every row, else variable: two steps cannot
    /// be told from a range by a map alone.
    pub fn of(map: &PerformanceMap) -> Self {
        let one = map.rows().iter().all(|r| r.least.capacity_kw >= r.greatest.capacity_kw);
        if one { Self::One } else { Self::Variable }
    }
}

fn row(map: &PerformanceMap, outdoor_f: f64) -> Option<MapRow> {
    row_at(map, fahrenheit_to_celsius(outdoor_f))
}

/// The map's row at an outdoor temperature in °C, up to 5 K beyond its ends; nothing further out.
fn row_at(map: &PerformanceMap, t: f64) -> Option<MapRow> {
    let reach = map.coldest_c() - EXTRAPOLATION_K - 1e-9..=map.warmest_c() + EXTRAPOLATION_K + 1e-9;
    reach.contains(&t).then(|| map.line_at(t))
}

/// The least output at `wanted_f`, from the map if it reaches there, else on the line of two others.
///
/// DEPARTURE: a map that ends at 47 °F has no test at 62 °F. The line through 17 and 47 °F, which the
/// standard itself draws above 45 °F, goes on instead; in cooling the one through 95 and 82 °F.
fn least_at(map: &PerformanceMap, wanted_f: f64, far_f: f64, near_f: f64) -> Option<Point> {
    let t = fahrenheit_to_celsius(wanted_f);
    if (map.coldest_c() - 1e-9..=map.warmest_c() + 1e-9).contains(&t) {
        return Some(map.line_at(t).least);
    }
    let (far, near) = (row(map, far_f)?.least, row(map, near_f)?.least);
    let share = (wanted_f - far_f) / (near_f - far_f);
    let point = Point {
        capacity_kw: far.capacity_kw + share * (near.capacity_kw - far.capacity_kw),
        power_kw: far.power_kw + share * (near.power_kw - far.power_kw),
    };
    (point.capacity_kw > 0.0 && point.power_kw > 0.0).then_some(point)
}

fn speed_tests(map: &PerformanceMap, of: fn(&MapRow) -> Point) -> Option<SpeedTests> {
    let at = |outdoor_f| row(map, outdoor_f).map(|r| of(&r));
    let frost = |r: &&MapRow| {
        let f = celsius_to_fahrenheit(r.outdoor_c);
        f > 17.0 + 1e-6 && f < 47.0 - 1e-6
    };
    // A map without a row between has no test at 35 °F; the standard's own rule stands in for it.
    let has_frost_row = map.rows().iter().any(|r| frost(&r));
    let has_5 = map.coldest_c() <= fahrenheit_to_celsius(5.0) + 1e-9;
    Some(SpeedTests {
        at_47: at(47.0)?,
        at_35: if has_frost_row { at(35.0) } else { None },
        at_17: at(17.0)?,
        at_5: if has_5 { at(5.0) } else { None },
    })
}

/// The heating tests that a map stands for; nothing if it does not reach 47 and 17 °F within 5 K.
pub fn heating_tests(map: &PerformanceMap, speeds: Speeds) -> Option<HeatingTests> {
    let full = speed_tests(map, |r| r.greatest)?;
    if speeds == Speeds::One {
        return Some(HeatingTests::OneSpeed(full));
    }
    let low_62 = least_at(map, 62.0, 17.0, 47.0)?;
    let low = speed_tests(map, |r| r.least)?;
    if speeds == Speeds::Two {
        return Some(HeatingTests::TwoSpeed { low_62, low, high: full });
    }
    let rated = row(map, 35.0).map(|r| (r.least, r.rated, r.greatest));
    let between = rated
        .filter(|(least, rated, most)| between(*least, *rated, *most) && full.at_35.is_some())
        .map(|(_, rated, _)| rated);
    Some(HeatingTests::Variable { low_62, low_47: low.at_47, intermediate_35: between, full })
}

/// The cooling tests that a map stands for; nothing if it does not reach 82 and 95 °F within 5 K.
pub fn cooling_tests(map: &PerformanceMap, speeds: Speeds) -> Option<CoolingTests> {
    let (at_82, at_95) = (row(map, 82.0)?, row(map, 95.0)?);
    if speeds == Speeds::One {
        return Some(CoolingTests::OneSpeed { at_82: at_82.greatest });
    }
    let mid = map.line_at(fahrenheit_to_celsius(87.0));
    Some(CoolingTests::ManySpeeds {
        variable: speeds == Speeds::Variable,
        low_67: least_at(map, 67.0, 95.0, 82.0)?,
        low_82: at_82.least,
        intermediate_87: between(mid.least, mid.rated, mid.greatest).then_some(mid.rated),
        full_82: at_82.greatest,
        full_95: at_95.greatest,
    })
}

fn between(least: Point, rated: Point, greatest: Point) -> bool {
    least.capacity_kw < rated.capacity_kw && rated.capacity_kw < greatest.capacity_kw
}

/// How a machine is controlled, as far as a heating rating asks.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Control {
    /// C_D of a cycling test, 0 to 0.5; the standard's default without one.
    pub cycling_loss: Option<f64>,
    /// Off at or below this, °C.
    pub cut_out_c: Option<f64>,
    /// Always on above this, °C; the cut-out where there is none.
    pub cut_on_c: Option<f64>,
}

/// The conditions of a heating rating of `map`: the design capacity is that of `cooling` at 95 °F where there
/// is one, else of heating at 47 °F, as the regulation has it for machines that only heat; nothing where the
/// map does not reach there.
pub fn heating_conditions(
    map: &PerformanceMap,
    cooling: Option<&PerformanceMap>,
    control: Control,
) -> Option<HeatingConditions> {
    let design = match cooling {
        Some(cooling) => row(cooling, 95.0)?,
        None => row(map, 47.0)?,
    };
    let plain = HeatingConditions::plain(design.greatest.capacity_kw);
    Some(HeatingConditions {
        cycling_loss: control.cycling_loss.unwrap_or(plain.cycling_loss),
        cut_out_c: control.cut_out_c,
        cut_on_c: control.cut_on_c,
        ..plain
    })
}

/// The map's own HSPF2 in region IV without cut-out, Btu/Wh; nothing where the map does not reach the tests.
///
/// The conditions are those of [`heating_conditions`].
///
/// ```
/// use winterledger::equipment::ratings::{of_map::{Speeds, own_hspf2}, seasons::UsClimate};
/// use winterledger::equipment::tables;
/// let climate = UsClimate::built_in().unwrap();
/// let map = tables::open("single-speed-30").unwrap().heating.unwrap().charged_for_frost();
/// let rating = own_hspf2(&map, None, Speeds::One, &climate).unwrap();
/// assert!(rating > 5.0 && rating < 9.0, "{rating}"); // what such machines are sold with
/// ```
pub fn own_hspf2(
    map: &PerformanceMap,
    cooling: Option<&PerformanceMap>,
    speeds: Speeds,
    climate: &UsClimate,
) -> Option<f64> {
    let conditions = heating_conditions(map, cooling, Control::default())?;
    let tests = heating_tests(map, speeds)?;
    hspf2(&tests, climate.heating(UsRegion::IV), &conditions).map(|(rating, _)| rating)
}

/// The map's own SEER2, Btu/Wh; nothing where the map does not reach the tests.
pub fn own_seer2(
    map: &PerformanceMap,
    speeds: Speeds,
    is_heat_pump: bool,
    climate: &UsClimate,
) -> Option<f64> {
    seer2(&cooling_tests(map, speeds)?, climate, is_heat_pump, None)
}

/// What the map would be declared as for a European season: points at the loads of the season.
///
/// The design load is the one that the greatest output just carries at `bivalent_c`; colder than
/// `operation_limit_c`, or than the map by more than 5 K, it gives nothing. Nothing where the map does
/// not reach `bivalent_c` or the load there is zero. Source: EN 14825, part load conditions.
pub fn declaration(
    map: &PerformanceMap,
    season: EuSeason,
    carrier: Carrier,
    bivalent_c: f64,
    operation_limit_c: Option<f64>,
) -> Option<HeatingDeclaration> {
    let share = part_load(bivalent_c, season);
    let at_bivalent = row_at(map, bivalent_c)?;
    let design_load_kw = at_bivalent.greatest.capacity_kw / share;
    let limit = (map.coldest_c() - EXTRAPOLATION_K).max(operation_limit_c.unwrap_or(f64::NEG_INFINITY));
    let coldest = limit.max(season.design_c());
    let fixed: &[f64] = match season {
        EuSeason::Average => &[-7.0, 2.0, 7.0, 12.0],
        EuSeason::Warmer => &[2.0, 7.0, 12.0],
        EuSeason::Colder => &[-15.0, -7.0, 2.0, 7.0, 12.0],
    };
    let wanted = fixed.iter().copied().chain([bivalent_c, coldest]).filter(|t| *t >= coldest);
    let points = wanted
        .filter_map(|t| {
            let row = row_at(map, t)?;
            let output = design_load_kw * part_load(t, season);
            let capacity_kw = output.min(row.greatest.capacity_kw).max(row.least.capacity_kw);
            let efficiency = capacity_kw / power_at(&row, capacity_kw);
            Some(DeclaredPoint { outdoor_c: t, capacity_kw, efficiency })
        })
        .collect();
    let declared =
        HeatingDeclaration { design_load_kw, season, carrier, points, operation_limit_c: Some(limit) };
    design_load_kw.is_finite().then_some(declared)
}

/// What the map would be declared as for the European cooling season: the load at 35 °C, kW, which its
/// greatest output there just carries, and its points at 35, 30, 25 and 20 °C; nothing where the map does not
/// reach 35 °C. Source: EN 14825, part load conditions; milder than the map its last row holds.
pub fn cooling_declaration(map: &PerformanceMap) -> Option<(f64, Vec<DeclaredPoint>)> {
    let design_load_kw = row_at(map, 35.0)?.greatest.capacity_kw;
    let point = |(outdoor_c, share): (f64, f64)| {
        let row = map.held_at(outdoor_c);
        let output = design_load_kw * share;
        let capacity_kw = output.min(row.greatest.capacity_kw).max(row.least.capacity_kw);
        DeclaredPoint { outdoor_c, capacity_kw, efficiency: capacity_kw / power_at(&row, capacity_kw) }
    };
    // (T − 16)/19, as the loads of the season.
    let shares = [35.0, 30.0, 25.0, 20.0].map(|t| (t, (t - 16.0) / 19.0));
    Some((design_load_kw, shares.map(point).to_vec()))
}

/// Power at an output between least and greatest, kW: straight between the row's points.
fn power_at(row: &MapRow, output_kw: f64) -> f64 {
    let part = |a: Point, b: Point| {
        let rise = b.capacity_kw - a.capacity_kw;
        let share = if rise > 0.0 { (output_kw - a.capacity_kw) / rise } else { 1.0 };
        a.power_kw + share * (b.power_kw - a.power_kw)
    };
    match output_kw <= row.rated.capacity_kw && row.rated.capacity_kw > row.least.capacity_kw {
        true => part(row.least, row.rated),
        false => part(row.rated, row.greatest),
    }
}
