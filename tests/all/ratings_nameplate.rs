//! Nameplates into maps: the round trip, the band, and labels that no machine can have.

use winterledger::comparison::{Comparison, Note, compare};
use winterledger::equipment::map::{MapRow, PerformanceMap, Point};
use winterledger::equipment::nameplate::{CoolingPlate, HeatingPlate, Nameplate, derive};
use winterledger::equipment::ratings::of_map::{Speeds, own_hspf2, own_seer2};
use winterledger::equipment::ratings::seasons::{UsClimate, UsRegion};
use winterledger::job::reader::read;
use winterledger::report::{build, json};
use winterledger::units::{btu_to_kwh, fahrenheit_to_celsius};
use winterledger::weather::{Weather, places};

/// Numbers of its own, the same in every run: splitmix64, Steele, Lea, Flood 2014.
struct Stream(u64);

impl Stream {
    fn unit(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        ((z ^ (z >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit()
    }
}

/// A machine with the shape that the program does not know: its own COPs, turndown and gains.
struct Machine {
    heating: PerformanceMap,
    cooling: PerformanceMap,
    turndown: f64,
    speeds: Speeds,
    has_5: bool,
}

fn row(outdoor_f: f64, full: (f64, f64), turndown: f64, gain: f64) -> MapRow {
    let (kbtuh, cop) = full;
    let capacity_kw = btu_to_kwh(1000.0 * kbtuh);
    let greatest = Point { capacity_kw, power_kw: capacity_kw / cop };
    let least =
        Point { capacity_kw: turndown * capacity_kw, power_kw: turndown * capacity_kw / (cop * gain) };
    MapRow { outdoor_c: fahrenheit_to_celsius(outdoor_f), least, rated: greatest, greatest }
}

/// Ranges are a judgement of what is on the market: capacities of 1 to 5 tons, COP at 47 °F 2.8–4.5.
fn machine(s: &mut Stream) -> Machine {
    let one = s.unit() < 0.3;
    let turndown = if one { 1.0 } else { s.between(0.2, 0.7) };
    let gain = if one { 1.0 } else { s.between(1.0, 1.5) };
    let (size, cop) = (s.between(12.0, 60.0), s.between(2.8, 4.5));
    let (at_17, cop_17) = (size * s.between(0.55, 1.0), cop * s.between(0.60, 0.80));
    let at_35 = 0.5 * (size + at_17) * s.between(0.88, 0.97);
    let (at_5, cop_5) = (at_17 * s.between(0.75, 0.95), cop_17 * s.between(0.78, 0.92));
    let has_5 = s.unit() < 0.7;
    let mut heating = vec![
        row(47.0, (size, cop), turndown, gain),
        row(35.0, (at_35, 0.5 * (cop + cop_17) * 0.95), turndown, gain),
        row(17.0, (at_17, cop_17), turndown, gain),
    ];
    if has_5 {
        heating.push(row(5.0, (at_5, cop_5), turndown, gain));
    }
    let (cold, eer) = (size * s.between(0.8, 1.1), s.between(2.6, 4.2));
    let cooling = vec![
        row(82.0, (cold * s.between(1.02, 1.12), eer * s.between(1.1, 1.35)), turndown, gain),
        row(95.0, (cold, eer), turndown, gain),
    ];
    Machine {
        heating: PerformanceMap::new(heating).unwrap(),
        cooling: PerformanceMap::new(cooling).unwrap(),
        turndown,
        speeds: if one { Speeds::One } else { Speeds::Variable },
        has_5,
    }
}

fn greatest(map: &PerformanceMap, outdoor_f: f64) -> f64 {
    map.held_at(fahrenheit_to_celsius(outdoor_f)).greatest.capacity_kw
}

#[test]
fn a_thousand_machines_come_back_from_their_labels_with_the_same_ratings() {
    let climate = UsClimate::built_in().unwrap();
    let mut stream = Stream(20_240_701);
    for i in 0..1_000 {
        let m = machine(&mut stream);
        let hspf2 = own_hspf2(&m.heating, Some(&m.cooling), m.speeds, &climate).unwrap();
        let seer2 = own_seer2(&m.cooling, m.speeds, true, &climate).unwrap();
        let heating = HeatingPlate {
            capacity_47_kw: greatest(&m.heating, 47.0),
            capacity_17_kw: greatest(&m.heating, 17.0),
            capacity_5_kw: m.has_5.then(|| greatest(&m.heating, 5.0)),
            hspf2,
        };
        let cooling = CoolingPlate { capacity_95_kw: greatest(&m.cooling, 95.0), seer2 };
        let plate = Nameplate { heating: Some(heating), cooling: Some(cooling), turndown: m.turndown };
        let derived = derive(&plate, &climate).unwrap_or_else(|p| panic!("machine {i}: {p:?}"));
        let (warm, cold) = (derived.heating.unwrap(), derived.cooling.unwrap());
        let back = own_hspf2(&warm.map, Some(&cold.map), m.speeds, &climate).unwrap();
        let cold_back = own_seer2(&cold.map, m.speeds, true, &climate).unwrap();
        // Held to 0.5 %; the halving in fact meets the label within 1e-9.
        assert!((back / hspf2 - 1.0).abs() < 0.005, "machine {i}: HSPF2 {hspf2}, back {back}");
        assert!((cold_back / seer2 - 1.0).abs() < 0.005, "machine {i}: SEER2 {seer2}, back {cold_back}");
        // Capacities are the label's own.
        assert!((greatest(&warm.map, 17.0) / heating.capacity_17_kw - 1.0).abs() < 1e-12);
        assert!((greatest(&cold.map, 95.0) / cooling.capacity_95_kw - 1.0).abs() < 1e-12);
        for band in [warm.band, cold.band] {
            assert!(band.low <= 0.95 && band.low > 0.5 && band.high >= 1.05 && band.high < 2.0, "{band:?}");
        }
    }
}

fn plate(capacity_17: f64, hspf2: f64, seer2: f64) -> Nameplate {
    let kw = |kbtuh: f64| btu_to_kwh(1000.0 * kbtuh);
    Nameplate {
        heating: Some(HeatingPlate {
            capacity_47_kw: kw(36.0),
            capacity_17_kw: kw(capacity_17),
            capacity_5_kw: None,
            hspf2,
        }),
        cooling: Some(CoolingPlate { capacity_95_kw: kw(34.0), seer2 }),
        turndown: 0.3,
    }
}

#[test]
fn a_label_that_no_machine_can_have_is_refused_with_what_it_would_mean() {
    let climate = UsClimate::built_in().unwrap();
    let told = |p: Nameplate| {
        let problems = derive(&p, &climate).unwrap_err();
        problems.iter().map(|p| p.what.clone()).collect::<Vec<_>>().join("; ")
    };
    // Little left at 17 °F: even a machine that needs no electricity leaves the rating's load to backup.
    assert!(told(plate(8.0, 12.0, 18.0)).contains("no machine of these capacities can have HSPF2 12"));
    // Nearly as good as strips, and far better than any machine.
    assert!(told(plate(30.0, 3.45, 18.0)).contains("a COP of "), "{}", told(plate(30.0, 3.45, 18.0)));
    assert!(told(plate(36.0, 30.0, 18.0)).contains("HSPF2 30"), "{}", told(plate(36.0, 30.0, 18.0)));
    assert!(told(plate(30.0, 9.0, 48.0)).contains("SEER2 48"), "{}", told(plate(30.0, 9.0, 48.0)));
    // Both at once.
    let both = derive(&plate(8.0, 12.0, 48.0), &climate).unwrap_err();
    assert_eq!(both.len(), 2, "{both:?}");
    assert!(derive(&plate(30.0, 9.0, 18.0), &climate).is_ok());
}

#[test]
fn a_better_label_draws_less_at_the_same_capacity() {
    let climate = UsClimate::built_in().unwrap();
    let map = |hspf2: f64| derive(&plate(30.0, hspf2, 18.0), &climate).unwrap().heating.unwrap();
    let (plain, better) = (map(8.5), map(10.0));
    assert!(better.multiplier < plain.multiplier);
    for (a, b) in plain.map.rows().iter().zip(better.map.rows()) {
        assert_eq!(a.greatest.capacity_kw, b.greatest.capacity_kw);
        assert!(b.greatest.power_kw < a.greatest.power_kw && b.least.power_kw < a.least.power_kw);
    }
}

#[test]
fn a_machine_that_only_heats_is_rated_by_its_own_capacity() {
    let climate = UsClimate::built_in().unwrap();
    let only_heat = Nameplate { cooling: None, ..plate(30.0, 9.0, 18.0) };
    let derived = derive(&only_heat, &climate).unwrap();
    assert_eq!(derived.cooling, None);
    let own = own_hspf2(&derived.heating.unwrap().map, None, Speeds::Variable, &climate).unwrap();
    assert!((own / 9.0 - 1.0).abs() < 1e-9, "{own}");
}

const DEMO: &str = include_str!("../../data/demo.toml");

fn compared(text: &str) -> Comparison {
    let job = read("job.toml", text.to_owned()).unwrap_or_else(|p| panic!("{p:?}"));
    let weather = Weather::Year(Box::new(places::open("il-chicago").unwrap()));
    compare(&job, &weather).unwrap_or_else(|p| panic!("{p:?}"))
}

/// The demonstration with the main heat pump known by its nameplate alone.
fn by_nameplate() -> String {
    let start = DEMO.find("name = \"main heat pump\"").unwrap();
    let end = start + DEMO[start..].find("\n[[equipment]]").unwrap();
    let plate = "name = \"main heat pump\"\nkind = \"heat_pump\"\nducted = true\ncut_out = \"-17 degF\"\n\
                 nameplate = { capacity_47 = \"38 kBtu/h\", capacity_17 = \"32 kBtu/h\", capacity_5 = \"28 kBtu/h\", \
                 hspf2 = 8.5, cooling_capacity_95 = \"31 kBtu/h\", seer2 = 16, turndown = 0.3 }\n";
    format!("{}{plate}{}", &DEMO[..start], &DEMO[end..])
}

#[test]
fn a_derived_machine_leaves_the_yearly_cost_open_and_says_so() {
    let c = compared(&by_nameplate());
    let mut open = 0;
    for option in &c.options {
        let machines = option.design.zones.iter().flat_map(|z| z.heaters.iter().chain(&z.cooler));
        let uses = machines.filter_map(|i| c.machines.get(*i)).any(|m| m.name == "main heat pump");
        assert_eq!(option.yearly_cost_range().is_some(), uses, "{}", option.design.name);
        let Some((low, high)) = option.yearly_cost_range() else { continue };
        // At least 5 % of the inputs either way: some money, but less than that share of all costs is
        // fuel of this machine, and no band is wider than 2.
        assert!(low < option.yearly_cost() && option.yearly_cost() < high, "{low} {high}");
        assert!(low > 0.5 * option.yearly_cost() && high < 1.5 * option.yearly_cost(), "{low} {high}");
        open += 1;
    }
    assert!(open > 0 && open < c.options.len());
    let told = |a: &&winterledger::sources::Assumption| a.key.starts_with("equipment.main heat pump.heating");
    assert!(c.assumptions.0.iter().find(told).unwrap().value.contains("inputs open from 0.9"));
    let text = json::text(&c, None).unwrap();
    assert!(text.contains("\"yearly_cost_range\": ["));
    // The demonstration has rows, so nothing is left open.
    assert!(compared(DEMO).options.iter().all(|o| o.yearly_cost_range().is_none()));
}

#[test]
fn two_options_are_too_close_to_call_where_a_nameplate_leaves_their_order_open() {
    // Without the tank the two are further apart.
    let mut c = compared(&crate::demo_job::text());
    let verdict = |c: &Comparison| build::report(c).verdict.join(" ");
    assert!(verdict(&c).contains("costs least to run"));
    let place = |c: &Comparison, name: &str| c.options.iter().position(|o| o.design.name == name).unwrap();
    let (best, next) = (place(&c, "Heat pumps with strips"), place(&c, "Heat pump and propane"));
    let (low, high) = (c.options[best].yearly_cost(), c.options[next].yearly_cost());
    // Both dearer by the same unknown: the order stands.
    c.options[best].cost_at_band_ends = Some([low - 300.0, low + 300.0]);
    c.options[next].cost_at_band_ends = Some([high - 300.0, high + 300.0]);
    assert!(verdict(&c).contains("costs least to run"));
    // The best alone could be as dear as the next.
    c.options[next].cost_at_band_ends = None;
    assert!(verdict(&c).contains("too close to call"));
}

fn labelled(keys: &str) -> Vec<Note> {
    let place = "cut_out = \"-17 degF\"\n";
    assert_eq!(DEMO.matches(place).count(), 1);
    let c = compared(&DEMO.replace(place, &format!("{keys}\n{place}")));
    c.notes.into_iter().filter(|n| matches!(n, Note::Label { .. })).collect()
}

#[test]
fn a_label_that_the_rows_contradict_is_told_and_one_that_they_bear_out_is_not() {
    // The rows' own ratings are found first, with labels that contradict them.
    let notes = labelled("label_hspf2 = 20\nlabel_seer2 = 50");
    let [Note::Label { own: Some(hspf2), .. }, Note::Label { own: Some(seer2), .. }] = notes.as_slice()
    else {
        panic!("{notes:?}")
    };
    // Rows of COP 3.2 at 47 and 2.35 at 17 °F, EER 12.6 and 9.9: within what is sold with such rows.
    assert!((7.0..10.0).contains(hspf2) && (13.0..20.0).contains(seer2), "{hspf2} {seer2}");
    let near =
        |by: f64| labelled(&format!("label_hspf2 = {}\nlabel_seer2 = {}", hspf2 * by, seer2 * by)).len();
    // Held to 10 %: own/label − 1.
    assert_eq!((near(1.0), near(1.09), near(0.93), near(1.13), near(0.89)), (0, 0, 0, 2, 2));
}

#[test]
fn a_label_is_of_the_machine_at_sea_level() {
    let own = |keys: &str| match labelled(keys).as_slice() {
        [Note::Label { own: Some(own), .. }] => *own,
        other => panic!("{other:?}"),
    };
    let low = own("label_hspf2 = 20");
    let high = own("label_hspf2 = 20\naltitude_factor = 0.8");
    assert!((low / high - 1.0).abs() < 1e-12, "{low} {high}");
}

/// The job's own rows, cut-out and cycling loss. The expected figures are of an independent program in Python
/// 3.11, written from the equations of 10 CFR 430 Appendices M and M1 by somebody who had not read this one.
#[test]
fn a_jobs_machines_are_rated_with_their_cut_out_their_cycling_loss_and_their_speeds() {
    let machine = |name: &str, keys: &str, heating: &str, cooling: &str| {
        format!(
            "[[equipment]]\nname = \"{name}\"\nkind = \"heat_pump\"\nducted = false\npower_includes_indoor_fan = true\n\
             capacity_basis = \"with_defrost\"\n{keys}\nheating = [{heating}]\ncooling = [{cooling}]\n\n"
        )
    };
    let one = |f: &str, kbtu: &str, kw: &str| {
        format!("{{ outdoor = \"{f} degF\", greatest = \"{kbtu} kBtu/h\", greatest_power = \"{kw} kW\" }},")
    };
    let two = |f: &str, low: (&str, &str), high: (&str, &str)| {
        format!(
            "{{ outdoor = \"{f} degF\", least = \"{} kBtu/h\", least_power = \"{} kW\", greatest = \"{} kBtu/h\", \
             greatest_power = \"{} kW\" }},",
            low.0, low.1, high.0, high.1
        )
    };
    let rows = one("17", "19.7", "2.21") + &one("35", "27.3", "2.66") + &one("47", "33.1", "2.75");
    let cold = one("82", "34.6", "2.71") + &one("95", "32.2", "3.05");
    let both = two("17", ("14", "1.42"), ("19.7", "2.21"))
        + &two("35", ("19", "1.60"), ("27.3", "2.66"))
        + &two("47", ("23", "1.68"), ("33.1", "2.75"))
        + &two("62", ("28", "1.74"), ("39", "2.9"));
    let both_cold = two("67", ("27", "1.35"), ("37", "2.4"))
        + &two("82", ("25", "1.62"), ("34.6", "2.71"))
        + &two("95", ("23.1", "1.9"), ("32.2", "3.05"));
    let cut = "speed = \"one\"\ncut_out = \"2 degF\"\ncut_on = \"9 degF\"";
    let machines = machine("plain", "speed = \"one\"", &rows, &cold)
        + &machine("cut", cut, &rows, &cold)
        + &machine("two", "speed = \"two\"", &both, &both_cold);
    let text = crate::sheet::DEMO.replacen("[[equipment]]", &format!("{machines}[[equipment]]"), 1);
    let job = winterledger::job::reader::read("job.toml", text).unwrap();
    let c = winterledger::comparison::compare(&job, &crate::demo_job::chicago()).unwrap();
    let of = |name: &str| c.ratings.iter().find(|r| r.machine == name).unwrap();
    let iv = |name: &str| of(name).hspf2_in(UsRegion::IV).unwrap();
    for (found, expected) in [(iv("plain"), 7.552_916), (iv("cut"), 7.400_77), (iv("two"), 8.240_16)] {
        assert!((found / expected - 1.0).abs() < 1e-5, "{found} {expected}");
    }
    let seer2 = [("plain", 11.490_775), ("two", 13.719_82)];
    for (name, expected) in seer2 {
        let found = of(name).seer2.unwrap();
        assert!((found / expected - 1.0).abs() < 1e-5, "{name}: {found} {expected}");
    }
    assert_eq!(of("two").speeds, Speeds::Two);
    assert!(!of("wing heat pump").part_load_known && of("main heat pump").part_load_known);
    // The demonstration's air conditioner only cools.
    assert_eq!((of("air conditioner").hspf2, of("air conditioner").seer2.is_some()), ([None; 6], true));
}
