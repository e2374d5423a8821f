//! Page one on what can hurt: the worst thing to lose, a truck that comes too late, what a generator carries
//! beside the heat, and which zone falls short on the coldest night.
//!
//! The demonstration is invented. Start at the test names.

use crate::demo_job::chicago;
use crate::sheet::{Made, changed, demo, made};
use winterledger::comparison::compare_alone;
use winterledger::job::reader;
use winterledger::report::band::Entry;
use winterledger::report::job_check;

/// What stands in a column of a band of page one, for each option.
fn column(made: &Made, band: usize, column: usize) -> Vec<&Entry> {
    made.sheet.front.bands[band].rows.iter().map(|row| &row.entries[column]).collect()
}

#[test]
fn page_one_shows_the_worst_of_all_failures_the_blower_too() {
    let made = demo();
    let told = column(made, 2, 2);
    for (o, entry) in made.c.options.iter().zip(&told) {
        let runs = o.cold_night.failures.iter().flat_map(|failures| &failures.runs);
        let lowest_c = runs.filter_map(|run| run.lowest_room_c()).fold(f64::INFINITY, f64::min);
        let Entry::Figure { exact, .. } = entry else { panic!("{entry:?}") };
        assert!((exact - (1.8 * lowest_c + 32.0)).abs() < 1e-9, "{}: {entry:?} {lowest_c}", o.design.name);
    }
    // The heat pump and its strips share one blower; without it the main zone has nothing.
    let strips = told[0].shown();
    assert!(strips.starts_with("the blower of the ducts: down to "), "{strips}");
    assert!(strips.ends_with(": pipes may freeze"), "{strips}");
}

/// What page one says of the truck of the demonstration's furnace with such leads, the note on it, and how many
/// notes `check` asks to look at. From 30 % of its tank, 150 gallons, it lasts 15.03
/// days of design cold (a snapshot). The supplier, who counts 8 % of the use too little, orders when there are
/// (150 − 0.08 · 400) / 0.92 = 128.3 gallons: 15.03 · (128.3 − 25) / (150 − 25) = 12.4 days (hand-worked).
fn truck(lead: &str, cold_lead: &str) -> (String, Option<String>, bool) {
    let text = changed(&[
        ("supply.500 gallon tank.lead_days", lead),
        ("supply.500 gallon tank.cold_lead_days", cold_lead),
    ]);
    let made = made(&text);
    let told = column(&made, 2, 1)[2].shown().to_owned();
    let note = made.report.notes.iter().find(|note| note.contains("reorder_level of")).cloned();
    let check = job_check::report("job.toml", &made.c, &[]);
    (told, note, check.notes.first().is_some_and(|first| first.contains("reorder_level of")))
}

#[test]
fn a_truck_that_can_come_too_late_is_told_with_both_leads() {
    let (told, note, asked) = truck("4", "10");
    let words = "12\u{a0}days left in deep cold; the truck takes 4 days, in a cold snap\u{a0}10";
    assert!(told.starts_with(&format!("{words}; dry in ")), "{told}");
    assert!(note.is_none() && !asked);
    let (told, note, asked) = truck("4", "21");
    let dry = "the truck takes 4 days, in a cold snap\u{a0}21: if it comes so late, it runs dry";
    assert!(told.contains(&format!("{dry}; dry in about 1 winter in\u{a0}")), "{told}");
    let note = note.unwrap();
    assert!(
        note.starts_with("PLEASE CHECK") && note.contains("lasts 12 days") && note.contains(dry),
        "{note}"
    );
    assert!(asked);
}

#[test]
fn page_one_says_which_zone_gets_how_much_of_its_heat_and_what_a_generator_carries_beside() {
    let made = demo();
    for (o, entry) in made.c.options.iter().zip(column(made, 0, 2)) {
        for (zone, result) in made.c.zones.iter().zip(&o.zones) {
            let share = result.at_extreme_low.as_ref().unwrap().share();
            let percent = format!("{:.0}\u{a0}%", (100.0 * share).floor());
            let shown = entry.shown();
            let named = shown.contains(&zone.name) && shown.contains(&percent);
            let worst = shown.starts_with(&format!("{} gets {percent} of the heat it needs", zone.name));
            let least = o.share_at_extreme_low().unwrap();
            assert_eq!(named, share < 1.0 && least >= 0.01 || worst, "{shown}");
            assert!(!worst || share == least, "{shown}");
        }
    }
    let asks = column(made, 2, 0)[0].shown();
    // 5.2104 kW meet 24,700 of 29,450 Btu/h, 10.2104 kW all of it: worked by hand in `cold_night`.
    let both =
        "a generator of 5.5\u{a0}kW carries 83\u{a0}% of what the worst zone needs, one of 10.5\u{a0}kW all";
    assert_eq!(asks, format!("no heat; {both}"));
    let furnace = column(made, 2, 0)[2].shown();
    assert_eq!(furnace, "no heat; to heat, a generator of 2.0\u{a0}kW");
    let head = made.sheet.front.bands[2].heads().next().unwrap();
    assert!(head.words.contains("lights, pumps and starting currents come on top"), "{head:?}");
}

/// The level of a tank in July decides when the truck comes, and so which month it is paid in; a tank that would be
/// ordered for on the first of July is none that anybody has.
#[test]
fn the_dearest_month_is_the_dearest_of_all_levels_of_the_tank_at_which_none_is_ordered_at_once() {
    let made = demo();
    let told = column(made, 1, 0);
    let mut dearest = [0.0_f64; 6];
    // The twenty levels from the reserve, 5 % of the tank, to its 80 %.
    for level in 0..20 {
        let share = 0.05 + 0.75 * f64::from(level) / 19.0;
        let store = &made.c.options[2].stores[0].supplied.store;
        if share / 0.80 * store.tank.full_kwh() <= store.contract.reorder_kwh {
            continue;
        }
        let text = changed(&[("supply.500 gallon tank.start_level", &format!("{share}"))]);
        let job = reader::read("job.toml", text).unwrap();
        let c = compare_alone(&job, &chicago()).unwrap();
        for (most, option) in dearest.iter_mut().zip(&c.options) {
            for month in 1..=12 {
                *most = most.max(option.ledger.sum(|p| p.month == Some(month)));
            }
        }
    }
    for ((entry, dearest), option) in told.iter().zip(dearest).zip(&made.c.options) {
        let Entry::Figure { exact, shown } = entry else { panic!("{entry:?}") };
        assert!((exact - dearest).abs() < 1e-6, "{shown} {dearest}");
        assert_eq!(shown.contains("up to"), !option.stores.is_empty(), "{shown}");
    }
}
