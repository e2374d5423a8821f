//! Candidate sizes and the changeover sweep against single runs of the same job.

use winterledger::comparison::compare;
use winterledger::job::{Job, edit, reader};
use winterledger::study::{candidate_sizes, changeover_sweep};
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
    let best = sweep.best.map(|i| sweep.rows[i]).unwrap();
    assert!(sweep.rows.iter().all(|r| r.hours_not_kept_warm > 0 || r.over_best >= 0.0));
    assert_eq!(best.over_best, 0.0);
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
    assert!(told[0].allowed.as_ref().unwrap().contains("main heat pump"), "{told:?}");
}
