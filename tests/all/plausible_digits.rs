//! A digit too many or too few, W for kW, kBtu/h for Btu/h: asked about, with what may have been meant; the
//! jobs that come with the program are asked nothing of the kind.

use winterledger::comparison::compare;
use winterledger::comparison::slip::Slip;
use winterledger::comparison::{Comparison, Note};
use winterledger::job::{edit, reader};
use winterledger::report::figures::Measure;
use winterledger::report::wording;
use winterledger::units::UnitSystem;
use winterledger::weather::{Weather, places};

const DEMO: &str = include_str!("../../data/demo.toml");
const SMALL_TANK: &str = include_str!("../../data/small-tank.toml");
const STARTER: &str = include_str!("../../data/starter.toml");
const ALL_KEYS: &str = include_str!("job_keys.toml");

fn compared(text: &str, changes: &[(&str, &str)]) -> Comparison {
    let text =
        changes.iter().fold(text.to_owned(), |text, (key, value)| edit::set(&text, key, value).unwrap());
    let job = reader::read("job.toml", text).unwrap();
    compare(&job, &Weather::Year(Box::new(places::open("il-chicago").unwrap()))).unwrap()
}

fn is_of_digits(note: &Note) -> bool {
    matches!(note, Note::Tenfold(_) | Note::Disproportion(_) | Note::Slip(Slip::WarmCutOut { .. }))
}

fn asked(text: &str, changes: &[(&str, &str)]) -> Vec<String> {
    let c = compared(text, changes);
    let found = c.notes.iter().filter(|note| is_of_digits(note));
    let worded =
        found.inspect(|note| assert!(note.asks())).map(|note| wording::note(note, Measure(c.units), "$"));
    worded.map(|words| words.replace('\u{a0}', " ")).collect()
}

#[test]
fn the_jobs_that_come_with_the_program_are_asked_nothing_about_digits() {
    for text in [DEMO, SMALL_TANK, STARTER] {
        assert_eq!(asked(text, &[]), Vec::<String>::new());
    }
}

#[test]
fn every_table_and_key_in_ordinary_use_is_left_alone() {
    let job = reader::read("keys.toml", ALL_KEYS.to_owned()).unwrap();
    let asks = winterledger::comparison::tenfold::tenfolds(&job);
    assert_eq!(asks, []);
}

/// Changes of the demonstration.
type Changes<'a> = &'a [(&'a str, &'a str)];

/// Changes, and what the questions say, one for each; the ordinary ranges are the program's own judgement of
/// common practice, what is suggested is the number times or over 10 or 1,000.
const ASKED: [(Changes<'_>, &[&str]); 4] = [
    (
        &[
            ("equipment.propane furnace.input", "6000 Btu/h"),
            ("equipment.duct strips 15 kW.stages", "[\"5 W\", \"5 W\", \"5 W\"]"),
            ("equipment.wing baseboard 2 kW.stages", "[\"2 W\"]"),
            ("equipment.main heat pump.standby", "0.9 kW"),
            ("equipment.main heat pump.defrost_aux", "5 W"),
            ("equipment.main heat pump.cut_out", "50 degF"),
            ("house.zone.main.cooling_design_load", "210000 Btu/h"),
            // 875 Btu/h; of the heat pump's 15,500 its cooling load counts as 2.5 times as much: 7.1.
            ("house.zone.studio wing.design_load", "875 Btu/h"),
        ],
        &[
            "input of propane furnace: 6,000 Btu/h, where such machines ordinarily have 15,000 Btu/h to 400,000 \
             Btu/h. Is it 60,000 Btu/h?",
            "stages of duct strips 15 kW: 5 W, where such machines ordinarily have 500 W to 30 kW. Is it 5 kW?",
            "stages of wing baseboard 2 kW: 2 W, where such machines ordinarily have 100 W to 30 kW. Is it 2 kW?",
            "standby of main heat pump: 900 W, where such machines ordinarily have up to 200 W. Is it 90 W?",
            "defrost_aux of main heat pump: 5 W, where such machines ordinarily have 500 W to 30 kW. Is it 5 kW?",
            "cut_out of main heat pump: it would be off whenever it is not warmer than 50 °F",
            // 31,000 Btu/h at 95 °F and 34,000 at 82 °F, the first times the ordinary 0.75 sensible: about 25,500.
            "cooling_design_load of main: 210,000 Btu/h, and main heat pump gives 0.12 times that",
            "design_load of studio wing: 875 Btu/h, but in every option some machine there gives 7 times that",
        ],
    ),
    (
        &[
            ("equipment.propane furnace.input", "600000 Btu/h"),
            ("equipment.oil furnace.blower", "5 kW"),
            ("equipment.duct strips 15 kW.stages", "[\"50 kW\"]"),
            ("equipment.main heat pump.cut_on", "55 degF"),
            ("house.zone.main.cooling_design_load", "2100 Btu/h"),
        ],
        &[
            "input of propane furnace: 600,000 Btu/h, where such machines ordinarily have 15,000 Btu/h to 400,000 \
             Btu/h. Is it 60,000 Btu/h?",
            // 570,000 Btu/h of flame and blower over 33,250.
            "propane furnace: it gives 17.2 times the design load of all that it heats",
            "blower of oil furnace: 5 kW, where such machines",
            "stages of duct strips 15 kW: 50 kW, where such machines ordinarily have 500 W to 30 kW. Is it 5 kW?",
            "cut_on of main heat pump: it would be off",
            "cooling_design_load of main: 2,100 Btu/h, and main heat pump gives 12 times that",
        ],
    ),
    (
        &[
            ("equipment.propane furnace.blower", "5 W"),
            ("house.zone.studio wing.cooling_design_load", "550 Btu/h"),
            (
                "equipment.air conditioner.cooling",
                "[{ outdoor = \"95 degF\", greatest = \"30 Btu/h\", greatest_cop = 3.3 }]",
            ),
            ("equipment.oil furnace.input", "16 kBtu/h"),
            ("equipment.oil furnace.blower", "100 W"),
            ("house.zone.main.design_load", "60 kBtu/h"),
        ],
        &[
            "blower of propane furnace: 5 W, where such machines ordinarily have",
            "cooling_design_load of studio wing: 550 Btu/h, and wing heat pump gives 17 times that",
            "cooling of air conditioner: 30 Btu/h, where such machines ordinarily have 3,000 Btu/h to 150,000 Btu/h. \
             Is it 30,000 Btu/h?",
            // 16 kBtu/h times 0.85 and 100 W (341 Btu/h) of blower over 60 kBtu/h: 23.2 %.
            "oil furnace: it gives only 23 % of the design load of main",
        ],
    ),
    (
        // On so much floor the load alone is not odd: 14 Btu/h for each ft². The wing has 15.5 kBtu/h and 2 kW.
        &[("house.zone.studio wing.design_load", "87500 Btu/h"), ("house.floor_area", "9000 ft2")],
        &[
            "design_load of studio wing: 87,500 Btu/h, but in every option all machines there together give only 0.26",
        ],
    ),
];

#[test]
fn digits_too_many_or_too_few_are_asked_about_once_each() {
    for (changes, told) in ASKED {
        let found = asked(DEMO, changes);
        for told in told {
            assert!(found.iter().any(|words| words.contains(told)), "{told}: {found:#?}");
        }
        assert_eq!(found.len(), told.len(), "{changes:?}: {found:#?}");
    }
}

#[test]
fn what_some_houses_have_is_not_asked_about() {
    let seen = [
        ("equipment.propane furnace.input", "120 kBtu/h"),
        ("equipment.propane furnace.blower", "0 W"),
        ("equipment.oil furnace.blower", "120 W"),
        ("equipment.duct strips 15 kW.stages", "[\"20 kW\"]"),
        ("equipment.wing baseboard 2 kW.stages", "[\"500 W\"]"),
        // Its coldest row stands at −13 °F.
        ("equipment.main heat pump.cut_out", "-9 degF"),
        ("house.zone.main.cooling_design_load", "9000 Btu/h"),
        ("house.zone.studio wing.design_load", "20000 Btu/h"),
    ];
    assert_eq!(asked(DEMO, &seen), Vec::<String>::new());
}

/// A load in W typed as Btu/h is 3.4 times too small, one in Btu/h typed as W as many times too large: 33,250 Btu/h are
/// 9,745 W. Where an option has only a heat pump that is chosen for its cooling the first is not seen.
#[test]
fn loads_in_another_unit_are_asked_about() {
    let (main, wing) = ("house.zone.main.design_load", "house.zone.studio wing.design_load");
    for (changes, told) in [
        // 60,000 Btu/h times 0.95 and 500 W (1,706 Btu/h) of blower over 9,745: 6.02.
        (
            &[(main, "9745 Btu/h")][..],
            "propane furnace: it gives 6.0 times the design load of all that it heats",
        ),
        (
            &[(main, "33250 W"), ("house.floor_area", "9000 ft2")],
            "design_load of main: 113,000 Btu/h, but no option",
        ),
        (&[(wing, "8750 W")], "design_load of studio wing: 29,900 Btu/h, but no option"),
    ] {
        let found = asked(DEMO, changes);
        assert!(found.iter().any(|words| words.contains(told)), "{changes:?}: {found:#?}");
    }
}

#[test]
fn rows_with_a_slipped_digit_are_named() {
    let row = |f: i32, kbtu_h: f64| {
        format!("{{ outdoor = \"{f} degF\", greatest = \"{kbtu_h} kBtu/h\", greatest_cop = 2.5 }}")
    };
    let rows = |heating: [f64; 3]| {
        let rows: Vec<_> = [-5, 17, 47].into_iter().zip(heating).map(|(f, q)| row(f, q)).collect();
        format!("[{}]", rows.join(", "))
    };
    let cooling = format!("[{}, {}]", row(82, 34.0), row(95, 3.1));
    let slipped = asked(
        DEMO,
        &[
            ("equipment.main heat pump.heating", &rows([2.4, 32.0, 38.0])),
            ("equipment.wing heat pump.heating", &rows([9.5, 13.0, 155.0])),
            ("equipment.air conditioner.cooling", &cooling),
        ],
    );
    for told in [
        "the heating rows of main heat pump at −5 °F and 17 °F: their greatest outputs are too far apart",
        "the heating rows of wing heat pump at 17 °F and 47 °F",
        "the cooling rows of air conditioner at 82 °F and 95 °F",
    ] {
        assert!(slipped.iter().any(|words| words.contains(told)), "{told}: {slipped:#?}");
    }
    // An ordinary single-speed unit's 17 and 47 °F, and −10 °F (from memory): 18.2, 29.0 and 8.5 kBtu/h.
    let ordinary = format!("[{}, {}, {}]", row(-10, 8.5), row(17, 18.2), row(47, 29.0));
    assert_eq!(asked(DEMO, &[("equipment.main heat pump.heating", &ordinary)]), Vec::<String>::new());
}

#[test]
fn questions_speak_the_units_of_the_job() {
    let c = compared(DEMO, &[("job.units", "si"), ("equipment.propane furnace.input", "6000 Btu/h")]);
    assert_eq!(c.units, UnitSystem::Si);
    let found = asked(DEMO, &[("job.units", "si"), ("equipment.propane furnace.input", "6000 Btu/h")]);
    // 6,000 Btu/h over 3,412.14 Btu/kWh: 1.758 kW.
    assert!(
        found.iter().any(|words| words.contains("1.76 kW") && words.contains("Is it 17.6 kW?")),
        "{found:?}"
    );
}
