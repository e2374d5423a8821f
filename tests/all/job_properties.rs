//! Laws that hold for every job: units come back, more loss needs more heat, order of rows is no matter.

use proptest::prelude::*;
use winterledger::comparison::{Comparison, compare};
use winterledger::job::edit::set;
use winterledger::job::reader::read;
use winterledger::units::{
    Area, Energy, HeatCapacity, HeatLossRate, Length, Power, Quantity, Temperature, TemperatureDifference,
};
use winterledger::weather::places::open;
use winterledger::weather::{Weather, read as read_weather};

const STARTER: &str = include_str!("../../data/starter.toml");

/// A written number comes back from the unit it was written in, and a base number from every unit.
fn comes_back<Q: Quantity + PartialOrd>(number: f64) {
    for unit in Q::UNITS {
        let written = Q::parse(&format!("{number} {}", unit.name)).unwrap();
        let back = written.in_unit(unit.name).unwrap();
        // A shifted unit loses what the shift's digits take; a tenth of a billionth of its size is far below use.
        let room = 1e-10 * (number.abs() + unit.shift.abs() + 1.0);
        assert!((back - number).abs() <= room, "{number} {} came back as {back}", unit.name);
        let shown = Q::from_base(number).in_unit(unit.name).unwrap();
        let again = Q::parse(&format!("{shown} {}", unit.name)).unwrap().base();
        let room = 1e-10 * (number.abs() + (unit.shift * unit.factor).abs() + 1.0);
        assert!((again - number).abs() <= room, "{number} by way of {} is {again}", unit.name);
    }
}

/// Three significant figures and a power of ten keep the written text short and exact.
fn number() -> impl Strategy<Value = f64> {
    prop_oneof![(-1e6..1e6_f64), (-999..=999_i32, -6..=6_i32).prop_map(|(n, e)| f64::from(n) * 10f64.powi(e))]
}

proptest! {
    #[test]
    fn every_quantity_comes_back_from_every_unit(number in number()) {
        comes_back::<Temperature>(number);
        comes_back::<TemperatureDifference>(number);
        comes_back::<Power>(number);
        comes_back::<Energy>(number);
        comes_back::<HeatLossRate>(number);
        comes_back::<HeatCapacity>(number);
        comes_back::<Length>(number);
        comes_back::<Area>(number);
    }

    #[test]
    fn a_warmer_text_is_a_warmer_temperature(a in -100.0..100.0_f64, b in -100.0..100.0_f64) {
        for unit in ["degC", "degF", "kelvin"] {
            let read = |t: f64| Temperature::parse(&format!("{t} {unit}")).unwrap().base();
            prop_assert_eq!(a <= b, read(a) <= read(b));
        }
    }
}

fn run(text: &str, weather: &Weather) -> Comparison {
    let job = read("job.toml", text.to_owned()).unwrap_or_else(|p| panic!("{p:#?}"));
    compare(&job, weather).unwrap_or_else(|p| panic!("{p:#?}"))
}

fn cold_bins() -> Weather {
    read_weather(
        "bins.csv",
        b"outdoor_degF,hours\n97,40\n72,900\n52,700\n32,760\n12,157\n-3,41\n-13,4\n".as_slice(),
    )
    .unwrap()
}

/// One zone, one resistance heater without limit that matters: the need itself is what is looked at.
fn plain_house(load_btuh: f64, capacity_kwh_k: f64) -> String {
    format!(
        "format = 1\n[job]\ntitle = \"t\"\n[site]\nname = \"s\"\nweather = \"il-chicago\"\n[house]\n\
         [[house.zone]]\nname = \"z\"\ndesign_load = \"{load_btuh} Btu/h\"\ndesign_temperature = \"0 degF\"\n\
         indoor = \"70 degF\"\nbalance_temperature = \"62 degF\"\ndesign_load_includes_ducts = false\n\
         heat_capacity = \"{capacity_kwh_k} kWh/K\"\n[[equipment]]\nname = \"e\"\nkind = \"resistance\"\n\
         ducted = false\nstages = [\"50 kW\"]\n[[option]]\nname = \"o\"\n[[option.zone]]\nzone = \"z\"\n\
         heating = [\"e\"]\n[prices.electricity]\nprice = \"0.2 $/kWh\"\n"
    )
}

fn need(text: &str, weather: &Weather) -> f64 {
    run(text, weather).options[0].zones[0].sums.need_kwh
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn more_loss_never_needs_less_heat(load in 5_000.0..60_000.0_f64, more in 1.0..2.0_f64, capacity in 0.0..20.0_f64) {
        let year = Weather::Year(Box::new(open("il-chicago").unwrap()));
        for weather in [&year, &cold_bins()] {
            let (less_lossy, lossier) = (plain_house(load, capacity), plain_house(load * more, capacity));
            let (a, b) = (need(&less_lossy, weather), need(&lossier, weather));
            prop_assert!(a > 0.0 && b >= a * (1.0 - 1e-12), "{load} Btu/h needs {a}, {more} times as much {b} kWh");
        }
    }
}

#[test]
fn the_order_of_a_maps_rows_makes_no_difference() {
    let mut lines: Vec<&str> = STARTER.lines().collect();
    let rows: Vec<usize> =
        (0..lines.len()).filter(|i| lines[*i].trim_start().starts_with("{ outdoor")).collect();
    assert_eq!(rows.len(), 7, "three heating rows, two and two cooling rows");
    for part in [&rows[0..3], &rows[3..5], &rows[5..7]] {
        lines.swap(part[0], part[part.len() - 1]);
    }
    let turned = lines.join("\n") + "\n";
    assert_ne!(turned, STARTER);
    let year = Weather::Year(Box::new(open("nj-mcguire").unwrap()));
    for weather in [year, cold_bins()] {
        let (a, b) = (run(STARTER, &weather), run(&turned, &weather));
        assert_eq!(a.machines, b.machines);
        assert_eq!(a.options, b.options);
    }
}

#[test]
fn the_order_of_tables_makes_no_difference_to_an_option() {
    // The same job with prices first and the machines turned round.
    let (before, prices) = STARTER.split_at(STARTER.find("[prices.electricity]").unwrap());
    let at = before.find("[job]").unwrap();
    let turned = format!("{}{prices}\n{}", &before[..at], &before[at..]);
    let weather = cold_bins();
    let costs = |text: &str| run(text, &weather).options.iter().map(|o| o.yearly_cost()).collect::<Vec<_>>();
    assert_eq!(costs(STARTER), costs(&turned));
}

#[test]
fn what_is_edited_and_edited_back_gives_the_same_comparison() {
    let old = "\"36000 Btu/h\"";
    let changed = set(STARTER, "house.zone.main.design_load", "20000 Btu/h").unwrap();
    let weather = cold_bins();
    let (a, b) = (run(STARTER, &weather), run(&changed, &weather));
    assert!(b.options[0].yearly_cost() < a.options[0].yearly_cost());
    assert_eq!(set(&changed, "house.zone.main.design_load", old).unwrap(), STARTER);
}
