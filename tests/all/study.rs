//! Candidate sizes and the changeover sweep against single runs of the same job.

use crate::demo_job;
use winterledger::comparison::compare;
use winterledger::job::{Job, edit, reader};
use winterledger::report::figures::Measure;
use winterledger::report::studies;
use winterledger::study::{ChangeoverSweep, candidate_sizes, changeover_sweep};
use winterledger::units::UnitSystem;
use winterledger::weather::{Weather, places};

const OPTION: &str = "Heat pump and propane";

fn demo() -> (Job, Weather) {
    let job = reader::read("demo.toml", include_str!("../../data/demo.toml").to_owned()).unwrap();
    (job, Weather::Year(Box::new(places::open("il-chicago").unwrap())))
}

#[test]
fn a_row_of_the_changeover_sweep_is_the_run_a_person_could_type() {
    let (job, weather) = demo();
    let sweep = changeover_sweep(&job, &weather, OPTION, "main").unwrap();
    assert_eq!(sweep.rows.len(), 14); // −15 to 50 °F in steps of 5
    let text = edit::set(&job.text, "option.Heat pump and propane.zone.main.compressor_lockout", "30 degF");
    let once = compare(&reader::read("demo.toml", text.unwrap()).unwrap(), &weather).unwrap();
    let alone = once.options.iter().find(|o| o.design.name == OPTION).unwrap();
    let swept = sweep.rows.iter().find(|r| (r.lockout_c + 2.0 / 1.8).abs() < 1e-9).unwrap();
    assert_eq!(swept.yearly_cost, alone.yearly_cost());
    let best = &sweep.rows[sweep.best[0]];
    assert!(sweep.rows.iter().all(|r| r.hours_not_kept_warm > 0 || r.over_best >= 0.0));
    assert_eq!(best.over_best, 0.0);
}

#[test]
fn where_no_setting_keeps_the_house_warm_those_with_the_fewest_cold_hours_are_compared() {
    let (job, weather) = demo();
    // The wing needs more than its machines have, which no setting of the main zone changes.
    let text = edit::set(&job.text, "house.zone.studio wing.design_load", "30000 Btu/h").unwrap();
    let sweep =
        changeover_sweep(&reader::read("demo.toml", text).unwrap(), &weather, OPTION, "main").unwrap();
    assert!(sweep.rows.iter().all(|row| row.warmth.lacks_heat()));
    let cheapest =
        sweep.rows.iter().filter(|row| row.judged).map(|row| row.yearly_cost).fold(f64::INFINITY, f64::min);
    let dearest = sweep.rows.iter().map(|row| row.yearly_cost).fold(0.0, f64::max);
    assert_eq!(sweep.rows[sweep.best[0]].yearly_cost, cheapest);
    let over = sweep.rows.iter().map(|row| row.over_best).fold(0.0, f64::max);
    assert!(over > 100.0 && (over - (dearest - cheapest)).abs() < 1e-9, "{over}");
    let remark = studies::changeover(&sweep, "$", Measure(UnitSystem::Us)).remark.unwrap();
    assert!(remark.starts_with("This option goes cold at every setting"), "{remark}");
}

#[test]
fn the_machine_that_is_there_is_one_of_the_candidates_and_costs_what_it_costs() {
    let (job, weather) = demo();
    let names = ["main heat pump".to_owned(), "wing heat pump".to_owned()];
    let option = "Heat pumps alone";
    let sizes = candidate_sizes(&job, &weather, option, "main", &names[..1]).unwrap();
    let now = compare(&job, &weather).unwrap();
    let now = now.options.iter().find(|o| o.design.name == option).unwrap();
    assert_eq!(sizes.rows[0].yearly_cost, now.yearly_cost());
    assert_eq!(sizes.rows[0].hours_not_kept_warm, 136); // snapshot of the demonstration
    // The wing's machine serves the wing of this option already: one machine, two zones.
    let refused = candidate_sizes(&job, &weather, option, "main", &names[1..]).unwrap_err();
    assert!(refused[0].what.contains("serves another zone"), "{refused:?}");
}

#[test]
fn names_that_do_not_exist_are_told_with_those_that_do() {
    let (job, weather) = demo();
    let told = changeover_sweep(&job, &weather, "Heat pumps", "main").unwrap_err();
    assert!(told[0].allowed.as_ref().unwrap().contains(OPTION), "{told:?}");
    let told = changeover_sweep(&job, &weather, "Oil furnace", "main").unwrap_err();
    assert!(told[0].what.contains("heat pump followed by a furnace"), "{told:?}");
    let told = candidate_sizes(&job, &weather, OPTION, "main", &["no such".into()]).unwrap_err();
    assert!(told[0].allowed.as_ref().unwrap().contains("'main heat pump', "), "{told:?}");
    // A candidate that cannot heat: no line of the file is at fault.
    let told = candidate_sizes(&job, &weather, OPTION, "main", &["air conditioner".into()]).unwrap_err();
    assert!(told[0].what.contains("with 'air conditioner' as the first machine"), "{told:?}");
    assert_eq!((told[0].line, told[0].key.clone()), (None, None));
}

fn remark(sweep: &ChangeoverSweep) -> String {
    studies::changeover(sweep, "$", Measure(UnitSystem::Us)).remark.unwrap()
}

#[test]
fn settings_that_cost_equally_little_are_all_named() {
    // The coldest hour of this weather is −9 °F: a lock-out of −15 or −10 °F is none, and at such a price of
    // propane none is the best.
    let text = demo_job::with_flat_propane(&demo_job::text());
    let dear = demo_job::job(&text, &[("prices.propane.price", "9 $/gal")]);
    let sweep = changeover_sweep(&dear, &demo_job::chicago(), OPTION, "main").unwrap();
    assert_eq!(sweep.best, [0, 1]);
    let told = remark(&sweep).replace('\u{a0}', " ");
    assert!(told.starts_with("Least, and equally little, at \u{2212}15 °F and \u{2212}10 °F."), "{told}");
    let chart = studies::changeover_chart(&sweep, "$", Measure(UnitSystem::Us), "");
    let marked: Vec<&str> =
        chart.options.iter().map(|b| b.name.as_str()).filter(|n| n.contains("least")).collect();
    assert!(marked.len() == 2 && chart.draw().is_ok(), "{marked:?}");
}

#[test]
fn settings_below_which_the_heat_pump_carries_no_whole_hour_are_explained() {
    let text = demo_job::with_flat_propane(&demo_job::text());
    let key = format!("option.{OPTION}.zone.main.sharing");
    let whole = demo_job::job(&text, &[(&key, "whole_hour")]);
    let sweep = changeover_sweep(&whole, &demo_job::chicago(), OPTION, "main").unwrap();
    assert!(sweep.whole_hour);
    assert!(
        remark(&sweep).contains("goes wholly to the furnace (sharing = \"whole_hour\")"),
        "{}",
        remark(&sweep)
    );
    // From 5 °F down the machine's 28,000 Btu/h through ducts of 0.95 are less than 475·(70 − 5) − 3,800.
    let cost = |f: f64| {
        let at = sweep.rows.iter().find(|r| (r.lockout_c - (f - 32.0) / 1.8).abs() < 1e-9);
        at.unwrap().yearly_cost
    };
    assert!((cost(-15.0) - cost(5.0)).abs() < 0.005, "{} {}", cost(-15.0), cost(5.0));
}

#[test]
fn candidates_come_with_air_and_runs_and_a_chart() {
    let (job, weather) = demo();
    let names = ["main heat pump".to_owned()];
    let sizes = candidate_sizes(&job, &weather, OPTION, "main", &names).unwrap();
    // Common practice: 400 cfm for each 12,000 Btu/h of the 31,000 at 95 °F, 100 cfm a run: 1,033 cfm, 11 runs.
    let table = studies::sizes(&sizes, "$", Measure(UnitSystem::Us));
    let shown = |column: usize| table.rows[0][column].shown();
    assert_eq!((shown(8), shown(9)), ("1,033", "11"));
    let row = &sizes.rows[0];
    let sum: f64 = row.by_use.iter().map(|(_, amount)| amount).sum();
    assert!((sum - row.yearly_cost).abs() < 1e-6);
    let chart = studies::sizes_chart(&sizes, "$", "").draw().unwrap();
    assert!(chart.contains("main heat pump") && chart.contains("h cycling"));
    let told = candidate_sizes(&job, &weather, OPTION, "bogus", &[]).unwrap_err();
    assert!(told[0].allowed.as_ref().unwrap().contains("studio wing"), "{told:?}");
}

/// A machine known by its label alone cools as well as it heats, and keeps what the label leaves open: both are
/// those of the same job with the machine's name typed.
#[test]
fn a_candidate_by_nameplate_takes_the_coolers_place_and_keeps_its_band() {
    let plate = "[[equipment]]\nname = \"by its label\"\nkind = \"heat_pump\"\nducted = true\n\
                 nameplate = { capacity_47 = \"36 kBtu/h\", capacity_17 = \
                 \"30 kBtu/h\", capacity_5 = \"26 kBtu/h\", hspf2 = 9.5, cooling_capacity_95 = \"34 kBtu/h\", \
                 seer2 = 18, turndown = 0.3 }\n\n[[equipment]]";
    let text = crate::demo_job::text().replacen("[[equipment]]", plate, 1);
    let job = reader::read("job.toml", text.clone()).unwrap();
    let weather = crate::demo_job::chicago();
    let sizes = candidate_sizes(&job, &weather, OPTION, "main", &["by its label".to_owned()]).unwrap();
    let key = |of: &str| format!("option.{OPTION}.zone.main.{of}");
    let typed = edit::set(&text, &key("cooling"), "\"by its label\"").unwrap();
    let heating = job.options.iter().find(|o| o.name.value == OPTION).unwrap().zone[0].heating.value.clone();
    let list: Vec<_> = heating.iter().skip(1).map(|name| format!("\"{}\"", name.value)).collect();
    let list = format!("[\"by its label\", {}]", list.join(", "));
    let typed = edit::set(&typed, &key("heating"), &list).unwrap();
    let c = compare(&reader::read("job.toml", typed).unwrap(), &weather).unwrap();
    let option = c.options.iter().find(|o| o.design.name == OPTION).unwrap();
    assert_eq!(sizes.rows[0].yearly_cost, option.yearly_cost());
    assert!(option.yearly_cost_range().is_some());
    assert_eq!(sizes.rows[0].yearly_cost_range, option.yearly_cost_range());
}
