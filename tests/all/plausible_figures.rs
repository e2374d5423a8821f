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
    let of_machines =
        |note: &&Note| matches!(note, Note::Efficiency(_) | Note::Unlikely(_) | Note::Disproportion(_));
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

#[test]
fn machines_out_of_proportion_are_asked_about() {
    let pump = "equipment.main heat pump.heating";
    let times = |times: f64| {
        let scaled = HEATING.map(|(f, least, kbtu_h, cop)| (f, least, kbtu_h * times, cop));
        rows(&scaled).replace("least = \"9 kBtu/h\"", &format!("least = \"{} kBtu/h\"", 9.0 * times))
    };
    // 38 kW typed for 38 kBtu/h; the load of its zone is 33,250 Btu/h: 38·3,412.14/33,250 = 3.90.
    let found = asked(&[(pump, &times(3.41214))]);
    assert!(found.iter().any(|words| words.contains("130,000 Btu/h at most, 3.9 times")), "{found:#?}");
    // A digit less: 3,800 of 33,250 Btu/h are 11 %.
    let found = asked(&[(pump, &times(0.1))]);
    assert!(found.iter().any(|words| words.contains("3,800 Btu/h at most, 11 % of")), "{found:#?}");
    // 12,920 Btu/h in heating, 34,000 in cooling: 0.38.
    let found = asked(&[(pump, &times(0.34))]);
    assert!(
        found.iter().any(|words| words.contains("heats with 12,900 Btu/h at most, but cools with 34,000")),
        "{found:#?}"
    );
}

#[test]
fn what_hardly_anybody_means_is_asked_about() {
    let told = [
        // 38 kBtu/h over 1.08·120 cfm (about, thinner at 659 ft): 293 to 301 °F.
        ("equipment.main heat pump.airflow", "120 cfm", "airflow of main heat pump: 120 cfm, which"),
        (
            "equipment.propane furnace.altitude_factor",
            "0.3",
            "altitude_factor of propane furnace: 0.30, but air at",
        ),
        ("equipment.main heat pump.cut_out", "-60 degF", "cut_out of main heat pump: −60 °F is colder"),
        (
            "equipment.main heat pump.indoor_fan",
            "400 W",
            "indoor_fan of main heat pump: 400 W, but power_includes",
        ),
        ("equipment.main heat pump.defrost_minutes", "20", "of main heat pump: 20 of each 50 minutes"),
        (
            "option.Heat pumps with strips.zone.main.heating",
            "[\"propane furnace\", \"main heat pump\"]",
            "“Heat pumps with strips”, main: propane furnace comes before main heat pump",
        ),
    ];
    let beside = [
        ("equipment.main heat pump.defrost_aux", "5 kW"),
        ("equipment.main heat pump.defrost_every_minutes", "50"),
    ];
    let changes: Vec<_> = beside.into_iter().chain(told.map(|(key, value, _)| (key, value))).collect();
    let found = asked(&changes);
    for (key, _, words) in told {
        assert!(found.iter().any(|asked| asked.contains(words)), "{key}: {found:#?}");
    }
    assert_eq!(found.len(), told.len(), "{found:#?}");
    let ordinary = [
        ("equipment.main heat pump.airflow", "1100 cfm"),
        ("equipment.propane furnace.airflow", "1000 cfm"),
        ("equipment.propane furnace.altitude_factor", "0.96"),
        ("equipment.main heat pump.cut_out", "-25 degF"),
    ];
    assert_eq!(asked(&ordinary), Vec::<String>::new());
}

/// A house of one heater that draws nothing.
fn alone(heater: &str) -> Comparison {
    let text = include_str!("../errors/cop_out_of_range.toml");
    let text = text.replace("[house]\n", "[house]\nfloor_area = \"2000 ft2\"\n");
    let (house, rest) = text.split_once("[[equipment]]").unwrap();
    let option = "[[option]]\nname = \"One\"\n[[option.zone]]\nzone = \"main\"\nheating = [\"one\"]\n";
    let prices = rest.split_once("[prices.electricity]").unwrap().1;
    let wood = "[prices.cord_wood]\nprice = \"300 $/cord\"\n";
    of_text(format!(
        "{house}[[equipment]]\nname = \"one\"\n{heater}\n{option}\n[prices.electricity]{prices}\n{wood}"
    ))
}

fn power_out(c: &Comparison) -> String {
    format!("{:?}", winterledger::report::cold_night::power_out(c, Measure(c.units)).rows)
}

/// 5 K (9 °F) colder than its coldest row, −13 °F, a heat pump stops that has no cut-out.
#[test]
fn where_a_heat_pump_without_a_cut_out_stops_is_told() {
    let told = |text: &str| {
        let job = winterledger::job::reader::read("job.toml", text.to_owned()).unwrap();
        let c = winterledger::comparison::compare_alone(&job, &crate::demo_job::chicago()).unwrap();
        let of = c.assumptions.0.into_iter().filter(|a| a.key == "equipment.main heat pump.cut_out");
        of.map(|assumption| assumption.value).collect::<Vec<String>>()
    };
    assert_eq!(told(&crate::demo_job::text()), Vec::<String>::new());
    let without = crate::demo_job::text().replace("cut_out = \"-17 degF\"\n", "");
    assert_eq!(told(&without), ["-22 degF"]);
    let si = without.replace("units = \"us\"", "units = \"si\"");
    assert_eq!(told(&si), ["-30.0 degC"]);
}

#[test]
fn a_stove_hangs_on_its_feeding_and_a_pilot_on_its_season() {
    let stove = "kind = \"wood_stove\"\nfuel = \"cord_wood\"\ninput = \"40 kBtu/h\"\nefficiency = 0.7";
    let free = alone(stove);
    assert!(free.assumptions.0.iter().any(|a| a.key == "equipment.one.daily_fuelling"));
    assert!(power_out(&free).contains("fed day and night"));
    // 40 kBtu/h for 24 h are 960 kBtu.
    let asks = |fuelling: &str| asked_of(&alone(&format!("{stove}\ndaily_fuelling = \"{fuelling}\"")));
    assert!(asks("2 cord").iter().any(|words| words.contains("burns 960 kBtu in 24 hours")));
    assert!(!asks("960 kBtu").iter().any(|words| words.contains("daily_fuelling")));
    let heater = |season: &str| {
        alone(&format!(
            "kind = \"wall_heater\"\nfuel = \"propane\"\ninput = \"50 kBtu/h\"\nefficiency = 0.7\npilot = \"900 Btu/h\"\n{season}"
        ))
    };
    let winter = heater("pilot_from = \"10-01\"\npilot_to = \"05-15\"");
    assert_eq!(
        (asked_of(&winter).len(), winter.options[0].cold_night.power_out.without_power.is_some()),
        (0, true)
    );
    let summer = heater("pilot_from = \"05-15\"\npilot_to = \"10-01\"");
    assert!(matches!(&asked_of(&summer)[..], [only] if only.contains("lit from 05-15 to 10-01")));
    assert_eq!(summer.options[0].cold_night.power_out.without_power, None);
}
