//! Zones: each with its machines, set points and schedule; totals add up; an option is cold when any zone
//! is, and says which. Two-speed machines and whole jobs with machines that need no ducts.
//!
//! Start at the tests.

use crate::demo_job::{self, chicago, compared, job, plan_of, run_of};
use winterledger::comparison::{Comparison, Warmth, compare};
use winterledger::fuel::FuelId;
use winterledger::ledger::Posting;
use winterledger::load::{Schedule, SetBack};
use winterledger::report;
use winterledger::simulation::plan::OptionPlan;
use winterledger::simulation::record::Trace;
use winterledger::simulation::{EndUse, FuelLimits, OptionState, advance};

fn trace(plan: &OptionPlan) -> Trace {
    let mut trace = Trace::default();
    let mut state = OptionState::at_set_point(plan);
    advance(plan, 0..plan.outdoor_c.len(), &mut state, &mut FuelLimits::none(), &mut trace);
    trace
}

const NIGHT: (&str, &str) =
    ("house.zone.studio wing.set_back", "[{ from = \"22:00\", to = \"06:00\", set_point = \"60 degF\" }]");

#[test]
fn zones_go_their_own_ways_and_their_energy_adds_up() {
    let c = compared(&[NIGHT]);
    let run = run_of(&c);
    for option in 0..c.options.len() {
        let both = plan_of(&c, option, &run);
        let alone = |zone: usize| {
            let zones = vec![both.zones[zone].clone()];
            trace(&OptionPlan { zones, ..both.clone() }).outcomes
        };
        let (main, wing, together) = (alone(0), alone(1), trace(&both).outcomes);
        for (h, pair) in together.chunks(2).enumerate() {
            assert_eq!((pair[0], pair[1]), (main[h], wing[h]), "option {option}, hour {h}");
        }
    }
}

fn kwh(c: &Comparison, option: usize) -> f64 {
    let used = |p: &&Posting| p.fuel == FuelId::ELECTRICITY && p.end_use != EndUse::FixedCharge;
    c.options[option].ledger.postings.iter().filter(used).map(|p| p.quantity).sum()
}

#[test]
fn what_an_option_costs_is_what_its_zones_draw() {
    let c = compared(&[NIGHT]);
    let run = run_of(&c);
    // The first option is all electric: every kWh of both zones is posted, once.
    let plan = plan_of(&c, 0, &run);
    let outcomes = trace(&plan).outcomes;
    let mut drawn = 0.0;
    for pair in outcomes.chunks(2) {
        for (zone, outcome) in plan.zones.iter().zip(pair) {
            let heat: f64 = outcome.heaters.iter().map(|o| o.draw + o.side).sum();
            let idle = |s: &&winterledger::simulation::plan::Standby| {
                let heated = s.heater.is_some_and(|i| outcome.heaters[i].heat > 0.0);
                !(heated || s.is_cooler && outcome.cooler.heat > 0.0)
            };
            let standby: f64 = zone.standby.iter().filter(idle).map(|s| s.kw).sum();
            drawn += heat + outcome.cooler.draw + outcome.cooler.side + standby;
        }
    }
    assert!((kwh(&c, 0) - drawn).abs() < 1e-6 * drawn, "{} {drawn}", kwh(&c, 0));
}

#[test]
fn an_option_is_cold_when_any_zone_is_and_the_report_names_each() {
    let alone = "Heat pumps alone";
    let option = |c: &Comparison| c.options.iter().position(|o| o.design.name == alone).unwrap();
    let told = |c: &Comparison| {
        let lines = report::build::report(c).verdict;
        lines.into_iter().find(|l| l.contains(alone) && l.contains("GOES COLD"))
    };
    // The main zone is short by itself; a wing of twice the load is short too; a small house is not.
    let main = compared(&[]);
    let line = told(&main).unwrap();
    assert!(line.contains("main for") && !line.contains("studio wing for"), "{line}");
    let both = compared(&[("house.zone.studio wing.design_load", "17500 Btu/h")]);
    let line = told(&both).unwrap();
    assert!(line.contains("main for") && line.contains("studio wing for"), "{line}");
    let wing = compared(&[
        ("house.zone.studio wing.design_load", "17500 Btu/h"),
        ("house.zone.main.design_load", "15000 Btu/h"),
    ]);
    let line = told(&wing).unwrap();
    assert!(!line.contains("main for") && line.contains("studio wing for"), "{line}");
    let result = &wing.options[option(&wing)];
    let by_zone: Vec<_> = result.zones.iter().map(|z| z.sums.comfort.hours_not_kept_warm).collect();
    assert!(by_zone[0] == 0 && by_zone[1] > 0, "{by_zone:?}");
    assert_eq!(result.hours_not_kept_warm(), by_zone[1]);
    let none = compared(&[
        ("house.zone.studio wing.design_load", "5000 Btu/h"),
        ("house.zone.main.design_load", "15000 Btu/h"),
    ]);
    assert_eq!(told(&none), None);
}

/// A night so cool that no option of the demonstration is warm again 3 hours after it.
const DEEP: (&str, &str) =
    ("house.zone.main.set_back", "[{ from = \"22:00\", to = \"06:00\", set_point = \"55 degF\" }]");

#[test]
fn an_option_that_only_its_set_back_makes_short_is_slow_and_not_cold() {
    let (held, deep) = (compared(&[]), compared(&[DEEP]));
    for (with, without) in deep.options.iter().zip(&held.options) {
        assert!(with.hours_not_kept_warm() > 0, "still counted: {}", with.design.name);
        // The twin must be the very job without the key, which is run on its own here.
        let twin = with.without_set_backs.unwrap();
        assert_eq!(twin.hours_not_kept_warm, without.hours_not_kept_warm());
        assert!((twin.yearly_cost - without.yearly_cost()).abs() < 1e-9, "{}", with.design.name);
        let alone = with.design.name == "Heat pumps alone";
        let expected = if alone { Warmth::GoesCold } else { Warmth::SlowToRecover };
        assert_eq!(with.warmth(), expected, "{}", with.design.name);
    }
    assert!(held.options.iter().all(|o| o.without_set_backs.is_none()));
    let lines = report::build::report(&deep).verdict;
    let cold: Vec<_> = lines.iter().filter(|l| l.contains("GOES COLD")).collect();
    assert!(cold.len() == 1 && cold[0].contains("Heat pumps alone"), "{cold:?}");
    let slow =
        lines.iter().find(|l| l.contains("slow to warm up after the thermostat was turned down")).unwrap();
    let ample = held.options.iter().filter(|o| !o.goes_cold());
    assert!(ample.into_iter().all(|o| slow.contains(&o.design.name)), "{slow}");
    assert!(!slow.contains("Heat pumps alone") && slow.contains("Turn down less"), "{slow}");
    assert!(!lines.iter().any(|l| l.contains("No option keeps")), "{lines:?}");
}

#[test]
fn a_schedule_without_set_backs_holds_its_highest_set_point() {
    // A set point that is raised by day instead of lowered by night: 62 °F, and 70 °F from 6 to 22 h.
    let day = SetBack { from_minute: 360, to_minute: 1320, set_point_c: 21.1 };
    let raised = Schedule { set_point_c: 16.7, set_backs: vec![day] };
    assert_eq!(raised.without_set_backs(), Schedule { set_point_c: 21.1, set_backs: Vec::new() });
}

#[test]
fn the_coldest_night_names_those_that_fall_short() {
    let told = |text: &str, changes: &[(&str, &str)]| {
        let compared = compare(&job(text, changes), &chicago()).unwrap();
        let lines = report::build::report(&compared).verdict;
        lines.into_iter().find(|l| l.starts_with("On the coldest night")).unwrap()
    };
    // Of the five that keep warm only 4 kW of baseboard carries the wing at −22 °F.
    let line = told(&demo_job::text(), &[]);
    for name in ["Heat pumps with strips", "Propane furnace", "Heat pump and propane", "Oil furnace"] {
        assert!(line.contains(&format!("\u{201c}{name}\u{201d}")), "{line}");
    }
    assert!(!line.contains("Electric resistance") && line.contains(" fall short"), "{line}");
    // Hand-worked at −22 °F: main needs 475·92 − 3,800 = 39,900 Btu/h; a furnace of 40,000 gives
    // (38,000 + 1,706)·0.95 = 37,700, 15 kW of strips 48,600. The wing needs 125·92 − 1,000 = 10,500; 4 kW are 13,650.
    let turns =
        demo_job::text().replace("compressor_lockout = \"15 degF\"", "").replace("sharing = \"in_time\"", "");
    let strips = "[\"main heat pump\", \"duct strips 15 kW\"]";
    let one = told(
        &turns,
        &[
            ("equipment.\"wing baseboard 2 kW\".stages", "[\"4 kW\"]"),
            ("equipment.\"propane furnace\".input", "\"40000 Btu/h\""),
            ("option.\"Heat pump and propane\".zone.main.heating", strips),
        ],
    );
    assert!(one.contains("\u{201c}Propane furnace\u{201d} falls short"), "{one}");
}

/// The demonstration job with more machines and one more option.
fn with(machines: &str, option: &str) -> Comparison {
    let text = demo_job::text();
    let (first, prices) = (text.find("[[option]]").unwrap(), text.find("[prices.electricity]").unwrap());
    let text = format!("{}{machines}\n{}{option}\n{}", &text[..first], &text[first..prices], &text[prices..]);
    compare(&job(&text, &[]), &chicago()).unwrap()
}

const TWO_SPEED: &str = r#"
[[equipment]]
name = "two-speed"
kind = "heat_pump"
ducted = true
capacity_basis = "with_defrost"
power_includes_indoor_fan = true
cycling_loss = 0.2
defrost_aux = "none"
heating = [
  { outdoor = "17 degF", least = "15 kBtu/h", least_power = "1.5 kW", greatest = "21 kBtu/h", greatest_power = "2.4 kW" },
  { outdoor = "47 degF", least = "25 kBtu/h", least_power = "1.9 kW", greatest = "34 kBtu/h", greatest_power = "3 kW" },
]
"#;

const TWO_SPEED_OPTION: &str = r#"
[[option]]
name = "Two-speed"
[[option.zone]]
zone = "main"
heating = ["two-speed", "duct strips 15 kW"]
[[option.zone]]
zone = "studio wing"
heating = ["wing baseboard 4 kW"]
"#;

#[test]
fn a_two_speed_machine_alternates_between_its_speeds_and_cycles_below_the_low_one() {
    use winterledger::comparison::working::{Moment, work_out};
    use winterledger::simulation::working::{Running, Step};
    use winterledger::units::{btu_to_kwh, fahrenheit_to_celsius};
    let c = with(TWO_SPEED, TWO_SPEED_OPTION);
    let at = |f: f64| {
        let moment = Moment::Outdoor(fahrenheit_to_celsius(f));
        let working = work_out(&c, c.options.len() - 1, 0, moment).unwrap();
        let step = working.steps.into_iter().find(|s| matches!(s, Step::Output { heater: 0, .. })).unwrap();
        let Step::Output { how, heat_kw, draw_kw, .. } = step else { panic!() };
        (how, heat_kw, draw_kw)
    };
    // Hand-worked at 32 °F, half-way: low 20 kBtu/h for 1.7 kW, high 27.5 for 2.7. The need is
    // 475·(70 − 32) − 3,800 = 14,250, through ducts of 0.95 15,000: below the low speed, share 0.75,
    // PLF 1 − 0.2·0.25 = 0.95, draw 1.7·0.75/0.95.
    let (how, heat, draw) = at(32.0);
    assert!(matches!(how, Running::Cycling { .. }) && (heat - btu_to_kwh(15_000.0)).abs() < 1e-9, "{how:?}");
    assert!((draw - 1.7 * 0.75 / 0.95).abs() < 1e-9, "{draw}");
    // At 22 °F: low 16.667 for 1.5667, high 23.167 for 2.5; need 475·48 − 3,800 = 19,000, wanted 20,000: the
    // low speed for X = (23.167 − 20)/(23.167 − 16.667) of the time, the high one for the rest, as the
    // rating standard counts two speeds (10 CFR 430 Subpart B Appendix M1).
    let (_, heat, draw) = at(22.0);
    let x = (23.0 + 1.0 / 6.0 - 20.0) / 6.5;
    assert!((heat - btu_to_kwh(20_000.0)).abs() < 1e-9);
    assert!((draw - (x * (1.5 + 0.4 / 6.0) + (1.0 - x) * 2.5)).abs() < 1e-9, "{draw}");
}

const NO_DUCTS: &str = r#"
[[equipment]]
name = "stove"
kind = "wood_stove"
fuel = "propane"
input = "40 kBtu/h"
efficiency = 0.7
daily_fuelling = "4 gal"

[[equipment]]
name = "wall heater"
kind = "wall_heater"
fuel = "propane"
input = "30 kBtu/h"
efficiency = 0.7
pilot = "900 Btu/h"

[[equipment]]
name = "ground source"
kind = "ground_source_heat_pump"
ducted = true
power_includes_indoor_fan = true
heating = [{ entering = "30 degF", greatest = "26 kBtu/h", greatest_cop = 3.4 }, { entering = "50 degF", greatest = "34 kBtu/h", greatest_cop = 4.3 }]
design_entering = "30 degF"
loop_depth = "6 ft"
"#;

const NO_DUCTS_OPTION: &str = r#"
[[option]]
name = "Ground, stove, wall heater"
[[option.zone]]
zone = "main"
heating = ["ground source", "stove"]
[[option.zone]]
zone = "studio wing"
heating = ["wall heater"]
"#;

#[test]
fn a_house_of_machines_without_ducts_runs_from_its_job_text() {
    let c = with(NO_DUCTS, NO_DUCTS_OPTION);
    let option = c.options.last().unwrap();
    let propane = c.fuels.find("propane").unwrap();
    let gallons = |end_use| {
        let of = |p: &&Posting| p.fuel == propane && p.end_use == end_use;
        option.ledger.postings.iter().filter(of).map(|p| p.quantity).sum::<f64>()
    };
    // Hand-worked: 900 Btu/h all year are 8,760·900/91,452 = 86.21 gal; those of hours without heat wait.
    let all = 8760.0 * 900.0 / 91_452.0;
    assert!(
        gallons(EndUse::Standby) > 0.4 * all && gallons(EndUse::Standby) < all,
        "{}",
        gallons(EndUse::Standby)
    );
    // A stove given 4 gal a day cannot burn more than that on 365 days.
    let stove_kwh = option.zones[0].sums.heater_draw_kwh[1];
    assert!(stove_kwh > 0.0 && stove_kwh <= 365.0 * 4.0 * c.fuels.get(propane).unwrap().kwh_per_unit);
    assert!(option.cold_night.power_out.without_power.is_some(), "stove and pilot need no power");
    // A loop that comes back warmer than the winter air beats the air-source pump's COP of 2 to 3.
    let ground = &option.zones[0].sums;
    let cop = ground.heater_heat_kwh[0] / ground.heater_draw_kwh[0];
    assert!(cop > 3.4 && cop < 4.3, "{cop}");
}
