//! Figures of machines that physics, the market or a shop hardly allow are asked about; right ones are not.

use winterledger::comparison::compare;
use winterledger::comparison::{Comparison, Note};
use winterledger::job::{edit, reader};
use winterledger::report::figures::Measure;
use winterledger::report::wording;
use winterledger::weather::{Weather, places};

const DEMO: &str = include_str!("../../data/demo.toml");

fn compared(changes: &[(&str, &str)]) -> Comparison {
    let text =
        changes.iter().fold(DEMO.to_owned(), |text, (key, value)| edit::set(&text, key, value).unwrap());
    of_text(text)
}

fn of_text(text: String) -> Comparison {
    let job = reader::read("job.toml", text).unwrap_or_else(|problems| panic!("{problems:#?}"));
    compare(&job, &Weather::Year(Box::new(places::open("il-chicago").unwrap()))).unwrap()
}

fn asked_of(c: &Comparison) -> Vec<String> {
    let of_machines = |note: &&Note| matches!(note, Note::Efficiency(_));
    let worded = c
        .notes
        .iter()
        .filter(of_machines)
        .inspect(|note| assert!(note.asks()))
        .map(|note| wording::note(note, Measure(c.units), "$"));
    worded.map(|words| words.replace('\u{a0}', " ")).collect()
}

fn asked(changes: &[(&str, &str)]) -> Vec<String> {
    asked_of(&compared(changes))
}

#[test]
fn the_jobs_that_come_with_the_program_are_asked_nothing_about_their_machines() {
    for text in [DEMO, include_str!("../../data/small-tank.toml"), include_str!("../../data/starter.toml")] {
        assert_eq!(asked_of(&of_text(text.to_owned())), Vec::<String>::new());
    }
}

/// One row of two columns: °F, least COP, greatest output in kBtu/h, its COP.
fn rows(rows: &[(i32, f64, f64, f64)]) -> String {
    let row = |(f, least, kbtu_h, cop): &(i32, f64, f64, f64)| {
        format!(
            "{{ outdoor = \"{f} degF\", least = \"9 kBtu/h\", least_cop = {least}, greatest = \"{kbtu_h} kBtu/h\", \
             greatest_cop = {cop} }}"
        )
    };
    format!("[{}]", rows.iter().map(row).collect::<Vec<_>>().join(", "))
}

/// A machine's rows are invented; where one number is a slip it stands beside the question that it brings.
const HEATING: [(i32, f64, f64, f64); 4] =
    [(-13, 1.6, 20.0, 1.5), (5, 2.1, 27.0, 2.0), (17, 2.5, 31.0, 2.3), (47, 3.9, 38.0, 3.3)];

#[test]
fn cops_beyond_physics_and_rows_exchanged_are_asked_about() {
    let pump = "equipment.main heat pump.";
    let with = |place: usize, row: (i32, f64, f64, f64)| {
        let mut changed = HEATING;
        changed[place] = row;
        asked(&[(&format!("{pump}heating"), &rows(&changed)), (&format!("{pump}speed"), "variable")])
    };
    let one = |found: Vec<String>, told: &str| {
        assert!(matches!(&found[..], [only] if only.contains(told)), "{told}: {found:#?}");
    };
    assert_eq!(with(0, HEATING[0]), Vec::<String>::new());
    // Hand-worked, 0.7 of Carnot's to air of 100 °F: 0.7·559.67/113 = 3.467.
    one(with(0, (-13, 1.6, 20.0, 6.0)), "greatest of main heat pump, heating row at −13 °F: a COP of 6.00");
    one(with(0, (-13, 1.6, 20.0, 6.0)), "more than 3.47 ");
    one(with(0, (-13, 1.6, 20.0, 3.3)), "heating row at −13 °F: a COP of 3.30, but only 2.00 at 5 °F");
    one(
        with(3, (47, 1.2, 38.0, 3.3)),
        "least of main heat pump, heating row at 47 °F: a COP of 1.20 beside 3.30",
    );
    // A boost in the cold, flat COPs, a little less at the least.
    assert_eq!(with(2, (17, 2.2, 40.0, 2.15)), Vec::<String>::new());
    let cooling = |cold: (f64, f64), hot: (f64, f64)| {
        let row = |f: i32, (kbtu_h, cop): (f64, f64)| {
            format!("{{ outdoor = \"{f} degF\", greatest = \"{kbtu_h} kBtu/h\", greatest_cop = {cop} }}")
        };
        asked(&[("equipment.air conditioner.cooling", &format!("[{}, {}]", row(82, cold), row(95, hot)))])
    };
    assert_eq!(cooling((34.0, 4.4), (31.0, 3.3)), Vec::<String>::new());
    one(cooling((34.0, 3.0), (31.0, 5.0)), "cooling row at 95 °F: a COP of 5.00, but only 3.00 at 82 °F");
    // An EER of 8.5 as a COP: 0.7·514.67/60 = 6.004 at 95 °F.
    one(cooling((34.0, 4.4), (31.0, 8.5)), "a COP of 8.50, where no machine comes to more than 6.00");
}

#[test]
fn labels_under_those_of_any_machine_are_asked_about() {
    let label =
        |machine: &str, key: &str, value: &str| asked(&[(&format!("equipment.{machine}.{key}"), value)]);
    // It turns down; 11 is an EER's.
    let found = label("main heat pump", "label_seer2", "11");
    assert!(
        matches!(&found[..], [only] if only.contains("label_seer2 of main heat pump: 11.0 is less than")),
        "{found:?}"
    );
    assert!(label("main heat pump", "label_seer2", "13.4").is_empty());
    assert_eq!(label("main heat pump", "label_hspf2", "5.5").len(), 1);
    // One speed, an old one that is kept, and less than those.
    assert!(label("air conditioner", "label_seer2", "9").is_empty());
    assert_eq!(label("air conditioner", "label_seer2", "6").len(), 1);
}
