//! The built-in places held against figures from outside, and against numpy and pandas.

use crate::outside::Outside;
use crate::python;
use winterledger::units::{celsius_to_fahrenheit, fahrenheit_to_celsius};
use winterledger::weather::places::{open, places};
use winterledger::weather::statistics::{
    bins_1_kelvin, bins_5_fahrenheit, coldest_hour, degree_days_above, degree_days_below, hours_below,
    longest_spell_below, percentile,
};
use winterledger::weather::{OutdoorYear, YearKind};

/// Differences larger than a sum of 8,760 rounding errors would be differences of method.
const TOLERANCE: f64 = 1.0e-9;

fn year(key: &str) -> OutdoorYear {
    open(key).unwrap_or_else(|problem| panic!("{problem}"))
}

#[test]
fn every_built_in_place_is_whole_and_says_where_it_is() {
    assert_eq!(places().len(), 6);
    for place in places() {
        let year = year(place.key);
        assert_eq!(year.place, place.name);
        assert_eq!(
            (year.kind, year.columns.dry_bulb_c.len(), year.filled_hours),
            (YearKind::Typical, 8760, 0)
        );
        assert!(year.latitude.is_some() && year.longitude.is_some() && year.elevation_m.is_some());
        assert!(year.utc_offset_h.is_some() && year.zone.is_some());
        let others = [
            &year.columns.dew_point_c,
            &year.columns.relative_humidity,
            &year.columns.pressure_pa,
            &year.columns.global_w_m2,
        ];
        assert!(others.iter().all(|column| column.is_some()), "{}", place.key);
        assert!(
            year.columns.direct_w_m2.is_some()
                && year.columns.diffuse_w_m2.is_some()
                && year.columns.wind_m_s.is_some()
        );
    }
}

/// Published: standard atmosphere, within what weather and the station's own height do to it.
#[test]
fn pressure_fits_the_elevation_of_every_place() {
    for place in places() {
        let year = year(place.key);
        let standard = 101_325.0 * (1.0 - 2.255_77e-5 * year.elevation_m.unwrap()).powf(5.255_88);
        let mean = year.columns.pressure_pa.unwrap().mean();
        assert!((mean / standard - 1.0).abs() < 0.015, "{}: {mean} against {standard}", place.key);
    }
}

/// The sun is highest near noon of standard time, so an hour's shift of the file would show.
#[test]
fn the_sun_stands_highest_where_the_longitude_says() {
    for place in places() {
        let year = year(place.key);
        let global = year.columns.global_w_m2.unwrap();
        let (mut weighted, mut sum) = (0.0, 0.0);
        for (h, w) in global.iter().enumerate() {
            weighted += w * ((h % 24) as f64 + 0.5);
            sum += w;
        }
        // Local noon comes 1 h later for each 15° that the place lies west of its zone's meridian.
        let noon = 12.0 + year.utc_offset_h.unwrap() - year.longitude.unwrap() / 15.0;
        // Clouds of the afternoon and the equation of time move the middle by some minutes.
        assert!((weighted / sum - noon).abs() < 0.35, "{}: {} against {noon}", place.key, weighted / sum);
    }
}

#[test]
fn the_statistics_of_every_place_agree_to_the_printed_digit() {
    let table = include_str!("../reference/weather_statistics.csv");
    let mut rows = 0;
    let heads = csv::Reader::from_reader(table.as_bytes()).headers().unwrap().clone();
    for record in csv::Reader::from_reader(table.as_bytes()).records() {
        let record = record.unwrap();
        let printed = |i: usize| record[i].parse::<f64>().unwrap();
        let hours = year(&record[0]).columns.dry_bulb_c;
        let close = |found: f64, i: usize, digit: f64| {
            let what = format!("{}: {}", &record[0], heads[i].replace('_', " "));
            let source = record[8].trim_start_matches("independent: ");
            let (value, tolerance) = (printed(i), digit / 2.0 + 1e-9);
            Outside { what, origin: "independent tool", source, value, tolerance }.holds(found);
        };
        close(celsius_to_fahrenheit(hours.mean()), 1, 0.1);
        close(celsius_to_fahrenheit(coldest_hour(&hours).unwrap().temperature_c), 2, 0.1);
        close(1.8 * degree_days_below(&hours, fahrenheit_to_celsius(65.0)), 3, 1.0);
        for (i, limit) in [(4, 17.0), (5, 5.0), (6, -5.0)] {
            close(hours_below(&hours, fahrenheit_to_celsius(limit)) as f64, i, 0.0);
        }
        rows += 1;
    }
    assert_eq!(rows, places().len());
}

/// Independent tool: numpy 2.4.6 and pandas 3.1.1 from PyPI. Agreement to 1e-9, counts and bins exact.
#[test]
fn numpy_and_pandas_find_the_same_statistics() {
    for place in places() {
        let question =
            format!("{{\"what\": \"statistics\", \"file\": \"data/weather/{}.csv.gz\"}}", place.key);
        let answer = python::run("weather_reference.py", &question);
        println!("{}: {}", place.key, answer["versions"]);
        let versions = &answer["versions"];
        assert_eq!((&versions["numpy"], &versions["pandas"]), (&"2.4.6".into(), &"3.1.1".into()));
        let hours = year(place.key).columns.dry_bulb_c;
        let base = fahrenheit_to_celsius;
        let coldest = coldest_hour(&hours).unwrap();
        let design = |share| celsius_to_fahrenheit(percentile(&hours, share).unwrap());
        for (key, found) in [
            ("hours", hours.len() as f64),
            ("mean_degF", celsius_to_fahrenheit(hours.mean())),
            ("min_degF", celsius_to_fahrenheit(coldest.temperature_c)),
            ("coldest_hour", coldest.hour as f64),
            ("hdd65_degF_day", 1.8 * degree_days_below(&hours, base(65.0))),
            ("cdd50_degF_day", 1.8 * degree_days_above(&hours, base(50.0))),
            ("design_99_degF", design(0.01)),
            ("design_99_6_degF", design(0.004)),
            ("hours_below_17_degF", hours_below(&hours, base(17.0)) as f64),
            ("longest_below_32_degF", longest_spell_below(&hours, base(32.0)) as f64),
        ] {
            let expected = answer[key].as_f64().unwrap();
            let (value, tolerance) = (expected, TOLERANCE * expected.abs().max(1.0));
            let what = format!("{}: {}", place.key, key.replace('_', " "));
            let source = "numpy 2.4.6, pandas 3.1.1";
            Outside { what, origin: "independent tool", source, value, tolerance }.holds(found);
        }
        let bins: Vec<(i64, f64)> = bins_5_fahrenheit(place.name, &hours)
            .bins
            .iter()
            .map(|b| (celsius_to_fahrenheit(b.temperature_c).round() as i64, b.hours))
            .collect();
        let row = |v: &serde_json::Value| (v[0].as_f64().unwrap() as i64, v[1].as_f64().unwrap());
        let expected: Vec<(i64, f64)> = answer["bins_5_degF"].as_array().unwrap().iter().map(row).collect();
        assert_eq!(bins, expected, "{}", place.key);
    }
}

#[test]
fn no_hour_is_lost_between_bins() {
    for place in places() {
        let hours = year(place.key).columns.dry_bulb_c;
        for table in [bins_5_fahrenheit(place.name, &hours), bins_1_kelvin(place.name, &hours)] {
            assert_eq!(table.bins.iter().map(|b| b.hours).sum::<f64>(), 8760.0);
            assert!(table.bins.windows(2).all(|pair| pair[0].temperature_c > pair[1].temperature_c));
        }
    }
}
