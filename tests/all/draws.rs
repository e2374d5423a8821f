//! Winters drawn by chance: closed forms against what is drawn, the fast way against the full one, coupled
//! cold against independent.
//!
//! The houses, prices and tanks are invented. Start at the test names.

use crate::demo_job::{chicago, job, with_tank};
use crate::supply::tank;
use winterledger::chance::Chance;
use winterledger::comparison::winter::{OptionWinter, Terms};
use winterledger::comparison::{Comparison, RunWeather, compare};
use winterledger::study::draws;
use winterledger::study::draws::circumstances::DrawnYears;
use winterledger::study::draws::{Probability, Spread, WinterDraws};
use winterledger::supply::book::{Book, StoreYear, through_days};
use winterledger::supply::{MarketDays, Store};
use winterledger::weather::OutdoorYear;

const FURNACE: usize = 2;
const PUMP_AND_FURNACE: usize = 3;

/// The tank of 500 gallons through 180 days of so many gallons each.
fn through(store: &Store, a_day: f64, lead: impl FnMut(usize) -> usize) -> StoreYear {
    let market = MarketDays::default();
    through_days(Book::new(store, &market, store.start_kwh), 180, |_| a_day, lead)
}

/// A truck that comes after 7 days, or with a chance of 1 in 10 after 20: P = 1 − 0.9⁵ = 0.40951, and
/// 76.4843 dry hours are expected (an independent enumeration).
#[test]
fn a_two_point_lead_runs_dry_as_often_as_the_closed_form_says() {
    let store = tank();
    let years: Vec<StoreYear> = (0..4000)
        .map(|draw| {
            let late = |day: usize| Chance::keyed(3, draw, 5, day as u64).share() < 0.1;
            through(&store, 10.0, |day| if late(day) { 20 } else { 7 })
        })
        .collect();
    let dry = Probability::of(years.iter().map(|year| year.run_outs > 0));
    let away = (dry.share() - 0.40951) / dry.standard_error();
    assert!(away.abs() < 4.0, "{dry:?}: {away} standard errors");
    let hours: Vec<f64> = years.iter().map(StoreYear::dry_hours).collect();
    let mean = hours.iter().sum::<f64>() / 4000.0;
    let variance = hours.iter().map(|h| (h - mean).powi(2)).sum::<f64>() / 3999.0;
    let away = (mean - 76.4843) / (variance / 4000.0).sqrt();
    assert!(away.abs() < 4.0, "{mean} h: {away} standard errors");
}

/// Two numbers of the standard normal distribution, one of them the same for both options.
fn pair(draw: u64) -> (f64, f64) {
    let mut chance = Chance::keyed(11, draw, 1, 0);
    (chance.normal(), chance.normal())
}

/// Closed form: A ~ N(2400, 400) and B ~ N(1900, 250); B is less with Φ(500/√(400² + 250² − 2ρ·400·250)), which
/// is 0.855427 for ρ = 0 and 0.977250 for ρ = 0.8.
#[test]
fn paired_draws_tell_how_often_one_option_costs_less_as_the_closed_form_says() {
    for (correlation, expected) in [(0.0_f64, 0.855427), (0.8, 0.977250)] {
        let less = |draw| {
            let (shared, own) = pair(draw);
            let own = correlation * shared + (1.0 - correlation * correlation).sqrt() * own;
            1900.0 + 250.0 * own < 2400.0 + 400.0 * shared
        };
        let found = Probability::of((0..20_000).map(less));
        let away = (found.share() - expected) / found.standard_error();
        assert!(away.abs() < 4.0, "{found:?}: {away} standard errors");
    }
}

/// Closed form: a load of 900 at a price of 2.60 (medians; deviations of the logarithms 0.15 and 0.30, independent)
/// costs 1,522.43, 2,340 and 3,596.63 at 10, 50 and 90 %, on the mean 2,475.40 with a deviation of 854.18.
#[test]
fn load_times_price_spreads_as_the_closed_form_says() {
    let count = 40_000_u16;
    let cost = |(load, price): (f64, f64)| 900.0 * (0.15 * load).exp() * 2.60 * (0.30 * price).exp();
    let spread = Spread::of((0..u64::from(count)).map(|draw| cost(pair(draw))));
    // Four standard errors of each: √(p(1 − p)/n) over the density of the logarithm, whose deviation is
    // √(0.15² + 0.30²) = 0.3354; of the mean 854.18/√n = 4.3.
    for (found, expected, bound) in
        [(spread.p10, 1522.43, 0.0115), (spread.p50, 2340.0, 0.0084), (spread.p90, 3596.63, 0.0115)]
    {
        assert!((found / expected).ln().abs() < bound, "{found} {expected}");
    }
    assert!((spread.mean - 2475.40).abs() < 4.0 * 4.3, "{}", spread.mean);
}

/// Two weather years, one of 10 gallons a day and a truck after 20 days, one of 5 and 7. From the reorder
/// level 125 gallons can be used; 19 days of 10 are more, 19 of 5 and 6 of 10 are less. So it runs dry
/// where both are of the cold year: half of the winters coupled, a quarter independent.
#[test]
fn cold_that_drives_both_runs_dry_twice_as_often_as_independent_cold() {
    let store = tank();
    let dry = |independent| {
        Probability::of((0..4000).map(|draw| {
            let years = DrawnYears::of(7, draw, 2, independent);
            let (a_day, lead) = ([5.0, 10.0][years.demand], [7, 20][years.queue]);
            through(&store, a_day, |_| lead).run_outs > 0
        }))
    };
    let (coupled, independent) = (dry(false), dry(true));
    for (found, expected) in [(coupled, 0.5), (independent, 0.25)] {
        let away = (found.share() - expected) / found.standard_error();
        assert!(away.abs() < 4.0, "{found:?}: {away} standard errors");
    }
    assert!(coupled.share() > independent.share() + 0.2);
}

fn own_year(c: &Comparison) -> &OutdoorYear {
    match &c.weather {
        RunWeather::Year(year) => year,
        RunWeather::Bins(_) => panic!("bins have no hours"),
    }
}

#[test]
fn the_fast_way_through_a_drawn_winter_is_the_full_way() {
    let changes = [("supply.\"500 gallon tank\".capacity", "250 gal")];
    let c = compare(&job(&with_tank(), &changes), &chicago()).unwrap();
    let colder = own_year(&c).winter_warmer_by(-2.0);
    for option in [FURNACE, PUMP_AND_FURNACE] {
        let winter = OptionWinter::new(&c, option, &colder).unwrap();
        let stores = c.supplies.of(&c.options[option].design.name);
        let markets = winter.markets(&stores, true);
        let mut dry = 0;
        for days in [2, 9, 30] {
            let lead = |_, _| days;
            let terms = Terms { stores: &stores, markets: &markets, lead: Some(&lead) };
            let start = [0.4 * stores[0].tank.full_kwh()];
            let (quick, full) = (winter.through(&terms, &start, false), winter.through(&terms, &start, true));
            assert!((quick.cost - full.cost).abs() < 1e-9 * full.cost, "{quick:?} {full:?}");
            assert_eq!((quick.run_outs, quick.vapour_hours), (full.run_outs, full.vapour_hours));
            assert_eq!((quick.dry_hours, quick.cold_hours), (full.dry_hours, full.cold_hours));
            assert_eq!(winter.runs_out(&terms, &start), full.run_outs > 0);
            dry += full.run_outs;
        }
        assert!(option == PUMP_AND_FURNACE || dry > 0, "neither way was tried where it runs dry");
    }
}

/// Only the options on propane, so that the test does not take long.
fn drawn(changes: &[(&str, &str)], options: &[&str]) -> WinterDraws {
    let text = with_tank();
    let (head, rest) = text.split_at(text.find("[[option]]\n").unwrap());
    let (list, tail) = rest.split_at(rest.find("[[scenario]]").unwrap());
    let kept = list.split_inclusive("\n\n").filter(|part| options.iter().any(|name| part.contains(name)));
    let text = format!("{head}{}{tail}", kept.collect::<String>());
    let all = [&[("draws.winters", "150")], changes].concat();
    let (job, weather) = (job(&text, &all), chicago());
    let first = compare(&job, &weather).unwrap();
    draws(&job, &weather, &first).unwrap()
}

#[test]
fn a_tight_tank_runs_dry_more_often_where_cold_couples_demand_and_queue() {
    const TIGHT: [(&str, &str); 3] = [
        ("supply.\"500 gallon tank\".capacity", "250 gal"),
        ("supply.\"500 gallon tank\".lead_days", "5"),
        ("supply.\"500 gallon tank\".cold_lead_days", "12"),
    ];
    let furnace = ["name = \"Propane furnace\""];
    let coupled = drawn(&TIGHT, &furnace);
    let independent = drawn(&[&TIGHT[..], &[("draws.independent", "true")]].concat(), &furnace);
    let dry = |draws: &WinterDraws| draws.options[0].run_outs.unwrap();
    assert!(dry(&coupled).times > dry(&independent).times, "{coupled:?} {independent:?}");
    assert!(coupled.options[0].dry_hours > 0.0 && coupled.options[0].in_full >= dry(&coupled).times);
    // Its own terms cost in its own year what the comparison says.
    assert!((coupled.policies[0].typical - coupled.options[0].typical).abs() < 1e-6);
    // Levels that are tried keep within the risk, and a larger tank is not ordered for earlier.
    let levels: Vec<f64> = coupled.sizes.iter().filter_map(|size| Some(size.level?.0)).collect();
    assert!(levels.windows(2).all(|pair| pair[1] <= pair[0]), "{levels:?}");
    assert_eq!(coupled.policies.iter().filter(|row| row.best_ordinary).count(), 1);
}

#[test]
fn another_option_beside_it_changes_no_draw() {
    let alone = drawn(&[], &["name = \"Propane furnace\""]);
    let beside = drawn(&[], &["name = \"Propane furnace\"", "name = \"Heat pump and propane\""]);
    assert_eq!(alone.options[0], beside.options[0]);
    assert_eq!(alone.sizes[..], beside.sizes[..alone.sizes.len()]);
}
