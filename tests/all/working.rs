//! The written-out working against the kernel and against the arithmetic it prints.

use winterledger::comparison::working::{Moment, work_out};
use winterledger::comparison::{Comparison, compare};
use winterledger::job::reader;
use winterledger::report::working::lines;
use winterledger::simulation::working::{Running, Step};
use winterledger::units::fahrenheit_to_celsius;
use winterledger::weather::{Weather, places};

fn demo() -> Comparison {
    let job = reader::read("demo.toml", include_str!("../../data/demo.toml").to_owned()).unwrap();
    compare(&job, &Weather::Year(Box::new(places::open("il-chicago").unwrap()))).unwrap()
}

/// What a step says a machine draws, from the figures it gives.
fn by_hand(how: &Running, heat_kw: f64) -> f64 {
    match how {
        Running::Off => 0.0,
        Running::Cycling { power_least_kw, share, part_load_factor, .. } => {
            power_least_kw * share / part_load_factor
        }
        Running::Between { from_kw, power_kw, slope } => power_kw + slope * (heat_kw - from_kw),
    }
}

#[test]
fn every_hour_written_out_recomputes_from_its_own_figures() {
    let controls = [
        ("equipment.main heat pump.defrost_aux", "5 kW"),
        ("option.Heat pumps with strips.zone.main.staged_recovery", "true"),
        ("house.zone.main.set_back", "[{ from = \"22:00\", to = \"06:00\", set_point = \"62 degF\" }]"),
    ];
    recomputes(&demo());
    recomputes(&crate::demo_job::compared(&controls));
    let job = crate::demo_job::job(&crate::ducts::leaky(&crate::demo_job::text()), &controls);
    recomputes(&compare(&job, &crate::demo_job::chicago()).unwrap());
}

fn recomputes(c: &Comparison) {
    for option in 0..c.options.len() {
        for zone in 0..c.zones.len() {
            for hour in (0..8760).step_by(397) {
                let working = work_out(c, option, zone, Moment::Hour(hour)).unwrap();
                let mut room = 0.0;
                let (mut ducts_now, mut lost_now) = (1.0, 0.0);
                let mut last = 0.0;
                let mut need = 0.0;
                for step in &working.steps {
                    match step {
                        Step::Need { loss_kw_k, gains_kw, steady_c, outdoor_c, need_kw, .. } => {
                            let own = (loss_kw_k * (steady_c - outdoor_c) - gains_kw).max(0.0);
                            assert!((own - need_kw).abs() < 1e-9);
                            need = *need_kw;
                        }
                        Step::Wanted { lacking_kw, ducts, wanted_kw, .. } => {
                            assert!((lacking_kw / ducts - wanted_kw).abs() < 1e-12);
                            room += last;
                            (ducts_now, lost_now) = (*ducts, 0.0);
                            last = 0.0;
                        }
                        Step::WantedThrough { lacking_kw, kept, lost_kw, running, wanted_kw, .. } => {
                            assert!(((lacking_kw + lost_kw * running) / kept - wanted_kw).abs() < 1e-12);
                            room += last;
                            (ducts_now, lost_now) = (*kept, *lost_kw);
                            last = 0.0;
                        }
                        Step::Output { how, heat_kw, draw_kw, .. } => {
                            assert!((by_hand(how, *heat_kw) - draw_kw).abs() < 1e-9, "{step:?}");
                            let running = match how {
                                Running::Off => 0.0,
                                Running::Cycling { share, .. } => *share,
                                Running::Between { .. } => 1.0,
                            };
                            last = heat_kw * ducts_now - lost_now * running;
                        }
                        Step::Defrosting { running_kw, heat_kw } => {
                            assert!(
                                *heat_kw > 0.0
                                    && heat_kw <= running_kw
                                    && *heat_kw <= (last + lost_now) / ducts_now
                            );
                        }
                        Step::Turn { share, .. } | Step::Fuelled { share, .. } => last *= share,
                        Step::Delivered { heat_kw, need_kw, .. } => {
                            assert!((room + last - heat_kw).abs() < 1e-9, "{step:?} {room} {last}");
                            assert_eq!(*need_kw, need);
                        }
                    }
                }
            }
        }
    }
}

#[test]
fn a_steady_hour_at_17_degrees_reads_as_worked_by_hand() {
    let c = demo();
    let working = work_out(&c, 0, 0, Moment::Outdoor(fahrenheit_to_celsius(17.0))).unwrap();
    let text = lines(&working, &c).join("\n");
    // Hand-worked: 475 Btu/h·°F × (70 − 17) − 475 × (70 − 62) = 25,175 − 3,800 = 21,375 Btu/h; ducts 0.95:
    // 22,500. Map row at 17 °F: least 10,000 at COP 2.55 = 1.1493 kW, greatest 32,000 at 2.35 = 3.9908 kW.
    // Draw 1.1493 + (3.9908 − 1.1493)/22 × 12.5 = 2.7638 kW; at $0.184: $0.5085.
    for part in [
        "less gains 3.800 kBtu/h = 21.375 kBtu/h.",
        "21.375 kBtu/h / 0.950 = 22.500 kBtu/h wanted.",
        "least 10.000 kBtu/h for 1.1493 kW, greatest 32.000 kBtu/h for 3.9908 kW",
        "= 2.7638 kW.",
        "Cost of the hour: $0.5085.",
    ] {
        assert!(text.contains(part), "{part} is not in\n{text}");
    }
}

#[test]
fn a_lock_out_is_named_in_the_working() {
    let c = demo();
    // The option's compressor lock-out is 15 degF.
    let two_fuel = c.options.iter().position(|o| o.design.name == "Heat pump and propane").unwrap();
    let at = |fahrenheit| {
        let moment = Moment::Outdoor(fahrenheit_to_celsius(fahrenheit));
        lines(&work_out(&c, two_fuel, 0, moment).unwrap(), &c).join("\n")
    };
    assert!(at(-5.0).contains("main heat pump is locked out"), "{}", at(-5.0));
    assert!(!at(30.0).contains("locked out"), "{}", at(30.0));
    assert!(at(30.0).contains("propane furnace has no part of this hour"), "{}", at(30.0));
}
