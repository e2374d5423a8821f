//! Slips that can be true but seldom are get a remark; ordinary jobs get none.

use winterledger::comparison::note::Oddity;
use winterledger::comparison::{Note, compare};
use winterledger::job::{edit, reader};
use winterledger::weather::{Weather, places};

fn notes(changes: &[(&str, &str)]) -> Vec<Oddity> {
    let demo = include_str!("../../data/demo.toml").to_owned();
    let text = changes.iter().fold(demo, |text, (key, value)| edit::set(&text, key, value).unwrap());
    let job = reader::read("demo.toml", text).unwrap();
    let weather = Weather::Year(Box::new(places::open("il-chicago").unwrap()));
    let remarks = compare(&job, &weather).unwrap().notes.into_iter().filter_map(|note| match note {
        // The demonstration has a ducted heat pump, so this one always stands there.
        Note::Oddity(Oddity::DefrostHeatNotCounted) => None,
        Note::Oddity(remark) => Some(remark),
        _ => None,
    });
    remarks.collect()
}

#[test]
fn the_demonstration_has_nothing_odd_about_it() {
    assert_eq!(notes(&[]), []);
}

#[test]
fn a_slip_of_the_decimal_point_is_remarked_on() {
    assert!(matches!(
        notes(&[("prices.electricity.price", "18.4 $/kWh")])[..],
        [Oddity::OddPrice { per_unit, .. }] if (per_unit - 18.4).abs() < 1e-6
    ));
    assert!(matches!(
        notes(&[("prices.propane.price_by_month.jan", "269 $/gal")])[..],
        [Oddity::OddPrice { .. }]
    ));
    assert!(matches!(
        notes(&[("house.zone.main.design_load", "332500 Btu/h")])[..],
        [Oddity::OddLoad { .. }]
    ));
}

#[test]
fn an_output_held_below_the_map_is_told() {
    let held = notes(&[("equipment.main heat pump.cut_out", "-30 degF")]);
    assert!(
        matches!(&held[..], [Oddity::HeldBelow { machine, .. }] if machine == "main heat pump"),
        "{held:?}"
    );
}
