//! Slips that can be true but seldom are get a remark; ordinary jobs get none.

use winterledger::comparison::{Note, compare};
use winterledger::job::{edit, reader};
use winterledger::weather::{Weather, places};

fn notes(changes: &[(&str, &str)]) -> Vec<Note> {
    let demo = include_str!("../../data/demo.toml").to_owned();
    let text = changes.iter().fold(demo, |text, (key, value)| edit::set(&text, key, value).unwrap());
    let job = reader::read("demo.toml", text).unwrap();
    let weather = Weather::Year(Box::new(places::open("il-chicago").unwrap()));
    let odd = |n: &Note| {
        let (price, load) = (matches!(n, Note::OddPrice { .. }), matches!(n, Note::OddLoad { .. }));
        price || load || matches!(n, Note::OddMap { .. } | Note::HeldBelow { .. })
    };
    compare(&job, &weather).unwrap().notes.into_iter().filter(odd).collect()
}

#[test]
fn the_demonstration_has_nothing_odd_about_it() {
    assert_eq!(notes(&[]), []);
}

#[test]
fn a_slip_of_the_decimal_point_is_remarked_on() {
    assert!(matches!(
        notes(&[("prices.electricity.price", "18.4 $/kWh")])[..],
        [Note::OddPrice { per_unit, .. }] if (per_unit - 18.4).abs() < 1e-6
    ));
    assert!(matches!(
        notes(&[("prices.propane.price_by_month.jan", "269 $/gal")])[..],
        [Note::OddPrice { .. }]
    ));
    assert!(matches!(notes(&[("house.zone.main.design_load", "332500 Btu/h")])[..], [Note::OddLoad { .. }]));
}

#[test]
fn an_output_held_below_the_map_is_told() {
    let held = notes(&[("equipment.main heat pump.cut_out", "-30 degF")]);
    assert!(
        matches!(&held[..], [Note::HeldBelow { machine, .. }] if machine == "main heat pump"),
        "{held:?}"
    );
}
