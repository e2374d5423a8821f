//! Questions that the program asks about jobs that it takes: each slip made in the demonstration job, one at a time.
//!
//! `job_questions.txt` beside this file keeps the slips and the words; it is a snapshot, read as prose by a person, and
//! `WINTERLEDGER_REWRITE=1` writes it anew. Start at [`SLIPS`].

use rayon::prelude::*;
use std::collections::BTreeSet;
use std::path::Path;
use winterledger::comparison::compare_alone;
use winterledger::job::reader::read;
use winterledger::report::figures::Measure;
use winterledger::report::wording::note;
use winterledger::weather::{Weather, places};

const DEMO: &str = include_str!("../../data/demo.toml");

/// A name, what the demonstration has, and what is typed in its place.
const SLIPS: &[(&str, &[(&str, &str)])] = &[
    (
        "lockout_above_where_backup_is_needed",
        &[(
            "stages = [\"5 kW\", \"5 kW\", \"5 kW\"]\n",
            "stages = [\"5 kW\", \"5 kW\", \"5 kW\"]\nlockout_above = \"-10 degF\"\n",
        )],
    ),
    ("cost_of_a_part_a_digit_more", &[("amount = \"2800 $\"", "amount = \"280000 $\"")]),
    ("renewal_a_digit_less", &[("renewal = \"10500 $\"", "renewal = \"1050 $\"")]),
    ("upkeep_of_a_month", &[("upkeep = \"190 $/year\"", "upkeep = \"190 $/month\"")]),
    ("extreme_low_far_below_the_weather", &[("extreme_low = \"-22 degF\"", "extreme_low = \"-82 degF\"")]),
    ("extreme_low_above_the_weather", &[("extreme_low = \"-22 degF\"", "extreme_low = \"22 degF\"")]),
    (
        "cooling_balance_above_set_point",
        &[("cooling_balance_temperature = \"68 degF\"", "cooling_balance_temperature = \"86 degF\"")],
    ),
    (
        "cooling_design_far_from_the_weather",
        &[("cooling_design_temperature = \"90 degF\"", "cooling_design_temperature = \"120 degF\"")],
    ),
    (
        "zone_of_another_coast",
        &[("extreme_low = \"-22 degF\"", "time_zone = \"America/Los_Angeles\"\nextreme_low = \"-22 degF\"")],
    ),
    (
        "cop_beyond_physics",
        &[("least = \"10.5 kBtu/h\", least_cop = 3.90", "least = \"10.5 kBtu/h\", least_cop = 9.50")],
    ),
    (
        "cop_falls_where_it_is_warmer",
        &[(
            "greatest = \"33 kBtu/h\",   greatest_cop = 2.60",
            "greatest = \"33 kBtu/h\",   greatest_cop = 1.60",
        )],
    ),
    ("price_of_oil_a_digit_less", &[("price = \"3.80 $/gal\"", "price = \"0.38 $/gal\"")]),
    ("fixed_charge_of_a_year", &[("fixed = \"36 $/month\"", "fixed = \"360 $/month\"")]),
    ("design_load_a_digit_less", &[("design_load = \"33250 Btu/h\"", "design_load = \"3325 Btu/h\"")]),
    ("design_load_a_digit_more", &[("design_load = \"33250 Btu/h\"", "design_load = \"332500 Btu/h\"")]),
    ("defrost_aux_of_a_furnace_elsewhere", &[("defrost_aux = \"none\"", "defrost_aux = \"furnace\"")]),
    (
        "balance_far_below_indoor",
        &[("balance_temperature = \"62 degF\"", "balance_temperature = \"26 degF\"")],
    ),
    (
        "design_temperature_of_another_place",
        &[("design_temperature = \"0 degF\"", "design_temperature = \"30 degF\"")],
    ),
    (
        "elevation_in_feet_for_metres",
        &[("extreme_low = \"-22 degF\"", "elevation = \"6600 ft\"\nextreme_low = \"-22 degF\"")],
    ),
    (
        "strips_before_the_heat_pump",
        &[(
            "heating = [\"main heat pump\", \"duct strips 15 kW\"]",
            "heating = [\"duct strips 15 kW\", \"main heat pump\"]",
        )],
    ),
    (
        "furnace_before_the_heat_pump",
        &[(
            "heating = [\"main heat pump\", \"propane furnace\"]\ncompressor_lockout = \"15 degF\"            # colder than this, only the furnace\nsharing = \"in_time\"                       # or \"whole_hour\"",
            "heating = [\"propane furnace\", \"main heat pump\"]",
        )],
    ),
    (
        "spike_the_other_way_round",
        &[("from = \"01-10\"\nto = \"02-28\"", "from = \"02-28\"\nto = \"01-10\"")],
    ),
    (
        "spike_in_percent",
        &[(
            "to = \"02-28\"                              # last day included\ntimes = 2.0",
            "to = \"02-28\"\ntimes = 20.0",
        )],
    ),
    ("furnace_a_digit_more", &[("input = \"60000 Btu/h\"", "input = \"600000 Btu/h\"")]),
    ("furnace_a_digit_less", &[("input = \"60000 Btu/h\"", "input = \"6000 Btu/h\"")]),
    (
        "cooling_load_a_digit_more",
        &[("cooling_design_load = \"21000 Btu/h\"", "cooling_design_load = \"210000 Btu/h\"")],
    ),
    (
        "set_back_warmer_than_the_set_point",
        &[(
            "indoor = \"70 degF\"\n",
            "indoor = \"70 degF\"\nset_back = [{ from = \"22:00\", to = \"06:00\", set_point = \"76 degF\" }]\n",
        )],
    ),
    (
        "set_back_too_cold",
        &[(
            "indoor = \"70 degF\"\n",
            "indoor = \"70 degF\"\nset_back = [{ from = \"22:00\", to = \"06:00\", set_point = \"42 degF\" }]\n",
        )],
    ),
    (
        "floor_area_of_zones_above_the_house",
        &[("name = \"main\"\n", "name = \"main\"\nfloor_area = \"3600 ft2\"\n")],
    ),
    (
        "fill_limit_above_80_percent",
        &[("capacity = \"500 gal\"", "fill_limit = 0.95\ncapacity = \"500 gal\"")],
    ),
    (
        "compressor_lockout_too_warm",
        &[("compressor_lockout = \"15 degF\"", "compressor_lockout = \"51 degF\"")],
    ),
    ("cut_out_colder_than_any", &[("cut_out = \"-17 degF\"", "cut_out = \"-70 degF\"")]),
    ("blower_in_kilowatts", &[("blower = \"500 W\"", "blower = \"5 kW\"")]),
    ("minimum_drop_of_the_whole_tank", &[("minimum_drop = \"100 gal\"", "minimum_drop = \"370 gal\"")]),
    (
        "fan_counted_twice",
        &[(
            "power_includes_indoor_fan = true\ncut_out = \"-17",
            "power_includes_indoor_fan = true\nindoor_fan = \"400 W\"\ncut_out = \"-17",
        )],
    ),
    ("airflow_a_digit_less", &[("afue = 0.95", "afue = 0.95\nairflow = \"110 cfm\"")]),
    (
        "base_electricity_a_digit_more",
        &[("[site]\n", "[household]\nbase_electricity = \"70000 kWh/year\"\n\n[site]\n")],
    ),
    (
        "hot_water_a_digit_more",
        &[
            (
                "[site]\n",
                "[household]\nhot_water = \"water heater\"\nhot_water_use = \"600 gal/day\"\n\n[site]\n",
            ),
            (
                "[[supply]]",
                "[[equipment]]\nname = \"water heater\"\nkind = \"water_heater\"\nform = \"tank\"\nfuel = \"propane\"\nefficiency = 0.64\ninput = \"40000 Btu/h\"\nlocation = \"outside\"\n\n[[supply]]",
            ),
        ],
    ),
    ("price_of_oil_under_any_of_late", &[("price = \"3.80 $/gal\"", "price = \"0.80 $/gal\"")]),
    ("price_of_electricity_in_cents_too_few", &[("price = \"0.184 $/kWh\"", "price = \"0.171 c/kWh\"")]),
    ("price_of_one_month_a_digit_less", &[("jan = \"2.69 $/gal\"", "jan = \"0.269 $/gal\"")]),
    ("price_of_one_month_a_digit_more", &[("may = \"1.90 $/gal\"", "may = \"19.0 $/gal\"")]),
    (
        "rider_in_cents",
        &[(
            "[prices.propane]\n",
            "[[prices.electricity.rider]]\nname = \"fuel\"\nprice = \"1.2 $/kWh\"\n[prices.propane]\n",
        )],
    ),
    ("demand_a_digit_more", &[("price = \"0.184 $/kWh\"", "demand = \"85 $/kW\"\nprice = \"0.184 $/kWh\"")]),
    ("rent_of_the_tank_a_digit_more", &[("rent = \"96 $/year\"", "rent = \"960 $/year\"")]),
    (
        "plan_price_a_digit_more",
        &[(
            "rent = \"96 $/year\"",
            "price_plan = \"cap\"\nplan_price = \"21.9 $/gal\"\nrent = \"96 $/year\"",
        )],
    ),
    (
        "plan_price_a_digit_less",
        &[(
            "rent = \"96 $/year\"",
            "price_plan = \"fixed\"\nplan_price = \"0.219 $/gal\"\nrent = \"96 $/year\"",
        )],
    ),
    ("delivery_fee_of_many", &[("delivery_fee = \"8 $/drop\"", "delivery_fee = \"800 $/drop\"")]),
    ("leak_test_fee_a_digit_more", &[("leak_test_fee = \"150 $/test\"", "leak_test_fee = \"1500 $/test\"")]),
    ("design_load_in_kbtu_typed_btu", &[("design_load = \"33250 Btu/h\"", "design_load = \"33.25 Btu/h\"")]),
    (
        "ac_rows_in_celsius",
        &[(
            "{ outdoor = \"82 degF\", greatest = \"32 kBtu/h\", greatest_cop = 4.10 },\n  { outdoor = \"95 degF\", greatest = \"30 kBtu/h\", greatest_cop = 3.30 }",
            "{ outdoor = \"28 degF\", greatest = \"32 kBtu/h\", greatest_cop = 4.10 },\n  { outdoor = \"35 degF\", greatest = \"30 kBtu/h\", greatest_cop = 3.30 }",
        )],
    ),
    ("defrost_aux_beyond_the_bank", &[("defrost_aux = \"none\"", "defrost_aux = \"20 kW\"")]),
    (
        "site_offset_of_another_climate",
        &[("extreme_low = \"-22 degF\"", "site_offset = \"-35 degF\"\nextreme_low = \"-22 degF\"")],
    ),
    ("altitude_factor_of_a_high_place", &[("afue = 0.95", "afue = 0.95\naltitude_factor = 0.6")]),
    (
        "uses_without_machines",
        &[(
            "[site]\n",
            "[household]\nhot_water_use = \"50 gal/day\"\ndryer_loads_a_week = 5\ncooking = \"250 kWh/year\"\n\n[site]\n",
        )],
    ),
    (
        "hot_water_of_one_option_alone",
        &[
            ("[site]\n", "[household]\nhot_water_use = \"50 gal/day\"\n\n[site]\n"),
            ("name = \"Oil furnace\"\n", "name = \"Oil furnace\"\nhot_water = \"water heater\"\n"),
            (
                "[[supply]]",
                "[[equipment]]\nname = \"water heater\"\nkind = \"water_heater\"\nform = \"tank\"\nfuel = \"propane\"\nefficiency = 0.64\ninput = \"40000 Btu/h\"\nlocation = \"outside\"\n\n[[supply]]",
            ),
        ],
    ),
    ("cut_out_without_its_minus", &[("cut_out = \"-17 degF\"", "cut_out = \"17 degF\"")]),
    ("cut_out_where_makers_do_not_stop", &[("cut_out = \"-17 degF\"", "cut_out = \"35 degF\"")]),
    (
        "cut_out_above_a_label_s_figures",
        &[(
            "[[supply]]",
            "[[equipment]]\nname = \"by its label\"\nkind = \"heat_pump\"\nducted = true\ncut_out = \"10 degF\"\nnameplate = { capacity_47 = \"30 kBtu/h\", capacity_17 = \"22 kBtu/h\", capacity_5 = \"18 kBtu/h\", hspf2 = 8.5, cooling_capacity_95 = \"28 kBtu/h\", seer2 = 15.2, turndown = 0.4 }\n\n[[supply]]",
        )],
    ),
    (
        "stove_fed_with_less_than_an_hour",
        &[
            (
                "[[supply]]",
                "[[equipment]]\nname = \"stove\"\nkind = \"wood_stove\"\nfuel = \"cord_wood\"\ninput = \"40 kBtu/h\"\nefficiency = 0.70\ndaily_fuelling = \"200 Btu\"\n\n[[supply]]",
            ),
            (
                "[prices.propane]\n",
                "[prices.cord_wood]\nprice = \"260 $/cord\"\nsource = \"invented\"\n\n[prices.propane]\n",
            ),
        ],
    ),
    (
        "period_from_an_hour_to_the_same",
        &[(
            "[prices.propane]\n",
            "[[prices.electricity.period]]\nname = \"evening\"\nfrom = \"17:00\"\nto = \"17:00\"\ndays = \"weekdays\"\nprice = \"0.30 $/kWh\"\n\n[prices.propane]\n",
        )],
    ),
    (
        "one_cooling_row_in_celsius",
        &[(
            "{ outdoor = \"82 degF\", greatest = \"32 kBtu/h\", greatest_cop = 4.10 }",
            "{ outdoor = \"28 degF\", greatest = \"32 kBtu/h\", greatest_cop = 4.10 }",
        )],
    ),
];

fn questions(slip: &[(&str, &str)], weather: &Weather) -> Vec<String> {
    let text = slip.iter().fold(DEMO.to_owned(), |text, (from, to)| {
        assert!(text.contains(from), "{from}");
        text.replacen(from, to, 1)
    });
    let job = read("job.toml", text).unwrap_or_else(|problems| panic!("{slip:?}: {problems:#?}"));
    let c = compare_alone(&job, weather).unwrap();
    let asked = c.notes.iter().filter(|note| note.asks());
    asked.map(|asks| note(asks, Measure(c.units), &c.currency).replace('\u{a0}', " ")).collect()
}

#[test]
fn every_slip_of_the_list_is_asked_about_in_these_words() {
    let weather = Weather::Year(Box::new(places::open("il-chicago").unwrap()));
    // What the demonstration is asked anyway, in whatever figures.
    let anyway: BTreeSet<String> = questions(&[], &weather).iter().map(|words| begun(words)).collect();
    let told = SLIPS.par_iter().map(|(name, slip)| {
        let asked: Vec<String> =
            questions(slip, &weather).into_iter().filter(|words| !anyway.contains(&begun(words))).collect();
        assert!(!asked.is_empty(), "{name}: nothing is asked");
        let typed: Vec<&str> = slip.iter().flat_map(|(_, to)| to.trim_end().lines()).collect();
        format!("{name}\n    {}\n{}\n", typed.join("\n    "), asked.join("\n"))
    });
    let found = told.collect::<Vec<String>>().join("\n");
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/all/job_questions.txt");
    if std::env::var_os("WINTERLEDGER_REWRITE").is_some() {
        std::fs::write(&path, &found).unwrap();
    }
    let kept = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(kept == found, "job_questions.txt is not current; see the head of this file:\n{found}");
}

/// What a question is about: its first words.
fn begun(words: &str) -> String {
    words.split(':').next().unwrap_or_default().to_owned()
}
