//! The n-year lows held against figures from outside and against scipy, on 21 winters of a
//! re-analysis in rural France.

use crate::outside::Outside;
use crate::python;
use winterledger::weather::extremes::{Extremes, NYearLow, n_year_lows};

const MINIMA: &str = include_str!("../reference/climate_winter_minima.csv");
const EXPECTED: &str = include_str!("../reference/climate_n_year_lows.csv");
const SEED: u64 = 1;

fn minima() -> Vec<f64> {
    let mut table = csv::Reader::from_reader(MINIMA.as_bytes());
    table.records().map(|record| record.unwrap()[1].parse().unwrap()).collect()
}

fn lows() -> Extremes {
    n_year_lows(&minima(), SEED).unwrap()
}

fn by_method(low: &NYearLow, method: &str) -> f64 {
    match method {
        "moments" => low.low_c,
        "l_moments" => low.l_moments_c,
        "maximum_likelihood" => low.maximum_likelihood_c,
        other => panic!("{other} is no method"),
    }
}

#[test]
fn the_french_records_20_year_low_is_as_computed_outside_the_project() {
    let extremes = lows();
    assert_eq!((extremes.winters, extremes.coldest_c), (21, -17.24));
    let mut rows = 0;
    for record in csv::Reader::from_reader(EXPECTED.as_bytes()).records() {
        let record = record.unwrap();
        let years: u32 = record[1].parse().unwrap();
        let (expected, tolerance): (f64, f64) = (record[2].parse().unwrap(), record[3].parse().unwrap());
        let low = extremes.lows.iter().find(|low| low.years == years).unwrap();
        let found = by_method(low, &record[0]);
        let what = format!("{years}-year low in °C, 21 French winters, by {}", &record[0]);
        let (origin, source) = ("independent tool", record[4].trim_start_matches("independent: "));
        Outside { what, origin, source, value: expected, tolerance }.holds(found);
        rows += 1;
    }
    assert_eq!(rows, 3);
    // By hand from the three: 17.41 − 15.90 is more than 1 K.
    assert!(extremes.lows.iter().any(|low| low.years == 20 && low.methods_differ));
}

/// Independent tool: scipy 1.17.1 from PyPI. The fits agree to 1e-4 K (scipy's likelihood is a numeric search), the interval's ends to
/// 0.2 K: four standard errors of the difference at 50 years, 0.048 K each. By hand: the low's deviation
/// there is about 1.85 K, and a 5th percentile of n draws has the error √(0.05·0.95/n)/0.103 of it.
#[test]
fn scipy_finds_the_same_lows() {
    let question = serde_json::json!({"minima_degC": minima(), "years": [5, 10, 20, 50], "draws": 20_000});
    let answer = python::run("extremes_reference.py", &question.to_string());
    println!("{}", answer["versions"]);
    assert_eq!(answer["versions"]["scipy"], "1.17.1");
    let extremes = lows();
    assert_eq!(extremes.lows.len(), 4);
    for (i, low) in extremes.lows.iter().enumerate() {
        for method in ["moments", "l_moments", "maximum_likelihood"] {
            let (found, expected) = (by_method(low, method), answer[method][i].as_f64().unwrap());
            let what = format!("{}-year low in °C, 21 French winters, by {method}", low.years);
            let source = "scipy 1.17.1";
            Outside { what, origin: "independent tool", source, value: expected, tolerance: 1e-4 }
                .holds(found);
        }
        let ends = [low.interval_c.0, low.interval_c.1];
        println!("{} years: {:.2} °C, {:.2} to {:.2}", low.years, low.low_c, ends[0], ends[1]);
        for (end, found) in ends.into_iter().enumerate() {
            let expected = answer["interval"][i][end].as_f64().unwrap();
            assert!((found - expected).abs() < 0.2, "{} {end}: {found} against {expected}", low.years);
        }
    }
}
