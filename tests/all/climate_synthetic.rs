//! Synthetic years made from each built-in place's own monthly highs and lows, held against the measured year.

use winterledger::comparison::compare;
use winterledger::job::reader::read;
use winterledger::units::fahrenheit_to_celsius;
use winterledger::weather::places::{open, places};
use winterledger::weather::statistics::{degree_days_below, hours_below, percentile};
use winterledger::weather::synthetic::{SyntheticInput, monthly_extremes, monthly_hours, odd_month, year};
use winterledger::weather::{OutdoorYear, Weather, YearKind};

const DEMO: &str = include_str!("../../data/demo.toml");

fn input_of(measured: &OutdoorYear, seed: u64) -> SyntheticInput {
    let (lows_c, highs_c) = monthly_extremes(&measured.columns.dry_bulb_c);
    SyntheticInput {
        place: measured.place.clone(),
        highs_c,
        lows_c,
        means_c: Some(monthly_hours(&measured.columns.dry_bulb_c)),
        heating_99_c: percentile(&measured.columns.dry_bulb_c, 0.01).unwrap(),
        latitude: measured.latitude,
        zone: measured.zone,
        seed,
    }
}

fn hdd65(year: &OutdoorYear) -> f64 {
    1.8 * degree_days_below(&year.columns.dry_bulb_c, fahrenheit_to_celsius(65.0))
}

/// The bounds are those asked of a synthetic year: 3 % of the degree-days, or 100 where there are
/// fewer than 3,000; 0.1 K on the mean high and the mean low of each month.
#[test]
fn a_places_own_monthly_means_give_its_degree_days_again() {
    for place in places() {
        let measured = open(place.key).unwrap();
        for seed in 1..=5 {
            let input = input_of(&measured, seed);
            let made = year(&input).unwrap();
            let (wanted, found) = (hdd65(&measured), hdd65(&made));
            let coldest =
                |year: &OutdoorYear| year.columns.dry_bulb_c.iter().copied().fold(f64::INFINITY, f64::min);
            println!(
                "{} seed {seed}: HDD65 {wanted:.0} measured, {found:.0} synthetic; coldest hour {:.1} and {:.1} °C",
                place.key,
                coldest(&measured),
                coldest(&made)
            );
            let allowed = if wanted >= 3000.0 { 0.03 * wanted } else { 100.0 };
            assert!((found - wanted).abs() <= allowed, "{}: {found} against {wanted}", place.key);
            let (lows, highs) = monthly_extremes(&made.columns.dry_bulb_c);
            let means = monthly_hours(&made.columns.dry_bulb_c);
            for (found, wanted) in means.iter().zip(input.means_c.unwrap()) {
                assert!((found - wanted).abs() < 0.1, "{}: {found} against {wanted}", place.key);
            }
            for (found, wanted) in lows.iter().chain(&highs).zip(input.lows_c.iter().chain(&input.highs_c)) {
                assert!((found - wanted).abs() < 0.1, "{}: {found} against {wanted}", place.key);
            }
            let tail = percentile(&made.columns.dry_bulb_c, 0.01).unwrap();
            assert!((tail - input.heating_99_c).abs() < 0.1, "{}: {tail}", place.key);
            assert_eq!(made.kind, YearKind::Synthetic { seed });
        }
    }
}

/// Of a climate table with highs and lows alone the mean of a month is halfway between; that is what the year has. The
/// place's own mean of hours lies elsewhere: how far is shown, and that it can be a kelvin at Northway, in words in the
/// README. The degree-days of seed 1
/// stay within the bounds asked for, Tucson's by a hair; no other seed is held to it.
#[test]
fn highs_and_lows_alone_give_months_halfway_between() {
    for place in places() {
        let measured = open(place.key).unwrap();
        let input = SyntheticInput { means_c: None, ..input_of(&measured, 1) };
        let made = year(&input).unwrap();
        let (found, own) =
            (monthly_hours(&made.columns.dry_bulb_c), monthly_hours(&measured.columns.dry_bulb_c));
        for ((high, low), found) in input.highs_c.iter().zip(&input.lows_c).zip(&found) {
            assert!((found - (high + low) / 2.0).abs() < 0.1, "{}: {found}", place.key);
        }
        let off = found.iter().zip(&own).map(|(found, own)| (found - own).abs()).fold(0.0, f64::max);
        let (wanted, found) = (hdd65(&measured), hdd65(&made));
        println!(
            "{}: months up to {off:.2} K off its own; HDD65 {wanted:.0} measured, {found:.0}",
            place.key
        );
        let allowed = if wanted >= 3000.0 { 0.03 * wanted } else { 100.0 };
        assert!((found - wanted).abs() <= allowed, "{}: {found} against {wanted}", place.key);
        assert!(off < 1.0, "{}: {off}", place.key);
    }
}

/// Another seed is another year with the same means; the same seed is the same year.
#[test]
fn the_seed_alone_decides_the_days() {
    let measured = open("nj-mcguire").unwrap();
    let made = |seed| year(&input_of(&measured, seed)).unwrap();
    assert_eq!(made(1), made(1));
    assert_ne!(made(1).columns.dry_bulb_c, made(2).columns.dry_bulb_c);
    assert_ne!(made(1).sha256, made(2).sha256);
}

#[test]
fn figures_that_do_not_belong_together_are_refused() {
    let input = input_of(&open("nj-mcguire").unwrap(), 1);
    let refused = |change: &dyn Fn(&mut SyntheticInput)| {
        let mut changed = input.clone();
        change(&mut changed);
        year(&changed).unwrap_err().to_string()
    };
    assert!(refused(&|i| i.means_c = Some(i.highs_c)).contains("halfway"));
    assert!(refused(&|i| i.heating_99_c = 10.0).contains("does not belong to months"));
    assert!(refused(&|i| i.heating_99_c = -60.0).contains("does not belong to months"));
    // An extreme low in its place would be made up for by hot days: Chicago's record low is −27 °F (from memory).
    let chicago = input_of(&open("il-chicago").unwrap(), 1);
    let of_chicago = |heating_99_c: f64| year(&SyntheticInput { heating_99_c, ..chicago.clone() });
    assert!(of_chicago(fahrenheit_to_celsius(-27.0)).unwrap_err().to_string().contains("99 % temperature"));
    assert!(of_chicago(chicago.heating_99_c - 1.0).is_ok());
    // No 99 % temperature belongs to months of which one is mistyped: 20 °C (68 °F) for July's 29.
    let slip = refused(&|i| (i.highs_c[6], i.means_c) = (20.0, None));
    assert!(slip.contains("mean high of month 7, 68.0 °F (20.0 °C)"), "{slip}");
    assert!(refused(&|i| i.heating_99_c = f64::NAN).contains("no number"));
    assert!(refused(&|i| i.highs_c[6] = i.lows_c[6]).contains("month 7"));
    assert!(refused(&|i| std::mem::swap(&mut i.highs_c, &mut i.lows_c)).contains("month 1"));
}

/// What a year of the demonstration's heat pump and strips comes to: hours below 17 °F, the pump's
/// kWh, the strips' kWh.
fn of_the_demonstration(weather: &OutdoorYear) -> [f64; 3] {
    let job = read("demo.toml", DEMO.to_owned()).unwrap();
    let comparison = compare(&job, &Weather::Year(Box::new(weather.clone()))).unwrap();
    let option = comparison.options.iter().find(|o| o.design.name == "Heat pumps with strips").unwrap();
    let [pump, strips, ..] = option.zones[0].sums.heater_draw_kwh;
    [hours_below(&weather.columns.dry_bulb_c, fahrenheit_to_celsius(17.0)) as f64, pump, strips]
}

/// By how many per cent the hours below 17 °F are fewest and most against those measured, where there are any.
fn range_of_hours(rows: &[csv::StringRecord]) -> [i64; 2] {
    let hours = |row: &csv::StringRecord| row[2].parse::<f64>().unwrap();
    let of_place = |row: &csv::StringRecord| {
        let measured = rows.iter().find(|other| other[0] == row[0] && &other[1] == "measured").unwrap();
        (hours(measured) > 0.0).then(|| (100.0 * (hours(row) / hours(measured) - 1.0)).round() as i64)
    };
    let shares: Vec<i64> = rows.iter().filter_map(of_place).collect();
    [*shares.iter().min().unwrap(), *shares.iter().max().unwrap()]
}

/// A snapshot of what was found, not a bound on how good it must be: `WINTERLEDGER_REWRITE=1` writes
/// it anew. The energies may move by 2 % with the machine's model; the hours are exact.
#[test]
fn hours_below_17_and_a_heat_pumps_energy_are_as_last_found() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/reference/climate_synthetic_found.csv");
    let mut found = String::from("place,year,hours_below_17_degF,heat_pump_kwh,strips_kwh,origin\n");
    for place in places() {
        let measured = open(place.key).unwrap();
        let years = (1..=3).map(|seed| (format!("seed {seed}"), year(&input_of(&measured, seed)).unwrap()));
        let mut all = vec![("measured".to_owned(), measured.clone())];
        all.extend(years);
        for (name, year) in all {
            let [hours, pump, strips] = of_the_demonstration(&year);
            found += &format!("{},{name},{hours},{pump:.0},{strips:.0},snapshot\n", place.key);
        }
    }
    println!("{found}");
    if std::env::var_os("WINTERLEDGER_REWRITE").is_some() {
        std::fs::write(path, &found).unwrap();
    }
    let rows = |text: &str| {
        let mut table = csv::Reader::from_reader(text.as_bytes());
        table.records().map(|record| record.unwrap()).collect::<Vec<_>>()
    };
    let (written, found) = (rows(&std::fs::read_to_string(path).unwrap()), rows(&found));
    assert_eq!(written.len(), found.len());
    assert_eq!(range_of_hours(&found), [-14, 28], "the note on synthetic years tells it");
    for (written, found) in written.iter().zip(&found) {
        assert_eq!((&written[0], &written[1], &written[2]), (&found[0], &found[1], &found[2]));
        for column in [3, 4] {
            let (old, new): (f64, f64) = (written[column].parse().unwrap(), found[column].parse().unwrap());
            assert!((new - old).abs() <= 0.02 * old + 10.0, "{found:?} against {written:?}");
        }
    }
}

/// A slip of the pen in one month is told with the month; the means of the built-in places are not.
#[test]
fn a_mistyped_month_is_told_against_its_neighbours() {
    for place in places() {
        let (lows, highs) = monthly_extremes(&open(place.key).unwrap().columns.dry_bulb_c);
        assert_eq!(odd_month(&highs, &lows), None, "{}", place.key);
        for month in 0..12 {
            for (high, slip) in [(true, 8.0), (true, -8.0), (false, 8.0), (false, -8.0)] {
                let (mut highs, mut lows) = (highs, lows);
                if high {
                    highs[month] += slip
                } else {
                    lows[month] += slip
                };
                let odd = odd_month(&highs, &lows).unwrap_or_else(|| panic!("{} {month} {slip}", place.key));
                assert_eq!(odd.month, month + 1, "{} {high} {slip}", place.key);
            }
        }
    }
}
