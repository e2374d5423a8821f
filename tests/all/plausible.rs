//! Slips that can be true but seldom are get a remark; ordinary jobs get none.

use winterledger::comparison::note::{Mismatch, Oddity};
use winterledger::comparison::slip::Slip;
use winterledger::comparison::{Note, compare};
use winterledger::job::{edit, reader};
use winterledger::report::{figures::Measure, oddities::oddity};
use winterledger::weather::quality::Degree;
use winterledger::weather::{Weather, places};

fn all_notes(changes: &[(&str, &str)]) -> Vec<Note> {
    let demo = include_str!("../../data/demo.toml").to_owned();
    let text = changes.iter().fold(demo, |text, (key, value)| edit::set(&text, key, value).unwrap());
    let job = reader::read("demo.toml", text).unwrap();
    let weather = Weather::Year(Box::new(places::open("il-chicago").unwrap()));
    compare(&job, &weather).unwrap().notes
}

fn notes(changes: &[(&str, &str)]) -> Vec<Oddity> {
    let remarks = all_notes(changes).into_iter().filter_map(|note| match note {
        // The demonstration has a ducted heat pump, so this one always stands there.
        Note::Oddity(Oddity::DefrostHeatNotCounted) => None,
        Note::Oddity(remark) => Some(remark),
        _ => None,
    });
    remarks.collect()
}

fn mismatches(changes: &[(&str, &str)]) -> Vec<Mismatch> {
    let found = all_notes(changes).into_iter().filter_map(|note| match note {
        Note::Mismatch(mismatch) => Some(mismatch),
        _ => None,
    });
    found.collect()
}

#[test]
fn the_demonstration_has_nothing_odd_about_it() {
    assert_eq!(notes(&[]), []);
    assert_eq!(mismatches(&[]), []);
}

#[test]
fn a_slip_of_the_decimal_point_is_remarked_on() {
    assert!(matches!(
        notes(&[("prices.electricity.price", "18.4 $/kWh")])[..],
        [Oddity::OddPrice { per_unit, .. }] if (per_unit - 18.4).abs() < 1e-6
    ));
    assert!(matches!(
        notes(&[("prices.propane.price_by_month.jan", "269 $/gal")])[..],
        [Oddity::OddMonthPrice { month: 0, .. }]
    ));
    assert!(matches!(
        notes(&[("house.zone.main.design_load", "332500 Btu/h")])[..],
        [Oddity::OddLoad { .. }]
    ));
}

#[test]
fn an_output_guessed_below_the_map_is_told_where_the_coldest_night_hangs_on_it() {
    let rows = include_str!("../../data/demo.toml");
    let short = rows.replace("  { outdoor = \"-13 degF\"", "# { outdoor = \"-13 degF\"");
    let short = short.replace("  { outdoor = \"-5 degF\"", "# { outdoor = \"-5 degF\"");
    let found = |text: &str| {
        let (job, weather) = (crate::demo_job::job(text, &[]), crate::demo_job::chicago());
        let c = compare(&job, &weather).unwrap();
        let around = winterledger::study::around(&job, &weather, &c).unwrap();
        let page = winterledger::report::front::front(&c, &around, &Default::default()).cautions.join(" ");
        (c.notes.into_iter().find(|note| matches!(note, Note::Guessed { .. })), page)
    };
    let (note, page) = found(rows);
    assert!(note.is_none() && !page.contains("is a guess"), "{page}");
    // Rows to 5 °F, cut-out −17 °F: from −4 °F on it is a guess, and the job plans for −22 °F.
    let (note, page) = found(&short);
    let Some(Note::Guessed { below_c, cut_out_c, night_c: Some(night_c), .. }) = note else {
        panic!("{note:?}")
    };
    for (found, expected_f) in [(below_c, -4.0), (cut_out_c, -17.0), (night_c, -22.0)] {
        assert!((found - winterledger::units::fahrenheit_to_celsius(expected_f)).abs() < 1e-9, "{found}");
    }
    assert!(page.contains("is a guess: its figures end at 5"), "{page}");
}

#[test]
fn a_furnace_that_is_to_temper_but_is_not_there_is_told_whatever_stands_behind() {
    let key = ("equipment.main heat pump.defrost_aux", "furnace");
    let demo = edit::set(include_str!("../../data/demo.toml"), key.0, key.1).unwrap();
    let job = reader::read("demo.toml", demo).unwrap();
    let weather = Weather::Year(Box::new(places::open("il-chicago").unwrap()));
    let c = compare(&job, &weather).unwrap();
    // Strips behind it, nothing behind it; and in the fourth option the furnace that it asks for.
    let [with_strips, alone] = [0, 1].map(|place: usize| c.options[place].design.name.clone());
    let oddities: Vec<_> = c.notes.iter().filter(|note| matches!(note, Note::Oddity(_))).collect();
    let told =
        Oddity::NoFurnaceToTemper { machine: "main heat pump".into(), options: vec![with_strips, alone] };
    assert_eq!(oddities, [&Note::Oddity(told.clone())]);
    assert!(c.options[3].design.zones[0].tempering.is_some());
    let words = oddity(&told, Measure(c.units));
    assert!(words.contains("defrost_aux of main heat pump: it is \"furnace\"") && !words.contains("because"));
}

/// Changes of the demonstration, and whether a remark is the one that they call for.
type Case<'a> = (&'a [(&'a str, &'a str)], fn(&Mismatch) -> bool);

#[test]
fn what_hardly_goes_together_is_remarked_on() {
    let cases: [Case<'_>; 6] = [
        (&[("house.zone.main.balance_temperature", "30 degF")], |o| matches!(o, Mismatch::OddBalance { .. })),
        (
            &[("house.zone.main.design_temperature", "25 degF")],
            |o| matches!(o, Mismatch::DesignOfAnotherPlace { zone, .. } if zone == "main"),
        ),
        (&[("site.extreme_low", "30 degF")], |o| matches!(o, Mismatch::WarmExtremeLow { .. })),
        (&[("site.elevation", "9000 ft")], |o| matches!(o, Mismatch::FarFromStationHeight { .. })),
        (
            &[(
                "option.Heat pumps with strips.zone.main.heating",
                "[\"duct strips 15 kW\", \"main heat pump\"]",
            )],
            |o| matches!(o, Mismatch::ResistanceFirst { option, .. } if option == "Heat pumps with strips"),
        ),
        // From 28 February through the new year to 10 January: 317 days, hand-counted.
        (
            &[
                ("prices.propane.spike.January cold snap.from", "02-28"),
                ("prices.propane.spike.January cold snap.to", "01-10"),
            ],
            |o| matches!(o, Mismatch::LongSpike { days: 317, .. }),
        ),
    ];
    for (changes, told) in cases {
        let found = mismatches(changes);
        assert!(found.iter().any(told), "{changes:?}: {found:?}");
    }
}

#[test]
fn numbers_that_are_seldom_so_are_remarked_on() {
    let lockout = "option.Heat pump and propane.zone.main.compressor_lockout";
    let set_back = |f: u8| format!("[{{ from = \"22:00\", to = \"06:00\", set_point = \"{f} degF\" }}]");
    let (warm, cold) = (set_back(72), set_back(48));
    type Told = fn(&Slip) -> bool;
    let cases: [(&str, &str, Told); 8] = [
        ("house.zone.main.set_back", &warm, |s| matches!(s, Slip::SetBackWarmer { .. })),
        ("house.zone.main.set_back", &cold, |s| matches!(s, Slip::SetBackCold { .. })),
        ("house.floor_area", "900 ft2", |s| matches!(s, Slip::MoreFloorThanHouse { .. })),
        ("equipment.main heat pump.label_hspf2", "14.5", |s| {
            matches!(s, Slip::HighLabel { label: 14.5, .. })
        }),
        ("equipment.main heat pump.label_seer2", "43", |s| matches!(s, Slip::HighLabel { label: 43.0, .. })),
        ("prices.propane.spike.January cold snap.times", "6", |s| {
            matches!(s, Slip::HighSpike { times: 6.0, .. })
        }),
        ("supply.500 gallon tank.fill_limit", "0.95", |s| matches!(s, Slip::PropaneOverfull { .. })),
        (lockout, "55 degF", |s| matches!(s, Slip::WarmLockout { .. })),
    ];
    let slips = |key: &str, value: &str| -> Vec<Slip> {
        let changes = [("house.zone.main.floor_area", "2000 ft2"), (key, value)];
        let found = all_notes(&changes).into_iter();
        found.filter_map(|note| if let Note::Slip(slip) = note { Some(slip) } else { None }).collect()
    };
    for (key, value, told) in cases {
        let found = slips(key, value);
        assert!(found.iter().any(told), "{key}: {found:?}");
    }
    assert_eq!(slips("job.title", "\"As it was\""), []);
    // With one speed 10 is the most: a judgement over labels of about 9 (from memory).
    let label = |speed| {
        let label = ("equipment.wing heat pump.label_hspf2", "10.5");
        let found = all_notes(&[("equipment.wing heat pump.speed", speed), label]).into_iter();
        found.filter(|note| matches!(note, Note::Slip(Slip::HighLabel { .. }))).count()
    };
    assert_eq!((label("one"), label("variable")), (1, 0));
    // 34 kW typed for 34 kBtu/h on 1,750 ft²: 116,000 Btu/h or 66 for each ft², hand-worked.
    let (load, floor) = ("house.zone.main.design_load", "house.zone.main.floor_area");
    let found = notes(&[(load, "34 kW"), (floor, "1750 ft2")]);
    assert!(matches!(&found[..], [Oddity::OddLoad { zone: Some(_), .. }]), "{found:?}");
}

#[test]
fn a_label_that_the_rows_contradict_is_a_caution_of_page_one() {
    let cautions = |changes: &[(&str, &str)]| {
        let (job, weather) =
            (crate::demo_job::job(&crate::demo_job::text(), changes), crate::demo_job::chicago());
        let c = compare(&job, &weather).unwrap();
        let around = winterledger::study::around(&job, &weather, &c).unwrap();
        winterledger::report::front::front(&c, &around, &Default::default()).cautions.join(" ")
    };
    let told = cautions(&[("equipment.main heat pump.label_hspf2", "14")]);
    let words = "The label of main heat pump says HSPF2 14; its rows, which are what is costed, make ";
    assert!(told.contains(words), "{told}");
    assert!(!cautions(&[]).contains("The label of"));
}

#[test]
fn a_costly_lock_out_is_told_with_a_better_one_and_a_good_one_is_not() {
    let told = |lockout: &str| {
        let key = "option.Heat pump and propane.zone.main.compressor_lockout";
        // Without the tank, whose deliveries fall on other days with another lock-out.
        let text = edit::set(&crate::demo_job::text(), key, lockout).unwrap();
        let job = reader::read("demo.toml", text).unwrap();
        let weather = Weather::Year(Box::new(places::open("il-chicago").unwrap()));
        let c = compare(&job, &weather).unwrap();
        let own = c.options.iter().find(|o| o.design.name == "Heat pump and propane").unwrap().yearly_cost();
        let notes = c.notes.into_iter();
        let better = notes.filter_map(|note| match note {
            Note::BetterLockout(found) => Some((found.lockout_c, found.saved)),
            _ => None,
        });
        (own, better.collect::<Vec<_>>())
    };
    let (costly, found) = told("40 degF");
    // Two heat pumps cost less than propane at its doubled price down to the coldest hour, −9 °F.
    let [(None, saved)] = found[..] else { panic!("{found:?}") };
    // The whole run with a lock-out that never holds costs what the note says.
    let (better, none) = told("-20 degF");
    assert!((costly - saved - better).abs() < 1e-6, "{costly} {saved} {better}");
    assert_eq!(none, []);
}

/// A slip in one key each: what it is asked about.
#[test]
fn amounts_units_and_zones_that_do_not_fit_are_asked_about() {
    // 35 a month are ordinary, 420 a year are the same by hand.
    for (fixed, odd) in [("35 $/month", false), ("420 $/year", false), ("240 $/month", true)] {
        let found = notes(&[("prices.electricity.fixed", fixed)]);
        assert_eq!(matches!(found[..], [Oddity::LargeFee { key: "fixed", .. }]), odd, "{fixed}: {found:?}");
    }
    let found = mismatches(&[("site.time_zone", "America/Denver")]);
    let of_zone = |m: &Mismatch| matches!(m, Mismatch::OtherTimeZone { zone_h, weather_h, .. } if (*zone_h, *weather_h) == (-7.0, -6.0));
    assert!(matches!(&found[..], [one] if of_zone(one)), "{found:?}");
    assert_eq!(mismatches(&[("site.time_zone", "America/Chicago")]), []);
    let large = |note: &Note| matches!(note, Note::Slip(Slip::LargeSiteOffset { .. }));
    for (offset, asked) in [("-35 degF", true), ("-3.5 degF", false)] {
        assert_eq!(all_notes(&[("site.site_offset", offset)]).iter().any(large), asked, "{offset}");
    }
    let fits = |design: &str| {
        let found = mismatches(&[("house.zone.main.design_temperature", design)]);
        found.into_iter().find_map(|m| match m {
            Mismatch::DesignOfAnotherPlace { fits, .. } => Some(fits),
            _ => None,
        })
    };
    // -18 °C are 0 °F, and 0 °F -18 °C, which is Chicago's; 25 °C is not.
    assert_eq!(fits("-18 degF"), Some(Some(Degree::Celsius)));
    assert_eq!(fits("0 degC"), Some(Some(Degree::Fahrenheit)));
    assert_eq!(fits("25 degF"), Some(None));
}
