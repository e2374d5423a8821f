//! Seasonal ratings against the standards' tables, worked examples and figures worked by hand.
//!
//! Origins stand beside each expected number. "From memory" means that the equation has not been
//! looked at in print here; the arithmetic after it is exact.

use crate::outside::Outside;
use winterledger::equipment::map::{PerformanceMap, Point};
use winterledger::equipment::ratings::declared::DeclaredPoint;
use winterledger::equipment::ratings::eu_cooling::seer_on;
use winterledger::equipment::ratings::eu_heating::{
    HeatingDeclaration, OffModePowers, part_load, scop_on, with_off_modes,
};
use winterledger::equipment::ratings::of_map::{
    Speeds, cooling_tests, declaration, heating_tests, own_hspf2, own_seer2,
};
use winterledger::equipment::ratings::points::{CoolingTests, HeatingTests, SpeedTests};
use winterledger::equipment::ratings::seasons::{
    Carrier, EuClimate, EuSeason, SeasonBin, UsClimate, UsRegion, Use,
};
use winterledger::equipment::ratings::us_cooling::seer2;
use winterledger::equipment::ratings::us_heating::{
    HeatingBin, HeatingConditions, hspf, hspf2, least_requirement,
};
use winterledger::equipment::tables;
use winterledger::units::{btu_to_kwh, fahrenheit_to_celsius, kwh_to_btu};

/// A test point as laboratories write it: Btu/h and W.
fn at(btuh: f64, watts: f64) -> Point {
    Point { capacity_kw: btu_to_kwh(btuh), power_kw: watts / 1000.0 }
}

fn us() -> UsClimate {
    UsClimate::built_in().unwrap()
}

fn eu() -> EuClimate {
    EuClimate::built_in().unwrap()
}

fn close(found: f64, expected: f64, tolerance: f64) {
    assert!((found - expected).abs() <= tolerance, "{found} is not {expected} within {tolerance}");
}

/// A rating as it was worked by hand or printed.
fn rated_as(what: &str, (origin, source): (&str, &str), value: f64, tolerance: f64, found: f64) {
    Outside { what: what.into(), origin, source, value, tolerance }.holds(found);
}

const M1: (&str, &str) = (
    "hand-worked",
    "10 CFR 430 Subpart B Appendix M1, region IV; of two speeds and variable speed every bin in \
     tests/reference/ratings_heating_bins.csv",
);
const M1_COOLING: (&str, &str) = (
    "hand-worked",
    "10 CFR 430 Subpart B Appendix M1, cooling; bins from memory (data/ratings/us-cooling-bins.csv)",
);
const M: (&str, &str) =
    ("hand-worked", "10 CFR 430 Subpart B Appendix M, region IV, DHR 35000, bin by bin on paper");
const ANNEX_H: (&str, &str) = ("published", "EN 14825:2018 Annex H, a transcription of its example");

fn one_speed() -> HeatingTests {
    HeatingTests::OneSpeed(SpeedTests {
        at_47: at(34_000.0, 2_900.0),
        at_35: Some(at(30_600.0, 2_800.0)),
        at_17: at(21_000.0, 2_450.0),
        at_5: None,
    })
}

fn two_speed() -> HeatingTests {
    HeatingTests::TwoSpeed {
        low_62: at(18_000.0, 1_250.0),
        low: SpeedTests {
            at_47: at(15_000.0, 1_200.0),
            at_35: Some(at(12_600.0, 1_170.0)),
            at_17: at(9_000.0, 1_100.0),
            at_5: None,
        },
        high: SpeedTests {
            at_47: at(34_000.0, 2_900.0),
            at_35: Some(at(30_600.0, 2_800.0)),
            at_17: at(21_000.0, 2_450.0),
            at_5: None,
        },
    }
}

fn variable(at_5: Option<Point>) -> HeatingTests {
    HeatingTests::Variable {
        low_62: at(17_000.0, 1_000.0),
        low_47: at(14_000.0, 1_000.0),
        intermediate_35: Some(at(21_000.0, 1_900.0)),
        full: SpeedTests {
            at_47: at(40_000.0, 3_500.0),
            at_35: Some(at(34_000.0, 3_700.0)),
            at_17: at(30_000.0, 3_600.0),
            at_5,
        },
    }
}

fn plain() -> HeatingConditions {
    HeatingConditions::plain(btu_to_kwh(36_000.0))
}

fn rated(tests: &HeatingTests, conditions: &HeatingConditions) -> (f64, Vec<HeatingBin>) {
    hspf2(tests, us().heating(UsRegion::IV), conditions).unwrap()
}

fn sums(bins: &[SeasonBin]) -> f64 {
    bins.iter().map(|b| b.weight).sum()
}

#[test]
fn the_american_bins_add_up_to_what_the_regulation_prints() {
    // Transcription of the regulation: M's columns add up to 1.000, M1's to these.
    let m1 = [0.709, 0.596, 0.705, 0.757, 0.802, 0.681];
    let climate = us();
    for (region, expected) in UsRegion::ALL.into_iter().zip(m1) {
        let season = climate.heating(region);
        close(sums(&season.bins_m), 1.0, 1.5e-3);
        close(sums(&season.bins_m1), expected, 1e-9);
        // A bin at or above the zero-load temperature has no load; all others are those of M.
        let kept = season.bins_m.iter().filter(|b| b.outdoor < season.zero_load_f);
        assert!(kept.eq(season.bins_m1.iter()), "{region:?}");
    }
    close(sums(&climate.cooling), 1.0, 1e-9);
}

#[test]
fn a_single_speed_machine_is_rated_as_worked_by_hand() {
    // Hand-worked, region IV: 7.6153; sums of load, machine and backup over the bins.
    let (rating, bins) = rated(&one_speed(), &plain());
    rated_as("HSPF2 of a one-speed machine", M1, 7.6153, 5e-5, rating);
    let sum = |of: fn(&HeatingBin) -> f64| bins.iter().map(|b| b.share * of(b)).sum::<f64>();
    close(kwh_to_btu(sum(|b| b.load_kw)), 12_478.79, 5e-3);
    close(1000.0 * sum(|b| b.machine_kw), 1_168.811, 5e-4);
    close(1000.0 * sum(|b| b.backup_kw), 469.845, 1e-3);
    // Bin 37 °F: BL 14904, X 0.4707, PLF 0.8677, so e = 0.4707·2839/0.8677 = 1540.1 W.
    let bin = bins.iter().find(|b| b.outdoor_f == 37.0).unwrap();
    close(kwh_to_btu(bin.load_kw), 14_904.0, 1e-6);
    close(1000.0 * bin.machine_kw, 0.4707 * 2_839.0 / 0.8677, 0.5);
    let HeatingTests::OneSpeed(full) = one_speed() else { panic!() };
    // Hand-worked: 30600 + (30600 − 21000)/18·2 = 31666.7; 2800 + 350/18·2 = 2838.9.
    close(kwh_to_btu(full.at(37.0).capacity_kw), 31_666.667, 1e-3);
    close(1000.0 * full.at(37.0).power_kw, 2_838.889, 1e-3);
}

#[test]
fn a_cut_out_sends_the_coldest_bins_to_backup() {
    // Hand-worked: off at 5 °F, on at 10 °F.
    let off = Some(fahrenheit_to_celsius(5.0));
    let on = Some(fahrenheit_to_celsius(10.0));
    let conditions = HeatingConditions { cut_out_c: off, cut_on_c: on, ..plain() };
    let found = rated(&one_speed(), &conditions).0;
    rated_as("HSPF2 with a cut-out at 5 °F", M1, 7.4660, 5e-5, found);
    // Demand defrost's credit multiplies the rating.
    let credited = HeatingConditions { defrost_credit: 1.03, ..plain() };
    close(rated(&one_speed(), &credited).0, 1.03 * 7.615_254, 5e-5);
}

#[test]
fn the_older_appendix_rates_it_higher() {
    // Hand-worked, Appendix M, region IV, DHR 35000: 8.5432.
    let climate = us();
    let season = climate.heating(UsRegion::IV);
    let requirement = least_requirement(btu_to_kwh(34_000.0), season);
    close(kwh_to_btu(requirement), 35_000.0, 1e-6);
    let found = hspf(&one_speed(), season, requirement, &plain()).unwrap().0;
    rated_as("HSPF of a one-speed machine", M, 8.5432, 5e-5, found);
    // Hand-worked: region V takes Q47 itself, 34 → 35; region I 34·28/60 = 15.87 → 15 kBtu/h.
    close(kwh_to_btu(least_requirement(btu_to_kwh(34_000.0), climate.heating(UsRegion::V))), 35_000.0, 1e-6);
    close(kwh_to_btu(least_requirement(btu_to_kwh(34_000.0), climate.heating(UsRegion::I))), 15_000.0, 1e-6);
}

#[test]
fn two_speeds_and_variable_speed_follow_the_tables_worked_by_hand() {
    // tests/reference/ratings_heating_bins.csv: each column worked by hand from those before it.
    let text = include_str!("../reference/ratings_heating_bins.csv");
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text.as_bytes());
    type Line = (String, f64, f64, f64, f64, f64, f64, f64, f64, f64);
    let lines: Vec<Line> = reader.deserialize().collect::<Result<_, _>>().unwrap();
    let h4 = Some(at(25_000.0, 3_500.0));
    for (name, tests, rating) in [("two", two_speed(), 7.9653), ("variable", variable(h4), 9.2642)] {
        let (found, bins) = rated(&tests, &plain());
        let of_machine: Vec<_> = lines.iter().filter(|l| l.0 == name).collect();
        assert_eq!(of_machine.len(), bins.len());
        for (line, bin) in of_machine.iter().zip(&bins) {
            assert_eq!((line.1, line.2), (bin.outdoor_f, bin.share));
            close(kwh_to_btu(bin.load_kw), line.3, 1e-3);
            close(1000.0 * bin.machine_kw, line.8, 1e-3);
            close(1000.0 * bin.backup_kw, line.9, 1e-3);
        }
        // Hand-worked: the columns' weighted sums, load over machine and backup.
        let sum = |of: fn(&Line) -> f64| of_machine.iter().map(|l| l.2 * of(l)).sum::<f64>();
        close(sum(|l| l.3) / (sum(|l| l.8) + sum(|l| l.9)), rating, 5e-5);
        rated_as(&format!("HSPF2 at {name} speed"), M1, rating, 5e-5, found);
    }
}

#[test]
fn one_bin_of_two_speeds_can_be_followed_on_paper() {
    // Region IV, 37 °F: BL = 18/50·1.15·36000 = 14904. Low through 35 and 17 °F: 12600 + 2·200 = 13000
    // Btu/h, 1170 + 2·70/18 = 1177.8 W; high 31666.7 and 2838.9. X = (31666.7 − 14904)/18666.7 = 0.89800;
    // e = 0.89800·1177.8 + 0.10200·2838.9 = 1347.2 W.
    let bin = *rated(&two_speed(), &plain()).1.iter().find(|b| b.outdoor_f == 37.0).unwrap();
    close(1000.0 * bin.machine_kw, 1_347.2, 0.05);
}

#[test]
fn below_5_degrees_the_slope_of_17_and_47_holds() {
    let bins = rated(&variable(Some(at(25_000.0, 3_500.0))), &plain()).1;
    let bin = |t: f64| *bins.iter().find(|b| b.outdoor_f == t).unwrap();
    // Hand-worked at 2 °F: slopes (40000 − 30000)/30 and (3500 − 3600)/30: 24000 Btu/h, 3510 W.
    close(1000.0 * bin(2.0).machine_kw, 3_510.0, 1e-6);
    close(1000.0 * bin(2.0).backup_kw, (40_831.2 - 24_000.0) / 3.413, 1e-6);
    // Without the test, at 2 °F: 30000 − 15·10000/30 = 25000 Btu/h and 3600 + 50 = 3650 W.
    let without = rated(&variable(None), &plain()).1;
    let cold = without.iter().find(|b| b.outdoor_f == 2.0).unwrap();
    close(1000.0 * cold.machine_kw, 3_650.0, 1e-6);
}

#[test]
fn the_other_reading_below_5_degrees_is_0_05_percent_away() {
    // Hand-worked 9.2598: the line of 5 and 17 °F goes on below 5 °F. The three cold bins by hand, the
    // rest as rated.
    let bins = rated(&variable(Some(at(25_000.0, 3_500.0))), &plain()).1;
    let used = |b: &HeatingBin| {
        if b.outdoor_f > 5.0 {
            return 1000.0 * (b.machine_kw + b.backup_kw);
        }
        let below = b.outdoor_f - 5.0;
        let (heat, watts) = (25_000.0 + below * 5_000.0 / 12.0, 3_500.0 + below * 100.0 / 12.0);
        watts + (kwh_to_btu(b.load_kw) - heat) / 3.413
    };
    let load: f64 = bins.iter().map(|b| b.share * kwh_to_btu(b.load_kw)).sum();
    close(load / bins.iter().map(|b| b.share * used(b)).sum::<f64>(), 9.2598, 5e-5);
}

#[test]
fn an_untested_35_degree_point_takes_the_standards_factors() {
    // From memory, then hand-worked: 0.90·(21000 + 0.6·13000) = 25920; 0.985·(2450 + 270) = 2679.2.
    let HeatingTests::OneSpeed(full) = one_speed() else { panic!() };
    let estimate = SpeedTests { at_35: None, ..full }.at_35();
    close(kwh_to_btu(estimate.capacity_kw), 25_920.0, 1e-6);
    close(1000.0 * estimate.power_kw, 2_679.2, 1e-6);
}

#[test]
fn cooling_of_variable_speed_is_rated_as_worked_by_hand() {
    // Hand-worked with C_D 0.25 and V 0.93: 13.9920.
    let tests = CoolingTests::ManySpeeds {
        variable: true,
        low_67: at(15_000.0, 750.0),
        low_82: at(14_000.0, 900.0),
        intermediate_87: Some(at(24_000.0, 1_900.0)),
        full_82: at(38_000.0, 3_100.0),
        full_95: at(36_000.0, 3_500.0),
    };
    let found = seer2(&tests, &us(), true, Some(0.25)).unwrap();
    rated_as("SEER2 at variable speed, C_D 0.25", M1_COOLING, 13.9920, 5e-5, found);
    // An air conditioner's load is larger by 1/0.93, so it runs at higher speed: a lower rating.
    assert!(seer2(&tests, &us(), false, Some(0.25)).unwrap() < 13.9920);
    // One speed, hand-worked: (1 − 0.5·0.20)·36000/3000 = 10.8.
    let single = CoolingTests::OneSpeed { at_82: at(36_000.0, 3_000.0) };
    let found = seer2(&single, &us(), true, None).unwrap();
    rated_as("SEER2 at one speed: (1 − 0.5·0.20)·36000/3000", M1_COOLING, 10.8, 1e-9, found);
}

#[test]
fn two_speeds_of_one_machine_cool_as_one_speed_at_full_load() {
    // Hand-worked: if low speed has the full speed's efficiency everywhere (EER 12) and nothing cycles,
    // the season's is 12 too, whatever the bins.
    let level = |btuh: f64| at(btuh, btuh / 12.0);
    let tests = CoolingTests::ManySpeeds {
        variable: false,
        low_67: level(15_000.0),
        low_82: level(15_000.0),
        intermediate_87: None,
        full_82: level(36_000.0),
        full_95: level(36_000.0),
    };
    close(seer2(&tests, &us(), true, Some(0.0)).unwrap(), 12.0, 1e-9);
}

#[test]
fn the_european_hours_add_up_and_hold_their_identity() {
    // Published: totals of the bin table, and Σ h(16 − T)/(16 − Tdesign) = equivalent hours, EN 14825.
    let climate = eu();
    for (season, total, equivalent) in [
        (EuSeason::Average, 4_910.0, 2_066.0),
        (EuSeason::Warmer, 3_590.0, 1_336.0),
        (EuSeason::Colder, 6_446.0, 2_465.0),
    ] {
        let bins = climate.heating(season);
        close(sums(bins), total, 1e-9);
        let loaded: f64 = bins.iter().map(|b| b.weight * part_load(b.outdoor, season)).sum();
        let hours = ("published", "EN 14825; Regulations (EU) 206/2012 and 813/2013");
        rated_as(&format!("equivalent hours, {season:?}"), hours, equivalent, 0.5, loaded);
        let hours = climate.heating_off_mode(season, Use::OneMode, Carrier::Water).unwrap();
        assert_eq!(hours.equivalent, equivalent);
    }
    close(sums(&climate.cooling), 2_602.0, 1e-9);
}

fn annex_h() -> HeatingDeclaration {
    let points = [
        (-10.0, 7.80, 2.60),
        (-7.0, 9.55, 3.26),
        (-6.0, 9.70, 3.30),
        (2.0, 11.17, 4.00),
        (7.0, 12.66, 4.91),
        (12.0, 14.30, 5.50),
    ];
    HeatingDeclaration {
        design_load_kw: 11.46,
        season: EuSeason::Average,
        carrier: Carrier::Water,
        points: points
            .map(|(outdoor_c, capacity_kw, efficiency)| DeclaredPoint { outdoor_c, capacity_kw, efficiency })
            .to_vec(),
        operation_limit_c: Some(-10.0),
    }
}

#[test]
fn the_standards_own_example_gives_its_published_scop() {
    // Published (a transcription): EN 14825:2018 Annex H, SCOPon 3.61; here 3.598, 0.34 % below.
    rated_as(
        "SCOPon of the standard's example",
        ANNEX_H,
        3.61,
        0.005 * 3.61,
        scop_on(&annex_h(), &eu()).unwrap(),
    );
}

#[test]
fn the_operation_limit_leaves_the_coldest_hours_to_backup() {
    let limited = HeatingDeclaration { operation_limit_c: Some(-5.0), ..annex_h() };
    assert!(scop_on(&limited, &eu()).unwrap() < scop_on(&annex_h(), &eu()).unwrap());
    // Hand-worked: without any machine at all, heat is resistance and SCOPon is 1.
    let none = HeatingDeclaration { operation_limit_c: Some(30.0), ..annex_h() };
    close(scop_on(&none, &eu()).unwrap(), 1.0, 1e-12);
}

#[test]
fn off_modes_weigh_by_their_published_hours() {
    // Hand-worked with the hours of Regulation (EU) 206/2012, heating only, average, 1400 h: 3 kW,
    // SCOPon 4, thermostat-off 30 W, off 5 W, crankcase 20 W: 4200/(1050 + 5.37 + 18.36 + 77.02).
    let hours = eu().heating_off_mode(EuSeason::Average, Use::OneMode, Carrier::Air).unwrap();
    let powers =
        OffModePowers { thermostat_off_kw: 0.030, standby_kw: 0.0, off_kw: 0.005, crankcase_kw: 0.020 };
    close(with_off_modes(4.0, 3.0, &hours, &powers), 4_200.0 / 1_150.75, 1e-9);
    let cooling = eu().cooling_off_mode(Use::OneMode).unwrap();
    assert_eq!((cooling.equivalent, cooling.crankcase), (350.0, 7_760.0));
    assert_eq!(eu().cooling_off_mode(Use::Reversible).unwrap().off, 0.0);
}

#[test]
fn european_cooling_of_a_machine_that_follows_its_load_is_the_mean_of_its_points() {
    // Hand-worked: capacity equal to the load at each point, EER 4 everywhere: SEERon 4.
    let followed = [35.0_f64, 30.0, 25.0, 20.0].map(|outdoor_c| DeclaredPoint {
        outdoor_c,
        capacity_kw: 3.5 * (outdoor_c - 16.0) / 19.0,
        efficiency: 4.0,
    });
    close(seer_on(3.5, &followed, &eu()).unwrap(), 4.0, 1e-12);
    // One output of 3.5 kW: cycling. Hand-worked at 35, 30, 25, 20 °C: CR 1, 14/19, 9/19, 4/19, so the
    // EER is 4, 3.7368, 3.4737, 3.2105, linear in T: 4·(1 − 0.25(35 − T)/19), held outside.
    let single = followed.map(|p| DeclaredPoint { capacity_kw: 3.5, ..p });
    let eer = |t: f64| 4.0 * (1.0 - 0.25 * (35.0 - t.clamp(20.0, 35.0)) / 19.0);
    let bins = eu().cooling;
    let cold: f64 = bins.iter().map(|b| b.weight * (b.outdoor - 16.0)).sum();
    let drawn: f64 = bins.iter().map(|b| b.weight * (b.outdoor - 16.0) / eer(b.outdoor)).sum();
    close(seer_on(3.5, &single, &eu()).unwrap(), cold / drawn, 1e-9);
}

#[test]
fn a_map_stands_for_the_laboratorys_tests() {
    // Snapshot of nothing: the points are read straight off the built-in table of service data.
    let map = tables::open("single-speed-30").unwrap().heating.unwrap();
    let Some(HeatingTests::OneSpeed(full)) = heating_tests(&map, Speeds::of(&map)) else { panic!() };
    close(kwh_to_btu(full.at_47.capacity_kw), 29_000.0, 1e-6);
    close(kwh_to_btu(full.at_35.unwrap().capacity_kw), 24_100.0, 1e-6);
    close(kwh_to_btu(full.at_5.unwrap().capacity_kw), 13_900.0, 1e-6);
    close(full.at_17.power_kw, 2.08, 1e-12);
    assert_eq!(cooling_tests(&map, Speeds::One), None, "65 °F is too far from 82");
    let warm_only = PerformanceMap::new(map.rows().iter().copied().filter(|r| r.outdoor_c > 0.0).collect());
    assert_eq!(heating_tests(&warm_only.unwrap(), Speeds::One), None, "nothing at 17 °F");
}

#[test]
fn a_map_of_test_points_has_the_rating_of_the_test_points() {
    // Not by way of the map's lines alone: the hand-worked one-speed machine as three rows.
    use winterledger::equipment::map::MapRow;
    let row =
        |f: f64, p: Point| MapRow { outdoor_c: fahrenheit_to_celsius(f), least: p, rated: p, greatest: p };
    let rows = [(47.0, at(34_000.0, 2_900.0)), (35.0, at(30_600.0, 2_800.0)), (17.0, at(21_000.0, 2_450.0))];
    let map = PerformanceMap::new(rows.map(|(f, p)| row(f, p)).to_vec()).unwrap();
    let cooling = PerformanceMap::new(
        [(82.0, at(37_000.0, 3_000.0)), (95.0, at(36_000.0, 3_400.0))].map(|(f, p)| row(f, p)).to_vec(),
    )
    .unwrap();
    close(own_hspf2(&map, Some(&cooling), Speeds::One, &us()).unwrap(), 7.6153, 5e-5);
    // Hand-worked: 0.9·37000/3000.
    close(own_seer2(&cooling, Speeds::One, true, &us()).unwrap(), 11.1, 1e-9);
}

#[test]
fn a_map_is_declared_for_a_european_season_at_its_loads() {
    let map = tables::open("cold-climate-36").unwrap().heating.unwrap();
    let declared = declaration(&map, EuSeason::Average, Carrier::Air, -7.0, None).unwrap();
    // By definition the greatest output carries the load at the bivalent temperature.
    let greatest = map.held_at(-7.0).greatest.capacity_kw;
    close(declared.design_load_kw * 23.0 / 26.0, greatest, 1e-12);
    let scop = scop_on(&declared, &eu()).unwrap();
    let at_bivalent = map.held_at(-7.0).greatest;
    // It beats its COP at -7 °C and stays below that of its mildest declared point.
    assert!(scop > at_bivalent.capacity_kw / at_bivalent.power_kw && scop < 3.6, "{scop}");
    let colder = declaration(&map, EuSeason::Colder, Carrier::Air, -7.0, None).unwrap();
    assert!(scop_on(&colder, &eu()).unwrap() < scop);
}

#[test]
fn the_built_in_table_gives_its_energy_at_each_bin() {
    // tests/reference/ratings_map_bins.csv: hand-worked by linear interpolation of the table.
    let map = tables::open("single-speed-30").unwrap().heating.unwrap();
    let text = include_str!("../reference/ratings_map_bins.csv");
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text.as_bytes());
    let mut bins = 0;
    for line in reader.deserialize::<[f64; 6]>() {
        let [outdoor_f, load, capacity, power, machine, backup] = line.unwrap();
        let row = map.held_at(fahrenheit_to_celsius(outdoor_f));
        close(kwh_to_btu(row.greatest.capacity_kw), capacity, 2e-3);
        close(row.greatest.power_kw, power, 2e-5);
        let hour = winterledger::equipment::output::MachineHour::new(&row, 0.0);
        let output = hour.run(0.25, btu_to_kwh(load));
        close(output.draw, machine, 2e-6);
        close(btu_to_kwh(load) - output.heat, backup, 2e-6);
        bins += 1;
    }
    assert_eq!(bins, 14);
}

/// Generic single-speed curves, °F: capacity and 1/COP relative to rated, Cutler et al.,
/// NREL/TP-5500-56354 (2013); coefficients from memory.
fn remembered(outdoor_f: f64) -> (f64, f64) {
    let indoor = 70.0;
    let curve = |c: [f64; 6]| {
        c[0] + c[1] * indoor
            + c[2] * indoor * indoor
            + c[3] * outdoor_f
            + c[4] * outdoor_f * outdoor_f
            + c[5] * indoor * outdoor_f
    };
    let capacity =
        curve([0.566_333_415, -0.000_744_164, -0.000_010_3, 0.009_414_634, 0.000_050_6, -0.000_006_75]);
    let input =
        curve([0.718_398_423, 0.003_498_178, 0.000_142_202, -0.005_724_331, 0.000_140_85, -0.000_215_321]);
    (capacity, input)
}

#[test]
fn a_map_of_the_usual_rows_follows_remembered_curves_between_them() {
    use winterledger::equipment::map::MapRow;
    // A machine of 10 kW and COP 3.3 at 47 °F, sampled at the rows that makers print.
    let row = |f: f64| {
        let (capacity, input) = remembered(f);
        let capacity_kw = 10.0 * capacity;
        let point = Point { capacity_kw, power_kw: capacity_kw * input / 3.3 };
        MapRow { outdoor_c: fahrenheit_to_celsius(f), least: point, rated: point, greatest: point }
    };
    let map = PerformanceMap::new([47.0, 35.0, 17.0, 5.0, -5.0, -13.0].map(row).to_vec()).unwrap();
    let (mut worst_capacity, mut worst_power) = (0.0_f64, 0.0_f64);
    for f in -13..=47 {
        let (found, expected) =
            (map.held_at(fahrenheit_to_celsius(f64::from(f))).greatest, row(f64::from(f)).greatest);
        worst_capacity = worst_capacity.max((found.capacity_kw / expected.capacity_kw - 1.0).abs());
        worst_power = worst_power.max((found.power_kw / expected.power_kw - 1.0).abs());
    }
    // Held to 1 %.
    assert!(worst_capacity < 0.01 && worst_power < 0.01, "{worst_capacity} {worst_power}");
}
