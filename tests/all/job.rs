//! The job reader and the job editor, held against the demonstration job and small jobs.

use proptest::prelude::*;
use winterledger::job::edit::set;
use winterledger::job::path::{join, split};
use winterledger::job::reader::{from_bytes, read};
use winterledger::job::{DrawSection, MachineSection, MapSection, PriceSection, WeatherSection};
use winterledger::units::{Power, Quantity};

const DEMO: &str = include_str!("../../data/demo.toml");

#[test]
fn the_demonstration_job_reads_without_problems() {
    let job = read("demo.toml", DEMO.to_owned()).unwrap();
    assert_eq!(job.house.zone.len(), 2);
    assert_eq!(job.equipment.len(), 9);
    assert_eq!(job.options.len(), 6);
    // Typed in the file: 33,250 Btu/h; hand-worked: 33,250 / 3412.141633 = 9.744613 kW.
    assert!((job.house.zone[0].design_load.base() - 9.744_613).abs() < 1e-5);
    assert_eq!(&job.text[job.house.zone[0].design_load.span.clone()], "\"33250 Btu/h\"");
    let MachineSection::HeatPump(pump) = &job.machine("main heat pump").unwrap().kind.value else { panic!() };
    let MapSection::Rows(rows) = &pump.heating else { panic!() };
    assert_eq!(rows.len(), 6);
    let rest = job.prices.fuel("propane").unwrap().rate.rest.as_ref();
    let Some(PriceSection::ByMonth(months)) = rest.and_then(|hours| hours.rest.as_ref()) else { panic!() };
    // Typed in the file: jan 2.69, jul 1.69 $/gal.
    assert_eq!((months[0].amount, months[6].amount), (2.69, 1.69));
    assert_eq!(job.sha256.len(), 64);
}

#[test]
fn all_problems_of_a_file_come_at_once_and_in_order() {
    let text = DEMO
        .replace("design_load = \"8750 Btu/h\"", "design_load = \"-8750 Btu/h\"")
        .replace("afue = 0.85", "afue = 85")
        .replace("extreme_low = \"-22 degF\"", "extreme_lo = \"-22 degF\"");
    let problems = read("job.toml", text.clone()).unwrap_err();
    let keys: Vec<_> = problems.iter().filter_map(|problem| problem.key.as_deref()).collect();
    assert_eq!(keys, ["site.extreme_lo", "house.zone.studio wing.design_load", "equipment.oil furnace.afue"]);
    for problem in &problems {
        let span = problem.span.clone().unwrap();
        assert_eq!(problem.line, Some(1 + text[..span.start].matches('\n').count()), "{problem}");
    }
}

#[test]
fn a_slip_in_one_line_does_not_hide_a_bad_value_in_another() {
    let text = DEMO
        .replace("floor_area = \"2600 ft2\"", "floor_area = 2600 ft2")
        .replace("afue = 0.85", "afue = 85");
    let problems = read("job.toml", text).unwrap_err();
    assert_eq!(problems.len(), 2, "{problems:?}");
    assert!(problems[0].what.contains("2600 ft2") && problems[1].what.contains("85"));
}

#[test]
fn a_byte_order_mark_and_windows_line_ends_do_no_harm() {
    let text = format!("\u{feff}{}", DEMO.replace('\n', "\r\n"));
    let job = from_bytes("demo.toml", text.as_bytes()).unwrap();
    assert_eq!(&job.text[job.site.name.span.clone()], "\"Quince Hollow (invented)\"");
}

#[test]
fn no_input_is_too_strange_for_a_message() {
    let deep = format!("a = {}", "[".repeat(100_000));
    let many = "x = 1\n".repeat(50_000);
    let keys: String = (0..50_000).map(|i| format!("k{i} = {i}\n")).collect();
    let large = " ".repeat(4_000_001);
    let machines: String = (0..20_000).map(|i| format!("[[equipment]]\nname = \"m{i}\"\n")).collect();
    let list: String = (0..20_000).map(|i| format!("\"n{i}\", ")).collect();
    let names = format!("{machines}[[option]]\n[[option.zone]]\nheating = [{list}]\n");
    for text in
        [deep.as_str(), &many, &keys, &large, &names, "", "\u{feff}", "=", "[", "[[", "\"", "a.b.c", "'''"]
    {
        let start = std::time::Instant::now();
        let problems = from_bytes("x.toml", text.as_bytes()).unwrap_err();
        assert!(!problems.is_empty() && problems.len() <= 200, "{} problems", problems.len());
        winterledger::cli::messages::render(&problems, Some(text), true);
        // A wide bound: work that grows with the square of the file's length would take minutes.
        assert!(start.elapsed().as_secs() < 20, "{:?} for {:.20}", start.elapsed(), text);
    }
}

/// Values of the demonstration job: path, the text before the value, the value as typed.
const VALUES: &[(&str, &str, &str)] = &[
    ("job.title", "title = ", "\"Quince Hollow, orchard house\""),
    ("site.extreme_low", "extreme_low = ", "\"-22 degF\""),
    ("house.zone.main.duct_efficiency", "duct_efficiency = ", "0.95"),
    ("house.zone.2.design_load", "design_load = ", "\"8750 Btu/h\""),
    ("equipment.main heat pump.ducted", "name = \"main heat pump\"\nkind = \"heat_pump\"\nducted = ", "true"),
    ("equipment.main heat pump.heating.3.greatest_cop", "\"28 kBtu/h\",   greatest_cop = ", "2.00"),
    ("equipment.duct strips 15 kW.stages", "stages = ", "[\"5 kW\", \"5 kW\", \"5 kW\"]"),
    (
        "equipment.duct strips 15 kW.stages.2",
        "15 kW\"\nkind = \"resistance\"\nducted = true\nstages = [\"5 kW\", ",
        "\"5 kW\"",
    ),
    ("option.Heat pump and propane.zone.main.compressor_lockout", "compressor_lockout = ", "\"15 degF\""),
    ("option.4.zone.main.heating", "heating = ", "[\"main heat pump\", \"propane furnace\"]"),
    ("prices.propane.price_by_month.jan", "jan = ", "\"2.69 $/gal\""),
    ("prices.propane.spike.January cold snap.times", "\ntimes = ", "2.0"),
];

#[test]
fn setting_a_key_changes_that_value_and_nothing_else() {
    for (path, before, old) in VALUES {
        let place = format!("{before}{old}");
        assert_eq!(DEMO.matches(&place).count(), 1, "the place of {path} is not clear");
        let expected = DEMO.replace(&place, &format!("{before}\"changed value\""));
        assert_eq!(set(DEMO, path, "changed value").unwrap(), expected, "{path}");
    }
}

#[test]
fn a_key_that_is_not_there_is_added_below_its_table() {
    let changed = set(DEMO, "equipment.main heat pump.cut_on", "-12 degF").unwrap();
    assert!(changed.contains("greatest_cop = 2.90 },\n]\ncut_on = \"-12 degF\"\n\n[[equipment]]"));
    assert_eq!(changed.len(), DEMO.len() + "cut_on = \"-12 degF\"\n".len());
    let changed = set(DEMO, "option.1.zone.main.sharing", "in_time").unwrap();
    assert!(changed.contains("cooling = \"main heat pump\"\nsharing = \"in_time\"\n[[option.zone]]"));
    let changed = set(DEMO, "prices.propane.fixed", "5 $/month").unwrap();
    assert!(
        changed.contains(
            "[prices.propane]\nsource = \"invented\"\nbasis = \"guess\"\nfixed = \"5 $/month\"\n[prices.propane.price"
        )
    );
    let changed = set(DEMO, "equipment.air conditioner.cooling.1.least", "10 kBtu/h").unwrap();
    assert!(changed.contains("greatest_cop = 4.10, least = \"10 kBtu/h\" },"));
    let changed = set(DEMO, "prices.oil_no_2.fixed", "1 $/month").unwrap();
    assert!(changed.ends_with("basis = \"guess\"\nfixed = \"1 $/month\"\n") || !DEMO.ends_with('\n'));
    assert_eq!(set("a = 1", "b", "2").unwrap(), "a = 1\nb = 2");
    assert_eq!(set("[t]\nx = 1\n", "b", "2").unwrap(), "b = 2\n[t]\nx = 1\n");
    assert_eq!(set("[t]\r\n  x = 1\r\n", "t.y", "z").unwrap(), "[t]\r\n  x = 1\r\n  y = \"z\"\r\n");
    assert_eq!(set("[[e]]\nname = \"a.b\"\n", "e.\"a.b\".c", "1").unwrap(), "[[e]]\nname = \"a.b\"\nc = 1\n");
}

#[test]
fn a_path_that_leads_nowhere_is_refused_with_the_way_out() {
    let help = |path: &str| set(DEMO, path, "1").unwrap_err().help.unwrap();
    assert_eq!(help("hose.zone.main.design_load"), "did you mean 'house'?");
    assert_eq!(help("equipment.main heatpump.cut_out"), "did you mean 'main heat pump'?");
    assert_eq!(help("prices.kerosene.price"), "add its table to the job file first");
    assert_eq!(help("house.zone"), "name one of its keys");
    assert_eq!(help("equipment"), "name one of its keys");
    assert!(help("house..zone").starts_with("write it as in"));
    assert!(set(DEMO, "job.title.x", "1").is_err());
    assert!(set(DEMO, "house.zone.9.indoor", "1").is_err());
    assert!(set("a = ", "a", "1").is_err());
}

#[test]
fn a_clock_time_or_a_day_is_set_as_a_text() {
    assert_eq!(set("a = 1", "a", "22:00").unwrap(), "a = \"22:00\"");
    assert_eq!(set("a = 1", "a", "01-10").unwrap(), "a = \"01-10\"");
    assert_eq!(set("a = 1", "a", "\u{feff}8").unwrap(), "a = \"\u{feff}8\"");
    assert_eq!(set("a = 1", "a", "say \"so\"\n").unwrap(), "a = \"say \\\"so\\\"\"");
}

proptest! {
    #[test]
    fn an_edit_and_its_reverse_give_the_same_bytes(at in 0..VALUES.len(), value in ".*") {
        let (path, _, old) = VALUES[at];
        let changed = set(DEMO, path, &value).unwrap();
        prop_assert_eq!(set(&changed, path, old).unwrap(), DEMO);
    }

    #[test]
    fn what_is_set_is_what_is_read(value in "[^\\p{C}]*[a-z][^\\p{C}]*") {
        prop_assume!(value.trim() == value && value.chars().count() <= 500);
        // A value that happens to be TOML is taken as it is, and is then no text of itself.
        prop_assume!(toml::de::DeValue::parse(&value).is_err());
        let changed = set(DEMO, "job.note", &value).unwrap();
        let job = read("demo.toml", changed).unwrap();
        prop_assert_eq!(&job.job.note.unwrap().value, &value);
    }

    #[test]
    fn any_text_is_read_or_refused(text in "([a-z\\[\\]{}=.,\"'#\\\\ \n0-9-]|format = 1\n|\\[\\[equipment\\]\\]\n|\\[house\\]\n){0,80}") {
        if let Err(problems) = from_bytes("x.toml", text.as_bytes()) {
            prop_assert!(!problems.is_empty());
            winterledger::cli::messages::render(&problems, Some(&text), false);
        }
    }

    #[test]
    fn a_damaged_job_is_read_or_refused(at in 0..DEMO.len(), length in 0..40_usize, by in "[a-z\\[\\]{}=.,\"'#0-9\n]{0,3}") {
        let end = (at + length).min(DEMO.len());
        prop_assume!(DEMO.is_char_boundary(at) && DEMO.is_char_boundary(end));
        let text = format!("{}{by}{}", &DEMO[..at], &DEMO[end..]);
        if let Err(problems) = from_bytes("x.toml", text.as_bytes()) {
            prop_assert!(!problems.is_empty());
            winterledger::cli::messages::render(&problems, Some(&text), false);
        }
    }

    #[test]
    fn a_key_path_survives_its_writing(parts in prop::collection::vec("[^\\p{C}]+", 1..5)) {
        let path = parts.iter().fold(String::new(), |path, part| join(&path, part));
        prop_assert_eq!(split(&path), Some(parts));
    }
}

const ALL_KEYS: &str = include_str!("job_keys.toml");

#[test]
fn every_key_is_read_to_where_it_belongs() {
    let job = read("job_keys.toml", ALL_KEYS.to_owned()).unwrap();
    let zone = &job.house.zone[0];
    // A zero heat capacity is a choice and stays 0; it is not the same as none.
    assert_eq!(zone.heat_capacity.as_ref().unwrap().base(), 0.0);
    assert_eq!(zone.set_back.len(), 2);
    assert_eq!(zone.set_back[1].to.to_string(), "07:30");
    assert_eq!(zone.cooling.as_ref().unwrap().cooling_set_point.base(), 24.0);
    let MachineSection::HeatPump(pump) = &job.machine("pump").unwrap().kind.value else { panic!() };
    let MapSection::Rows(rows) = &pump.heating else { panic!() };
    assert_eq!(rows[0].rated.as_ref().unwrap().draw.value, DrawSection::Cop(3.5));
    assert_eq!(rows[0].greatest.draw.value, DrawSection::Power(Power::from_base(3.2)));
    let MachineSection::HeatPump(pump) = &job.machine("pump from a table").unwrap().kind.value else {
        panic!()
    };
    assert_eq!((pump.capacity_basis.as_ref(), pump.cooling.as_ref()), (None, None));
    let rest = job.prices.fuel("propane").unwrap().rate.rest.as_ref();
    let Some(PriceSection::ByMonth(months)) = rest.and_then(|hours| hours.rest.as_ref()) else { panic!() };
    // Typed in the file: 2 €/L in December alone, wherever it stands among the months.
    assert_eq!((months[0].amount, months[11].amount), (1.0, 2.0));
    assert_eq!(job.prices.fuel("electricity").unwrap().rate.fixed.as_ref().unwrap().amount, 12.0);
}

/// All keys again, with the weather given the third way: the ways exclude each other.
pub(crate) fn all_keys_monthly() -> String {
    let twelve = |first: i32| {
        let months = (0..12).map(|month: i32| format!("\"{} degC\"", first + 3 * (6 - (month - 6).abs())));
        months.collect::<Vec<_>>().join(", ")
    };
    let monthly = format!(
        "monthly_highs = [{}]\nmonthly_lows = [{}]\nmonthly_means = [{}]\nheating_99 = \"-19 degC\"\nweather_seed = 7\n",
        twelve(2),
        twelve(-8),
        twelve(-4)
    );
    // What is said of a weather file goes with it.
    let of_file = ["weather_file = ", "weather_format = ", "weather_gaps = ", "weather_clock = "];
    let others =
        ALL_KEYS.split_inclusive('\n').filter(|line| !of_file.iter().any(|key| line.starts_with(key)));
    let text =
        others.collect::<String>().replacen("weather_year = ", &format!("{monthly}weather_year = "), 1);
    assert_ne!(text, ALL_KEYS);
    text
}

#[test]
fn the_keys_of_a_synthetic_year_are_read_to_where_they_belong() {
    let job = read("job_keys.toml", all_keys_monthly()).unwrap();
    let WeatherSection::Monthly(monthly) = &job.site.weather else { panic!() };
    // Typed above: January 2 and −8 °C, 3 K more each month up to July.
    assert!((monthly.monthly_highs[0].base() - 2.0).abs() < 1e-9);
    assert!((monthly.monthly_highs[6].base() - 20.0).abs() < 1e-9);
    assert!((monthly.monthly_lows[11].base() + 5.0).abs() < 1e-9);
    assert!((monthly.monthly_means.as_ref().unwrap()[1].base() + 1.0).abs() < 1e-9);
    assert!((monthly.heating_99.base() + 19.0).abs() < 1e-9);
    assert_eq!(monthly.weather_seed.as_deref(), Some(&7));
}

#[test]
fn no_key_can_be_misspelt_unseen() {
    misspelt(ALL_KEYS);
    misspelt(&all_keys_monthly());
}

fn misspelt(all_keys: &str) {
    let key = |line: &str| {
        let name = line.split(" = ").next()?;
        (line.contains(" = ") && name.bytes().all(|b| b.is_ascii_lowercase() || b == b'_'))
            .then_some(name.len())
    };
    let mut start = 0;
    for line in all_keys.split_inclusive('\n') {
        if let Some(length) = key(line) {
            let text = format!("{}x{}", &all_keys[..start + length], &all_keys[start + length..]);
            let problems = read("x.toml", text).unwrap_err();
            let seen =
                problems.iter().any(|problem| problem.span.as_ref().is_some_and(|span| span.start == start));
            assert!(seen, "{line}: {problems:?}");
        }
        start += line.len();
    }
}

#[test]
fn every_value_out_of_its_range_is_told_at_its_place() {
    // The bounds are this program's own choice, written at each key of the sections.
    for (old, new) in [
        ("\"10 kW\"\ndesign_temperature", "\"1001 kW\"\ndesign_temperature"),
        ("duct_efficiency = 0.5", "duct_efficiency = 0.49"),
        ("heat_capacity = \"0 kWh/K\"", "heat_capacity = \"-1 kWh/K\""),
        ("afue = 1\n", "afue = 1.01\n"),
        ("turndown = 0.4", "turndown = 0.09"),
        ("altitude_factor = 0.9\n", "altitude_factor = 0.29\n"),
        ("cycling_loss = 0.25", "cycling_loss = 0.51"),
        ("sensible_heat_ratio = 0.75\naltitude", "sensible_heat_ratio = 0.39\naltitude"),
        ("greatest_cop = 10 ", "greatest_cop = 10.1 "),
        ("greatest_cop = 1 ", "greatest_cop = 0.99 "),
        ("greatest_power = \"3.2 kW\"", "greatest_power = \"10.1 kW\""),
        ("times = 0.5", "times = 0.09"),
        ("times = 0.5", "times = 20.1"),
        ("stages = [\"5 kW\"]", "stages = [\"0 kW\"]"),
        ("blower = \"500 W\"", "blower = \"-1 W\""),
        ("indoor = \"21 degC\"", "indoor = \"41 degC\""),
        ("extreme_low = \"-30 degC\"", "extreme_low = \"-91 degC\""),
        ("format = 1", "format = 0"),
        ("afue = 1\n", "afue = nan\n"),
        ("afue = 1\n", "afue = inf\n"),
        ("afue = 1\n", "afue = 1e400\n"),
    ] {
        assert_eq!(ALL_KEYS.matches(old).count(), 1, "{old}");
        let text = ALL_KEYS.replace(old, new);
        let at = 1 + text[..text.find(new).unwrap()].matches('\n').count();
        let problems = read("x.toml", text).unwrap_err();
        assert_eq!((problems.len(), problems[0].line), (1, Some(at)), "{new}: {problems:?}");
    }
}

/// Spellings with one meaning only are read as they are meant; each beside the plain one.
#[test]
fn what_can_mean_one_thing_only_is_read() {
    let cases = [
        ("cut_out = \"-17 degF\"", "cut_out = \"\u{2013}17 degF\""),
        ("cut_out = \"-17 degF\"", "cut_out = \"\u{2014} 17 degF\""),
        ("cut_out = \"-17 degF\"", "cut_out = \"\u{2212}17 \u{b0}F\""),
        ("rent = \"96 $/year\"", "rent = \"96 dollars/year\""),
        ("rent = \"96 $/year\"", "rent = \"9600 cents/year\""),
    ];
    let plain = read("demo.toml", DEMO.to_owned()).unwrap();
    let cut_out = |job: &winterledger::job::Job| {
        let MachineSection::HeatPump(pump) = &job.machine("main heat pump").unwrap().kind.value else {
            panic!()
        };
        pump.cut_out.as_ref().unwrap().base()
    };
    let rent = |job: &winterledger::job::Job| job.supplies[0].fees.rent.as_ref().unwrap().amount;
    for (typed, also) in cases {
        assert!(DEMO.contains(typed), "{typed}");
        let job = read("demo.toml", DEMO.replacen(typed, also, 1)).unwrap();
        assert!((cut_out(&job) - cut_out(&plain)).abs() < 1e-12, "{also}");
        assert!((rent(&job) - rent(&plain)).abs() < 1e-9, "{also}");
    }
}
